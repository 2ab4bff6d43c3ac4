//! Flight controllers and the small electronics around them.

use crate::{
    part::{PlugPins, Rail},
    pattern::Pattern,
    quantity::{Amperes, Hertz, Millimetres, MillivoltsPerAmpere, Volts},
    value::{record, words},
};

words! {
    /// How a flight controller writes flight data into the picture.
    Overlay {
        /// It cannot.
        Without "none",
        /// A chip that writes into an analog picture.
        Analog "analog overlay",
        /// Over a serial port to a digital video transmitter.
        Digital "digital overlay",
        /// Both.
        Both "analog and digital overlay",
    }
}

words! {
    /// Can a serial input be inverted for receivers that send so?
    Inversion {
        /// Never inverted.
        Plain "plain",
        /// Always inverted: for inverted receivers only.
        Inverted "inverted",
        /// Either, by setting.
        Either "either",
    }
}

record! {
    /// A serial port of a flight controller.
    Uart {
        /// Number as printed.
        number: u32 = 0.0..20.0,
        /// Receive pad present.
        rx: bool,
        /// Transmit pad present.
        tx: bool,
        /// Inversion of the receive pad.
        inversion: Inversion,
        /// Taken by something on the board itself, such as an inner receiver.
        taken: bool,
    }
}

record! {
    /// A flight controller.
    FlightController {
        /// Serial ports.
        uarts: Vec<Uart>,
        /// Pads for I²C (compass, barometer).
        i2c: bool,
        /// Rails it offers.
        rails: Vec<Rail>,
        /// Least supply.
        supply_min_v: Volts = 1.0..60.0,
        /// Largest supply.
        supply_max_v: Volts = 2.0..120.0,
        /// Most cells printed, where no volts are.
        cells_max: u32 = 1.0..24.0,
        /// Own draw.
        current_a: Amperes = 0.01..3.0,
        /// Motor outputs.
        outputs: u32 = 1.0..32.0,
        /// Motor protocols it speaks.
        protocols: Vec<String>,
        /// Overlay in the picture.
        overlay: Overlay,
        /// Sensors besides gyro and accelerometer: barometer, compass, flight log.
        sensors: Vec<String>,
        /// Scale that the current input expects.
        current_scale_mv_per_a: MillivoltsPerAmpere = 0.0..1000.0,
        /// Plugs with their pin order.
        plugs: Vec<PlugPins>,
        /// Key of the firmware target.
        firmware_key: String,
        /// Hole pattern.
        pattern: Pattern,
        /// Hole diameter without grommets.
        hole_mm: Millimetres = 0.8..8.0,
        /// Height with grommets.
        height_mm: Millimetres = 1.0..60.0,
    }
}

record! {
    /// A satellite receiver.
    Gps {
        /// Least supply.
        supply_min_v: Volts = 1.0..60.0,
        /// Largest supply.
        supply_max_v: Volts = 2.0..60.0,
        /// Draw.
        current_a: Amperes = 0.005..2.0,
        /// Holds a compass.
        compass: bool,
        /// Fixes in a second.
        rate_hz: Hertz = 1.0..50.0,
        /// Edge of its square.
        edge_mm: Millimetres = 5.0..80.0,
    }
}

record! {
    /// A module that broadcasts the craft's identification where the law asks for it.
    RemoteId {
        /// Least supply.
        supply_min_v: Volts = 1.0..60.0,
        /// Largest supply.
        supply_max_v: Volts = 2.0..60.0,
        /// Draw.
        current_a: Amperes = 0.005..2.0,
        /// Works without a serial port, with a battery of its own.
        stands_alone: bool,
    }
}

record! {
    /// A finder that sounds or sends when the craft is lost.
    Finder {
        /// Least supply.
        supply_min_v: Volts = 1.0..60.0,
        /// Largest supply.
        supply_max_v: Volts = 2.0..60.0,
        /// Draw.
        current_a: Amperes = 0.005..2.0,
        /// Sounds on its own cell after the pack is gone.
        own_cell: bool,
    }
}

record! {
    /// What the craft carries.
    Payload {
        /// Least supply, where it is fed by the craft.
        supply_min_v: Volts = 1.0..60.0,
        /// Largest supply, where it is fed by the craft.
        supply_max_v: Volts = 2.0..120.0,
        /// Draw from the craft; 0 means it has its own battery.
        current_a: Amperes = 0.0..20.0,
        /// Where it is mounted: top, front, below.
        place: String,
        /// Length.
        length_mm: Millimetres = 5.0..1000.0,
        /// Width.
        width_mm: Millimetres = 5.0..1000.0,
        /// Height.
        height_mm: Millimetres = 5.0..1000.0,
    }
}
