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

/// What a craft logged, and what its inputs are by that.
pub(super) struct Logged {
    /// What the logs say, if there are any.
    pub(super) belief: Option<Belief>,
    factors: Vec<f64>,
}

impl Logged {
    pub(super) fn of(gather: &mut Gather, flyer: &Flyer) -> Self {
        let belief = belief(gather);
        let factors = belief.as_ref().map_or_else(Vec::new, |belief| belief.factors(&flyer.inputs));
        Self { belief, factors }
    }

    /// The craft as it was logged, with each uncertain input multiplied by a further factor.
    pub(super) fn craft(&self, flyer: &Flyer, further: &[f64]) -> Craft {
        let one = |factors: &[f64], at: usize| factors.get(at).copied().unwrap_or(1.0);
        let both: Vec<f64> = (0..flyer.inputs.len()).map(|at| one(&self.factors, at) * one(further, at)).collect();
        flyer.craft(&both)
    }
}

/// The craft of a report, as its own figures are solved from it.
pub(crate) struct Flown {
    flyer: Flyer,
    calm: Mix,
    logged: Logged,
    /// Are the figures of the report solved with the inputs as logged? Else they are moved to them to first order.
    as_logged: bool,
}

impl Flown {
    /// The craft in hover; its drag area counts for nothing.
    pub(crate) fn hovering(site: &Site) -> Result<Self, Missing> {
        let mut gather = Gather::new(site);
        let flyer = Flyer::hovering(&mut gather)?;
        let calm = mixes(site, &mut gather).calm;
        let logged = Logged::of(&mut gather, &flyer);
        Ok(Self { flyer, calm, logged, as_logged: false })
    }

    /// The craft in level flight.
    pub(crate) fn moving(site: &Site) -> Result<Self, Missing> {
        let mut gather = Gather::new(site);
        let hovering = Self::hovering(site)?;
        let nowhere = || Missing { subject: None, what: Unknown::Outside("no drag area".to_owned()) };
        let drag = gather.reading(derived("drag-area")).ok_or_else(nowhere)?.figure()?;
        let flyer = hovering.flyer.with_drag(&drag);
        let logged = Logged::of(&mut gather, &flyer);
        Ok(Self { flyer, logged, as_logged: true, ..hovering })
    }

    /// The craft as listed, calibrated by what it logged.
    pub(crate) fn nominal(&self) -> Craft {
        self.logged.craft(&self.flyer, &[])
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
        let craft =
            |factors: &[f64]| if self.as_logged { self.logged.craft(&self.flyer, factors) } else { self.flyer.craft(factors) };
        let solve = |factors: &[f64]| figures(&craft(factors));
        let found = first_order_each(&self.flyer.inputs, Some(THRUST_AND_POWER), solve).map_err(|error| unsolved(&error))?;
        let Some(belief) = &self.logged.belief else { return Ok(found) };
        Ok(found.map(|one| belief.after(&one, self.as_logged).unwrap_or(one)))
    }
}
