//! A heavy lifter is no first craft.
//!
//! Formula: `newcomer ⇒ use ≠ lifter`. Valid: any craft. Source: common practice, no source. Kilograms and large propellers
//! leave no room for a slip.

use propwright_schema::build_list::Use;

use super::{
    Example, Form, Group, Law, Rule, Says, Weight,
    condition::{Demand, under},
};
use crate::graph::{Property, build, derived};

const NEWCOMER: Property = derived("newcomer");
const USE: Property = build("purpose.usage");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "first-craft-lifter",
    title: "No lifter to begin with",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[],
    formula: "newcomer ⇒ use ≠ lifter",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[NEWCOMER, USE],
    form: Form::Solved(|site| under(site, NEWCOMER, &Demand::Not(USE, Use::Lifter.word()))),
    says: Says {
        mismatch: "",
        tight: "A heavy lifter is no first craft: its mass and propellers leave no room for a slip",
        fits: "The use suits the pilot",
        costs: "A slip with kilograms and large propellers injures people.",
    },
    hints: &["Learn on a ducted craft, then fly a lifter beside somebody who does"],
    fails: Example { parts: "", build: "purpose: (usage: Lifter), pilot: (flown_h: 0, simulator_h: 20), parts: []" },
    passes: Example { parts: "", build: "purpose: (usage: DuctedMicro), pilot: (flown_h: 0, simulator_h: 20), parts: []" },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn nobody_said() {
        let (parts, build) = ("", "pilot: (flown_h: 0, simulator_h: 20), parts: []");
        assert_eq!(verdicts(&RULE, parts, build), [Status::Unstated]);
    }
}
