//! Propeller coefficients from the blade itself, by blade elements in a momentum balance; valid from hover up.
//!
//! At each station the inflow angle φ solves `Vy·sinφ·(1 − k) − Vx·cosφ·(1 + k') = 0` with `k = cn·σ'/(4F·sin²φ)`,
//! `k' = ct·σ'/(4F·sinφ·cosφ)`, `cn = cl·cosφ − cd·sinφ`, `ct = cl·sinφ + cd·cosφ`, σ' = B·c/(2πr), Vx the axial and
//! Vy = Ω·r the rotational stream in m/s, F Prandtl's tip and hub loss. The highest φ with a change of sign is taken.
//! `dT = B·½ρW²·c·cn·dr`, `dQ = B·½ρW²·c·ct·r·dr`, `W = Vy/((1 + k')·cosφ)`. Source: S.A. Ning, "A simple solution
//! method for the blade element momentum equations with guaranteed convergence", Wind Energy 17 (2014), and "Using
//! blade element momentum methods with gradient-based design optimization", SMO 64 (2021). Deviation: Vx = 0 needs no case
//! of its own, W is taken from the rotational stream. Validity as [`super::propeller`]; windmilling is left out. An
//! isolated propeller; installation is a correction of its own.
//!
//! Measured error on 15 research propellers of the UIUC Propeller Database, as shares of the static value, P68/P90: with
//! the chord at 75 % radius known, propeller by propeller, static CT 8/10 %, CP 10/18 % (4 % too low on average); over every speed
//! alone 8/15 and 12/20 %, over J 7/16 and 11/20 %; by size alone static CT 26/31 %, CP 28/42 %, since those blades are wider or
//! narrower than usual. What is left goes by family and size: CP −11 to +18 %.

use std::f64::consts::{FRAC_PI_2, PI};

use super::atmosphere::Air;
use super::blade::{NO_LIFT, POST_STALL, ROOT_SHARE, Section, Station, section, stations};
use super::bracket;
use super::error::{ModelError, in_range};
use super::pchip::Curve;
use super::propeller::{Coefficients, Geometry, tip_speed};

/// Pieces into which a blade is cut.
const STATIONS: u32 = 20;
/// Angles that are tried between π/2 and 0.
const SCAN: u32 = 60;
/// How far above the angles of no lift and of the undisturbed stream the scan begins, rad.
const ABOVE: f64 = 0.1;
/// Distance from 0 and π/2 at which the scan ends, rad.
const EDGE: f64 = 1e-4;
/// Advance ratios of a table.
const ROWS: usize = 20;
/// Tip speed at which a table is computed, m/s; other speeds follow by Reynolds number.
const TABLE_TIP_SPEED: f64 = 150.0;
/// Share of the zero-thrust advance ratio at which a table ends.
pub(crate) const HIGHEST_ADVANCE: f64 = 1.05;

/// What a station meets: everything but the angle.
struct Stream<'a> {
    station: &'a Station,
    blades: f64,
    tip: f64,
    axial: f64,
    rotational: f64,
    reynolds: f64,
    post_stall: f64,
}

/// Force coefficients across and along the disc, and the induction of both.
struct Loads {
    normal: f64,
    tangential: f64,
    k: f64,
    k_prime: f64,
}

impl Stream<'_> {
    fn loads(&self, phi: f64) -> Loads {
        let (sin, cos) = phi.sin_cos();
        let Section { cl, cd } = section(self.station.twist - phi, self.reynolds, self.post_stall);
        let normal = cl * cos - cd * sin;
        let tangential = cl * sin + cd * cos;
        let solidity = self.blades * self.station.loading_chord / (2.0 * PI * self.station.radius);
        let loss = self.loss(sin);
        Loads {
            normal,
            tangential,
            k: normal * solidity / (4.0 * loss * sin * sin),
            k_prime: tangential * solidity / (4.0 * loss * sin * cos),
        }
    }

    fn loss(&self, sin: f64) -> f64 {
        let (r, hub) = (self.station.radius, ROOT_SHARE * self.tip);
        let part = |gap: f64, from: f64| 2.0 / PI * (-self.blades / 2.0 * gap / (from * sin)).exp().acos();
        part(self.tip - r, r) * part(r - hub, hub)
    }

    fn residual(&self, phi: f64) -> f64 {
        let loads = self.loads(phi);
        let (sin, cos) = phi.sin_cos();
        self.rotational * sin * (1.0 - loads.k) - self.axial * cos * (1.0 + loads.k_prime)
    }

    /// Inflow angle φ, rad.
    ///
    /// Above the angle of no lift, and above that of the undisturbed stream, a section pushes the stream back and the residual is
    /// positive: the scan begins a little above both.
    fn angle(&self) -> Result<f64, ModelError> {
        let step = (FRAC_PI_2 - 2.0 * EDGE) / f64::from(SCAN);
        let lifeless = (self.station.twist - NO_LIFT).max(self.axial.atan2(self.rotational));
        let start = (lifeless + ABOVE).min(FRAC_PI_2 - EDGE);
        let mut above = start;
        let mut at_above = self.residual(above);
        while above > EDGE {
            let below = (above - step).max(EDGE);
            let at_below = self.residual(below);
            if at_above * at_below <= 0.0 {
                return bracket::root(below, above, |phi| Ok(self.residual(phi)));
            }
            (above, at_above) = (below, at_below);
        }
        Err(ModelError::NoBracket { low: EDGE, high: start })
    }
}

/// Coefficients of an isolated propeller at a speed in rev/s and an advance ratio.
///
/// ```
/// use propwright_engine::models::{atmosphere::Air, bem, propeller::Geometry};
/// let air = Air::standard(0.0).unwrap();
/// let size = Geometry { chord_75_m: Some(0.1804 * 0.0635), ..Geometry::inches(5.0, 3.75, 2) };
/// // Measured, UIUC Propeller Database, DA4002 5 × 3.75 at 4513 rpm: CT 0.1251.
/// let c = bem::coefficients(&size, 4513.0 / 60.0, 0.0, &air).unwrap();
/// assert!((c.ct / 0.1251 - 1.0).abs() < 0.05);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] outside of the size's or tip speed's range of [`super::propeller`] or for an advance ratio
/// outside of 0 to 3; [`ModelError::NoBracket`] when a station has no inflow angle.
pub fn coefficients(geometry: &Geometry, rev_per_s: f64, advance_ratio: f64, air: &Air) -> Result<Coefficients, ModelError> {
    stalling(POST_STALL, geometry, rev_per_s, advance_ratio, air)
}

/// The same with another force of stalled sections, as a multiple of a plate's: by this the fit is tried on propellers left out of it.
///
/// ```
/// use propwright_engine::models::{atmosphere::Air, bem, propeller::Geometry};
/// let (air, steep) = (Air::standard(0.0).unwrap(), Geometry::inches(5.0, 4.92, 2));
/// // Blades of that pitch stall at rest: a tenth more of the stalled force is a few per cent more thrust.
/// let [less, more] = [1.9, 2.09].map(|stalled| bem::stalling(stalled, &steep, 75.0, 0.0, &air).unwrap().ct);
/// assert!((1.01..1.10).contains(&(more / less)), "{}", more / less);
/// ```
///
/// # Errors
/// As [`coefficients`].
pub fn stalling(
    post_stall: f64,
    geometry: &Geometry,
    rev_per_s: f64,
    advance_ratio: f64,
    air: &Air,
) -> Result<Coefficients, ModelError> {
    geometry.check(rev_per_s, air)?;
    let axial = in_range("advance ratio", advance_ratio, 0.0, 3.0)? * rev_per_s * geometry.diameter_m;
    let blades = f64::from(geometry.blades);
    let (mut thrust, mut torque) = (0.0, 0.0);
    for station in &stations(geometry, STATIONS)? {
        let rotational = 2.0 * PI * rev_per_s * station.radius;
        let stream = Stream {
            station,
            blades,
            tip: geometry.diameter_m / 2.0,
            axial,
            rotational,
            post_stall,
            reynolds: air.density * axial.hypot(rotational) * station.chord / air.viscosity,
        };
        let phi = stream.angle()?;
        let loads = stream.loads(phi);
        let resultant = rotational / ((1.0 + loads.k_prime) * phi.cos());
        let pressure = 0.5 * air.density * resultant * resultant;
        let area = blades * station.loading_chord * station.width;
        thrust += pressure * area * loads.normal;
        torque += pressure * area * loads.tangential * station.radius;
    }
    let unit = Coefficients { ct: 1.0, cp: 1.0 };
    Ok(Coefficients {
        ct: thrust / unit.thrust(air.density, rev_per_s, geometry.diameter_m),
        cp: torque / unit.torque(air.density, rev_per_s, geometry.diameter_m),
    })
}

/// A propeller's coefficients over advance ratio, computed once.
///
/// Between its 20 rows a monotone cubic (0.04 %); other speeds by `CT ∝ Re^.061`, `CP ∝ Re^−.080` as in the closed form.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AdvanceTable {
    ct: Curve<ROWS>,
    cp: Curve<ROWS>,
    reynolds_75: f64,
    zero_thrust: f64,
}

impl AdvanceTable {
    /// The table of an isolated propeller.
    ///
    /// ```
    /// use propwright_engine::models::{atmosphere::Air, bem::AdvanceTable, propeller::Geometry};
    /// let size = Geometry { chord_75_m: Some(0.1804 * 0.0635), ..Geometry::inches(5.0, 3.75, 2) };
    /// let table = AdvanceTable::compute(&size, &Air::standard(0.0).unwrap()).unwrap();
    /// // Measured, UIUC Propeller Database, DA4002 5 × 3.75 at 6045 rpm: CT 0.004944 at J 0.8526, −0.004916 at 0.8955, so none at 0.874.
    /// assert!((table.zero_thrust_advance() / 0.874 - 1.0).abs() < 0.02);
    /// ```
    ///
    /// # Errors
    /// As [`coefficients`].
    pub fn compute(geometry: &Geometry, air: &Air) -> Result<Self, ModelError> {
        let rev_per_s = TABLE_TIP_SPEED / tip_speed(geometry.diameter_m, 1.0);
        let highest = 0.5 + 1.5 * geometry.pitch_m / geometry.diameter_m;
        let zero_thrust = bracket::root(0.0, highest, |advance| Ok(coefficients(geometry, rev_per_s, advance, air)?.ct))?;
        let (mut advance, mut ct, mut cp) = ([0.0; ROWS], [0.0; ROWS], [0.0; ROWS]);
        for i in 0..ROWS {
            advance[i] = zero_thrust * HIGHEST_ADVANCE * i as f64 / (ROWS - 1) as f64;
            let c = coefficients(geometry, rev_per_s, advance[i], air)?;
            (ct[i], cp[i]) = (c.ct, c.cp);
        }
        let reynolds_75 = geometry.reynolds_75(rev_per_s, air);
        Ok(Self { ct: Curve::through(advance, ct), cp: Curve::through(advance, cp), reynolds_75, zero_thrust })
    }

    /// Advance ratio at which the propeller stops pulling.
    ///
    /// ```
    /// use propwright_engine::models::{atmosphere::Air, bem::AdvanceTable, propeller::Geometry};
    /// let size = Geometry { chord_75_m: Some(0.1804 * 0.0635), ..Geometry::inches(5.0, 3.75, 2) };
    /// let table = AdvanceTable::compute(&size, &Air::standard(0.0).unwrap()).unwrap();
    /// // The same equations solved apart: CT is 0 at J = 0.8858.
    /// assert!((table.zero_thrust_advance() - 0.8858).abs() < 0.0005);
    /// ```
    pub fn zero_thrust_advance(&self) -> f64 {
        self.zero_thrust
    }

    /// Coefficients at an advance ratio and a Reynolds number at 75 % radius.
    ///
    /// ```
    /// use propwright_engine::models::{atmosphere::Air, bem::AdvanceTable, propeller::Geometry};
    /// let size = Geometry { chord_75_m: Some(0.1804 * 0.0635), ..Geometry::inches(5.0, 3.75, 2) };
    /// let table = AdvanceTable::compute(&size, &Air::standard(0.0).unwrap()).unwrap();
    /// // The same equations solved apart, J 0.4 at a tip speed of 150 m/s, Re75 88 230: CT 0.0953, CP 0.0656; at half that Re CT·0.9586, CP·1.057.
    /// let (whole, half) = (table.at(0.4, 88_230.0).unwrap(), table.at(0.4, 44_115.0).unwrap());
    /// assert!((whole.ct - 0.0953).abs() < 0.0001 && (whole.cp - 0.0656).abs() < 0.0001);
    /// assert!((half.ct - 0.0914).abs() < 0.0001 && (half.cp - 0.0694).abs() < 0.0001);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] below 0 or above 1.05 of the zero-thrust advance ratio.
    pub fn at(&self, advance_ratio: f64, reynolds_75: f64) -> Result<Coefficients, ModelError> {
        let re = reynolds_75 / self.reynolds_75;
        Ok(Coefficients { ct: self.ct.at(advance_ratio)? * re.powf(0.061), cp: self.cp.at(advance_ratio)? * re.powf(-0.080) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn sea_level() -> Air {
        Air::standard(0.0).unwrap()
    }

    #[test]
    fn a_table_meets_the_solve() {
        let size = Geometry::inches(5.1, 4.3, 3);
        let table = AdvanceTable::compute(&size, &sea_level()).unwrap();
        let n = TABLE_TIP_SPEED / tip_speed(size.diameter_m, 1.0);
        let still = coefficients(&size, n, 0.0, &sea_level()).unwrap();
        for i in 0_u32..40 {
            let advance = table.zero_thrust * f64::from(i) / 40.0;
            let solved = coefficients(&size, n, advance, &sea_level()).unwrap();
            let read = table.at(advance, size.reynolds_75(n, &sea_level())).unwrap();
            // The interpolation's stated error, 0.04 %, of the static value.
            assert!((read.ct - solved.ct).abs() < 4e-4 * still.ct, "{advance} {read:?} {solved:?}");
            assert!((read.cp - solved.cp).abs() < 4e-4 * still.cp, "{advance} {read:?} {solved:?}");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]
        #[test]
        fn a_propeller_is_computed_over_its_whole_range(
            diameter in 1.0..30.0_f64, share in 0.25..1.4_f64, blades in 2..9_u32, chord in 0.08..0.4_f64,
        ) {
            let plain = Geometry::inches(diameter, diameter * share, blades.min(8));
            let size = Geometry { chord_75_m: Some(chord * plain.diameter_m / 2.0), ..plain };
            let table = AdvanceTable::compute(&size, &sea_level());
            prop_assert!(table.is_ok(), "{size:?} {table:?}");
            let table = table.unwrap();
            for i in 0..ROWS {
                let c = table.at(table.zero_thrust * i as f64 / ROWS as f64, table.reynolds_75).unwrap();
                prop_assert!(c.ct.is_finite() && c.cp.is_finite());
            }
            let hover = table.at(0.0, table.reynolds_75).unwrap();
            prop_assert!(hover.ct > 0.0 && hover.figure_of_merit() < 1.0, "{hover:?}");
        }
    }
}
