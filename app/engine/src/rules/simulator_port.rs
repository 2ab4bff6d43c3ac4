//! A newcomer's radio plugs into a computer and flies a simulator.
//!
//! Formula: `newcomer ⇒ sticks for a computer`. Valid: any craft. Source: common practice, no source. Without it the hands learn other sticks than they
//! fly.

use propwright_schema::slot::Slot;

use super::{
    Example, Form, Group, Law, Rule, Says, Weight,
    condition::{Demand, under},
};
use crate::graph::{Property, derived, part};

const NEWCOMER: Property = derived("newcomer");
const PORT: Property = part(Slot::Radio, "simulator_port");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "simulator-port",
    title: "Sticks for the simulator",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[Slot::Radio],
    formula: "newcomer ⇒ sticks for a computer",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[NEWCOMER, PORT],
    form: Form::Solved(|site| under(site, NEWCOMER, &Demand::Set(PORT))),
    says: Says {
        mismatch: "",
        tight: "The {figure.part} does not plug into a computer: a simulator wants other sticks",
        fits: "The radio flies a simulator, too",
        costs: "The hands learn other sticks than they fly.",
    },
    hints: &["Choose a radio that plugs into a computer"],
    fails: Example {
        parts: r#"(id: "r", name: "Radio", fills: [Radio(simulator_port: false)])"#,
        build: r#"pilot: (flown_h: 0), parts: [(slot: Radio, part: "r")]"#,
    },
    passes: Example {
        parts: r#"(id: "r", name: "Radio", fills: [Radio(simulator_port: true)])"#,
        build: r#"pilot: (flown_h: 0), parts: [(slot: Radio, part: "r")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::rules::trial::only_newcomers_want_of_a_radio;

    #[test]
    fn only_newcomers_are_asked() {
        only_newcomers_want_of_a_radio(&RULE, "simulator_port");
    }
}
