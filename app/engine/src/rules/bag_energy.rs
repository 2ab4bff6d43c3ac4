//! The fire-safe bag is made for the energy of what lies in it.
//!
//! Formula: `E of the largest pack ≤ E of the bag`; tight when all packs together hold more. Valid for makers who state it. Source: the maker's
//! limit. When it fails, a burning pack burns through.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Verdict},
    graph::{Property, Reading, Site, derived, part},
    interval::Interval,
    verdict,
};

const ENERGY: Property = derived("pack-energy");
const ALL: Property = derived("packs-energy");
const BAG: Property = part(Slot::FireSafeBag, "energy_wh");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "bag-energy",
    title: "Packs in the fire-safe bag",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::FireSafeBag, Slot::Battery],
    formula: "energy of the largest pack ≤ that of the bag; all packs together beyond it: tight",
    source: "the maker's limit",
    law: Law::MoreIsBetter(BAG),
    reads: &[ENERGY, ALL, BAG],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "The {pack.part} holds {pack}; the {bag.part} is made for {bag}",
        tight: "All packs together hold {all}; the {bag.part} is made for {bag}: charge and store them apart",
        fits: "The {bag.part} is made for {bag}; the packs hold {all}",
        costs: "A burning pack burns through the bag.",
    },
    hints: &["Choose a bag for more energy", "Charge and store the packs apart"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 1300)]), (id: "b", name: "Bag", fills: [FireSafeBag(energy_wh: 25)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: FireSafeBag, part: "b")]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 1300)]), (id: "b", name: "Bag", fills: [FireSafeBag(energy_wh: 60)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: FireSafeBag, part: "b")]"#,
    },
};

struct Inputs {
    pack: Reading,
    all: Reading,
    bag: Reading,
    figures: [Interval; 3],
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let largest = |site: &Site| {
        let size = |pack: &Reading| pack.figure().map_or(i64::MAX, |energy| energy.nominal);
        site.all(ENERGY).into_iter().max_by_key(size)
    };
    let inputs = |bag: Reading| {
        let (pack, all) = (largest(site)?, site.one(ALL).ok()?);
        let figures = || Ok([pack.figure()?, all.figure()?, bag.figure()?]);
        Some(figures().map(|figures| Inputs { pack: pack.clone(), all: all.clone(), bag: bag.clone(), figures }))
    };
    site.all(BAG).into_iter().filter_map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    let [pack, all, bag] = inputs.figures;
    let together = verdict::enough(all, bag).softened(true);
    verdict::enough(pack, bag).softened(inputs.bag.is_estimated()).graver(together)
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("pack", inputs.pack.because.clone()), ("bag", inputs.bag.because.clone()), ("all", inputs.all.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn one_forbids_all_warn() {
        // 6 × 3.7 V × 1.3 Ah = 28.86 Wh.
        let pack = ("Battery", "chemistry: LiPo, cells: 6, capacity_mah: 1300", ", count: 2");
        let bag = |energy: &str| judged(&RULE, &[pack, ("FireSafeBag", energy, "")], "");
        assert_eq!(bag("energy_wh: 57.72"), [Status::Fits]);
        assert_eq!(bag("energy_wh: 57.7"), [Status::Tight]);
        assert_eq!(bag("energy_wh: 28.86"), [Status::Tight]);
        assert_eq!(bag("energy_wh: 28.8"), [Status::Mismatch]);
        assert_eq!(bag(""), [Status::Unstated]);
    }
}
