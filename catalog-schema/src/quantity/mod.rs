//! Fixed-point quantities: a whole number of small steps, written as a decimal of the unit in the field's name.
//!
//! A figure of a record is stored exactly (0.1 µm, 1 mg, 1 mA, 1 mV, 1 µΩ …), so that rules compare whole numbers and
//! a file that was read and written again holds the same digits. Arithmetic of the models happens in SI units:
//! [`Quantity::si`] gives the typed quantity of the `uom` crate.
//!
//! ```
//! use propwright_schema::quantity::{Inches, Millimetres};
//! let five = Inches::parse("5").unwrap();
//! assert_eq!(five.steps(), Millimetres::parse("127").unwrap().steps()); // the same length, exactly
//! ```

mod currency;
mod entry;
mod money;
mod spoken_price;
mod units;

use std::{cmp::Ordering, fmt, hash::Hash, hash::Hasher, marker::PhantomData};

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

pub use currency::{Currency, CurrencyError};
pub use entry::{EntryError, read_figure, spoken_units};
pub use money::{Money, MoneyError};
pub use spoken_price::{read_day, read_money};
pub use units::*;

/// What a unit is: its symbol, the dimension that it measures, and the steps in one unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UnitInfo {
    /// Symbol as printed behind a figure, such as `mm`.
    pub symbol: &'static str,
    /// Ending of a field's name that carries figures in this unit, such as `_mm`.
    pub suffix: &'static str,
    /// What it measures; only figures of one dimension are compared.
    pub dimension: &'static str,
    /// Steps in one unit; units of one dimension share the step.
    pub steps: i64,
    /// Value of one step in the SI unit of the dimension (for decibels and temperatures: of the scale itself).
    pub si_per_step: f64,
}

impl UnitInfo {
    /// The figure of `steps` in this unit.
    pub fn decimal(&self, steps: i64) -> f64 {
        steps as f64 / self.steps as f64
    }
}

/// A unit of measure as a type, so that cell volts and pack volts cannot be confused.
pub trait Unit: Copy + fmt::Debug + 'static {
    /// The typed SI quantity.
    type Si;
    /// Symbol, dimension and step.
    const INFO: UnitInfo;
    /// The SI quantity of a number of steps.
    fn si(steps: i64) -> Self::Si;
}

/// A figure in steps of the unit `U`.
pub struct Quantity<U>(i64, PhantomData<U>);

/// Why a text or number is no figure of a unit.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum QuantityError {
    /// Not a number, or infinite.
    #[error("expected a finite number")]
    NotFinite,
    /// More digits than the step can hold, or too large by far.
    #[error("{value} {unit} is finer than the smallest step kept, {step} {unit}")]
    TooFine {
        /// The figure.
        value: f64,
        /// Its unit.
        unit: &'static str,
        /// The step.
        step: f64,
    },
    /// Beyond any figure of the trade.
    #[error("{value} {unit} is beyond any figure of this kind")]
    TooLarge {
        /// The figure.
        value: f64,
        /// Its unit.
        unit: &'static str,
    },
}

/// The largest number of steps kept: whole numbers up to here are exact as `f64` with room to add many of them.
const MOST_STEPS: f64 = 4.0e15;

impl<U: Unit> Quantity<U> {
    /// A figure of `steps` steps.
    pub const fn from_steps(steps: i64) -> Self {
        Self(steps, PhantomData)
    }

    /// The whole number of steps.
    pub const fn steps(self) -> i64 {
        self.0
    }

    /// The figure in the unit of the field's name.
    pub fn decimal(self) -> f64 {
        U::INFO.decimal(self.0)
    }

    /// The typed SI quantity.
    pub fn si(self) -> U::Si {
        U::si(self.0)
    }

    /// The figure of a decimal number.
    ///
    /// # Errors
    /// When it is not finite, finer than the step, or beyond any figure of the trade.
    pub fn from_decimal(value: f64) -> Result<Self, QuantityError> {
        let unit = U::INFO;
        if !value.is_finite() {
            return Err(QuantityError::NotFinite);
        }
        let exact = value * unit.steps as f64;
        if exact.abs() > MOST_STEPS {
            return Err(QuantityError::TooLarge { value, unit: unit.symbol });
        }
        let steps = exact.round();
        if (exact - steps).abs() > 1e-6 * exact.abs().max(1.0) {
            let step = 1.0 / unit.steps as f64;
            return Err(QuantityError::TooFine { value, unit: unit.symbol, step });
        }
        #[expect(clippy::cast_possible_truncation, reason = "bounded by MOST_STEPS above")]
        Ok(Self::from_steps(steps as i64))
    }

    /// The figure of a decimal number in text.
    ///
    /// # Errors
    /// As [`Quantity::from_decimal`]; a text that is no number counts as not finite.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        Self::from_decimal(text.trim().parse().map_err(|_| QuantityError::NotFinite)?)
    }
}

impl<U> Clone for Quantity<U> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<U> Copy for Quantity<U> {}
impl<U> PartialEq for Quantity<U> {
    fn eq(&self, other: &Self) -> bool {
        self.0 == other.0
    }
}
impl<U> Eq for Quantity<U> {}
impl<U> PartialOrd for Quantity<U> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl<U> Ord for Quantity<U> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.0.cmp(&other.0)
    }
}
impl<U> Hash for Quantity<U> {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.0.hash(state);
    }
}

impl<U: Unit> fmt::Debug for Quantity<U> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl<U: Unit> fmt::Display for Quantity<U> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.decimal(), U::INFO.symbol)
    }
}

impl<U: Unit> Serialize for Quantity<U> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.decimal())
    }
}

impl<'de, U: Unit> Deserialize<'de> for Quantity<U> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let value = f64::deserialize(deserializer)?;
        Self::from_decimal(value).map_err(de::Error::custom)
    }
}
