//! What counts as the same mismatch before and after a change.

use std::collections::{BTreeMap, BTreeSet};

use propwright_schema::slot::Slot;

use crate::{
    explain,
    finding::{Finding, Status},
    rules::Weight,
};

/// A mismatch by its rule and the parts that it is about, with the detail that is meant of each.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// The rule's id.
    pub rule: &'static str,
    /// Slot, place in the slot and detail of each part, the one in the way first.
    pub parts: Vec<(Slot, usize, Option<String>)>,
}

impl Fault {
    /// The fault of a finding.
    pub fn of(finding: &Finding) -> Self {
        let parts = finding.outcome.subjects.iter().map(|subject| (subject.slot, subject.index, subject.detail.clone()));
        Self { rule: finding.rule, parts: parts.collect() }
    }
}

/// The rule that asks for what is needed to fly; a way out that empties a slot is none.
const COMPLETE: &str = "needed-to-fly";

/// What is wrong with a list.
#[derive(Debug, Clone, Default)]
pub(super) struct Faults {
    mismatches: BTreeMap<Fault, usize>,
    unstated: BTreeMap<&'static str, usize>,
}

impl Faults {
    pub(super) fn of<'f>(findings: impl IntoIterator<Item = &'f Finding>) -> Self {
        let mut faults = Self::default();
        for finding in findings.into_iter().filter(|finding| explain::weight(finding) == Weight::Finding) {
            match finding.status() {
                Status::Mismatch => *faults.mismatches.entry(Fault::of(finding)).or_default() += 1,
                Status::Unstated => *faults.unstated.entry(finding.rule).or_default() += 1,
                Status::Tight | Status::Fits => {}
            }
        }
        faults
    }

    /// The mismatches.
    pub(super) fn all(&self) -> impl Iterator<Item = &Fault> {
        self.mismatches.keys()
    }

    /// Those that are not among others.
    pub(super) fn beyond<'s>(&'s self, before: &'s Self) -> impl Iterator<Item = &'s Fault> {
        let more = move |(fault, count): &(&Fault, &usize)| before.mismatches.get(*fault).is_none_or(|known| *count > known);
        self.mismatches.iter().filter(more).map(|(fault, _)| fault)
    }

    pub(super) fn holds(&self, fault: &Fault) -> bool {
        self.mismatches.contains_key(fault)
    }

    /// Are all of `removed` gone, nothing new wrong, and nothing become unknown instead?
    pub(super) fn is_way_out(&self, before: &Self, removed: &BTreeSet<Fault>) -> bool {
        let known = |rule: &str| {
            self.unstated.get(rule).copied().unwrap_or_default() <= before.unstated.get(rule).copied().unwrap_or_default()
        };
        removed.iter().all(|fault| !self.holds(fault) && known(fault.rule))
            && known(COMPLETE)
            && self.beyond(before).next().is_none()
    }
}
