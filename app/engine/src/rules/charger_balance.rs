//! The charger takes the pack's balance plug.
//!
//! Formula: balance plug of the pack ∈ balance plugs of the charger. Valid for packs of two cells and more; a single cell has none.
//! Source: common practice, no source. When it fails, cells drift apart, and one is charged past its end volts: a fire.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Datum, Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const CELLS: Property = part(Slot::Battery, "cells");
const PLUG: Property = part(Slot::Battery, "balance_plug");
const PLUGS: Property = part(Slot::Charger, "balance_plugs");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "charger-balance",
    title: "Balance plug of the packs",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Battery, Slot::Charger],
    formula: "balance plug of the pack ∈ balance plugs of the charger, from two cells on",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[CELLS, PLUG, PLUGS],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {charger.part} takes {charger}; the {pack.part} has {pack}",
        tight: "",
        fits: "The {charger.part} takes the balance plug of the {pack.part}: {pack}",
        costs: "Cells drift apart, and one is charged past its end volts: a fire.",
    },
    hints: &["Choose a charger with that balance plug", "Add a balance board for it; never charge unbalanced"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(cells: 12, balance_plug: "13 pin")]), (id: "c", name: "Charger", fills: [Charger(balance_plugs: ["7 pin"])])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: Charger, part: "c")]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(cells: 6, balance_plug: "7 pin")]), (id: "c", name: "Charger", fills: [Charger(balance_plugs: ["7 pin"])])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: Charger, part: "c")]"#,
    },
};

struct Joint {
    pack: Reading,
    charger: Reading,
    verdict: Verdict,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, |joint| joint.verdict.clone(), facts)
}

fn gather(site: &Site) -> Vec<Result<Joint, Missing>> {
    let chargers = site.all(PLUGS);
    let several = |(cells, _): &(Reading, Reading)| cells.figure().is_ok_and(|cells| cells.nominal > 1);
    let packs = site.all(CELLS).into_iter().zip(site.all(PLUG)).filter(several).map(|(_, pack)| pack);
    packs.flat_map(|pack| chargers.iter().map(move |charger| joint(pack.clone(), charger.clone())).collect::<Vec<_>>()).collect()
}

fn joint(pack: Reading, charger: Reading) -> Result<Joint, Missing> {
    let (plug, plugs) = (pack.value()?.clone(), charger.value()?.clone());
    let status = if plugs.items().contains(&plug) { Status::Fits } else { Status::Mismatch };
    Ok(Joint { pack, charger, verdict: Verdict::of_words(status, Datum::Value(plug), Datum::Value(plugs)) })
}

fn facts(joint: &Joint) -> Facts {
    vec![("charger", joint.charger.because.clone()), ("pack", joint.pack.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn from_two_cells_on() {
        let charged = |pack: &str| judged(&RULE, &[("Battery", pack, ""), ("Charger", r#"balance_plugs: ["3 pin"]"#, "")], "");
        assert_eq!(charged(r#"cells: 2, balance_plug: "3 pin""#), [Status::Fits]);
        assert_eq!(charged(r#"cells: 2, balance_plug: "4 pin""#), [Status::Mismatch]);
        assert_eq!(charged("cells: 2"), [Status::Unstated]);
        assert_eq!(charged("cells: 1"), []);
    }
}
