//! How long a pack lasts: from full to the charge that stays in it, or to the voltage at which the cells give up.
//!
//! `t = 3600·C·∫ ds/I(s)`, C in Ah, s the state of charge, I in A, from the end of the flight up to a full pack. The end
//! is the reserve, or earlier the state of charge at which a loaded cell reaches its cut-off. Valid for a load that changes
//! slowly; rest voltage and resistance as in [`super::battery`]. Capacity over hover current without a reserve reads
//! 25 % too long. Source: charge balance, integrated by Simpson's rule.

use super::battery::Pack;
use super::error::{Infeasible, ModelError, in_range};

/// Intervals of charge over which a discharge is integrated (Simpson, so even).
const INTERVALS: u32 = 24;
/// Halvings with which the end of a discharge is found: to 1e-9 of the charge.
const HALVINGS: u32 = 30;

/// Why a discharge ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// The share of the capacity that was to be flown is used.
    AtReserve,
    /// The cells reached their loaded cut-off, or could not give the load any more, with charge left.
    AtCutOff,
}

/// A pack flown from full to its end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Discharge {
    /// Duration, s.
    pub seconds: f64,
    /// State of charge at the end, 0 to 1.
    pub end_state_of_charge: f64,
    /// Mean current, A.
    pub mean_current_a: f64,
    /// Loaded voltage of a cell at the end, V.
    pub landing_cell_v: f64,
    /// What ended it.
    pub ended: Ended,
}

impl Pack {
    /// Flies the full pack down to `1 − usable_share` or to `cut_off_v` a cell under load, whichever comes first;
    /// `current` gives the battery current in A at a state of charge.
    ///
    /// `t = 3600·C·∫ ds/I(s)` over the state of charge s, by Simpson's rule in 24 intervals.
    ///
    /// ```
    /// use propwright_engine::models::battery::{Chemistry, Pack};
    /// let pack = Pack::estimated(Chemistry::LiPo, 4, 1, 1.5).unwrap();
    /// let flown = pack.discharge(0.8, 3.0, |_| Ok(12.0)).unwrap();
    /// assert!((flown.seconds - 360.0).abs() < 1e-6);
    /// ```
    ///
    /// # Errors
    /// [`Infeasible::BelowCutOff`] when the full pack is below the cut-off at once; the error of `current` on a full
    /// pack; [`ModelError::OutOfRange`] for a share outside of 0.01 to 1 or a pack that is not one.
    pub fn discharge(
        &self,
        usable_share: f64,
        cut_off_v: f64,
        current: impl Fn(f64) -> Result<f64, ModelError>,
    ) -> Result<Discharge, ModelError> {
        let reserve = 1.0 - in_range("usable share", usable_share, 0.01, 1.0)?;
        let full_cell_v = self.loaded_cell_voltage(1.0, current(1.0)?)?;
        if full_cell_v < cut_off_v {
            return Err(Infeasible::BelowCutOff { cell_v: full_cell_v, cut_off_v }.into());
        }
        let flies = |soc: f64| match current(soc) {
            Ok(current_a) => Ok(self.loaded_cell_voltage(soc, current_a)? >= cut_off_v),
            Err(ModelError::Infeasible(_)) => Ok(false),
            Err(other) => Err(other),
        };
        let (end, ended) =
            if flies(reserve)? { (reserve, Ended::AtReserve) } else { (last_flying(reserve, flies)?, Ended::AtCutOff) };
        let seconds = 3600.0 * self.capacity_ah() * simpson(end, 1.0, |soc| Ok(1.0 / current(soc)?))?;
        Ok(Discharge {
            seconds,
            end_state_of_charge: end,
            mean_current_a: if seconds > 0.0 { 3600.0 * self.capacity_ah() * (1.0 - end) / seconds } else { current(1.0)? },
            landing_cell_v: self.loaded_cell_voltage(end, current(end)?)?,
            ended,
        })
    }
}

/// Lowest state of charge that still flies, between `grounded` (which does not) and 1 (which does).
fn last_flying(grounded: f64, flies: impl Fn(f64) -> Result<bool, ModelError>) -> Result<f64, ModelError> {
    let (mut down, mut up) = (grounded, 1.0);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(down, up);
        if flies(middle)? {
            up = middle;
        } else {
            down = middle;
        }
    }
    Ok(up)
}

fn simpson(from: f64, to: f64, f: impl Fn(f64) -> Result<f64, ModelError>) -> Result<f64, ModelError> {
    let step = (to - from) / f64::from(INTERVALS);
    let mut sum = f(from)? + f(to)?;
    for i in 1..INTERVALS {
        let weight = if i % 2 == 1 { 4.0 } else { 2.0 };
        sum += weight * f(from + step * f64::from(i))?;
    }
    Ok(sum * step / 3.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::models::battery::Chemistry;
    use crate::models::printed::assert_printed;

    #[test]
    fn a_weak_pack_ends_at_its_cut_off() {
        let pack = Pack::estimated(Chemistry::LiPo, 4, 1, 1.5).unwrap();
        let sound = pack.discharge(0.8, 3.0, |_| Ok(20.0)).unwrap();
        assert_eq!(sound.ended, Ended::AtReserve);
        let weak = Pack { cell_resistance: 0.040, ..pack };
        let flown = weak.discharge(0.8, 3.0, |_| Ok(20.0)).unwrap();
        assert_eq!(flown.ended, Ended::AtCutOff);
        assert!((flown.landing_cell_v - 3.0).abs() < 1e-6);
        assert!(flown.end_state_of_charge > 0.2 && flown.seconds < sound.seconds);
        let gone = Pack { cell_resistance: 0.070, ..pack };
        assert!(matches!(gone.discharge(0.8, 3.0, |_| Ok(20.0)), Err(ModelError::Infeasible(Infeasible::BelowCutOff { .. }))));
    }

    #[test]
    fn eighty_percent_at_the_rated_current_lasts_half_a_minute() {
        // Common practice: 80 % of a pack flown at 100C lasts 48/100 of a minute.
        let pack = Pack { cell_resistance: 0.0, ..Pack::estimated(Chemistry::LiPo, 6, 1, 1.3).unwrap() };
        assert_printed(pack.discharge(0.8, 3.0, |_| Ok(130.0)).unwrap().seconds, "28.8");
    }
}
