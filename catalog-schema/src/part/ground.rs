//! What stays on the ground: goggles, charger, bag.

use crate::{
    part::{Chemistry, Gender},
    quantity::{Amperes, Volts, WattHours, Watts},
    value::record,
};

record! {
    /// Goggles.
    Goggles {
        /// Video families received without a module.
        families: Vec<String>,
        /// Bay for a module, or "none".
        module_bay: String,
        /// Antennas.
        antennas: u32 = 0.0..8.0,
        /// Antenna connector.
        antenna_connector: String,
        /// Gender of its antenna connector.
        antenna_gender: Gender,
        /// Antennas in the box.
        antennas_in_box: bool,
        /// Battery in the box.
        battery_in_box: bool,
        /// Least supply.
        supply_min_v: Volts = 1.0..60.0,
        /// Largest supply.
        supply_max_v: Volts = 2.0..60.0,
    }
}

record! {
    /// A video receiver module for goggles.
    GogglesModule {
        /// Video families received.
        families: Vec<String>,
        /// Bay that it fits.
        bay: String,
        /// Antennas.
        antennas: u32 = 0.0..8.0,
        /// Antenna connector.
        antenna_connector: String,
        /// Gender of its antenna connector.
        antenna_gender: Gender,
    }
}

record! {
    /// A charger.
    Charger {
        /// Fewest cells.
        cells_min: u32 = 1.0..24.0,
        /// Most cells.
        cells_max: u32 = 1.0..24.0,
        /// Chemistries.
        chemistries: Vec<Chemistry>,
        /// Power in all.
        power_w: Watts = 1.0..3000.0,
        /// Current.
        current_a: Amperes = 0.1..60.0,
        /// Plugs that it takes.
        plugs: Vec<String>,
        /// Balance plugs that it takes.
        balance_plugs: Vec<String>,
        /// Packs at once.
        outputs: u32 = 1.0..16.0,
        /// Needs a supply of its own.
        needs_supply: bool,
    }
}

record! {
    /// A bag or box that holds a burning pack.
    FireSafeBag {
        /// Largest energy of the packs inside that its maker allows.
        energy_wh: WattHours = 1.0..2000.0,
    }
}
