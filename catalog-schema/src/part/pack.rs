//! Packs and their selector.

use crate::{
    quantity::{Amperes, CRate, CellVolts, MilliampHours, Millimetres, Milliohms, Seconds},
    value::{record, words},
};

words! {
    /// Chemistry of the cells.
    Chemistry {
        /// Lithium polymer, 4.20 V full.
        LiPo "LiPo",
        /// Lithium polymer that may be charged to 4.35 V.
        LiHv "LiHV",
        /// Lithium ion in cans, 4.20 V full: much energy, little current.
        LiIon "Li-ion",
    }
}

record! {
    /// A pack.
    Battery {
        /// Chemistry.
        chemistry: Chemistry,
        /// Cells in series.
        cells: u32 = 1.0..24.0,
        /// Cells side by side; absent reads as one.
        parallel: u32 = 1.0..20.0,
        /// Capacity.
        capacity_mah: MilliampHours = 50.0..60_000.0,
        /// Volts of a full cell.
        full_cell_v: CellVolts = 3.5..4.5,
        /// Discharge rating for good, as sold.
        discharge_c_rate: CRate = 0.5..300.0,
        /// Discharge rating for the burst seconds, as sold.
        burst_c_rate: CRate = 0.5..500.0,
        /// Duration of the burst rating.
        burst_s: Seconds = 0.5..120.0,
        /// Charge rating.
        charge_c_rate: CRate = 0.1..20.0,
        /// Resistance of the whole pack with its leads; a meter for packs at room temperature.
        resistance_mohm: Milliohms = 0.5..2000.0,
        /// Plug for flying.
        plug: String,
        /// Current that the plug stands for good.
        plug_a: Amperes = 0.5..400.0,
        /// Resistance of the plug pair; matters on single cells.
        plug_mohm: Milliohms = 0.05..100.0,
        /// Balance plug.
        balance_plug: String,
        /// Gauge of the leads.
        lead_awg: u32 = 2.0..36.0,
        /// Length of the leads.
        lead_length_mm: Millimetres = 5.0..1000.0,
        /// Length.
        length_mm: Millimetres = 10.0..500.0,
        /// Width.
        width_mm: Millimetres = 4.0..300.0,
        /// Height.
        height_mm: Millimetres = 3.0..200.0,
        /// Cells as built in, such as "pouch" or "21 mm can".
        format: String,
        /// Cycles so far, when owned.
        cycles: u32 = 0.0..3000.0,
    }
}

record! {
    /// A selector that takes packs in turn, or both at once.
    PackSelector {
        /// Current for good.
        current_a: Amperes = 1.0..1000.0,
        /// Most cells.
        cells_max: u32 = 1.0..24.0,
        /// Plug.
        plug: String,
    }
}
