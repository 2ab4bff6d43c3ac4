//! Packs are charged under watch and stored half full in a place that may burn.
//!
//! Formula: `whenever there is one`. Valid: any craft. Source: common practice, no source. A damaged or overcharged pack burns
//! and cannot be put out.

use propwright_schema::slot::Slot;

use super::{Example, Form, Group, Law, Rule, Says, Weight, whenever};
use crate::graph::{Property, part};

const FITTED: Property = part(Slot::Battery, "id");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pack-fire",
    title: "Charging and storing packs",
    group: Group::Conduct,
    weight: Weight::Caution,
    slots: &[Slot::Battery],
    formula: "whenever there is one",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[FITTED],
    form: Form::Solved(|site| whenever::fitted(site, FITTED)),
    says: Says {
        mismatch: "",
        tight: "Charge under watch, at the rate printed, in a fire-safe place; store at 3.8 V a cell; never fly or charge a swollen or cut pack",
        fits: "",
        costs: "A damaged or overcharged pack burns and cannot be put out.",
    },
    hints: &["Keep sand or a fire-safe bag beside the charger"],
    fails: Example { parts: r#"(id: "x", name: "Part", fills: [Battery()])"#, build: r#"parts: [(slot: Battery, part: "x")]"# },
    passes: Example { parts: "", build: "parts: []" },
};
