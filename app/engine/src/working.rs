//! The working of each main figure of a report: the steps that lead to it, down to facts.

use std::sync::Arc;

use propwright_schema::quantity::Money;

use crate::{derive, finding::Because, flight, report::Report};

/// A figure of the report with the steps that lead to it.
#[derive(Debug, Clone, PartialEq)]
pub struct Working {
    /// Its key in files for other programs; the unit is in the name.
    pub key: &'static str,
    /// Its derivation; `cost` for what is left to pay.
    pub id: &'static str,
    /// What it is, in the trade's words.
    pub title: &'static str,
    /// The figure as the topmost step.
    pub because: Arc<Because>,
}

/// Id and key of the working of what is left to pay.
pub const COST: &str = "cost";
const LEFT_TO_PAY: &str = "what is left to pay";

/// Figures of the craft besides those of [`crate::flight`]: key, derivation.
const MASSES: [(&str, &str); 2] = [("takeoff_mass_g", "takeoff-mass"), ("dry_mass_g", "dry-mass")];
/// Figures of the flight that are told without what decides their band.
const BESIDE: [(&str, &str); 6] = [
    ("radius_horizon_km", "radius-horizon"),
    ("radius_limited_by", "limited-by"),
    ("path_speed_kmh", "path-speed"),
    ("longest_speed_kmh", "longest-speed"),
    ("home_speed_ms", "home-speed"),
    ("drag_area_cm2", "drag-area"),
];

/// Key and derivation of every figure that has a working, in the order in which they are told.
pub fn figures() -> impl Iterator<Item = (&'static str, &'static str)> {
    MASSES.into_iter().chain(flight::EACH).chain(BESIDE)
}

/// What a figure is, by its derivation.
pub fn title(id: &str) -> Option<&'static str> {
    if id == COST { Some(LEFT_TO_PAY) } else { derive::ALL.iter().find(|derivation| derivation.id == id).map(|one| one.title) }
}

impl Report {
    /// The workings of all main figures, what is not known included: its topmost step says what is missing.
    ///
    /// A derivation on which several figures rest is the same step in each; see [`crate::explain::telling`].
    pub fn workings(&self) -> Vec<Working> {
        figures().filter_map(|(key, id)| self.working_of(key, id)).chain(self.cost_workings()).collect()
    }

    /// The working of one figure by its derivation, or of what is left to pay by [`COST`]: several for several currencies.
    pub fn working(&self, id: &str) -> Vec<Working> {
        if id == COST {
            return self.cost_workings();
        }
        figures().find(|(_, known)| *known == id).and_then(|(key, id)| self.working_of(key, id)).into_iter().collect()
    }

    fn working_of(&self, key: &'static str, id: &'static str) -> Option<Working> {
        let because = Arc::clone(&self.derived(id).first()?.because);
        Some(Working { key, id, title: title(id)?, because })
    }

    fn cost_workings(&self) -> Vec<Working> {
        let of = |amount: &Money| Working {
            key: COST,
            id: COST,
            title: LEFT_TO_PAY,
            because: self.bill.working(&self.craft, *amount),
        };
        self.totals.cost.iter().map(of).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_figure_has_its_derivation_and_a_key_of_its_own() {
        let keys: BTreeSet<&str> = figures().map(|(key, _)| key).collect();
        assert_eq!(keys.len(), figures().count());
        for (key, id) in figures() {
            assert!(derive::ALL.iter().any(|derivation| derivation.id == id), "{key}: {id}");
        }
    }
}
