//! The frame carries what is put on it.
//!
//! Formula: payload parts + payload of the purpose ≤ payload that the frame's maker allows. Valid for mounts near the centre of
//! mass. Source: the maker's limit. When it fails, arms bend, screws pull out, and the craft does not trim.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::graph::{Property, derived, part};

const CARRIED: Property = derived("payload-mass");
const ALLOWED: Property = part(Slot::Frame, "payload_max_g");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "payload",
    title: "Payload on the frame",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Frame, Slot::Payload],
    formula: "payload parts + payload of the purpose ≤ payload of the frame",
    source: "the maker's limit",
    law: Law::MoreIsBetter(ALLOWED),
    reads: &[CARRIED, ALLOWED],
    form: Form::Table(&[Comparison { left: CARRIED, is: Operator::AtMost, right: Operand::Property(ALLOWED), tight: None }]),
    says: Says {
        mismatch: "The {right.part} carries {right}; {left} of payload are put on it",
        tight: "The {right.part} carries {right}; the payload of {left} may pass that",
        fits: "The frame carries {right}; the payload weighs {left}",
        costs: "Arms bend, screws pull out, and the craft does not trim.",
    },
    hints: &["Choose a frame that carries more", "Leave payload off"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(payload_max_g: 150)])"#,
        build: r#"purpose: (payload_g: 200), parts: [(slot: Frame, part: "f")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(payload_max_g: 250)])"#,
        build: r#"purpose: (payload_g: 200), parts: [(slot: Frame, part: "f")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(allowed: &str, asked: &str) -> Vec<Status> {
        let parts =
            format!(r#"(id: "f", name: "F", fills: [Frame({allowed})]), (id: "c", name: "C", mass_g: 100, fills: [Payload()])"#);
        let build = format!(r#"{asked} parts: [(slot: Frame, part: "f"), (slot: Payload, part: "c")]"#);
        verdicts(&RULE, &parts, &build)
    }

    #[test]
    fn just_passes_just_fails() {
        // A listed mass of 100 g is 95.065 to 104.935 g between P5 and P95, at 3 % (1σ).
        assert_eq!(found("payload_max_g: 104.935", ""), [Status::Fits]);
        assert_eq!(found("payload_max_g: 104.93", ""), [Status::Tight]);
        assert_eq!(found("payload_max_g: 95.06", ""), [Status::Mismatch]);
        assert_eq!(found("payload_max_g: 295.1", "purpose: (payload_g: 200),"), [Status::Tight]);
    }

    #[test]
    fn unpublished_is_unstated_and_nothing_carried_is_nothing() {
        assert_eq!(found("", ""), [Status::Unstated]);
        let parts = r#"(id: "f", name: "F", fills: [Frame()])"#;
        assert_eq!(verdicts(&RULE, parts, r#"parts: [(slot: Frame, part: "f")]"#), []);
    }
}
