//! What a document shows of its reasons: the ways out (asked for, under way, found, or stopped) and the graph.

use std::sync::{
    Arc,
    atomic::{AtomicBool, Ordering},
};

use propwright_engine::{finding::Status, fit::repair::Repairs};
use propwright_schema::slot::Slot;

/// Tells a search under way to stop.
#[derive(Debug, Clone, Default)]
pub struct Stop(Arc<AtomicBool>);

impl Stop {
    /// Stops it at its next step.
    pub fn stop(&self) {
        self.0.store(true, Ordering::Relaxed);
    }

    /// Was it stopped?
    pub fn is_stopped(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }
}

/// How the graph is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct GraphLook {
    /// Only what depends on this slot.
    pub slot: Option<Slot>,
    /// Only rules whose findings are at least so grave.
    pub at_least: Option<Status>,
    /// The rule whose path is lit.
    pub lit: Option<&'static str>,
}

impl GraphLook {
    /// All that is open, with the path of one rule lit.
    pub const fn on(rule: &'static str) -> Self {
        Self { slot: None, at_least: Some(Status::Tight), lit: Some(rule) }
    }
}

/// What is known of the ways out of the list as it is now.
#[derive(Debug, Clone, Default)]
pub enum Mending {
    /// Nobody asked.
    #[default]
    Idle,
    /// They are being tried.
    Working(Stop),
    /// All that was found.
    Done(Arc<Repairs>),
    /// Stopped before the end.
    Stopped,
}

impl Mending {
    /// Stops what is under way and forgets what was found: the list has changed.
    pub fn reset(&mut self) {
        if let Self::Working(stop) = self {
            stop.stop();
        }
        *self = Self::Idle;
    }
}
