//! What can stand in for a part that is gone: how close it comes, one of several or all of them, and what must follow.

use std::{
    cmp::Reverse,
    collections::{BTreeMap, VecDeque},
    sync::Arc,
};

use propwright_schema::{
    build_list::{BuildList, Fitted},
    part::Part,
    quantity::Money,
    slot::Slot,
};

use super::{
    bench::{Bench, Means, Solve},
    change::Change,
    closeness::distance,
    follow::{Following, Hunt},
    place::{Place, Put},
};
use crate::{
    bill::Total,
    craft::Craft,
    finding::{Finding, Status},
    report::Report,
};

/// Parts to buy.
#[derive(Debug, Clone, PartialEq)]
pub struct Buy {
    /// The part.
    pub part: Arc<Part>,
    /// How many.
    pub count: u32,
    /// What is to pay for them, in whole packs; absent while that is not known.
    pub price: Option<Money>,
}

/// One way to put a part in.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// The list with it, without what must follow.
    pub build: Arc<BuildList>,
    /// The line of the part in it.
    pub line: usize,
    /// The gravest of what counts against the part.
    pub status: Status,
    /// What counts against it, gravest first.
    pub findings: Vec<Finding>,
    /// What it changes, without what must follow; mass and price alone where plain comparison forbids it.
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

    /// Is what must follow still to be looked for?
    pub const fn is_open(&self) -> bool {
        matches!(self.following, Following::Open)
    }

    /// The list with the part and what follows.
    pub const fn list(&self) -> &Arc<BuildList> {
        match &self.following {
            Following::Set(set) => &set.build,
            _ => &self.build,
        }
    }

    /// What all of it changes.
    pub const fn whole_change(&self) -> &Change {
        match &self.following {
            Following::Set(set) => &set.change,
            _ => &self.change,
        }
    }

    /// What is to be paid for all of it, one amount a currency; absent while a price is not known.
    pub fn price(&self) -> Option<Vec<Money>> {
        let follows = match &self.following {
            Following::Set(set) => set.swaps.as_slice(),
            _ => &[],
        };
        let prices = [self.buy.price].into_iter().chain(follows.iter().map(|swap| swap.price));
        Some(Total::of(prices.collect::<Option<Vec<Money>>>()?, None).amounts)
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

impl Replacement {
    /// One of several, if that can be, and all.
    pub fn ways(&self) -> impl Iterator<Item = &Way> {
        self.one.iter().chain([&self.all])
    }
}

/// The parts that come closest to the one of a place, each in its place, step by step.
///
/// Every part comes at once with its status and, where nothing forbids it, what it changes; those that something forbids come
/// again, when all others have come, with what must follow. Whoever asks can stop between two steps.
pub struct Replacing<'a> {
    bench: Bench<'a>,
    place: Place,
    /// Parts that did not come yet, each with its distance.
    waiting: VecDeque<(f64, Arc<Part>)>,
    /// What something forbids: what must follow is still to be looked for.
    open: VecDeque<Replacement>,
}

impl<'a> Replacing<'a> {
    /// The `most` closest parts for a place; none for an empty one. `base` is the report of the build as it is, judged by the
    /// same means.
    pub fn new(means: Means<'a>, base: &'a Report, place: Place, most: usize) -> Self {
        let gone = place.fitted(&base.craft).map(|placed| &placed.subject.part);
        let apart = |part: &Arc<Part>| Some((distance(gone?, part, place.slot)?, Arc::clone(part)));
        let mut closest: Vec<(f64, Arc<Part>)> = means.catalogue.for_slot(place.slot).filter_map(apart).collect();
        closest.sort_by(|(one, part), (other, another)| one.total_cmp(other).then_with(|| part.id.cmp(&another.id)));
        closest.truncate(most);
        Self { bench: Bench::new(means, base), place, waiting: closest.into(), open: VecDeque::new() }
    }

    /// Takes these parts before all others, in this order.
    pub fn first(&mut self, ids: &[String]) {
        let rank = |part: &Arc<Part>| ids.iter().position(|id| *id == part.id).unwrap_or(ids.len());
        self.waiting.make_contiguous().sort_by_cached_key(|(_, part)| rank(part));
        self.open.make_contiguous().sort_by_cached_key(|open| rank(&open.part));
    }

    /// How many steps are left at least before all is done.
    pub fn left(&self) -> usize {
        self.waiting.len() + self.open.len()
    }

    /// Goes on by `steps` parts. Empty when all is done.
    pub fn next_chunk(&mut self, steps: usize) -> Vec<Replacement> {
        (0..steps).map_while(|_| self.step()).collect()
    }

    /// Goes on until all is done: each part once, in the order of [`ranked`].
    pub fn finish(mut self) -> Vec<Replacement> {
        let mut all: BTreeMap<String, Replacement> = BTreeMap::new();
        while let Some(replacement) = self.step() {
            all.insert(replacement.part.id.clone(), replacement);
        }
        ranked(all.into_values().collect())
    }

    fn step(&mut self) -> Option<Replacement> {
        if let Some((distance, part)) = self.waiting.pop_front() {
            let found = self.replacement(distance, part)?;
            if found.ways().any(Way::is_open) {
                self.open.push_back(found.clone());
            }
            return Some(found);
        }
        let mut found = self.open.pop_front()?;
        for way in found.one.iter_mut().chain([&mut found.all]).filter(|way| way.is_open()) {
            let (build, lines) = (Arc::clone(&way.build), [way.line]);
            way.following = Hunt { bench: &mut self.bench, build: &build, lines: &lines }.follow();
        }
        Some(found)
    }

    fn replacement(&mut self, distance: f64, part: Arc<Part>) -> Option<Replacement> {
        let (base, place) = (self.bench.base, self.place);
        let gone = place.fitted(&base.craft)?;
        let same = gone.subject.part.id == part.id;
        let one = split(&base.craft, place, &part.id).map(|(build, line)| self.way(Arc::new(build), line, &part));
        // Whoever changes all buys new ones, even of the same part.
        let put = if same { bought_anew(&base.craft, gone.line) } else { place.put(&base.craft, &part.id) };
        let all = self.way(put.build, put.line, &part);
        Some(Replacement { part, same, distance, one, all })
    }

    fn way(&mut self, build: Arc<BuildList>, line: usize, part: &Arc<Part>) -> Way {
        let touched = self.place.touches(&self.bench.base.craft, part);
        let judged = self.bench.judge(&build, touched, &[line], Solve::Unless);
        let bought = judged.bill.of_part(line);
        let buy =
            Buy { part: Arc::clone(part), count: bought.map_or(0, |line| line.count), price: bought.and_then(|line| line.price) };
        let following = if judged.status == Status::Mismatch { Following::Open } else { Following::Nothing };
        Way { build, line, status: judged.status, findings: judged.against, change: judged.change, buy, following }
    }
}

/// The list with the pieces of a line bought anew.
fn bought_anew(craft: &Craft, line: usize) -> Put {
    let mut build = (*craft.build).clone();
    if let Some(fitted) = build.parts.get_mut(line) {
        fitted.owned = false;
    }
    Put { build: Arc::new(build), line }
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
    build.keep_log_of(&craft.build);
    let line = build.parts.len() - 1;
    Some((build, line))
}

/// Replacements in the order in which they are told: those that go before those that do not, what is still sold first, then the
/// closer first.
pub fn ranked(mut all: Vec<Replacement>) -> Vec<Replacement> {
    let best = |replacement: &Replacement| {
        let ways = replacement.ways().map(|way| (Reverse(way.goes()), way.left()));
        (ways.min().unwrap_or((Reverse(false), Status::Mismatch)), replacement.part.retired)
    };
    all.sort_by(|one, other| {
        let ((goes, left), retired) = best(one);
        let ((others_go, others_left), others_retired) = best(other);
        let by_distance = one.distance.total_cmp(&other.distance);
        let first = goes.cmp(&others_go).then(retired.cmp(&others_retired));
        first.then(by_distance).then(left.cmp(&others_left)).then_with(|| one.part.id.cmp(&other.part.id))
    });
    all
}
