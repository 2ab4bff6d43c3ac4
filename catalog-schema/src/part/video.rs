//! Cameras, video transmitters and antennas.

use crate::{
    pattern::Pattern,
    quantity::{Amperes, DecibelsIsotropic, Megahertz, Millimetres, Milliwatts, Volts},
    value::{record, words},
};

words! {
    /// What shape a connector presents.
    Gender {
        /// Holds the pin, or the plug of two.
        Male "male",
        /// Takes the pin.
        Female "female",
    }
}

words! {
    /// Polarisation of an antenna.
    Polarisation {
        /// Linear.
        Linear "linear",
        /// Right-hand circular.
        RightHand "right-hand circular",
        /// Left-hand circular.
        LeftHand "left-hand circular",
    }
}

record! {
    /// A camera for flying.
    Camera {
        /// Video family: "analog", or the invented name of a digital one.
        signal: String,
        /// Least supply.
        supply_min_v: Volts = 1.0..60.0,
        /// Largest supply.
        supply_max_v: Volts = 2.0..60.0,
        /// Draw; a digital camera fed by its transmitter draws 0.
        current_a: Amperes = 0.0..3.0,
        /// Width between the mounting screws.
        width_mm: Millimetres = 4.0..60.0,
        /// Depth behind the lens.
        depth_mm: Millimetres = 4.0..80.0,
    }
}

record! {
    /// One step of radio power and what it draws.
    PowerStep {
        /// Radio power.
        power_mw: Milliwatts = 0.0..10_000.0,
        /// Draw at this step.
        current_a: Amperes = 0.01..10.0,
    }
}

record! {
    /// A video transmitter.
    VideoTransmitter {
        /// Video family: "analog", or the invented name of a digital one.
        signal: String,
        /// Least supply.
        supply_min_v: Volts = 1.0..60.0,
        /// Largest supply.
        supply_max_v: Volts = 2.0..60.0,
        /// Power steps.
        steps: Vec<PowerStep>,
        /// Channels.
        channels_mhz: Vec<Megahertz>,
        /// Needs moving air.
        needs_airflow: bool,
        /// How it is set from the radio: a serial behaviour, or none.
        control: String,
        /// Antennas.
        antennas: u32 = 1.0..4.0,
        /// Antenna connector: SMA, RP-SMA, MMCX, or a micro coax by its mated height.
        antenna_connector: String,
        /// Gender of its antenna connector.
        antenna_gender: Gender,
        /// Antenna fixed to the board.
        antenna_built_in: bool,
        /// Hole pattern.
        pattern: Pattern,
        /// Height.
        height_mm: Millimetres = 1.0..60.0,
        /// Plug with its pin order.
        plugs: Vec<crate::part::PlugPins>,
    }
}

record! {
    /// An antenna, for video or control, in the air or at the goggles.
    Antenna {
        /// Lowest frequency.
        lowest_mhz: Megahertz = 300.0..7000.0,
        /// Highest frequency.
        highest_mhz: Megahertz = 300.0..7000.0,
        /// Connector.
        connector: String,
        /// Gender of its connector.
        gender: Gender,
        /// Polarisation.
        polarisation: Polarisation,
        /// Gain.
        gain_dbi: DecibelsIsotropic = -10.0..30.0,
        /// Length.
        length_mm: Millimetres = 5.0..600.0,
    }
}
