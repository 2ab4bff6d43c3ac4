//! A whole craft in level flight: what a speed takes, how fast it gets, and how far it goes.
//!
//! At a level speed V the balance of [`super::flight`] asks for thrust and tilt, `T/left` of the rotors; Glauert's stream
//! through the discs loads them and [`super::powertrain`] answers with duty and current. Top speed is the highest V whose duty
//! stays within the output limit; best range is the V of most metres a watt-second at half charge. Valid in still air and a steady
//! state; a pilot's tilt limit usually ends it earlier. Source: the models that it joins. The drag area decides, and it is
//! judgement until a speed was logged.

use super::atmosphere::Air;
use super::discharge::Discharge;
use super::error::{Infeasible, ModelError, in_range};
use super::flight::{self, Inflow, Trim};
use super::powertrain::{OperatingPoint, Powertrain};

/// Highest speed that is tried, m/s.
const FASTEST: f64 = 150.0;
/// Halvings of the search for top speed: to a micrometre a second.
const HALVINGS: u32 = 28;
/// Steps of the golden section for best range: to a thousandth of top speed.
const SECTIONS: u32 = 15;
/// Speed below which no range is asked, m/s.
const SLOWEST: f64 = 1.0;
/// State of charge at which the best speed for range is sought.
const HALF_CHARGE: f64 = 0.5;

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
pub struct CruisePoint {
    /// Drag, tilt and thrust of the craft.
    pub trim: Trim,
    /// Stream through the rotors.
    pub inflow: Inflow,
    /// State of the powertrain.
    pub point: OperatingPoint,
}

/// Best range and how it is flown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BestRange {
    /// Level speed, m/s.
    pub speed_m_s: f64,
    /// Way over ground in still air, m.
    pub distance_m: f64,
    /// The pack over this flight.
    pub discharge: Discharge,
}

impl Craft {
    /// Thrust that each rotor gives in hover, N.
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] for a mass or share outside of their range, or no motor.
    pub fn hover_thrust(&self) -> Result<f64, ModelError> {
        Ok(in_range("mass in kg", self.mass_kg, 0.005, 100.0)? * super::atmosphere::GRAVITY / self.rotors_left()?)
    }

    /// Thrust of all rotors that is left at the craft, over its weight, at full throttle.
    ///
    /// # Errors
    /// As [`Self::hover_thrust`] and [`Powertrain::operating_point`].
    pub fn thrust_to_weight(&self, air: &Air, state_of_charge: f64, duty_limit: f64) -> Result<f64, ModelError> {
        let full = self.powertrain.operating_point(air, state_of_charge, duty_limit)?;
        Ok(full.thrust_n / self.hover_thrust()?)
    }

    /// The craft at a level speed in m/s and a state of charge.
    ///
    /// ```
    /// use propwright_engine::models::{atmosphere::Air, battery::{Chemistry, Pack}, cruise::Craft, esc::Esc, flight};
    /// use propwright_engine::models::{installation::Propeller, motor::Stator, powertrain::Powertrain, propeller::Geometry};
    /// let powertrain = Powertrain {
    ///     motor: Stator::new(22.0, 7.0).unwrap().estimated_motor(1950.0).unwrap(),
    ///     propeller: Propeller::closed_form(Geometry::inches(5.1, 4.3, 3)),
    ///     esc: Esc { resistance: 0.002 },
    ///     motors: 4,
    ///     pack: Pack::estimated(Chemistry::LiPo, 6, 1, 1.3).unwrap(),
    ///     auxiliary_w: 10.0,
    /// };
    /// let craft = Craft { powertrain, mass_kg: 0.72, cda_m2: 0.0115, thrust_left: flight::THRUST_LEFT_OPEN };
    /// let cruise = craft.point(&Air::standard(0.0).unwrap(), 0.8, 30.0).unwrap();
    /// assert!((cruise.trim.tilt_rad.to_degrees() - 41.92).abs() < 0.005);
    /// assert!((cruise.point.thrust_n - 9.489 / 0.93 / 4.0).abs() < 0.0005);
    /// ```
    ///
    /// # Errors
    /// As [`flight::trim`], [`flight::forward_inflow`] and [`Powertrain::point_at_thrust`].
    pub fn point(&self, air: &Air, state_of_charge: f64, speed_m_s: f64) -> Result<CruisePoint, ModelError> {
        let trim = flight::trim(self.mass_kg, self.cda_m2, speed_m_s, air.density)?;
        let rotors = self.rotors_left()?;
        let area = flight::disc_area(self.powertrain.motors, self.powertrain.propeller.geometry.diameter_m);
        let of_all = trim.thrust_n / self.thrust_left;
        let inflow = flight::forward_inflow(of_all, area, air.density, speed_m_s, trim.tilt_rad)?;
        let point = self.powertrain.point_at_thrust(air, state_of_charge, trim.thrust_n / rotors, &inflow)?;
        Ok(CruisePoint { trim, inflow, point })
    }

    /// Highest level speed at a state of charge with the controllers held to `duty_limit`, m/s.
    ///
    /// # Errors
    /// [`Infeasible`] when the craft cannot hover within the limit; [`ModelError::OutOfRange`] as [`Self::point`].
    pub fn top_speed(&self, air: &Air, state_of_charge: f64, duty_limit: f64) -> Result<f64, ModelError> {
        let needed = self.point(air, state_of_charge, 0.0)?.point.duty;
        if needed > duty_limit {
            return Err(Infeasible::Duty { needed, limit: duty_limit }.into());
        }
        let (mut slow, mut fast) = (0.0, FASTEST);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(slow, fast);
            match self.point(air, state_of_charge, middle) {
                Ok(cruise) if cruise.point.duty <= duty_limit => slow = middle,
                Ok(_) | Err(ModelError::Infeasible(_)) => fast = middle,
                Err(other) => return Err(other),
            }
        }
        Ok(slow)
    }

    /// The flight that goes farthest in still air, by golden section between walking pace and top speed.
    ///
    /// # Errors
    /// As [`Self::top_speed`] and [`super::battery::Pack::discharge`].
    pub fn best_range(&self, air: &Air) -> Result<BestRange, ModelError> {
        let top = self.top_speed(air, HALF_CHARGE, 1.0)?;
        let metres_a_joule = |speed: f64| self.point(air, HALF_CHARGE, speed).map(|cruise| speed / cruise.point.battery_w);
        let shrink = (5_f64.sqrt() - 1.0) / 2.0;
        let (mut slow, mut fast) = (SLOWEST.min(top), top);
        for _ in 0..SECTIONS {
            let (a, b) = (fast - shrink * (fast - slow), slow + shrink * (fast - slow));
            if metres_a_joule(a)? >= metres_a_joule(b)? {
                fast = b;
            } else {
                slow = a;
            }
        }
        let speed_m_s = f64::midpoint(slow, fast);
        let chemistry = self.powertrain.pack.chemistry;
        let discharge =
            self.powertrain.pack.discharge(chemistry.usable_share(), chemistry.loaded_cut_off(), |state_of_charge| {
                Ok(self.point(air, state_of_charge, speed_m_s)?.point.battery_a)
            })?;
        Ok(BestRange { speed_m_s, distance_m: speed_m_s * discharge.seconds, discharge })
    }

    /// Rotors as far as their thrust is left.
    fn rotors_left(&self) -> Result<f64, ModelError> {
        let motors = in_range("motors", f64::from(self.powertrain.motors), 1.0, 16.0)?;
        Ok(motors * in_range("share of thrust left", self.thrust_left, 0.3, 1.0)?)
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::models::battery::{Chemistry, Pack};
    use crate::models::esc::Esc;
    use crate::models::installation::Propeller;
    use crate::models::motor::Stator;
    use crate::models::propeller::Geometry;

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
        let top = craft.top_speed(&sea_level(), 0.8, 1.0).unwrap();
        assert!(craft.point(&sea_level(), 0.8, top).is_ok());
        assert!(craft.point(&sea_level(), 0.8, top + 1e-3).is_err());
        assert!(craft.top_speed(&sea_level(), 0.8, 0.7).unwrap() < top);
        assert!(matches!(craft.top_speed(&sea_level(), 0.8, 0.2), Err(ModelError::Infeasible(Infeasible::Duty { .. }))));
    }

    #[test]
    fn a_sound_five_inch_craft_is_as_fast_as_pilots_have_it() {
        // Common practice, no source: 160 to 210 km/h for a 5 in craft on 6S; pitch times speed without load says 276.
        let top = five_inch().top_speed(&sea_level(), 0.8, 1.0).unwrap() * 3.6;
        assert!((160.0..210.0).contains(&top), "{top} km/h");
    }

    #[test]
    fn best_range_beats_slower_and_faster_flight() {
        let craft = five_inch();
        let best = craft.best_range(&sea_level()).unwrap();
        let a_joule = |speed: f64| speed / craft.point(&sea_level(), HALF_CHARGE, speed).unwrap().point.battery_w;
        assert!(a_joule(best.speed_m_s) > a_joule(best.speed_m_s * 0.8));
        assert!(a_joule(best.speed_m_s) > a_joule(best.speed_m_s * 1.2));
        assert!((best.distance_m - best.speed_m_s * best.discharge.seconds).abs() < 1e-9);
    }
}
