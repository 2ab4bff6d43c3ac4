//! The units in which records speak, one line each.

use uom::si::{
    angle, angular_velocity, area, capacitance, electric_charge, electric_current, electric_potential, electrical_resistance,
    energy, f64 as si, frequency, length, mass, power, ratio, thermodynamic_temperature, time, velocity,
};

use super::{Quantity, Unit, UnitInfo};

/// One unit a line: the quantity's name, its marker type, symbol, field ending, dimension, steps in one unit, the value
/// of one step in SI, the typed SI quantity and how to make it from the SI value.
macro_rules! units {
    ($($(#[doc = $doc:literal])+ $name:ident, $marker:ident, $symbol:literal, $suffix:literal, $dimension:literal, $steps:literal,
        $si_per_step:expr, $si:ty, $make:expr;)+) => {$(
        #[doc = concat!("Marker of the unit ", $symbol, ".")]
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub struct $marker;
        impl Unit for $marker {
            type Si = $si;
            const INFO: UnitInfo = UnitInfo {
                symbol: $symbol, suffix: $suffix, dimension: $dimension, steps: $steps, si_per_step: $si_per_step,
            };
            fn si(steps: i64) -> $si {
                ($make)(steps as f64 * $si_per_step)
            }
        }
        $(#[doc = $doc])+
        pub type $name = Quantity<$marker>;
    )+
        /// Every unit, for look-ups by symbol or by the ending of a field's name.
        pub const UNITS: &[UnitInfo] = &[$($marker::INFO),+];
    };
}

units! {
    /// Lengths of parts, to 0.1 µm.
    Millimetres, Mm, "mm", "_mm", "length", 10_000, 1e-7, si::Length, si::Length::new::<length::meter>;
    /// Lengths named in inches (propellers, frames by class), to the same 0.1 µm.
    Inches, In, "in", "_in", "length", 254_000, 1e-7, si::Length, si::Length::new::<length::meter>;
    /// Distances in the field and altitudes.
    Metres, M, "m", "_m", "length", 10_000_000, 1e-7, si::Length, si::Length::new::<length::meter>;
    /// Distances flown.
    Kilometres, Km, "km", "_km", "length", 10_000_000_000, 1e-7, si::Length, si::Length::new::<length::meter>;
    /// Areas, for drag areas.
    SquareCentimetres, Cm2, "cm²", "_cm2", "area", 1_000, 1e-7, si::Area, si::Area::new::<area::square_meter>;
    /// Masses, to 1 mg.
    Grams, G, "g", "_g", "mass", 1_000, 1e-6, si::Mass, si::Mass::new::<mass::kilogram>;
    /// Lasting currents, to 1 mA.
    Amperes, A, "A", "_a", "current", 1_000, 1e-3, si::ElectricCurrent, si::ElectricCurrent::new::<electric_current::ampere>;
    /// Currents that a part stands only for its stated seconds.
    BurstAmperes, BurstA, "A", "_burst_a", "burst current", 1_000, 1e-3, si::ElectricCurrent,
        si::ElectricCurrent::new::<electric_current::ampere>;
    /// Volts of a pack, a rail or a feed, to 1 mV.
    Volts, V, "V", "_v", "voltage", 1_000, 1e-3, si::ElectricPotential, si::ElectricPotential::new::<electric_potential::volt>;
    /// Volts of one cell.
    CellVolts, CellV, "V", "_cell_v", "cell voltage", 1_000, 1e-3, si::ElectricPotential,
        si::ElectricPotential::new::<electric_potential::volt>;
    /// Resistances, to 1 µΩ.
    Milliohms, MOhm, "mΩ", "_mohm", "resistance", 1_000, 1e-6, si::ElectricalResistance,
        si::ElectricalResistance::new::<electrical_resistance::ohm>;
    /// Charges of packs, to 1 mAh.
    MilliampHours, MAh, "mAh", "_mah", "charge", 1, 3.6, si::ElectricCharge, si::ElectricCharge::new::<electric_charge::coulomb>;
    /// Capacitances.
    Microfarads, UF, "µF", "_uf", "capacitance", 1, 1e-6, si::Capacitance, si::Capacitance::new::<capacitance::farad>;
    /// Electric power.
    Watts, W, "W", "_w", "power", 1_000, 1e-3, si::Power, si::Power::new::<power::watt>;
    /// Radio power.
    Milliwatts, MW, "mW", "_mw", "power", 1, 1e-3, si::Power, si::Power::new::<power::watt>;
    /// Energy of a field source.
    WattHours, Wh, "Wh", "_wh", "energy", 1_000, 3.6, si::Energy, si::Energy::new::<energy::joule>;
    /// Radio frequencies.
    Megahertz, MHz, "MHz", "_mhz", "frequency", 1_000_000, 1.0, si::Frequency, si::Frequency::new::<frequency::hertz>;
    /// Rates such as the packets of a link.
    Hertz, Hz, "Hz", "_hz", "frequency", 1, 1.0, si::Frequency, si::Frequency::new::<frequency::hertz>;
    /// Durations.
    Seconds, S, "s", "_s", "time", 1_000, 1e-3, si::Time, si::Time::new::<time::second>;
    /// Durations of flights.
    Minutes, Min, "min", "_min", "time", 60_000, 1e-3, si::Time, si::Time::new::<time::second>;
    /// Angles in degrees.
    Degrees, Deg, "°", "_deg", "angle", 1_000, 0.001 * std::f64::consts::PI / 180.0, si::Angle, si::Angle::new::<angle::radian>;
    /// Temperatures in degrees Celsius; the SI value per step leaves the zero point out.
    Celsius, DegC, "°C", "_c", "temperature", 1_000, 1e-3, si::ThermodynamicTemperature,
        si::ThermodynamicTemperature::new::<thermodynamic_temperature::degree_celsius>;
    /// Speed constant of a motor; the SI quantity is the angular speed for each volt.
    Kv, RpmPerV, "rpm/V", "_rpm_per_v", "speed constant", 10, 0.1 * std::f64::consts::PI / 30.0, si::AngularVelocity,
        si::AngularVelocity::new::<angular_velocity::radian_per_second>;
    /// Rotor speeds.
    Rpm, RevMin, "rpm", "_rpm", "rotor speed", 1, std::f64::consts::PI / 30.0, si::AngularVelocity,
        si::AngularVelocity::new::<angular_velocity::radian_per_second>;
    /// Shares in per cent.
    Percent, Pct, "%", "_percent", "share", 1_000, 1e-5, si::Ratio, si::Ratio::new::<ratio::ratio>;
    /// Ratings of packs in multiples of the capacity for each hour; the SI quantity is the reciprocal time.
    CRate, PerCapacity, "C", "_c_rate", "charge rate", 1_000, 1e-3 / 3600.0, si::Frequency, si::Frequency::new::<frequency::hertz>;
    /// Gain of an antenna over the isotropic one; the SI quantity is the level itself, in dB.
    DecibelsIsotropic, DBi, "dBi", "_dbi", "antenna gain", 1_000, 1e-3, f64, std::convert::identity;
    /// Level differences and losses, in dB.
    Decibels, DB, "dB", "_db", "level", 1_000, 1e-3, f64, std::convert::identity;
    /// Power levels over one milliwatt, in dBm.
    DecibelMilliwatts, DBm, "dBm", "_dbm", "power level", 1_000, 1e-3, f64, std::convert::identity;
    /// Speeds of wind and craft.
    MetresPerSecond, MPerS, "m/s", "_ms", "speed", 1_000, 1e-3, si::Velocity, si::Velocity::new::<velocity::meter_per_second>;
    /// Speeds of craft as pilots say them.
    KilometresPerHour, KmH, "km/h", "_kmh", "craft speed", 1_000, 1.0 / 3600.0, si::Velocity,
        si::Velocity::new::<velocity::meter_per_second>;
    /// Resolution of a current sensor.
    MillivoltsPerAmpere, MvPerA, "mV/A", "_mv_per_a", "sensor scale", 1_000, 1e-6, si::ElectricalResistance,
        si::ElectricalResistance::new::<electrical_resistance::ohm>;
    /// Hours of practice.
    Hours, H, "h", "_h", "time", 3_600_000, 1e-3, si::Time, si::Time::new::<time::second>;
}
