//! Thrust and current over the throttle, taken as the duty of the speed controllers.
//!
//! A stick position is not a duty: the radio's curve, idle speed and output limit lie between.

use propwright_schema::quantity::{A, Pct, Unit, UnitInfo};

use super::{Axis, Chart, Curve, Fence, Lack, Level, Point, Sample, Stretch, curve, known};
use crate::{
    band::Band,
    derive::Flown,
    finding::Missing,
    graph::Site,
    models::{atmosphere::GRAVITY, cruise::Craft, error::ModelError},
};

/// Thrust as scales show it, in grams-force.
pub(super) const GF: UnitInfo =
    UnitInfo { symbol: "gf", suffix: "_gf", dimension: "force", steps: 1000, si_per_step: GRAVITY * 1e-6 };

/// Lowest duty that is shown.
const IDLE: f64 = 0.05;
const STEPS: u32 = 38;
/// Rotor speed up to which the propeller models were measured, rev/s (10 500 rpm).
const MEASURED: f64 = 175.0;

const THRUST: usize = 0;
const CURRENT: usize = 1;
const AT_LANDING: usize = 2;

pub(super) fn chart(site: &Site) -> Result<Chart, Missing> {
    let flown = Flown::hovering(site)?;
    let (air, limit) = (flown.air(), flown.limit());
    let duty = |id| known(site, id).map(|duty| duty.si());
    let marked: Vec<f64> = duty("hover-duty").into_iter().chain([limit]).collect();
    let places = curve::places(IDLE, limit, STEPS, &marked);
    let state = |craft: &Craft, charge: f64, duty: f64| {
        let point = craft.powertrain.operating_point(air, charge, duty)?;
        Ok([point.thrust_n * rotors(craft), point.battery_a])
    };
    let [thrust, current] = curve::curves(&flown, &places, &marked, |craft, duty| state(craft, 1.0, duty))?;
    let craft = flown.nominal();
    let reserve = 1.0 - craft.powertrain.pack.chemistry.usable_share();
    let landing = curve::places(IDLE, limit, STEPS, duty("landing-duty").as_slice());
    let at_landing = landing.iter().map(|duty| alone(*duty, state(&craft, reserve, *duty).map(|found| found[0])));
    let curves = vec![
        Curve { title: "thrust", unit: &GF, samples: thrust },
        Curve { title: "pack current", unit: &A::INFO, samples: current },
        Curve { title: "thrust at landing", unit: &GF, samples: at_landing.collect() },
    ];
    let mut chart = Chart::of(Axis { title: "duty", unit: &Pct::INFO, logarithmic: false }, curves);
    chart.gaps(THRUST, "no model reaches there");
    for (point, curve, x) in [
        (Point::HoverFresh, THRUST, duty("hover-duty")),
        (Point::HoverLanding, AT_LANDING, duty("landing-duty")),
        (Point::FullThrottle, CURRENT, Some(limit)),
    ] {
        if let Some(x) = x {
            chart.mark(point, curve, x);
        }
    }
    chart.levels.push(Level { title: "weight", curve: THRUST, y: craft.mass_kg * GRAVITY });
    if limit < 1.0 {
        chart.fences.push(Fence { title: "output limit", x: limit });
    }
    chart.stretches.extend(unmeasured(&flown, &places));
    Ok(chart)
}

/// Rotors as far as their thrust is left behind arms and body.
fn rotors(craft: &Craft) -> f64 {
    f64::from(craft.powertrain.motors) * craft.thrust_left
}

/// A figure without a band.
fn alone(x: f64, y: Result<f64, ModelError>) -> Sample {
    Sample { x, y: y.ok().and_then(|y| Band::exact(y).ok()) }
}

/// From the first duty at which the rotors turn faster than any that were measured.
fn unmeasured(flown: &Flown, places: &[f64]) -> Option<Stretch> {
    let train = flown.nominal().powertrain;
    let fast = |duty: &f64| train.operating_point(flown.air(), 1.0, *duty).is_ok_and(|point| point.rev_per_s > MEASURED);
    let at = places.partition_point(|duty| !fast(duty));
    let (from, to) = (places.get(at)?, places.last()?);
    let title = "above 10 500 rpm: not measured";
    Some(Stretch { lack: Lack::Unmeasured, title, from: *from, to: *to })
}
