//! Charts of a flight in the units in which they are shown: one set of curves, scales and words for the window and for paper.

mod axis;
mod of_chart;
pub mod reading;

pub use axis::{Axis, tick_words};
pub use of_chart::{name, plot, stated, unmeasured};

/// A value with its uncertainty: 5th percentile, nominal, 95th percentile, all in one unit of the caller's choice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// 5th percentile.
    pub low: f64,
    /// Most likely value.
    pub nominal: f64,
    /// 95th percentile.
    pub high: f64,
}

impl Span {
    /// A value that is known exactly.
    pub const fn exact(value: f64) -> Self {
        Self { low: value, nominal: value, high: value }
    }
}

/// How a curve is drawn, by its rank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Solid and bold.
    First,
    /// Dashed.
    Second,
    /// Thin.
    Third,
}

/// A curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it is: "thrust".
    pub name: String,
    /// Unit of its figures.
    pub unit: &'static str,
    /// Does the scale at the right belong to it?
    pub right: bool,
    /// How it is drawn.
    pub look: Look,
    /// Its points from left to right; nothing in a gap.
    pub points: Vec<(f64, Option<Span>)>,
}

impl Line {
    /// Stretches of points without a gap between them.
    pub fn runs(&self) -> Vec<Vec<(f64, Span)>> {
        let whole = self.points.split(|(_, span)| span.is_none()).filter(|run| !run.is_empty());
        whole.map(|run| run.iter().filter_map(|(x, span)| Some((*x, (*span)?))).collect()).collect()
    }
}

/// An operating point on a curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Its words: "hover, fresh".
    pub word: &'static str,
    /// The curve, by its place.
    pub line: usize,
    /// Where.
    pub x: f64,
    /// The figure.
    pub y: f64,
}

/// A line across at one place.
#[derive(Clone, Debug, PartialEq)]
pub struct Fence {
    /// What lies there.
    pub word: &'static str,
    /// Where.
    pub x: f64,
}

/// A line along at one figure.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// What it is.
    pub word: &'static str,
    /// The curve whose scale it stands on.
    pub line: usize,
    /// The figure.
    pub y: f64,
}

/// A stretch that lacks something.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// What.
    pub word: &'static str,
    /// Can the craft not be there? Else the figures are only to be trusted less.
    pub closed: bool,
    /// Its ends.
    pub ends: [f64; 2],
}

/// A chart, in the units in which it is shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Plot {
    /// Its name: "Thrust and current".
    pub name: &'static str,
    /// What is varied.
    pub x: Axis,
    /// The scale at the left.
    pub left: Axis,
    /// The scale at the right, if there is one.
    pub right: Option<Axis>,
    /// The curves.
    pub lines: Vec<Line>,
    /// Operating points.
    pub marks: Vec<Mark>,
    /// Lines across.
    pub fences: Vec<Fence>,
    /// Lines along.
    pub levels: Vec<Level>,
    /// Stretches that lack something.
    pub stretches: Vec<Stretch>,
}

impl Plot {
    /// The scale on which a curve, by its place, is drawn.
    pub fn scale_of(&self, line: usize) -> &Axis {
        let right = self.lines.get(line).is_some_and(|line| line.right);
        self.right.as_ref().filter(|_| right).unwrap_or(&self.left)
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    /// Two curves from 0 to 10; the first ends at 8.
    pub(crate) fn plot() -> Plot {
        let points = |of: fn(f64) -> Option<f64>| {
            let span = |y: f64| Span { low: 0.8 * y, nominal: y, high: 1.25 * y };
            (0..=10_i32).map(|x| (f64::from(x), of(f64::from(x)).map(span))).collect::<Vec<_>>()
        };
        let axis = |title: &str, unit, to| Axis { title: title.to_owned(), unit, from: 0.0, to, logarithmic: false };
        let line = |name: &str, unit, right, look, points| Line { name: name.to_owned(), unit, right, look, points };
        Plot {
            name: "Thrust and current",
            x: axis("duty", "%", 10.0),
            left: axis("thrust", "gf", 100.0),
            right: Some(axis("current", "A", 20.0)),
            lines: vec![
                line("thrust", "gf", false, Look::First, points(|x| (x <= 8.0).then_some(10.0 * x))),
                line("current", "A", true, Look::Second, points(|x| Some(2.0 * x))),
            ],
            marks: vec![Mark { word: "hover", line: 0, x: 3.0, y: 30.0 }, Mark { word: "full", line: 1, x: 10.0, y: 20.0 }],
            fences: vec![Fence { word: "limit", x: 9.0 }],
            levels: vec![Level { word: "weight", line: 0, y: 30.0 }],
            stretches: vec![Stretch { word: "not held", closed: true, ends: [8.0, 10.0] }],
        }
    }

    #[test]
    fn a_gap_parts_a_curve() {
        let mut plot = plot();
        plot.lines[1].points[4].1 = None;
        let lengths: Vec<usize> = plot.lines[1].runs().iter().map(Vec::len).collect();
        assert_eq!(lengths, [4, 6]);
        assert_eq!(plot.lines[0].runs().iter().map(Vec::len).collect::<Vec<_>>(), [9]);
    }
}
