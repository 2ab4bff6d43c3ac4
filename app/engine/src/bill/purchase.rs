//! What is drawn from the shelf and what is bought, line by line.

use std::{collections::BTreeMap, sync::Arc};

use propwright_schema::{
    build_list::Spare,
    catalogue::Catalogue,
    part::{Part, Role},
    quantity::Money,
    slot::Slot,
    stock::{Condition, StockItem},
};

use super::Given;
use crate::craft::Craft;

/// What a line is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Need {
    /// A line of the build list's parts, by its place.
    Fitted(usize),
    /// A line of its spares, by its place.
    Spare(usize),
    /// Spare arms of a frame, by the place of the line in the spares.
    Arm(usize),
}

/// Pieces drawn from the shelf.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// Place in the stock.
    pub at: usize,
    /// The line of the stock, with what was measured.
    pub item: StockItem,
    /// How many of it.
    pub count: u32,
}

/// A line of the bill.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What it is for.
    pub need: Need,
    /// The slot; of a spare the first one that the part fills.
    pub slot: Slot,
    /// The part.
    pub part: Arc<Part>,
    /// Pieces needed.
    pub count: u32,
    /// The build list says that it is on the shelf.
    pub owned: bool,
    /// Pieces drawn from the shelf.
    pub drawn: Vec<Drawn>,
    /// Pieces that the packs of an earlier line left over.
    pub from_rest: u32,
    /// Packs bought.
    pub packs: u32,
    /// Pieces in a pack.
    pub pieces: u32,
    /// Price of one pack.
    pub unit_price: Option<Money>,
    /// Price of the packs bought; `None` when nobody states the price of one.
    pub price: Option<Money>,
    /// Days since the day of the price.
    pub age_days: Option<i32>,
}

impl Line {
    /// Must something be bought for it?
    pub const fn is_bought(&self) -> bool {
        self.packs > 0
    }

    /// Pieces drawn from the shelf.
    pub fn drawn_count(&self) -> u32 {
        self.drawn.iter().map(|drawn| drawn.count).sum()
    }

    /// Is it on the shelf as a whole?
    pub fn is_owned(&self) -> bool {
        !self.is_bought() && self.from_rest == 0
    }
}

/// What so many pieces of a part cost in whole packs, with none of them on the shelf; `None` while nobody states its price.
pub fn price_of(part: &Part, count: u32) -> Option<Money> {
    part.price?.times(count.div_ceil(part.pieces.unwrap_or(1).max(1)))
}

/// What is left of the shelf and of packs bought, while lines are served.
struct Shelf<'a> {
    given: &'a Given,
    left: Vec<u32>,
    rest: BTreeMap<String, (Arc<Part>, u32)>,
}

/// The lines of a craft and its spares, and what packs leave over. The last `boxed` items of the shelf lie in a box: what is said
/// to be owned does not draw from it.
pub(super) fn buy(catalogue: &Catalogue, craft: &Craft, given: &Given, boxed: usize) -> (Vec<Line>, Vec<(Arc<Part>, u32)>) {
    let left = given.stock.items.iter().map(|item| if item.is_free_for(&craft.build.name) { item.count } else { 0 }).collect();
    let mut shelf = Shelf { given, left, rest: BTreeMap::new() };
    let mut lines: Vec<Line> = Vec::new();
    // A line that is said to be on the shelf takes its pieces first, so that the order of lines makes no difference to the sum.
    let owned = craft.listed().filter(|placed| placed.fitted.owned);
    let mut reserved: BTreeMap<usize, Vec<Drawn>> =
        owned.map(|placed| (placed.line, shelf.draw(&placed.fitted.part, placed.fitted.count, boxed))).collect();
    for placed in craft.listed() {
        let (part, fitted) = (&placed.subject.part, &placed.fitted);
        // Where measured figures stand in for the maker's, the bill still names the article.
        let part = catalogue.part(&part.id).unwrap_or(part);
        let drawn = reserved.remove(&placed.line).unwrap_or_else(|| shelf.draw(&part.id, fitted.count, 0));
        lines.push(shelf.line((Need::Fitted(placed.line), placed.subject.slot), part, (fitted.count, fitted.owned), drawn));
    }
    for (at, spare) in craft.build.spares.iter().enumerate() {
        if let Some(part) = catalogue.part(&spare.part) {
            lines.push(shelf.spare(at, spare, part));
        }
    }
    (lines, shelf.rest.into_values().filter(|(_, count)| *count > 0).collect())
}

impl Shelf<'_> {
    fn line(&mut self, (need, slot): (Need, Slot), part: &Arc<Part>, (count, owned): (u32, bool), drawn: Vec<Drawn>) -> Line {
        let wanted = count.saturating_sub(drawn.iter().map(|drawn| drawn.count).sum());
        let wanted = if owned { 0 } else { wanted };
        let from_rest = self.rest.get(&part.id).map_or(0, |(_, rest)| wanted.min(*rest));
        let pieces = part.pieces.unwrap_or(1).max(1);
        let packs = (wanted - from_rest).div_ceil(pieces);
        if wanted > 0 {
            let rest = &mut self.rest.entry(part.id.clone()).or_insert_with(|| (Arc::clone(part), 0)).1;
            *rest = rest.saturating_add(packs.saturating_mul(pieces)).saturating_sub(wanted);
        }
        let price = part.price.and_then(|price| price.times(packs));
        let age_days = part.price.and(part.priced_on).and_then(|day| self.age(day));
        let part = Arc::clone(part);
        Line { need, slot, unit_price: part.price, part, count, owned, drawn, from_rest, packs, pieces, price, age_days }
    }

    fn spare(&mut self, at: usize, spare: &Spare, part: &Arc<Part>) -> Line {
        let slot = part.fills.iter().find_map(|role| role.slots().first().copied()).unwrap_or(Slot::Frame);
        if !spare.arm {
            let drawn = self.draw(&part.id, spare.count, 0);
            return self.line((Need::Spare(at), slot), part, (spare.count, false), drawn);
        }
        let unit_price = arm_price(part);
        Line {
            need: Need::Arm(at),
            slot,
            part: Arc::clone(part),
            count: spare.count,
            owned: false,
            drawn: Vec::new(),
            from_rest: 0,
            packs: spare.count,
            pieces: 1,
            unit_price,
            price: unit_price.and_then(|price| price.times(spare.count)),
            age_days: unit_price.and(part.priced_on).and_then(|day| self.age(day)),
        }
    }

    /// Draws from the shelf in its order, but not from its last items: first what is built into the craft already, worn pieces last.
    fn draw(&mut self, part: &str, count: u32, but_last: usize) -> Vec<Drawn> {
        let items = &self.given.stock.items;
        let mut order: Vec<usize> =
            (0..items.len().saturating_sub(but_last)).filter(|at| items[*at].part == part && self.left[*at] > 0).collect();
        order.sort_by_key(|at| (items[*at].fitted_in.is_none(), items[*at].condition == Some(Condition::Worn)));
        let mut wanted = count;
        let mut drawn = Vec::new();
        for at in order {
            let taken = wanted.min(self.left[at]);
            if taken > 0 {
                self.left[at] -= taken;
                wanted -= taken;
                drawn.push(Drawn { at, item: items[at].clone(), count: taken });
            }
        }
        drawn
    }

    fn age(&self, day: jiff::civil::Date) -> Option<i32> {
        let age = day.until(self.given.today?).ok()?.get_days();
        (age >= 0).then_some(age)
    }
}

fn arm_price(part: &Part) -> Option<Money> {
    part.fills.iter().find_map(|role| match role {
        Role::Frame(frame) => frame.arm_price,
        _ => None,
    })
}
