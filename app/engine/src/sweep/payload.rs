//! Calm time over the payload.

use propwright_schema::{
    quantity::{G, Min, Unit},
    slot::Slot,
};

use super::{Axis, Chart, Curve, Fence, Level, Point, curve, known};
use crate::{
    derive::Flown,
    finding::Missing,
    graph::{Site, build, part},
    models::cruise::Craft,
};

const STEPS: u32 = 30;
/// Thrust to weight beyond which no more is loaded.
const LEAST_LIFT: f64 = 1.05;
/// The most that is loaded on top, as a share of the take-off mass.
const MOST: f64 = 1.0;

pub(super) fn chart(site: &Site) -> Result<Chart, Missing> {
    let flown = Flown::hovering(site)?;
    let mass = flown.nominal().mass_kg;
    let loaded = known(site, "payload-mass").map_or(0.0, |payload| payload.si());
    let lift = known(site, "thrust-to-weight").map_or(1.0, |ratio| ratio.si());
    let heaviest = site.one(part(Slot::Frame, "payload_max_g")).ok().and_then(|limit| limit.si().ok());
    let more = (mass * MOST).min(mass * (lift / LEAST_LIFT - 1.0)).max(0.1 * mass);
    let most = heaviest.map_or(0.0, |limit| limit * 1.05).max(loaded + more).min(loaded + 2.0 * more);
    let places = curve::places(0.0, most, STEPS, &[loaded]);
    let calm = |craft: &Craft, payload: f64| Ok([flown.calm_s(&Craft { mass_kg: craft.mass_kg + payload - loaded, ..*craft })?]);
    let [time] = curve::curves(&flown, &places, &[loaded], calm)?;
    let curves = vec![Curve { title: "calm flight", unit: &Min::INFO, samples: time }];
    let mut chart = Chart::of(Axis { title: "payload", unit: &G::INFO, logarithmic: false }, curves);
    chart.mark(Point::AsListed, 0, loaded);
    chart.gaps(0, "cannot hover");
    if let Some(x) = heaviest.filter(|limit| *limit <= most) {
        chart.fences.push(Fence { title: "frame's limit", x });
    }
    chart.levels.extend(asked(site));
    Ok(chart)
}

/// The calm time that the purpose asks for.
pub(super) fn asked(site: &Site) -> Option<Level> {
    let y = site.one(build("purpose.calm_min")).ok()?.si().ok()?;
    Some(Level { title: "asked", curve: 0, y })
}
