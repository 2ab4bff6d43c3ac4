//! Currencies by their three letters (ISO 4217).

use std::{fmt, str::FromStr};

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

/// A currency.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Currency([u8; 3]);

/// Why a text is no currency.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("expected a currency by its three capital letters in quotes, such as \"EUR\"")]
pub struct CurrencyError;

/// Currencies without a smaller unit, and those with three digits (ISO 4217, from memory); all others have two.
const NO_DIGITS: [&[u8; 3]; 6] = [b"JPY", b"KRW", b"ISK", b"CLP", b"VND", b"HUF"];
const THREE_DIGITS: [&[u8; 3]; 5] = [b"KWD", b"BHD", b"OMR", b"JOD", b"TND"];

impl Currency {
    /// The three letters.
    pub fn code(&self) -> &str {
        std::str::from_utf8(&self.0).unwrap_or("???")
    }

    /// Decimal digits of its smallest unit.
    ///
    /// ```
    /// use propwright_schema::quantity::Currency;
    /// let digits = |code: &str| code.parse::<Currency>().unwrap().digits();
    /// assert_eq!((digits("EUR"), digits("JPY"), digits("KWD")), (2, 0, 3));
    /// ```
    pub fn digits(self) -> u32 {
        if NO_DIGITS.contains(&&self.0) {
            0
        } else if THREE_DIGITS.contains(&&self.0) {
            3
        } else {
            2
        }
    }
}

impl FromStr for Currency {
    type Err = CurrencyError;

    fn from_str(text: &str) -> Result<Self, CurrencyError> {
        let letters: [u8; 3] = text.as_bytes().try_into().map_err(|_| CurrencyError)?;
        if letters.iter().all(u8::is_ascii_uppercase) { Ok(Self(letters)) } else { Err(CurrencyError) }
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code())
    }
}

impl Serialize for Currency {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.code())
    }
}

impl<'de> Deserialize<'de> for Currency {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(Letters)
    }
}

struct Letters;

impl de::Visitor<'_> for Letters {
    type Value = Currency;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "a currency by its three capital letters in quotes, such as \"EUR\"")
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Currency, E> {
        text.parse().map_err(E::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_capital_letters() {
        assert_eq!("EUR".parse::<Currency>().unwrap().to_string(), "EUR");
        for text in ["", "EU", "EURO", "eur", "E1R", "é€"] {
            assert_eq!(text.parse::<Currency>(), Err(CurrencyError), "{text}");
        }
    }
}
