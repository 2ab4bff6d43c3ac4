//! Packs side by side are alike: same cells, same chemistry, same capacity.
//!
//! Formula: each figure of each further pack = that of the first. Valid for packs in parallel; plug them together only within
//! 0.05 V a cell. Source: common practice, no source. When it fails, one pack charges the other through its leads at hundreds of
//! amperes: a fire.

use propwright_schema::{build_list::Arrangement, slot::Slot};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Datum, Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, build, part},
};

const CONNECTED: Property = build("packs");
const ALIKE: [Property; 3] =
    [part(Slot::Battery, "cells"), part(Slot::Battery, "chemistry"), part(Slot::Battery, "capacity_mah")];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pack-pair",
    title: "Packs side by side are alike",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Battery],
    formula: "cells, chemistry and capacity of each = those of the first",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[CONNECTED, ALIKE[0], ALIKE[1], ALIKE[2]],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {other.part} has {other}, the {first.part} {first}: packs side by side must be alike",
        tight: "",
        fits: "The {other.part} and the {first.part} are alike: {first}",
        costs: "One pack charges the other through its leads at hundreds of amperes: a fire.",
    },
    hints: &["Take two packs of one model, bought together", "Fly the packs in turn through a selector"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 6000)]), (id: "h", name: "High", fills: [Battery(chemistry: LiHv, cells: 6, capacity_mah: 6000)])"#,
        build: r#"packs: Parallel, parts: [(slot: Battery, part: "p"), (slot: Battery, part: "h")]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 6000)])"#,
        build: r#"packs: Parallel, parts: [(slot: Battery, part: "p"), (slot: Battery, part: "p")]"#,
    },
};

struct Pair {
    first: Reading,
    other: Reading,
    figures: [Datum; 2],
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, facts)
}

/// Three entries a further line: its cells, its chemistry, its capacity.
fn gather(site: &Site) -> Vec<Result<Pair, Missing>> {
    let side_by_side = site.one(CONNECTED).is_ok_and(|packs| packs.word().is_ok_and(|word| word == Arrangement::Parallel.word()));
    if !side_by_side {
        return Vec::new();
    }
    let pairs = |property: Property| {
        let mut all = site.all(property).into_iter();
        let first = all.next();
        all.filter_map(move |other| first.clone().map(|first| pair(first, other))).collect::<Vec<_>>()
    };
    ALIKE.into_iter().flat_map(pairs).collect()
}

fn pair(first: Reading, other: Reading) -> Result<Pair, Missing> {
    let figures = [Datum::Value(first.value()?.clone()), Datum::Value(other.value()?.clone())];
    Ok(Pair { first, other, figures })
}

fn judge(pair: &Pair) -> Verdict {
    let [first, other] = pair.figures.clone();
    Verdict::of_words(if first == other { Status::Fits } else { Status::Mismatch }, first, other)
}

fn facts(pair: &Pair) -> Facts {
    vec![("other", pair.other.because.clone()), ("first", pair.first.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    fn packs(other: &str, connected: &str) -> Vec<Status> {
        let first = ("Battery", "chemistry: LiPo, cells: 6, capacity_mah: 6000", "");
        judged(&RULE, &[first, ("Battery", other, "")], connected)
    }

    #[test]
    fn each_figure_is_compared() {
        use Status::{Fits, Mismatch, Unstated};
        let side_by_side = "packs: Parallel";
        assert_eq!(packs("chemistry: LiPo, cells: 6, capacity_mah: 6000", side_by_side), [Fits, Fits, Fits]);
        assert_eq!(packs("chemistry: LiPo, cells: 5, capacity_mah: 6000", side_by_side), [Mismatch, Fits, Fits]);
        assert_eq!(packs("chemistry: LiHv, cells: 6, capacity_mah: 6000", side_by_side), [Fits, Mismatch, Fits]);
        assert_eq!(packs("chemistry: LiPo, cells: 6, capacity_mah: 5999", side_by_side), [Fits, Fits, Mismatch]);
        assert_eq!(packs("chemistry: LiPo, cells: 6", side_by_side), [Fits, Fits, Unstated]);
    }

    #[test]
    fn only_side_by_side() {
        assert_eq!(packs("chemistry: LiHv, cells: 4, capacity_mah: 850", "packs: InTurn"), []);
    }
}
