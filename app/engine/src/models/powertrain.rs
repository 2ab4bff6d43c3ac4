//! Motors, propellers, speed controllers and pack together: the state in which they all agree.
//!
//! At n rev/s a propeller takes `Q = CP·ρ·n²·D⁵/2π`, the motor `I = Q·Kv + I0(n)` and `V_req(n, I)`; all motors and
//! the rest of the craft load the pack with a constant power, which sags to `V_b`. At full throttle
//! `V_req + I·R_esc = limit·V_b` decides n; at a given thrust `CT·ρ·n²·D⁴ = T` does, and the duty follows. In a forward
//! stream thrust grows by `1 + 1.5µ²` and profile power by `1 + 4.65µ²`, `µ = V·cosθ/(ωR)`. Valid for µ up to about 0.35
//! and tips below Mach 0.85, in a steady state: the first tenth of a second of a punch draws more. Sources: those of the models
//! that it joins; µ terms J.G. Leishman, *Principles of Helicopter Aerodynamics*, section 5.4, from memory. Full throttle
//! without sag reads 3 to 60 % too high.

use std::f64::consts::PI;

use super::atmosphere::Air;
use super::battery::Pack;
use super::bracket;
use super::discharge::Discharge;
use super::error::{Infeasible, ModelError, in_range};
use super::esc::Esc;
use super::flight::Inflow;
use super::installation::Propeller;
use super::motor::Motor;
use super::propeller::{HIGHEST_TIP_MACH, tip_speed};

/// Lowest speed at which a solve starts, rev/s.
const SLOWEST: f64 = 1.0;

/// Equal motors on one pack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Powertrain {
    /// Each motor.
    pub motor: Motor,
    /// Each propeller.
    pub propeller: Propeller,
    /// Each controller channel.
    pub esc: Esc,
    /// Motors in all.
    pub motors: u32,
    /// The pack.
    pub pack: Pack,
    /// What the rest of the craft draws, W.
    pub auxiliary_w: f64,
}

/// A state in which all parts agree.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OperatingPoint {
    /// Speed, rev/s.
    pub rev_per_s: f64,
    /// Thrust of each rotor, N.
    pub thrust_n: f64,
    /// Shaft power of each rotor, W.
    pub shaft_power_w: f64,
    /// Current in each motor, A: heats the winding.
    pub motor_a: f64,
    /// Copper loss of each motor, W.
    pub winding_heat_w: f64,
    /// Current into each controller, A.
    pub esc_a: f64,
    /// Current out of the pack, A: heats leads, plug and cells.
    pub battery_a: f64,
    /// Power out of the pack, W.
    pub battery_w: f64,
    /// Pack voltage under this load, V.
    pub pack_v: f64,
    /// Cell voltage under this load, V.
    pub cell_v: f64,
    /// Duty of the controllers, 0 to 1. Not a stick position.
    pub duty: f64,
    /// Mach number of the tips from rotation.
    pub tip_mach: f64,
}

/// What a rotor and its motor do at a speed, whatever the pack.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Rotor {
    thrust_n: f64,
    shaft_power_w: f64,
    motor_a: f64,
    /// Voltage at the controller's output side, its own drop included, V.
    needed_v: f64,
    /// Power into the controller, W.
    input_w: f64,
}

/// What a thrust asks of the pack, whatever its charge: the same power at every charge, and volts that only the duty meets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    rev_per_s: f64,
    rotor: Rotor,
    /// Power out of the pack, W.
    pub battery_w: f64,
    /// Voltage that the controllers must give at full duty, V.
    pub needed_v: f64,
}

impl Powertrain {
    /// Full throttle on the bench at a state of charge, the controllers held to `duty_limit` (1 = none).
    ///
    /// ```
    /// use propwright_engine::models::{atmosphere::Air, battery::{Chemistry, Pack}, esc::Esc, stator::Stator};
    /// use propwright_engine::models::{powertrain::Powertrain, installation::Propeller, propeller::Geometry};
    /// let craft = Powertrain {
    ///     motor: Stator::new(22.0, 7.0).unwrap().estimated_motor(1950.0).unwrap(),
    ///     propeller: Propeller::closed_form(Geometry::inches(5.1, 4.3, 3)),
    ///     esc: Esc { resistance: 0.002 },
    ///     motors: 4,
    ///     pack: Pack::estimated(Chemistry::LiPo, 6, 1, 1.3).unwrap(),
    ///     auxiliary_w: 10.0,
    /// };
    /// let full = craft.operating_point(&Air::standard(0.0).unwrap(), 1.0, 1.0).unwrap();
    /// assert!((full.motor_a - 35.7).abs() < 0.05 && (full.battery_a - 138.9).abs() < 0.05);
    /// ```
    ///
    /// # Errors
    /// [`Infeasible::PackPower`] when the pack collapses below half its rest voltage; [`Infeasible::TipSpeed`] when the
    /// tips would pass Mach 0.85; [`ModelError::OutOfRange`] for a limit outside of 0.05 to 1, no motor, or a part's own.
    pub fn operating_point(&self, air: &Air, state_of_charge: f64, duty_limit: f64) -> Result<OperatingPoint, ModelError> {
        let limit = in_range("motor output limit", duty_limit, 0.05, 1.0)?;
        self.checked()?;
        let left = |n: f64| self.volts_left(&self.turning(n, &Inflow::STILL, air)?, state_of_charge, limit);
        let fastest = self.propeller.highest_speed(air);
        if left(fastest)? > 0.0 {
            return Err(Infeasible::TipSpeed { limit_mach: HIGHEST_TIP_MACH }.into());
        }
        let load = self.turning(bracket::root(SLOWEST, fastest, left)?, &Inflow::STILL, air)?;
        self.settle(&load, air, state_of_charge)
    }

    /// The state in which each rotor gives `thrust_n` on the bench or in hover.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// // The craft of [`Self::operating_point`] at 0.72 kg, computed apart: 211.2 rev/s, a duty of 0.304, 7.21 A on the half-charged pack.
    /// let point = powertrain.hover_point(&air, 0.5, 1.898).unwrap();
    /// assert!((point.rev_per_s - 211.2).abs() < 0.1 && (point.duty - 0.304).abs() < 0.0005 && (point.battery_a - 7.21).abs() < 0.005);
    /// ```
    ///
    /// # Errors
    /// As [`Self::point_at_thrust`].
    pub fn hover_point(&self, air: &Air, state_of_charge: f64, thrust_n: f64) -> Result<OperatingPoint, ModelError> {
        self.point_at_thrust(air, state_of_charge, thrust_n, &Inflow::STILL)
    }

    /// What the rotors ask of the pack when each gives `thrust_n` in a stream.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// # use propwright_engine::models::flight::Inflow;
    /// // The craft of [`Self::operating_point`], computed apart: 1.898 N a rotor ask for 164.8 W, and for 6.94 V at full duty.
    /// let load = powertrain.load(&air, 1.898, &Inflow::STILL).unwrap();
    /// assert!((load.battery_w - 164.8).abs() < 0.05 && (load.needed_v - 6.94).abs() < 0.005);
    /// ```
    ///
    /// # Errors
    /// [`Infeasible::Thrust`] above what the tips may do; [`ModelError::OutOfRange`] for a thrust that is not positive, no
    /// motor, or a part's own.
    pub fn load(&self, air: &Air, thrust_n: f64, inflow: &Inflow) -> Result<Load, ModelError> {
        self.checked()?;
        let thrust = in_range("thrust of a rotor in N", thrust_n, 1e-4, 1e4)?;
        let per_rev = self.propeller.geometry.diameter_m * self.propeller.zero_thrust_advance();
        let windmilling = inflow.equivalent_axial / per_rev;
        let (slowest, fastest) = (windmilling.max(SLOWEST), self.propeller.highest_speed(air));
        let missing = |n: f64| Ok(self.rotor(n, inflow, air)?.thrust_n - thrust);
        if slowest >= fastest || missing(fastest)? < 0.0 {
            let limit_n = if slowest < fastest { missing(fastest)? + thrust } else { 0.0 };
            return Err(Infeasible::Thrust { asked_n: thrust, limit_n }.into());
        }
        self.turning(bracket::root(slowest, fastest, missing)?, inflow, air)
    }

    /// The state in which each rotor gives `thrust_n` in a stream.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// # use propwright_engine::models::flight::{disc_area, forward_inflow};
    /// // The craft of [`Self::operating_point`] of 0.72 kg at 15 m/s, tilted 12.65°, computed apart: 1.945 N a rotor at 209.3 rev/s, 163.9 W.
    /// let inflow = forward_inflow(7.2365 / 0.93, disc_area(4, 5.1 * 0.0254), air.density, 15.0, 12.6508_f64.to_radians()).unwrap();
    /// let point = powertrain.point_at_thrust(&air, 0.8, 1.9453, &inflow).unwrap();
    /// assert!((point.rev_per_s - 209.3).abs() < 0.1 && (point.battery_w - 163.9).abs() < 0.1 && (point.duty - 0.287).abs() < 0.0005);
    /// ```
    ///
    /// # Errors
    /// As [`Self::load`]; [`Infeasible::Duty`] when the controllers would need more than 1, [`Infeasible::PackPower`] when
    /// the pack cannot give it.
    pub fn point_at_thrust(
        &self,
        air: &Air,
        state_of_charge: f64,
        thrust_n: f64,
        inflow: &Inflow,
    ) -> Result<OperatingPoint, ModelError> {
        self.feasible(&self.load(air, thrust_n, inflow)?, air, state_of_charge)
    }

    fn feasible(&self, load: &Load, air: &Air, state_of_charge: f64) -> Result<OperatingPoint, ModelError> {
        let point = self.settle(load, air, state_of_charge)?;
        if point.duty > 1.0 {
            return Err(Infeasible::Duty { needed: point.duty, limit: 1.0 }.into());
        }
        Ok(point)
    }

    /// Volts that are left over at full throttle under a load, held to `duty_limit`: negative when the load is too much.
    ///
    /// Past the pack's limit it goes on from half the rest voltage, so that a root of it is still bracketed.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// # use propwright_engine::models::flight::Inflow;
    /// // The craft of [`Self::operating_point`] hovering with 1.898 N a rotor on the fresh pack, computed apart: 25.04 − 6.94 = 18.10 V.
    /// let load = powertrain.load(&air, 1.898, &Inflow::STILL).unwrap();
    /// assert!((powertrain.volts_left(&load, 1.0, 1.0).unwrap() - 18.10).abs() < 0.005);
    /// ```
    ///
    /// # Errors
    /// As [`Pack::draw`], but for [`Infeasible::PackPower`].
    pub fn volts_left(&self, load: &Load, state_of_charge: f64, duty_limit: f64) -> Result<f64, ModelError> {
        let pack_v = match self.pack.draw(state_of_charge, load.battery_w) {
            Ok(draw) => draw.volts,
            Err(ModelError::Infeasible(_)) => self.pack.rest_voltage(state_of_charge)? / 2.0,
            Err(other) => return Err(other),
        };
        Ok(duty_limit * pack_v - load.needed_v)
    }

    /// Flight under a constant load, from the full pack to its reserve or cut-off.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// # use propwright_engine::models::flight::Inflow;
    /// // The craft of [`Self::operating_point`] hovering with 1.898 N a rotor, computed apart: 80 % of 1.3 Ah last 530 s at 164.8 W.
    /// let load = powertrain.load(&air, 1.898, &Inflow::STILL).unwrap();
    /// assert!((powertrain.endurance(&air, &load).unwrap().seconds - 529.9).abs() < 0.5);
    /// ```
    ///
    /// # Errors
    /// As [`Self::point_at_thrust`] on the full pack, and as [`Pack::discharge`].
    pub fn endurance(&self, air: &Air, load: &Load) -> Result<Discharge, ModelError> {
        let chemistry = self.pack.chemistry;
        self.pack
            .discharge(chemistry.usable_share(), chemistry.loaded_cut_off(), |soc| Ok(self.feasible(load, air, soc)?.battery_a))
    }

    fn checked(&self) -> Result<(), ModelError> {
        in_range("motors", f64::from(self.motors), 1.0, 16.0)?;
        in_range("KV in rad/s/V", self.motor.kv, 1.0, 1e4)?;
        in_range("motor resistance in Ω", self.motor.resistance, 1e-5, 100.0)?;
        in_range("ESC resistance in Ω", self.esc.resistance, 0.0, 1.0)?;
        in_range("other load in W", self.auxiliary_w, 0.0, 1e4)?;
        Ok(())
    }

    fn rotor(&self, rev_per_s: f64, inflow: &Inflow, air: &Air) -> Result<Rotor, ModelError> {
        let diameter = self.propeller.geometry.diameter_m;
        let c = self.propeller.coefficients(rev_per_s, inflow.equivalent_axial, air)?;
        let mu = inflow.edgewise / tip_speed(diameter, rev_per_s);
        let axial_thrust = c.thrust(air.density, rev_per_s, diameter);
        let axial_power = c.power(air.density, rev_per_s, diameter) - inflow.saved * axial_thrust;
        let profile = (axial_power - inflow.ideal_power(axial_thrust)).max(0.0);
        let shaft_power_w = axial_power + 4.65 * mu * mu * profile;
        let motor_a = self.motor.current(shaft_power_w / (2.0 * PI * rev_per_s), rev_per_s);
        Ok(Rotor {
            thrust_n: axial_thrust * (1.0 + 1.5 * mu * mu),
            shaft_power_w,
            motor_a,
            needed_v: self.motor.voltage_required(rev_per_s, motor_a) + motor_a * self.esc.resistance,
            input_w: self.esc.input_power(self.motor.power(rev_per_s, motor_a), motor_a),
        })
    }

    fn turning(&self, rev_per_s: f64, inflow: &Inflow, air: &Air) -> Result<Load, ModelError> {
        let rotor = self.rotor(rev_per_s, inflow, air)?;
        let battery_w = f64::from(self.motors) * rotor.input_w + self.auxiliary_w;
        Ok(Load { rev_per_s, rotor, battery_w, needed_v: rotor.needed_v })
    }

    /// The load on the pack at a state of charge; its duty may lie above 1.
    ///
    /// ```
    #[doc = include_str!("example_craft.txt")]
    /// # use propwright_engine::models::flight::Inflow;
    /// // The craft of [`Self::operating_point`] hovering with 1.898 N a rotor, computed apart: 7.21 A on the half-charged pack, 3.811 V a cell.
    /// let load = powertrain.load(&air, 1.898, &Inflow::STILL).unwrap();
    /// let point = powertrain.settle(&load, &air, 0.5).unwrap();
    /// assert!((point.battery_a - 7.21).abs() < 0.005 && (point.cell_v - 3.811).abs() < 0.0005);
    /// ```
    ///
    /// # Errors
    /// As [`Pack::draw`].
    pub fn settle(&self, load: &Load, air: &Air, state_of_charge: f64) -> Result<OperatingPoint, ModelError> {
        let rotor = &load.rotor;
        let draw = self.pack.draw(state_of_charge, load.battery_w)?;
        Ok(OperatingPoint {
            rev_per_s: load.rev_per_s,
            thrust_n: rotor.thrust_n,
            shaft_power_w: rotor.shaft_power_w,
            motor_a: rotor.motor_a,
            winding_heat_w: self.motor.winding_heat(rotor.motor_a),
            esc_a: rotor.input_w / draw.volts,
            battery_a: draw.current_a,
            battery_w: load.battery_w,
            pack_v: draw.volts,
            cell_v: self.pack.loaded_cell_voltage(state_of_charge, draw.current_a)?,
            duty: load.needed_v / draw.volts,
            tip_mach: tip_speed(self.propeller.geometry.diameter_m, load.rev_per_s) / air.speed_of_sound,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::models::atmosphere::GRAVITY;
    use crate::models::battery::Chemistry;
    use crate::models::flight::THRUST_LEFT_OPEN;
    use crate::models::propeller::Geometry;
    use crate::models::stator::Stator;

    fn five_inch() -> Powertrain {
        Powertrain {
            motor: Stator::new(22.0, 7.0).unwrap().estimated_motor(1950.0).unwrap(),
            propeller: Propeller::closed_form(Geometry::inches(5.1, 4.3, 3)),
            esc: Esc { resistance: 0.002 },
            motors: 4,
            pack: Pack::estimated(Chemistry::LiPo, 6, 1, 1.3).unwrap(),
            auxiliary_w: 10.0,
        }
    }

    fn sea_level() -> Air {
        Air::standard(0.0).unwrap()
    }

    fn by_either_propeller_model() -> [Powertrain; 2] {
        let craft = five_inch();
        let blades = Propeller::blade_element(craft.propeller.geometry, &sea_level()).unwrap();
        [craft, Powertrain { propeller: blades, ..craft }]
    }

    #[test]
    fn a_sound_five_inch_craft_at_full_throttle() {
        // Common practice, no source: about 34 A a motor and 137 A in all; here as ranges.
        for craft in by_either_propeller_model() {
            let full = craft.operating_point(&sea_level(), 1.0, 1.0).unwrap();
            assert!((28.0..42.0).contains(&full.motor_a), "{full:?}");
            assert!((115.0..165.0).contains(&full.battery_a), "{full:?}");
            assert!((full.duty - 1.0).abs() < 1e-6);
            assert!((full.pack_v * full.battery_a - full.battery_w).abs() < 1e-6);
        }
    }

    #[test]
    fn a_sound_five_inch_craft_in_hover() {
        // Common practice, no source: 0.72 kg hovers at a duty of 0.30 to 0.33 on a half-used pack.
        let thrust = 0.72 * GRAVITY / 4.0 / THRUST_LEFT_OPEN;
        for craft in by_either_propeller_model() {
            let hover = craft.hover_point(&sea_level(), 0.5, thrust).unwrap();
            assert!((0.30..=0.33).contains(&hover.duty), "{hover:?}");
            assert!(hover.battery_a / 4.0 < hover.motor_a);
        }
    }

    #[test]
    fn an_output_limit_lowers_speed_and_current() {
        let craft = five_inch();
        let full = craft.operating_point(&sea_level(), 1.0, 1.0).unwrap();
        let held = craft.operating_point(&sea_level(), 1.0, 0.8).unwrap();
        assert!(held.rev_per_s < full.rev_per_s && held.motor_a < full.motor_a);
        assert!((held.duty - 0.8).abs() < 1e-6);
    }

    #[test]
    fn too_much_thrust_is_infeasible() {
        let craft = five_inch();
        let duty = craft.hover_point(&sea_level(), 1.0, 20.0);
        assert!(matches!(duty, Err(ModelError::Infeasible(Infeasible::Duty { .. }))), "{duty:?}");
        let tips = craft.hover_point(&sea_level(), 1.0, 200.0);
        assert!(matches!(tips, Err(ModelError::Infeasible(Infeasible::Thrust { .. }))), "{tips:?}");
    }

    #[test]
    fn a_pack_that_cannot_is_infeasible() {
        let craft = five_inch();
        let weak = Powertrain { pack: Pack { cell_resistance: 0.5, ..craft.pack }, ..craft };
        let full = weak.hover_point(&sea_level(), 1.0, 3.0);
        assert!(matches!(full, Err(ModelError::Infeasible(Infeasible::PackPower { .. }))), "{full:?}");
    }
}
