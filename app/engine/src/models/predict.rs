//! A propeller's coefficients, thrust and power with their bands, by what is known of it.
//!
//! Closed form by size alone; blade elements where the chord at 75 % radius is known; on a craft the installation correction of
//! [`super::installation`], alone in a wind tunnel without it. One standard deviation, as a share of the static value: by size 16
//! % of CT and 18 % of CP, with the chord 12 and 18 %, with one measured static point 5 and 5 %; the installation adds 5 %. At
//! rest the band is `nominal·exp(±1.645·s)`, in a stream the same widths of the static value lie about the nominal.
//!
//! With the chord known, the angle of the blade is told apart from the rest: `s² = s_rest² + (s_β·∂C/∂β/C_still)²`, `s_rest` 8.9 and 14.2 %,
//! `s_β` 1.2° the spread of the measured angle at 75 % radius about that of the named pitch, over the 11 blades of [`super::bem`]'s
//! reference. A degree weighs on a flat blade and in a stream, hardly on a stalled one at rest; the median state keeps 12 and 18 %. The
//! error of a propeller is one that its states share (section, angle, make), not scatter: they lie within their bands together, or out.
//!
//! Valid where those models are. Source: errors on propellers outside of the fit, see [`super::propeller`] and [`super::bem`];
//! propagation as in [`crate::band`]. Propellers cut: stand aside of their plane.

use std::f64::consts::PI;

use super::atmosphere::Air;
use super::bem;
use super::error::{ModelError, in_range};
use super::installation::Calibration;
use super::propeller::{Coefficients, Geometry, HIGHEST_PITCH};
use crate::band::Band;

/// How well a propeller is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Knowledge {
    /// Diameter, pitch and blades.
    Size,
    /// The chord at 75 % radius too.
    Chord,
    /// One measured static point.
    StaticPoint,
}

/// Log spread of the installation correction.
pub const INSTALLATION_SIGMA: f64 = 0.05;
/// Spread of a blade's angle at 75 % radius about that of its named pitch, rad: 1.2° over 11 blades of the UIUC Propeller Database.
const ANGLE_SIGMA: f64 = 1.2 * PI / 180.0;
/// Spread of CT and CP with the chord known, the blade's angle told apart: what is left of 12 and 18 % in squares at the median state.
const BESIDES_ANGLE: [f64; 2] = [0.089, 0.142];
/// Step of the slope by the blade's angle, rad.
const ANGLE_STEP: f64 = 0.5 * PI / 180.0;

impl Knowledge {
    /// One standard deviation of CT and CP of the propeller alone, over its states.
    ///
    /// ```
    /// use propwright_engine::models::predict::Knowledge;
    /// // P95 of CT lies exp(1.645·0.12) = 1.218 times above the nominal once the chord is known, at the median state.
    /// assert!(((1.645 * Knowledge::Chord.sigmas()[0]).exp() - 1.218).abs() < 0.0005);
    /// ```
    pub const fn sigmas(self) -> [f64; 2] {
        match self {
            Self::Size => [0.16, 0.18],
            Self::Chord => [0.12, 0.18],
            Self::StaticPoint => [0.05, 0.05],
        }
    }

    /// The same of the propeller on a craft.
    ///
    /// ```
    /// use propwright_engine::models::predict::Knowledge;
    /// // By hand: √(0.12² + 0.05²) = 0.13 and √(0.18² + 0.05²) = 0.1868.
    /// let [ct, cp] = Knowledge::Chord.installed_sigmas();
    /// assert!((ct - 0.13).abs() < 1e-12 && (cp - 0.1868).abs() < 0.00005);
    /// ```
    pub fn installed_sigmas(self) -> [f64; 2] {
        self.sigmas().map(|sigma| sigma.hypot(INSTALLATION_SIGMA))
    }
}

/// A state that is asked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    /// Size, and the chord where it is known.
    pub geometry: Geometry,
    /// Rotor speed, rev/s.
    pub rev_per_s: f64,
    /// Air density, kg/m³; viscosity and speed of sound are those of 15 °C.
    pub density: f64,
    /// Alone in the stream, as in a wind tunnel.
    pub isolated: bool,
}

/// One state of a propeller.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Advance ratio J.
    pub advance_ratio: f64,
    /// Thrust coefficient.
    pub ct: Band,
    /// Power coefficient.
    pub cp: Band,
    /// Thrust, N.
    pub thrust_n: Band,
    /// Shaft power, W.
    pub power_w: Band,
}

/// The propeller at each advance ratio.
///
/// ```
/// use propwright_engine::models::{predict::{Asked, propeller}, propeller::Geometry};
/// let asked = Asked { geometry: Geometry::inches(5.1, 4.3, 3), rev_per_s: 400.0, density: 1.225, isolated: false };
/// let [still] = propeller(&asked, &[0.0]).unwrap()[..] else { panic!() };
/// // 1.645 × √(16² + 5²) % either way of CT and of the thrust.
/// assert!((still.thrust_n.high() / still.thrust_n.nominal() - (1.645_f64 * 0.16763).exp()).abs() < 1e-4);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] outside of the size's, the tip speed's, the advance ratio's or the density's range.
pub fn propeller(asked: &Asked, advance_ratios: &[f64]) -> Result<Vec<Point>, ModelError> {
    let air = Air { density: in_range("air density in kg/m³", asked.density, 0.2, 2.0)?, ..Air::standard(0.0)? };
    let still = coefficients(asked, 0.0, &air)?;
    advance_ratios
        .iter()
        .map(|advance_ratio| {
            let c = coefficients(asked, *advance_ratio, &air)?;
            let sigmas = sigmas(asked, *advance_ratio, (&c, &still), &air)?;
            let ct = about(c.ct, still.ct, sigmas[0])?;
            let cp = about(c.cp, still.cp, sigmas[1])?;
            let unit = Coefficients { ct: 1.0, cp: 1.0 };
            let (n, diameter) = (asked.rev_per_s, asked.geometry.diameter_m);
            Ok(Point {
                advance_ratio: *advance_ratio,
                ct,
                cp,
                thrust_n: scaled(&ct, unit.thrust(air.density, n, diameter))?,
                power_w: scaled(&cp, unit.power(air.density, n, diameter))?,
            })
        })
        .collect()
}

/// One standard deviation of CT and CP at a state, as shares of the static values.
fn sigmas(
    asked: &Asked,
    advance_ratio: f64,
    (here, still): (&Coefficients, &Coefficients),
    air: &Air,
) -> Result<[f64; 2], ModelError> {
    let alone = if asked.geometry.chord_75_m.is_some() {
        let (turned, step) = turned(&asked.geometry);
        let there = coefficients(&Asked { geometry: turned, ..*asked }, advance_ratio, air)?;
        let by_angle = |there: f64, here: f64, still: f64| ANGLE_SIGMA * (there - here) / (step * still);
        [
            BESIDES_ANGLE[0].hypot(by_angle(there.ct, here.ct, still.ct)),
            BESIDES_ANGLE[1].hypot(by_angle(there.cp, here.cp, still.cp)),
        ]
    } else {
        Knowledge::Size.sigmas()
    };
    Ok(if asked.isolated { alone } else { alone.map(|sigma| sigma.hypot(INSTALLATION_SIGMA)) })
}

/// The same propeller with its blades a step steeper at 75 % radius, or flatter where the models end, and the step in rad.
fn turned(geometry: &Geometry) -> (Geometry, f64) {
    let round = 0.75 * PI * geometry.diameter_m;
    let angle = geometry.pitch_m.atan2(round);
    let pitch = |step: f64| Geometry { pitch_m: round * (angle + step).tan(), ..*geometry };
    let steeper = pitch(ANGLE_STEP);
    if steeper.pitch_m <= HIGHEST_PITCH * geometry.diameter_m { (steeper, ANGLE_STEP) } else { (pitch(-ANGLE_STEP), -ANGLE_STEP) }
}

fn coefficients(asked: &Asked, advance_ratio: f64, air: &Air) -> Result<Coefficients, ModelError> {
    let (geometry, n) = (&asked.geometry, asked.rev_per_s);
    let calibration = if asked.isolated { Calibration::ISOLATED } else { Calibration::installed(geometry.diameter_m) };
    let of_model = advance_ratio / calibration.advance;
    let bare = match geometry.chord_75_m {
        Some(_) => bem::coefficients(geometry, n, of_model, air)?,
        None => geometry.closed_form(n, of_model, air)?,
    };
    Ok(Coefficients { ct: bare.ct * calibration.thrust, cp: bare.cp * calibration.power })
}

/// The band about a figure, as wide as the static value's.
fn about(figure: f64, still: f64, sigma: f64) -> Result<Band, ModelError> {
    let strange = |_| ModelError::OutOfRange { quantity: "coefficient", value: figure, low: f64::MIN, high: f64::MAX };
    let at_rest = Band::from_log_sigma(still, sigma).map_err(strange)?;
    let moved = figure - still;
    Band::new(at_rest.low() + moved, figure, at_rest.high() + moved).map_err(strange)
}

fn scaled(band: &Band, factor: f64) -> Result<Band, ModelError> {
    band.scaled(factor).map_err(|_| ModelError::OutOfRange { quantity: "scale", value: factor, low: 0.0, high: f64::MAX })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(chord_75_m: Option<f64>, isolated: bool) -> Asked {
        let geometry = Geometry { chord_75_m, ..Geometry::inches(5.0, 3.75, 2) };
        Asked { geometry, rev_per_s: 4513.0 / 60.0, density: 1.225, isolated }
    }

    #[test]
    fn a_measured_propeller_lies_within_its_band() {
        // Measured, UIUC Propeller Database, DA4002 5 × 3.75 at 4513 rpm: CT 0.1251 at rest.
        for chord in [None, Some(0.1804 * 0.0635)] {
            let point = propeller(&asked(chord, true), &[0.0]).unwrap()[0];
            let known = point.ct.low() < 0.1251 && 0.1251 < point.ct.high();
            assert!(known || chord.is_none(), "{point:?}");
        }
    }

    #[test]
    fn tiers_are_as_wide_as_they_are_said_to_be() {
        // One standard deviation of CT: 16 % by size. With the chord √(8.9² + (1.2°·∂CT/∂β)²), the slope of the same equations solved
        // apart: 9.47 % at rest and 11.53 % at J 0.4; on a craft 5 % more in squares.
        let sigma = |asked: &Asked, advance: f64| {
            let points = propeller(asked, &[0.0, advance]).unwrap();
            ((points[1].ct.high() - points[1].ct.nominal()) / points[0].ct.nominal()).ln_1p() / 1.645
        };
        let chord = Some(0.1804 * 0.0635);
        assert!((sigma(&asked(None, true), 0.0) - 0.16).abs() < 1e-9);
        assert!((sigma(&asked(chord, true), 0.0) - 0.0947).abs() < 1e-4);
        assert!((sigma(&asked(chord, true), 0.4) - 0.1153).abs() < 1e-4);
        assert!((sigma(&asked(chord, false), 0.0) - 0.1071).abs() < 1e-4);
    }

    #[test]
    fn a_degree_weighs_on_flat_blades() {
        let spread = |pitch: f64| {
            let geometry = Geometry { chord_75_m: Some(0.0115), ..Geometry::inches(5.0, pitch, 2) };
            let still = propeller(&Asked { geometry, ..asked(None, true) }, &[0.0]).unwrap()[0].ct;
            still.high() / still.nominal()
        };
        assert!(spread(1.58) > spread(3.75) && spread(3.75) > spread(4.92));
        assert!(spread(1.25).is_finite() && spread(7.0).is_finite(), "to the ends of the models");
    }

    #[test]
    fn a_stream_keeps_the_width_of_the_static_value() {
        let points = propeller(&asked(None, false), &[0.0, 0.3, 0.6]).unwrap();
        let width = |point: &Point| point.ct.high() - point.ct.low();
        assert!((width(&points[2]) - width(&points[0])).abs() < 1e-12);
        assert!(points[2].ct.nominal() < points[1].ct.nominal() && points[1].ct.nominal() < points[0].ct.nominal());
    }

    #[test]
    fn installation_takes_its_share() {
        let ct = |isolated| propeller(&asked(None, isolated), &[0.0]).unwrap()[0].ct.nominal();
        assert!((ct(false) / ct(true) - 0.81).abs() < 1e-12);
    }

    #[test]
    fn outside_is_an_error() {
        assert!(propeller(&Asked { density: 5.0, ..asked(None, true) }, &[0.0]).is_err());
        assert!(propeller(&asked(None, true), &[-0.1]).is_err());
        assert!(propeller(&asked(None, true), &[2.0]).is_err());
        assert!(propeller(&asked(None, true), &[]).unwrap().is_empty());
    }
}
