//! A cell keeps its volts at full throttle on a fresh pack.
//!
//! Formula: `V_cell = OCV(full) − I·R_cell/p`. Valid at room temperature: a cold cell sags twice as much. Source of the
//! thresholds: common practice, no source. When it fails, the controller browns out or the pack swells.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{
    Example, Form, Group, Law, Rule, Says, Weight, cell_volts,
    cell_volts::{CHEMISTRY, Floors},
};
use crate::{
    graph::{Property, derived},
    policy::{LOADED_CELL_LI_ION, LOADED_CELL_LIPO},
};

const VOLTS: Property = derived("loaded-cell");
const FLOORS: Floors = Floors { lipo: LOADED_CELL_LIPO, li_ion: LOADED_CELL_LI_ION };

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "loaded-cell",
    title: "Volts of a cell at full throttle",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Battery, Slot::Motor, Slot::Propeller],
    formula: "V0(full) − I·R_cell ≥ least volts of the chemistry under load",
    source: "common practice, no source",
    law: Law::MoreIsBetter(VOLTS),
    reads: &[VOLTS, CHEMISTRY],
    form: Form::Solved(|site| cell_volts::above(site, VOLTS, FLOORS)),
    says: Says {
        mismatch: "The {pack.part} sags to {volts} a cell at full throttle; {pack} takes harm below {limit}",
        tight: "The {pack.part} sags to {volts} a cell at full throttle, fresh from the charger",
        fits: "A cell holds {volts} at full throttle",
        costs: "Power fades in every punch, boards reset, and the pack swells.",
    },
    hints: &["Choose a pack with more capacity or less resistance", "Limit the motor output", "Fly two packs in parallel"],
    fails: Example { parts: five_inch!(battery ", resistance_mohm: 150"), build: five_inch_build!() },
    passes: Example { parts: five_inch!(battery ", resistance_mohm: 20"), build: five_inch_build!() },
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Status;
    use crate::rules::trial::{readings, verdicts};

    #[test]
    fn just_passes_just_fails() {
        let volts = readings(five_inch!(), five_inch_build!(), VOLTS.field).remove(0);
        cell_volts::just_passes_just_fails(&volts, FLOORS, [[3300, 3000], [2900, 2600]]);
    }

    #[test]
    fn unpublished_is_unstated() {
        let unsaid = five_inch!().replace(", capacity_mah: 1300", "");
        assert_eq!(verdicts(&RULE, &unsaid, five_inch_build!()), [Status::Unstated]);
    }
}
