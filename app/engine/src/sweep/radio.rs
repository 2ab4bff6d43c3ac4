//! Signal of control and video over the distance, above what the place's margin and the receiver ask.
//!
//! In free space a link of radius R has `20·log10(R/d)` dB to spare at d (ITU-R P.525). The horizon and the distance up to which
//! 60 % of the first Fresnel zone is clear of the ground (ITU-R P.526, *near ground*) stand beside it, as does the way that the
//! energy lasts.

use propwright_schema::quantity::{DB, Km, M, Unit};

use super::{Axis, Chart, Curve, Fence, Lack, Level, Point, Sample, Stretch, known};
use crate::{
    band::Band,
    derive::radio::{HEIGHTS_M, frequencies},
    finding::{Missing, Unknown},
    graph::Site,
    interval::Interval,
    models::radio::fresnel_clear,
};

/// Nearest distance that is shown, m, and how far beyond the farthest limit.
const NEAREST_M: f64 = 50.0;
const BEYOND: f64 = 1.6;
const STEPS: u32 = 48;

const LINKS: [(&str, &str, &str, Point); 2] = [
    ("radius-control", "control", "control near ground", Point::ControlEnds),
    ("radius-video", "video", "video near ground", Point::VideoEnds),
];

pub(super) fn chart(site: &Site) -> Result<Chart, Missing> {
    let nothing = || Missing { subject: None, what: Unknown::Outside("no link is chosen".to_owned()) };
    let links: Vec<_> =
        LINKS.iter().zip(frequencies(site)).filter_map(|(link, hz)| Some((link, hz, known(site, link.0)?))).collect();
    let horizon = known(site, "radius-horizon").ok_or_else(nothing)?.si();
    let energy = known(site, "radius-energy").map(|radius| radius.si());
    let farthest = links.iter().map(|(_, _, radius)| radius.si()).chain([horizon]).chain(energy).fold(1.0, f64::max) * BEYOND;
    if links.is_empty() {
        return Err(nothing());
    }
    let ends: Vec<f64> = links.iter().map(|(_, _, radius)| radius.si()).collect();
    let places = decades(NEAREST_M.min(farthest / 100.0), farthest, &ends);
    let curve = |title, radius: &Interval| {
        let samples = places.iter().map(|d| Sample { x: *d, y: left(radius, *d) }).collect();
        Curve { title, unit: &DB::INFO, samples }
    };
    let curves = links.iter().map(|((_, title, _, _), _, radius)| curve(*title, radius)).collect();
    let mut chart = Chart::of(Axis { title: "distance", unit: &Km::INFO, logarithmic: true }, curves);
    for (at, ((_, _, near, point), hz, radius)) in links.iter().enumerate() {
        chart.mark(*point, at, radius.si());
        let clear = hz.and_then(|hz| fresnel_clear(HEIGHTS_M[0], HEIGHTS_M[1], hz).ok());
        chart.fences.extend(clear.map(|x| Fence { title: near, x }));
    }
    chart.fences.extend(energy.map(|x| Fence { title: "energy ends", x }));
    chart.levels.push(Level { title: "margin of the place", curve: 0, y: 0.0 });
    chart.stretches.push(Stretch { lack: Lack::Infeasible, title: "below the horizon", from: horizon, to: farthest });
    let height = |metres| Interval::nearest(metres, &M::INFO);
    chart.stated.push(("height of the craft", height(HEIGHTS_M[0])));
    chart.stated.push(("height of the pilot's antenna", height(HEIGHTS_M[1])));
    Ok(chart)
}

/// What a link of that radius has to spare, dB.
fn left(radius: &Interval, distance: f64) -> Option<Band> {
    let spare = |steps: i64| 20.0 * (steps as f64 * radius.unit.si_per_step / distance).log10();
    Band::new(spare(radius.low), spare(radius.nominal), spare(radius.high)).ok()
}

/// Places in equal ratios, with the ends of the links among them.
fn decades(from: f64, to: f64, ends: &[f64]) -> Vec<f64> {
    let ratio = (to / from).ln() / f64::from(STEPS);
    let mut places: Vec<f64> = (0..=STEPS).map(|at| from * (ratio * f64::from(at)).exp()).collect();
    places.extend(ends);
    places.sort_by(f64::total_cmp);
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn twice_the_distance_takes_six_decibels() {
        // 20·log10(2) = 6.02 dB, by hand.
        let radius = Interval::outward(800.0, 1000.0, 1250.0, &Km::INFO);
        let spare = |d| left(&radius, d).unwrap();
        assert!((spare(500.0).nominal() - 6.02).abs() < 0.005);
        assert!(spare(1000.0).nominal().abs() < 1e-9);
        assert!(spare(1000.0).low() < 0.0 && spare(1000.0).high() > 0.0);
    }
}
