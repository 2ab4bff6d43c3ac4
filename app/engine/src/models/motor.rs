//! A brushless motor: which current a torque takes and which voltage a speed takes.
//!
//! `E = ω/Kv`, `Q = (I − I0)/Kv`, `V = E + R·I`, `η = Q·ω/(V·I)`; ω in rad/s, Kv in rad/s/V, Q in N·m, I and I0 in A, R in Ω.
//! Valid for motors of permanent magnets below saturation, stators of 5 to 60 mm. Source: M. Drela, "First-Order DC Electric
//! Motor Model", MIT, 2007.
//!
//! In flight the winding is hot and each commutation costs voltage: `V_req = E + 1.15·R·I + (3/π)·p·ω·τ·R·I` with p
//! pole pairs and τ = 1.7e-5 s. The last term limits speed and burns nothing, so battery power is `I·(E + 1.15·R·I)`.
//! Without it thrust comes out about a fifth too high (fit to bench rows, from memory).
//!
//! Motor current is not battery current below full throttle: winding heat follows this current, leads and pack the
//! other one.

use std::f64::consts::PI;

use super::error::{ModelError, in_range};

/// Resistance of a hot winding against its 20 °C value (about 40 K of rise).
pub const HOT_WINDING: f64 = 1.15;
/// Commutation time τ, s (fit to bench rows, from memory).
pub const COMMUTATION_TIME: f64 = 1.7e-5;
/// How the no-load torque grows with speed: `Q0 ∝ f^0.416` (fit to listing rows, from memory).
pub const NO_LOAD_EXPONENT: f64 = 0.416;

/// No-load current by speed: `I0(f) = current·(f/f_ref)^exponent`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NoLoad {
    /// Current at the reference speed, A.
    pub current_a: f64,
    /// Reference speed, rev/s.
    pub at_rev_per_s: f64,
    /// Growth with speed: 0 for the textbook's constant I0, else [`NO_LOAD_EXPONENT`].
    pub exponent: f64,
}

impl NoLoad {
    /// A constant current, as in the textbook model.
    ///
    /// ```
    /// use propwright_engine::models::motor::NoLoad;
    /// assert!((NoLoad::constant(1.2).at(500.0) - 1.2).abs() < 1e-12);
    /// ```
    pub fn constant(current_a: f64) -> Self {
        Self { current_a, at_rev_per_s: 1.0, exponent: 0.0 }
    }

    /// A listing's figure, measured without propeller at `test_v` volts.
    ///
    /// ```
    /// use propwright_engine::models::motor::NoLoad;
    /// // By hand: 1 A at 10 V and 1750 KV is that at 291.7 rev/s; at twice the speed 2^0.416 = 1.334 A.
    /// assert!((NoLoad::listed(1.0, 10.0, 1750.0).at(1750.0 / 3.0) - 1.334).abs() < 0.0005);
    /// ```
    pub fn listed(current_a: f64, test_v: f64, kv_rpm_per_v: f64) -> Self {
        Self { current_a, at_rev_per_s: kv_rpm_per_v * test_v / 60.0, exponent: NO_LOAD_EXPONENT }
    }

    /// Current at a speed in rev/s, A.
    ///
    /// ```
    /// use propwright_engine::models::motor::NoLoad;
    /// // By hand: 0.8·(400/100)^0.5 = 1.6 A.
    /// assert!((NoLoad { current_a: 0.8, at_rev_per_s: 100.0, exponent: 0.5 }.at(400.0) - 1.6).abs() < 1e-12);
    /// ```
    pub fn at(&self, rev_per_s: f64) -> f64 {
        self.current_a * (rev_per_s / self.at_rev_per_s).powf(self.exponent)
    }
}

/// One motor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motor {
    /// Speed constant Kv, rad/s/V (listings print rpm/V: [`rad_per_volt_second`]).
    pub kv: f64,
    /// Winding resistance R between two leads at 20 °C, Ω.
    pub resistance: f64,
    /// No-load current by speed.
    pub no_load: NoLoad,
    /// Pole pairs p (magnets / 2).
    pub pole_pairs: f64,
}

/// A state of the textbook model.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MotorPoint {
    /// Speed ω, rad/s.
    pub speed: f64,
    /// Shaft torque Q, N·m.
    pub torque: f64,
    /// Shaft power, W.
    pub shaft_power: f64,
    /// Efficiency η, 0 to 1.
    pub efficiency: f64,
}

/// Kv in rad/s/V from the rpm/V that listings print.
///
/// ```
/// use propwright_engine::models::motor::rad_per_volt_second;
/// // By hand: 1750·π/30 = 183.26.
/// assert!((rad_per_volt_second(1750.0) - 183.26).abs() < 0.005);
/// ```
pub fn rad_per_volt_second(kv_rpm_per_v: f64) -> f64 {
    kv_rpm_per_v * PI / 30.0
}

impl Motor {
    /// The cold textbook state at a supply voltage and a motor current.
    ///
    /// ```
    /// use propwright_engine::models::motor::{Motor, NoLoad, rad_per_volt_second};
    /// let motor = Motor {
    ///     kv: rad_per_volt_second(1750.0),
    ///     resistance: 0.057,
    ///     no_load: NoLoad::constant(1.0),
    ///     pole_pairs: 7.0,
    /// };
    /// let point = motor.cold_point(22.2, 40.0).unwrap();
    /// assert!((point.shaft_power - 776.9).abs() < 0.05);
    /// assert!((point.efficiency - 0.8749).abs() < 0.00005);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] below no-load or above stall current.
    pub fn cold_point(&self, volts: f64, current_a: f64) -> Result<MotorPoint, ModelError> {
        let stall = self.stall_current(volts);
        in_range("motor current in A", current_a, 0.0, stall)?;
        let speed = (volts - current_a * self.resistance) * self.kv;
        let no_load = self.no_load.at(speed / (2.0 * PI));
        in_range("motor current in A", current_a, no_load, stall)?;
        let torque = (current_a - no_load) / self.kv;
        let shaft_power = torque * speed;
        let input = volts * current_a;
        let efficiency = if input > 0.0 { shaft_power / input } else { 0.0 };
        Ok(MotorPoint { speed, torque, shaft_power, efficiency })
    }

    /// Current of best efficiency, `√(I0·V/R)`, A, with I0 at its reference speed.
    ///
    /// ```
    /// use propwright_engine::models::motor::{Motor, NoLoad, rad_per_volt_second};
    /// # let (kv, no_load) = (rad_per_volt_second(1750.0), NoLoad::constant(1.0));
    /// let motor = Motor { kv, resistance: 0.057, no_load, pole_pairs: 7.0 };
    /// // By hand: √(1·22.2/0.057) = 19.74 A.
    /// assert!((motor.best_efficiency_current(22.2) - 19.74).abs() < 0.005);
    /// ```
    pub fn best_efficiency_current(&self, volts: f64) -> f64 {
        (self.no_load.current_a * volts / self.resistance).sqrt()
    }

    /// Current of most shaft power, `(V/R + I0)/2`, A, with I0 at its reference speed. No pack or winding lasts there.
    ///
    /// ```
    /// use propwright_engine::models::motor::{Motor, NoLoad, rad_per_volt_second};
    /// # let (kv, no_load) = (rad_per_volt_second(1750.0), NoLoad::constant(1.0));
    /// let motor = Motor { kv, resistance: 0.057, no_load, pole_pairs: 7.0 };
    /// // By hand: (22.2/0.057 + 1)/2 = 195.2 A.
    /// assert!((motor.peak_power_current(22.2) - 195.2).abs() < 0.05);
    /// ```
    pub fn peak_power_current(&self, volts: f64) -> f64 {
        f64::midpoint(self.stall_current(volts), self.no_load.current_a)
    }

    /// Current with the rotor blocked, `V/R`, A.
    ///
    /// ```
    /// use propwright_engine::models::motor::{Motor, NoLoad, rad_per_volt_second};
    /// # let (kv, no_load) = (rad_per_volt_second(1750.0), NoLoad::constant(1.0));
    /// let motor = Motor { kv, resistance: 0.057, no_load, pole_pairs: 7.0 };
    /// // By hand: 22.2/0.057 = 389.5 A.
    /// assert!((motor.stall_current(22.2) - 389.5).abs() < 0.05);
    /// ```
    pub fn stall_current(&self, volts: f64) -> f64 {
        volts / self.resistance
    }

    /// Motor current that a shaft torque in N·m takes at a speed, A.
    ///
    /// ```
    /// use propwright_engine::models::motor::{Motor, NoLoad, rad_per_volt_second};
    /// # let (kv, no_load) = (rad_per_volt_second(1750.0), NoLoad::constant(1.0));
    /// let motor = Motor { kv, resistance: 0.057, no_load, pole_pairs: 7.0 };
    /// // By hand: 0.2128·183.26 + 1 = 40.00 A.
    /// assert!((motor.current(0.2128, 500.0) - 40.00).abs() < 0.005);
    /// ```
    pub fn current(&self, torque: f64, rev_per_s: f64) -> f64 {
        torque * self.kv + self.no_load.at(rev_per_s)
    }

    /// Shaft torque of a motor current at a speed, N·m: what a bench row without torque amounts to.
    ///
    /// ```
    /// use propwright_engine::models::motor::{Motor, NoLoad, rad_per_volt_second};
    /// # let (kv, no_load) = (rad_per_volt_second(1750.0), NoLoad::constant(1.0));
    /// let motor = Motor { kv, resistance: 0.057, no_load, pole_pairs: 7.0 };
    /// // By hand: (40 − 1)/183.26 = 0.2128 N·m.
    /// assert!((motor.torque(40.0, 500.0) - 0.2128).abs() < 0.00005);
    /// ```
    pub fn torque(&self, current_a: f64, rev_per_s: f64) -> f64 {
        (current_a - self.no_load.at(rev_per_s)) / self.kv
    }

    /// Voltage that the hot motor needs at a speed and current, V.
    ///
    /// ```
    /// use propwright_engine::models::motor::{Motor, NoLoad, rad_per_volt_second};
    /// # let (kv, no_load) = (rad_per_volt_second(1750.0), NoLoad::constant(1.0));
    /// let motor = Motor { kv, resistance: 0.057, no_load, pole_pairs: 7.0 };
    /// // By hand, 500 rev/s, 30 A: 17.143 + 1.15·0.057·30 + 3/π·7·3141.6·1.7e-5·0.057·30 = 17.143 + 1.967 + 0.610 = 19.72 V.
    /// assert!((motor.voltage_required(500.0, 30.0) - 19.72).abs() < 0.005);
    /// ```
    pub fn voltage_required(&self, rev_per_s: f64, current_a: f64) -> f64 {
        let omega = 2.0 * PI * rev_per_s;
        let droop = 3.0 / PI * self.pole_pairs * omega * COMMUTATION_TIME;
        omega / self.kv + (HOT_WINDING + droop) * self.resistance * current_a
    }

    /// Electric power that the hot motor takes at a speed and current, W.
    ///
    /// ```
    /// use propwright_engine::models::motor::{Motor, NoLoad, rad_per_volt_second};
    /// # let (kv, no_load) = (rad_per_volt_second(1750.0), NoLoad::constant(1.0));
    /// let motor = Motor { kv, resistance: 0.057, no_load, pole_pairs: 7.0 };
    /// // By hand, 500 rev/s, 30 A: 17.143·30 + 1.15·0.057·30² = 573.3 W.
    /// assert!((motor.power(500.0, 30.0) - 573.3).abs() < 0.05);
    /// ```
    pub fn power(&self, rev_per_s: f64, current_a: f64) -> f64 {
        2.0 * PI * rev_per_s / self.kv * current_a + self.winding_heat(current_a)
    }

    /// Copper loss of the hot winding, W.
    ///
    /// ```
    /// use propwright_engine::models::motor::{Motor, NoLoad, rad_per_volt_second};
    /// # let (kv, no_load) = (rad_per_volt_second(1750.0), NoLoad::constant(1.0));
    /// let motor = Motor { kv, resistance: 0.057, no_load, pole_pairs: 7.0 };
    /// // By hand: 1.15·0.057·30² = 59.0 W.
    /// assert!((motor.winding_heat(30.0) - 59.0).abs() < 0.05);
    /// ```
    pub fn winding_heat(&self, current_a: f64) -> f64 {
        HOT_WINDING * self.resistance * current_a * current_a
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::models::printed::assert_printed;

    fn reference() -> Motor {
        Motor { kv: rad_per_volt_second(1750.0), resistance: 0.057, no_load: NoLoad::constant(1.0), pole_pairs: 7.0 }
    }

    #[test]
    fn best_efficiency_at_22_2_v() {
        // Computed by hand from Drela 2007.
        let motor = reference();
        let current = motor.best_efficiency_current(22.2);
        assert_printed(current, "19.74");
        let point = motor.cold_point(22.2, current).unwrap();
        assert_printed(point.efficiency, "0.9012");
        assert_printed(point.speed, "3862");
        assert_printed(point.torque, "0.1022");
        assert_printed(point.shaft_power, "394.8");
    }

    #[test]
    fn limits_at_22_2_v() {
        // Computed by hand from Drela 2007.
        let motor = reference();
        let current = motor.peak_power_current(22.2);
        assert_printed(current, "195.2");
        assert_printed(motor.cold_point(22.2, current).unwrap().shaft_power, "2150");
        assert_printed(motor.cold_point(22.2, 1.0).unwrap().speed * 30.0 / PI, "38750");
        assert_printed(motor.stall_current(22.2), "389.5");
    }

    #[test]
    fn forty_amps_at_22_2_v() {
        // Computed by hand from Drela 2007.
        let point = reference().cold_point(22.2, 40.0).unwrap();
        assert_printed(point.speed * 30.0 / PI, "34860");
        assert_printed(point.torque, "0.2128");
        assert_printed(point.shaft_power, "776.9");
        assert_printed(point.efficiency, "0.8749");
    }

    #[test]
    fn below_no_load_is_an_error() {
        assert!(reference().cold_point(22.2, 0.5).is_err());
        assert!(reference().cold_point(22.2, 400.0).is_err());
    }

    #[test]
    fn droop_costs_voltage_but_no_power() {
        let motor = reference();
        let (f, current) = (500.0, 30.0);
        let emf = 2.0 * PI * f / motor.kv;
        assert!(motor.voltage_required(f, current) > emf + HOT_WINDING * motor.resistance * current);
        assert!((motor.power(f, current) - current * (emf + HOT_WINDING * 0.057 * current)).abs() < 1e-9);
    }
}
