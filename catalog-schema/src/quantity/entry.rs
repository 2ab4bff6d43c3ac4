//! Figures as people type them: with or without a unit, in the field's unit or in another of the same dimension.

use super::{QuantityError, UNITS, UnitInfo};

/// A unit in which people speak though no record does: symbols, dimension, its size in SI, and where its zero lies.
struct Spoken {
    symbols: &'static [&'static str],
    dimension: &'static str,
    si: f64,
    zero: f64,
}

const fn spoken(symbols: &'static [&'static str], dimension: &'static str, si: f64) -> Spoken {
    Spoken { symbols, dimension, si, zero: 0.0 }
}

/// Factors: international yard and pound agreement of 1959; knot and degree Fahrenheit by definition.
const SPOKEN: &[Spoken] = &[
    spoken(&["kg"], "mass", 1.0),
    spoken(&["mg"], "mass", 1e-6),
    spoken(&["oz"], "mass", 0.028_349_523_125),
    spoken(&["lb", "lbs"], "mass", 0.453_592_37),
    spoken(&["cm"], "length", 0.01),
    spoken(&["µm", "um"], "length", 1e-6),
    spoken(&["ft", "'", "′"], "length", 0.3048),
    spoken(&["\"", "″", "inch"], "length", 0.0254),
    spoken(&["yd"], "length", 0.9144),
    spoken(&["mi"], "length", 1609.344),
    spoken(&["km/h", "kmh", "kph"], "speed", 1.0 / 3.6),
    spoken(&["mph"], "speed", 0.447_04),
    spoken(&["kn", "kt"], "speed", 1852.0 / 3600.0),
    spoken(&["ms", "mps"], "speed", 1.0),
    Spoken { symbols: &["°F", "F"], dimension: "temperature", si: 5.0 / 9.0, zero: -160.0 / 9.0 },
    spoken(&["C"], "temperature", 1.0),
    spoken(&["sec"], "time", 1.0),
    spoken(&["mins", "minutes"], "time", 60.0),
    spoken(&["hours", "hr"], "time", 3600.0),
    spoken(&["mA"], "current", 1e-3),
    spoken(&["mV"], "voltage", 1e-3),
    spoken(&["Ah"], "charge", 3600.0),
    spoken(&["Ω", "ohm"], "resistance", 1.0),
    spoken(&["kW"], "power", 1e3),
    spoken(&["GHz"], "frequency", 1e9),
    spoken(&["KV", "rpm per volt"], "speed constant", std::f64::consts::PI / 30.0),
    spoken(&["mA"], "burst current", 1e-3),
];

/// Why a typed text is no figure of a unit.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum EntryError {
    /// There is no number at the beginning.
    #[error("expected a number, such as 12 or 12 {0}")]
    NoNumber(&'static str),
    /// The unit is none that measures the same.
    #[error("“{typed}” is no unit here; expected {known}")]
    OtherUnit {
        /// What was typed.
        typed: String,
        /// The units that would do.
        known: String,
    },
    /// The figure cannot be kept.
    #[error(transparent)]
    Figure(#[from] QuantityError),
}

/// The steps of a figure that was typed for a field in `unit`. A comma counts as a decimal point.
///
/// A figure in the field's own unit must be exact; one in another unit is rounded to the nearest step.
///
/// ```
/// use propwright_schema::quantity::{G, Mm, Unit, read_figure};
/// assert_eq!(read_figure("1300", &G::INFO).unwrap(), 1_300_000); // milligrams
/// assert_eq!(read_figure("2,5 oz", &G::INFO).unwrap(), 70_874); // 2.5 × 28.349523125 g
/// assert_eq!(read_figure("5\"", &Mm::INFO).unwrap(), 1_270_000); // 127 mm in steps of 0.1 µm
/// ```
///
/// # Errors
/// When there is no number, the unit measures something else, or the figure cannot be kept.
pub fn read_figure(text: &str, unit: &UnitInfo) -> Result<i64, EntryError> {
    let (number, symbol) = split(text.trim());
    let figure: f64 = number.parse().map_err(|_| EntryError::NoNumber(unit.symbol))?;
    if !figure.is_finite() {
        return Err(QuantityError::NotFinite.into());
    }
    let own = symbol.is_empty() || symbol == unit.symbol;
    let exact =
        if own { figure * unit.steps as f64 } else { in_steps(figure, symbol, unit).ok_or_else(|| other_unit(symbol, unit))? };
    if exact.abs() > super::MOST_STEPS {
        return Err(QuantityError::TooLarge { value: figure, unit: unit.symbol }.into());
    }
    if own && (exact - exact.round()).abs() > 1e-6 * exact.abs().max(1.0) {
        return Err(QuantityError::TooFine { value: figure, unit: unit.symbol, step: 1.0 / unit.steps as f64 }.into());
    }
    #[expect(clippy::cast_possible_truncation, reason = "bounded by MOST_STEPS above")]
    Ok(exact.round() as i64)
}

/// The units in which a figure of the dimension of `unit` may be typed, its own first.
pub fn spoken_units(unit: &UnitInfo) -> Vec<&'static str> {
    let recorded = UNITS.iter().filter(|other| other.dimension == unit.dimension && other.symbol != unit.symbol);
    let spoken = SPOKEN.iter().filter(|other| other.dimension == unit.dimension).filter_map(|other| other.symbols.first());
    let own = UNITS.iter().find(|known| known.symbol == unit.symbol && known.dimension == unit.dimension);
    own.into_iter().chain(recorded).map(|known| known.symbol).chain(spoken.copied()).collect()
}

/// Number and unit of a text; the number with a point and a plain minus.
fn split(text: &str) -> (String, &str) {
    let end = text.find(|letter: char| !(letter.is_ascii_digit() || "+-−.,".contains(letter))).unwrap_or(text.len());
    let (number, symbol) = text.split_at(end);
    let point = number.contains('.') || number.matches(',').count() != 1;
    let number = number.replace('−', "-");
    (if point { number } else { number.replace(',', ".") }, symbol.trim())
}

fn in_steps(figure: f64, symbol: &str, unit: &UnitInfo) -> Option<f64> {
    let same = |other: &str, exactly: bool| if exactly { other == symbol } else { other.to_lowercase() == symbol.to_lowercase() };
    let find = |exactly: bool| {
        let recorded = UNITS.iter().filter(|other| other.dimension == unit.dimension);
        let spoken = SPOKEN.iter().filter(|other| other.dimension == unit.dimension);
        let mut both = recorded
            .map(|other| (std::slice::from_ref(&other.symbol), other.steps as f64 * other.si_per_step, 0.0))
            .chain(spoken.map(|other| (other.symbols, other.si, other.zero)));
        both.find(|(symbols, ..)| symbols.iter().any(|other| same(other, exactly)))
    };
    let (_, si, zero) = find(true).or_else(|| find(false))?;
    Some((figure * si + zero) / unit.si_per_step)
}

fn other_unit(typed: &str, unit: &UnitInfo) -> EntryError {
    let known = spoken_units(unit);
    let known = match known.split_last() {
        Some((last, others)) if !others.is_empty() => format!("{} or {last}", others.join(", ")),
        _ => unit.symbol.to_owned(),
    };
    EntryError::OtherUnit { typed: typed.to_owned(), known }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{DegC, G, H, Km, M, MPerS, Min, Mm, Unit};

    #[test]
    fn other_units_are_converted() {
        // NIST SP 811 (2008), appendix B.8: factors of mile, knot, foot, ounce, pound; degree Fahrenheit in B.8 too.
        for (text, unit, steps) in [
            ("1 mi", &Km::INFO, 16_093_440_000),
            ("10 kn", &MPerS::INFO, 5_144),
            ("36 km/h", &MPerS::INFO, 10_000),
            ("1000 ft", &M::INFO, 3_048_000_000),
            ("1 lb", &G::INFO, 453_592),
            ("1.5kg", &G::INFO, 1_500_000),
            ("50 °F", &DegC::INFO, 10_000),
            ("-40 F", &DegC::INFO, -40_000),
            ("−5", &DegC::INFO, -5_000),
            ("90 s", &Min::INFO, 90_000),
            ("30 min", &H::INFO, 1_800_000),
            ("2 IN", &Mm::INFO, 508_000),
        ] {
            assert_eq!(read_figure(text, unit), Ok(steps), "{text}");
        }
    }

    #[test]
    fn what_is_no_figure_is_refused() {
        for text in ["", "g", "many", "1,000,5", "1.2.3", "--4", "1e5 g"] {
            assert!(read_figure(text, &G::INFO).is_err(), "{text}");
        }
        let error = read_figure("5 V", &G::INFO).unwrap_err().to_string();
        assert_eq!(error, "“V” is no unit here; expected g, kg, mg, oz or lb");
        assert!(matches!(read_figure("0.00001", &G::INFO), Err(EntryError::Figure(QuantityError::TooFine { .. }))));
        assert!(matches!(read_figure("9999999999999", &G::INFO), Err(EntryError::Figure(QuantityError::TooLarge { .. }))));
    }
}
