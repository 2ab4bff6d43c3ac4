//! Propellers.

use crate::{
    part::PropellerFixing,
    quantity::{Inches, Millimetres, Rpm, Watts},
    value::{record, words},
};

words! {
    /// Which directions of rotation a pack holds.
    RotationSet {
        /// As many clockwise as counter-clockwise.
        Both "both",
        /// Clockwise only.
        Clockwise "clockwise",
        /// Counter-clockwise only.
        CounterClockwise "counter-clockwise",
    }
}

record! {
    /// A point measured on a thrust stand or given by the maker.
    StaticPoint {
        /// Rotor speed.
        speed_rpm: Rpm = 100.0..100_000.0,
        /// Thrust as the mass that it would hold, in grams of force.
        thrust_gf: crate::quantity::Grams = 0.5..100_000.0,
        /// Shaft power.
        power_w: Watts = 0.05..20_000.0,
    }
}

record! {
    /// A propeller.
    Propeller {
        /// True diameter, tip to tip; names are rounded.
        diameter_in: Inches = 0.8..40.0,
        /// Pitch as printed: advance in one turn without slip.
        pitch_in: Inches = 0.3..30.0,
        /// Blades.
        blades: u32 = 1.0..12.0,
        /// Bore.
        bore_mm: Millimetres = 0.4..20.0,
        /// Thickness of the hub along the shaft, not its diameter.
        hub_mm: Millimetres = 0.8..40.0,
        /// How it is held.
        fixing: PropellerFixing,
        /// Highest speed that the maker allows.
        limit_rpm: Rpm = 500.0..120_000.0,
        /// Chord at 75 % of the radius: width of the blade there.
        chord_75_mm: Millimetres = 0.5..200.0,
        /// Blades fold back.
        folding: bool,
        /// Directions of rotation in a pack.
        rotation: RotationSet,
        /// A measured static point.
        static_point: StaticPoint,
    }
}
