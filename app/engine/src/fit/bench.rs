//! Judging many builds that differ from one in a few slots: what is not reached by them is computed once.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};

use propwright_schema::{build_list::BuildList, catalogue::Catalogue, slot::Slot};

use super::{
    change::{Change, State, change, outline},
    standing::{Before, gravest},
};
use crate::{
    bill::{self, Bill, Given},
    craft::{Craft, Placed},
    finding::{Finding, Status},
    graph::{Reach, Store, graph},
    policy::Policy,
    report::{Report, evaluate_with},
};

/// All by which a build is judged besides its list.
#[derive(Debug, Clone, Copy)]
pub struct Means<'a> {
    /// The parts.
    pub catalogue: &'a Catalogue,
    /// The thresholds.
    pub policy: &'a Policy,
    /// The shelf, the rates and the day.
    pub given: &'a Given,
}

impl Means<'_> {
    /// A list as it stands with what is on the shelf, and what is bought for it.
    pub(super) fn craft(&self, build: &Arc<BuildList>) -> (Craft, Bill) {
        bill::crafted(self.catalogue, build, self.given)
    }

    /// A list judged as a whole.
    pub fn evaluate(&self, build: &Arc<BuildList>) -> Report {
        evaluate_with(self.catalogue, build, self.policy, self.given)
    }
}

/// The build as it is, with a store for each set of slots in which others differ from it.
pub(super) struct Bench<'a> {
    pub(super) means: Means<'a>,
    pub(super) base: &'a Report,
    before: Before,
    stores: BTreeMap<BTreeSet<Slot>, (Reach, Store)>,
}

/// What was found of one build.
pub(super) struct Judged {
    /// The gravest of what counts against the lines in question.
    pub(super) status: Status,
    /// What counts against them, gravest first.
    pub(super) against: Vec<Finding>,
    /// What changes against the build as it is; of one that is not whole, mass and price alone.
    pub(super) change: Change,
    /// What is bought for it.
    pub(super) bill: Bill,
    /// Are the solved rules in it?
    pub(super) whole: bool,
}

/// When to solve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Solve {
    /// Always.
    Always,
    /// Only when plain comparison forbids nothing.
    Unless,
}

impl<'a> Bench<'a> {
    /// `base` is the report of the build as it is, judged by the same means.
    pub(super) fn new(means: Means<'a>, base: &'a Report) -> Self {
        Self { means, base, before: Before::of(&base.findings), stores: BTreeMap::new() }
    }

    /// Judges a list that differs from the build in the slots of `touched`: what counts against its `lines`.
    pub(super) fn judge(&mut self, build: &Arc<BuildList>, touched: BTreeSet<Slot>, lines: &[usize], solve: Solve) -> Judged {
        let Means { policy, given, .. } = self.means;
        let (base, before) = (self.base, &self.before);
        let (craft, bill) = self.means.craft(build);
        let touched = if given.stock.items.is_empty() { touched } else { &touched | &measured_apart(&base.craft, &craft) };
        let (reach, store) = self.stores.entry(touched).or_insert_with_key(|slots| (graph().reach(slots), base.store.clone()));
        let mut found = reach.quick.run(&craft, policy, store);
        let mut against = before.against(&found, &craft, lines);
        let whole = solve == Solve::Always || !against.iter().any(Finding::forbids);
        if whole {
            found.extend(reach.solved.run(&craft, policy, store));
            against = before.against(&found, &craft, lines);
        }
        let now = State { craft: &craft, bill: &bill, store };
        let change = if whole { change(base.into(), now) } else { outline(base.into(), now) };
        Judged { status: gravest(&against), against, change, bill, whole }
    }
}

/// The slots in which two crafts hold other records: a part drawn from the shelf in one of them and bought in the other has
/// its measured figures in the first alone, in whatever slot it stands.
fn measured_apart(one: &Craft, other: &Craft) -> BTreeSet<Slot> {
    let same = |one: &Placed, other: &Placed| {
        let (one, other) = (&one.subject.part, &other.subject.part);
        Arc::ptr_eq(one, other) || one == other
    };
    let apart = |slot: &Slot| {
        let (one, other) = (one.in_slot(*slot), other.in_slot(*slot));
        one.len() != other.len() || one.iter().zip(other).any(|(one, other)| !same(one, other))
    };
    Slot::ALL.iter().copied().filter(apart).collect()
}
