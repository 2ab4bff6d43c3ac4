//! The propeller is held the way the motor holds it.
//!
//! Formula: fixing of the propeller = fixing of the motor: nut, two screws, or press fit. Valid for propellers without an
//! adapter. Source: common practice, no source. When it fails, the propeller cannot be mounted, or flies off.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::graph::{Property, part};

const PROPELLER: Property = part(Slot::Propeller, "fixing");
const MOTOR: Property = part(Slot::Motor, "fixing");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "propeller-fixing",
    title: "How the propeller is held",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Propeller, Slot::Motor],
    formula: "fixing of the propeller = fixing of the motor",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[PROPELLER, MOTOR],
    form: Form::Table(&[Comparison { left: PROPELLER, is: Operator::Equals, right: Operand::Property(MOTOR), tight: None }]),
    says: Says {
        mismatch: "The {left.part} is held by {left}; the {right.part} holds propellers by {right}",
        tight: "The {left.part} may be held by {left}; the {right.part} holds propellers by {right}",
        fits: "Propeller and motor agree on {left}",
        costs: "The propeller cannot be mounted, or flies off under power.",
    },
    hints: &["Choose a propeller for that motor's fixing", "Choose a motor with the propeller's fixing"],
    fails: Example {
        parts: r#"(id: "p", name: "Propeller", fills: [Propeller(fixing: TwoScrews)]), (id: "m", name: "Motor", fills: [Motor(fixing: Nut)])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Propeller", fills: [Propeller(fixing: Nut)]), (id: "m", name: "Motor", fills: [Motor(fixing: Nut)])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: Propeller, part: "p", count: 4), (slot: Motor, part: "m", count: 4)]"#;

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn unpublished_is_unstated() {
        let propeller = |fixing: &str| RULE.passes.parts.replace("Propeller(fixing: Nut)", fixing);
        assert_eq!(verdicts(&RULE, &propeller("Propeller(fixing: Nut)"), BUILD), [Status::Fits]);
        assert_eq!(verdicts(&RULE, &propeller("Propeller(fixing: Press)"), BUILD), [Status::Mismatch]);
        assert_eq!(verdicts(&RULE, &propeller("Propeller()"), BUILD), [Status::Unstated]);
    }
}
