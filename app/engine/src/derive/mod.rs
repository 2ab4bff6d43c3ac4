//! Derivations: each reads properties and writes one, mostly by a call of a model.

mod air;
mod balance;
mod bench;
mod boards;
mod charging;
mod clearance;
mod conduct;
pub(crate) mod feed;
mod flown;
mod flyer;
mod gather;
mod geometry;
#[cfg(test)]
mod laws;
pub(crate) mod logged;
mod mass;
mod mixes;
mod pack_share;
pub(crate) mod ports;
mod propeller;
pub(crate) mod radio;
mod ratings;
mod rig;
mod room;
mod solved;
mod speed;
pub(crate) mod stack;
mod stand;
mod stiff;
mod supply;
mod weather;

pub(crate) use flown::Flown;
pub(crate) use mass::LISTED_SIGMA;
pub(crate) use radio::margin_of;
pub(crate) use ratings::burst_of;
pub use rig::Rig;
pub use solved::Solved;
pub(crate) use solved::{calibrated_figure, solved_figure};

use crate::calibration::Belief;
use crate::graph::{Derived, Property, Site};
use crate::interval::{DENSITY, Interval};
use propwright_schema::quantity::{MAh, MOhm, Unit, V};

use crate::models::{atmosphere::Air, battery::Pack, installation::Propeller};

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
    /// The packs as one source, and the log spreads of its resistance and its capacity.
    Pack(Pack, [f64; 2]),
    /// All that turns together.
    Rig(Box<Rig>),
    /// The propeller on the craft, and the log spreads of its CT and CP.
    Propeller(Box<Propeller>, [f64; 2]),
    /// Figures of one solve.
    Solved(Solved),
    /// What logs say of the inputs.
    Calibration(Belief),
}

impl Model {
    /// The figures by which a reader can follow it, each with its name.
    pub fn figures(&self) -> Vec<(&'static str, Interval)> {
        let at = |si: f64, unit| Interval::nearest(si, unit);
        match self {
            Self::Air(air) => vec![("density", at(air.density, &DENSITY))],
            Self::Pack(pack, _) => vec![
                ("at rest, half charged", at(pack.rest_voltage(0.5).unwrap_or_default(), &V::INFO)),
                ("resistance", at(pack.resistance(), &MOhm::INFO)),
                ("capacity", at(3600.0 * pack.capacity_ah(), &MAh::INFO)),
            ],
            Self::Solved(solved) => solved.working().to_vec(),
            Self::Rig(_) | Self::Propeller(..) | Self::Calibration(_) => Vec::new(),
        }
    }
}

/// Where models enter: what they return, and all that follows from it, takes a thousand times as long as the rest.
pub(crate) const MODELS_ENTER: [&str; 2] = ["propeller-model", "rig"];

/// All derivations.
pub const ALL: &[&Derivation] = &[
    // Masses.
    &mass::DRY,
    &mass::PACKS,
    &mass::PAYLOAD,
    &mass::TAKEOFF,
    &balance::PACK_SLIDE,
    &balance::SLIDE_SHARE,
    // Thrust, currents, times.
    &rig::AIR,
    &weather::AIR_DENSITY,
    &rig::PACK_MODEL,
    &boards::DRAW,
    &propeller::PROPELLER,
    &rig::RIG,
    &bench::FULL,
    &bench::MOTOR_A,
    &bench::ESC_A,
    &bench::BATTERY_A,
    &bench::PATH_A,
    &bench::CELL_V,
    &bench::PACK_V,
    &bench::SPEED,
    &bench::TIP_MACH,
    &mixes::CALM,
    &mixes::HARD_FULL,
    &mixes::HARD_REST,
    &logged::CALIBRATION,
    &conduct::NEWCOMER,
    &conduct::PACK_ENERGY,
    &charging::CHARGE_TIME,
    &charging::PACKS_ENERGY,
    &air::AIRBORNE,
    &air::THRUST_TO_WEIGHT,
    &air::HOVER_DUTY,
    &air::LANDING_DUTY,
    &air::HOVER_A,
    &air::CLIMB_A,
    &air::LANDING_CELL,
    &air::HOVER_TIME,
    &air::CALM_TIME,
    &air::HARD_TIME,
    &air::FLAT_OUT_TIME,
    &air::MOTOR_LASTING,
    &air::ESC_LASTING,
    &air::BATTERY_LASTING,
    // Speed and reach.
    &speed::DRAG_AREA,
    &speed::LEVEL_FLIGHT,
    &speed::CRUISE,
    &stiff::STIFF,
    &speed::TURN_CHARGE,
    &speed::TURN_CELL,
    &speed::TOP_SPEED,
    &speed::TILT_LIMITED,
    &speed::WIND_HELD,
    &speed::PATH,
    &speed::PATH_SPEED,
    &speed::LONGEST,
    &speed::LONGEST_SPEED,
    &speed::ENERGY_RADIUS,
    &speed::HOME_SPEED,
    &radio::CONTROL,
    &radio::VIDEO,
    &radio::HORIZON,
    &radio::LIMITED_BY,
    // Ratings.
    &ratings::BURST_TIME,
    &ratings::ESC_BURST,
    &ratings::MOTOR_BURST,
    &ratings::MOTOR_LASTING,
    &pack_share::BURST,
    &pack_share::LASTING,
    &pack_share::CLIMB,
    &pack_share::CLAIM,
    &pack_share::LIMIT,
    &pack_share::OUTPUT,
    &pack_share::LEAD_RISE,
    &pack_share::LEAD_TEMPERATURE,
    // Lengths.
    &geometry::TIP_GAP,
    &geometry::SCREW_ENGAGEMENT,
    &geometry::SCREW_TURNS,
    &geometry::MOTOR_PLACES,
    &geometry::DUCT_GAP,
    &geometry::STRAP_GRIP,
    &clearance::BODY_GAP,
    &clearance::PACK_GAP,
    &clearance::VIEW,
    &room::SHAFT_HOLD,
    &room::LEADS_LEFT,
    &room::CAPACITOR_ROOM,
    &stack::HEIGHT,
    &stack::ROOM,
    // Volts, rails, serial ports.
    &supply::PACK_CELLS,
    &supply::PACK_FULL,
    &supply::PACK_EMPTY,
    &supply::FED_MAX,
    &supply::FED_MIN,
    &supply::FED_BURST,
    &supply::CEILING,
    &ports::RAIL_ASKED,
    &ports::RAIL_OFFERED,
    &ports::UARTS_ASKED,
    &ports::UARTS_OFFERED,
];
