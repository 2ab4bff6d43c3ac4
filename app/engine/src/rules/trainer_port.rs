//! A newcomer's radio lets a teacher take over.
//!
//! Formula: `newcomer ⇒ trainer port or trainer link`. Valid: any craft. Source: common practice, no source. Without one only the pupil can save the
//! craft.

use propwright_schema::slot::Slot;

use super::{
    Example, Form, Group, Law, Rule, Says, Weight,
    condition::{Demand, under},
};
use crate::graph::{Property, derived, part};

const NEWCOMER: Property = derived("newcomer");
const PORT: Property = part(Slot::Radio, "trainer");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "trainer-port",
    title: "A second radio for the teacher",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[Slot::Radio],
    formula: "newcomer ⇒ trainer port",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[NEWCOMER, PORT],
    form: Form::Solved(|site| under(site, NEWCOMER, &Demand::Set(PORT))),
    says: Says {
        mismatch: "",
        tight: "The {figure.part} has no trainer port: a teacher cannot take over",
        fits: "A teacher can take over",
        costs: "Only the pupil can save the craft.",
    },
    hints: &["Choose a radio with a trainer port or a trainer link", "Learn the first hours in a simulator"],
    fails: Example {
        parts: r#"(id: "r", name: "Radio", fills: [Radio(trainer: false)])"#,
        build: r#"pilot: (flown_h: 0), parts: [(slot: Radio, part: "r")]"#,
    },
    passes: Example {
        parts: r#"(id: "r", name: "Radio", fills: [Radio(trainer: true)])"#,
        build: r#"pilot: (flown_h: 0), parts: [(slot: Radio, part: "r")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::trial::only_newcomers_want_of_a_radio;

    #[test]
    fn only_newcomers_are_asked() {
        only_newcomers_want_of_a_radio(&RULE, "trainer");
    }
}
