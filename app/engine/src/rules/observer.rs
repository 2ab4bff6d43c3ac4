//! A pilot in goggles has an observer beside them, and flies over nobody.
//!
//! Formula: `whenever there is one`. Valid: any craft. Source: common practice, no source. Without an observer nobody sees the
//! person who walks in.

use propwright_schema::slot::Slot;

use super::{Example, Form, Group, Law, Rule, Says, Weight, whenever};
use crate::graph::{Property, part};

const FITTED: Property = part(Slot::Goggles, "id");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "observer",
    title: "Observer, and nobody below",
    group: Group::Conduct,
    weight: Weight::Caution,
    slots: &[Slot::Goggles],
    formula: "whenever there is one",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[FITTED],
    form: Form::Solved(|site| whenever::fitted(site, FITTED)),
    says: Says {
        mismatch: "",
        tight: "A pilot in goggles needs an observer in most places; fly over nobody, and ask the local authority what applies",
        fits: "",
        costs: "Without an observer nobody sees the person who walks in.",
    },
    hints: &["Take somebody along who watches the sky and the people"],
    fails: Example { parts: r#"(id: "x", name: "Part", fills: [Goggles()])"#, build: r#"parts: [(slot: Goggles, part: "x")]"# },
    passes: Example { parts: "", build: "parts: []" },
};
