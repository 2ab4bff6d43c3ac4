//! A craft that shall fly home by itself carries a satellite receiver.
//!
//! Formula: `returns home ⇒ GPS fitted`. Valid: any craft. Source: common practice, no source. Without it the fail-safe can
//! only drop the craft.

use propwright_schema::slot::Slot;

use super::{
    Example, Form, Group, Law, Rule, Says, Weight,
    condition::{Demand, under},
};
use crate::graph::{Property, build, part};

const RETURNS: Property = build("purpose.returns_home");
const GPS: Property = part(Slot::Gps, "id");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "return-needs-gps",
    title: "GPS for the way home",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[Slot::Gps],
    formula: "returns home ⇒ GPS fitted",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[RETURNS, GPS],
    form: Form::Solved(|site| under(site, RETURNS, &Demand::Fitted(GPS))),
    says: Says {
        mismatch: "",
        tight: "The craft shall fly home by itself when the link is lost, and carries no GPS",
        fits: "The way home has its GPS",
        costs: "When the link is lost the craft drops where it is.",
    },
    hints: &["Add a GPS with a compass", "Set the fail-safe to drop and fly in sight"],
    fails: Example { parts: "", build: "purpose: (returns_home: true), parts: []" },
    passes: Example {
        parts: r#"(id: "g", name: "G", fills: [Gps()])"#,
        build: r#"purpose: (returns_home: true), parts: [(slot: Gps, part: "g")]"#,
    },
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
    fn not_wanted() {
        let (parts, build) = ("", "purpose: (returns_home: false), parts: []");
        assert_eq!(verdicts(&RULE, parts, build), [Status::Fits]);
    }
}
