//! Motors.

use crate::{
    measured::StandRow,
    part::Thread,
    pattern::Pattern,
    quantity::{Amperes, BurstAmperes, Kv, Millimetres, Milliohms, Seconds, Volts},
    value::{record, words},
};

words! {
    /// How a propeller is held.
    PropellerFixing {
        /// One nut on a threaded shaft.
        Nut "nut",
        /// Two screws beside the shaft.
        TwoScrews "two screws",
        /// Pressed on the bare shaft.
        Press "press fit",
    }
}

words! {
    /// How the phases are connected inside.
    Winding {
        /// Delta.
        Delta "delta",
        /// Star.
        Star "star",
    }
}

words! {
    /// What is at the end of the motor leads.
    LeadEnd {
        /// Bare, to be soldered.
        Bare "bare",
        /// A three-pin plug of 1.25 mm pitch.
        Plug "three-pin plug",
    }
}

words! {
    /// Hand of the thread on a shaft.
    ThreadHand {
        /// The usual one: tightens clockwise.
        Right "right-hand",
        /// Tightens counter-clockwise.
        Left "left-hand",
    }
}

record! {
    /// A brushless outrunner.
    Motor {
        /// Diameter of the stator: the first two digits of the size in the name.
        stator_diameter_mm: Millimetres = 5.0..120.0,
        /// Height of the stator: the last two digits of the size in the name.
        stator_height_mm: Millimetres = 1.0..80.0,
        /// Speed for each volt without load.
        kv_rpm_per_v: Kv = 20.0..40_000.0,
        /// Resistance between two leads; a milliohm meter with four wires.
        resistance_mohm: Milliohms = 1.0..5000.0,
        /// Current without propeller.
        no_load_current_a: Amperes = 0.01..20.0,
        /// Volts at which the current without propeller was taken.
        no_load_v: Volts = 1.0..70.0,
        /// Current that it stands for good in moving air.
        current_a: Amperes = 0.5..300.0,
        /// Current that it stands for the burst seconds.
        current_burst_a: BurstAmperes = 0.5..500.0,
        /// Duration of the burst rating.
        burst_s: Seconds = 0.5..300.0,
        /// Volts of the maker's bench rows.
        test_v: Volts = 1.0..70.0,
        /// Fewest cells that the maker advises, in series.
        cells_min: u32 = 1.0..24.0,
        /// Most cells that the maker advises, in series.
        cells_max: u32 = 1.0..24.0,
        /// Magnet poles on the bell; count them.
        poles: u32 = 2.0..60.0,
        /// Connection of the phases.
        winding: Winding,
        /// Hole pattern of the base, such as 16x16 or 9x9.
        pattern: Pattern,
        /// Thread of the holes.
        thread: Thread,
        /// Depth of the thread before the winding; measure with a rod. Too long a screw burns the winding.
        thread_depth_mm: Millimetres = 0.5..20.0,
        /// Diameter of the base.
        base_mm: Millimetres = 4.0..120.0,
        /// Diameter of the shaft where the propeller sits.
        shaft_mm: Millimetres = 0.5..20.0,
        /// Length of the shaft above the bell.
        shaft_length_mm: Millimetres = 1.0..80.0,
        /// How the propeller is held.
        fixing: PropellerFixing,
        /// Hand of the thread on the shaft; for a nut.
        shaft_hand: ThreadHand,
        /// Gauge of the leads.
        lead_awg: u32 = 8.0..36.0,
        /// Length of the leads.
        lead_length_mm: Millimetres = 5.0..1000.0,
        /// End of the leads.
        lead_end: LeadEnd,
        /// Height from base to bell.
        height_mm: Millimetres = 4.0..120.0,
        /// Largest propeller that the maker advises.
        propeller_max_mm: Millimetres = 20.0..1200.0,
        /// Rows of a thrust stand with this motor, each with the id of its propeller.
        stand: Vec<StandRow>,
    }
}
