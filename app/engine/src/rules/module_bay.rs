//! Modules fit the bays of radio and goggles.
//!
//! Formula: bay that the module fits = bay of the radio or of the goggles. Valid for modules pushed into a bay. Source: common
//! practice, no source. When it fails, the module does not go in.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::graph::{Property, part};

const OF_RADIO: Property = part(Slot::RadioModule, "bay");
const RADIO: Property = part(Slot::Radio, "module_bay");
const OF_GOGGLES: Property = part(Slot::GogglesModule, "bay");
const GOGGLES: Property = part(Slot::Goggles, "module_bay");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "module-bay",
    title: "Modules in their bays",
    group: Group::Radio,
    weight: Weight::Finding,
    slots: &[Slot::RadioModule, Slot::Radio, Slot::GogglesModule, Slot::Goggles],
    formula: "bay of the module = bay of the radio or goggles",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[OF_RADIO, RADIO, OF_GOGGLES, GOGGLES],
    form: Form::Table(&[
        Comparison { left: OF_RADIO, is: Operator::Equals, right: Operand::Property(RADIO), tight: None },
        Comparison { left: OF_GOGGLES, is: Operator::Equals, right: Operand::Property(GOGGLES), tight: None },
    ]),
    says: Says {
        mismatch: "The {left.part} wants a {left}; the {right.part} offers: {right}",
        tight: "",
        fits: "The {left.part} goes into the bay of the {right.part}: {left}",
        costs: "The module does not go in.",
    },
    hints: &["Choose the module for that bay", "Choose a radio or goggles with the bay"],
    fails: Example {
        parts: r#"(id: "m", name: "Module", fills: [RadioModule(bay: "large bay")]), (id: "t", name: "Radio", fills: [Radio(module_bay: "small bay")])"#,
        build: r#"parts: [(slot: RadioModule, part: "m"), (slot: Radio, part: "t")]"#,
    },
    passes: Example {
        parts: r#"(id: "m", name: "Module", fills: [RadioModule(bay: "small bay")]), (id: "t", name: "Radio", fills: [Radio(module_bay: "small bay")])"#,
        build: r#"parts: [(slot: RadioModule, part: "m"), (slot: Radio, part: "t")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn both_bays() {
        let goggles = |bay: &str| judged(&RULE, &[("GogglesModule", r#"bay: "rear bay""#, ""), ("Goggles", bay, "")], "");
        assert_eq!(goggles(r#"module_bay: "rear bay""#), [Status::Fits]);
        assert_eq!(goggles(r#"module_bay: "none""#), [Status::Mismatch]);
        assert_eq!(goggles(""), [Status::Unstated]);
    }
}
