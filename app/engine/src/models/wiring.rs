//! Copper leads: resistance, and how hot they get in a burst and over a flight.
//!
//! Diameter `d = 0.127·92^((36 − n)/39)` mm (ASTM B258); `R/l = ρ/(π/4·d²)`, ρ = 1.7241e-8 Ω·m at 20 °C (IEC 60028), times `1 +
//! 0.00393·(T − 20)`. Burst without cooling: `I²t = K²S²·ln((θf + 234.5)/(θi + 234.5))`, K = 226 A·√s/mm² (IEC 60949). Steady
//! rise in moving air: `I²·R/l = h·π·D·ΔT`, h after S.W. Churchill and M. Bernstein, J. Heat Transfer 99 (1977), for a cylinder
//! across the stream; insulation and sun left out. Source: those standards and that paper, cited from memory. Valid for AWG 0 to
//! 40. A lead that fails smells first, then its insulation creeps.

use std::f64::consts::PI;

use super::error::{ModelError, in_range};

/// Resistivity of annealed copper at 20 °C, Ω·m (IEC 60028).
pub const COPPER_RESISTIVITY: f64 = 1.7241e-8;
/// Temperature coefficient of copper's resistance at 20 °C, 1/K (IEC 60028).
pub const COPPER_COEFFICIENT: f64 = 0.003_93;
/// IEC 60949: K for copper, A·√s/mm².
const ADIABATIC_K: f64 = 226.0;
/// IEC 60949: β for copper, °C.
const ADIABATIC_BETA: f64 = 234.5;
/// Air near 35 °C: conductivity W/(m·K), kinematic viscosity m²/s, Prandtl number.
const AIR: (f64, f64, f64) = (0.0268, 1.65e-5, 0.71);

/// A stranded lead taken as its solid gauge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gauge {
    awg: f64,
}

impl Gauge {
    /// A lead by its AWG number.
    ///
    /// ```
    /// use propwright_engine::models::wiring::Gauge;
    /// // ASTM B258, by hand: AWG 36 is 0.127 mm.
    /// assert!((Gauge::awg(36.0).unwrap().diameter_mm() - 0.127).abs() < 1e-12);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of AWG 0 to 40.
    pub fn awg(number: f64) -> Result<Self, ModelError> {
        Ok(Self { awg: in_range("AWG", number, 0.0, 40.0)? })
    }

    /// Copper diameter, mm.
    ///
    /// ```
    /// use propwright_engine::models::wiring::Gauge;
    /// // By hand: 0.127·92^(22/39) = 1.628 mm.
    /// assert!((Gauge::awg(14.0).unwrap().diameter_mm() - 1.628).abs() < 0.0005);
    /// ```
    pub fn diameter_mm(&self) -> f64 {
        0.127 * 92_f64.powf((36.0 - self.awg) / 39.0)
    }

    /// Copper section, mm².
    ///
    /// ```
    /// use propwright_engine::models::wiring::Gauge;
    /// // By hand: π/4·1.6277² = 2.081 mm².
    /// assert!((Gauge::awg(14.0).unwrap().section_mm2() - 2.081).abs() < 0.0005);
    /// ```
    pub fn section_mm2(&self) -> f64 {
        PI / 4.0 * self.diameter_mm() * self.diameter_mm()
    }

    /// Resistance a metre at a copper temperature in °C, Ω/m.
    ///
    /// ```
    /// use propwright_engine::models::wiring::Gauge;
    /// let lead = Gauge::awg(14.0).unwrap();
    /// assert!((lead.resistance_per_m(20.0) - 8.285e-3).abs() < 0.5e-6);
    /// ```
    pub fn resistance_per_m(&self, temperature_c: f64) -> f64 {
        COPPER_RESISTIVITY / (self.section_mm2() * 1e-6) * (1.0 + COPPER_COEFFICIENT * (temperature_c - 20.0))
    }

    /// Rise in K of a burst of `current_a` over `seconds` that starts at `start_c`, no heat leaving.
    ///
    /// ```
    /// use propwright_engine::models::wiring::Gauge;
    /// // By hand, 80 A for 2 s from 20 °C: 254.5·(exp(80²·2/(226·2.0809)²) − 1) = 15.16 K.
    /// assert!((Gauge::awg(14.0).unwrap().burst_rise(80.0, 2.0, 20.0).unwrap() - 15.16).abs() < 0.005);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] when the rise passes 1000 K: the lead is gone.
    pub fn burst_rise(&self, current_a: f64, seconds: f64, start_c: f64) -> Result<f64, ModelError> {
        let exponent = current_a * current_a * seconds / (ADIABATIC_K * self.section_mm2()).powi(2);
        let rise = (ADIABATIC_BETA + start_c) * exponent.exp_m1();
        in_range("rise of a lead in K", rise, 0.0, 1000.0)
    }

    /// Steady rise in K at an RMS current in air that moves with `air_m_s` across the lead at `air_c`.
    ///
    /// ```
    /// use propwright_engine::models::wiring::Gauge;
    /// // By hand, 30 A in 5 m/s at 25 °C: Re 493, Nu 11.25, h 185.2 W/(m²·K), 8.28 K.
    /// assert!((Gauge::awg(14.0).unwrap().steady_rise(30.0, 5.0, 25.0).unwrap() - 8.28).abs() < 0.005);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of 0.2 to 40 m/s, or when the rise passes 1000 K.
    pub fn steady_rise(&self, rms_a: f64, air_m_s: f64, air_c: f64) -> Result<f64, ModelError> {
        let stream = in_range("air past the lead in m/s", air_m_s, 0.2, 40.0)?;
        let diameter = self.diameter_mm() * 1e-3;
        let lost_per_k = film_coefficient(diameter, stream) * PI * diameter;
        let heat = rms_a * rms_a * self.resistance_per_m(air_c);
        // ΔT = heat·(1 + α'·ΔT)/lost, α' the coefficient against the air's temperature; run away when α'·heat ≥ lost.
        let coefficient = COPPER_COEFFICIENT / (1.0 + COPPER_COEFFICIENT * (air_c - 20.0));
        let net = lost_per_k - coefficient * heat;
        let rise = if net > 0.0 { heat / net } else { f64::INFINITY };
        in_range("rise of a lead in K", rise, 0.0, 1000.0)
    }
}

/// Heat passed to a cross stream by a cylinder, W/(m²·K) (Churchill and Bernstein).
fn film_coefficient(diameter_m: f64, stream_m_s: f64) -> f64 {
    let (conductivity, viscosity, prandtl) = AIR;
    let re = stream_m_s * diameter_m / viscosity;
    let nusselt = 0.3
        + 0.62 * re.sqrt() * prandtl.cbrt() / (1.0 + (0.4 / prandtl).powf(2.0 / 3.0)).powf(0.25)
            * (1.0 + (re / 282_000.0).powf(0.625)).powf(0.8);
    nusselt * conductivity / diameter_m
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::models::printed::assert_printed;

    #[test]
    fn gauges_at_20_degrees() {
        // ASTM B258 with 1.7241e-8 Ω·m, computed by hand.
        for (awg, diameter, milliohm) in
            [(2.0, "6.544", "0.5127"), (12.0, "2.053", "5.211"), (14.0, "1.628", "8.285"), (20.0, "0.8118", "33.31")]
        {
            let lead = Gauge::awg(awg).unwrap();
            assert_printed(lead.diameter_mm(), diameter);
            assert_printed(lead.resistance_per_m(20.0) * 1e3, milliohm);
        }
    }

    #[test]
    fn a_warm_pack_lead() {
        // IEC 60028: AWG 14, 200 mm, 60 °C.
        assert_printed(Gauge::awg(14.0).unwrap().resistance_per_m(60.0) * 0.2 * 1e3, "1.918");
    }

    #[test]
    fn burst_rise_agrees_with_heat_capacity() {
        // Copper stores 3.45e6 J/(m³·K): small rises are I²·ρ·t/(S²·c). 80 A for 2 s on AWG 14, resistance at 20 °C.
        let lead = Gauge::awg(14.0).unwrap();
        let section = lead.section_mm2() * 1e-6;
        let linear = 80.0_f64.powi(2) * COPPER_RESISTIVITY * 2.0 / (section * section * 3.45e6);
        let rise = lead.burst_rise(80.0, 2.0, 20.0).unwrap();
        assert!((rise / linear - 1.0).abs() < 0.05, "{rise} against {linear}");
    }

    #[test]
    fn thicker_leads_and_faster_air_run_cooler() {
        let (thin, thick) = (Gauge::awg(16.0).unwrap(), Gauge::awg(12.0).unwrap());
        assert!(thick.steady_rise(40.0, 5.0, 25.0).unwrap() < thin.steady_rise(40.0, 5.0, 25.0).unwrap());
        assert!(thin.steady_rise(40.0, 10.0, 25.0).unwrap() < thin.steady_rise(40.0, 5.0, 25.0).unwrap());
    }

    #[test]
    fn a_lead_that_is_gone_is_an_error() {
        assert!(Gauge::awg(30.0).unwrap().burst_rise(100.0, 10.0, 25.0).is_err());
        assert!(Gauge::awg(30.0).unwrap().steady_rise(100.0, 5.0, 25.0).is_err());
        assert!(Gauge::awg(2.0).is_ok() && Gauge::awg(41.0).is_err());
    }
}
