//! The charger fills a pack within an hour and a half.
//!
//! Formula: `t = 0.8·E/(0.85·P)`, E the pack's energy, P the least of the charger's power, its current at the pack's mean volts and the pack's charge
//! rating. Valid for one pack at a time. Source: common practice, no source. When it fails, most of the day is spent waiting.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::CHARGE_TIME,
};

const TIME: Property = derived("charge-time");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "charger-power",
    title: "Minutes to charge a pack",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Charger, Slot::Battery],
    formula: "t = 0.8·E/(0.85·P) ≤ 90 min",
    source: "common practice, no source",
    law: Law::MoreIsBetter(part(Slot::Charger, "power_w")),
    reads: &[TIME],
    form: Form::Table(&[Comparison { left: TIME, is: Operator::AtMost, right: Operand::Limit(CHARGE_TIME), tight: None }]),
    says: Says {
        mismatch: "",
        tight: "The {left.part} takes {left} to charge one pack after a flight",
        fits: "A pack is charged in {left}",
        costs: "One flight an afternoon.",
    },
    hints: &["Choose a charger with more power", "Take more packs along"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 6000, charge_c_rate: 3)]), (id: "c", name: "Charger", fills: [Charger(power_w: 60, current_a: 20)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: Charger, part: "c")]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 6000, charge_c_rate: 3)]), (id: "c", name: "Charger", fills: [Charger(power_w: 200, current_a: 20)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: Charger, part: "c")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    const PARTS: &str = r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 6000, charge_c_rate: 3)]), (id: "c", name: "Charger", fills: [Charger(power_w: 100, current_a: 20)])"#;
    const BUILD: &str = r#"parts: [(slot: Battery, part: "p"), (slot: Charger, part: "c")]"#;

    #[test]
    fn just_passes_just_fails() {
        // 6 × 3.7 V × 6 Ah = 133.2 Wh: 0.8 · 133.2 / 0.85 Wh in 90 min are 83.58 W.
        let found = |power: &str| verdicts(&RULE, &PARTS.replace("power_w: 100", power), BUILD);
        assert_eq!(found("power_w: 84"), [Status::Fits]);
        assert_eq!(found("power_w: 83"), [Status::Tight]);
        assert_eq!(verdicts(&RULE, &PARTS.replace("power_w: 100, ", ""), BUILD), [Status::Unstated]);
    }
}
