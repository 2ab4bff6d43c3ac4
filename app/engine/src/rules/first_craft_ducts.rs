//! A newcomer learns on a craft with ducts or guards.
//!
//! Formula: `newcomer ⇒ guard ≠ open`. Valid: any craft. Source: common practice, no source. Open propellers cut hands and
//! walls while one learns.

use propwright_schema::{part::Guard, slot::Slot};

use super::{
    Example, Form, Group, Law, Rule, Says, Weight,
    condition::{Demand, under},
};
use crate::graph::{Property, derived, part};

const NEWCOMER: Property = derived("newcomer");
const GUARD: Property = part(Slot::Frame, "guard");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "first-craft-ducts",
    title: "Guards for a first craft",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[Slot::Frame],
    formula: "newcomer ⇒ guard ≠ open",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[NEWCOMER, GUARD],
    form: Form::Solved(|site| under(site, NEWCOMER, &Demand::Not(GUARD, Guard::Open.word()))),
    says: Says {
        mismatch: "",
        tight: "The {figure.part} has open propellers; a newcomer learns safer inside ducts",
        fits: "The propellers are guarded",
        costs: "Open propellers cut hands and walls while one learns.",
    },
    hints: &["Begin with a ducted micro"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(guard: Open)])"#,
        build: r#"pilot: (flown_h: 0, simulator_h: 20), parts: [(slot: Frame, part: "f")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(guard: LippedDuct)])"#,
        build: r#"pilot: (flown_h: 0, simulator_h: 20), parts: [(slot: Frame, part: "f")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn unpublished() {
        let (parts, build) = (
            r#"(id: "f", name: "F", fills: [Frame()])"#,
            r#"pilot: (flown_h: 0, simulator_h: 20), parts: [(slot: Frame, part: "f")]"#,
        );
        assert_eq!(verdicts(&RULE, parts, build), [Status::Unstated]);
    }

    #[test]
    fn not_for_an_old_hand() {
        let (parts, build) = (
            r#"(id: "f", name: "Frame", fills: [Frame(guard: Open)])"#,
            r#"pilot: (flown_h: 120, simulator_h: 40), parts: [(slot: Frame, part: "f")]"#,
        );
        assert_eq!(verdicts(&RULE, parts, build), [Status::Fits]);
    }
}
