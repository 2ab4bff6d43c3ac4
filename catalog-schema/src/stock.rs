//! What lies on the user's own shelf: parts by their ids, how many, in which condition, and what was measured of them.

use serde::{Deserialize, Serialize};

use crate::{
    build_list::{is_one, one},
    quantity::{Grams, Milliohms},
    value::words,
};

words! {
    /// Condition of a part on the shelf.
    Condition {
        /// Never flown.
        New "new",
        /// Flown, and sound.
        Used "used",
        /// Near its end: drawn last.
        Worn "worn",
        /// Kept for its screws or for repair: never drawn.
        Broken "broken",
    }
}

/// Parts of one kind and condition on the shelf.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StockItem {
    /// The part's id.
    pub part: String,
    /// How many.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    pub count: u32,
    /// Their condition; absent reads as sound.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub condition: Option<Condition>,
    /// Mass of one piece, weighed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass_g: Option<Grams>,
    /// Resistance of a pack with its leads, or between two leads of a motor, measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub resistance_mohm: Option<Milliohms>,
    /// Cycles of a pack so far.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cycles: Option<u32>,
    /// The craft that it is built into, by the name of its build list: no other draws it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fitted_in: Option<String>,
    /// Where it lies, or what happened to it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// The content of a file of stock.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stock {
    /// Version of the file's form; see [`crate::version`].
    pub version: u32,
    /// What is there.
    #[serde(default)]
    pub items: Vec<StockItem>,
}

impl StockItem {
    /// Some pieces of a part of which nothing more is known.
    pub fn new(part: &str, count: u32) -> Self {
        let part = part.to_owned();
        Self { part, count, condition: None, mass_g: None, resistance_mohm: None, cycles: None, fitted_in: None, note: None }
    }

    /// Can it be flown?
    pub fn is_usable(&self) -> bool {
        self.condition != Some(Condition::Broken)
    }

    /// May a craft of this name draw it? What is broken, or built into another craft, is left alone.
    pub fn is_free_for(&self, craft: &str) -> bool {
        self.is_usable() && self.fitted_in.as_deref().is_none_or(|fitted_in| fitted_in == craft)
    }
}

impl Default for Stock {
    fn default() -> Self {
        Self { version: crate::version::CURRENT, items: Vec::new() }
    }
}
