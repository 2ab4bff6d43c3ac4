//! The shelf before and after: what a purchase leaves, what comes back from a craft, and what was measured of its parts.

use std::sync::Arc;

use propwright_schema::{
    part::{Basis, Part, Role},
    quantity::{Grams, Milliohms},
    stock::{Condition, Stock, StockItem},
};

use super::{Bill, Drawn, Line, Need};
use crate::craft::Craft;

/// The shelf when the bill is paid and the craft built: what was drawn is gone, what packs left over has come.
#[must_use]
pub fn after(stock: &Stock, bill: &Bill) -> Stock {
    let mut after = stock.clone();
    for drawn in bill.lines.iter().flat_map(|line| &line.drawn) {
        if let Some(item) = after.items.get_mut(drawn.at) {
            item.count = item.count.saturating_sub(drawn.count);
        }
    }
    after.items.retain(|item| item.count > 0);
    for (part, count) in &bill.rest {
        put(&mut after, StockItem { condition: Some(Condition::New), ..StockItem::new(&part.id, *count) });
    }
    after
}

/// The shelf with more on it.
#[must_use]
pub fn laid(stock: &Stock, items: impl IntoIterator<Item = StockItem>) -> Stock {
    let mut shelf = stock.clone();
    for item in items {
        put(&mut shelf, item);
    }
    shelf
}

/// The shelf when lines of a bill come back to it as used parts; what was drawn brings its measured figures back.
#[must_use]
pub fn returned<'l>(stock: &Stock, lines: impl IntoIterator<Item = &'l Line>) -> Stock {
    let mut after = stock.clone();
    for line in lines {
        for drawn in &line.drawn {
            let worn = drawn.item.condition == Some(Condition::Worn);
            let condition = Some(if worn { Condition::Worn } else { Condition::Used });
            put(&mut after, StockItem { condition, count: drawn.count, ..drawn.item.clone() });
        }
        let bought = line.count.saturating_sub(line.drawn_count());
        if bought > 0 && !matches!(line.need, Need::Arm(_)) {
            put(&mut after, StockItem { condition: Some(Condition::Used), ..StockItem::new(&line.part.id, bought) });
        }
    }
    after
}

/// The shelf when the bill is paid and the craft of this name built: what was drawn and bought for it is in the craft with its
/// measured figures, spares and what packs left over lie on the shelf.
#[must_use]
pub fn built(stock: &Stock, bill: &Bill, craft: &str) -> Stock {
    let mut shelf = stock.clone();
    let in_craft = || Some(craft.to_owned());
    for line in bill.lines.iter().filter(|line| matches!(line.need, Need::Fitted(_))) {
        for drawn in line.drawn.iter().filter(|drawn| drawn.item.fitted_in.is_none()) {
            if let Some(item) = shelf.items.get_mut(drawn.at) {
                item.count = item.count.saturating_sub(drawn.count);
            }
            put(&mut shelf, StockItem { count: drawn.count, fitted_in: in_craft(), ..drawn.item.clone() });
        }
        let bought = line.count.saturating_sub(line.drawn_count());
        if bought > 0 {
            put(
                &mut shelf,
                StockItem { condition: Some(Condition::New), fitted_in: in_craft(), ..StockItem::new(&line.part.id, bought) },
            );
        }
    }
    let spares = bill.lines.iter().filter(|line| matches!(line.need, Need::Spare(_)));
    let spares = spares.map(|line| (line.part.id.as_str(), line.count.saturating_sub(line.drawn_count())));
    let rest = bill.rest.iter().map(|(part, count)| (part.id.as_str(), *count));
    for (part, count) in spares.chain(rest).filter(|(_, count)| *count > 0) {
        put(&mut shelf, StockItem { condition: Some(Condition::New), ..StockItem::new(part, count) });
    }
    shelf.items.retain(|item| item.count > 0);
    shelf
}

/// The shelf when the craft of this name is taken apart: its parts lie there as used ones, with what was measured of them.
#[must_use]
pub fn apart(stock: &Stock, craft: &str) -> Stock {
    let is_in = |item: &StockItem| item.fitted_in.as_deref() == Some(craft);
    let mut shelf = Stock { items: stock.items.iter().filter(|item| !is_in(item)).cloned().collect(), ..stock.clone() };
    for item in stock.items.iter().filter(|item| is_in(item)) {
        let condition = if item.condition == Some(Condition::New) { Some(Condition::Used) } else { item.condition };
        put(&mut shelf, StockItem { condition, fitted_in: None, ..item.clone() });
    }
    shelf
}

/// Puts pieces to others of which the same is known, or on a line of their own.
fn put(stock: &mut Stock, item: StockItem) {
    let same = |there: &&mut StockItem| StockItem { count: item.count, ..(**there).clone() } == item;
    match stock.items.iter_mut().find(same) {
        Some(there) => there.count = there.count.saturating_add(item.count),
        None => stock.items.push(item),
    }
}

/// Lets the figures that were measured of parts on the shelf stand for the maker's where a line is drawn as a whole: the mean
/// mass, and the largest resistance, for the weakest of several packs decides.
pub(crate) fn measure(craft: &mut Craft, bill: &Bill) {
    for line in &bill.lines {
        let Need::Fitted(at) = line.need else { continue };
        if line.drawn_count() == line.count {
            let Some(part) = craft.of_line(at).next().map(|placed| Arc::clone(&placed.subject.part)) else { continue };
            craft.replace(at, &Arc::new(measured(&part, &line.drawn)));
        }
    }
}

fn measured(part: &Part, drawn: &[Drawn]) -> Part {
    let mut part = part.clone();
    if let Some(mass) = mean_mass(drawn) {
        part.mass_g = Some(mass);
        part.basis.insert("mass_g".to_owned(), Basis::Measured);
    }
    let resistances: Option<Vec<Milliohms>> = drawn.iter().map(|drawn| drawn.item.resistance_mohm).collect();
    if let Some(worst) = resistances.and_then(|each| each.into_iter().max()) {
        let field = part.fills.iter_mut().find_map(|role| match role {
            Role::Battery(pack) => Some(&mut pack.resistance_mohm),
            Role::Motor(motor) => Some(&mut motor.resistance_mohm),
            _ => None,
        });
        if let Some(field) = field {
            *field = Some(worst);
            part.basis.insert("resistance_mohm".to_owned(), Basis::Measured);
        }
    }
    part
}

/// The mean mass of the pieces, when each was weighed.
fn mean_mass(drawn: &[Drawn]) -> Option<Grams> {
    let weighed: Option<Vec<i64>> =
        drawn.iter().map(|drawn| drawn.item.mass_g.map(|mass| mass.steps() * i64::from(drawn.count))).collect();
    let pieces: i64 = drawn.iter().map(|drawn| i64::from(drawn.count)).sum();
    let sum: i64 = weighed?.iter().sum();
    (pieces > 0).then(|| Grams::from_steps((sum + pieces / 2) / pieces))
}
