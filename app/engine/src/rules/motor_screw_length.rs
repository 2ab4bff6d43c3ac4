//! The motor screws end before the winding.
//!
//! Formula: length under the head − arm − washers and pads ≤ depth of the motor's thread. Valid for screws through one arm;
//! washers that the list does not name are not there. Source: common practice, no source. When it fails, the screw presses
//! into the winding: a short circuit that burns motor and speed controller, often only in the air.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::graph::{Property, derived, part};

const REACH: Property = derived("screw-engagement");
const DEPTH: Property = part(Slot::Motor, "thread_depth_mm");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "motor-screw-length",
    title: "Motor screws and the winding",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::MotorScrew, Slot::Motor, Slot::Frame],
    formula: "screw length − arm − washers and pads ≤ thread depth of the motor",
    source: "common practice, no source",
    law: Law::LessIsBetter(part(Slot::MotorScrew, "length_mm")),
    reads: &[REACH, DEPTH],
    form: Form::Table(&[Comparison { left: REACH, is: Operator::AtMost, right: Operand::Property(DEPTH), tight: None }]),
    says: Says {
        mismatch: "The {left.part} would reach the winding: {left} go into the {right.part}, whose thread is {right} deep",
        tight: "Of the {left.part}, {left} go into the {right.part}; its thread is about {right} deep",
        fits: "{left} of screw go into a thread {right} deep",
        costs: "The screw cuts the winding: motor and speed controller burn, often only in the air.",
    },
    hints: &["Choose a shorter screw", "Put a washer under each head and list it"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(arm_thickness_mm: 5)]),
        (id: "m", name: "Motor", fills: [Motor(thread: M3, thread_depth_mm: 3.5)]),
        (id: "s", name: "M3x10", fills: [Screw(thread: M3, length_mm: 10)])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(arm_thickness_mm: 5)]),
        (id: "m", name: "Motor", fills: [Motor(thread: M3, thread_depth_mm: 3.5)]),
        (id: "s", name: "M3x8", fills: [Screw(thread: M3, length_mm: 8)])"#,
        build: BUILD,
    },
};

const BUILD: &str =
    r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4), (slot: MotorScrew, part: "s", count: 16)]"#;

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(length: &str, rest: &str, build: &str) -> Vec<Status> {
        let parts = format!(
            r#"(id: "f", name: "F", fills: [Frame(arm_thickness_mm: 5)]), (id: "m", name: "M", fills: [Motor({rest})]),
            (id: "s", name: "S", fills: [Screw({length})])"#
        );
        verdicts(&RULE, &parts, build)
    }

    #[test]
    fn just_passes_just_fails() {
        assert_eq!(found("length_mm: 8.5", "thread_depth_mm: 3.5", BUILD), [Status::Fits]);
        assert_eq!(found("length_mm: 8.6", "thread_depth_mm: 3.5", BUILD), [Status::Mismatch]);
    }

    #[test]
    fn a_listed_washer_counts() {
        let washer = BUILD.replace("count: 16", "count: 16, between_mm: 1.5");
        assert_eq!(found("length_mm: 10", "thread_depth_mm: 3.5", &washer), [Status::Fits]);
        assert_eq!(found("length_mm: 10.1", "thread_depth_mm: 3.5", &washer), [Status::Mismatch]);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(found("length_mm: 8", "", BUILD), [Status::Unstated]);
        assert_eq!(found("", "thread_depth_mm: 3.5", BUILD), [Status::Unstated]);
    }
}
