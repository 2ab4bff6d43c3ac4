//! Flight controller and speed controller speak a motor protocol in common.
//!
//! Formula: protocols of the speed controller ∩ protocols of the flight controller ≠ ∅. Valid for protocols as published. Source:
//! common practice, no source. When it fails, the motors do not turn.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::graph::{Property, part};

const UNDERSTOOD: Property = part(Slot::Esc, "protocols");
const SPOKEN: Property = part(Slot::FlightController, "protocols");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "motor-protocol",
    title: "A motor protocol in common",
    group: Group::Firmware,
    weight: Weight::Finding,
    slots: &[Slot::Esc, Slot::FlightController],
    formula: "protocols of the speed controller ∩ protocols of the flight controller ≠ ∅",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[UNDERSTOOD, SPOKEN],
    form: Form::Table(&[Comparison { left: UNDERSTOOD, is: Operator::Shares, right: Operand::Property(SPOKEN), tight: None }]),
    says: Says {
        mismatch: "The {left.part} understands {left}; the {right.part} speaks {right}",
        tight: "",
        fits: "The {left.part} and the {right.part} share a motor protocol",
        costs: "The motors do not turn.",
    },
    hints: &["Choose a speed controller with one of the flight controller's protocols", "Flash the speed controller anew"],
    fails: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(protocols: ["pulse width"])]), (id: "f", name: "Board", fills: [FlightController(protocols: ["digital 600 kbit/s"])])"#,
        build: r#"parts: [(slot: Esc, part: "e"), (slot: FlightController, part: "f")]"#,
    },
    passes: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(protocols: ["pulse width", "digital 300 kbit/s"])]), (id: "f", name: "Board", fills: [FlightController(protocols: ["digital 600 kbit/s", "digital 300 kbit/s"])])"#,
        build: r#"parts: [(slot: Esc, part: "e"), (slot: FlightController, part: "f")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn unpublished_is_unstated_and_an_empty_list_shares_nothing() {
        let esc = |record: &str| {
            judged(&RULE, &[("Esc", record, ""), ("FlightController", r#"protocols: ["digital 300 kbit/s"]"#, "")], "")
        };
        assert_eq!(esc(""), [Status::Unstated]);
        assert_eq!(esc("protocols: []"), [Status::Mismatch]);
        assert_eq!(esc(r#"protocols: ["digital 300 kbit/s"]"#), [Status::Fits]);
    }
}
