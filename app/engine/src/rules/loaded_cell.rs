//! A cell keeps its volts at full throttle on a fresh pack.
//!
//! Formula: `V_cell = OCV(full) − I·R_cell/p`. Valid at room temperature: a cold cell sags twice as much. Source of the
//! thresholds: common practice, no source. When it fails, the controller browns out or the pack swells.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Verdict},
    graph::{Property, Reading, Site, derived, part},
    interval::Interval,
    policy::{LOADED_CELL_LI_ION, LOADED_CELL_LIPO, Limit, Policy},
    verdict,
};

const VOLTS: Property = derived("loaded-cell");
const CHEMISTRY: Property = part(Slot::Battery, "chemistry");

struct Inputs {
    volts: Reading,
    figure: Interval,
    pack: Reading,
    limit: Limit,
}

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
    form: Form::Solved(|site| run(site, gather, |inputs| judge(inputs, site.policy()), |inputs| facts(inputs, site))),
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

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let inputs = |volts: Reading| {
        let (figure, pack) = (volts.figure()?, site.one(CHEMISTRY)?);
        let limit = if pack.word()? == "Li-ion" { LOADED_CELL_LI_ION } else { LOADED_CELL_LIPO };
        Ok(Inputs { volts, figure, pack, limit })
    };
    site.all(VOLTS).into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs, policy: &Policy) -> Verdict {
    verdict::at_least(inputs.figure, &inputs.limit, policy)
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    let limit = site.threshold(&inputs.limit);
    vec![("pack", inputs.pack.because.clone()), ("volts", inputs.volts.because.clone()), ("limit", limit)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Status;
    use crate::rules::trial::{readings, verdicts};
    use propwright_schema::quantity::{CellV, Unit};

    #[test]
    fn just_passes_just_fails() {
        let reading = readings(five_inch!(), five_inch_build!(), VOLTS.field).remove(0);
        let found = |millivolts: i64, limit: Limit| {
            let figure = Interval::exact(millivolts, &CellV::INFO);
            judge(&Inputs { volts: reading.clone(), figure, pack: reading.clone(), limit }, &Policy::default()).status
        };
        for (limit, tight, mismatch) in [(LOADED_CELL_LIPO, 3300, 3000), (LOADED_CELL_LI_ION, 2900, 2600)] {
            assert_eq!(found(tight, limit), Status::Fits);
            assert_eq!(found(tight - 1, limit), Status::Tight);
            assert_eq!(found(mismatch, limit), Status::Tight);
            assert_eq!(found(mismatch - 1, limit), Status::Mismatch);
        }
    }

    #[test]
    fn unpublished_is_unstated() {
        let unsaid = five_inch!().replace(", capacity_mah: 1300", "");
        assert_eq!(verdicts(&RULE, &unsaid, five_inch_build!()), [Status::Unstated]);
    }
}
