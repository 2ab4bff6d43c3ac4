//! Words for a wind speed. The figure to name is the comfortable wind, never the trim limit.
//!
//! Lower bounds in m/s, valid for the mean wind at 10 m above open ground. Source: WMO-No. 306, *Manual on Codes*, code table
//! 1805 / WMO-No. 8, Beaufort scale.

use super::error::{ModelError, in_range};

const SCALE: [(f64, &str); 13] = [
    (0.0, "calm"),
    (0.3, "light air"),
    (1.6, "light breeze"),
    (3.4, "gentle breeze"),
    (5.5, "moderate breeze"),
    (8.0, "fresh breeze"),
    (10.8, "strong breeze"),
    (13.9, "near gale"),
    (17.2, "gale"),
    (20.8, "strong gale"),
    (24.5, "storm"),
    (28.5, "violent storm"),
    (32.7, "hurricane"),
];

/// A step of the scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Beaufort {
    /// Force, 0 to 12.
    pub force: usize,
    /// The word, in lower case.
    pub word: &'static str,
}

/// The step of a mean wind in m/s.
///
/// ```
/// use propwright_engine::models::beaufort::beaufort;
/// let step = beaufort(6.0).unwrap();
/// assert_eq!((step.force, step.word), (4, "moderate breeze"));
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] for a negative speed or one above 150 m/s.
pub fn beaufort(wind_m_s: f64) -> Result<Beaufort, ModelError> {
    let wind = in_range("wind in m/s", wind_m_s, 0.0, 150.0)?;
    let force = SCALE.iter().rposition(|(from, _)| wind >= *from).unwrap_or(0);
    Ok(Beaufort { force, word: SCALE[force].1 })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boundaries_are_those_of_the_table() {
        // WMO Beaufort scale: 3 is 3.4–5.4 m/s, 8 is 17.2–20.7 m/s, 12 from 32.7 m/s.
        for (wind, force) in [(0.0, 0), (0.29, 0), (3.39, 2), (3.4, 3), (5.4, 3), (5.5, 4), (20.7, 8), (20.8, 9), (32.7, 12)] {
            assert_eq!(beaufort(wind).unwrap().force, force, "{wind} m/s");
        }
        assert!(beaufort(-0.1).is_err());
    }
}
