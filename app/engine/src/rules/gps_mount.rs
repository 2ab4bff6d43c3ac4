//! A GPS has a place on the frame, away from the current leads.
//!
//! Formula: `GPS fitted ⇒ place for a GPS`. Valid for frames that say so. Source: common practice, no source. When it fails, a printed holder
//! is wanted.

use propwright_schema::slot::Slot;

use super::{
    Example, Form, Group, Law, Rule, Says, Weight,
    condition::{Demand, under},
};
use crate::graph::{Property, part};

const FITTED: Property = part(Slot::Gps, "id");
const MOUNT: Property = part(Slot::Frame, "gps_mount");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "gps-mount",
    title: "A place for the GPS",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Gps, Slot::Frame],
    formula: "GPS fitted ⇒ the frame has a place for it",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[FITTED, MOUNT],
    form: Form::Solved(|site| under(site, FITTED, &Demand::Set(MOUNT))),
    says: Says {
        mismatch: "",
        tight: "The {figure.part} has no place for the {when.part}",
        fits: "The GPS has its place",
        costs: "Tape lets go, or the GPS sits on the current leads and its compass turns.",
    },
    hints: &["Print a holder that lifts it above the pack", "Choose a frame with a place for a GPS"],
    fails: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(gps_mount: false)]), (id: "g", name: "Fix", fills: [Gps()])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Gps, part: "g")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(gps_mount: true)]), (id: "g", name: "Fix", fills: [Gps()])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Gps, part: "g")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(judged(&RULE, &[("Gps", "", ""), ("Frame", "", "")], ""), [Status::Unstated]);
        assert_eq!(judged(&RULE, &[("Frame", "gps_mount: false", "")], ""), []);
    }
}
