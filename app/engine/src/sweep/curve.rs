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
const WIDEST: f64 = 0.55;

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
    let spread = |at: &usize| {
        let (found, drawn) = (flown.spread(|craft| figures(craft, places[*at])).ok()?, nominal[*at].as_ref().ok()?);
        Some((*at, std::array::from_fn(|figure| Node::of(&found[figure], drawn[figure]))))
    };
    let known: Vec<(usize, [Node; N])> = nodes.iter().filter_map(spread).collect();
    Ok(std::array::from_fn(|figure| {
        let told = known.iter().map(|(at, each)| (*at, each[figure])).filter(|(_, node)| node.width < WIDEST);
        let told: Vec<(usize, Node)> = told.collect();
        let sample = |at: usize| {
            let y = nominal[at].as_ref().ok().map(|found| found[figure]);
            Sample { x: places[at], y: y.and_then(|y| between_nodes(&told, places, at).band(y)) }
        };
        (0..places.len()).map(sample).collect()
    }))
}

/// What is known of a figure at one place, as logarithms.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Node {
    /// How far the report's figure lies above the one that is drawn: nothing unless the craft was calibrated, and then what the
    /// models bend over the step that the calibration takes.
    shift: f64,
    /// How far P95 lies above the figure.
    width: f64,
}

impl Node {
    fn of(found: &Propagated, drawn: f64) -> Self {
        let band = &found.band;
        Self { shift: (band.nominal() / drawn).ln(), width: (band.high() / band.nominal()).ln() }
    }

    fn band(self, drawn: f64) -> Option<Band> {
        let (y, factor) = (drawn * self.shift.exp(), self.width.exp());
        Band::new(y / factor, y, y * factor).ok()
    }
}

/// The node of a place, straight between those beside it, and as the last one beyond that.
fn between_nodes(known: &[(usize, Node)], places: &[f64], at: usize) -> Node {
    let right = known.partition_point(|(node, _)| *node < at);
    match (right.checked_sub(1).and_then(|left| known.get(left)), known.get(right)) {
        (_, Some((node, here))) if *node == at => *here,
        (Some((left, low)), Some((right, high))) => {
            let share = (places[at] - places[*left]) / (places[*right] - places[*left]);
            let between = |low: f64, high: f64| low + share * (high - low);
            Node { shift: between(low.shift, high.shift), width: between(low.width, high.width) }
        }
        (Some((_, only)), None) | (None, Some((_, only))) => *only,
        (None, None) => Node { shift: 0.0, width: 0.0 },
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
        let node = |width| Node { shift: 0.0, width };
        let known = [(0, node(0.1)), (3, node(0.5))];
        let at = |at| between_nodes(&known, &places, at).width;
        assert!((at(0) - 0.1).abs() < 1e-12 && (at(1) - 0.2).abs() < 1e-12 && (at(2) - 0.4).abs() < 1e-12);
        assert!((at(3) - 0.5).abs() < 1e-12);
        assert!((between_nodes(&known[..1], &places, 3).width - 0.1).abs() < 1e-12, "the last width serves beyond it");
    }
}
