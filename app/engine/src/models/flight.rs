//! What a flight asks of the rotors: hover, forward flight, and the balance of a tilted craft.
//!
//! Hover `vh = √(T/(2ρA))`, `P = T·vh`; forward flight, tilt θ, `vi·√((V·cosθ)² + (V·sinθ + vi)²) = T/(2ρA)`,
//! `P = T·(V·sinθ + vi)` (H. Glauert); balance at a steady level speed `D = ½ρV²·CdA`, `tanθ = D/W`, `T = √(W² + D²)`.
//! T thrust of all rotors in N, A their discs in m², ρ in kg/m³, V in m/s, W weight in N, `CdA` drag area in m². For the
//! propeller's table the stream `λ = V·sinθ + vi` is as strong as an axial one of `Ve = λ − T/(2ρAλ)`; where it is weaker than in
//! hover, λ < vh, the table at rest serves and `T·(vh − λ)` of its power is saved. Valid for level flight and climbs, not for descents into the own wake. Source: J.G. Leishman, *Principles of Helicopter
//! Aerodynamics*, chapters 2 and 5. `CdA` is judgement and decides top speed: one logged speed calibrates it.

use std::f64::consts::{FRAC_PI_2, PI};

use super::atmosphere::GRAVITY;
use super::bracket;
use super::error::{ModelError, in_range};

/// Share of the rotors' thrust that is left behind arms and body, open propellers.
pub const THRUST_LEFT_OPEN: f64 = 0.93;
/// The same for ducted propellers.
pub const THRUST_LEFT_DUCTED: f64 = 0.88;
/// The same for small indoor craft with ducts.
pub const THRUST_LEFT_DUCTED_MICRO: f64 = 0.83;

/// Area of `rotors` discs of a diameter in m, m².
///
/// ```
/// use propwright_engine::models::flight::disc_area;
/// // By hand: 4·π/4·0.127² = 0.05067 m².
/// assert!((disc_area(4, 0.127) - 0.05067).abs() < 0.000005);
/// ```
pub fn disc_area(rotors: u32, diameter_m: f64) -> f64 {
    f64::from(rotors) * PI / 4.0 * diameter_m * diameter_m
}

/// Induced velocity in hover, m/s.
///
/// ```
/// use propwright_engine::models::flight::{disc_area, hover_induced};
/// let vi = hover_induced(7.0, disc_area(4, 0.127), 1.225).unwrap();
/// assert!((vi - 7.509).abs() < 0.0005);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] for a negative thrust, an empty disc or air outside of 0.2 to 2 kg/m³.
pub fn hover_induced(thrust_n: f64, area_m2: f64, density: f64) -> Result<f64, ModelError> {
    Ok(disc_loading(thrust_n, area_m2, density)?.sqrt())
}

/// Ideal hover power, W.
///
/// ```
/// use propwright_engine::models::flight::{disc_area, hover_ideal_power};
/// // By hand: 7·√(7/(2·1.225·0.05067)) = 52.56 W.
/// assert!((hover_ideal_power(7.0, disc_area(4, 0.127), 1.225).unwrap() - 52.56).abs() < 0.005);
/// ```
///
/// # Errors
/// As [`hover_induced`].
pub fn hover_ideal_power(thrust_n: f64, area_m2: f64, density: f64) -> Result<f64, ModelError> {
    Ok(thrust_n * hover_induced(thrust_n, area_m2, density)?)
}

fn disc_loading(thrust_n: f64, area_m2: f64, density: f64) -> Result<f64, ModelError> {
    let thrust = in_range("thrust in N", thrust_n, 0.0, 1e5)?;
    let area = in_range("disc area in m²", area_m2, 1e-5, 100.0)?;
    Ok(thrust / (2.0 * in_range("air density in kg/m³", density, 0.2, 2.0)? * area))
}

/// Stream through the discs in forward flight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inflow {
    /// Induced velocity vi, m/s.
    pub induced: f64,
    /// Stream through the disc λ = V·sinθ + vi, m/s.
    pub through: f64,
    /// Axial stream that loads the propeller alike, Ve, m/s.
    pub equivalent_axial: f64,
    /// Stream in the disc's plane V·cosθ, m/s.
    pub edgewise: f64,
    /// Stream through the disc that hover has more, vh − λ, or 0, m/s: a flying rotor saves that much of its power a newton.
    pub saved: f64,
}

impl Inflow {
    /// A propeller on a bench: nothing moves but its own stream.
    pub const STILL: Self = Self { induced: 0.0, through: 0.0, equivalent_axial: 0.0, edgewise: 0.0, saved: 0.0 };

    /// Ideal power of this stream, `T·λ`, W.
    ///
    /// ```
    /// use propwright_engine::models::flight::{disc_area, forward_inflow};
    /// // By hand, 1.75 N, 15 m/s, tilt 25°: 1.75·(15·sin 25° + 3.375) = 17.00 W.
    /// let inflow = forward_inflow(1.75, disc_area(1, 0.127), 1.225, 15.0, 25_f64.to_radians()).unwrap();
    /// assert!((inflow.ideal_power(1.75) - 17.00).abs() < 0.005);
    /// ```
    pub fn ideal_power(&self, thrust_n: f64) -> f64 {
        thrust_n * self.through
    }
}

/// Glauert's stream for a thrust on all discs, a speed and a tilt in rad (nose down positive).
///
/// ```
/// use propwright_engine::models::flight::{disc_area, forward_inflow};
/// // By hand, level at 10 m/s: vi = √((√(V⁴ + 4·vh⁴) − V²)/2) = 5.036 m/s with vh = 7.509 m/s, so that 2.473 m/s are saved.
/// let inflow = forward_inflow(1.75, disc_area(1, 0.127), 1.225, 10.0, 0.0).unwrap();
/// assert!((inflow.induced - 5.036).abs() < 0.0005 && (inflow.saved - 2.473).abs() < 0.0005);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] outside of 0 to 150 m/s or 0 to π/2 of tilt, or as [`hover_induced`].
pub fn forward_inflow(thrust_n: f64, area_m2: f64, density: f64, speed_m_s: f64, tilt_rad: f64) -> Result<Inflow, ModelError> {
    let loading = disc_loading(thrust_n, area_m2, density)?;
    let speed = in_range("speed in m/s", speed_m_s, 0.0, 150.0)?;
    let tilt = in_range("tilt in rad", tilt_rad, 0.0, FRAC_PI_2)?;
    let (edgewise, climb) = (speed * tilt.cos(), speed * tilt.sin());
    let residual = |vi: f64| Ok(vi * edgewise.hypot(climb + vi) - loading);
    let induced = if loading > 0.0 { bracket::root(0.0, loading.sqrt() * (1.0 + 1e-9), residual)? } else { 0.0 };
    let through = climb + induced;
    let equivalent_axial = if through > 0.0 { (through - loading / through).max(0.0) } else { 0.0 };
    Ok(Inflow { induced, through, equivalent_axial, edgewise, saved: (loading.sqrt() - through).max(0.0) })
}

/// A craft in steady level flight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trim {
    /// Drag D, N.
    pub drag_n: f64,
    /// Tilt θ, rad.
    pub tilt_rad: f64,
    /// Thrust that the craft needs, N; the rotors give it divided by the share left behind arms and body.
    pub thrust_n: f64,
}

/// Balance of a craft of `mass_kg` and drag area `cda_m2` at a level speed.
///
/// ```
/// use propwright_engine::models::flight::trim;
/// let t = trim(0.72, 0.0115, 30.0, 1.225).unwrap();
/// assert!((t.tilt_rad.to_degrees() - 41.92).abs() < 0.005);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] outside of 5 g to 100 kg, 0 to 5 m², 0 to 150 m/s, 0.2 to 2 kg/m³.
pub fn trim(mass_kg: f64, cda_m2: f64, speed_m_s: f64, density: f64) -> Result<Trim, ModelError> {
    let weight = in_range("mass in kg", mass_kg, 0.005, 100.0)? * GRAVITY;
    let cda = in_range("drag area in m²", cda_m2, 0.0, 5.0)?;
    let speed = in_range("speed in m/s", speed_m_s, 0.0, 150.0)?;
    let drag_n = 0.5 * in_range("air density in kg/m³", density, 0.2, 2.0)? * speed * speed * cda;
    Ok(Trim { drag_n, tilt_rad: drag_n.atan2(weight), thrust_n: weight.hypot(drag_n) })
}

/// Level speed at which the craft's tilt reaches a limit in rad, `√(2·W·tanθ/(ρ·CdA))`, m/s.
///
/// ```
/// use propwright_engine::models::flight::speed_at_tilt;
/// // By hand: √(2·0.72·9.80665·tan 35°/(1.225·0.0115)) = 26.49 m/s.
/// assert!((speed_at_tilt(0.72, 0.0115, 35_f64.to_radians(), 1.225).unwrap() - 26.49).abs() < 0.005);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] as [`trim`], or for a tilt outside of 0 to 1.5 rad or a drag area below 1 mm².
pub fn speed_at_tilt(mass_kg: f64, cda_m2: f64, tilt_rad: f64, density: f64) -> Result<f64, ModelError> {
    let weight = in_range("mass in kg", mass_kg, 0.005, 100.0)? * GRAVITY;
    let tilt = in_range("tilt in rad", tilt_rad, 0.0, 1.5)?;
    let cda = in_range("drag area in m²", cda_m2, 1e-6, 5.0)?;
    Ok((2.0 * weight * tilt.tan() / (in_range("air density in kg/m³", density, 0.2, 2.0)? * cda)).sqrt())
}

/// Drag area that a logged level speed and tilt in rad amount to, m²: calibrates a craft.
///
/// ```
/// use propwright_engine::models::flight::drag_area_from_log;
/// // By hand: 2·0.72·9.80665·tan 41.92°/(1.225·30²) = 0.0115 m².
/// assert!((drag_area_from_log(0.72, 30.0, 41.92_f64.to_radians(), 1.225).unwrap() - 0.0115).abs() < 0.00005);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] as [`trim`], or for a speed below 3 m/s or a tilt outside of 0.01 to 1.5 rad.
pub fn drag_area_from_log(mass_kg: f64, speed_m_s: f64, tilt_rad: f64, density: f64) -> Result<f64, ModelError> {
    let weight = in_range("mass in kg", mass_kg, 0.005, 100.0)? * GRAVITY;
    let speed = in_range("logged speed in m/s", speed_m_s, 3.0, 150.0)?;
    let tilt = in_range("tilt in rad", tilt_rad, 0.01, 1.5)?;
    let density = in_range("air density in kg/m³", density, 0.2, 2.0)?;
    Ok(2.0 * weight * tilt.tan() / (density * speed * speed))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::models::printed::assert_printed;

    #[test]
    fn hover_of_four_discs() {
        // Computed by hand from momentum theory: 7 N, four discs of 0.127 m, 1.225 kg/m³.
        let area = disc_area(4, 0.127);
        assert_printed(hover_induced(7.0, area, 1.225).unwrap(), "7.509");
        assert_printed(hover_ideal_power(7.0, area, 1.225).unwrap(), "52.56");
    }

    #[test]
    fn glauert_at_15_m_s() {
        // Computed by hand from Glauert: 1.75 N, one disc of 0.127 m, 15 m/s, tilt 25°.
        let area = disc_area(1, 0.127);
        let inflow = forward_inflow(1.75, area, 1.225, 15.0, 25_f64.to_radians()).unwrap();
        assert_printed(hover_induced(1.75, area, 1.225).unwrap(), "7.509");
        assert_printed(inflow.induced, "3.375");
        assert_printed(inflow.ideal_power(1.75), "17.00");
    }

    #[test]
    fn balance_at_30_m_s() {
        // Computed by hand: statics of 0.72 kg, CdA 0.0115 m², 30 m/s.
        let t = trim(0.72, 0.0115, 30.0, 1.225).unwrap();
        assert_printed(t.drag_n, "6.339");
        assert_printed(t.tilt_rad.to_degrees(), "41.92");
        assert_printed(t.thrust_n, "9.489");
    }

    #[test]
    fn tilt_limit_and_log_are_the_balance_turned_round() {
        let t = trim(0.72, 0.0115, 30.0, 1.225).unwrap();
        assert_printed(speed_at_tilt(0.72, 0.0115, t.tilt_rad, 1.225).unwrap(), "30.000");
        assert_printed(drag_area_from_log(0.72, 30.0, t.tilt_rad, 1.225).unwrap(), "0.0115");
    }

    #[test]
    fn slow_flight_saves_what_glauert_says() {
        // Glauert by hand: 1.75 N, one disc of 0.127 m, level at 10 m/s: λ = vi = √((√(V⁴ + 4·vh⁴) − V²)/2).
        let inflow = forward_inflow(1.75, disc_area(1, 0.127), 1.225, 10.0, 0.0).unwrap();
        assert_printed(inflow.induced, "5.036");
        assert_printed(inflow.saved, "2.473");
    }

    #[test]
    fn still_air_gives_hover_and_no_axial_stream() {
        let area = disc_area(4, 0.127);
        let inflow = forward_inflow(7.0, area, 1.225, 0.0, 0.0).unwrap();
        assert!((inflow.induced - hover_induced(7.0, area, 1.225).unwrap()).abs() < 1e-6);
        assert!(inflow.equivalent_axial < 1e-6);
    }
}
