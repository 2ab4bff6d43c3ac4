//! A first craft turns propellers of three inches at most.
//!
//! Formula: `newcomer ⇒ D ≤ 3 in`. Valid: any craft. Source: common practice, no source. Larger propellers hurt more and
//! forgive less.

use propwright_schema::slot::Slot;

use super::{
    Example, Form, Group, Law, Rule, Says, Weight,
    condition::{Demand, under},
};
use crate::{
    graph::{Property, derived, part},
    policy::FIRST_PROPELLER,
};

const NEWCOMER: Property = derived("newcomer");
const DIAMETER: Property = part(Slot::Propeller, "diameter_in");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "first-craft-size",
    title: "Size of a first craft",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[Slot::Propeller],
    formula: "newcomer ⇒ D ≤ 3 in",
    source: "common practice, no source",
    law: Law::LessIsBetter(DIAMETER),
    reads: &[NEWCOMER, DIAMETER],
    form: Form::Solved(|site| under(site, NEWCOMER, &Demand::AtMost(DIAMETER, FIRST_PROPELLER))),
    says: Says {
        mismatch: "",
        tight: "The {figure.part} measures {figure}; a first craft stays at {limit} or less",
        fits: "The propellers are small enough for a first craft",
        costs: "Larger propellers hurt more and forgive less.",
    },
    hints: &["Begin with a small ducted craft and carry goggles and radio over"],
    fails: Example {
        parts: r#"(id: "p", name: "Propeller", fills: [Propeller(diameter_in: 3.1)])"#,
        build: r#"pilot: (flown_h: 0, simulator_h: 20), parts: [(slot: Propeller, part: "p", count: 4)]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Propeller", fills: [Propeller(diameter_in: 3)])"#,
        build: r#"pilot: (flown_h: 0, simulator_h: 20), parts: [(slot: Propeller, part: "p", count: 4)]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn unpublished() {
        let (parts, build) = (
            r#"(id: "p", name: "P", fills: [Propeller()])"#,
            r#"pilot: (flown_h: 0, simulator_h: 20), parts: [(slot: Propeller, part: "p", count: 4)]"#,
        );
        assert_eq!(verdicts(&RULE, parts, build), [Status::Unstated]);
    }
}
