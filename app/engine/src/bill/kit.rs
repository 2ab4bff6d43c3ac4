//! A kit, or the same parts one by one: which is the better buy for this craft, with what is owned already.
//!
//! The craft that a kit makes is the build with the kit's parts in the slots that it fills; what is owned stays. It is priced
//! twice with everything else that is needed to fly: with the kit, and with the same parts bought singly. Spares and shipping
//! count on both sides, leftovers on neither. Whether that craft does what the listed one does is the engine's figures' to say.

use std::{collections::BTreeSet, sync::Arc};

use propwright_schema::{
    build_list::{BuildList, Fitted},
    catalogue::Catalogue,
    kit::{Kit, KitItem},
    part::Part,
    quantity::Money,
    slot::Slot,
    stock::{Condition, Stock, StockItem},
};

use super::{Bill, Given, Line, Need, Total, bill, difference};
use crate::{
    craft::Craft,
    finding::{Status, Unknown},
    interval::Interval,
    policy::Policy,
    report::{Report, evaluate_with},
};

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
}

impl Capability {
    /// Is the difference more than the bands allow to say?
    pub fn differs(&self) -> bool {
        match (self.listed, self.kit) {
            (Some(listed), Some(kit)) => listed.low > kit.high || kit.low > listed.high,
            (listed, kit) => listed.is_some() != kit.is_some(),
        }
    }
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
    /// What the kit's share of the craft costs one by one: the kit's price at which it breaks even.
    pub breaks_even_at: Option<Money>,
    /// What the kit is above the same parts one by one; `None` while that cannot be told.
    pub above: Option<Money>,
    /// The same for somebody who owns nothing.
    pub above_owning_nothing: Option<Money>,
    /// Parts without a price that keep the two from being compared.
    pub unpriced: Vec<Arc<Part>>,
    /// Rules that the craft with the kit's parts breaks and the listed one does not.
    pub mismatches: Vec<&'static str>,
    /// Figures of both crafts.
    pub capabilities: Vec<Capability>,
}

impl Comparison {
    /// Which way is cheaper, where that can be told.
    pub fn cheaper(&self) -> Option<Cheaper> {
        self.above.map(Cheaper::of)
    }

    /// Does the craft with the kit's parts do what the listed one does, as far as the engine can tell?
    pub fn is_as_capable(&self) -> bool {
        self.mismatches.is_empty() && !self.capabilities.iter().any(Capability::differs)
    }
}

/// Every kit of the catalogue that is still sold against the same parts one by one, those that go with the craft first; `listed` is the report of the build with
/// the same shelf and rates.
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
    let mut report = evaluate_with(catalogue, &Arc::new(fitted(catalogue, build, kit, &owned)), policy, given);
    // What is owned may not go with the kit: then the kit's own part is taken in its place.
    if report.count(Status::Mismatch) > listed.count(Status::Mismatch) && !owned.is_empty() {
        let anew = evaluate_with(catalogue, &Arc::new(fitted(catalogue, build, kit, &BTreeSet::new())), policy, given);
        if anew.count(Status::Mismatch) < report.count(Status::Mismatch) {
            report = anew;
        }
    }
    let (with_kit, bill_with) = paid_with(catalogue, kit, &report.craft, given);
    let separate = report.bill.total.clone();
    let unpriced = unpriced_apart(&bill_with, &report.bill);
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
        lacks: lacks(&bill_with, &report),
        already_owned: left
            .iter()
            .filter(|(part, _, used)| *used == 0 && doubles(part))
            .map(|(part, ..)| Arc::clone(part))
            .collect(),
        left_over: left.iter().map(|(part, count, _)| (Arc::clone(part), *count)).collect(),
        breaks_even_at: above.and_then(|above| in_currency_of(above, kit.price?)?.minus(above)),
        above_owning_nothing: owning_nothing(catalogue, kit, build, given),
        listed: listed.bill.total.clone(),
        mismatches: new_mismatches(listed, &report),
        capabilities: CAPABILITIES
            .iter()
            .map(|(id, title)| Capability { title, listed: listed.figure(id), kit: report.figure(id) })
            .collect(),
        covers,
        with_kit,
        separate,
        above,
        unpriced,
    }
}

fn in_currency_of(above: Money, price: Money) -> Option<Money> {
    (above.unit() == price.unit()).then_some(price)
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

/// The build with the kit's parts in the slots that they fill; the lines at `owned` stay.
fn fitted(catalogue: &Catalogue, build: &BuildList, kit: &Kit, owned: &BTreeSet<usize>) -> BuildList {
    let mut lines: Vec<(Fitted, bool)> =
        build.parts.iter().enumerate().map(|(at, line)| (line.clone(), owned.contains(&at))).collect();
    let known = |item: &KitItem| catalogue.part(&item.part).map(|part| (Arc::clone(part), item.count));
    let (mut waiting, same): (Vec<_>, Vec<_>) =
        kit.contents.iter().filter_map(known).partition(|(part, _)| lines.iter().all(|(line, _)| line.part != part.id));
    let taken: BTreeSet<Slot> =
        lines.iter().filter(|(line, _)| same.iter().any(|(part, _)| part.id == line.part)).map(|(line, _)| line.slot).collect();
    waiting.retain(|(part, count)| !exchange(&mut lines, part, *count, &taken));
    for (part, _) in waiting {
        let filled = |slot: Slot| {
            let fills = |line: &Fitted| {
                catalogue
                    .part(&line.part)
                    .is_some_and(|part| part.filled_from(line.slot).iter().any(|(filled, _)| *filled == slot))
            };
            lines.iter().any(|(line, _)| fills(line))
        };
        let slot = part.fills.first().and_then(|role| role.slots().first()).copied();
        if let Some(slot) = slot.filter(|slot| !filled(*slot)) {
            lines.push((Fitted::new(slot, &part.id), false));
        }
    }
    BuildList { parts: lines.into_iter().map(|(line, _)| line).collect(), ..build.clone() }
}

/// Puts a part in place of the lines of its slots, unless they are owned, served by another part of the kit, or ask for more
/// pieces than there are; tells whether it did.
fn exchange(lines: &mut Vec<(Fitted, bool)>, part: &Part, count: u32, taken: &BTreeSet<Slot>) -> bool {
    let free = |line: &Fitted, owned: bool| !owned && !taken.contains(&line.slot) && part.role(line.slot).is_some();
    let Some(at) = lines.iter().position(|(line, owned)| free(line, *owned)) else { return false };
    let slot = lines[at].0.slot;
    let needed: u32 = lines.iter().filter(|(line, _)| line.slot == slot).map(|(line, _)| line.count).sum();
    if needed > count {
        return false;
    }
    let line = Fitted { part: part.id.clone(), count: needed, ..lines[at].0.clone() };
    let filled: BTreeSet<Slot> = part.filled_from(slot).into_iter().map(|(slot, _)| slot).collect();
    lines[at] = (line, false);
    let mut place = 0;
    lines.retain(|(line, owned)| {
        place += 1;
        place == at + 1 || *owned || !filled.contains(&line.slot)
    });
    true
}

/// What is left to pay when the kit is bought and its content drawn after what is owned.
fn paid_with(catalogue: &Catalogue, kit: &Kit, craft: &Craft, given: &Given) -> (Total, Bill) {
    let boxed = kit.contents.iter();
    let boxed = boxed.map(|item| StockItem { condition: Some(Condition::New), ..StockItem::new(&item.part, item.count) });
    let items = given.stock.items.iter().cloned().chain(boxed).collect();
    let given = Given { stock: Stock { items, ..given.stock }, ..given.clone() };
    let bill = bill(catalogue, craft, &given);
    let of_kit = |name: &str| kit.supplier.as_deref() == Some(name);
    let shipped = bill.charges.iter().filter(|charged| charged.shipping && !charged.counts && of_kit(&charged.charge.name));
    let amounts = bill.total.sums.iter().copied().chain(kit.price).chain(shipped.map(|charged| charged.charge.price));
    (Total::of(amounts, given.rates.as_ref()), bill)
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
    slots.extend(empty.filter_map(|finding| match finding.missing()?.what {
        Unknown::Empty(slot) => Some(slot),
        _ => None,
    }));
    slots.into_iter().collect()
}

fn new_mismatches(listed: &Report, kit: &Report) -> Vec<&'static str> {
    let of = |report: &Report| -> BTreeSet<&'static str> {
        report.findings.iter().filter(|finding| finding.status() == Status::Mismatch).map(|finding| finding.rule).collect()
    };
    of(kit).difference(&of(listed)).copied().collect()
}

/// What the kit is above the same parts one by one for somebody who owns nothing.
fn owning_nothing(catalogue: &Catalogue, kit: &Kit, build: &BuildList, given: &Given) -> Option<Money> {
    kit.price?;
    let given = Given { stock: Stock::default(), ..given.clone() };
    let unowned = build.parts.iter().map(|line| Fitted { owned: false, ..line.clone() }).collect();
    let unowned = BuildList { parts: unowned, ..build.clone() };
    let craft = Craft::new(catalogue, &Arc::new(fitted(catalogue, &unowned, kit, &BTreeSet::new())));
    let separate = bill(catalogue, &craft, &given);
    let (with_kit, bill_with) = paid_with(catalogue, kit, &craft, &given);
    if unpriced_apart(&bill_with, &separate).is_empty() { difference(&with_kit, &separate.total) } else { None }
}
