//! Where the nodes of a picture lie: in layers from left to right, ordered so that few edges cross.
//!
//! Sugiyama, Tagawa and Toda, "Methods for visual understanding of hierarchical system structures", IEEE Transactions on
//! Systems, Man, and Cybernetics 11 (1981): a node's layer is the longest way from a source; within a layer nodes are sorted
//! by the mean place of their neighbours, sweeping to and fro. Lengths are in units of a line of text.

use std::collections::BTreeMap;

use crate::graph::{Kind, Picture};

/// Distance of layers.
pub const COLUMN: f32 = 18.0;
/// Distance of nodes within a layer.
pub const ROW: f32 = 1.5;
/// How often the order is swept.
const SWEEPS: usize = 8;

/// Places of all nodes.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Layered {
    /// Left end and middle line of each node, in the order of the picture.
    pub at: Vec<(f32, f32)>,
    /// Width and height that all of it takes.
    pub size: (f32, f32),
}

/// Lays a picture out.
pub fn layered(picture: &Picture) -> Layered {
    let layer = layers(picture);
    let many = layer.iter().max().map_or(0, |last| last + 1);
    let mut order: Vec<Vec<usize>> = vec![Vec::new(); many];
    for (dot, layer) in layer.iter().enumerate() {
        if let Some(column) = order.get_mut(*layer) {
            column.push(dot);
        }
    }
    let mut place = places(&order);
    for sweep in 0..SWEEPS {
        let forth = sweep % 2 == 0;
        let columns: Vec<usize> = if forth { (0..many).collect() } else { (0..many).rev().collect() };
        for column in columns {
            let means = means(picture, &place, forth);
            if let Some(dots) = order.get_mut(column) {
                dots.sort_by(|one, other| {
                    let mean = |dot: &usize| means.get(dot).copied().or_else(|| place.get(*dot).copied()).unwrap_or_default();
                    mean(one).total_cmp(&mean(other)).then(one.cmp(other))
                });
            }
            place = places(&order);
        }
    }
    let tallest = order.iter().map(Vec::len).max().unwrap_or(0) as f32 * ROW;
    let at = layer.iter().zip(&place).map(|(layer, y)| (*layer as f32 * COLUMN, y + tallest / 2.0));
    Layered { at: at.collect(), size: (many as f32 * COLUMN, tallest) }
}

/// The longest way to each node; rules stand together in the last layer.
fn layers(picture: &Picture) -> Vec<usize> {
    let mut layer: Vec<usize> = picture.dots.iter().map(|dot| usize::from(dot.kind == Kind::Property)).collect();
    // As many rounds as there are layers; the graph has no circle, and a longer way than all nodes does not exist.
    for _ in 0..picture.dots.len() {
        let mut moved = false;
        for (from, to) in &picture.edges {
            let least = layer.get(*from).map_or(0, |layer| layer + 1);
            if let Some(layer) = layer.get_mut(*to).filter(|layer| **layer < least) {
                *layer = least;
                moved = true;
            }
        }
        if !moved {
            break;
        }
    }
    let last = layer.iter().copied().max().unwrap_or(0);
    for (dot, layer) in picture.dots.iter().zip(&mut layer) {
        if dot.kind == Kind::Rule {
            *layer = last;
        }
    }
    layer
}

/// The height of each node, each layer centred.
fn places(order: &[Vec<usize>]) -> Vec<f32> {
    let mut place = vec![0.0; order.iter().map(Vec::len).sum()];
    for column in order {
        let middle = (column.len() as f32 - 1.0) / 2.0;
        for (row, dot) in column.iter().enumerate() {
            if let Some(place) = place.get_mut(*dot) {
                *place = (row as f32 - middle) * ROW;
            }
        }
    }
    place
}

/// The mean place of each node's neighbours on the left, or on the right.
fn means(picture: &Picture, place: &[f32], left: bool) -> BTreeMap<usize, f32> {
    let mut sums: BTreeMap<usize, (f32, f32)> = BTreeMap::new();
    for (from, to) in &picture.edges {
        let (dot, neighbour) = if left { (to, from) } else { (from, to) };
        let sum = sums.entry(*dot).or_default();
        sum.0 += place.get(*neighbour).copied().unwrap_or_default();
        sum.1 += 1.0;
    }
    sums.into_iter().map(|(dot, (sum, many))| (dot, sum / many)).collect()
}

/// How many pairs of edges between neighbouring layers cross.
pub fn crossings(picture: &Picture, layered: &Layered) -> usize {
    let ends = |(from, to): &(usize, usize)| Some((*layered.at.get(*from)?, *layered.at.get(*to)?));
    let edges: Vec<_> = picture.edges.iter().filter_map(ends).collect();
    let cross = |one: &((f32, f32), (f32, f32)), other: &((f32, f32), (f32, f32))| {
        let same = (one.0.0 - other.0.0).abs() < 1e-6 && (one.1.0 - other.1.0).abs() < 1e-6;
        same && (one.0.1 - other.0.1) * (one.1.1 - other.1.1) < 0.0
    };
    edges.iter().enumerate().map(|(at, one)| edges.iter().skip(at + 1).filter(|other| cross(one, other)).count()).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::graph::graph;
    use std::collections::BTreeSet;

    #[test]
    fn every_edge_goes_to_the_right_and_nothing_overlaps() {
        let picture = graph().picture();
        assert!(picture.dots.len() >= 300);
        let layered = layered(&picture);
        for (from, to) in &picture.edges {
            assert!(layered.at[*from].0 < layered.at[*to].0, "{} → {}", picture.dots[*from].key, picture.dots[*to].key);
        }
        let rows: BTreeSet<String> = layered.at.iter().map(|(x, y)| format!("{:.0} {:.0}", x / COLUMN, y / ROW * 2.0)).collect();
        assert_eq!(rows.len(), picture.dots.len(), "no two nodes in one place");
        let (width, height) = layered.size;
        assert!(layered.at.iter().all(|(x, y)| (0.0..=width).contains(x) && (0.0..=height).contains(y)));
    }

    #[test]
    fn sweeping_makes_fewer_edges_cross() {
        let picture = graph().picture();
        let swept = layered(&picture);
        let order: Vec<Vec<usize>> = {
            let layer = layers(&picture);
            let many = layer.iter().max().unwrap() + 1;
            (0..many).map(|column| (0..layer.len()).filter(|dot| layer[*dot] == column).collect()).collect()
        };
        let plain = places(&order);
        let unswept = Layered {
            at: swept.at.iter().zip(&plain).map(|((x, _), y)| (*x, y + swept.size.1 / 2.0)).collect(),
            size: swept.size,
        };
        assert!(crossings(&picture, &swept) < crossings(&picture, &unswept));
    }

    #[test]
    fn it_is_laid_out_the_same_every_time() {
        let picture = graph().picture();
        assert_eq!(layered(&picture), layered(&picture));
        assert_eq!(layered(&Picture::default()), Layered::default());
    }
}
