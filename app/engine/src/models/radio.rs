//! How far a radio carries over open ground, and what stands in its way.
//!
//! Free space `L = 20·log10(4π·d·f/c)` in dB (ITU-R P.525); range `d = c/(4πf)·10^((EIRP + Grx − S − M)/20)` with
//! EIRP in dBm, receiving gain in dBi, sensitivity S in dBm, margin M in dB (Friis); horizon
//! `d = √(2kR·h1) + √(2kR·h2)`, k = 4/3, R = 6371 km, or `4.12·(√h1 + √h2)` km with h in m; first Fresnel zone
//! `r = √(λ·d1·d2/(d1 + d2))`, of which 60 % is to be kept free (ITU-R P.526). Valid from 100 MHz to 10 GHz; a body, wet
//! leaves or a wall in between are the margin's matter. Source: ITU-R P.525 and P.526, H.T. Friis 1946; cited from memory.

use std::f64::consts::PI;

use super::error::{ModelError, in_range};

/// Speed of light, m/s.
pub const LIGHT: f64 = 299_792_458.0;
const EARTH_RADIUS_M: f64 = 6.371e6;
const REFRACTION: f64 = 4.0 / 3.0;
/// Share of the first Fresnel zone that should be free (ITU-R P.526).
pub const FREE_FRESNEL_SHARE: f64 = 0.6;

/// Free-space loss in dB over a distance in m at a frequency in Hz.
///
/// ```
/// use propwright_engine::models::radio::free_space_loss;
/// assert!((free_space_loss(1000.0, 5.8e9).unwrap() - 107.7).abs() < 0.05);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] outside of 0.1 m to 1000 km or 100 MHz to 10 GHz.
pub fn free_space_loss(distance_m: f64, frequency_hz: f64) -> Result<f64, ModelError> {
    let distance = in_range("distance in m", distance_m, 0.1, 1e6)?;
    Ok(20.0 * (4.0 * PI * distance / wavelength(frequency_hz)?).log10())
}

/// Wavelength in m of a frequency in Hz.
///
/// ```
/// use propwright_engine::models::radio::wavelength;
/// // By hand: 299 792 458/2.4e9 = 0.1249 m.
/// assert!((wavelength(2.4e9).unwrap() - 0.1249).abs() < 0.00005);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] outside of 100 MHz to 10 GHz.
pub fn wavelength(frequency_hz: f64) -> Result<f64, ModelError> {
    Ok(LIGHT / in_range("frequency in Hz", frequency_hz, 1e8, 1e10)?)
}

/// A link's budget.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Link {
    /// Frequency, Hz.
    pub frequency_hz: f64,
    /// Radiated power with antenna gain, dBm.
    pub eirp_dbm: f64,
    /// Gain of the receiving antenna, dBi; polarization loss taken off.
    pub receive_gain_dbi: f64,
    /// Weakest signal that the receiver still reads, dBm.
    pub sensitivity_dbm: f64,
    /// Margin to keep, dB.
    pub margin_db: f64,
}

impl Link {
    /// Range in free space, m.
    ///
    /// ```
    /// use propwright_engine::models::radio::Link;
    /// let link = Link {
    ///     frequency_hz: 5.8e9,
    ///     eirp_dbm: 14.0,
    ///     receive_gain_dbi: 2.0,
    ///     sensitivity_dbm: -85.0,
    ///     margin_db: 10.0,
    /// };
    /// assert!((link.range().unwrap() - 145.9).abs() < 0.05);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of 100 MHz to 10 GHz, or with an allowed loss outside of 0 to 250 dB.
    pub fn range(&self) -> Result<f64, ModelError> {
        let loss = self.eirp_dbm + self.receive_gain_dbi - self.sensitivity_dbm - self.margin_db;
        let loss = in_range("allowed path loss in dB", loss, 0.0, 250.0)?;
        Ok(wavelength(self.frequency_hz)? / (4.0 * PI) * 10_f64.powf(loss / 20.0))
    }
}

/// Radio horizon in m between two antenna heights in m over smooth ground, 4/3 earth.
///
/// ```
/// use propwright_engine::models::radio::horizon;
/// // By hand, 2 and 60 m: √(8/3·6.371e6)·(√2 + √60) = 37.76 km.
/// assert!((horizon(2.0, 60.0).unwrap() / 1e3 - 37.76).abs() < 0.005);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] outside of 0 to 20 000 m of height.
pub fn horizon(height_a_m: f64, height_b_m: f64) -> Result<f64, ModelError> {
    let reach = |height| {
        in_range("antenna height in m", height, 0.0, 20_000.0).map(|height| (2.0 * REFRACTION * EARTH_RADIUS_M * height).sqrt())
    };
    Ok(reach(height_a_m)? + reach(height_b_m)?)
}

/// The same horizon by the rule of thumb `4.12·(√h1 + √h2)` km, in m.
///
/// ```
/// use propwright_engine::models::radio::horizon_by_rule;
/// // By hand, 2 and 60 m: 4.12·(√2 + √60) = 37.74 km.
/// assert!((horizon_by_rule(2.0, 60.0).unwrap() / 1e3 - 37.74).abs() < 0.005);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] outside of 0 to 20 000 m of height.
pub fn horizon_by_rule(height_a_m: f64, height_b_m: f64) -> Result<f64, ModelError> {
    let reach = |height| in_range("antenna height in m", height, 0.0, 20_000.0).map(f64::sqrt);
    Ok(4120.0 * (reach(height_a_m)? + reach(height_b_m)?))
}

/// Radius in m of the first Fresnel zone at `from_a_m` of a path of `path_m`.
///
/// ```
/// use propwright_engine::models::radio::fresnel_radius;
/// // By hand, 5.8 GHz, 500 m along a path of 3 km: √(0.05169·500·2500/3000) = 4.641 m.
/// assert!((fresnel_radius(3000.0, 500.0, 5.8e9).unwrap() - 4.641).abs() < 0.0005);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] when the place is not on the path, or for a frequency outside of 100 MHz to 10 GHz.
pub fn fresnel_radius(path_m: f64, from_a_m: f64, frequency_hz: f64) -> Result<f64, ModelError> {
    let path = in_range("path in m", path_m, 0.1, 1e6)?;
    let from_a = in_range("place on the path in m", from_a_m, 0.0, path)?;
    Ok((wavelength(frequency_hz)? * from_a * (path - from_a) / path).sqrt())
}

/// Places on a path at which its Fresnel zone is looked at.
const PLACES: u32 = 128;

/// Distance in m up to which 60 % of the first Fresnel zone stays clear of smooth ground between two antenna heights in m,
/// 4/3 earth; never beyond the horizon.
///
/// At each place x of a path d the line of sight stands `h1 + (h2 − h1)·x/d − x·(d − x)/(2kR)` over the ground (ITU-R P.526).
/// Antennas at 10 m, 2.4 GHz: in the middle `10 − d²/(8kR) = 0.6·√(λd)/2` holds for 7.49 km.
///
/// ```
/// use propwright_engine::models::radio::fresnel_clear;
/// assert!((fresnel_clear(10.0, 10.0, 2.4e9).unwrap() / 1e3 - 7.49).abs() < 0.01);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] outside of 0 to 20 000 m of height or 100 MHz to 10 GHz.
pub fn fresnel_clear(height_a_m: f64, height_b_m: f64, frequency_hz: f64) -> Result<f64, ModelError> {
    let (mut clear, mut hidden) = (0.0, horizon(height_a_m, height_b_m)?);
    let wave = wavelength(frequency_hz)?;
    let is_clear = |path: f64| {
        (1..PLACES).all(|place| {
            let share = f64::from(place) / f64::from(PLACES);
            let (from_a, from_b) = (path * share, path * (1.0 - share));
            let over_ground =
                height_a_m + (height_b_m - height_a_m) * share - from_a * from_b / (2.0 * REFRACTION * EARTH_RADIUS_M);
            over_ground >= FREE_FRESNEL_SHARE * (wave * from_a * from_b / path).sqrt()
        })
    };
    while hidden - clear > 1.0 {
        let middle = f64::midpoint(clear, hidden);
        if is_clear(middle) { clear = middle } else { hidden = middle }
    }
    Ok(clear)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::models::printed::assert_printed;

    #[test]
    fn free_space() {
        // Computed by hand from ITU-R P.525.
        assert_printed(free_space_loss(1e3, 5.8e9).unwrap(), "107.7");
        assert_printed(free_space_loss(1e4, 2.4e9).unwrap(), "120.05");
        assert_printed(free_space_loss(3e4, 915e6).unwrap(), "121.2");
    }

    #[test]
    fn horizon_at_four_thirds_earth() {
        // Computed by hand from ITU-R P.526.
        assert_printed(horizon(1.5, 100.0).unwrap() / 1e3, "46.27");
        assert_printed(horizon_by_rule(1.5, 100.0).unwrap() / 1e3, "46.25");
    }

    #[test]
    fn fresnel_at_mid_path() {
        // Computed by hand from ITU-R P.526.
        assert_printed(fresnel_radius(1e3, 500.0, 5.8e9).unwrap(), "3.595");
        assert_printed(fresnel_radius(1e4, 5e3, 2.4e9).unwrap(), "17.67");
    }

    #[test]
    fn friis_range_closes_the_budget() {
        // Computed by hand from the Friis equation.
        let link = Link { frequency_hz: 5.8e9, eirp_dbm: 14.0, receive_gain_dbi: 2.0, sensitivity_dbm: -85.0, margin_db: 10.0 };
        let range = link.range().unwrap();
        assert_printed(range, "145.9");
        assert!((free_space_loss(range, 5.8e9).unwrap() - 91.0).abs() < 1e-9);
    }

    #[test]
    fn outside_is_an_error() {
        assert!(free_space_loss(0.0, 5.8e9).is_err());
        assert!(fresnel_radius(100.0, 101.0, 5.8e9).is_err());
        assert!(horizon(-1.0, 2.0).is_err());
    }
}
