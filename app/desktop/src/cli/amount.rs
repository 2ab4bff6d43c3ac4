//! Amounts on the command line: a number with or without its unit, such as `1200` or `1200m`, within the plausible range.

use propwright_schema::{
    build_list::{Conditions, Purpose},
    quantity::{Celsius, Grams, Metres, MetresPerSecond, Quantity, Unit},
    value::{Field, Record},
};

/// Height of the place.
pub(super) fn altitude(text: &str) -> Result<Metres, String> {
    amount(text, Conditions::FIELDS, "altitude_m")
}

/// Temperature of the air.
pub(super) fn temperature(text: &str) -> Result<Celsius, String> {
    amount(text.trim().strip_suffix('C').map_or(text, |bare| bare.trim_end_matches('°')), Conditions::FIELDS, "temperature_c")
}

/// Mean wind.
pub(super) fn wind(text: &str) -> Result<MetresPerSecond, String> {
    amount(text, Conditions::FIELDS, "wind_ms")
}

/// Mass that is carried besides the parts listed.
pub(super) fn payload(text: &str) -> Result<Grams, String> {
    amount(text, Purpose::FIELDS, "payload_g")
}

fn amount<U: Unit>(text: &str, fields: &[Field], name: &str) -> Result<Quantity<U>, String> {
    let symbol = U::INFO.symbol;
    let bare = text.trim().strip_suffix(symbol).unwrap_or(text);
    let amount = Quantity::parse(bare).map_err(|error| format!("{error}, such as 12 or 12{symbol}"))?;
    let plausible = fields.iter().find(|field| field.name == name).and_then(|field| field.plausible);
    match plausible {
        Some((low, high)) if !(low..=high).contains(&amount.decimal()) => Err(format!("expected {low} to {high} {symbol}")),
        _ => Ok(amount),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn with_and_without_unit() {
        assert_eq!(altitude("1200").unwrap(), altitude("1200m").unwrap());
        assert_eq!(temperature("-5").unwrap(), temperature("-5 °C").unwrap());
        assert_eq!(temperature("30C").unwrap().steps(), 30_000);
        assert_eq!(wind("4.5 m/s").unwrap().steps(), 4_500);
        assert_eq!(payload("250g").unwrap().steps(), 250_000);
    }

    #[test]
    fn refuses_what_is_no_amount_or_not_plausible() {
        for text in ["", "high", "NaN", "inf", "1e400", "12 km", "6001", "-451"] {
            assert!(altitude(text).is_err(), "{text}");
        }
        assert!(altitude("6000").is_ok() && altitude("-450").is_ok(), "the ends of the range belong to it");
    }
}
