//! The strap goes through the slots of the frame.
//!
//! Formula: width of the strap ≤ width of the slots. Valid for frames with strap slots. Source: common practice, no source.
//! When it fails, the strap does not go through, or frays at the carbon's edge.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::graph::{Property, part};

const STRAP: Property = part(Slot::Strap, "width_mm");
const SLOTS: Property = part(Slot::Frame, "strap_width_mm");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "strap-width",
    title: "Strap through its slots",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Strap, Slot::Frame],
    formula: "width of the strap ≤ width of the slots",
    source: "common practice, no source",
    law: Law::LessIsBetter(STRAP),
    reads: &[STRAP, SLOTS],
    form: Form::Table(&[Comparison { left: STRAP, is: Operator::AtMost, right: Operand::Property(SLOTS), tight: None }]),
    says: Says {
        mismatch: "The {left.part} is {left} wide; the slots of the {right.part} are {right}",
        tight: "The {left.part} is {left} wide; the slots of the {right.part} are about {right}",
        fits: "A strap of {left} goes through slots of {right}",
        costs: "The strap does not go through, or frays at the edge and lets the pack go.",
    },
    hints: &["Choose a narrower strap"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(strap_width_mm: 15)]), (id: "s", name: "Strap", fills: [Strap(width_mm: 20)])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(strap_width_mm: 20)]), (id: "s", name: "Strap", fills: [Strap(width_mm: 20)])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Strap, part: "s", count: 2)]"#;

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(strap: &str) -> Vec<Status> {
        verdicts(&RULE, &RULE.passes.parts.replace("Strap(width_mm: 20)", strap), BUILD)
    }

    #[test]
    fn just_passes_just_fails() {
        assert_eq!(found("Strap(width_mm: 20)"), [Status::Fits]);
        assert_eq!(found("Strap(width_mm: 20.1)"), [Status::Mismatch]);
        assert_eq!(found("Strap()"), [Status::Unstated]);
    }
}
