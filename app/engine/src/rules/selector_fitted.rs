//! Packs that are flown in turn have a selector.
//!
//! Formula: `several packs ∧ in turn ⇒ selector`. Valid for packs on one craft. Source: common practice, no source. When it fails, only the first
//! pack can be used in the air.

use propwright_schema::{build_list::Arrangement, slot::Slot};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, build, line, part},
};

const ARRANGED: Property = build("packs");
const PACKS: Property = line(Slot::Battery, "count");
const SELECTOR: Property = part(Slot::PackSelector, "id");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "selector-fitted",
    title: "A selector for packs in turn",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::PackSelector, Slot::Battery],
    formula: "several packs in turn ⇒ selector",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[ARRANGED, PACKS, SELECTOR],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "The packs are flown in turn; no selector switches from one to the next",
        tight: "",
        fits: "A selector switches from pack to pack",
        costs: "In the air nothing can change the pack.",
    },
    hints: &["Add a pack selector", "Connect the packs side by side, if they are alike"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(cells: 6)])"#,
        build: r#"packs: InTurn, parts: [(slot: Battery, part: "p", count: 2)]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(cells: 6)]), (id: "s", name: "Selector", fills: [PackSelector()])"#,
        build: r#"packs: InTurn, parts: [(slot: Battery, part: "p", count: 2), (slot: PackSelector, part: "s")]"#,
    },
};

struct Inputs {
    arranged: Reading,
    packs: Reading,
    fitted: bool,
}

/// Only for several packs of which the list says that they are flown in turn.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let packs = site.all(PACKS);
    let several = packs.iter().map(|packs| packs.count).sum::<u32>() > 1;
    let Some(first) = packs.into_iter().next().filter(|_| several) else { return Vec::new() };
    let in_turn = |arranged: &Reading| arranged.word() == Ok(Arrangement::InTurn.word());
    let arranged = site.one(ARRANGED).ok().filter(in_turn);
    let fitted = !site.all(SELECTOR).is_empty();
    arranged.into_iter().map(|arranged| Ok(Inputs { arranged, packs: first.clone(), fitted })).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.fitted { Status::Fits } else { Status::Mismatch })
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("packs", inputs.packs.because.clone()), ("arranged", inputs.arranged.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn only_several_in_turn() {
        let packs = |count: &str, arranged: &str| judged(&RULE, &[("Battery", "cells: 6", count)], arranged);
        assert_eq!(packs(", count: 2", "packs: InTurn"), [Status::Mismatch]);
        assert_eq!(packs("", "packs: InTurn"), []);
        assert_eq!(packs(", count: 2", "packs: Parallel"), []);
    }
}
