//! The motor leads reach the speed controller with a bow.
//!
//! Formula: `left = length − d`, d in mm from the farthest motor to the nearest place for boards. Valid for several channels on one board; a
//! controller on the arm is always near. Source: common practice, no source. When it fails, the leads must be lengthened.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::LEADS_LEFT,
};

const LEFT: Property = derived("leads-left");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "motor-leads",
    title: "Motor leads reach the board",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Motor, Slot::Frame, Slot::Esc],
    formula: "length of the leads − distance from the farthest motor to the board ≥ 10 mm",
    source: "common practice, no source",
    law: Law::MoreIsBetter(part(Slot::Motor, "lead_length_mm")),
    reads: &[LEFT],
    form: Form::Table(&[Comparison { left: LEFT, is: Operator::AtLeast, right: Operand::Limit(LEADS_LEFT), tight: None }]),
    says: Says {
        mismatch: "",
        tight: "The leads of the {left.part} end {left} beyond the board: lengthen them",
        fits: "The motor leads reach the board with {left} to spare",
        costs: "A lead soldered taut breaks at the pad in the first crash.",
    },
    hints: &["Solder longer leads of the same gauge", "Choose a motor with longer leads"],
    fails: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(motors: [(x_mm: 80, y_mm: 60)], stacks: [(pattern: "30.5x30.5")])]), (id: "m", name: "Part", fills: [Motor(lead_length_mm: 105)]), (id: "e", name: "Part", fills: [Esc(channels: 4)])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4), (slot: Esc, part: "e")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(motors: [(x_mm: 80, y_mm: 60)], stacks: [(pattern: "30.5x30.5")])]), (id: "m", name: "Part", fills: [Motor(lead_length_mm: 150)]), (id: "e", name: "Part", fills: [Esc(channels: 4)])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4), (slot: Esc, part: "e")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn just_passes_just_fails() {
        let reach = |leads: &str, channels: &str| {
            let frame = r#"motors: [(x_mm: 80, y_mm: 60)], stacks: [(pattern: "20x20")]"#;
            judged(&RULE, &[("Frame", frame, ""), ("Motor", leads, ""), ("Esc", channels, "")], "")
        };
        assert_eq!(reach("lead_length_mm: 110", "channels: 4"), [Status::Fits]);
        assert_eq!(reach("lead_length_mm: 109.9", "channels: 4"), [Status::Tight]);
        assert_eq!(reach("lead_length_mm: 40", "channels: 1"), []);
        assert_eq!(reach("", "channels: 4"), [Status::Unstated]);
    }
}
