//! The propeller is no larger than the frame's maker allows and the motor's maker advises.
//!
//! Formula: D ≤ D₁ of the frame, which is room; beyond D₂ of the motor, which is advice about load, it is tight: the
//! currents decide. Valid for true diameters, measured tip to tip. Source: common practice, no source. When it fails, the
//! blades strike the frame, the pack or an antenna.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, part},
    policy,
};

const DIAMETER: Property = part(Slot::Propeller, "diameter_in");
const ALLOWED: Property = part(Slot::Frame, "propeller_max_in");
const ADVISED: Property = part(Slot::Motor, "propeller_max_mm");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "propeller-size",
    title: "Propeller size",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Propeller, Slot::Frame, Slot::Motor],
    formula: "diameter ≤ largest of the frame; above the largest that the motor's maker advises: tight",
    source: "common practice, no source",
    law: Law::LessIsBetter(DIAMETER),
    reads: &[DIAMETER, ALLOWED, ADVISED],
    form: Form::Table(&[
        Comparison { left: DIAMETER, is: Operator::AtMost, right: Operand::Property(ALLOWED), tight: None },
        Comparison {
            left: DIAMETER,
            is: Operator::AtMost,
            right: Operand::Property(ADVISED),
            tight: Some(policy::PROPELLER_ADVISED),
        },
    ]),
    says: Says {
        mismatch: "The {left.part} measures {left} across; the {right.part} has room for {right}",
        tight: "The {left.part} measures {left} across; the largest listed for the {right.part} is {right}",
        fits: "The {right.part} takes propellers up to {right}; these measure {left}",
        costs: "Blades strike the frame or the pack, or the motor runs hot under too large a load.",
    },
    hints: &["Choose a smaller propeller", "Choose a frame for that size", "Choose a larger motor"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(propeller_max_in: 5.1)]), (id: "p", name: "Six", fills: [Propeller(diameter_in: 6)])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(propeller_max_in: 5.1)]), (id: "p", name: "Five", fills: [Propeller(diameter_in: 5.1)])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Propeller, part: "p", count: 4)]"#;

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn on_frame(frame: &str, propeller: &str) -> Vec<Status> {
        let parts =
            format!(r#"(id: "f", name: "F", fills: [Frame({frame})]), (id: "p", name: "P", fills: [Propeller({propeller})])"#);
        verdicts(&RULE, &parts, BUILD)
    }

    #[test]
    fn room_in_the_frame() {
        assert_eq!(on_frame("propeller_max_in: 5.1", "diameter_in: 5.1"), [Status::Fits]);
        assert_eq!(on_frame("propeller_max_in: 5.1", "diameter_in: 5.11"), [Status::Mismatch]);
        assert_eq!(on_frame("", "diameter_in: 5.1"), [Status::Unstated]);
        assert_eq!(on_frame("propeller_max_in: 5.1", ""), [Status::Unstated]);
    }

    #[test]
    fn the_motor_only_advises() {
        let with = |most: &str| {
            let parts = format!(
                r#"(id: "m", name: "M", fills: [Motor({most})]), (id: "p", name: "P", fills: [Propeller(diameter_in: 5)])"#
            );
            verdicts(&RULE, &parts, r#"parts: [(slot: Motor, part: "m", count: 4), (slot: Propeller, part: "p", count: 4)]"#)
        };
        assert_eq!(with("propeller_max_mm: 127"), [Status::Fits], "5 in are 127 mm, exactly");
        assert_eq!(with("propeller_max_mm: 126.9"), [Status::Tight]);
        assert_eq!(with(""), [Status::Unstated]);
    }
}
