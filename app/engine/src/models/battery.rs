//! A pack under load: what it sags to and the most it can give.
//!
//! `V0 = s·OCV(SoC)`, `R = s·R_cell/p + R_extra`, constant-power current `I = (V0 − √(V0² − 4·R·P))/(2R)`; no real
//! root means that no current gives that power. Rest voltages and `R·Ah` of a parallel cell are tables from memory
//! (LiPo 3.6e-3·(1 + 0.6/Ah), LiHV 4.0e-3·(1 + 0.6/Ah), Li-ion 75e-3 Ω·Ah): a measured milliohm figure is worth more.
//! Source of the root: algebra. Valid at room temperature; a cold pack has twice the resistance. Charge and store cells as their
//! maker says: a swollen or dented pack does not fly.

use super::error::{Infeasible, ModelError, in_range};
use super::pchip::Curve;

const SOC: [f64; 12] = [0.0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0];
const LIPO: Curve<12> = Curve::through(SOC, [3.27, 3.61, 3.69, 3.73, 3.77, 3.80, 3.84, 3.87, 3.95, 4.02, 4.11, 4.20]);
const LIHV: Curve<12> = Curve::through(SOC, [3.30, 3.60, 3.68, 3.74, 3.79, 3.83, 3.88, 3.95, 4.03, 4.12, 4.22, 4.35]);
const LI_ION: Curve<12> = Curve::through(SOC, [2.65, 3.02, 3.20, 3.38, 3.50, 3.58, 3.66, 3.76, 3.86, 3.95, 4.06, 4.18]);

/// What a cell is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Chemistry {
    /// Lithium polymer, 4.20 V full.
    LiPo,
    /// Lithium polymer for 4.35 V.
    LiHv,
    /// Cylindrical lithium-ion (NMC), 4.20 V charged, 4.18 V at rest.
    LiIon,
}

impl Chemistry {
    /// Rest voltage of a cell at a state of charge from 0 to 1, V.
    ///
    /// ```
    /// use propwright_engine::models::battery::Chemistry;
    /// assert!((Chemistry::LiPo.rest_voltage(0.5).unwrap() - 3.84).abs() < 1e-12);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of 0 to 1.
    pub fn rest_voltage(self, state_of_charge: f64) -> Result<f64, ModelError> {
        let soc = in_range("state of charge", state_of_charge, 0.0, 1.0)?;
        self.curve().at(soc)
    }

    /// State of charge of a cell that rests at `volts`, 0 to 1.
    ///
    /// ```
    /// use propwright_engine::models::battery::Chemistry;
    /// // The tables' own points: a LiPo cell at 3.77 V holds 30 %, a Li-ion cell at 3.58 V 40 %.
    /// assert!((Chemistry::LiPo.state_of_charge(3.77).unwrap() - 0.3).abs() < 1e-9);
    /// assert!((Chemistry::LiIon.state_of_charge(3.58).unwrap() - 0.4).abs() < 1e-9);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of the empty and full rest voltage.
    pub fn state_of_charge(self, volts: f64) -> Result<f64, ModelError> {
        in_range("rest voltage in V a cell", volts, self.rest_voltage(0.0)?, self.rest_voltage(1.0)?)?;
        super::bracket::root(0.0, 1.0, |soc| Ok(self.rest_voltage(soc)? - volts))
    }

    /// Estimated resistance of a cell of `capacity_ah`, Ω.
    ///
    /// ```
    /// use propwright_engine::models::battery::Chemistry;
    /// // By hand: 3.6e-3·(1 + 0.6/1.5)/1.5 = 3.36 mΩ; 75e-3/4.2 = 17.86 mΩ.
    /// assert!((Chemistry::LiPo.estimated_resistance(1.5).unwrap() - 3.36e-3).abs() < 1e-9);
    /// assert!((Chemistry::LiIon.estimated_resistance(4.2).unwrap() - 17.86e-3).abs() < 5e-6);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of 0.05 to 100 Ah.
    pub fn estimated_resistance(self, capacity_ah: f64) -> Result<f64, ModelError> {
        let capacity = in_range("cell capacity in Ah", capacity_ah, 0.05, 100.0)?;
        Ok(match self {
            Self::LiPo => 3.6e-3 * (1.0 + 0.6 / capacity) / capacity,
            Self::LiHv => 4.0e-3 * (1.0 + 0.6 / capacity) / capacity,
            Self::LiIon => 75e-3 / capacity,
        })
    }

    /// Share of the capacity that is flown before landing (common practice, no source).
    ///
    /// ```
    /// use propwright_engine::models::battery::Chemistry;
    /// // Of 1300 mAh of LiPo 1040 mAh are flown, of 4200 mAh of Li-ion 3780 mAh.
    /// assert!((Chemistry::LiPo.usable_share() * 1300.0 - 1040.0).abs() < 1e-9);
    /// assert!((Chemistry::LiIon.usable_share() * 4200.0 - 3780.0).abs() < 1e-9);
    /// ```
    pub fn usable_share(self) -> f64 {
        match self {
            Self::LiPo | Self::LiHv => 0.8,
            Self::LiIon => 0.9,
        }
    }

    /// Cell voltage under load at which a flight ends at the latest, V (common practice, no source).
    ///
    /// ```
    /// use propwright_engine::models::battery::Chemistry;
    /// // Six cells in series: 18.0 V of LiPo, 16.8 V of Li-ion.
    /// assert!((6.0 * Chemistry::LiPo.loaded_cut_off() - 18.0).abs() < 1e-9);
    /// assert!((6.0 * Chemistry::LiIon.loaded_cut_off() - 16.8).abs() < 1e-9);
    /// ```
    pub fn loaded_cut_off(self) -> f64 {
        match self {
            Self::LiPo | Self::LiHv => 3.0,
            Self::LiIon => 2.8,
        }
    }

    const fn curve(self) -> &'static Curve<12> {
        match self {
            Self::LiPo => &LIPO,
            Self::LiHv => &LIHV,
            Self::LiIon => &LI_ION,
        }
    }
}

/// Equal cells, `series` in a row and `parallel` beside each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pack {
    /// What the cells are made of.
    pub chemistry: Chemistry,
    /// Cells in series.
    pub series: u32,
    /// Cells in parallel.
    pub parallel: u32,
    /// Capacity of one cell, Ah.
    pub cell_capacity_ah: f64,
    /// Resistance of one cell, Ω.
    pub cell_resistance: f64,
    /// Resistance of leads, plug and joints of the whole pack, Ω.
    pub extra_resistance: f64,
}

/// A pack giving a constant power.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draw {
    /// Current out of the pack, A.
    pub current_a: f64,
    /// Voltage at its plug, V.
    pub volts: f64,
    /// Heat in cells, leads and plug, W.
    pub loss_w: f64,
}

impl Pack {
    /// A pack whose cells have the estimated resistance, without leads.
    ///
    /// ```
    /// use propwright_engine::models::battery::{Chemistry, Pack};
    /// // By hand: 3.6e-3·(1 + 0.6/1.5)/1.5 = 3.36 mΩ a cell, four in series.
    /// let pack = Pack::estimated(Chemistry::LiPo, 4, 1, 1.5).unwrap();
    /// assert!((pack.resistance() - 13.44e-3).abs() < 1e-9);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of 0.05 to 100 Ah a cell.
    pub fn estimated(chemistry: Chemistry, series: u32, parallel: u32, cell_capacity_ah: f64) -> Result<Self, ModelError> {
        Ok(Self {
            chemistry,
            series,
            parallel,
            cell_capacity_ah,
            cell_resistance: chemistry.estimated_resistance(cell_capacity_ah)?,
            extra_resistance: 0.0,
        })
    }

    /// Capacity of the whole, Ah.
    ///
    /// ```
    /// use propwright_engine::models::battery::{Chemistry, Pack};
    /// // 6S2P of cells of 4.2 Ah and 18 mΩ.
    /// let pack = Pack { cell_resistance: 0.018, ..Pack::estimated(Chemistry::LiIon, 6, 2, 4.2).unwrap() };
    /// assert!((pack.capacity_ah() - 8.4).abs() < 1e-12);
    /// ```
    pub fn capacity_ah(&self) -> f64 {
        self.cell_capacity_ah * f64::from(self.parallel)
    }

    /// Resistance of the whole, Ω.
    ///
    /// ```
    /// use propwright_engine::models::battery::{Chemistry, Pack};
    /// // 6S2P of cells of 4.2 Ah and 18 mΩ.
    /// let pack = Pack { cell_resistance: 0.018, ..Pack::estimated(Chemistry::LiIon, 6, 2, 4.2).unwrap() };
    /// // By hand: 6·18/2 = 54 mΩ, and 4 mΩ of leads and plug.
    /// assert!((Pack { extra_resistance: 0.004, ..pack }.resistance() - 0.058).abs() < 1e-12);
    /// ```
    pub fn resistance(&self) -> f64 {
        self.cell_resistance * f64::from(self.series) / f64::from(self.parallel) + self.extra_resistance
    }

    /// Voltage without load at a state of charge from 0 to 1, V.
    ///
    /// ```
    /// use propwright_engine::models::battery::{Chemistry, Pack};
    /// // 6S2P of cells of 4.2 Ah and 18 mΩ.
    /// let pack = Pack { cell_resistance: 0.018, ..Pack::estimated(Chemistry::LiIon, 6, 2, 4.2).unwrap() };
    /// // By hand: six cells of 3.58 V at 40 %.
    /// assert!((pack.rest_voltage(0.4).unwrap() - 21.48).abs() < 1e-9);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of 0 to 1, or for a pack that is not one.
    pub fn rest_voltage(&self, state_of_charge: f64) -> Result<f64, ModelError> {
        self.checked()?;
        Ok(self.chemistry.rest_voltage(state_of_charge)? * f64::from(self.series))
    }

    /// The pack at a state of charge giving `power_w` at its plug.
    ///
    /// ```
    /// use propwright_engine::models::battery::{Chemistry, Pack};
    /// // 6S2P of cells of 4.2 Ah and 18 mΩ.
    /// let pack = Pack { cell_resistance: 0.018, ..Pack::estimated(Chemistry::LiIon, 6, 2, 4.2).unwrap() };
    /// // By hand, at 40 %: I = (21.48 − √(21.48² − 4·0.054·800))/(2·0.054) = 41.59 A, 19.23 V, 93.42 W of heat.
    /// let draw = pack.draw(0.4, 800.0).unwrap();
    /// assert!((draw.current_a - 41.59).abs() < 0.005 && (draw.volts - 19.23).abs() < 0.005 && (draw.loss_w - 93.42).abs() < 0.005);
    /// ```
    ///
    /// # Errors
    /// [`Infeasible::PackPower`] when no current gives that power; [`ModelError::OutOfRange`] as
    /// [`Self::rest_voltage`], or for a negative power.
    pub fn draw(&self, state_of_charge: f64, power_w: f64) -> Result<Draw, ModelError> {
        constant_power(self.rest_voltage(state_of_charge)?, self.resistance(), power_w)
    }

    /// Voltage of a cell behind `current_a` at a state of charge, V; leads and plug are not the cell's.
    ///
    /// ```
    /// use propwright_engine::models::battery::{Chemistry, Pack};
    /// // 6S2P of cells of 4.2 Ah and 18 mΩ.
    /// let pack = Pack { cell_resistance: 0.018, ..Pack::estimated(Chemistry::LiIon, 6, 2, 4.2).unwrap() };
    /// // By hand, at 40 % and 40 A: 3.58 − 0.018·40/2 = 3.22 V.
    /// assert!((pack.loaded_cell_voltage(0.4, 40.0).unwrap() - 3.22).abs() < 1e-9);
    /// ```
    ///
    /// # Errors
    /// As [`Self::rest_voltage`].
    pub fn loaded_cell_voltage(&self, state_of_charge: f64, current_a: f64) -> Result<f64, ModelError> {
        self.checked()?;
        let sag = self.cell_resistance * current_a / f64::from(self.parallel);
        Ok(self.chemistry.rest_voltage(state_of_charge)? - sag)
    }

    fn checked(&self) -> Result<(), ModelError> {
        in_range("cells in series", f64::from(self.series), 1.0, 24.0)?;
        in_range("cells in parallel", f64::from(self.parallel), 1.0, 64.0)?;
        in_range("cell capacity in Ah", self.cell_capacity_ah, 0.05, 100.0)?;
        in_range("cell resistance in Ω", self.cell_resistance, 0.0, 10.0)?;
        in_range("lead resistance in Ω", self.extra_resistance, 0.0, 10.0)?;
        Ok(())
    }
}

/// A source of `rest_v` volts behind `resistance` Ω giving `power_w`.
///
/// ```
/// use propwright_engine::models::battery::constant_power;
/// let draw = constant_power(22.2, 0.030, 600.0).unwrap();
/// assert!((draw.current_a - 28.09).abs() < 0.005 && (draw.volts - 21.36).abs() < 0.005);
/// ```
///
/// # Errors
/// [`Infeasible::PackPower`] above `V0²/(4R)`; [`ModelError::OutOfRange`] for a negative power.
pub fn constant_power(rest_v: f64, resistance: f64, power_w: f64) -> Result<Draw, ModelError> {
    let power = in_range("power in W", power_w, 0.0, 1e6)?;
    let under_root = rest_v * rest_v - 4.0 * resistance * power;
    if under_root < 0.0 {
        let limit_w = rest_v * rest_v / (4.0 * resistance);
        return Err(Infeasible::PackPower { asked_w: power, limit_w }.into());
    }
    // The same root as in the head, free of the difference of near figures.
    let current_a = 2.0 * power / (rest_v + under_root.sqrt());
    Ok(Draw { current_a, volts: rest_v - resistance * current_a, loss_w: resistance * current_a * current_a })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::models::printed::assert_printed;

    #[test]
    fn six_series_two_parallel() {
        // Computed by hand: 6S2P of cells of 3.6 V, 4.2 Ah, 18 mΩ at 40 A.
        let pack = Pack {
            chemistry: Chemistry::LiIon,
            series: 6,
            parallel: 2,
            cell_capacity_ah: 4.2,
            cell_resistance: 0.018,
            extra_resistance: 0.0,
        };
        let rest = 3.6 * f64::from(pack.series);
        assert_printed(rest, "21.6");
        assert_printed(pack.capacity_ah(), "8.4");
        assert_printed(pack.resistance() * 1e3, "54");
        assert_printed(pack.resistance() * 40.0, "2.16");
        assert_printed(rest * pack.capacity_ah(), "181.4");
        let draw = constant_power(rest, pack.resistance(), 40.0 * (rest - 2.16)).unwrap();
        assert_printed(draw.current_a, "40");
        assert_printed(draw.loss_w, "86.4");
    }

    #[test]
    fn constant_power_root() {
        // Computed by hand: quadratic with 22.2 V, 30 mΩ, 600 W.
        let draw = constant_power(22.2, 0.030, 600.0).unwrap();
        assert_printed(draw.current_a, "28.09");
        assert_printed(draw.volts, "21.36");
        let Err(ModelError::Infeasible(Infeasible::PackPower { limit_w, .. })) = constant_power(22.2, 0.030, 4200.0) else {
            panic!("4200 W cannot be given");
        };
        assert_printed(limit_w, "4107");
        assert!(constant_power(22.2, 0.030, 4106.9).is_ok());
        assert!(constant_power(22.2, 0.030, 4107.1).is_err());
    }

    #[test]
    fn rest_voltage_tells_the_charge() {
        // Common practice: LiPo at 3.5 V rest is nearly empty (3 %), Li-ion still holds 30 %.
        assert_printed(Chemistry::LiPo.state_of_charge(3.5).unwrap() * 100.0, "3");
        assert_printed(Chemistry::LiIon.state_of_charge(3.5).unwrap() * 100.0, "30");
        assert!(Chemistry::LiPo.state_of_charge(4.21).is_err());
    }
}
