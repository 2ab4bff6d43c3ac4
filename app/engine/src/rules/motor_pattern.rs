//! The motor's screw holes are among the patterns drilled in the frame's arms.
//!
//! Formula: pattern of the motor's base ∈ patterns of the frame, each the distances between hole centres in mm. Valid for any
//! frame and motor whose patterns are published. Source: common practice, no source. When it fails, the motor cannot be screwed
//! down, or sits on two screws and shakes loose.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::graph::{Property, part};

const HOLES: Property = part(Slot::Motor, "pattern");
const DRILLED: Property = part(Slot::Frame, "motor_patterns");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "motor-pattern",
    title: "Motor holes in the arms",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Motor, Slot::Frame],
    formula: "pattern of the motor ∈ patterns of the arms",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[HOLES, DRILLED],
    form: Form::Table(&[Comparison { left: HOLES, is: Operator::OneOf, right: Operand::Property(DRILLED), tight: None }]),
    says: Says {
        mismatch: "The {left.part} has its screw holes at {left} mm; the arms of the {right.part} are drilled for {right} mm",
        tight: "The {left.part} goes on the arms of the {right.part} with few screws",
        fits: "The motor holes, {left} mm, are drilled in the arms",
        costs: "The motor cannot be screwed down, or shakes loose on two screws.",
    },
    hints: &["Choose a motor with one of the frame's patterns", "Choose a frame drilled for the motor"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(motor_patterns: ["16x16"])]), (id: "m", name: "Motor", fills: [Motor(pattern: "9x9")])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4)]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(motor_patterns: ["16x16", "9x9"])]), (id: "m", name: "Motor", fills: [Motor(pattern: "9x9")])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4)]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4)]"#;

    #[test]
    fn unpublished_is_unstated() {
        let parts = r#"(id: "f", name: "F", fills: [Frame(motor_patterns: ["16x16"])]), (id: "m", name: "M", fills: [Motor()])"#;
        assert_eq!(verdicts(&RULE, parts, BUILD), [Status::Unstated]);
        let parts = r#"(id: "f", name: "F", fills: [Frame()]), (id: "m", name: "M", fills: [Motor(pattern: "9x9")])"#;
        assert_eq!(verdicts(&RULE, parts, BUILD), [Status::Unstated]);
    }

    #[test]
    fn an_empty_slot_is_no_finding() {
        let parts = r#"(id: "m", name: "M", fills: [Motor(pattern: "9x9")])"#;
        assert_eq!(verdicts(&RULE, parts, r#"parts: [(slot: Motor, part: "m")]"#), []);
    }
}
