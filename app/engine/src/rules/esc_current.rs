//! The speed controller stands the current of full throttle for the burst, and the current of hard flying for good.
//!
//! Formula: `I_burst(full throttle, fresh pack) ≤ burst rating; √(a·I_full² + (1 − a)·I_between²) ≤ continuous rating`. Valid
//! for ratings in moving air; a burst rating without a duration is taken for 10 s. Source: common practice, no source. When it
//! fails, the controller desolders itself or stops a motor in the air.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::{CURRENT_BURST, CURRENT_LASTING},
};

const BURST: Property = derived("esc-burst");
const LASTING: Property = derived("esc-lasting");
const STANDS_BURST: Property = part(Slot::Esc, "current_burst_a");
const STANDS: Property = part(Slot::Esc, "current_a");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "esc-current",
    title: "Current through the speed controller",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Esc, Slot::Motor, Slot::Propeller, Slot::Battery],
    formula: "I_burst ≤ burst rating; I_rms(hard mix) ≤ continuous rating",
    source: "common practice, no source",
    law: Law::MoreIsBetter(STANDS_BURST),
    reads: &[BURST, LASTING, STANDS_BURST, STANDS],
    form: Form::Table(&[
        Comparison { left: BURST, is: Operator::AtMost, right: Operand::Property(STANDS_BURST), tight: Some(CURRENT_BURST) },
        Comparison { left: LASTING, is: Operator::AtMost, right: Operand::Property(STANDS), tight: Some(CURRENT_LASTING) },
    ]),
    says: Says {
        mismatch: "The {right.part} stands {right} a channel; these motors pull {left} as {left.title}",
        tight: "The {right.part} stands {right} a channel; {left} is pulled as {left.title}",
        fits: "A channel stands {right}; {left} is pulled as {left.title}",
        costs: "A channel burns out and a motor stops in the air.",
    },
    hints: &[
        "Choose a speed controller with a higher rating",
        "Limit the motor output",
        "Choose a propeller with less pitch or fewer blades",
    ],
    fails: Example { parts: CRAFT_30, build: BUILD },
    passes: Example { parts: CRAFT_60, build: BUILD },
};

const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4), (slot: Propeller, part: "p", count: 4),
    (slot: Esc, part: "e"), (slot: Battery, part: "b")]"#;
const CRAFT_30: &str = r#"(id: "f", name: "Frame", mass_g: 118, fills: [Frame(guard: Open)]),
    (id: "m", name: "Motor", mass_g: 32, fills: [Motor(stator_diameter_mm: 22, stator_height_mm: 7, kv_rpm_per_v: 1950)]),
    (id: "p", name: "Propeller", mass_g: 4, fills: [Propeller(diameter_in: 5.1, pitch_in: 4.3, blades: 3)]),
    (id: "e", name: "Controller", mass_g: 14, fills: [Esc(channels: 4, current_a: 20, current_burst_a: 25)]),
    (id: "b", name: "Pack", mass_g: 218, fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 1300)])"#;
const CRAFT_60: &str = r#"(id: "f", name: "Frame", mass_g: 118, fills: [Frame(guard: Open)]),
    (id: "m", name: "Motor", mass_g: 32, fills: [Motor(stator_diameter_mm: 22, stator_height_mm: 7, kv_rpm_per_v: 1950)]),
    (id: "p", name: "Propeller", mass_g: 4, fills: [Propeller(diameter_in: 5.1, pitch_in: 4.3, blades: 3)]),
    (id: "e", name: "Controller", mass_g: 14, fills: [Esc(channels: 4, current_a: 50, current_burst_a: 60)]),
    (id: "b", name: "Pack", mass_g: 218, fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 1300)])"#;
