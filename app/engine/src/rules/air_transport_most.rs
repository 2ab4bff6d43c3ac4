//! A pack above 160 Wh does not fly with a passenger at all.
//!
//! Formula: `E = U_nominal·C ≤ 160 Wh`. Valid: any craft. Source: IATA guidance on lithium batteries, from memory; ask the carrier. The carrier refuses
//! the pack.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived},
    policy::AIR_TRANSPORT_MOST,
};

const ENERGY: Property = derived("pack-energy");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "air-transport-most",
    title: "Packs that do not fly",
    group: Group::Conduct,
    weight: Weight::Caution,
    slots: &[Slot::Battery],
    formula: "E = U_nominal·C ≤ 160 Wh",
    source: "IATA guidance on lithium batteries, from memory; ask the carrier",
    law: Law::LessIsBetter(ENERGY),
    reads: &[ENERGY],
    form: Form::Table(&[Comparison {
        left: ENERGY,
        is: Operator::AtMost,
        right: Operand::Limit(AIR_TRANSPORT_MOST),
        tight: None,
    }]),
    says: Says {
        mismatch: "",
        tight: "The {left.part} holds {left}; beyond {right} no passenger may take a pack along: send it as dangerous goods",
        fits: "No pack is too large for a passenger's flight, with the carrier's leave",
        costs: "The carrier refuses the pack, and perhaps the passenger.",
    },
    hints: &["Hire packs at the place", "Send them as dangerous goods, ahead of time"],
    fails: Example {
        parts: r#"(id: "x", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 12, capacity_mah: 6000)])"#,
        build: r#"parts: [(slot: Battery, part: "x")]"#,
    },
    passes: Example {
        parts: r#"(id: "x", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 6000)])"#,
        build: r#"parts: [(slot: Battery, part: "x")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn just_passes_just_fails() {
        // 12 × 3.7 V × 3.6 Ah = 159.84 Wh.
        let pack = |capacity: &str| judged(&RULE, &[("Battery", &["chemistry: LiPo, cells: 12, ", capacity].concat(), "")], "");
        assert_eq!(pack("capacity_mah: 3600"), [Status::Fits]);
        assert_eq!(pack("capacity_mah: 3604"), [Status::Tight]);
        assert_eq!(pack(""), [Status::Unstated]);
    }
}
