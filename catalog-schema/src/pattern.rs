//! Hole patterns, such as `16x16` or `30.5x30.5`: the distances between hole centres in millimetres.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use crate::{
    quantity::{Millimetres, Quantity},
    value::{Describe, Kind, Value},
};

/// A rectangle of holes; the longer side first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Pattern {
    /// Longer side.
    pub long: Millimetres,
    /// Shorter side.
    pub short: Millimetres,
}

/// Why a text is no hole pattern.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("expected the distances between hole centres in mm, such as \"16x16\" or \"30.5x30.5\"")]
pub struct PatternError;

impl FromStr for Pattern {
    type Err = PatternError;

    fn from_str(text: &str) -> Result<Self, PatternError> {
        let (one, other) = text.split_once('x').ok_or(PatternError)?;
        let side = |text: &str| Quantity::parse(text).ok().filter(|side: &Millimetres| (0.5..200.0).contains(&side.decimal()));
        let (one, other) = (side(one).ok_or(PatternError)?, side(other).ok_or(PatternError)?);
        Ok(Self { long: one.max(other), short: one.min(other) })
    }
}

impl fmt::Display for Pattern {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}x{}", self.long.decimal(), self.short.decimal())
    }
}

impl Serialize for Pattern {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Pattern {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map_err(de::Error::custom)
    }
}

impl Describe for Pattern {
    const KIND: Kind = Kind::Word;
    fn value(&self) -> Value {
        Value::Word(self.to_string())
    }
    fn from_value(value: &Value) -> Option<Self> {
        value.word()?.parse().ok()
    }
}
