//! A craft in flight with the spreads of its inputs, for curves that vary one input at a time.

use super::{
    air::mixes,
    flyer::Flyer,
    gather::Gather,
    solved::{THRUST_AND_POWER, belief, unsolved},
};
use crate::{
    band::{Propagated, first_order_each},
    calibration::Belief,
    finding::{Missing, Unknown},
    graph::{Site, derived},
    models::{atmosphere::Air, cruise::Craft, error::ModelError, mix::Mix},
};

/// The craft of a report, as its own figures are solved from it.
pub(crate) struct Flown {
    flyer: Flyer,
    calm: Mix,
    /// What the craft logged, if it did.
    belief: Option<Belief>,
}

impl Flown {
    /// The craft in hover; its drag area counts for nothing.
    pub(crate) fn hovering(site: &Site) -> Result<Self, Missing> {
        let mut gather = Gather::new(site);
        let flyer = Flyer::hovering(&mut gather)?;
        let calm = mixes(site, &mut gather).calm;
        Ok(Self { flyer, calm, belief: belief(&mut gather) })
    }

    /// The craft in level flight.
    pub(crate) fn moving(site: &Site) -> Result<Self, Missing> {
        let hovering = Self::hovering(site)?;
        let nowhere = || Missing { subject: None, what: Unknown::Outside("no drag area".to_owned()) };
        let drag = Gather::new(site).reading(derived("drag-area")).ok_or_else(nowhere)?.figure()?;
        Ok(Self { flyer: hovering.flyer.with_drag(&drag), ..hovering })
    }

    /// The craft as listed, calibrated by what it logged.
    pub(crate) fn nominal(&self) -> Craft {
        let factors = self.belief.as_ref().map_or_else(Vec::new, |belief| belief.factors(&self.flyer.inputs));
        self.flyer.craft(&factors)
    }

    /// The air of the place.
    pub(crate) const fn air(&self) -> &Air {
        &self.flyer.rig.air
    }

    /// Largest duty that the build sets.
    pub(crate) const fn limit(&self) -> f64 {
        self.flyer.rig.limit
    }

    /// Time of calm flight of a craft like this one, s.
    pub(crate) fn calm_s(&self, craft: &Craft) -> Result<f64, ModelError> {
        Ok(craft.steady_endurance(self.air(), self.calm.rest_factor)?.seconds)
    }

    /// Figures of the craft with their spreads.
    pub(crate) fn spread<const N: usize>(
        &self,
        figures: impl Fn(&Craft) -> Result<[f64; N], ModelError>,
    ) -> Result<[Propagated; N], Missing> {
        let solve = |factors: &[f64]| figures(&self.flyer.craft(factors));
        let found = first_order_each(&self.flyer.inputs, Some(THRUST_AND_POWER), solve).map_err(|error| unsolved(&error))?;
        let Some(belief) = &self.belief else { return Ok(found) };
        Ok(found.map(|one| belief.figure(&one).unwrap_or(one)))
    }
}
