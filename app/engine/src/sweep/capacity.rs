//! Calm time over the capacity of the pack, and where a bigger pack stops paying.
//!
//! A bigger pack of the same cells in series, chemistry and make weighs as much a watt-hour as this one, `m = e·E`, and its
//! resistance follows the table of its chemistry, `R·Ah` (see [`crate::models::battery`]); leads and plug stay. `1 % more
//! capacity` brings `d ln t/d ln C` per cent more time: half a per cent at *pays half*, none at *pays no more*. Valid as long as
//! the pack has its place on the frame.

use propwright_schema::quantity::{MAh, Min, Unit, UnitInfo};

use super::{Axis, Chart, Curve, Point, curve, known, payload::asked};
use crate::{
    derive::Flown,
    finding::{Missing, Unknown},
    graph::{Site, derived},
    interval::Interval,
    models::{battery::Pack, cruise::Craft, error::ModelError},
};

/// Mass of a pack by its energy.
const PER_ENERGY: UnitInfo =
    UnitInfo { symbol: "g/Wh", suffix: "_g_per_wh", dimension: "mass by energy", steps: 1000, si_per_step: 1e-6 / 3600.0 };

const STEPS: u32 = 32;
/// Smallest and largest pack that is tried, as multiples of the one listed.
const TRIED: [f64; 2] = [0.3, 12.0];
/// Sections of the search for the best pack, and halvings of that for the one that pays half.
const SECTIONS: u32 = 14;
const HALVINGS: u32 = 8;
/// Log step of the slope.
const STEP: f64 = 0.02;

pub(super) fn chart(site: &Site) -> Result<Chart, Missing> {
    let flown = Flown::hovering(site)?;
    let unweighed = || Missing { subject: None, what: Unknown::Outside("no mass of the pack".to_owned()) };
    let pack_kg = known(site, "pack-mass").ok_or_else(unweighed)?.si();
    let now = 3600.0 * flown.nominal().powertrain.pack.capacity_ah();
    let calm = |craft: &Craft, times: f64| flown.calm_s(&with_pack(craft, times, pack_kg)?);
    let nominal = |times: f64| calm(&flown.nominal(), times).unwrap_or(0.0);
    let best = peak(TRIED[0], TRIED[1], nominal);
    let pays = best < 0.98 * TRIED[1];
    let half = half(TRIED[0], best, nominal);
    let shown = (best * 1.2).clamp(2.0, TRIED[1]);
    let marked: Vec<f64> = [Some(1.0), pays.then_some(best), half].into_iter().flatten().map(|times| times * now).collect();
    let places = curve::places(TRIED[0] * now, shown * now, STEPS, &marked);
    let [time] = curve::curves(&flown, &places, &marked, |craft, capacity| Ok([calm(craft, capacity / now)?]))?;
    let curves = vec![Curve { title: "calm flight", unit: &Min::INFO, samples: time }];
    let mut chart = Chart::of(Axis { title: "capacity", unit: &MAh::INFO, logarithmic: false }, curves);
    chart.mark(Point::AsListed, 0, now);
    for (point, times) in [(Point::PaysHalf, half), (Point::PaysNoMore, pays.then_some(best))] {
        if let Some(times) = times {
            chart.mark(point, 0, times * now);
        }
    }
    chart.gaps(0, "cannot hover");
    chart.levels.extend(asked(site));
    if let Some(joules) = energy(site) {
        chart.stated.push(("a bigger pack of this kind weighs", Interval::nearest(pack_kg / joules, &PER_ENERGY)));
    }
    Ok(chart)
}

/// Energy of all packs, J.
fn energy(site: &Site) -> Option<f64> {
    let each = site.all(derived("pack-energy")).into_iter().map(|pack| Some(pack.si().ok()? * f64::from(pack.count)));
    each.sum::<Option<f64>>().filter(|joules| *joules > 0.0)
}

/// The craft with a pack of `times` the capacity.
fn with_pack(craft: &Craft, times: f64, pack_kg: f64) -> Result<Craft, ModelError> {
    let (mut bigger, pack) = (*craft, craft.powertrain.pack);
    let estimated = |ah: f64| pack.chemistry.estimated_resistance(ah);
    let cell_capacity_ah = pack.cell_capacity_ah * times;
    let cell_resistance = pack.cell_resistance * estimated(cell_capacity_ah)? / estimated(pack.cell_capacity_ah)?;
    bigger.powertrain.pack = Pack { cell_capacity_ah, cell_resistance, ..pack };
    bigger.mass_kg += pack_kg * (times - 1.0);
    Ok(bigger)
}

/// Where a function with one peak is largest, by golden section.
fn peak(low: f64, high: f64, f: impl Fn(f64) -> f64) -> f64 {
    let shrink = (5_f64.sqrt() - 1.0) / 2.0;
    let (mut low, mut high) = (low, high);
    let (mut a, mut b) = (high - shrink * (high - low), low + shrink * (high - low));
    let (mut at_a, mut at_b) = (f(a), f(b));
    for _ in 0..SECTIONS {
        if at_a >= at_b {
            (high, b, at_b) = (b, a, at_a);
            a = high - shrink * (high - low);
            at_a = f(a);
        } else {
            (low, a, at_a) = (a, b, at_b);
            b = low + shrink * (high - low);
            at_b = f(b);
        }
    }
    f64::midpoint(low, high)
}

/// Where one per cent more brings half a per cent, below the peak; nothing where even the smallest brings less.
fn half(low: f64, peak: f64, f: impl Fn(f64) -> f64) -> Option<f64> {
    let slope = |times: f64| (f(times * STEP.exp()) / f(times)).ln() / STEP;
    let (mut pays, mut idle) = (low, peak);
    if slope(pays) < 0.5 {
        return None;
    }
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(pays, idle);
        if slope(middle) > 0.5 { pays = middle } else { idle = middle }
    }
    Some(f64::midpoint(pays, idle))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn momentum_theory_says_where_a_pack_stops_paying() {
        // By hand: t ∝ C/(a + C)^1.5, so d ln t/d ln C = 1 − 1.5·C/(a + C): none at C = 2a, half at C = a/2.
        let time = |c: f64| c / (1.0 + c).powf(1.5);
        assert!((peak(0.1, 12.0, time) - 2.0).abs() < 0.01);
        assert!((half(0.1, 2.0, time).unwrap() - 0.5).abs() < 0.01);
        assert_eq!(half(0.6, 2.0, time), None);
    }
}
