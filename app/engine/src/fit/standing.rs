//! Which findings of a build count against the part in one place.
//!
//! Those about the part itself, and those that are graver than before: a propeller is not blamed for a receiver that fitted
//! no better without it, but it is for the motors that it overloads.

use std::collections::{BTreeMap, BTreeSet};

use propwright_schema::slot::Slot;

use crate::{
    craft::Craft,
    explain,
    finding::{Finding, Missing, Status, Unknown},
    rules::{self, Weight},
};

/// What a finding is about: its rule, its parts, and the slot that is empty, if that is its reason.
pub(super) type About = (&'static str, Vec<(Slot, usize)>, Option<Slot>);

pub(super) fn about(finding: &Finding) -> About {
    let parts = finding.outcome.subjects.iter().map(|subject| (subject.slot, subject.index)).collect();
    (finding.rule, parts, empty_slot(finding))
}

fn empty_slot(finding: &Finding) -> Option<Slot> {
    match finding.missing() {
        Some(Missing { what: Unknown::Empty(slot), .. }) => Some(*slot),
        _ => None,
    }
}

/// How grave each finding was before.
#[derive(Debug, Clone)]
pub(crate) struct Before(BTreeMap<About, Status>);

impl Before {
    pub(crate) fn of(findings: &[Finding]) -> Self {
        let mut gravest = BTreeMap::new();
        for finding in findings {
            let status = gravest.entry(about(finding)).or_insert(Status::Fits);
            *status = finding.status().max(*status);
        }
        Self(gravest)
    }

    /// Is it graver than the gravest of its rule about the same parts before?
    pub(crate) fn worsened(&self, finding: &Finding) -> bool {
        finding.status() > self.0.get(&about(finding)).copied().unwrap_or(Status::Fits)
    }

    /// The findings that count against the parts of these lines and are not plain fit, gravest first.
    pub(crate) fn against(&self, found: &[Finding], craft: &Craft, lines: &[usize]) -> Vec<Finding> {
        let placed = lines.iter().flat_map(|line| craft.of_line(*line));
        let places: BTreeSet<_> = placed.map(|placed| (placed.subject.slot, placed.subject.index)).collect();
        let counts = |finding: &&Finding| {
            finding.status() != Status::Fits
                && explain::weight(finding) == Weight::Finding
                && (concerns(finding, &places) || self.worsened(finding))
        };
        let mut against: Vec<Finding> = found.iter().filter(counts).cloned().collect();
        let place = |finding: &Finding| rules::ALL.iter().position(|rule| rule.id == finding.rule);
        against.sort_by_cached_key(|finding| (std::cmp::Reverse(finding.status()), place(finding)));
        against
    }
}

/// Is it about one of these places? A finding about the craft as a whole is about all slots that its rule joins.
fn concerns(finding: &Finding, places: &BTreeSet<(Slot, usize)>) -> bool {
    let subjects = &finding.outcome.subjects;
    if !subjects.is_empty() {
        return subjects.iter().any(|subject| places.contains(&(subject.slot, subject.index)));
    }
    let of_slot = |slot: Slot| places.iter().any(|(other, _)| *other == slot);
    match empty_slot(finding) {
        Some(slot) => of_slot(slot),
        None => rules::by_id(finding.rule).is_some_and(|rule| rule.slots.iter().copied().any(of_slot)),
    }
}

/// The gravest of the findings; nothing found fits.
pub(crate) fn gravest(findings: &[Finding]) -> Status {
    findings.iter().map(Finding::status).max().unwrap_or(Status::Fits)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{craft::Subject, finding::Outcome, finding::Verdict, rules::trial};

    const PARTS: &str = r#"(id: "f", name: "F", fills: [Frame()]), (id: "m", name: "M", fills: [Motor()])"#;
    const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m"), (slot: Motor, part: "m")]"#;

    fn finding(rule: &'static str, status: Status, subjects: Vec<Subject>) -> Finding {
        Finding { rule, outcome: Outcome { subjects, verdict: Verdict::plain(status), facts: Vec::new() } }
    }

    #[test]
    fn what_is_about_the_part_counts_and_what_grew_worse() {
        let craft = trial::craft(PARTS, BUILD);
        let motor = |index: usize| vec![craft.in_slot(Slot::Motor)[index].subject.clone()];
        let frame = vec![craft.in_slot(Slot::Frame)[0].subject.clone()];
        let before = Before::of(&[
            finding("motor-pattern", Status::Mismatch, motor(0)),
            finding("duct-gap", Status::Tight, frame.clone()),
            finding("motor-count", Status::Fits, frame.clone()),
        ]);
        let now = [
            finding("motor-pattern", Status::Mismatch, motor(0)),
            finding("motor-pattern", Status::Unstated, motor(1)),
            finding("duct-gap", Status::Tight, frame.clone()),
            finding("motor-count", Status::Tight, frame),
            finding("mass-line", Status::Tight, Vec::new()),
        ];
        let against = |line: usize| {
            let found = before.against(&now, &craft, &[line]);
            found.iter().map(|finding| (finding.rule, finding.status())).collect::<Vec<_>>()
        };
        let (unstated, tight) = (("motor-pattern", Status::Unstated), ("motor-count", Status::Tight));
        assert_eq!(against(2), [tight, unstated], "the other motor and the old gap count not; cautions never");
        assert_eq!(against(1), [("motor-pattern", Status::Mismatch), tight, unstated]);
    }

    #[test]
    fn an_empty_slot_is_blamed_on_whoever_empties_it() {
        let parts = r#"(id: "fc", name: "All in one", fills: [FlightController(), Esc()]), (id: "g", name: "FC", fills: [FlightController()])"#;
        let found = |part: &str| {
            let craft = trial::craft(parts, &format!("parts: [(slot: FlightController, part: \"{part}\")]"));
            let store = crate::graph::graph().derive(&craft, &crate::policy::Policy::default());
            let all = crate::graph::judge(&craft, &store, &crate::policy::Policy::default(), |rule| rule.id == "needed-to-fly");
            (craft, all)
        };
        let ((_, before), (craft, after)) = (found("fc"), found("g"));
        let against = Before::of(&before).against(&after, &craft, &[0]);
        assert_eq!(against.iter().map(empty_slot).collect::<Vec<_>>(), [Some(Slot::Esc)]);
    }
}
