//! Air at a place: density, viscosity and speed of sound. Thin air costs thrust and current.
//!
//! `T = 288.15 − 0.0065·h`, `p = 101325·(T/288.15)^(g/(0.0065·R))`, `ρ = p/(R·T)`, with h geopotential altitude in
//! m, T in K, p in Pa, R = 287.05287 J/(kg·K), g = 9.80665 m/s². Viscosity after Sutherland,
//! `µ = 1.458e-6·T^1.5/(T + 110.4)`; sound `a = √(1.4·R·T)`. Valid for −1000 to 11000 m and −50 to 60 °C, dry air
//! (full humidity at 35 °C makes it about 2 % lighter). Source: ISO 2533, Standard Atmosphere.

use super::error::{ModelError, in_range};

/// Standard acceleration of gravity, m/s² (ISO 2533).
pub const GRAVITY: f64 = 9.806_65;
/// Specific gas constant of dry air, J/(kg·K) (ISO 2533).
pub const GAS_CONSTANT: f64 = 287.052_87;
/// Standard pressure at sea level, Pa (ISO 2533).
pub const SEA_LEVEL_PRESSURE: f64 = 101_325.0;
const SEA_LEVEL_TEMPERATURE: f64 = 288.15;
const LAPSE: f64 = 0.0065;
const ZERO_CELSIUS: f64 = 273.15;

/// What a rotor meets at a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Density ρ, kg/m³.
    pub density: f64,
    /// Dynamic viscosity µ, Pa·s.
    pub viscosity: f64,
    /// Speed of sound a, m/s.
    pub speed_of_sound: f64,
}

impl Air {
    /// Standard air at a geopotential altitude in m.
    ///
    /// ```
    /// use propwright_engine::models::atmosphere::Air;
    /// let air = Air::standard(2000.0).unwrap();
    /// assert!((air.density - 1.006).abs() < 0.0006);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of −1000 to 11000 m.
    pub fn standard(altitude_m: f64) -> Result<Self, ModelError> {
        Ok(Self::of(standard_temperature(altitude_m)?, standard_pressure(altitude_m)?))
    }

    /// Air of a given temperature in °C at the standard pressure of a geopotential altitude in m.
    ///
    /// ```
    /// use propwright_engine::models::atmosphere::Air;
    /// let air = Air::at(0.0, 35.0).unwrap();
    /// assert!((air.density - 1.1455).abs() < 0.00005);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of −1000 to 11000 m or −50 to 60 °C.
    pub fn at(altitude_m: f64, temperature_c: f64) -> Result<Self, ModelError> {
        let temperature = in_range("air temperature in °C", temperature_c, -50.0, 60.0)? + ZERO_CELSIUS;
        Ok(Self::of(temperature, standard_pressure(altitude_m)?))
    }

    fn of(temperature_k: f64, pressure_pa: f64) -> Self {
        Self {
            density: pressure_pa / (GAS_CONSTANT * temperature_k),
            viscosity: 1.458e-6 * temperature_k.powf(1.5) / (temperature_k + 110.4),
            speed_of_sound: (1.4 * GAS_CONSTANT * temperature_k).sqrt(),
        }
    }
}

/// Standard temperature in K at a geopotential altitude in m.
///
/// ```
/// use propwright_engine::models::atmosphere::standard_temperature;
/// // By hand: 288.15 − 0.0065·1500 = 278.40 K.
/// assert!((standard_temperature(1500.0).unwrap() - 278.40).abs() < 0.005);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] outside of −1000 to 11000 m.
pub fn standard_temperature(altitude_m: f64) -> Result<f64, ModelError> {
    let altitude = in_range("altitude in m", altitude_m, -1000.0, 11_000.0)?;
    Ok(SEA_LEVEL_TEMPERATURE - LAPSE * altitude)
}

/// Standard pressure in Pa at a geopotential altitude in m.
///
/// ```
/// use propwright_engine::models::atmosphere::standard_pressure;
/// // By hand: 101325·(278.40/288.15)^5.25588 = 84556 Pa, as in the table of ISO 2533 at 1500 m.
/// assert!((standard_pressure(1500.0).unwrap() - 84_556.0).abs() < 0.5);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] outside of −1000 to 11000 m.
pub fn standard_pressure(altitude_m: f64) -> Result<f64, ModelError> {
    let ratio = standard_temperature(altitude_m)? / SEA_LEVEL_TEMPERATURE;
    Ok(SEA_LEVEL_PRESSURE * ratio.powf(GRAVITY / (LAPSE * GAS_CONSTANT)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::models::printed::assert_printed;

    #[test]
    fn standard_density_by_altitude() {
        // ISO 2533; the same figures from the PyPI package ambiance 1.3.1.
        for (altitude, printed) in [(0.0, "1.225"), (1000.0, "1.112"), (2000.0, "1.006"), (4000.0, "0.8191")] {
            assert_printed(Air::standard(altitude).unwrap().density, printed);
        }
    }

    #[test]
    fn hot_day_at_sea_level() {
        // Ideal gas law at 35 °C and 101325 Pa, dry.
        assert_printed(Air::at(0.0, 35.0).unwrap().density, "1.1455");
    }

    #[test]
    fn sea_level_sound_and_viscosity() {
        // ISO 2533, table: a = 340.294 m/s, µ = 1.7894e-5 Pa·s.
        let air = Air::standard(0.0).unwrap();
        assert_printed(air.speed_of_sound, "340.294");
        assert_printed(air.viscosity * 1e5, "1.7894");
    }

    #[test]
    fn outside_is_an_error() {
        assert!(Air::standard(11_000.0).is_ok());
        assert!(Air::standard(11_001.0).is_err());
        assert!(Air::at(0.0, f64::NAN).is_err());
    }
}
