//! What can stand in for a part that is gone: how close it comes, one of several or all of them, and what must follow.

use std::{cmp::Reverse, sync::Arc};

use propwright_schema::{
    build_list::BuildList, build_list::Fitted, catalogue::Catalogue, part::Part, quantity::Money, slot::Slot,
};

use super::{
    bench::{Bench, Solve},
    change::{Change, change},
    closeness::distance,
    follow::{Following, Hunt},
    place::Place,
    price::{add, price_of},
    standing::gravest,
};
use crate::{
    craft::Craft,
    finding::{Finding, Status},
    policy::Policy,
    report::Report,
};

/// Parts to buy.
#[derive(Debug, Clone, PartialEq)]
pub struct Buy {
    /// The part.
    pub part: Arc<Part>,
    /// How many.
    pub count: u32,
    /// What they cost in whole packs; absent while that is not known.
    pub price: Option<Money>,
}

/// One way to put a part in.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// The list with it, without what must follow.
    pub build: Arc<BuildList>,
    /// The gravest of what counts against the part.
    pub status: Status,
    /// What counts against it, gravest first.
    pub findings: Vec<Finding>,
    /// What it changes, without what must follow.
    pub change: Change,
    /// What is bought of it.
    pub buy: Buy,
    /// What must follow so that nothing is forbidden.
    pub following: Following,
}

impl Way {
    /// Can it be flown, with what must follow?
    pub fn goes(&self) -> bool {
        matches!(self.following, Following::Nothing | Following::Set(_))
    }

    /// What is to be paid for all of it, one amount a currency; absent while a price is not known.
    pub fn price(&self) -> Option<Vec<Money>> {
        let follows = match &self.following {
            Following::Set(set) => set.swaps.as_slice(),
            _ => &[],
        };
        let mut sums = Vec::new();
        for price in [self.buy.price].into_iter().chain(follows.iter().map(|swap| swap.price)) {
            add(&mut sums, price?);
        }
        Some(sums)
    }

    /// The gravest that is left, with what follows.
    pub fn left(&self) -> Status {
        match &self.following {
            Following::Set(set) => set.status,
            _ => self.status,
        }
    }
}

/// A part that can stand in for another.
#[derive(Debug, Clone, PartialEq)]
pub struct Replacement {
    /// The part.
    pub part: Arc<Part>,
    /// Is it the same as the one that is gone?
    pub same: bool,
    /// How far its record is from that of the one that is gone, 0 to 1.
    pub distance: f64,
    /// In place of one of several motors, beside the others; absent for other slots and for a single one.
    pub one: Option<Way>,
    /// In place of all of the line.
    pub all: Way,
}

/// What becomes of a build when `part` stands in for the part of a place; `None` for an empty place or a part that does not
/// fill it.
///
/// With `follow`, what must follow is looked for; it takes up to some hundred evaluations.
pub fn replacement(
    catalogue: &Catalogue,
    base: &Report,
    policy: &Policy,
    place: Place,
    part: &Arc<Part>,
    follow: bool,
) -> Option<Replacement> {
    let gone = place.fitted(&base.craft)?;
    let distance = distance(&gone.subject.part, part, place.slot)?;
    let mut bench = Bench::new(base, policy);
    let mut way = |build: Arc<BuildList>, lines: &[usize], count: u32| {
        let craft = Craft::new(catalogue, &build);
        let now = bench.now();
        let judged = bench.judge(&craft, place.touches(now.craft, part), lines, Solve::Always);
        let (change, findings) = (change(now, judged.state), judged.against);
        let status = gravest(&findings);
        let following = match (status, follow) {
            (Status::Mismatch, true) => Hunt { catalogue, bench: &mut bench, build: &build, lines }.follow(),
            (Status::Mismatch, false) => Following::Open,
            _ => Following::Nothing,
        };
        let buy = Buy { part: Arc::clone(part), count, price: price_of(part, count) };
        Way { build, status, findings, change, buy, following }
    };
    let one = split(&base.craft, place, &part.id).map(|(build, line)| way(Arc::new(build), &[line], 1));
    let put = place.put(&base.craft, &part.id);
    let all = way(put.build, &[put.line], gone.fitted.count);
    Some(Replacement { part: Arc::clone(part), same: gone.subject.part.id == part.id, distance, one, all })
}

/// The list with one of several motors exchanged, on a line of its own.
fn split(craft: &Craft, place: Place, part: &str) -> Option<(BuildList, usize)> {
    let mut build = (*craft.build).clone();
    let old = build.parts.get_mut(place.line?).filter(|old| old.slot == Slot::Motor && old.count > 1)?;
    old.count -= 1;
    let output = old.outputs.as_mut().and_then(Vec::pop);
    let one = Fitted {
        part: part.to_owned(),
        count: 1,
        owned: false,
        note: None,
        outputs: output.map(|output| vec![output]),
        ..old.clone()
    };
    build.parts.push(one);
    let line = build.parts.len() - 1;
    Some((build, line))
}

/// Replacements in the order in which they are told: those that go before those that do not, the less to worry about first,
/// then the closer first.
pub fn ranked(mut all: Vec<Replacement>) -> Vec<Replacement> {
    let best = |replacement: &Replacement| {
        let ways = replacement.one.iter().chain([&replacement.all]);
        ways.map(|way| (Reverse(way.goes()), way.left())).min().unwrap_or((Reverse(false), Status::Mismatch))
    };
    all.sort_by(|one, other| {
        let by_distance = one.distance.total_cmp(&other.distance);
        best(one).cmp(&best(other)).then(by_distance).then_with(|| one.part.id.cmp(&other.part.id))
    });
    all
}
