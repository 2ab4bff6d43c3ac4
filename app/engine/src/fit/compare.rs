//! Builds side by side: the parts that differ, the figures with their bands, what was found, and the price.

use std::{collections::BTreeSet, sync::Arc};

use propwright_schema::{part::Part, quantity::Money, slot::Slot};

use super::change::{Change, FIGURES, Figure, change};
use crate::{
    bill::{Bill, Total},
    craft::{Craft, Placed},
    finding::Status,
    interval::Interval,
    report::Report,
    rules,
};

/// A part of one of the builds.
#[derive(Debug, Clone, PartialEq)]
pub struct Listed {
    /// The part.
    pub part: Arc<Part>,
    /// How many.
    pub count: u32,
    /// On the shelf already.
    pub owned: bool,
}

/// A slot whose parts are not the same in all builds.
#[derive(Debug, Clone, PartialEq)]
pub struct Differing {
    /// The slot.
    pub slot: Slot,
    /// The parts of each build.
    pub each: Vec<Vec<Listed>>,
}

/// A figure in each build.
#[derive(Debug, Clone, PartialEq)]
pub struct FigureOfAll {
    /// The figure.
    pub figure: &'static Figure,
    /// Its value in each build; absent while it is not known.
    pub each: Vec<Option<Interval>>,
}

/// A rule that did not find plain fit in all builds.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// The rule's id.
    pub rule: &'static str,
    /// The gravest that it found in each build; absent where it does not apply.
    pub each: Vec<Option<Status>>,
}

/// Builds side by side; lists go in the order of the builds.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// The slots whose parts differ.
    pub parts: Vec<Differing>,
    /// Mass at take-off.
    pub mass: Vec<Option<Interval>>,
    /// The other figures.
    pub figures: Vec<FigureOfAll>,
    /// The rules that did not find plain fit everywhere.
    pub found: Vec<Found>,
    /// What changes from the first build to each; for the first itself nothing.
    pub changes: Vec<Change>,
}

/// Sets builds side by side, each against the first.
pub fn compare(reports: &[&Report]) -> Comparison {
    let all_slots = Slot::ALL.iter().copied();
    Comparison {
        parts: all_slots.filter_map(|slot| differing(reports, slot)).collect(),
        mass: reports.iter().map(|report| report.totals.takeoff_mass).collect(),
        figures: FIGURES.iter().map(|figure| figure_of_all(reports, figure)).collect(),
        found: rules::ALL.iter().filter_map(|rule| found(reports, rule.id)).collect(),
        changes: reports.first().map_or_else(Vec::new, |first| reports.iter().map(|report| priced(first, report)).collect()),
    }
}

/// What changes, with the shelf, whole packs, shipping and taxes in the price.
fn priced(before: &Report, after: &Report) -> Change {
    Change { cost: cost(&before.bill, &after.bill), ..between(before, after) }
}

fn cost(before: &Bill, after: &Bill) -> Option<Vec<Money>> {
    let unpriced = |bill: &Bill| bill.unpriced().map(|line| (line.part.id.clone(), line.packs)).collect::<BTreeSet<_>>();
    if unpriced(before) != unpriced(after) {
        return None;
    }
    let less = before.total.amounts.iter().map(|amount| Money::of(-amount.minor(), amount.unit()));
    Some(
        Total::of(less.chain(after.total.amounts.iter().copied()), None)
            .amounts
            .into_iter()
            .filter(|by| by.minor() != 0)
            .collect(),
    )
}

/// What changes from one report to another.
pub fn between(before: &Report, after: &Report) -> Change {
    change(before.into(), after.into())
}

fn differing(reports: &[&Report], slot: Slot) -> Option<Differing> {
    let each: Vec<Vec<Listed>> = reports.iter().map(|report| listed(&report.craft, slot)).collect();
    let same = each.windows(2).all(|pair| pair[0] == pair[1]);
    (!same).then_some(Differing { slot, each })
}

fn listed(craft: &Craft, slot: Slot) -> Vec<Listed> {
    let listed = |placed: &Placed| Listed {
        part: Arc::clone(&placed.subject.part),
        count: placed.fitted.count,
        owned: placed.fitted.owned,
    };
    craft.in_slot(slot).iter().filter(|placed| placed.listed_here).map(listed).collect()
}

fn figure_of_all(reports: &[&Report], figure: &'static Figure) -> FigureOfAll {
    FigureOfAll { figure, each: reports.iter().map(|report| report.figure(figure.id)).collect() }
}

fn found(reports: &[&Report], rule: &'static str) -> Option<Found> {
    let gravest = |report: &&Report| {
        let of_rule = report.findings.iter().filter(|finding| finding.rule == rule);
        of_rule.map(crate::finding::Finding::status).max()
    };
    let each: Vec<Option<Status>> = reports.iter().map(gravest).collect();
    let told: BTreeSet<Status> = each.iter().flatten().copied().filter(|status| *status != Status::Fits).collect();
    (!told.is_empty()).then_some(Found { rule, each })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial;

    const PARTS: &str = r#"(id: "f", name: "F", mass_g: 100, fills: [Frame(motor_patterns: ["16x16"])]),
        (id: "m", name: "M", mass_g: 30, fills: [Motor(pattern: "16x16")]), (id: "n", name: "N", mass_g: 34, fills: [Motor(pattern: "9x9")])"#;

    fn report(motor: &str) -> Report {
        trial::report(PARTS, &format!("parts: [(slot: Frame, part: \"f\"), (slot: Motor, part: \"{motor}\", count: 4)]"))
    }

    #[test]
    fn what_differs_is_told_and_nothing_else() {
        let (one, other) = (report("m"), report("n"));
        let compared = compare(&[&one, &other]);
        assert_eq!(compared.parts.iter().map(|differing| differing.slot).collect::<Vec<_>>(), [Slot::Motor]);
        assert_eq!(compared.parts[0].each[1][0].part.id, "n");
        let pattern = compared.found.iter().find(|found| found.rule == "motor-pattern").unwrap();
        assert_eq!(pattern.each, [Some(Status::Fits), Some(Status::Mismatch)]);
        assert!(compared.changes[0].mass.unwrap().none);
        // 4 × 4 g and 5 % of it for wire and solder.
        assert_eq!(compared.changes[1].mass.unwrap().by.nominal, 16_800);
        let same = compare(&[&one, &one]);
        assert_eq!(same.parts, []);
        assert_eq!(
            compare(&[]),
            Comparison { parts: vec![], mass: vec![], figures: same_figures(), found: vec![], changes: vec![] }
        );
    }

    fn same_figures() -> Vec<FigureOfAll> {
        FIGURES.iter().map(|figure| FigureOfAll { figure, each: Vec::new() }).collect()
    }
}
