//! A blade that is known by diameter, pitch and blade count alone: its twist, its chord and how its sections pull.
//!
//! Twist `β = atan(P/(2π·r))` of a true-pitch screw. Chord from a shape that is common to small propellers, scaled by
//! the one at 75 % radius. The section's polar is an effective one, a fit and no physical section:
//! `cl = 5.52·(Re/1e5)^0.018·(α + 3.5°)` up to a stall at `cl = 1.68`, blended over 0.0385 rad into the force of a flat
//! plate, `cn = 1.9·2·sinα` (a plate's 2·sinα times 1.9 for the blade's rotation);
//! `cd = 0.026·(Re/1e5)^−0.5 + 0.0733·(cl − cl_ref)²` before the stall, `cl_ref` the lift at α = 0 and 0.1 more. Blades of one
//! propeller hamper each other: solidity × (2/B)^0.3. Source: own fit to public wind-tunnel figures of small propellers. The
//! exponent of the drag is that of a laminar flat plate, cf = 1.328·Re^−0.5 on each side (H. Blasius, 1908), and its level at 1e5
//! three times that of both sides, as moulded sections of 6 to 12 % have it there (from memory: 0.015 to 0.03); rotation holds up the lift
//! of stalled sections by a factor of 1.5 to 2 and more inboard (H. Himmelskamp, 1945; H. Snel, 1991; from memory).

use std::f64::consts::PI;

use super::error::ModelError;
use super::pchip::Curve;
use super::propeller::Geometry;

/// Share of the radius at which the blade begins.
pub(crate) const ROOT_SHARE: f64 = 0.15;
/// Chord over the chord at 75 % radius, by share of the radius.
const SHAPE: Curve<13> = Curve::through(
    [0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.7, 0.75, 0.8, 0.9, 0.95, 1.0],
    [1.033, 1.041, 1.058, 1.082, 1.125, 1.142, 1.135, 1.06, 1.0, 0.923, 0.724, 0.528, 0.283],
);

const LIFT_SLOPE: f64 = 5.52;
/// Angle of no lift, rad: −3.5°.
pub(crate) const NO_LIFT: f64 = -3.5 * PI / 180.0;
const HIGHEST_LIFT: f64 = 1.68;
const STALL_WIDTH: f64 = 0.0385;
/// Force of a stalled section over that of a plate.
pub(crate) const POST_STALL: f64 = 1.9;
const DRAG_AT_RE5: f64 = 0.026;
/// Blasius: laminar friction of a flat plate.
const DRAG_EXPONENT: f64 = -0.5;
const DRAG_WITH_LIFT: f64 = 0.0733;
/// Lift of the least drag over that at no incidence.
const LEAST_DRAG_ABOVE: f64 = 0.1;

/// A piece of blade between two radii.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Station {
    /// Radius of its middle r, m.
    pub(crate) radius: f64,
    /// Its length along the blade, m.
    pub(crate) width: f64,
    /// Chord of the blade, m.
    pub(crate) chord: f64,
    /// Chord that loads the stream, m: less than [`Self::chord`] with more than two blades.
    pub(crate) loading_chord: f64,
    /// Twist β, rad.
    pub(crate) twist: f64,
}

/// The blade cut into `count` pieces of equal length from root to tip.
///
/// # Errors
/// None in effect: the radii lie in the shape's table.
pub(crate) fn stations(geometry: &Geometry, count: u32) -> Result<Vec<Station>, ModelError> {
    let tip = geometry.diameter_m / 2.0;
    let hampered = (2.0 / f64::from(geometry.blades)).powf(0.3);
    let width_share = (1.0 - ROOT_SHARE) / f64::from(count);
    (0..count)
        .map(|i| {
            let share = ROOT_SHARE + width_share * (f64::from(i) + 0.5);
            let chord = geometry.chord_75() * SHAPE.at(share)?;
            let radius = share * tip;
            Ok(Station {
                radius,
                width: width_share * tip,
                chord,
                loading_chord: chord * hampered,
                twist: geometry.pitch_m.atan2(2.0 * PI * radius),
            })
        })
        .collect()
}

/// Lift and drag coefficient of a section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Section {
    /// Lift coefficient.
    pub(crate) cl: f64,
    /// Drag coefficient.
    pub(crate) cd: f64,
}

/// The effective polar at an incidence in rad and a Reynolds number by chord; stalled it pulls `post_stall` times what a plate does.
pub(crate) fn section(incidence: f64, reynolds: f64, post_stall: f64) -> Section {
    let re5 = reynolds / 1e5;
    let slope = LIFT_SLOPE * re5.powf(0.018);
    let attached = slope * (incidence - NO_LIFT);
    let beyond = (incidence - NO_LIFT).abs() - HIGHEST_LIFT / slope;
    let stalled = 1.0 / (1.0 + (-beyond / STALL_WIDTH).exp());
    let of_least_drag = LEAST_DRAG_ABOVE - slope * NO_LIFT;
    let (sin, cos) = incidence.sin_cos();
    let plate = post_stall * 2.0 * sin;
    Section {
        cl: (1.0 - stalled) * attached + stalled * plate * cos,
        cd: DRAG_AT_RE5 * re5.powf(DRAG_EXPONENT)
            + (1.0 - stalled) * DRAG_WITH_LIFT * (attached - of_least_drag).powi(2)
            + stalled * plate * sin,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_lift_at_its_angle_and_the_slope_beside_it() {
        // The fit's own constants: −3.5°, 5.52/rad at Re 1e5; the blend into the stall takes less than 1 % there.
        let none = section(NO_LIFT, 1e5, POST_STALL);
        assert!(none.cl.abs() < 0.01);
        let slope = (section(0.05, 1e5, POST_STALL).cl - section(0.0, 1e5, POST_STALL).cl) / 0.05;
        assert!((slope / LIFT_SLOPE - 1.0).abs() < 0.03, "{slope}");
    }

    #[test]
    fn lift_falls_and_drag_rises_past_the_stall() {
        let (before, past) = (section(12_f64.to_radians(), 1e5, POST_STALL), section(17_f64.to_radians(), 1e5, POST_STALL));
        assert!(past.cl < before.cl && past.cd > 2.0 * before.cd, "{before:?} {past:?}");
    }

    #[test]
    fn a_true_screw_has_the_pitch_everywhere() {
        for station in stations(&Geometry::inches(5.0, 4.0, 3), 20).unwrap() {
            assert!((2.0 * PI * station.radius * station.twist.tan() / (4.0 * 0.0254) - 1.0).abs() < 1e-12);
        }
    }
}
