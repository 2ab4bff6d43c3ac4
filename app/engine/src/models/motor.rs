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
/// Share of the burst current that is taken as continuous when a listing gives none (an assumption).
pub const CONTINUOUS_SHARE: f64 = 0.55;
/// Duration taken for a burst rating without a stated one, s (common practice, no source).
pub const ASSUMED_BURST_S: f64 = 10.0;

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
    pub fn constant(current_a: f64) -> Self {
        Self { current_a, at_rev_per_s: 1.0, exponent: 0.0 }
    }

    /// A listing's figure, measured without propeller at `test_v` volts.
    pub fn listed(current_a: f64, test_v: f64, kv_rpm_per_v: f64) -> Self {
        Self { current_a, at_rev_per_s: kv_rpm_per_v * test_v / 60.0, exponent: NO_LOAD_EXPONENT }
    }

    /// Current at a speed in rev/s, A.
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
    pub fn best_efficiency_current(&self, volts: f64) -> f64 {
        (self.no_load.current_a * volts / self.resistance).sqrt()
    }

    /// Current of most shaft power, `(V/R + I0)/2`, A, with I0 at its reference speed. No pack or winding lasts there.
    pub fn peak_power_current(&self, volts: f64) -> f64 {
        f64::midpoint(self.stall_current(volts), self.no_load.current_a)
    }

    /// Current with the rotor blocked, `V/R`, A.
    pub fn stall_current(&self, volts: f64) -> f64 {
        volts / self.resistance
    }

    /// Motor current that a shaft torque in N·m takes at a speed, A.
    pub fn current(&self, torque: f64, rev_per_s: f64) -> f64 {
        torque * self.kv + self.no_load.at(rev_per_s)
    }

    /// Shaft torque of a motor current at a speed, N·m: what a bench row without torque amounts to.
    pub fn torque(&self, current_a: f64, rev_per_s: f64) -> f64 {
        (current_a - self.no_load.at(rev_per_s)) / self.kv
    }

    /// Voltage that the hot motor needs at a speed and current, V.
    pub fn voltage_required(&self, rev_per_s: f64, current_a: f64) -> f64 {
        let omega = 2.0 * PI * rev_per_s;
        let droop = 3.0 / PI * self.pole_pairs * omega * COMMUTATION_TIME;
        omega / self.kv + (HOT_WINDING + droop) * self.resistance * current_a
    }

    /// Electric power that the hot motor takes at a speed and current, W.
    pub fn power(&self, rev_per_s: f64, current_a: f64) -> f64 {
        2.0 * PI * rev_per_s / self.kv * current_a + self.winding_heat(current_a)
    }

    /// Copper loss of the hot winding, W.
    pub fn winding_heat(&self, current_a: f64) -> f64 {
        HOT_WINDING * self.resistance * current_a * current_a
    }
}

/// A stator's size as listings print it: 2207 = 22 mm across, 7 mm high.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stator {
    diameter_mm: f64,
    height_mm: f64,
}

impl Stator {
    /// A stator by diameter and height in mm.
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
    pub fn volume_mm3(&self) -> f64 {
        PI / 4.0 * self.diameter_mm * self.diameter_mm * self.height_mm
    }

    /// Pole pairs when none are listed: 6 up to 11 mm, 7 above (common practice, no source).
    pub fn usual_pole_pairs(&self) -> f64 {
        if self.diameter_mm <= 11.0 { 6.0 } else { 7.0 }
    }

    /// Estimated resistance, Ω, from `Kt²/R = 1.196e-9·V^1.614` (17 listing rows, from memory; rms 16 %).
    ///
    /// ```
    /// use propwright_engine::models::motor::Stator;
    /// // By hand: V = π/4·22²·7 = 2661 mm³, Km² = 1.196e-9·V^1.614 = 4.039e-4, Kt = 60/(2π·1750) = 5.457e-3: 74 mΩ.
    /// assert!((Stator::new(22.0, 7.0).unwrap().estimated_resistance(1750.0) - 0.0738).abs() < 0.0005);
    /// ```
    pub fn estimated_resistance(&self, kv_rpm_per_v: f64) -> f64 {
        let kv = rad_per_volt_second(kv_rpm_per_v);
        1.0 / (kv * kv * 1.196e-9 * self.volume_mm3().powf(1.614))
    }

    /// Estimated no-load current from `Q0 = 9.17e-8·V^1.085·f^0.416` N·m (the same rows; 9 %).
    pub fn estimated_no_load(&self, kv_rpm_per_v: f64) -> NoLoad {
        let torque = 9.17e-8 * self.volume_mm3().powf(1.085);
        NoLoad { current_a: torque * rad_per_volt_second(kv_rpm_per_v), at_rev_per_s: 1.0, exponent: NO_LOAD_EXPONENT }
    }

    /// Estimated motor mass `0.0309·V^0.878`, g (the same rows; 7 %).
    pub fn estimated_mass_g(&self) -> f64 {
        0.0309 * self.volume_mm3().powf(0.878)
    }

    /// A motor of this stator with everything estimated from the stator and KV alone.
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
pub fn estimated_burst_current(mass_g: f64, resistance: f64) -> f64 {
    (1.9 * mass_g / resistance).sqrt()
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
    fn a_2207_is_estimated_as_listings_have_it() {
        // Common practice, no source: a 2207 of 1950 KV is listed with 45 to 75 mΩ, 0.9 to 1.6 A at 10 V, 28 to 36 g.
        let stator = Stator::new(22.0, 7.0).unwrap();
        assert!((0.045..0.075).contains(&stator.estimated_resistance(1950.0)));
        assert!((0.9..1.6).contains(&stator.estimated_no_load(1950.0).at(325.0)));
        assert!((28.0..36.0).contains(&stator.estimated_mass_g()));
    }

    #[test]
    fn droop_costs_voltage_but_no_power() {
        let motor = reference();
        let (f, current) = (500.0, 30.0);
        let emf = 2.0 * PI * f / motor.kv;
        assert!(motor.voltage_required(f, current) > emf + HOT_WINDING * motor.resistance * current);
        assert!((motor.power(f, current) - current * (emf + HOT_WINDING * 0.057 * current)).abs() < 1e-9);
    }

    #[test]
    fn small_stators_have_six_pole_pairs() {
        assert!(Stator::new(11.0, 3.0).unwrap().usual_pole_pairs() < 6.5);
        assert!(Stator::new(11.1, 3.0).unwrap().usual_pole_pairs() > 6.5);
    }
}
