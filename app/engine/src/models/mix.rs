//! Flight times of stated mixes: how much of a flight is full throttle and how much is hover, as the user sees and edits it.
//!
//! `P = a·P_full + b·P_hover` at each state of charge, flown from full to reserve or cut-off; the root-mean-square current of
//! the mix is `√(a·I_full² + (1 − a)·(b/(1 − a)·I_hover)²)`. The mixes are common practice, no source: hover; calm
//! 1.15 × hover power; hard 0.25 full and 0.75 at 1.3 × hover; flat out full throttle all the time. Valid as a stated mix,
//! not as a forecast of a pilot: what a flown pack takes to charge calibrates it.

use super::atmosphere::Air;
use super::cruise::Craft;
use super::discharge::Discharge;
use super::error::ModelError;
use super::powertrain::OperatingPoint;

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

impl Craft {
    /// Time of a mix from the full pack, the controllers held to `duty_limit`.
    ///
    /// # Errors
    /// As [`super::battery::Pack::discharge`], [`super::powertrain::Powertrain::operating_point`] and
    /// [`super::powertrain::Powertrain::hover_point`].
    pub fn endurance(&self, air: &Air, mix: &Mix, duty_limit: f64) -> Result<Discharge, ModelError> {
        let pack = &self.powertrain.pack;
        pack.discharge(pack.chemistry.usable_share(), pack.chemistry.loaded_cut_off(), |state_of_charge| {
            let (full, hover) = self.ends(air, mix, state_of_charge, duty_limit)?;
            let power_w = mix.blend(full.map_or(0.0, |p| p.battery_w), hover.map_or(0.0, |p| p.battery_w));
            Ok(pack.draw(state_of_charge, power_w)?.current_a)
        })
    }

    /// Root-mean-square currents of a mix at a state of charge.
    ///
    /// # Errors
    /// As [`super::powertrain::Powertrain::operating_point`] and [`super::powertrain::Powertrain::hover_point`].
    pub fn root_mean_square(
        &self,
        air: &Air,
        mix: &Mix,
        state_of_charge: f64,
        duty_limit: f64,
    ) -> Result<RootMeanSquare, ModelError> {
        let (full, hover) = self.ends(air, mix, state_of_charge, duty_limit)?;
        let of = |current: fn(&OperatingPoint) -> f64| {
            let full = full.as_ref().map_or(0.0, current);
            let rest = hover.as_ref().map_or(0.0, current) * mix.rest_factor;
            (mix.full_share * full * full + (1.0 - mix.full_share) * rest * rest).sqrt()
        };
        Ok(RootMeanSquare { motor_a: of(|p| p.motor_a), esc_a: of(|p| p.esc_a), battery_a: of(|p| p.battery_a) })
    }

    /// Full throttle and hover, each where the mix has it.
    fn ends(
        &self,
        air: &Air,
        mix: &Mix,
        state_of_charge: f64,
        duty_limit: f64,
    ) -> Result<(Option<OperatingPoint>, Option<OperatingPoint>), ModelError> {
        let flies_full = mix.full_share > 0.0;
        let hovers = mix.full_share < 1.0 && mix.rest_factor > 0.0;
        let full = || self.powertrain.operating_point(air, state_of_charge, duty_limit);
        let hover = || self.powertrain.hover_point(air, state_of_charge, self.hover_thrust()?);
        Ok((flies_full.then(full).transpose()?, hovers.then(hover).transpose()?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::models::cruise::tests::five_inch;
    use crate::models::flight::Inflow;
    use crate::models::printed::assert_printed;

    fn sea_level() -> Air {
        Air::standard(0.0).unwrap()
    }

    #[test]
    fn hover_is_the_powertrain_s_own_endurance() {
        let craft = five_inch();
        let mixed = craft.endurance(&sea_level(), &Mix::HOVER, 1.0).unwrap();
        let own = craft.powertrain.endurance(&sea_level(), craft.hover_thrust().unwrap(), &Inflow::STILL).unwrap();
        assert!((mixed.seconds / own.seconds - 1.0).abs() < 1e-9);
    }

    #[test]
    fn harder_mixes_last_shorter() {
        let seconds = |mix| five_inch().endurance(&sea_level(), &mix, 1.0).unwrap().seconds;
        let times = [Mix::HOVER, Mix::CALM, Mix::HARD, Mix::FLAT_OUT].map(seconds);
        assert!(times.is_sorted_by(|longer, shorter| longer > shorter), "{times:?}");
    }

    #[test]
    fn a_sound_five_inch_craft_pulls_its_lasting_current() {
        // Common practice, no source: 55 to 69 A of 137 A at full throttle, 0.40 to 0.50 of it.
        let craft = five_inch();
        let rms = craft.root_mean_square(&sea_level(), &Mix::HARD, 1.0, 1.0).unwrap();
        let full = craft.powertrain.operating_point(&sea_level(), 1.0, 1.0).unwrap();
        assert_printed(rms.battery_a / full.battery_a, "0.50");
        assert!(rms.battery_a / 4.0 < rms.motor_a);
    }
}
