//! A propeller: the coefficients of thrust and power, and what diameter, pitch and blades alone say about them.
//!
//! `CT = T/(ρn²D⁴)`, `CP = P/(ρn³D⁵)`, `J = V/(nD)`, `FM = CT^1.5/(√(π/2)·CP)`; T in N, P in W, ρ in kg/m³, n in
//! rev/s, D in m, V in m/s. Closed form with x = P/D, s = B/2, Re5 = Re75/1e5 and u = J/J0:
//! `CT0 = (−.0162 + .2751x − .1169x²)·s^.463·Re5^.061`, `J0 = .178 + .920x`, `CT/CT0 = 1 − .376u − .624u²`,
//! `CP0 = (.0086 + .0249x + .0517x²)·s^.524·Re5^−.080`, `CP/CP0 = 1 + .718u − 2.011u² + .624u³`.
//!
//! Source: own fit to public wind-tunnel figures of small propellers. On propellers outside of the fit, as a share of the
//! static value, P68/P90: static CT 16/29 %, static CP 18/35 %; on 15 research propellers with blades wider or narrower than
//! usual (UIUC Propeller Database) CT 27/37 %, CP 32/41 %. Valid for P/D 0.25 to 1.4, 2 to 8 blades, tips below Mach 0.85. A
//! measured static point is worth more than any of it: [`super::installation`]. Propellers cut: take them off on the bench.

use std::f64::consts::PI;

use super::atmosphere::Air;
use super::error::{ModelError, in_range};

/// Chord at 75 % radius over the radius, where none is listed (P5–P95 0.12 to 0.25).
pub const USUAL_CHORD_75: f64 = 0.154;
/// Share of the zero-thrust advance ratio up to which the closed form is given.
const HIGHEST_ADVANCE: f64 = 1.05;
/// Pitch over diameter at which the models end.
pub(crate) const HIGHEST_PITCH: f64 = 1.4;
/// Tip Mach number above which the models end.
pub const HIGHEST_TIP_MACH: f64 = 0.85;

/// Thrust and power coefficient of a state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coefficients {
    /// Thrust coefficient CT.
    pub ct: f64,
    /// Power coefficient CP.
    pub cp: f64,
}

impl Coefficients {
    /// Thrust `CT·ρ·n²·D⁴`, N.
    ///
    /// ```
    /// use propwright_engine::models::propeller::Coefficients;
    /// // By hand: 0.110·1.225·100²·0.254⁴ = 5.609 N.
    /// assert!((Coefficients { ct: 0.110, cp: 0.045 }.thrust(1.225, 100.0, 0.254) - 5.609).abs() < 0.0005);
    /// ```
    pub fn thrust(&self, density: f64, rev_per_s: f64, diameter_m: f64) -> f64 {
        self.ct * density * rev_per_s.powi(2) * diameter_m.powi(4)
    }

    /// Shaft power `CP·ρ·n³·D⁵`, W.
    ///
    /// ```
    /// use propwright_engine::models::propeller::Coefficients;
    /// let c = Coefficients { ct: 0.110, cp: 0.045 };
    /// assert!((c.power(1.225, 100.0, 0.254) - 58.28).abs() < 0.005);
    /// assert!((c.figure_of_merit() - 0.6469).abs() < 0.00005);
    /// ```
    pub fn power(&self, density: f64, rev_per_s: f64, diameter_m: f64) -> f64 {
        self.cp * density * rev_per_s.powi(3) * diameter_m.powi(5)
    }

    /// Shaft torque `P/(2πn)`, N·m.
    ///
    /// ```
    /// use propwright_engine::models::propeller::Coefficients;
    /// // By hand: 58.28/(2π·100) = 0.0928 N·m.
    /// assert!((Coefficients { ct: 0.110, cp: 0.045 }.torque(1.225, 100.0, 0.254) - 0.0928).abs() < 0.00005);
    /// ```
    pub fn torque(&self, density: f64, rev_per_s: f64, diameter_m: f64) -> f64 {
        self.cp * density * rev_per_s.powi(2) * diameter_m.powi(5) / (2.0 * PI)
    }

    /// Figure of merit `CT^1.5/(√(π/2)·CP)`: ideal over real hover power; 0.31, 0.55, 0.72 at P5, P50, P95 of small ones.
    ///
    /// ```
    /// use propwright_engine::models::propeller::Coefficients;
    /// // By hand: 0.110^1.5/(1.2533·0.045) = 0.6469.
    /// assert!((Coefficients { ct: 0.110, cp: 0.045 }.figure_of_merit() - 0.6469).abs() < 0.00005);
    /// ```
    pub fn figure_of_merit(&self) -> f64 {
        self.ct.max(0.0).powf(1.5) / ((PI / 2.0).sqrt() * self.cp)
    }
}

/// Speed of a slip-free screw, pitch × n, m/s. No craft reaches it: thrust ends near it, drag long before.
///
/// ```
/// use propwright_engine::models::propeller::pitch_speed;
/// // By hand: 4.3·0.0254·25000/60 = 45.51 m/s.
/// assert!((pitch_speed(4.3 * 0.0254, 25_000.0 / 60.0) - 45.51).abs() < 0.005);
/// ```
pub fn pitch_speed(pitch_m: f64, rev_per_s: f64) -> f64 {
    pitch_m * rev_per_s
}

/// Speed of the blade tips `π·D·n`, m/s.
///
/// ```
/// use propwright_engine::models::propeller::tip_speed;
/// // By hand: π·5.1·0.0254·25000/60 = 169.6 m/s.
/// assert!((tip_speed(5.1 * 0.0254, 25_000.0 / 60.0) - 169.6).abs() < 0.05);
/// ```
pub fn tip_speed(diameter_m: f64, rev_per_s: f64) -> f64 {
    PI * diameter_m * rev_per_s
}

/// A propeller's size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Geometry {
    /// Diameter D, m.
    pub diameter_m: f64,
    /// Pitch P, m.
    pub pitch_m: f64,
    /// Blades B.
    pub blades: u32,
    /// Chord at 75 % radius, m, where it is known.
    pub chord_75_m: Option<f64>,
}

impl Geometry {
    /// A size in inches as propellers are named, chord unknown.
    ///
    /// ```
    /// use propwright_engine::models::propeller::Geometry;
    /// // By hand: 5.1 in are 129.54 mm, 4.3 in 109.22 mm.
    /// let size = Geometry::inches(5.1, 4.3, 3);
    /// assert!((size.diameter_m - 0.12954).abs() < 1e-9 && (size.pitch_m - 0.10922).abs() < 1e-9);
    /// ```
    pub fn inches(diameter: f64, pitch: f64, blades: u32) -> Self {
        Self { diameter_m: diameter * 0.0254, pitch_m: pitch * 0.0254, blades, chord_75_m: None }
    }

    /// Chord at 75 % radius, known or usual, m.
    ///
    /// ```
    /// use propwright_engine::models::propeller::Geometry;
    /// // By hand: 0.154·64.77 mm = 9.97 mm.
    /// assert!((Geometry::inches(5.1, 4.3, 3).chord_75() - 9.97e-3).abs() < 0.005e-3);
    /// ```
    pub fn chord_75(&self) -> f64 {
        self.chord_75_m.unwrap_or(USUAL_CHORD_75 * self.diameter_m / 2.0)
    }

    /// Reynolds number at 75 % radius, `ρ·0.75·π·n·D·c75/µ`.
    ///
    /// ```
    /// use propwright_engine::models::{atmosphere::Air, propeller::Geometry};
    /// // By hand, 400 rev/s: 1.225·0.75·π·400·0.12954·0.0099746/1.78938e-5 = 83 370.
    /// let re = Geometry::inches(5.1, 4.3, 3).reynolds_75(400.0, &Air::standard(0.0).unwrap());
    /// assert!((re - 83_370.0).abs() < 5.0);
    /// ```
    pub fn reynolds_75(&self, rev_per_s: f64, air: &Air) -> f64 {
        air.density * 0.75 * tip_speed(self.diameter_m, rev_per_s) * self.chord_75() / air.viscosity
    }

    /// Advance ratio at which the closed form stops pulling, J0.
    ///
    /// ```
    /// use propwright_engine::models::propeller::Geometry;
    /// // By hand: 0.178 + 0.920·4.3/5.1 = 0.9537.
    /// assert!((Geometry::inches(5.1, 4.3, 3).zero_thrust_advance() - 0.9537).abs() < 0.00005);
    /// ```
    pub fn zero_thrust_advance(&self) -> f64 {
        0.178 + 0.920 * self.pitch_m / self.diameter_m
    }

    /// Coefficients by the closed form of the module's head, isolated propeller.
    ///
    /// ```
    /// use propwright_engine::models::{atmosphere::Air, propeller::Geometry};
    /// // By hand, 400 rev/s: x = 0.8431, s = 1.5, Re5 = 0.8337, hence CT0 = 0.1583 and CP0 = 0.0833; half-way to J0 times 0.656 and 0.934.
    /// let (size, air) = (Geometry::inches(5.1, 4.3, 3), Air::standard(0.0).unwrap());
    /// let (rest, half) = (size.closed_form(400.0, 0.0, &air).unwrap(), size.closed_form(400.0, 0.47684, &air).unwrap());
    /// assert!((rest.ct - 0.1583).abs() < 0.00005 && (rest.cp - 0.0833).abs() < 0.00005);
    /// assert!((half.ct / rest.ct - 0.656).abs() < 0.0005 && (half.cp / rest.cp - 0.934).abs() < 0.0005);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of the size's, the advance ratio's or the tip speed's range.
    pub fn closed_form(&self, rev_per_s: f64, advance_ratio: f64, air: &Air) -> Result<Coefficients, ModelError> {
        self.check(rev_per_s, air)?;
        let j0 = self.zero_thrust_advance();
        in_range("advance ratio", advance_ratio, 0.0, HIGHEST_ADVANCE * j0)?;
        let (x, s) = (self.pitch_m / self.diameter_m, f64::from(self.blades) / 2.0);
        let re5 = self.reynolds_75(rev_per_s, air) / 1e5;
        let u = advance_ratio / j0;
        let ct0 = (-0.0162 + 0.2751 * x - 0.1169 * x * x) * s.powf(0.463) * re5.powf(0.061);
        let cp0 = (0.0086 + 0.0249 * x + 0.0517 * x * x) * s.powf(0.524) * re5.powf(-0.080);
        Ok(Coefficients {
            ct: ct0.max(0.0) * (1.0 - 0.376 * u - 0.624 * u * u),
            cp: cp0 * (1.0 + 0.718 * u - 2.011 * u * u + 0.624 * u * u * u),
        })
    }

    /// Whether the models hold for this size at this speed.
    pub(crate) fn check(&self, rev_per_s: f64, air: &Air) -> Result<(), ModelError> {
        let tip_mach = tip_speed(self.diameter_m, rev_per_s) / air.speed_of_sound;
        in_range("tip Mach number", tip_mach, f64::MIN_POSITIVE, HIGHEST_TIP_MACH * (1.0 + 1e-9))?;
        in_range("propeller diameter in m", self.diameter_m, 0.02, 1.0)?;
        in_range("pitch over diameter", self.pitch_m / self.diameter_m, 0.25, HIGHEST_PITCH)?;
        in_range("blades", f64::from(self.blades), 2.0, 8.0)?;
        in_range("chord at 75 % over radius", 2.0 * self.chord_75() / self.diameter_m, 0.05, 0.6)?;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::models::printed::assert_printed;

    fn sea_level() -> Air {
        Air::standard(0.0).unwrap()
    }

    #[test]
    fn definitions() {
        // Computed by hand from the definitions: CT .110, CP .045, 10 in, 100 rev/s, 1.225 kg/m³.
        let c = Coefficients { ct: 0.110, cp: 0.045 };
        assert_printed(c.thrust(1.225, 100.0, 0.254), "5.609");
        assert_printed(c.power(1.225, 100.0, 0.254), "58.28");
        assert_printed(c.torque(1.225, 100.0, 0.254), "0.0928");
        assert_printed(c.figure_of_merit(), "0.6469");
    }

    #[test]
    fn pitch_and_tip_speed() {
        // Geometry: 4.3 in pitch and 5.1 in diameter at 25000 rpm.
        let n = 25_000.0 / 60.0;
        assert_printed(pitch_speed(4.3 * 0.0254, n), "45.51");
        let tip = tip_speed(5.1 * 0.0254, n);
        assert_printed(tip, "169.6");
        assert_printed(tip / sea_level().speed_of_sound, "0.498");
    }

    #[test]
    fn thrust_is_nothing_at_the_zero_thrust_advance() {
        let size = Geometry::inches(5.1, 4.3, 3);
        let c = size.closed_form(400.0, size.zero_thrust_advance(), &sea_level()).unwrap();
        assert!(c.ct.abs() < 1e-12 && c.cp > 0.0);
    }

    #[test]
    fn outside_is_an_error() {
        let air = sea_level();
        assert!(Geometry::inches(5.0, 1.0, 3).closed_form(400.0, 0.0, &air).is_err());
        assert!(Geometry::inches(5.0, 4.0, 1).closed_form(400.0, 0.0, &air).is_err());
        assert!(Geometry::inches(5.0, 4.0, 3).closed_form(0.0, 0.0, &air).is_err());
        assert!(Geometry::inches(5.0, 4.0, 3).closed_form(400.0, -0.1, &air).is_err());
        assert!(Geometry::inches(5.0, 4.0, 3).closed_form(800.0, 0.0, &air).is_err());
    }
}
