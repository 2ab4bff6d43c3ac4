//! Propellers stay off while anything is tried at the bench.
//!
//! Formula: `whenever there is one`. Valid: any craft. Source: common practice, no source. A motor that starts on the bench
//! cuts to the bone.

use propwright_schema::slot::Slot;

use super::{Example, Form, Group, Law, Rule, Says, Weight, whenever};
use crate::graph::{Property, part};

const FITTED: Property = part(Slot::Propeller, "id");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "propellers-off",
    title: "Propellers off at the bench",
    group: Group::Conduct,
    weight: Weight::Caution,
    slots: &[Slot::Propeller],
    formula: "whenever there is one",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[FITTED],
    form: Form::Solved(|site| whenever::fitted(site, FITTED)),
    says: Says {
        mismatch: "",
        tight: "Take the propellers off before the pack is plugged in at the bench; put them on outdoors, last",
        fits: "",
        costs: "A motor that starts on the bench cuts to the bone.",
    },
    hints: &["Use a supply with a current limit for the first power-up"],
    fails: Example {
        parts: r#"(id: "x", name: "Part", fills: [Propeller()])"#,
        build: r#"parts: [(slot: Propeller, part: "x")]"#,
    },
    passes: Example { parts: "", build: "parts: []" },
};
