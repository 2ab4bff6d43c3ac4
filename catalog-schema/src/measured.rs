//! What was measured of a craft and its parts: rows of a thrust stand, and what a flown craft logged.

use crate::{
    quantity::{Amperes, Grams, KilometresPerHour, MilliampHours, Minutes, Percent, Rpm, Volts},
    value::record,
};

record! {
    /// One row of a thrust stand: a motor with a propeller at one throttle.
    StandRow {
        /// Id of the motor on the stand; absent: the motor that is meant.
        motor: String,
        /// Id of the propeller on the stand; absent: the propeller that is fitted.
        propeller: String,
        /// Motor output, 100 at full throttle; only full rows tell the KV.
        output_percent: Percent = 1.0..100.0,
        /// Volts at the speed controller under load.
        volts_v: Volts = 1.0..120.0,
        /// Current into the speed controller.
        current_a: Amperes = 0.01..500.0,
        /// Rotor speed.
        speed_rpm: Rpm = 100.0..100_000.0,
        /// Thrust as the mass that it would hold, in grams of force.
        thrust_gf: Grams = 0.5..100_000.0,
    }
}

record! {
    /// What the craft logged in the air; it counts while the parts are those that flew.
    Logged {
        /// Ids of the frame, motors, propellers and pack that flew; absent: those that are listed.
        flown_with: Vec<String>,
        /// Motor output in steady hover with the pack about half full; the mean of the motors in the log, not the stick.
        hover_output_percent: Percent = 3.0..100.0,
        /// Minutes of calm flight from a full pack to the usual landing.
        calm_min: Minutes = 0.5..240.0,
        /// Highest level speed in calm air, of two runs in opposite directions.
        top_speed_kmh: KilometresPerHour = 5.0..500.0,
        /// Charge that went back into the pack after a calm flight.
        put_back_mah: MilliampHours = 20.0..200_000.0,
        /// Minutes flown on that charge.
        flown_min: Minutes = 0.2..240.0,
    }
}
