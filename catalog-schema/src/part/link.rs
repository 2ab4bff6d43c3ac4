//! The control link: receivers, radios and modules.

use crate::{
    part::{Gender, Inversion},
    quantity::{Amperes, DecibelMilliwatts, Hertz, Megahertz, Milliwatts, Volts},
    value::record,
};

record! {
    /// How weak a signal is still understood at a packet rate.
    Sensitivity {
        /// Packets in a second.
        rate_hz: Hertz = 5.0..2000.0,
        /// Weakest signal.
        level_dbm: DecibelMilliwatts = -140.0..-40.0,
    }
}

record! {
    /// A control receiver.
    Receiver {
        /// Invented name of the link's family.
        family: String,
        /// Band or region variant, such as 868, 915 or 2400.
        region: String,
        /// Major version of the link's protocol.
        version_major: u32 = 0.0..100.0,
        /// Minor version of the link's protocol.
        version_minor: u32 = 0.0..100.0,
        /// Serial behaviour: "plain", "inverted" or "half duplex".
        serial: String,
        /// Does it send inverted?
        inversion: Inversion,
        /// Least supply.
        supply_min_v: Volts = 1.0..60.0,
        /// Largest supply.
        supply_max_v: Volts = 2.0..60.0,
        /// Draw.
        current_a: Amperes = 0.005..2.0,
        /// Centre of the band.
        band_mhz: Megahertz = 300.0..7000.0,
        /// Weakest signal at each packet rate.
        sensitivities: Vec<Sensitivity>,
        /// Antenna connector.
        antenna_connector: String,
        /// Gender of its antenna connector.
        antenna_gender: Gender,
        /// Antenna fixed to the board.
        antenna_built_in: bool,
    }
}

record! {
    /// A radio that the pilot holds.
    Radio {
        /// Families of the link that it speaks without a module.
        families: Vec<String>,
        /// Band or region variant of the inner link.
        region: String,
        /// Major version of the link's protocol.
        version_major: u32 = 0.0..100.0,
        /// Minor version of the link's protocol.
        version_minor: u32 = 0.0..100.0,
        /// Radio power of the inner link.
        power_mw: Milliwatts = 1.0..4000.0,
        /// Module bay: its size, or "none".
        module_bay: String,
        /// Trainer port or trainer link.
        trainer: bool,
        /// Sticks for a simulator on a computer.
        simulator_port: bool,
        /// Battery comes with it.
        battery_in_box: bool,
    }
}

record! {
    /// A transmitter module for a radio's bay.
    RadioModule {
        /// Family of the link.
        family: String,
        /// Band or region variant.
        region: String,
        /// Major version of the link's protocol.
        version_major: u32 = 0.0..100.0,
        /// Minor version of the link's protocol.
        version_minor: u32 = 0.0..100.0,
        /// Radio power.
        power_mw: Milliwatts = 1.0..4000.0,
        /// Bay that it fits.
        bay: String,
    }
}
