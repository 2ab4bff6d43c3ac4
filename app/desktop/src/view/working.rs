//! How a figure comes about, and which figures can be followed.

use std::{collections::BTreeSet, sync::Arc};

use propwright_engine::{
    finding::Because,
    working::{self, COST},
};
use propwright_schema::slot::Slot;

use super::ledger::PRICE;
use crate::state::Document;

/// The figures of the ledger that are computed, by their captions, with their derivations.
const BEHIND: [(&str, &str); 4] =
    [("Take-off mass", "takeoff-mass"), (PRICE, COST), ("Calm flight", "time-calm"), ("Thrust to weight", "thrust-to-weight")];

/// The derivation behind a figure of the ledger.
pub fn behind(caption: &str) -> Option<&'static str> {
    BEHIND.iter().find(|(known, _)| *known == caption).map(|(_, id)| *id)
}

/// What leads to the working of a figure, as it is read out: "How calm flight comes about".
pub fn comes_about(id: &str) -> String {
    let title = working::title(id).unwrap_or(id);
    format!("How {} comes about", super::lower_first(title))
}

/// A figure with the steps that lead to it.
#[derive(Debug, Clone, Default)]
pub struct Working {
    /// "How calm flight comes about".
    pub title: String,
    /// Is it what is left to pay, of which the page of costs tells more?
    pub is_cost: bool,
    /// The figure as the topmost step; several for a sum in several currencies.
    pub because: Vec<Arc<Because>>,
}

/// The working of the followed figure.
pub fn working(document: &Document) -> Option<Working> {
    let id = document.followed?;
    let because = document.report()?.working(id).into_iter().map(|working| working.because).collect();
    Some(Working { title: comes_about(id), is_cost: id == COST, because })
}

/// The slots of all parts that a step speaks of or rests on.
pub fn slots_told(step: &Arc<Because>) -> BTreeSet<Slot> {
    let (mut seen, mut slots) = (BTreeSet::new(), BTreeSet::new());
    let mut open = vec![step];
    while let Some(step) = open.pop() {
        slots.extend(step.subject().map(|subject| subject.slot));
        open.extend(step.from.iter().filter(|below| seen.insert(Arc::as_ptr(below))));
    }
    slots
}
