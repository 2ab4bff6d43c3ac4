//! A ring round the propeller: more thrust for the same power in hover, nothing left of it at speed.
//!
//! `T_duct/T_open = (2σd)^(1/3)` at equal power, hence `P_duct/P_open = (2σd)^(−1/2)` at equal thrust; σd is the
//! wake's area over the disc's, 0.5 without a duct. The gain fades linearly to nothing at half the propeller's
//! zero-thrust advance ratio, where the ring's drag decides. Valid for 0.5 ≤ σd ≤ 0.75. Source: momentum theory of
//! the ducted actuator disc (J.G. Leishman, *Principles of Helicopter Aerodynamics*, 2nd ed., section 6.10, from
//! memory); the σd of usual rings and the fading are judgement.

use super::error::{ModelError, in_range};

/// σd of a plain guard ring without lip (judgement).
pub const PLAIN_GUARD: f64 = 0.55;
/// σd of a ring with a rounded lip and a small gap (judgement).
pub const LIPPED: f64 = 0.62;
/// Share of the zero-thrust advance ratio at which nothing of the gain is left (judgement).
const FADED_AT: f64 = 0.5;

/// A ring by its wake contraction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Duct {
    wake_area_ratio: f64,
}

impl Duct {
    /// A ring with a wake area ratio σd.
    ///
    /// ```
    /// use propwright_engine::models::duct::Duct;
    /// // 0.5 is no duct at all: it gains nothing; less is none that there is.
    /// assert!((Duct::new(0.5).unwrap().static_thrust_gain() - 1.0).abs() < 1e-12);
    /// assert!(Duct::new(0.49).is_err());
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of 0.5 to 0.75.
    pub fn new(wake_area_ratio: f64) -> Result<Self, ModelError> {
        Ok(Self { wake_area_ratio: in_range("wake area ratio of a duct", wake_area_ratio, 0.5, 0.75)? })
    }

    /// Thrust against the open propeller at equal power in hover.
    ///
    /// ```
    /// use propwright_engine::models::duct::{Duct, LIPPED};
    /// let gain = Duct::new(LIPPED).unwrap().static_thrust_gain();
    /// assert!((gain - 1.074).abs() < 0.0005);
    /// ```
    pub fn static_thrust_gain(&self) -> f64 {
        (2.0 * self.wake_area_ratio).cbrt()
    }

    /// Power against the open propeller at equal thrust in hover.
    ///
    /// ```
    /// use propwright_engine::models::duct::{Duct, LIPPED};
    /// // By hand: 1/√1.24 = 0.898.
    /// assert!((Duct::new(LIPPED).unwrap().static_power_ratio() - 0.898).abs() < 0.0005);
    /// ```
    pub fn static_power_ratio(&self) -> f64 {
        1.0 / (2.0 * self.wake_area_ratio).sqrt()
    }

    /// Thrust gain at an advance ratio, `zero_thrust` being the one at which the open propeller stops pulling.
    ///
    /// ```
    /// use propwright_engine::models::duct::{Duct, LIPPED};
    /// // By hand, J 0.2 of 0.9: 1 + (1.24^(1/3) − 1)·(1 − 0.2/0.45) = 1.0413.
    /// assert!((Duct::new(LIPPED).unwrap().thrust_gain(0.2, 0.9) - 1.0413).abs() < 0.00005);
    /// ```
    pub fn thrust_gain(&self, advance_ratio: f64, zero_thrust: f64) -> f64 {
        let left = (1.0 - advance_ratio / (FADED_AT * zero_thrust)).clamp(0.0, 1.0);
        1.0 + (self.static_thrust_gain() - 1.0) * left
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::models::printed::assert_printed;

    #[test]
    fn lipped_ring_in_hover() {
        // Computed by hand: actuator disc with duct, σd = 0.62.
        let duct = Duct::new(0.62).unwrap();
        assert_printed(duct.static_thrust_gain(), "1.074");
        assert_printed(duct.static_power_ratio(), "0.898");
    }

    #[test]
    fn gain_fades_to_nothing_at_half_the_zero_thrust_advance() {
        let duct = Duct::new(LIPPED).unwrap();
        assert!(duct.thrust_gain(0.0, 0.9) > duct.thrust_gain(0.2, 0.9));
        assert!((duct.thrust_gain(0.45, 0.9) - 1.0).abs() < 1e-12);
        assert!((duct.thrust_gain(0.8, 0.9) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn no_duct_gains_nothing() {
        assert!((Duct::new(0.5).unwrap().static_thrust_gain() - 1.0).abs() < 1e-12);
        assert!(Duct::new(0.49).is_err());
    }
}
