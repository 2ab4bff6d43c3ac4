//! Derivations: each reads properties and writes one, mostly by a call of a model.

mod mass;

use crate::graph::{Derived, Property, Site};

/// A derivation.
pub struct Derivation {
    /// Id of the property that it writes.
    pub id: &'static str,
    /// What that property is, in the trade's words.
    pub title: &'static str,
    /// Formula with symbols.
    pub formula: &'static str,
    /// Where the formula comes from.
    pub source: &'static str,
    /// All that it may read.
    pub reads: &'static [Property],
    /// The computation: one entry a part, or one for the craft; none when its slots are empty.
    pub run: fn(&Site) -> Vec<Derived>,
}

/// What models hand to one another.
#[derive(Debug, Clone, PartialEq)]
pub enum Model {
    /// Nothing yet.
    None,
}

/// All derivations.
pub const ALL: &[&Derivation] = &[&mass::DRY, &mass::PACKS, &mass::TAKEOFF];
