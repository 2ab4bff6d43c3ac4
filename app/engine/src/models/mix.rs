//! Flight times of stated mixes: how much of a flight is full throttle and how much is hover, as the user sees and edits it.
//!
//! `P = a·P_full + (1 − a)·b·P_hover` at each state of charge, flown from full to reserve or cut-off; the root-mean-square current
//! of the mix is `√(a·I_full² + (1 − a)·I_between²)`, between at the thrust of the power `b·P_hover`, `T ∝ P^(2/3)`. Hover power is the
//! same at every charge; full-throttle power is a parabola in the rest voltage through three charges (0.2 %). The mixes are
//! common practice, no source: hover; calm 1.15 × hover power; hard 0.25 full and 0.75 at 1.3 × hover; flat out full throttle all
//! the time. Valid as a stated mix, not as a forecast of a pilot: what a flown pack takes to charge calibrates it.

use super::atmosphere::Air;
use super::cruise::Craft;
use super::discharge::Discharge;
use super::error::{Infeasible, ModelError};
use super::flight::Inflow;
use super::powertrain::{Load, OperatingPoint};

/// Weights of a flight's power.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mix {
    /// Share of the time at full throttle, 0 to 1.
    pub full_share: f64,
    /// Power of the rest of the time, as a multiple of hover power.
    pub rest_factor: f64,
}

impl Mix {
    /// Hover all the time.
    pub const HOVER: Self = Self { full_share: 0.0, rest_factor: 1.0 };
    /// Calm flight.
    pub const CALM: Self = Self { full_share: 0.0, rest_factor: 1.15 };
    /// Calm flight of a small ducted craft.
    pub const CALM_DUCTED_MICRO: Self = Self { full_share: 0.0, rest_factor: 1.3 };
    /// Hard flight.
    pub const HARD: Self = Self { full_share: 0.25, rest_factor: 1.3 };
    /// Hard flight of a small ducted craft.
    pub const HARD_DUCTED_MICRO: Self = Self { full_share: 0.5, rest_factor: 1.3 };
    /// Full throttle all the time. Near the cut-off this time is a range, not a figure.
    pub const FLAT_OUT: Self = Self { full_share: 1.0, rest_factor: 0.0 };

    fn blend(&self, full: f64, hover: f64) -> f64 {
        self.full_share * full + (1.0 - self.full_share) * self.rest_factor * hover
    }

    fn hovers(&self) -> bool {
        self.full_share < 1.0 && self.rest_factor > 0.0
    }
}

/// Root-mean-square currents of a mix: what lasting ratings are compared with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RootMeanSquare {
    /// Of each motor, A.
    pub motor_a: f64,
    /// Into each controller, A.
    pub esc_a: f64,
    /// Out of the pack, A.
    pub battery_a: f64,
}

/// States of charge at which full throttle is solved.
const CHARGES: [f64; 3] = [0.5, 0.75, 1.0];

/// Hover and full throttle of a craft, solved once: what every mix is blended from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ends {
    /// What hover asks of the pack, at every charge.
    pub hover: Load,
    /// Full throttle on the half-charged pack.
    pub full_half: OperatingPoint,
    /// Full throttle on the full pack.
    pub full_fresh: OperatingPoint,
    /// Rest voltage and power of full throttle at [`CHARGES`].
    full: [(f64, f64); 3],
}

impl Ends {
    /// Power of full throttle at a rest voltage, by Lagrange's parabola.
    fn full_power(&self, rest_v: f64) -> f64 {
        let weight = |i: usize| {
            let others = self.full.iter().enumerate().filter(|(j, _)| *j != i);
            others.map(|(_, (v, _))| (rest_v - v) / (self.full[i].0 - v)).product::<f64>()
        };
        (0..CHARGES.len()).map(|i| weight(i) * self.full[i].1).sum::<f64>().max(0.0)
    }
}

impl Craft {
    /// Hover and full throttle, the controllers held to `duty_limit`.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// // The craft of [`Craft::level`], computed apart: 164.8 W in hover, 3031 W and 138.9 A at full throttle on the fresh pack.
    /// let ends = craft.ends(&air, 1.0).unwrap();
    /// assert!((ends.hover.battery_w - 164.8).abs() < 0.05);
    /// assert!((ends.full_fresh.battery_w - 3031.0).abs() < 0.5 && (ends.full_fresh.battery_a - 138.9).abs() < 0.05);
    /// ```
    ///
    /// # Errors
    /// As [`super::powertrain::Powertrain::operating_point`] and [`super::powertrain::Powertrain::load`].
    pub fn ends(&self, air: &Air, duty_limit: f64) -> Result<Ends, ModelError> {
        let full = |charge: f64| self.powertrain.operating_point(air, charge, duty_limit);
        let rest_v = |charge: f64| self.powertrain.pack.rest_voltage(charge);
        let [half, most, fresh] = CHARGES;
        let (full_half, between, full_fresh) = (full(half)?, full(most)?, full(fresh)?);
        Ok(Ends {
            hover: self.powertrain.load(air, self.hover_thrust()?, &Inflow::STILL)?,
            full_half,
            full_fresh,
            full: [
                (rest_v(half)?, full_half.battery_w),
                (rest_v(most)?, between.battery_w),
                (rest_v(fresh)?, full_fresh.battery_w),
            ],
        })
    }

    /// Time of a mix from the full pack.
    ///
    /// ```
    /// use propwright_engine::models::{atmosphere::Air, battery::{Chemistry, Pack}, cruise::Craft, esc::Esc, installation::Propeller};
    /// use propwright_engine::models::{mix::Mix, stator::Stator, powertrain::Powertrain, propeller::Geometry};
    /// let air = Air::standard(0.0).unwrap();
    /// let powertrain = Powertrain {
    ///     motor: Stator::new(22.0, 7.0).unwrap().estimated_motor(1750.0).unwrap(),
    ///     propeller: Propeller::closed_form(Geometry::inches(5.1, 4.3, 3)),
    ///     esc: Esc { resistance: 0.002 },
    ///     motors: 4,
    ///     pack: Pack::estimated(Chemistry::LiPo, 6, 1, 1.3).unwrap(),
    ///     auxiliary_w: 8.0,
    /// };
    /// let craft = Craft { powertrain, mass_kg: 0.7, cda_m2: 0.0115, thrust_left: 0.93 };
    /// let ends = craft.ends(&air, 1.0).unwrap();
    /// let minutes = |mix| craft.endurance(&ends, &mix).unwrap().seconds / 60.0;
    /// // Power 1.15 times that of hover, and the pack sags a little more: a little less than 1/1.15 of the time.
    /// let share = minutes(Mix::CALM) / minutes(Mix::HOVER);
    /// assert!((0.86..1.0 / 1.15).contains(&share), "{share}");
    /// ```
    ///
    /// # Errors
    /// As [`super::battery::Pack::discharge`]; [`Infeasible::Duty`] when the full pack does not hold a hover of the mix.
    pub fn endurance(&self, ends: &Ends, mix: &Mix) -> Result<Discharge, ModelError> {
        let pack = &self.powertrain.pack;
        self.flies_on(&ends.hover, mix.hovers(), |state_of_charge| {
            let full_w = ends.full_power(pack.rest_voltage(state_of_charge)?);
            Ok(mix.blend(full_w, ends.hover.battery_w))
        })
    }

    /// Time of a flight at `factor` times the power of hover from the full pack: [`Self::endurance`] of a mix that asks for no full
    /// throttle, which is then not solved either.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// // The craft of [`Craft::level`], computed apart: 80 % of 1.3 Ah last 460 s at 1.15 times the 164.8 W of hover.
    /// assert!((craft.steady_endurance(&air, 1.15).unwrap().seconds - 460.2).abs() < 0.5);
    /// ```
    ///
    /// # Errors
    /// As [`Self::endurance`] and [`super::powertrain::Powertrain::load`].
    pub fn steady_endurance(&self, air: &Air, factor: f64) -> Result<Discharge, ModelError> {
        let hover = self.powertrain.load(air, self.hover_thrust()?, &Inflow::STILL)?;
        self.flies_on(&hover, factor > 0.0, |_| Ok(factor * hover.battery_w))
    }

    /// The full pack flown at a power in W, which may depend on the charge; `holds` when it must carry the load of hover as well.
    fn flies_on(
        &self,
        hover: &Load,
        holds: bool,
        power: impl Fn(f64) -> Result<f64, ModelError>,
    ) -> Result<Discharge, ModelError> {
        let pack = &self.powertrain.pack;
        pack.discharge(pack.chemistry.usable_share(), pack.chemistry.loaded_cut_off(), |state_of_charge| {
            if holds && self.powertrain.volts_left(hover, state_of_charge, 1.0)? < 0.0 {
                return Err(Infeasible::Duty { needed: 1.0, limit: 1.0 }.into());
            }
            Ok(pack.draw(state_of_charge, power(state_of_charge)?)?.current_a)
        })
    }

    /// Root-mean-square currents of a mix on the half-charged pack; full throttle stands for what a craft cannot hold between.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// # use propwright_engine::models::mix::Mix;
    /// // The craft of [`Craft::level`], computed apart: √(0.25·31.28² + 0.75·6.07²) = 16.60 A in a motor, 61.61 A out of the pack.
    /// let ends = craft.ends(&air, 1.0).unwrap();
    /// let rms = craft.root_mean_square(&air, &ends, &Mix::HARD).unwrap();
    /// assert!((rms.motor_a - 16.60).abs() < 0.005 && (rms.battery_a - 61.61).abs() < 0.005, "{rms:?}");
    /// ```
    ///
    /// # Errors
    /// As [`super::powertrain::Powertrain::hover_point`], but for [`Infeasible`].
    pub fn root_mean_square(&self, air: &Air, ends: &Ends, mix: &Mix) -> Result<RootMeanSquare, ModelError> {
        let full = &ends.full_half;
        let rest_thrust = self.hover_thrust()? * mix.rest_factor.powf(2.0 / 3.0);
        let between = match self.powertrain.hover_point(air, CHARGES[0], rest_thrust.max(1e-3)) {
            Ok(point) => point,
            Err(ModelError::Infeasible(_)) => *full,
            Err(other) => return Err(other),
        };
        let of = |current: fn(&OperatingPoint) -> f64| {
            let squares = mix.full_share * current(full).powi(2) + (1.0 - mix.full_share) * current(&between).powi(2);
            squares.sqrt()
        };
        Ok(RootMeanSquare { motor_a: of(|p| p.motor_a), esc_a: of(|p| p.esc_a), battery_a: of(|p| p.battery_a) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::models::cruise::tests::five_inch;

    fn sea_level() -> Air {
        Air::standard(0.0).unwrap()
    }

    fn ends() -> Ends {
        five_inch().ends(&sea_level(), 1.0).unwrap()
    }

    #[test]
    fn hover_is_the_powertrain_s_own_endurance() {
        let mixed = five_inch().endurance(&ends(), &Mix::HOVER).unwrap();
        let own = five_inch().powertrain.endurance(&sea_level(), &ends().hover).unwrap();
        assert!((mixed.seconds / own.seconds - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_steady_flight_is_a_mix_without_full_throttle() {
        let mixed = five_inch().endurance(&ends(), &Mix::CALM).unwrap();
        let steady = five_inch().steady_endurance(&sea_level(), Mix::CALM.rest_factor).unwrap();
        assert!((steady.seconds / mixed.seconds - 1.0).abs() < 1e-12);
    }

    #[test]
    fn the_parabola_meets_full_throttle() {
        let craft = five_inch();
        for charge in [0.2, 0.3, 0.6, 0.9] {
            let solved = craft.powertrain.operating_point(&sea_level(), charge, 1.0).unwrap().battery_w;
            let read = ends().full_power(craft.powertrain.pack.rest_voltage(charge).unwrap());
            // The stated error, 0.2 %.
            assert!((read / solved - 1.0).abs() < 2e-3, "{charge} {read} {solved}");
        }
    }

    #[test]
    fn harder_mixes_last_shorter() {
        let seconds = |mix| five_inch().endurance(&ends(), &mix).unwrap().seconds;
        let times = [Mix::HOVER, Mix::CALM, Mix::HARD, Mix::FLAT_OUT].map(seconds);
        assert!(times.is_sorted_by(|longer, shorter| longer > shorter), "{times:?}");
    }

    #[test]
    fn a_sound_five_inch_craft_pulls_its_lasting_current() {
        // Common practice, no source: 55 to 69 A of 137 A at full throttle, 0.40 to 0.50 of it.
        let rms = five_inch().root_mean_square(&sea_level(), &ends(), &Mix::HARD).unwrap();
        assert!((0.40..=0.50).contains(&(rms.battery_a / ends().full_fresh.battery_a)), "{rms:?}");
        assert!(rms.battery_a / 4.0 < rms.motor_a);
    }
}
