//! A pack above 100 Wh does not fly in hand luggage without asking.
//!
//! Formula: `E = U_nominal·C ≤ 100 Wh`. Valid: packs that may fly at all; what is said of larger ones is said by the rule about those. Source: IATA guidance on lithium batteries, from memory; ask the
//! carrier. The carrier keeps the pack at the gate.

use std::sync::Arc;

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Missing, Status, Verdict},
    graph::{Property, Reading, Site, derived},
    policy::{AIR_TRANSPORT, AIR_TRANSPORT_MOST},
    verdict,
};

const ENERGY: Property = derived("pack-energy");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "air-transport",
    title: "Packs in an aeroplane",
    group: Group::Conduct,
    weight: Weight::Caution,
    slots: &[Slot::Battery],
    formula: "E = U_nominal·C ≤ 100 Wh",
    source: "IATA guidance on lithium batteries, from memory; ask the carrier",
    law: Law::LessIsBetter(ENERGY),
    reads: &[ENERGY],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The {energy.part} holds {energy}; beyond {limit} the carrier must be asked first",
        fits: "The packs may fly in hand luggage, each with its contacts covered",
        costs: "The carrier keeps the pack at the gate.",
    },
    hints: &["Ask the carrier before the journey"],
    fails: Example {
        parts: r#"(id: "x", name: "X", fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 4550)])"#,
        build: r#"parts: [(slot: Battery, part: "x")]"#,
    },
    passes: Example {
        parts: r#"(id: "x", name: "X", fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 4500)])"#,
        build: r#"parts: [(slot: Battery, part: "x")]"#,
    },
};

struct Inputs {
    energy: Reading,
    verdict: Verdict,
    limit: Arc<Because>,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let may_fly = |energy: &Reading| {
        energy.figure().map_or(true, |energy| verdict::at_most(energy, &AIR_TRANSPORT_MOST, site.policy()).status == Status::Fits)
    };
    site.all(ENERGY).into_iter().filter(may_fly).map(|energy| read(site, energy)).collect()
}

fn read(site: &Site, energy: Reading) -> Result<Inputs, Missing> {
    let verdict = verdict::at_most(energy.figure()?, &AIR_TRANSPORT, site.policy());
    Ok(Inputs { energy, verdict, limit: site.threshold(&AIR_TRANSPORT) })
}

fn judge(inputs: &Inputs) -> Verdict {
    inputs.verdict.clone()
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("energy", inputs.energy.because.clone()), ("limit", inputs.limit.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{
        finding::Status,
        rules::trial::{judged, verdicts},
    };

    #[test]
    fn just_passes_just_fails_and_is_silent_where_a_pack_may_not_fly_at_all() {
        // Nominal volts of LiPo 3.7 V a cell: 6 × 3.7 V × 4.5 Ah = 99.9 Wh; 12 × 3.7 V × 3.6 Ah = 159.84 Wh.
        let pack = |record: &str| judged(&RULE, &[("Battery", record, "")], "");
        assert_eq!(pack("chemistry: LiPo, cells: 6, capacity_mah: 4500"), [Status::Fits]);
        assert_eq!(pack("chemistry: LiPo, cells: 6, capacity_mah: 4550"), [Status::Tight]);
        assert_eq!(pack("chemistry: LiPo, cells: 12, capacity_mah: 3600"), [Status::Tight]);
        assert_eq!(pack("chemistry: LiPo, cells: 12, capacity_mah: 3604"), []);
    }

    #[test]
    fn unpublished() {
        let (parts, build) =
            (r#"(id: "x", name: "X", fills: [Battery(chemistry: LiPo, cells: 6)])"#, r#"parts: [(slot: Battery, part: "x")]"#);
        assert_eq!(verdicts(&RULE, parts, build), [Status::Unstated]);
    }
}
