//! A pilot in goggles has an observer beside them, and flies over nobody.
//!
//! Formula: `whenever there is one`. Valid: any craft. Source: common practice, no source. Without an observer nobody sees the
//! person who walks in.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

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
    form: Form::Solved(|site| run(site, gather, judge, facts)),
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
