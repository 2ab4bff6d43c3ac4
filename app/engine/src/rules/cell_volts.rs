//! Volts of a loaded cell against the floor of its chemistry: what full throttle and landing have in common.

use propwright_schema::{part::Chemistry, slot::Slot};

use super::{Facts, run};
use crate::{
    finding::{Missing, Outcome, Verdict},
    graph::{Property, Reading, Site, part},
    interval::Interval,
    policy::{Limit, Policy},
    verdict,
};

/// The chemistry, by which the floor goes.
pub(super) const CHEMISTRY: Property = part(Slot::Battery, "chemistry");

/// Floors of a rule.
#[derive(Clone, Copy)]
pub(super) struct Floors {
    /// Of LiPo and LiHV cells.
    pub(super) lipo: Limit,
    /// Of Li-ion cells.
    pub(super) li_ion: Limit,
}

struct Inputs {
    volts: Reading,
    figure: Interval,
    pack: Reading,
    limit: Limit,
}

/// Judges the volts that a derivation gives for a loaded cell.
pub(super) fn above(site: &Site, volts: Property, floors: Floors) -> Vec<Outcome> {
    run(site, |site| gather(site, volts, floors), |inputs| judge(inputs, site.policy()), |inputs| facts(inputs, site))
}

fn gather(site: &Site, volts: Property, floors: Floors) -> Vec<Result<Inputs, Missing>> {
    let inputs = |volts: Reading| {
        let (figure, pack) = (volts.figure()?, site.one(CHEMISTRY)?);
        let limit = if pack.word()? == Chemistry::LiIon.word() { floors.li_ion } else { floors.lipo };
        Ok(Inputs { volts, figure, pack, limit })
    };
    site.all(volts).into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs, policy: &Policy) -> Verdict {
    verdict::at_least(inputs.figure, &inputs.limit, policy)
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    let limit = site.threshold(&inputs.limit);
    vec![("pack", inputs.pack.because.clone()), ("volts", inputs.volts.because.clone()), ("limit", limit)]
}

/// Each floor in millivolts just holds and just breaks: tight, then mismatch.
#[cfg(test)]
pub(super) fn just_passes_just_fails(volts: &Reading, floors: Floors, [lipo, li_ion]: [[i64; 2]; 2]) {
    use crate::finding::Status;
    use propwright_schema::quantity::{CellV, Unit};
    let found = |millivolts: i64, limit: Limit| {
        let figure = Interval::exact(millivolts, &CellV::INFO);
        judge(&Inputs { volts: volts.clone(), figure, pack: volts.clone(), limit }, &Policy::default()).status
    };
    for (limit, [tight, mismatch]) in [(floors.lipo, lipo), (floors.li_ion, li_ion)] {
        assert_eq!(found(tight, limit), Status::Fits);
        assert_eq!(found(tight - 1, limit), Status::Tight);
        assert_eq!(found(mismatch, limit), Status::Tight);
        assert_eq!(found(mismatch - 1, limit), Status::Mismatch);
    }
}
