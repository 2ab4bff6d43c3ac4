//! The shaft is long enough for the hub and for what holds it.
//!
//! Formula: under a nut `shaft − hub ≥ 3 mm`, the thread left (four turns of an M5); pressed on `min(shaft, hub) ≥ 3 mm`. Valid for nuts and
//! press fits; two screws hold beside the shaft. Source: common practice, no source. When it fails, the propeller flies off.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived},
    policy::SHAFT_HOLD,
};

const HOLD: Property = derived("shaft-hold");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "propeller-hub",
    title: "Hub on the shaft",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Propeller, Slot::Motor],
    formula: "shaft − hub ≥ 3 mm under a nut; the lesser of both ≥ 3 mm for a press fit",
    source: "common practice, no source",
    law: Law::MoreIsBetter(HOLD),
    reads: &[HOLD],
    form: Form::Table(&[Comparison { left: HOLD, is: Operator::AtLeast, right: Operand::Limit(SHAFT_HOLD), tight: None }]),
    says: Says {
        mismatch: "The hub of the {left.part} leaves {left} of shaft to hold it; {right} are needed",
        tight: "The hub of the {left.part} leaves {left} of shaft to hold it",
        fits: "{left} of shaft hold the propeller",
        costs: "The nut strips its last turns, or the propeller flies off.",
    },
    hints: &["Choose a propeller with a thinner hub", "Choose a motor with a longer shaft"],
    fails: Example {
        parts: r#"(id: "m", name: "Part", fills: [Motor(fixing: Nut, shaft_length_mm: 8)]), (id: "p", name: "Part", fills: [Propeller(hub_mm: 6.4)])"#,
        build: r#"parts: [(slot: Motor, part: "m"), (slot: Propeller, part: "p")]"#,
    },
    passes: Example {
        parts: r#"(id: "m", name: "Part", fills: [Motor(fixing: Nut, shaft_length_mm: 13.5)]), (id: "p", name: "Part", fills: [Propeller(hub_mm: 6.4)])"#,
        build: r#"parts: [(slot: Motor, part: "m"), (slot: Propeller, part: "p")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    fn hold(fixing: &str, hub: &str) -> Vec<Status> {
        let motor = ["shaft_length_mm: 10, fixing: ", fixing].concat();
        judged(&RULE, &[("Motor", &motor, ""), ("Propeller", hub, "")], "")
    }

    #[test]
    fn just_passes_just_fails() {
        assert_eq!(hold("Nut", "hub_mm: 7"), [Status::Fits]);
        assert_eq!(hold("Nut", "hub_mm: 7.1"), [Status::Tight]);
        assert_eq!(hold("Nut", "hub_mm: 8"), [Status::Tight]);
        assert_eq!(hold("Nut", "hub_mm: 8.1"), [Status::Mismatch]);
        assert_eq!(hold("Press", "hub_mm: 1.9"), [Status::Mismatch]);
        assert_eq!(hold("TwoScrews", "hub_mm: 9.9"), []);
        assert_eq!(hold("Nut", ""), [Status::Unstated]);
    }
}
