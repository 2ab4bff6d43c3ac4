//! Packs are plugged together side by side only at the same volts.
//!
//! Formula: whenever several packs are connected in parallel; at most 0.05 V a cell apart. Valid for any chemistry. Source: common
//! practice, no source. Unlike volts drive a current that only the leads limit.

use propwright_schema::{build_list::Arrangement, slot::Slot};

use super::{Example, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, build, part},
};

const CONNECTED: Property = build("packs");
const FITTED: Property = part(Slot::Battery, "id");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "parallel-packs",
    title: "Plugging packs together",
    group: Group::Conduct,
    weight: Weight::Caution,
    slots: &[Slot::Battery],
    formula: "several packs in parallel",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[CONNECTED, FITTED],
    form: Form::Solved(check),
    says: Says {
        mismatch: "",
        tight: "Plug packs together side by side only within 0.05 V a cell: meter both first",
        fits: "",
        costs: "Unlike packs drive a current through each other that only the leads limit.",
    },
    hints: &["Charge both packs together, and retire them together"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery()])"#,
        build: r#"packs: Parallel, parts: [(slot: Battery, part: "p", count: 2)]"#,
    },
    passes: Example { parts: "", build: "parts: []" },
};

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, |_| Verdict::plain(Status::Tight), |connected| vec![("connected", connected.because.clone())])
}

fn gather(site: &Site) -> Vec<Result<Reading, Missing>> {
    let several = site.all(FITTED).iter().map(|pack| pack.count).sum::<u32>() > 1;
    let parallel = |packs: &Reading| packs.word().is_ok_and(|word| word == Arrangement::Parallel.word());
    site.all(CONNECTED).into_iter().filter(|packs| several && parallel(packs)).map(Ok).collect()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn only_several_packs_side_by_side() {
        assert_eq!(judged(&RULE, &[("Battery", "", ", count: 2")], "packs: Parallel"), [Status::Tight]);
        assert_eq!(judged(&RULE, &[("Battery", "", "")], "packs: Parallel"), []);
        assert_eq!(judged(&RULE, &[("Battery", "", ", count: 2")], "packs: Series"), []);
        assert_eq!(judged(&RULE, &[("Battery", "", ", count: 2")], ""), []);
    }
}
