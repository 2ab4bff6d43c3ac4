//! Propellers stay off while anything is tried at the bench.
//!
//! Formula: `whenever there is one`. Valid: any craft. Source: common practice, no source. A motor that starts on the bench
//! cuts to the bone.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

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
    form: Form::Solved(|site| run(site, gather, judge, facts)),
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

struct Inputs {
    fitted: Reading,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    vec![read(site)]
}

fn read(site: &Site) -> Result<Inputs, Missing> {
    Ok(Inputs { fitted: site.one(FITTED)? })
}

const fn judge(_: &Inputs) -> Verdict {
    Verdict::plain(Status::Tight)
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("fitted", inputs.fitted.because.clone())]
}
