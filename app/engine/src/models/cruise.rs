//! A whole craft in level flight: what a speed takes, how fast it gets, how far and how long it flies.
//!
//! At a level speed V the balance of [`super::flight`] asks for thrust and tilt, `T/left` of the rotors; Glauert's stream
//! through the discs loads them and [`super::powertrain`] answers with power P and duty. Top speed is the V at which no volts are
//! left within the output limit. Out and back in a wind w at the airspeed V takes `2·r·V/(V² − w²)`, so the farthest radius is at the
//! largest `(V² − w²)/(V·P)`, the longest flight at the least P. Valid in a steady state; a pilot's tilt limit usually ends
//! it earlier. Source: the models that it joins. The drag area decides, and it is judgement until a speed was logged.

use super::atmosphere::Air;
use super::bracket;
use super::discharge::Discharge;
use super::error::{Infeasible, ModelError, in_range};
use super::flight::{self, Inflow, Trim};
use super::powertrain::{Load, Powertrain};

/// Highest speed that is tried, m/s.
const FASTEST: f64 = 150.0;
/// Stride of the search for top speed, m/s.
const STRIDE: f64 = 12.0;
/// Halvings of a search for the edge of the models: to a tenth of a millimetre a second.
const HALVINGS: u32 = 20;
/// Steps of the golden section for best speeds: to a thousandth of the range.
const SECTIONS: u32 = 15;
/// Speed below which no range is asked, m/s.
const SLOWEST: f64 = 1.0;
/// Step of the slope of the volts left, as a share of the speed.
const SLOPE_STEP: f64 = 1e-3;

/// A craft: its powertrain and what it carries through the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Craft {
    /// Motors, propellers, controllers and pack.
    pub powertrain: Powertrain,
    /// Mass with pack and payload, kg.
    pub mass_kg: f64,
    /// Drag area `CdA`, m².
    pub cda_m2: f64,
    /// Share of the rotors' thrust left behind arms and body ([`flight::THRUST_LEFT_OPEN`] and its like).
    pub thrust_left: f64,
}

/// A craft at a level speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    /// Drag, tilt and thrust of the craft.
    pub trim: Trim,
    /// Stream through the rotors.
    pub inflow: Inflow,
    /// What it asks of the pack.
    pub load: Load,
}

/// Top speed, and how it moves when a craft is changed a little.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TopSpeed {
    /// Level speed, m/s.
    pub speed_m_s: f64,
    /// Volts left that a metre a second more costs, V·s/m; absent where the propeller model ends before the volts do.
    slope: Option<f64>,
}

impl Craft {
    /// Thrust that each rotor gives in hover, N.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// // The craft of [`Self::level`]. By hand: 0.72·9.80665/(4·0.93) = 1.898 N.
    /// assert!((craft.hover_thrust().unwrap() - 1.898).abs() < 0.0005);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] for a mass or share outside of their range, or no motor.
    pub fn hover_thrust(&self) -> Result<f64, ModelError> {
        Ok(in_range("mass in kg", self.mass_kg, 0.005, 100.0)? * super::atmosphere::GRAVITY / self.rotors_left()?)
    }

    /// Thrust of all rotors that is left at the craft, over its weight, at full throttle.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// // The craft of [`Self::level`], computed apart: 13.99 N a rotor on the half-charged pack, over 1.898 N.
    /// assert!((craft.thrust_to_weight(&air, 0.5, 1.0).unwrap() - 7.37).abs() < 0.005);
    /// ```
    ///
    /// # Errors
    /// As [`Self::hover_thrust`] and [`Powertrain::operating_point`].
    pub fn thrust_to_weight(&self, air: &Air, state_of_charge: f64, duty_limit: f64) -> Result<f64, ModelError> {
        let full = self.powertrain.operating_point(air, state_of_charge, duty_limit)?;
        Ok(full.thrust_n / self.hover_thrust()?)
    }

    /// The craft at a level speed in m/s.
    ///
    /// ```
    /// use propwright_engine::models::{atmosphere::Air, battery::{Chemistry, Pack}, cruise::Craft, esc::Esc, flight};
    /// use propwright_engine::models::{installation::Propeller, stator::Stator, powertrain::Powertrain, propeller::Geometry};
    /// let powertrain = Powertrain {
    ///     motor: Stator::new(22.0, 7.0).unwrap().estimated_motor(1950.0).unwrap(),
    ///     propeller: Propeller::closed_form(Geometry::inches(5.1, 4.3, 3)),
    ///     esc: Esc { resistance: 0.002 },
    ///     motors: 4,
    ///     pack: Pack::estimated(Chemistry::LiPo, 6, 1, 1.3).unwrap(),
    ///     auxiliary_w: 10.0,
    /// };
    /// let craft = Craft { powertrain, mass_kg: 0.72, cda_m2: 0.0115, thrust_left: flight::THRUST_LEFT_OPEN };
    /// let level = craft.level(&Air::standard(0.0).unwrap(), 30.0).unwrap();
    /// assert!((level.trim.tilt_rad.to_degrees() - 41.92).abs() < 0.005);
    /// ```
    ///
    /// # Errors
    /// As [`flight::trim`], [`flight::forward_inflow`] and [`Powertrain::load`].
    pub fn level(&self, air: &Air, speed_m_s: f64) -> Result<Level, ModelError> {
        let trim = flight::trim(self.mass_kg, self.cda_m2, speed_m_s, air.density)?;
        let rotors = self.rotors_left()?;
        let area = flight::disc_area(self.powertrain.motors, self.powertrain.propeller.geometry.diameter_m);
        let of_all = trim.thrust_n / self.thrust_left;
        let inflow = flight::forward_inflow(of_all, area, air.density, speed_m_s, trim.tilt_rad)?;
        let load = self.powertrain.load(air, trim.thrust_n / rotors, &inflow)?;
        Ok(Level { trim, inflow, load })
    }

    fn volts_left(&self, air: &Air, speed_m_s: f64, state_of_charge: f64, duty_limit: f64) -> Result<f64, ModelError> {
        self.powertrain.volts_left(&self.level(air, speed_m_s)?.load, state_of_charge, duty_limit)
    }

    /// Highest level speed at a state of charge with the controllers held to `duty_limit`.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// // The craft of [`Self::level`], computed apart: 54.85 m/s, or 197 km/h; pitch times speed without load says 276.
    /// assert!((craft.top_speed(&air, 0.8, 1.0).unwrap().speed_m_s - 54.85).abs() < 0.005);
    /// ```
    ///
    /// # Errors
    /// [`Infeasible`] when the craft cannot hover within the limit; [`ModelError::OutOfRange`] as [`Self::level`].
    pub fn top_speed(&self, air: &Air, state_of_charge: f64, duty_limit: f64) -> Result<TopSpeed, ModelError> {
        let left = |speed: f64| self.volts_left(air, speed, state_of_charge, duty_limit);
        if left(0.0)? < 0.0 {
            let hover = self.powertrain.settle(&self.level(air, 0.0)?.load, air, state_of_charge)?;
            return Err(Infeasible::Duty { needed: hover.duty, limit: duty_limit }.into());
        }
        let (slow, fast) = edge(left)?;
        let Some(fast) = fast else { return Ok(TopSpeed { speed_m_s: slow, slope: None }) };
        let speed_m_s = bracket::root(slow, fast, left)?;
        let step = SLOPE_STEP * speed_m_s;
        let slope = (left(speed_m_s)? - left(speed_m_s - step)?) / step;
        Ok(TopSpeed { speed_m_s, slope: (slope < 0.0).then_some(slope) })
    }

    /// Top speed of a craft that differs little from the one whose top speed is `from`: one step of Newton's rule, which is right to
    /// first order.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// // The craft of [`Self::level`] with a hundredth less drag area, computed apart: 0.143 m/s more than 54.85.
    /// let from = craft.top_speed(&air, 0.8, 1.0).unwrap();
    /// let slicker = Craft { cda_m2: 0.99 * craft.cda_m2, ..craft };
    /// let more = slicker.top_speed_near(&from, &air, 0.8, 1.0).unwrap() - from.speed_m_s;
    /// assert!((more - 0.143).abs() < 0.003, "{more}");
    /// ```
    ///
    /// # Errors
    /// As [`Self::top_speed`].
    pub fn top_speed_near(&self, from: &TopSpeed, air: &Air, state_of_charge: f64, duty_limit: f64) -> Result<f64, ModelError> {
        let Some(slope) = from.slope else { return Ok(self.top_speed(air, state_of_charge, duty_limit)?.speed_m_s) };
        Ok(from.speed_m_s - self.volts_left(air, from.speed_m_s, state_of_charge, duty_limit)? / slope)
    }

    /// The airspeed of the farthest radius out and back in a wind along the way, up to `fastest`, m/s; in still air that of most
    /// metres a watt-second.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// // The craft of [`Self::level`], computed apart: least watt-seconds a metre at 16.6 m/s, against 8 m/s of wind at 21.4 m/s.
    /// assert!((craft.range_speed(&air, 0.0, 45.0).unwrap() - 16.6).abs() < 0.1);
    /// assert!((craft.range_speed(&air, 8.0, 45.0).unwrap() - 21.4).abs() < 0.1);
    /// ```
    ///
    /// # Errors
    /// As [`Self::level`].
    pub fn range_speed(&self, air: &Air, wind_m_s: f64, fastest: f64) -> Result<f64, ModelError> {
        let slowest = SLOWEST.max(wind_m_s).min(fastest);
        best(slowest, fastest, |speed| {
            let progress = (speed * speed - wind_m_s * wind_m_s) / speed;
            Ok(progress / self.level(air, speed)?.load.battery_w)
        })
    }

    /// The airspeed of the longest flight, up to `fastest`, m/s.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// // The craft of [`Self::level`], computed apart: the least power is that at 10.0 m/s.
    /// assert!((craft.endurance_speed(&air, 45.0).unwrap() - 10.0).abs() < 0.1);
    /// ```
    ///
    /// # Errors
    /// As [`Self::level`].
    pub fn endurance_speed(&self, air: &Air, fastest: f64) -> Result<f64, ModelError> {
        best(0.0, fastest, |speed| Ok(1.0 / self.level(air, speed)?.load.battery_w))
    }

    /// Flight at a level speed from the full pack to its reserve or cut-off.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// // The craft of [`Self::level`], computed apart: 163.9 W at 15 m/s, 80 % of 1.3 Ah last 533 s.
    /// assert!((craft.flown(&air, 15.0).unwrap().seconds - 532.7).abs() < 0.5);
    /// ```
    ///
    /// # Errors
    /// As [`Self::level`] and [`Powertrain::endurance`].
    pub fn flown(&self, air: &Air, speed_m_s: f64) -> Result<Discharge, ModelError> {
        self.powertrain.endurance(air, &self.level(air, speed_m_s)?.load)
    }

    /// Rotors as far as their thrust is left.
    fn rotors_left(&self) -> Result<f64, ModelError> {
        let motors = in_range("motors", f64::from(self.powertrain.motors), 1.0, 16.0)?;
        Ok(motors * in_range("share of thrust left", self.thrust_left, 0.3, 1.0)?)
    }
}

/// Radius that a flight of some seconds reaches out and back at an airspeed in a wind along the way, m; none where the wind is
/// faster.
///
/// ```
/// use propwright_engine::models::cruise::radius;
/// // Out at 5 m/s, back at 15 m/s over ground: 100 s and 33.3 s for 500 m.
/// assert!((radius(133.333_333, 10.0, 5.0) - 500.0).abs() < 1e-3);
/// ```
pub fn radius(seconds: f64, speed_m_s: f64, wind_m_s: f64) -> f64 {
    (seconds * (speed_m_s * speed_m_s - wind_m_s * wind_m_s) / (2.0 * speed_m_s)).max(0.0)
}

/// The last stride in which `left` changes its sign; with no end where the models end first.
fn edge(left: impl Fn(f64) -> Result<f64, ModelError>) -> Result<(f64, Option<f64>), ModelError> {
    let (mut slow, mut stride) = (0.0, STRIDE);
    let mut halvings = 0;
    while slow < FASTEST && halvings < HALVINGS {
        match left(slow + stride) {
            Ok(volts) if volts > 0.0 => slow += stride,
            Ok(_) => return Ok((slow, Some(slow + stride))),
            Err(ModelError::Infeasible(_)) => {
                stride /= 2.0;
                halvings += 1;
            }
            Err(other) => return Err(other),
        }
    }
    Ok((slow, None))
}

/// Where a function with one peak is largest between two ends, by golden section.
fn best(low: f64, high: f64, f: impl Fn(f64) -> Result<f64, ModelError>) -> Result<f64, ModelError> {
    let shrink = (5_f64.sqrt() - 1.0) / 2.0;
    let (mut low, mut high) = (low, high);
    let (mut a, mut b) = (high - shrink * (high - low), low + shrink * (high - low));
    let (mut at_a, mut at_b) = (f(a)?, f(b)?);
    for _ in 0..SECTIONS {
        if at_a >= at_b {
            (high, b, at_b) = (b, a, at_a);
            a = high - shrink * (high - low);
            at_a = f(a)?;
        } else {
            (low, a, at_a) = (a, b, at_b);
            b = low + shrink * (high - low);
            at_b = f(b)?;
        }
    }
    Ok(f64::midpoint(low, high))
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::models::battery::{Chemistry, Pack};
    use crate::models::esc::Esc;
    use crate::models::installation::Propeller;
    use crate::models::propeller::Geometry;
    use crate::models::stator::Stator;

    /// A sound 5 in craft of 0.72 kg on 6S 1300 mAh.
    pub(crate) fn five_inch() -> Craft {
        let powertrain = Powertrain {
            motor: Stator::new(22.0, 7.0).unwrap().estimated_motor(1950.0).unwrap(),
            propeller: Propeller::closed_form(Geometry::inches(5.1, 4.3, 3)),
            esc: Esc { resistance: 0.002 },
            motors: 4,
            pack: Pack::estimated(Chemistry::LiPo, 6, 1, 1.3).unwrap(),
            auxiliary_w: 10.0,
        };
        Craft { powertrain, mass_kg: 0.72, cda_m2: 0.0115, thrust_left: flight::THRUST_LEFT_OPEN }
    }

    fn sea_level() -> Air {
        Air::standard(0.0).unwrap()
    }

    #[test]
    fn top_speed_is_the_edge() {
        let craft = five_inch();
        let top = craft.top_speed(&sea_level(), 0.8, 1.0).unwrap().speed_m_s;
        let duty = |speed: f64| {
            let load = craft.level(&sea_level(), speed).unwrap().load;
            craft.powertrain.settle(&load, &sea_level(), 0.8).unwrap().duty
        };
        assert!(duty(top - 1e-3) < 1.0 && duty(top + 1e-3) > 1.0);
        assert!(craft.top_speed(&sea_level(), 0.8, 0.7).unwrap().speed_m_s < top);
        assert!(matches!(craft.top_speed(&sea_level(), 0.8, 0.2), Err(ModelError::Infeasible(Infeasible::Duty { .. }))));
    }

    #[test]
    fn a_small_change_moves_top_speed_by_one_step() {
        let craft = five_inch();
        let from = craft.top_speed(&sea_level(), 0.8, 1.0).unwrap();
        let slicker = Craft { cda_m2: craft.cda_m2 * 0.99, ..craft };
        let whole = slicker.top_speed(&sea_level(), 0.8, 1.0).unwrap().speed_m_s - from.speed_m_s;
        let step = slicker.top_speed_near(&from, &sea_level(), 0.8, 1.0).unwrap() - from.speed_m_s;
        assert!(whole > 0.0 && (step / whole - 1.0).abs() < 0.02, "{step} {whole}");
    }

    #[test]
    fn a_sound_five_inch_craft_is_as_fast_as_pilots_have_it() {
        // Common practice, no source: 160 to 210 km/h for a 5 in craft on 6S; pitch times speed without load says 276.
        let top = five_inch().top_speed(&sea_level(), 0.8, 1.0).unwrap().speed_m_s * 3.6;
        assert!((160.0..210.0).contains(&top), "{top} km/h");
    }

    #[test]
    fn best_speeds_beat_slower_and_faster_flight() {
        let craft = five_inch();
        let way = |speed: f64, wind| radius(craft.flown(&sea_level(), speed).unwrap().seconds, speed, wind);
        for wind in [0.0, 8.0] {
            let best = craft.range_speed(&sea_level(), wind, 50.0).unwrap();
            assert!(way(best, wind) > way(best * 0.8, wind) && way(best, wind) > way(best * 1.2, wind));
        }
        let time = |speed: f64| craft.flown(&sea_level(), speed).unwrap().seconds;
        let best = craft.endurance_speed(&sea_level(), 50.0).unwrap();
        assert!(time(best) > time(0.0) && time(best) > time(best * 1.4));
    }

    #[test]
    fn wind_costs_radius_and_asks_for_speed() {
        let craft = five_inch();
        let calm = craft.range_speed(&sea_level(), 0.0, 50.0).unwrap();
        assert!(craft.range_speed(&sea_level(), 10.0, 50.0).unwrap() > calm);
        assert!(radius(100.0, 15.0, 10.0) < radius(100.0, 15.0, 0.0));
        assert!(radius(100.0, 10.0, 15.0) < 1e-12, "the wind is faster");
    }
}
