//! Exchange rates that the user got from a bank on a day: the only way in which amounts of two currencies are added.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use crate::quantity::{Currency, Money};

/// The content of a file of rates.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rates {
    /// Version of the file's form; see [`crate::version`].
    pub version: u32,
    /// The rates. The first one says the currency in which sums are told.
    #[serde(default)]
    pub rates: Vec<Rate>,
}

/// What one unit of a currency costs in another one, on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rate {
    /// The currency that is paid.
    pub from: Currency,
    /// The currency in which the sum is told.
    pub to: Currency,
    /// Units of `to` for one unit of `from`.
    pub rate: Factor,
    /// Day of the rate.
    pub on: jiff::civil::Date,
}

impl Rates {
    /// The currency in which sums are told.
    pub fn home(&self) -> Option<Currency> {
        self.rates.first().map(|rate| rate.to)
    }

    /// The latest rate from a currency to another one; a rate is never turned round nor two of them chained.
    pub fn latest(&self, from: Currency, to: Currency) -> Option<&Rate> {
        self.rates.iter().filter(|rate| rate.from == from && rate.to == to).max_by_key(|rate| rate.on)
    }
}

impl Rate {
    /// The amount in the other currency: the exact product, rounded once to its smallest unit, half a unit away from zero.
    /// `None` for an amount of another currency and for one too large.
    ///
    /// ```
    /// use propwright_schema::rates::Rate;
    /// let rate: Rate = propwright_schema::ron_options()
    ///     .from_str(r#"(from: "GBP", to: "EUR", rate: "1.17", on: "2026-11-20")"#).unwrap();
    /// let euro = rate.convert("99.50 GBP".parse().unwrap()).unwrap();
    /// assert_eq!(euro.to_string(), "116.42 EUR"); // 99.50 · 1.17 = 116.415
    /// ```
    pub fn convert(&self, amount: Money) -> Option<Money> {
        if amount.unit() != self.from {
            return None;
        }
        let of = 10_i128.checked_pow(self.from.digits() + self.rate.scale)?;
        let product = i128::from(amount.minor()) * i128::from(self.rate.digits) * 10_i128.checked_pow(self.to.digits())?;
        let rounded = (2 * product.abs() + of) / (2 * of) * product.signum();
        i64::try_from(rounded).ok().map(|minor| Money::of(minor, self.to))
    }
}

/// An exact positive decimal factor, such as `1.17`; it keeps its digits as they were written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Factor {
    digits: u64,
    scale: u32,
}

/// Why a text is no factor.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("expected {WANTED}")]
pub struct FactorError;

const WANTED: &str = "a decimal above 0 in quotes with at most 15 digits, such as \"1.17\"";
/// Most digits of a factor; any product of it and an amount then has room in 128 bits.
const MOST_DIGITS: usize = 15;

impl FromStr for Factor {
    type Err = FactorError;

    fn from_str(text: &str) -> Result<Self, FactorError> {
        let text = text.trim();
        let (whole, rest) = text.split_once('.').unwrap_or((text, ""));
        let digits = format!("{whole}{rest}");
        let sound = !whole.is_empty() && !text.ends_with('.') && digits.bytes().all(|byte| byte.is_ascii_digit());
        if !sound || digits.len() > MOST_DIGITS {
            return Err(FactorError);
        }
        let scale = u32::try_from(rest.len()).map_err(|_| FactorError)?;
        let digits = digits.parse().map_err(|_| FactorError)?;
        if digits == 0 { Err(FactorError) } else { Ok(Self { digits, scale }) }
    }
}

impl fmt::Display for Factor {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let of = 10_u64.pow(self.scale);
        let (whole, rest) = (self.digits / of, self.digits % of);
        if self.scale == 0 { write!(f, "{whole}") } else { write!(f, "{whole}.{rest:0width$}", width = self.scale as usize) }
    }
}

impl Serialize for Factor {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Factor {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(FactorText)
    }
}

struct FactorText;

impl de::Visitor<'_> for FactorText {
    type Value = Factor;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(WANTED)
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Factor, E> {
        text.parse().map_err(E::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rate(from: &str, to: &str, rate: &str) -> Rate {
        let parse = |code: &str| code.parse().unwrap();
        Rate { from: parse(from), to: parse(to), rate: rate.parse().unwrap(), on: "2026-11-20".parse().unwrap() }
    }

    fn told(amount: &str, rate: &Rate) -> Option<String> {
        rate.convert(amount.parse().unwrap()).map(|money| money.to_string())
    }

    #[test]
    fn factors_keep_their_digits() {
        for text in ["1.17", "1.170", "0.0061", "163", "123456.789012345"] {
            assert_eq!(text.parse::<Factor>().unwrap().to_string(), text);
        }
        for text in ["", "0", "0.00", "-1.17", "1,17", "1.", ".5", "1e3", "1.1.1", "1234567890.123456", "x"] {
            assert_eq!(text.parse::<Factor>(), Err(FactorError), "{text}");
        }
    }

    #[test]
    fn half_a_unit_goes_away_from_zero() {
        let half = rate("GBP", "EUR", "0.5");
        let expected = [("0.01 GBP", "0.01 EUR"), ("-0.01 GBP", "-0.01 EUR"), ("0.02 GBP", "0.01 EUR"), ("0.03 GBP", "0.02 EUR")];
        for (amount, euro) in expected {
            assert_eq!(told(amount, &half).as_deref(), Some(euro));
        }
        assert_eq!(told("1.00 GBP", &rate("GBP", "EUR", "1.1749999")).as_deref(), Some("1.17 EUR"));
        assert_eq!(told("1.00 GBP", &rate("GBP", "EUR", "1.175")).as_deref(), Some("1.18 EUR"));
    }

    #[test]
    fn currencies_with_other_digits() {
        assert_eq!(told("1000 JPY", &rate("JPY", "EUR", "0.0061")).as_deref(), Some("6.10 EUR"));
        assert_eq!(told("6.10 EUR", &rate("EUR", "JPY", "163.9")).as_deref(), Some("1000 JPY"));
        assert_eq!(told("1.250 KWD", &rate("KWD", "EUR", "3")).as_deref(), Some("3.75 EUR"));
    }

    #[test]
    fn only_its_own_currency_and_no_overflow() {
        assert_eq!(told("1.00 USD", &rate("GBP", "EUR", "1.17")), None);
        assert_eq!(rate("JPY", "EUR", "99999").convert(Money::from_minor(i64::MAX, "JPY").unwrap()), None);
        let largest = rate("KWD", "KWD", "999999999999999");
        assert_eq!(largest.convert(Money::from_minor(i64::MAX, "KWD").unwrap()), None);
    }

    #[test]
    fn the_latest_rate_counts() {
        let (old, new) = (rate("GBP", "EUR", "1.2"), rate("GBP", "EUR", "1.17"));
        let old = Rate { on: "2026-01-02".parse().unwrap(), ..old };
        let rates = Rates { version: 1, rates: vec![new, old] };
        let [pound, euro] = ["GBP", "EUR"].map(|code| code.parse().unwrap());
        assert_eq!(rates.latest(pound, euro), Some(&new));
        assert_eq!(rates.latest(euro, pound), None);
        assert_eq!(rates.home(), Some(euro));
    }
}
