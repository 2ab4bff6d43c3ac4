//! Kits: several parts sold in one box.

use serde::{Deserialize, Serialize};

use crate::{part::PastPrice, quantity::Money};

/// A box with several parts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Kit {
    /// Short name in lower case; one of a kind in a catalogue.
    pub id: String,
    /// Name as the maker prints it.
    pub name: String,
    /// Maker.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub maker: Option<String>,
    /// Price of the box.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<Money>,
    /// Day of the price.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub priced_on: Option<jiff::civil::Date>,
    /// Who sells it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supplier: Option<String>,
    /// No longer sold.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub retired: bool,
    /// What is in the box.
    pub contents: Vec<KitItem>,
    /// Prices of earlier days, the latest first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub earlier_prices: Vec<PastPrice>,
    /// Anything else worth knowing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// One article of a kit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KitItem {
    /// The part's id.
    pub part: String,
    /// How many pieces.
    pub count: u32,
    /// Its state in the box, such as "built in" or "loose".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub state: Option<String>,
}
