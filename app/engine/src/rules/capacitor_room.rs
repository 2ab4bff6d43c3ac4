//! A capacitor lies between the plates, where a crash does not reach it.
//!
//! Formula: `standoffs − diameter ≥ 0`, both in mm. Valid for frames with two plates. Source: common practice, no source. When it fails,
//! the capacitor hangs outside and is torn off.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::CAPACITOR_ROOM,
};

const ROOM: Property = derived("capacitor-room");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "capacitor-room",
    title: "Room for the capacitor",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Capacitor, Slot::Frame],
    formula: "diameter of the capacitor ≤ standoffs",
    source: "common practice, no source",
    law: Law::LessIsBetter(part(Slot::Capacitor, "diameter_mm")),
    reads: &[ROOM],
    form: Form::Table(&[Comparison { left: ROOM, is: Operator::AtLeast, right: Operand::Limit(CAPACITOR_ROOM), tight: None }]),
    says: Says {
        mismatch: "",
        tight: "The {left.part} does not lie between the plates ({left} of room); it hangs outside",
        fits: "The capacitor lies between the plates",
        costs: "It is torn off in the first crash, or a blade strikes it.",
    },
    hints: &["Choose a thinner capacitor", "Fasten it along an arm with a strap and lacquer"],
    fails: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(standoff_mm: 12)]), (id: "c", name: "Capacitor", fills: [Capacitor(diameter_mm: 12.5)])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Capacitor, part: "c")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(standoff_mm: 20)]), (id: "c", name: "Capacitor", fills: [Capacitor(diameter_mm: 12.5)])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Capacitor, part: "c")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn just_passes_just_fails() {
        let between = |diameter: &str| judged(&RULE, &[("Frame", "standoff_mm: 16", ""), ("Capacitor", diameter, "")], "");
        assert_eq!(between("diameter_mm: 16"), [Status::Fits]);
        assert_eq!(between("diameter_mm: 16.1"), [Status::Tight]);
        assert_eq!(between(""), [Status::Unstated]);
    }
}
