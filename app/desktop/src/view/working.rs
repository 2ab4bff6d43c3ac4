//! How a figure of the ledger comes about.

use std::sync::Arc;

use propwright_engine::finding::Because;

use crate::state::Document;

/// The figures of the ledger that are computed, by their captions, with their derivations.
const BEHIND: [(&str, &str); 3] =
    [("Take-off mass", "takeoff-mass"), ("Calm flight", "time-calm"), ("Thrust to weight", "thrust-to-weight")];

/// The derivation behind a figure of the ledger.
pub fn behind(caption: &str) -> Option<&'static str> {
    BEHIND.iter().find(|(known, _)| *known == caption).map(|(_, id)| *id)
}

/// A figure with the steps that lead to it.
#[derive(Debug, Clone, Default)]
pub struct Working {
    /// "How calm flight comes about".
    pub title: String,
    /// The figure as the topmost step.
    pub because: Vec<Arc<Because>>,
}

/// The working of the followed figure.
pub fn working(document: &Document) -> Option<Working> {
    let id = document.followed?;
    let caption = BEHIND.iter().find(|(_, known)| *known == id).map_or(id, |(caption, _)| caption);
    let because = document.report()?.derived(id).iter().map(|reading| Arc::clone(&reading.because)).collect();
    Some(Working { title: format!("How {} comes about", super::lower_first(caption)), because })
}
