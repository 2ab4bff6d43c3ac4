//! Derivations: each reads properties and writes one, mostly by a call of a model.

mod air;
mod bench;
mod conduct;
pub(crate) mod feed;
mod gather;
mod geometry;
mod mass;
mod plug;
pub(crate) mod ports;
mod ratings;
mod rig;
pub(crate) mod stack;
mod supply;

pub use air::{Airborne, MIXES, Mixes};
pub use bench::Bench;
pub use rig::Rig;

use crate::graph::{Derived, Property, Site};
use crate::models::{atmosphere::Air, battery::Pack};

/// A derivation.
pub struct Derivation {
    /// Id of the property that it writes.
    pub id: &'static str,
    /// What that property is, in the trade's words.
    pub title: &'static str,
    /// Formula with symbols.
    pub formula: &'static str,
    /// Where the formula comes from.
    pub source: &'static str,
    /// All that it may read.
    pub reads: &'static [Property],
    /// The computation: one entry a part, or one for the craft; none when its slots are empty.
    pub run: fn(&Site) -> Vec<Derived>,
}

/// What models hand to one another.
#[derive(Debug, Clone, PartialEq)]
pub enum Model {
    /// The air of the place.
    Air(Air),
    /// The packs as one source, and the log spread of its resistance.
    Pack(Pack, f64),
    /// All that turns together.
    Rig(Box<Rig>),
    /// Full throttle on the bench.
    Bench(Box<Bench>),
    /// Hover and flight.
    Airborne(Box<Airborne>),
}

/// All derivations.
pub const ALL: &[&Derivation] = &[
    // Masses.
    &mass::DRY,
    &mass::PACKS,
    &mass::PAYLOAD,
    &mass::TAKEOFF,
    // Thrust, currents, times.
    &rig::AIR,
    &rig::PACK_MODEL,
    &rig::RIG,
    &bench::FULL,
    &bench::MOTOR_A,
    &bench::ESC_A,
    &bench::BATTERY_A,
    &bench::CELL_V,
    &bench::PACK_V,
    &bench::SPEED,
    &bench::TIP_MACH,
    &conduct::NEWCOMER,
    &conduct::PACK_ENERGY,
    &air::AIRBORNE,
    &air::THRUST_TO_WEIGHT,
    &air::HOVER_DUTY,
    &air::LANDING_DUTY,
    &air::HOVER_A,
    &air::LANDING_CELL,
    &air::HOVER_TIME,
    &air::CALM_TIME,
    &air::HARD_TIME,
    &air::FLAT_OUT_TIME,
    &air::MOTOR_LASTING,
    &air::ESC_LASTING,
    &air::BATTERY_LASTING,
    &plug::PLUG_BURST,
    &plug::PLUG_LASTING,
    // Ratings.
    &ratings::BURST_TIME,
    &ratings::ESC_BURST,
    &ratings::MOTOR_BURST,
    &ratings::MOTOR_LASTING,
    // Lengths.
    &geometry::TIP_GAP,
    &geometry::SCREW_ENGAGEMENT,
    &geometry::SCREW_TURNS,
    &geometry::MOTOR_PLACES,
    &geometry::DUCT_GAP,
    &geometry::STRAP_GRIP,
    &stack::HEIGHT,
    &stack::ROOM,
    // Volts, rails, serial ports.
    &supply::PACK_CELLS,
    &supply::PACK_FULL,
    &supply::PACK_EMPTY,
    &supply::FED_MAX,
    &supply::FED_MIN,
    &supply::CEILING,
    &ports::RAIL_ASKED,
    &ports::RAIL_OFFERED,
    &ports::UARTS_ASKED,
    &ports::UARTS_OFFERED,
];
