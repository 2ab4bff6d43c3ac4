//! Samples of curves with their bands.
//!
//! Each figure is solved at every place; its spread, which moves slowly along a curve, at every marked place and at a few
//! between, with straight lines from one to the next.

use super::Sample;
use crate::{
    band::{Band, Propagated},
    derive::Flown,
    finding::{Missing, Unknown},
    models::{cruise::Craft, error::ModelError},
};

/// Places between the ends at which a spread is solved besides the marked ones.
const NODES: usize = 4;
/// Widest band that first order tells, `ln(P95/nominal)`: near the edge of what a craft can do it tells nothing, and the last
/// width before it serves.
const WIDEST: f64 = 0.9;

/// Places from one end to another, in equal steps, with some more among them.
pub(super) fn places(from: f64, to: f64, steps: u32, more: &[f64]) -> Vec<f64> {
    let step = (to - from) / f64::from(steps);
    let mut places: Vec<f64> = (0..=steps).map(|at| from + step * f64::from(at)).collect();
    // A marked place stands for one that is all but the same.
    places.retain(|x| more.iter().all(|other| (other - x).abs() > 0.05 * step));
    places.extend(more.iter().copied().filter(|x| (from..=to).contains(x)));
    places.sort_by(f64::total_cmp);
    places.dedup();
    places
}

/// One curve for each figure; a place where the craft cannot be is a gap in all of them.
pub(super) fn curves<const N: usize>(
    flown: &Flown,
    places: &[f64],
    marked: &[f64],
    figures: impl Fn(&Craft, f64) -> Result<[f64; N], ModelError>,
) -> Result<[Vec<Sample>; N], Missing> {
    let craft = flown.nominal();
    let nominal: Vec<Result<[f64; N], ModelError>> = places.iter().map(|x| figures(&craft, *x)).collect();
    let solved: Vec<usize> = (0..places.len()).filter(|at| nominal[*at].is_ok()).collect();
    let Some((first, last)) = solved.first().zip(solved.last()) else {
        let why = nominal.iter().find_map(|found| found.as_ref().err()).map(ToString::to_string);
        return Err(Missing { subject: None, what: Unknown::Infeasible(why.unwrap_or_default()) });
    };
    let between = |node: usize| first + (last - first) * node / NODES;
    let mut nodes: Vec<usize> = (0..=NODES).map(between).collect();
    nodes.extend(solved.iter().filter(|at| marked.iter().any(|x| x.to_bits() == places[**at].to_bits())));
    nodes.sort_unstable();
    nodes.dedup();
    let spread = |at: &usize| Some((*at, flown.spread(|craft| figures(craft, places[*at])).ok()?.map(|one| widening(&one))));
    let known: Vec<(usize, [f64; N])> = nodes.iter().filter(|at| nominal[**at].is_ok()).filter_map(spread).collect();
    Ok(std::array::from_fn(|figure| {
        let widths: Vec<(usize, f64)> = known.iter().map(|(at, each)| (*at, each[figure])).filter(|(_, w)| *w < WIDEST).collect();
        let sample = |at: usize| {
            let y = nominal[at].as_ref().ok().map(|found| found[figure]);
            Sample { x: places[at], y: y.and_then(|y| band(y, between_nodes(&widths, places, at))) }
        };
        (0..places.len()).map(sample).collect()
    }))
}

/// By how much the logarithm of a figure lies higher at P95 than at its nominal.
fn widening(found: &Propagated) -> f64 {
    (found.band.high() / found.band.nominal()).ln()
}

fn band(y: f64, widening: f64) -> Option<Band> {
    let factor = widening.exp();
    Band::new(y / factor, y, y * factor).ok()
}

/// The widening at a place, straight between the nodes beside it, and as at the last node beyond it.
fn between_nodes(known: &[(usize, f64)], places: &[f64], at: usize) -> f64 {
    let right = known.partition_point(|(node, _)| *node < at);
    match (right.checked_sub(1).and_then(|left| known.get(left)), known.get(right)) {
        (_, Some((node, here))) if *node == at => *here,
        (Some((left, low)), Some((right, high))) => {
            low + (places[at] - places[*left]) / (places[*right] - places[*left]) * (high - low)
        }
        (Some((_, only)), None) | (None, Some((_, only))) => *only,
        (None, None) => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_marked_place_stands_among_the_others() {
        assert_eq!(places(0.0, 4.0, 4, &[1.5]), [0.0, 1.0, 1.5, 2.0, 3.0, 4.0]);
        assert_eq!(places(0.0, 4.0, 4, &[2.01, 9.0]), [0.0, 1.0, 2.01, 3.0, 4.0]);
    }

    #[test]
    fn widths_lie_straight_between_the_nodes() {
        let places = [0.0, 1.0, 3.0, 4.0];
        let known = [(0, 0.1), (3, 0.5)];
        let at = |at| between_nodes(&known, &places, at);
        assert!((at(0) - 0.1).abs() < 1e-12 && (at(1) - 0.2).abs() < 1e-12 && (at(2) - 0.4).abs() < 1e-12);
        assert!((at(3) - 0.5).abs() < 1e-12);
    }
}
