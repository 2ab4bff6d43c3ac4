//! A chart as data: figures in SI units, each axis with the unit in which it is shown.

use propwright_schema::quantity::UnitInfo;

use crate::{band::Band, interval::Interval};

/// What is varied, and how it is shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axis {
    /// What it is.
    pub title: &'static str,
    /// The unit in which it is shown.
    pub unit: &'static UnitInfo,
    /// Shown by decades.
    pub logarithmic: bool,
}

/// One point of a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// Where.
    pub x: f64,
    /// The figure there; nothing where the craft cannot be.
    pub y: Option<Band>,
}

/// One figure over what is varied.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// What it is.
    pub title: &'static str,
    /// The unit in which it is shown.
    pub unit: &'static UnitInfo,
    /// Its points, from left to right.
    pub samples: Vec<Sample>,
}

/// An operating point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Point {
    /// Hover on a full pack.
    HoverFresh,
    /// Hover at landing.
    HoverLanding,
    /// Full throttle on a full pack.
    FullThrottle,
    /// The speed of the longest flight.
    LongestFlight,
    /// The speed of the farthest way out and back.
    Farthest,
    /// The speed at which pilots of such craft stop tilting.
    TiltLimit,
    /// Top speed.
    TopSpeed,
    /// The craft as listed.
    AsListed,
    /// The pack of which a little more brings half its share of time.
    PaysHalf,
    /// The pack beyond which more shortens the flight.
    PaysNoMore,
    /// The end of the control link.
    ControlEnds,
    /// The end of the video link.
    VideoEnds,
}

impl Point {
    /// Its words.
    pub const fn word(self) -> &'static str {
        match self {
            Self::HoverFresh => "hover, fresh",
            Self::HoverLanding => "hover, landing",
            Self::FullThrottle => "full throttle",
            Self::LongestFlight => "best endurance",
            Self::Farthest => "best range",
            Self::TiltLimit => "tilt limit",
            Self::TopSpeed => "top speed",
            Self::AsListed => "as listed",
            Self::PaysHalf => "pays half",
            Self::PaysNoMore => "pays no more",
            Self::ControlEnds => "control ends",
            Self::VideoEnds => "video ends",
        }
    }
}

/// An operating point on a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// Which.
    pub point: Point,
    /// The curve, by its place.
    pub curve: usize,
    /// Where.
    pub x: f64,
    /// The figure there.
    pub y: f64,
}

/// A line across the chart at one place of what is varied.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fence {
    /// What lies there.
    pub title: &'static str,
    /// Where.
    pub x: f64,
}

/// A line along the chart at one figure of a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Level {
    /// What asks for it.
    pub title: &'static str,
    /// The curve, by its place.
    pub curve: usize,
    /// The figure.
    pub y: f64,
}

/// What is wrong with a stretch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lack {
    /// The craft cannot be there.
    Infeasible,
    /// The models were not measured there.
    Unmeasured,
}

/// A stretch of what is varied in which a curve ends, or is to be trusted less.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// What is wrong.
    pub lack: Lack,
    /// In words.
    pub title: &'static str,
    /// Its left end.
    pub from: f64,
    /// Its right end.
    pub to: f64,
}

/// Curves over one input.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// What is varied.
    pub x: Axis,
    /// The curves.
    pub curves: Vec<Curve>,
    /// Operating points.
    pub marks: Vec<Mark>,
    /// Lines across.
    pub fences: Vec<Fence>,
    /// Lines along.
    pub levels: Vec<Level>,
    /// Stretches that lack something.
    pub stretches: Vec<Stretch>,
    /// What the curves rest on besides the report, each with its figure.
    pub stated: Vec<(&'static str, Interval)>,
}

impl Chart {
    /// A chart of curves alone.
    pub(super) const fn of(x: Axis, curves: Vec<Curve>) -> Self {
        Self { x, curves, marks: Vec::new(), fences: Vec::new(), levels: Vec::new(), stretches: Vec::new(), stated: Vec::new() }
    }

    /// Marks a point where the curve passes one of its samples; elsewhere, and in gaps, there is nothing to mark.
    pub(super) fn mark(&mut self, point: Point, curve: usize, x: f64) {
        let samples = self.curves.get(curve).map_or(&[][..], |curve| curve.samples.as_slice());
        let there = samples.iter().find(|sample| sample.x.to_bits() == x.to_bits()).and_then(|sample| sample.y);
        if let Some(band) = there {
            self.marks.push(Mark { point, curve, x, y: band.nominal() });
        }
    }

    /// The gaps of a curve as stretches.
    pub(super) fn gaps(&mut self, curve: usize, title: &'static str) {
        let Some(curve) = self.curves.get(curve) else { return };
        let samples = &curve.samples;
        let mut stretches = Vec::new();
        let mut at = 0;
        while at < samples.len() {
            let gap = samples[at..].iter().take_while(|sample| sample.y.is_none()).count();
            if gap > 0 {
                // From the last point that can be to the first that can be again.
                let from = samples[at.saturating_sub(1)].x;
                let to = samples[(at + gap).min(samples.len() - 1)].x;
                stretches.push(Stretch { lack: Lack::Infeasible, title, from, to });
            }
            at += gap + 1;
        }
        self.stretches.extend(stretches);
    }
}
