//! A kit, or the same parts one by one: which is the better buy for this craft, with what is owned already.
//!
//! The craft that a kit makes is the build with the kit's parts in the slots that it fills; what is owned stays. It is priced
//! twice with everything else that is needed to fly: with the kit, and with the same parts bought singly. Spares and shipping
//! count on both sides, leftovers on neither; taxes in per cent are taken of the kit as of any goods. Whether that craft does what the listed one does is the engine's figures' to say.

use std::{collections::BTreeSet, sync::Arc};

use propwright_schema::{
    build_list::{BuildList, Fitted},
    catalogue::Catalogue,
    kit::Kit,
    part::Part,
    quantity::Money,
    slot::Slot,
    stock::{Condition, Stock, StockItem},
};

use super::{
    Bill, Charged, Given, Line, Need, Total, bill, bill_with_box,
    charge::{self, Goods},
    difference,
};
use crate::{
    craft::Craft,
    finding::{Finding, Status},
    fit::change::change,
    interval::Interval,
    policy::Policy,
    report::{Report, evaluate_with},
};

mod fitting;

use fitting::fitted;

/// Which way is cheaper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cheaper {
    /// The kit.
    Kit,
    /// The same parts one by one.
    Separate,
    /// Neither: the kit breaks even.
    Equal,
}

impl Cheaper {
    /// The word written.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Kit => "kit",
            Self::Separate => "separate",
            Self::Equal => "equal",
        }
    }

    const fn of(kit_above_separate: Money) -> Self {
        match kit_above_separate.minor() {
            0 => Self::Equal,
            above if above > 0 => Self::Separate,
            _ => Self::Kit,
        }
    }
}

/// A figure of two crafts side by side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Capability {
    /// What it is.
    pub title: &'static str,
    /// Of the craft as it is listed.
    pub listed: Option<Interval>,
    /// Of the craft with the kit's parts.
    pub kit: Option<Interval>,
    /// Is the difference more than the bands allow to say, their errors in common left out?
    pub differs: bool,
}

/// The sums of which the ways to pay for a craft are made up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ways {
    /// The kit.
    pub kit: Money,
    /// All else that is needed to fly.
    pub rest: Money,
    /// The kit's parts bought one by one.
    pub singly: Money,
    /// All of the craft as it is listed.
    pub listed: Money,
}

/// The figures by which two crafts are compared: derivation and title.
const CAPABILITIES: [(&str, &str); 3] =
    [("takeoff-mass", "take-off mass"), ("thrust-to-weight", "thrust to weight"), ("time-calm", "calm flight")];

/// A kit against the same parts one by one.
#[derive(Debug, Clone)]
pub struct Comparison {
    /// The kit.
    pub kit: Arc<Kit>,
    /// The craft with the kit's parts.
    pub craft: Arc<BuildList>,
    /// What the kit puts into the craft and the spares: slot and part.
    pub covers: Vec<(Slot, Arc<Part>)>,
    /// Slots whose part must be bought besides, or is not chosen yet.
    pub lacks: Vec<Slot>,
    /// Parts of the kit that double with what is owned.
    pub already_owned: Vec<Arc<Part>>,
    /// What the kit leaves for the next craft, doubles included.
    pub left_over: Vec<(Arc<Part>, u32)>,
    /// Left to pay with the kit and everything else.
    pub with_kit: Total,
    /// Left to pay for the same craft, all bought one by one.
    pub separate: Total,
    /// Left to pay for the craft as it is listed.
    pub listed: Total,
    /// What is bought beside the kit.
    pub besides: Vec<Line>,
    /// What is bought where all is bought one by one.
    pub singly: Vec<Line>,
    /// Shipping and taxes with the kit.
    pub charges: Vec<Charged>,
    /// What the kit is above the craft as it is listed; `None` while that cannot be told.
    pub above_listed: Option<Money>,
    /// The highest price of the kit at which it costs no more than the same parts one by one, in the kit's currency; nothing
    /// where even that is too much.
    pub breaks_even_at: Option<Money>,
    /// What the kit is above the same parts one by one; `None` while that cannot be told.
    pub above: Option<Money>,
    /// The same for somebody who owns nothing.
    pub above_owning_nothing: Option<Money>,
    /// Parts without a price that keep the two from being compared.
    pub unpriced: Vec<Arc<Part>>,
    /// Mismatches of the craft with the kit's parts, of rules that the listed one does not break; one a rule.
    pub mismatches: Vec<Finding>,
    /// Figures of both crafts.
    pub capabilities: Vec<Capability>,
}

impl Comparison {
    /// Which way is cheaper, where that can be told.
    pub fn cheaper(&self) -> Option<Cheaper> {
        self.above.map(Cheaper::of)
    }

    /// Of what the ways to pay are made up, where all of it is of the kit's currency.
    pub fn ways(&self) -> Option<Ways> {
        let kit = self.kit.price?;
        let one = |total: &Total| match total.amounts.as_slice() {
            [] => Some(Money::of(0, kit.unit())),
            [only] if only.unit() == kit.unit() => Some(*only),
            _ => None,
        };
        let rest = one(&self.with_kit)?.minus(kit)?;
        Some(Ways { kit, rest, singly: one(&self.separate)?.minus(rest)?, listed: one(&self.listed)? })
    }

    /// Does the craft with the kit's parts do what the listed one does, as far as the engine can tell?
    pub fn is_as_capable(&self) -> bool {
        self.mismatches.is_empty() && !self.capabilities.iter().any(|one| one.differs)
    }
}

/// Every kit of the catalogue that is still sold against the same parts one by one, those that go with the craft first; `listed`
/// is the report of the build with the same shelf and rates.
pub fn compare(catalogue: &Catalogue, listed: &Report, policy: &Policy, given: &Given) -> Vec<Comparison> {
    let kits = catalogue.kits().filter(|kit| !kit.retired);
    let mut found: Vec<Comparison> = kits.map(|kit| compare_one(catalogue, kit, listed, policy, given)).collect();
    found.sort_by_key(|comparison| (comparison.covers.is_empty(), !comparison.mismatches.is_empty()));
    found
}

/// One kit against the same parts one by one.
pub fn compare_one(catalogue: &Catalogue, kit: &Arc<Kit>, listed: &Report, policy: &Policy, given: &Given) -> Comparison {
    let owned = owned_lines(&listed.bill);
    let build = &listed.craft.build;
    let mut report = evaluate_with(catalogue, &Arc::new(fitted(catalogue, build, kit, &owned, policy)), policy, given);
    // What is owned may not go with the kit: then the kit's own part is taken in its place.
    if report.count(Status::Mismatch) > listed.count(Status::Mismatch) && !owned.is_empty() {
        let anew = evaluate_with(catalogue, &Arc::new(fitted(catalogue, build, kit, &BTreeSet::new(), policy)), policy, given);
        if anew.count(Status::Mismatch) < report.count(Status::Mismatch) {
            report = anew;
        }
    }
    let boxed = Boxed::new(catalogue, kit, &report.craft, given);
    let (with_kit, bill_with) = (boxed.paid_at(kit.price), &boxed.bill);
    let separate = report.bill.total.clone();
    let unpriced = unpriced_apart(bill_with, &report.bill);
    let above = if unpriced.is_empty() && kit.price.is_some() { difference(&with_kit, &separate) } else { None };
    let from_kit = |at: usize| at >= given.stock.items.len();
    let drawn: Vec<(usize, u32, &Line)> =
        bill_with.lines.iter().flat_map(|line| line.drawn.iter().map(move |drawn| (drawn.at, drawn.count, line))).collect();
    let mut covers: Vec<(Slot, Arc<Part>)> =
        drawn.iter().filter(|(at, ..)| from_kit(*at)).map(|(.., line)| (line.slot, Arc::clone(&line.part))).collect();
    covers.dedup();
    let left = kit.contents.iter().enumerate().filter_map(|(at, item)| {
        let used: u32 = drawn.iter().filter(|(from, ..)| *from == at + given.stock.items.len()).map(|(_, count, _)| count).sum();
        let left = item.count.saturating_sub(used);
        Some((catalogue.part(&item.part).filter(|_| left > 0)?, left, used))
    });
    let left: Vec<(&Arc<Part>, u32, u32)> = left.collect();
    let doubles = |part: &Part| bill_with.lines.iter().any(|line| part.role(line.slot).is_some() && is_owned(line, given));
    Comparison {
        kit: Arc::clone(kit),
        craft: Arc::clone(&report.craft.build),
        lacks: lacks(bill_with, &report),
        already_owned: left
            .iter()
            .filter(|(part, _, used)| *used == 0 && doubles(part))
            .map(|(part, ..)| Arc::clone(part))
            .collect(),
        left_over: left.iter().map(|(part, count, _)| (Arc::clone(part), *count)).collect(),
        breaks_even_at: above.and_then(|_| boxed.breaks_even_at(&separate)),
        above_owning_nothing: owning_nothing(catalogue, kit, build, policy, given),
        listed: listed.bill.total.clone(),
        mismatches: new_mismatches(listed, &report),
        capabilities: capabilities(listed, &report),
        above_listed: kit
            .price
            .filter(|_| unpriced_apart(bill_with, &listed.bill).is_empty())
            .and_then(|_| difference(&with_kit, &listed.bill.total)),
        besides: bought(bill_with),
        singly: bought(&report.bill),
        charges: charge::charges(&report.craft.build, &boxed.goods(kit.price)),
        covers,
        with_kit,
        separate,
        above,
        unpriced,
    }
}

/// What is left to pay for a craft with a kit's parts and everything else that is needed to fly.
pub fn price_with(catalogue: &Catalogue, build: &BuildList, kit: &Kit, policy: &Policy, given: &Given) -> Total {
    let craft = Craft::new(catalogue, &Arc::new(fitted(catalogue, build, kit, &BTreeSet::new(), policy)));
    Boxed::new(catalogue, kit, &craft, given).paid_at(kit.price)
}

/// Is the line served from the user's own shelf, and not from the kit?
fn is_owned(line: &Line, given: &Given) -> bool {
    line.is_owned() && line.drawn.iter().all(|drawn| drawn.at < given.stock.items.len())
}

/// The lines of the build list that nothing is bought for.
fn owned_lines(bill: &Bill) -> BTreeSet<usize> {
    let owned = bill.lines.iter().filter(|line| line.is_owned());
    owned.filter_map(|line| if let Need::Fitted(at) = line.need { Some(at) } else { None }).collect()
}

/// The bill of a craft whose kit lies in its box: drawn after what is owned, and not yet paid.
struct Boxed<'a> {
    craft: &'a Craft,
    kit: &'a Kit,
    bill: Bill,
    given: &'a Given,
}

impl<'a> Boxed<'a> {
    fn new(catalogue: &Catalogue, kit: &'a Kit, craft: &'a Craft, given: &'a Given) -> Self {
        let boxed = kit.contents.iter();
        let boxed = boxed.map(|item| StockItem { condition: Some(Condition::New), ..StockItem::new(&item.part, item.count) });
        let items = given.stock.items.iter().cloned().chain(boxed).collect();
        let with_box = Given { stock: Stock { items, ..given.stock }, ..given.clone() };
        Self { craft, kit, bill: bill_with_box(catalogue, craft, &with_box, kit.contents.len()), given }
    }

    /// What is left to pay when the kit costs `price`: all else, shipping and taxes.
    fn paid_at(&self, price: Option<Money>) -> Total {
        let goods = self.goods(price);
        charge::total(&goods, &charge::charges(&self.craft.build, &goods), self.given)
    }

    /// What is bought, the box for `price` among it.
    fn goods(&self, price: Option<Money>) -> Vec<Goods<'_>> {
        let box_itself = Goods { supplier: self.kit.supplier.as_deref(), price };
        charge::goods(&self.bill.lines).chain([box_itself]).collect()
    }

    /// The highest price at which the kit costs no more than the same parts one by one, 0 where even that is too much; `None`
    /// while the two cannot be compared.
    fn breaks_even_at(&self, separate: &Total) -> Option<Money> {
        let unit = self.kit.price?.unit();
        let pays = |minor: i64| {
            let above = difference(&self.paid_at(Some(Money::of(minor, unit))), separate)?;
            Some(above.minor() <= 0)
        };
        if !pays(0)? {
            return Some(Money::of(0, unit));
        }
        let (mut low, mut high) = (0, self.kit.price?.minor().max(1));
        while pays(high)? {
            low = high;
            high = high.checked_mul(2)?;
        }
        while high - low > 1 {
            let middle = i64::midpoint(low, high);
            if pays(middle)? { low = middle } else { high = middle }
        }
        Some(Money::of(low, unit))
    }
}

/// Parts without a price that only one of two bills asks for.
pub(crate) fn unpriced_apart(one: &Bill, other: &Bill) -> Vec<Arc<Part>> {
    let packs = |bill: &Bill, id: &str| bill.unpriced().filter(|line| line.part.id == id).map(|line| line.packs).sum::<u32>();
    let mut found: Vec<Arc<Part>> = Vec::new();
    for line in one.unpriced().chain(other.unpriced()) {
        let id = line.part.id.as_str();
        if packs(one, id) != packs(other, id) && !found.iter().any(|part| part.id == id) {
            found.push(Arc::clone(&line.part));
        }
    }
    found
}

/// Slots that something must still be bought for with the kit in hand, and those without any part.
fn lacks(bill: &Bill, report: &Report) -> Vec<Slot> {
    let bought = bill.lines.iter().filter(|line| line.is_bought() && matches!(line.need, Need::Fitted(_)));
    let mut slots: BTreeSet<Slot> = bought.map(|line| line.slot).collect();
    let empty = report.findings.iter().filter(|finding| finding.rule == "needed-to-fly");
    slots.extend(empty.filter_map(Finding::vacant));
    slots.into_iter().collect()
}

fn bought(bill: &Bill) -> Vec<Line> {
    bill.lines.iter().filter(|line| line.is_bought()).cloned().collect()
}

/// The figures of both crafts.
fn capabilities(listed: &Report, kit: &Report) -> Vec<Capability> {
    let change = change(listed.into(), kit.into());
    let by = |id: &str| match id {
        "takeoff-mass" => change.mass,
        id => change.each().find(|(figure, _)| figure.id == id).and_then(|(_, delta)| delta),
    };
    let one = |(id, title): &(&'static str, &'static str)| {
        let (listed, kit) = (listed.figure(id), kit.figure(id));
        let differs = by(id).map_or(listed.is_some() != kit.is_some(), |delta| !delta.none);
        Capability { title, listed, kit, differs }
    };
    CAPABILITIES.iter().map(one).collect()
}

fn new_mismatches(listed: &Report, kit: &Report) -> Vec<Finding> {
    fn of(report: &Report) -> impl Iterator<Item = &Finding> {
        report.findings.iter().filter(|finding| finding.status() == Status::Mismatch)
    }
    let mut known: BTreeSet<&str> = of(listed).map(|finding| finding.rule).collect();
    of(kit).filter(|finding| known.insert(finding.rule)).cloned().collect()
}

/// What the kit is above the same parts one by one for somebody who owns nothing.
fn owning_nothing(catalogue: &Catalogue, kit: &Kit, build: &BuildList, policy: &Policy, given: &Given) -> Option<Money> {
    kit.price?;
    let given = Given { stock: Stock::default(), ..given.clone() };
    let unowned = build.parts.iter().map(|line| Fitted { owned: false, ..line.clone() }).collect();
    let unowned = BuildList { parts: unowned, ..build.clone() };
    let craft = Craft::new(catalogue, &Arc::new(fitted(catalogue, &unowned, kit, &BTreeSet::new(), policy)));
    let separate = bill(catalogue, &craft, &given);
    let boxed = Boxed::new(catalogue, kit, &craft, &given);
    if !unpriced_apart(&boxed.bill, &separate).is_empty() {
        return None;
    }
    difference(&boxed.paid_at(kit.price), &separate.total)
}
