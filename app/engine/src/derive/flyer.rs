//! The craft that flies: its rig, its mass and what arms, ducts and body make of them.

use propwright_schema::slot::Slot;

use super::{
    gather::Gather,
    rig::{Rig, read_rig},
};
use crate::{
    band::Uncertain,
    finding::{Missing, Unknown},
    graph::{Property, build, derived, part},
    interval::{Interval, RATIO},
    models::{
        cruise::Craft,
        flight::{THRUST_LEFT_DUCTED, THRUST_LEFT_DUCTED_MICRO, THRUST_LEFT_OPEN},
    },
};

pub(super) const RIG: Property = derived("rig");
pub(super) const MASS: Property = derived("takeoff-mass");
pub(super) const USE: Property = build("purpose.usage");
pub(super) const GUARD: Property = part(Slot::Frame, "guard");

/// What stands round the propellers, as far as it decides about drag, tilt and lost thrust.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Class {
    /// Small ducted craft.
    Micro,
    /// Ducted craft that carries a camera.
    Ducted,
    /// Nothing round the propellers.
    Open,
}

/// The class of a craft by its guard and its use.
pub(super) fn class(gather: &mut Gather) -> Class {
    let guarded = gather.maybe_word(GUARD).is_some_and(|guard| guard != "open");
    match (guarded, is_micro(gather)) {
        (true, true) => Class::Micro,
        (true, false) => Class::Ducted,
        (false, _) => Class::Open,
    }
}

/// Is it used as a ducted micro?
pub(super) fn is_micro(gather: &mut Gather) -> bool {
    gather.maybe_word(USE).as_deref() == Some("ducted micro")
}

/// A craft with the spreads of its inputs.
pub(super) struct Flyer {
    /// Its powertrain.
    pub(super) rig: Rig,
    mass_kg: f64,
    cda_m2: f64,
    thrust_left: f64,
    /// Spreads: the rig's, take-off mass, pack capacity, and the drag area where it counts.
    pub(super) inputs: Vec<Uncertain>,
}

/// Half the width of a band from P5 to P95 in standard deviations.
const BAND: f64 = 1.645;
/// Places of mass, capacity and drag area among the inputs.
const PLACES: [usize; 3] = [6, 7, 8];

impl Flyer {
    /// The craft of the site in hover; its drag area counts for nothing.
    pub(super) fn hovering(gather: &mut Gather) -> Result<Self, Missing> {
        let rig = read_rig(gather)?;
        let nowhere = Missing { subject: None, what: Unknown::Empty(Slot::Frame) };
        let mass = gather.reading(MASS).ok_or(nowhere)?.figure()?;
        let thrust_left = match class(gather) {
            Class::Micro => THRUST_LEFT_DUCTED_MICRO,
            Class::Ducted => THRUST_LEFT_DUCTED,
            Class::Open => THRUST_LEFT_OPEN,
        };
        gather.assume("share of the thrust left behind arms, ducts and body", Some(Interval::nearest(thrust_left, &RATIO)));
        let mut inputs = rig.spreads.to_vec();
        inputs.push(Uncertain { name: "take-off mass", nominal: 1.0, sigma: sigma(&mass) });
        inputs.push(Uncertain { name: "pack capacity", nominal: 1.0, sigma: rig.capacity_sigma });
        Ok(Self { rig, mass_kg: mass.si(), cda_m2: 0.0, thrust_left, inputs })
    }

    /// The same craft with a drag area.
    pub(super) fn with_drag(mut self, area: &Interval) -> Self {
        self.cda_m2 = area.si();
        self.inputs.push(Uncertain { name: "drag area", nominal: 1.0, sigma: sigma(area) });
        self
    }

    /// The craft with each uncertain input multiplied by its factor.
    pub(super) fn craft(&self, factors: &[f64]) -> Craft {
        let [mass, capacity, drag] = PLACES.map(|at| factors.get(at).copied().unwrap_or(1.0));
        let mut powertrain = self.rig.scaled(factors);
        powertrain.pack.cell_capacity_ah *= capacity;
        Craft { powertrain, mass_kg: self.mass_kg * mass, cda_m2: self.cda_m2 * drag, thrust_left: self.thrust_left }
    }

    /// The craft as listed.
    pub(super) fn nominal(&self) -> Craft {
        self.craft(&[])
    }
}

/// Log spread of a figure by its band.
fn sigma(figure: &Interval) -> f64 {
    if figure.low > 0 { (figure.high as f64 / figure.low as f64).ln() / (2.0 * BAND) } else { 0.0 }
}
