//! Judging many builds that differ from one in a few slots: what is not reached by them is computed once.

use std::collections::{BTreeMap, BTreeSet};

use propwright_schema::slot::Slot;

use super::{change::State, standing::Before};
use crate::{
    craft::Craft,
    finding::Finding,
    graph::{Reach, Store, graph},
    policy::Policy,
    report::Report,
};

/// The build as it is, with a store for each set of slots in which others differ from it.
pub(super) struct Bench<'a> {
    pub(super) base: &'a Report,
    pub(super) before: Before,
    policy: &'a Policy,
    stores: BTreeMap<BTreeSet<Slot>, (Reach, Store)>,
}

/// What was found of one build so far.
pub(super) struct Judged<'a> {
    /// What counts against the lines in question, gravest first.
    pub(super) against: Vec<Finding>,
    /// The craft with what is derived of it; solved figures are those of this craft only when `whole`.
    pub(super) state: State<'a>,
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
    pub(super) fn new(base: &'a Report, policy: &'a Policy) -> Self {
        Self { base, before: Before::of(&base.findings), policy, stores: BTreeMap::new() }
    }

    /// The build as it is.
    pub(super) fn now(&self) -> State<'a> {
        State { craft: &self.base.craft, store: &self.base.store }
    }

    /// Judges a craft that differs from the build in the slots of `touched`: what counts against its `lines`.
    pub(super) fn judge<'b>(
        &'b mut self,
        craft: &'b Craft,
        touched: BTreeSet<Slot>,
        lines: &[usize],
        solve: Solve,
    ) -> Judged<'b> {
        let base = self.base;
        let (reach, store) = self.stores.entry(touched).or_insert_with_key(|slots| (graph().reach(slots), base.store.clone()));
        let mut found = reach.quick.run(craft, self.policy, store);
        let against = self.before.against(&found, craft, lines);
        let forbidden = against.iter().any(Finding::forbids);
        if solve == Solve::Unless && forbidden {
            return Judged { against, state: State { craft, store }, whole: false };
        }
        found.extend(reach.solved.run(craft, self.policy, store));
        Judged { against: self.before.against(&found, craft, lines), state: State { craft, store }, whole: true }
    }
}
