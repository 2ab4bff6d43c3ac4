//! Money: exact, with its currency, one text such as `389.50 EUR`.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::Currency;

/// An amount in the smallest unit of its currency.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Money {
    currency: Currency,
    minor: i64,
}

/// Why a text is no amount of money.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("expected an amount with its currency in quotes, such as \"389.50 EUR\"")]
pub struct MoneyError;

impl Money {
    /// An amount of `minor` smallest units of a three-letter currency.
    ///
    /// # Errors
    /// When the currency is not three capital letters.
    pub fn from_minor(minor: i64, currency: &str) -> Result<Self, MoneyError> {
        currency.parse().map(|currency| Self { currency, minor }).map_err(|_| MoneyError)
    }

    /// An amount of `minor` smallest units of a currency.
    pub const fn of(minor: i64, currency: Currency) -> Self {
        Self { currency, minor }
    }

    /// The smallest units.
    pub const fn minor(self) -> i64 {
        self.minor
    }

    /// The currency's three letters.
    pub fn currency(&self) -> &str {
        self.currency.code()
    }

    /// The currency.
    pub const fn unit(self) -> Currency {
        self.currency
    }

    /// The sum of two amounts of one currency; `None` for two currencies or an overflow.
    pub fn plus(self, other: Self) -> Option<Self> {
        let same = self.currency == other.currency;
        same.then(|| self.minor.checked_add(other.minor)).flatten().map(|minor| Self { minor, ..self })
    }

    /// What is left when another amount of the same currency is taken away; `None` for two currencies or an overflow.
    pub fn minus(self, other: Self) -> Option<Self> {
        let same = self.currency == other.currency;
        same.then(|| self.minor.checked_sub(other.minor)).flatten().map(|minor| Self { minor, ..self })
    }

    /// The amount taken `count` times; `None` on overflow.
    pub fn times(self, count: u32) -> Option<Self> {
        self.minor.checked_mul(i64::from(count)).map(|minor| Self { minor, ..self })
    }

    /// The decimal amount without the currency, such as `389.50`.
    pub fn amount(self) -> String {
        let digits = self.currency.digits();
        let scale = 10_u64.pow(digits);
        let (whole, rest) = (self.minor.unsigned_abs() / scale, self.minor.unsigned_abs() % scale);
        let sign = if self.minor < 0 { "-" } else { "" };
        if digits == 0 { format!("{sign}{whole}") } else { format!("{sign}{whole}.{rest:0width$}", width = digits as usize) }
    }
}

impl FromStr for Money {
    type Err = MoneyError;

    fn from_str(text: &str) -> Result<Self, MoneyError> {
        let (amount, currency) = text.trim().split_once(' ').ok_or(MoneyError)?;
        let zero = Self::from_minor(0, currency.trim())?;
        let digits = zero.currency.digits() as usize;
        let (whole, rest) = amount.split_once('.').unwrap_or((amount, ""));
        let all_digits = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
        let unsigned = whole.strip_prefix('-').unwrap_or(whole);
        if unsigned.is_empty() || !all_digits(unsigned) || !all_digits(rest) || rest.len() > digits || amount.ends_with('.') {
            return Err(MoneyError);
        }
        let minor = format!("{whole}{rest:0<digits$}").parse().map_err(|_| MoneyError)?;
        Ok(Self { minor, ..zero })
    }
}

impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.amount(), self.currency())
    }
}

impl Serialize for Money {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Money {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(MoneyText)
    }
}

struct MoneyText;

impl de::Visitor<'_> for MoneyText {
    type Value = Money;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "an amount with its currency in quotes, such as \"389.50 EUR\"")
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Money, E> {
        text.parse().map_err(E::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_and_back() {
        for text in ["389.50 EUR", "0.05 EUR", "-1.10 GBP", "1200 JPY", "1.250 KWD"] {
            assert_eq!(text.parse::<Money>().unwrap().to_string(), text);
        }
        assert_eq!("17 EUR".parse::<Money>().unwrap().minor(), 1700);
    }

    #[test]
    fn refuses_what_is_no_amount() {
        for text in
            ["", "17", "EUR 17", "1,5 EUR", "1.555 EUR", "1. EUR", "1e3 EUR", "5 eur", "- EUR", "99999999999999999999 EUR"]
        {
            assert!(text.parse::<Money>().is_err(), "{text}");
        }
    }

    #[test]
    fn currencies_are_never_added() {
        let (euro, pound) = ("1.00 EUR".parse::<Money>().unwrap(), "1.00 GBP".parse::<Money>().unwrap());
        assert_eq!((euro.plus(pound), euro.minus(pound)), (None, None));
        assert_eq!(euro.minus(euro.times(3).unwrap()).map(Money::minor), Some(-200));
        assert_eq!(euro.plus(euro).map(Money::minor), Some(200));
    }
}
