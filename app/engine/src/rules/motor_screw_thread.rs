//! The motor screws have the thread of the motor's holes.
//!
//! Formula: thread of the screw = thread of the motor. Valid for metric coarse threads. Source: common practice, no source.
//! When it fails, the screw does not go in, or strips the thread.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::graph::{Property, part};

const SCREW: Property = part(Slot::MotorScrew, "thread");
const MOTOR: Property = part(Slot::Motor, "thread");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "motor-screw-thread",
    title: "Thread of the motor screws",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::MotorScrew, Slot::Motor],
    formula: "thread of the screw = thread of the motor",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[SCREW, MOTOR],
    form: Form::Table(&[Comparison { left: SCREW, is: Operator::Equals, right: Operand::Property(MOTOR), tight: None }]),
    says: Says {
        mismatch: "The {left.part} have the thread {left}; the holes of the {right.part} are {right}",
        tight: "The {left.part} have the thread {left}; the holes of the {right.part} seem to be {right}",
        fits: "Screws and motor holes are {left}",
        costs: "The screw does not go in, or strips the thread and lets the motor loose.",
    },
    hints: &["Choose screws with the motor's thread"],
    fails: Example {
        parts: r#"(id: "s", name: "Screw", fills: [Screw(thread: M2)]), (id: "m", name: "Motor", fills: [Motor(thread: M3)])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "s", name: "Screw", fills: [Screw(thread: M3)]), (id: "m", name: "Motor", fills: [Motor(thread: M3)])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: MotorScrew, part: "s", count: 16), (slot: Motor, part: "m", count: 4)]"#;

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(verdicts(&RULE, &RULE.passes.parts.replace("Motor(thread: M3)", "Motor()"), BUILD), [Status::Unstated]);
        assert_eq!(verdicts(&RULE, &RULE.passes.parts.replace("Screw(thread: M3)", "Screw()"), BUILD), [Status::Unstated]);
    }
}
