//! The speed controller sends the rotor speed back, so that the firmware filters by it.
//!
//! Formula: two-way rpm over the signal wire. Valid for digital motor protocols. Source: common practice, no source. When it fails, filters must be
//! stronger and slower, and the motors run hotter.

use propwright_schema::slot::Slot;

use super::{
    Example, Form, Group, Law, Rule, Says, Weight,
    condition::{Demand, under},
};
use crate::graph::{Property, part};

const FITTED: Property = part(Slot::Esc, "id");
const TWO_WAY: Property = part(Slot::Esc, "two_way_rpm");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "two-way-rpm",
    title: "Rotor speed comes back",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Esc],
    formula: "two-way rpm over the signal wire",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[FITTED, TWO_WAY],
    form: Form::Solved(|site| under(site, FITTED, &Demand::Set(TWO_WAY))),
    says: Says {
        mismatch: "",
        tight: "The {figure.part} does not send the rotor speed back: the firmware cannot filter by it",
        fits: "The rotor speed comes back over the signal wire",
        costs: "Vibration of the motors reaches the gyro: hot motors and a nervous craft.",
    },
    hints: &["Choose a speed controller with two-way rpm", "Fly with stronger fixed filters"],
    fails: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(two_way_rpm: false)])"#,
        build: r#"parts: [(slot: Esc, part: "e")]"#,
    },
    passes: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(two_way_rpm: true)])"#,
        build: r#"parts: [(slot: Esc, part: "e")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(judged(&RULE, &[("Esc", "", "")], ""), [Status::Unstated]);
    }
}
