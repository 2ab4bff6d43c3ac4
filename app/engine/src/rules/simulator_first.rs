//! A newcomer has fifteen hours in a simulator before the first flight.
//!
//! Formula: `newcomer ⇒ simulator hours ≥ 15`. Valid: any craft. Source: common practice, no source. Who skips it breaks the
//! first craft in its first minutes.

use super::{
    Example, Form, Group, Law, Rule, Says, Weight,
    condition::{Demand, under},
};
use crate::{
    graph::{Property, build, derived},
    policy::SIMULATOR,
};

const NEWCOMER: Property = derived("newcomer");
const HOURS: Property = build("pilot.simulator_h");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "simulator-first",
    title: "Simulator first",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[],
    formula: "newcomer ⇒ simulator hours ≥ 15",
    source: "common practice, no source",
    law: Law::MoreIsBetter(HOURS),
    reads: &[NEWCOMER, HOURS],
    form: Form::Solved(|site| under(site, NEWCOMER, &Demand::AtLeast(HOURS, SIMULATOR))),
    says: Says {
        mismatch: "",
        tight: "A newcomer with {figure} in a simulator: {limit} are usual before the first flight",
        fits: "Hours in a simulator are enough for a first flight",
        costs: "The first craft breaks in its first minutes.",
    },
    hints: &["Fly a simulator with the radio that you will use; it costs no parts"],
    fails: Example { parts: "", build: "pilot: (flown_h: 0, simulator_h: 14.9), parts: []" },
    passes: Example { parts: "", build: "pilot: (flown_h: 0, simulator_h: 15), parts: []" },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn nobody_said() {
        let (parts, build) = ("", "parts: []");
        assert_eq!(verdicts(&RULE, parts, build), [Status::Unstated]);
    }

    #[test]
    fn an_old_hand_needs_none() {
        let (parts, build) = ("", "pilot: (flown_h: 10, simulator_h: 0), parts: []");
        assert_eq!(verdicts(&RULE, parts, build), [Status::Fits]);
    }
}
