//! One input varied at a time: the curves of a flight.
//!
//! A report says what a craft does as it is listed; a sweep says what it does at another throttle, speed, payload, pack or
//! distance. The curves come from the models and the inputs of the report itself, so that they pass through its figures where
//! they pass the craft as listed. A state that cannot be leaves a gap; where a model was not measured, the stretch says so.

mod capacity;
mod chart;
mod curve;
mod payload;
mod radio;
mod speed;
mod throttle;

pub use chart::{Axis, Chart, Curve, Fence, Lack, Level, Mark, Point, Sample, Stretch};

use crate::{
    Report,
    finding::{Missing, Unknown},
    graph::{Site, derived},
    interval::Interval,
    policy::Policy,
};

/// What is varied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Topic {
    /// Thrust and current over throttle.
    Throttle,
    /// Power and reach over airspeed.
    Speed,
    /// Calm time over payload.
    Payload,
    /// Calm time over the capacity of the pack.
    Capacity,
    /// Signal margin over distance.
    Radio,
}

impl Topic {
    /// All of them, in the order in which they are shown.
    pub const ALL: [Self; 5] = [Self::Throttle, Self::Speed, Self::Payload, Self::Capacity, Self::Radio];
}

/// The curves of a craft; of those that cannot be drawn, what is not known.
#[derive(Debug, Clone, PartialEq)]
pub struct Sweep {
    /// One chart a topic.
    pub charts: Vec<(Topic, Result<Chart, Missing>)>,
}

impl Sweep {
    /// No curve at all, for one reason in a few words.
    pub fn failed(reason: &str) -> Self {
        let missing = || Missing { subject: None, what: Unknown::Outside(reason.to_owned()) };
        Self { charts: Topic::ALL.into_iter().map(|topic| (topic, Err(missing()))).collect() }
    }

    /// The chart of a topic, where it can be drawn.
    pub fn chart(&self, topic: Topic) -> Option<&Chart> {
        self.charts.iter().find(|(known, _)| *known == topic).and_then(|(_, chart)| chart.as_ref().ok())
    }
}

/// The curves of the craft of a report, by the thresholds by which that was made.
pub fn sweep(report: &Report, policy: &Policy) -> Sweep {
    let site = Site::new(&report.craft, &report.store, policy);
    let chart = |topic| match topic {
        Topic::Throttle => throttle::chart(&site),
        Topic::Speed => speed::chart(&site),
        Topic::Payload => payload::chart(&site),
        Topic::Capacity => capacity::chart(&site),
        Topic::Radio => radio::chart(&site),
    };
    Sweep { charts: Topic::ALL.into_iter().map(|topic| (topic, chart(topic))).collect() }
}

/// A figure of the report by its id, when it is known.
fn known(site: &Site, id: &'static str) -> Option<Interval> {
    site.one(derived(id)).ok()?.figure().ok()
}
