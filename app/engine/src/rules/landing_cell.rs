//! A cell keeps its volts in hover at landing, with the reserve left in the pack.
//!
//! Formula: `V_cell = OCV(reserve) − I·R_cell/p`, 20 % left in LiPo and LiHV, 10 % in Li-ion. Valid at room temperature: a cold
//! cell sags twice as much. Source of the
//! thresholds: common practice, no source. When it fails, the controller browns out or the pack swells.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{
    Example, Form, Group, Law, Rule, Says, Weight, cell_volts,
    cell_volts::{CHEMISTRY, Floors},
};
use crate::{
    graph::{Property, derived},
    policy::{LANDING_CELL_LI_ION, LANDING_CELL_LIPO},
};

const VOLTS: Property = derived("landing-cell");
const FLOORS: Floors = Floors { lipo: LANDING_CELL_LIPO, li_ion: LANDING_CELL_LI_ION };

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "landing-cell",
    title: "Volts of a cell at landing",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Battery, Slot::Motor, Slot::Propeller],
    formula: "V0(reserve) − I·R_cell in hover ≥ least volts of the chemistry at landing",
    source: "common practice, no source",
    law: Law::MoreIsBetter(VOLTS),
    reads: &[VOLTS, CHEMISTRY],
    form: Form::Solved(|site| cell_volts::above(site, VOLTS, FLOORS)),
    says: Says {
        mismatch: "The {pack.part} is down to {volts} a cell when it lands with its reserve; {pack} takes harm below {limit}",
        tight: "The {pack.part} is down to {volts} a cell when it lands with its reserve",
        fits: "A cell holds {volts} in hover at landing",
        costs: "The craft drops in the last minute, and the pack ages with every flight.",
    },
    hints: &["Choose a pack with more capacity or less resistance", "Land earlier", "Fly two packs in parallel"],
    fails: Example { parts: LI_ION, build: five_inch_build!("purpose: (payload_g: 1100), ") },
    passes: Example { parts: five_inch!(battery ", resistance_mohm: 20"), build: five_inch_build!() },
};

const LI_ION: &str = r#"(id: "f", name: "Frame", mass_g: 118, fills: [Frame(guard: Open)]),
    (id: "m", name: "Motor", mass_g: 32, fills: [Motor(stator_diameter_mm: 22, stator_height_mm: 7, kv_rpm_per_v: 1950)]),
    (id: "p", name: "Propeller", mass_g: 4, fills: [Propeller(diameter_in: 5.1, pitch_in: 4.3, blades: 3)]),
    (id: "e", name: "Controller", mass_g: 14, fills: [Esc(channels: 4, current_a: 50)]),
    (id: "b", name: "Pack", mass_g: 300, fills: [Battery(chemistry: LiIon, cells: 6, capacity_mah: 3000, resistance_mohm: 150)])"#;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Status;
    use crate::rules::trial::{readings, verdicts};

    #[test]
    fn just_passes_just_fails() {
        let volts = readings(five_inch!(), five_inch_build!(), VOLTS.field).remove(0);
        cell_volts::just_passes_just_fails(&volts, FLOORS, [[3500, 3300], [3000, 2800]]);
    }

    #[test]
    fn unpublished_is_unstated() {
        let unsaid = five_inch!().replace(", capacity_mah: 1300", "");
        assert_eq!(verdicts(&RULE, &unsaid, five_inch_build!()), [Status::Unstated]);
    }
}
