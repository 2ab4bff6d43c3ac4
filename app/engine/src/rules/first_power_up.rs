//! The first power comes through a current limiter, with the propellers off.
//!
//! Formula: whenever there is a speed controller. Valid: any craft. Source: common practice, no source. A solder bridge then trips the limiter and burns
//! nothing.

use propwright_schema::slot::Slot;

use super::{Example, Form, Group, Law, Rule, Says, Weight, whenever};
use crate::graph::{Property, part};

const FITTED: Property = part(Slot::Esc, "id");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "first-power-up",
    title: "First power on a limiter",
    group: Group::Conduct,
    weight: Weight::Caution,
    slots: &[Slot::Esc],
    formula: "whenever there is one",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[FITTED],
    form: Form::Solved(|site| whenever::fitted(site, FITTED)),
    says: Says {
        mismatch: "",
        tight: "Take the propellers off, measure for a short, and give the first power through a current limiter; then try direction, order and fail-safe of the motors",
        fits: "",
        costs: "A solder bridge burns the boards in the first second.",
    },
    hints: &[
        "A supply with a current limit, or a limiter between pack and craft",
        "Tick the set-up sheet before the propellers go on",
    ],
    fails: Example { parts: r#"(id: "x", name: "Part", fills: [Esc()])"#, build: r#"parts: [(slot: Esc, part: "x")]"# },
    passes: Example { parts: "", build: "parts: []" },
};
