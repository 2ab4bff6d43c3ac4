//! Power and reach over the airspeed in level flight.
//!
//! Power out of the pack at `T = √(W² + D²)`; reach `t·(V² − w²)/(2·V)`, out and back in the wind with the reserve left.

use propwright_schema::quantity::{Km, MPerS, Unit, W};

use super::{Axis, Chart, Curve, Fence, Lack, Point, Stretch, curve, known};
use crate::{
    derive::Flown,
    finding::{Missing, Unknown},
    graph::{Site, build},
    interval::{Interval, KMH},
    models::{
        cruise::{Craft, radius},
        error::ModelError,
    },
};

const STEPS: u32 = 38;
/// How far beyond the top speed the axis goes.
const BEYOND: f64 = 1.06;
/// Least radius, m: bands need a logarithm.
const NOWHERE_M: f64 = 1.0;

const POWER: usize = 0;
const REACH: usize = 1;

pub(super) fn chart(site: &Site) -> Result<Chart, Missing> {
    let flown = Flown::moving(site)?;
    let air = flown.air();
    let speed = |id| known(site, id).map(|speed| speed.si());
    let unsolved = || Missing { subject: None, what: Unknown::Outside("no top speed".to_owned()) };
    let (top, tilted) = (speed("top-speed").ok_or_else(unsolved)?, speed("tilt-limited-speed").ok_or_else(unsolved)?);
    let wind = site.one(build("conditions.wind_ms")).ok().and_then(|wind| wind.si().ok()).unwrap_or(0.0);
    let points = [
        (Point::LongestFlight, POWER, speed("longest-speed")),
        (Point::Farthest, REACH, speed("home-speed")),
        (Point::TiltLimit, POWER, (tilted < top).then_some(tilted)),
        (Point::TopSpeed, POWER, Some(top)),
    ];
    let marked: Vec<f64> = points.iter().filter_map(|(_, _, x)| *x).collect();
    let places = curve::places(0.0, top * BEYOND, STEPS, &marked);
    let state = |craft: &Craft, speed: f64| -> Result<[f64; 2], ModelError> {
        let held = if speed <= top { Ok(()) } else { Err(ModelError::NoBracket { low: 0.0, high: top }) };
        let level = held.and_then(|()| craft.level(air, speed))?;
        let seconds = craft.powertrain.endurance(air, &level.load)?.seconds;
        Ok([level.load.battery_w, radius(seconds, speed.max(f64::MIN_POSITIVE), wind).max(NOWHERE_M)])
    };
    let [power, reach] = curve::curves(&flown, &places, &marked, state)?;
    let curves =
        vec![Curve { title: "power", unit: &W::INFO, samples: power }, Curve { title: "reach", unit: &Km::INFO, samples: reach }];
    let mut chart = Chart::of(Axis { title: "airspeed", unit: &KMH, logarithmic: false }, curves);
    for (point, curve, x) in points {
        if let Some(x) = x {
            chart.mark(point, curve, x);
        }
    }
    chart.stretches.push(Stretch { lack: Lack::Infeasible, title: "not held", from: top, to: top * BEYOND });
    if wind > 0.0 {
        chart.fences.push(Fence { title: "wind", x: wind });
        chart.stated.push(("wind against the way home", Interval::nearest(wind, &MPerS::INFO)));
    }
    Ok(chart)
}
