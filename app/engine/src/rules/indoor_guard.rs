//! Under a roof the propellers are guarded.
//!
//! Formula: `indoors ⇒ guard ≠ open`. Valid: any craft. Source: common practice, no source. Every touch of a wall or a person
//! ends the flight and may wound.

use propwright_schema::{part::Guard, slot::Slot};

use super::{
    Example, Form, Group, Law, Rule, Says, Weight,
    condition::{Demand, under},
};
use crate::graph::{Property, build, part};

const INDOORS: Property = build("purpose.indoors");
const GUARD: Property = part(Slot::Frame, "guard");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "indoor-guard",
    title: "Guards under a roof",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[Slot::Frame],
    formula: "indoors ⇒ guard ≠ open",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[INDOORS, GUARD],
    form: Form::Solved(|site| under(site, INDOORS, &Demand::Not(GUARD, Guard::Open.word()))),
    says: Says {
        mismatch: "",
        tight: "The {figure.part} has open propellers; under a roof they belong inside ducts",
        fits: "The propellers are guarded or fly outdoors",
        costs: "Every touch of a wall or a person ends the flight and may wound.",
    },
    hints: &["Choose a ducted frame", "Fly this one outdoors"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(guard: Open)])"#,
        build: r#"purpose: (indoors: true), parts: [(slot: Frame, part: "f")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(guard: PlainGuard)])"#,
        build: r#"purpose: (indoors: true), parts: [(slot: Frame, part: "f")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn unpublished() {
        let (parts, build) =
            (r#"(id: "f", name: "F", fills: [Frame()])"#, r#"purpose: (indoors: true), parts: [(slot: Frame, part: "f")]"#);
        assert_eq!(verdicts(&RULE, parts, build), [Status::Unstated]);
    }
}
