//! Speed controllers and what stands between pack and boards.

use crate::{
    pattern::Pattern,
    quantity::{Amperes, BurstAmperes, Microfarads, Millimetres, Milliohms, MillivoltsPerAmpere, Seconds, Volts},
    value::record,
};

record! {
    /// A rail that a board offers.
    Rail {
        /// Name as printed on the board, such as 5V or 9V.
        name: String,
        /// Volts.
        volts_v: Volts = 1.0..60.0,
        /// Current that it gives for good.
        current_a: Amperes = 0.05..30.0,
        /// Can it be switched from the radio?
        switched: bool,
    }
}

record! {
    /// A plug with its pins in order from the mark.
    PlugPins {
        /// What it goes to: esc, video, receiver, gps.
        to: String,
        /// Plug: pitch and pins.
        plug: String,
        /// Signals from the mark on, such as VBAT, GND, CUR, TLM, M1.
        pins: Vec<String>,
    }
}

record! {
    /// An electronic speed controller: one channel a motor, several channels on one board.
    Esc {
        /// Channels on one board.
        channels: u32 = 1.0..16.0,
        /// Current of one channel for good in moving air.
        current_a: Amperes = 0.5..400.0,
        /// Current of one channel for the burst seconds.
        current_burst_a: BurstAmperes = 0.5..600.0,
        /// Duration of the burst rating.
        burst_s: Seconds = 0.5..300.0,
        /// Least supply.
        supply_min_v: Volts = 1.0..60.0,
        /// Largest supply.
        supply_max_v: Volts = 2.0..120.0,
        /// Most cells printed, where no volts are.
        cells_max: u32 = 1.0..24.0,
        /// Motor protocols it understands.
        protocols: Vec<String>,
        /// Sends the rotor speed back over the signal wire.
        two_way_rpm: bool,
        /// Can run motors backwards.
        reversing: bool,
        /// Scale of the current sensor; 0 means none.
        current_scale_mv_per_a: MillivoltsPerAmpere = 0.0..1000.0,
        /// Telemetry wire.
        telemetry: bool,
        /// Plug to the flight controller with its pin order.
        plugs: Vec<PlugPins>,
        /// Hole pattern; for a four-in-one board.
        pattern: Pattern,
        /// Hole diameter without grommets.
        hole_mm: Millimetres = 0.8..8.0,
        /// Height with grommets.
        height_mm: Millimetres = 1.0..60.0,
        /// Resistance of one channel.
        resistance_mohm: Milliohms = 0.05..100.0,
        /// Volts of the capacitor it comes with, if any.
        capacitor_v: Volts = 2.0..200.0,
        /// Rails it offers.
        rails: Vec<Rail>,
    }
}

record! {
    /// A capacitor across the pack leads.
    Capacitor {
        /// Rated volts.
        rated_v: Volts = 2.0..400.0,
        /// Capacitance.
        capacitance_uf: Microfarads = 1.0..20_000.0,
        /// Diameter.
        diameter_mm: Millimetres = 2.0..60.0,
        /// Length.
        length_mm: Millimetres = 3.0..120.0,
    }
}

record! {
    /// A regulator that makes a rail from the pack.
    Regulator {
        /// Least supply.
        supply_min_v: Volts = 1.0..60.0,
        /// Largest supply.
        supply_max_v: Volts = 2.0..120.0,
        /// Rails it offers.
        rails: Vec<Rail>,
    }
}

record! {
    /// A power distribution board.
    PowerBoard {
        /// Largest supply.
        supply_max_v: Volts = 2.0..120.0,
        /// Current for good through the pack leads.
        current_a: Amperes = 1.0..1000.0,
        /// Current for the burst seconds through the pack leads.
        current_burst_a: BurstAmperes = 1.0..1500.0,
        /// Scale of the current sensor; 0 means none.
        current_scale_mv_per_a: MillivoltsPerAmpere = 0.0..1000.0,
        /// Hole pattern.
        pattern: Pattern,
        /// Hole diameter without grommets.
        hole_mm: Millimetres = 0.8..8.0,
        /// Height with grommets.
        height_mm: Millimetres = 1.0..60.0,
        /// Rails it offers.
        rails: Vec<Rail>,
    }
}

record! {
    /// A plug or switch that charges the capacitors slowly when plugging in.
    AntiSpark {
        /// Largest supply.
        supply_max_v: Volts = 2.0..120.0,
        /// Current for good.
        current_a: Amperes = 1.0..1000.0,
        /// Plug family.
        plug: String,
    }
}
