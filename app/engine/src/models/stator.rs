//! A motor that is listed by its stator and KV alone: resistance, no-load current, mass and burst current estimated from the size.
//!
//! `V = π/4·d²·h` in mm³, `Km² = Kt²/R = 1.196e-9·V^1.614` N²·m²/W, `Q0 = 9.17e-8·V^1.085·f^0.416` N·m with f in rev/s, mass
//! `0.0309·V^0.878` g, burst current `√(1.9·m/R)` A. Valid for stators of 5 to 60 mm across, 1.5 to 40 mm high, rms 16, 9, 7 and 30 %.
//! Source: own fits to 17 listing rows, from memory. A listed or measured figure is worth more; an estimate can warn, never forbid.

use std::f64::consts::PI;

use super::error::{ModelError, in_range};
use super::motor::{Motor, NO_LOAD_EXPONENT, NoLoad, rad_per_volt_second};

/// Share of the burst current that is taken as continuous when a listing gives none (an assumption).
pub const CONTINUOUS_SHARE: f64 = 0.55;
/// Duration taken for a burst rating without a stated one, s (common practice, no source).
pub const ASSUMED_BURST_S: f64 = 10.0;

/// A stator's size as listings print it: 2207 = 22 mm across, 7 mm high.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stator {
    diameter_mm: f64,
    height_mm: f64,
}

impl Stator {
    /// A stator by diameter and height in mm.
    ///
    /// ```
    /// use propwright_engine::models::stator::Stator;
    /// // 2207 is 22 mm across and 7 mm high; figures the other way round would be no motor of this trade.
    /// assert!((Stator::new(22.0, 7.0).unwrap().volume_mm3() - 2661.0).abs() < 0.5);
    /// assert!(Stator::new(7.0, 220.0).is_err());
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of 5 to 60 mm across and 1.5 to 40 mm high, where the estimates end.
    pub fn new(diameter_mm: f64, height_mm: f64) -> Result<Self, ModelError> {
        Ok(Self {
            diameter_mm: in_range("stator diameter in mm", diameter_mm, 5.0, 60.0)?,
            height_mm: in_range("stator height in mm", height_mm, 1.5, 40.0)?,
        })
    }

    /// Volume `π/4·d²·h`, mm³.
    ///
    /// ```
    /// use propwright_engine::models::stator::Stator;
    /// // By hand: π/4·28²·6 = 3694.5 mm³.
    /// assert!((Stator::new(28.0, 6.0).unwrap().volume_mm3() - 3694.5).abs() < 0.05);
    /// ```
    pub fn volume_mm3(&self) -> f64 {
        PI / 4.0 * self.diameter_mm * self.diameter_mm * self.height_mm
    }

    /// Pole pairs when none are listed: 6 up to 11 mm, 7 above (common practice, no source).
    ///
    /// ```
    /// use propwright_engine::models::stator::Stator;
    /// // 12 magnets on a 1103, 14 on a 2207.
    /// assert!((2.0 * Stator::new(11.0, 3.0).unwrap().usual_pole_pairs() - 12.0).abs() < 1e-12);
    /// assert!((2.0 * Stator::new(22.0, 7.0).unwrap().usual_pole_pairs() - 14.0).abs() < 1e-12);
    /// ```
    pub fn usual_pole_pairs(&self) -> f64 {
        if self.diameter_mm <= 11.0 { 6.0 } else { 7.0 }
    }

    /// Estimated resistance, Ω, from `Kt²/R = 1.196e-9·V^1.614` (17 listing rows, from memory; rms 16 %).
    ///
    /// ```
    /// use propwright_engine::models::stator::Stator;
    /// // By hand: V = π/4·22²·7 = 2661 mm³, Km² = 1.196e-9·V^1.614 = 4.039e-4, Kt = 60/(2π·1750) = 5.457e-3: 74 mΩ.
    /// assert!((Stator::new(22.0, 7.0).unwrap().estimated_resistance(1750.0) - 0.0738).abs() < 0.0005);
    /// ```
    pub fn estimated_resistance(&self, kv_rpm_per_v: f64) -> f64 {
        let kv = rad_per_volt_second(kv_rpm_per_v);
        1.0 / (kv * kv * 1.196e-9 * self.volume_mm3().powf(1.614))
    }

    /// Estimated no-load current from `Q0 = 9.17e-8·V^1.085·f^0.416` N·m (the same rows; 9 %).
    ///
    /// ```
    /// use propwright_engine::models::stator::Stator;
    /// // By hand, 2207 of 1950 KV at 325 rev/s: 9.17e-8·2661^1.085·325^0.416·204.2 = 1.080 A.
    /// let no_load = Stator::new(22.0, 7.0).unwrap().estimated_no_load(1950.0);
    /// assert!((no_load.at(325.0) - 1.080).abs() < 0.0005);
    /// ```
    pub fn estimated_no_load(&self, kv_rpm_per_v: f64) -> NoLoad {
        let torque = 9.17e-8 * self.volume_mm3().powf(1.085);
        NoLoad { current_a: torque * rad_per_volt_second(kv_rpm_per_v), at_rev_per_s: 1.0, exponent: NO_LOAD_EXPONENT }
    }

    /// Estimated motor mass `0.0309·V^0.878`, g (the same rows; 7 %).
    ///
    /// ```
    /// use propwright_engine::models::stator::Stator;
    /// // By hand: 0.0309·2661^0.878 = 31.4 g.
    /// assert!((Stator::new(22.0, 7.0).unwrap().estimated_mass_g() - 31.4).abs() < 0.05);
    /// ```
    pub fn estimated_mass_g(&self) -> f64 {
        0.0309 * self.volume_mm3().powf(0.878)
    }

    /// A motor of this stator with everything estimated from the stator and KV alone.
    ///
    /// ```
    /// use propwright_engine::models::stator::Stator;
    /// // By hand, 2806 of 1300 KV: 1/(136.1²·1.196e-9·3694.5^1.614) = 78.8 mΩ, and 0.840 A without load at 200 rev/s.
    /// let motor = Stator::new(28.0, 6.0).unwrap().estimated_motor(1300.0).unwrap();
    /// assert!((motor.resistance - 0.0788).abs() < 0.00005 && (motor.no_load.at(200.0) - 0.840).abs() < 0.0005);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of 30 to 60 000 rpm/V.
    pub fn estimated_motor(&self, kv_rpm_per_v: f64) -> Result<Motor, ModelError> {
        let kv_rpm = in_range("KV in rpm/V", kv_rpm_per_v, 30.0, 60_000.0)?;
        Ok(Motor {
            kv: rad_per_volt_second(kv_rpm),
            resistance: self.estimated_resistance(kv_rpm),
            no_load: self.estimated_no_load(kv_rpm),
            pole_pairs: self.usual_pole_pairs(),
        })
    }
}

/// Estimated burst current `√(1.9·m/R)`, A, m in g: 1.9 W of copper loss a gram (30 %). It can warn, never forbid;
/// its duration is [`ASSUMED_BURST_S`], and [`CONTINUOUS_SHARE`] of it is taken as lasting.
///
/// ```
/// use propwright_engine::models::stator::{CONTINUOUS_SHARE, estimated_burst_current};
/// // By hand, 32 g and 57 mΩ: √(1.9·32/0.057) = 32.7 A for ten seconds, 18.0 A of it lasting.
/// let burst = estimated_burst_current(32.0, 0.057);
/// assert!((burst - 32.7).abs() < 0.05 && (CONTINUOUS_SHARE * burst - 18.0).abs() < 0.05);
/// ```
pub fn estimated_burst_current(mass_g: f64, resistance: f64) -> f64 {
    (1.9 * mass_g / resistance).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_2207_is_estimated_as_listings_have_it() {
        // Common practice, no source: a 2207 of 1950 KV is listed with 45 to 75 mΩ, 0.9 to 1.6 A at 10 V, 28 to 36 g.
        let stator = Stator::new(22.0, 7.0).unwrap();
        assert!((0.045..0.075).contains(&stator.estimated_resistance(1950.0)));
        assert!((0.9..1.6).contains(&stator.estimated_no_load(1950.0).at(325.0)));
        assert!((28.0..36.0).contains(&stator.estimated_mass_g()));
    }

    #[test]
    fn small_stators_have_six_pole_pairs() {
        assert!(Stator::new(11.0, 3.0).unwrap().usual_pole_pairs() < 6.5);
        assert!(Stator::new(11.1, 3.0).unwrap().usual_pole_pairs() > 6.5);
    }
}
