//! Rows of a thrust stand against the models of motor and propeller: by which factors the models meet them.
//!
//! Thrust and speed give `CT`; volts, amperes and speed give the motor's current, `(E·I + (1.15·R + R_esc)·I²)·1.01 = V·I_in`, and so
//! the shaft power `E·(I − I0)`; at full throttle `E = V − (1.15·R + droop + R_esc)·I` gives the KV.
//! Each factor is the geometric mean over the rows. Valid for an open propeller on a stand with free flow, rotor speed from the
//! controller or an optical counter. Source: M. Drela 2007 as in [`super::motor`]; the controller as in [`super::esc`]. A stand throws
//! propellers: stand aside of their plane, behind a guard.

use std::f64::consts::PI;

use super::atmosphere::Air;
use super::error::{Infeasible, ModelError, in_range};
use super::esc::{Esc, SWITCHING};
use super::installation::{Calibration, Propeller};
use super::motor::{HOT_WINDING, Motor};
use super::propeller::Coefficients;

/// One row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// At full throttle?
    pub full: bool,
    /// Volts and amperes at the controller, where both were measured.
    pub electric: Option<(f64, f64)>,
    /// Speed, rev/s.
    pub rev_per_s: f64,
    /// Thrust, N, where it was measured.
    pub thrust_n: Option<f64>,
}

/// Factors on the models; one where no row tells.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// On the KV, when a row at full throttle tells it.
    pub kv: Option<f64>,
    /// On CT, when a row tells thrust.
    pub thrust: Option<f64>,
    /// On CP, when a row tells volts and amperes.
    pub power: Option<f64>,
}

/// What the rows make of a motor and an open propeller.
///
/// ```
/// use propwright_engine::models::{atmosphere::Air, esc::Esc, installation::Propeller, stator::Stator, propeller::Geometry};
/// use propwright_engine::models::stand::{Row, fit};
/// let air = Air::standard(0.0).unwrap();
/// let motor = Stator::new(22.0, 7.0).unwrap().estimated_motor(1950.0).unwrap();
/// let propeller = Propeller::closed_form(Geometry::inches(5.1, 4.3, 3));
/// let modelled = propeller.coefficients(400.0, 0.0, &air).unwrap().thrust(air.density, 400.0, 5.1 * 0.0254);
/// let row = Row { full: false, electric: None, rev_per_s: 400.0, thrust_n: Some(1.1 * modelled) };
/// assert!((fit(&[row], &motor, &propeller, Esc { resistance: 0.002 }, &air).unwrap().thrust.unwrap() - 1.1).abs() < 1e-12);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] for a row that no motor and propeller near these can give; [`Infeasible::FigureOfMerit`] when thrust
/// and power together would need a figure of merit of 1 or more.
pub fn fit(rows: &[Row], motor: &Motor, propeller: &Propeller, esc: Esc, air: &Air) -> Result<Fit, ModelError> {
    let kv = mean(rows.iter().filter(|row| row.full).filter_map(|row| kv(row, motor, esc)), "KV against the listed one")?;
    let motor = Motor { kv: motor.kv * kv.unwrap_or(1.0), ..*motor };
    let (mut thrust, mut power) = (Vec::new(), Vec::new());
    let mut merit: f64 = 0.0;
    for row in rows {
        let model = propeller.coefficients(row.rev_per_s, 0.0, air)?;
        let (density, diameter) = (air.density, propeller.geometry.diameter_m);
        let unit = Coefficients { ct: 1.0, cp: 1.0 };
        let ct = row.thrust_n.map(|thrust| thrust / unit.thrust(density, row.rev_per_s, diameter));
        let cp = row
            .electric
            .map(|electric| shaft_power(electric, row.rev_per_s, &motor, esc) / unit.power(density, row.rev_per_s, diameter));
        thrust.extend(ct.map(|ct| ct / model.ct));
        power.extend(cp.map(|cp| cp / model.cp));
        if let (Some(ct), Some(cp)) = (ct, cp) {
            merit = merit.max(Coefficients { ct, cp }.figure_of_merit());
        }
    }
    if merit >= 1.0 {
        return Err(Infeasible::FigureOfMerit { figure_of_merit: merit }.into());
    }
    Ok(Fit {
        kv,
        thrust: mean(thrust, "thrust of the stand against the model")?,
        power: mean(power, "power of the stand against the model")?,
    })
}

impl Fit {
    /// The factors on a propeller.
    ///
    /// ```
    /// use propwright_engine::models::stand::Fit;
    /// // What no row tells stays as the model has it.
    /// let calibration = Fit { kv: None, thrust: Some(1.08), power: None }.calibration();
    /// assert!((calibration.thrust - 1.08).abs() < 1e-12 && (calibration.power - 1.0).abs() < 1e-12);
    /// ```
    pub fn calibration(&self) -> Calibration {
        Calibration { thrust: self.thrust.unwrap_or(1.0), power: self.power.unwrap_or(1.0), advance: 1.0 }
    }
}

/// KV that a row at full throttle tells, against the motor's: with `d` the droop's ohms, `V·I − d·I² = V·I_in/1.01` is the motor's
/// current.
fn kv(row: &Row, motor: &Motor, esc: Esc) -> Option<f64> {
    let (volts, input_a) = row.electric?;
    let listed = 2.0 * PI * row.rev_per_s / motor.kv;
    let ohms = motor.voltage_required(row.rev_per_s, 1.0) - listed;
    let droop = ohms - HOT_WINDING * motor.resistance;
    let power = volts * input_a / SWITCHING;
    let current = 2.0 * power / (volts + (volts * volts - 4.0 * droop * power).max(0.0).sqrt());
    Some(listed / (volts - (ohms + esc.resistance) * current))
}

/// Shaft power of a row, W.
fn shaft_power((volts, current): (f64, f64), rev_per_s: f64, motor: &Motor, esc: Esc) -> f64 {
    let emf = 2.0 * PI * rev_per_s / motor.kv;
    let resistance = HOT_WINDING * motor.resistance + esc.resistance;
    let motor_a = ((emf * emf + 4.0 * resistance * volts * current / SWITCHING).sqrt() - emf) / (2.0 * resistance);
    motor.torque(motor_a, rev_per_s) * 2.0 * PI * rev_per_s
}

/// The geometric mean of factors that lie between a third and three; none of none.
fn mean(factors: impl IntoIterator<Item = f64>, what: &'static str) -> Result<Option<f64>, ModelError> {
    let mut logarithms = Vec::new();
    for factor in factors {
        logarithms.push(in_range(what, factor, 1.0 / 3.0, 3.0)?.ln());
    }
    Ok((!logarithms.is_empty()).then(|| (logarithms.iter().sum::<f64>() / logarithms.len() as f64).exp()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::models::battery::{Chemistry, Pack};
    use crate::models::flight::Inflow;
    use crate::models::powertrain::{OperatingPoint, Powertrain};
    use crate::models::propeller::Geometry;
    use crate::models::stator::Stator;

    fn sea_level() -> Air {
        Air::standard(0.0).unwrap()
    }

    /// One motor on a stand fed by a stiff source.
    fn stand(kv: f64) -> Powertrain {
        Powertrain {
            motor: Stator::new(22.0, 7.0).unwrap().estimated_motor(kv).unwrap(),
            propeller: Propeller::closed_form(Geometry::inches(5.1, 4.3, 3)),
            esc: Esc { resistance: 0.002 },
            motors: 1,
            pack: Pack { cell_resistance: 1e-6, ..Pack::estimated(Chemistry::LiPo, 6, 1, 5.0).unwrap() },
            auxiliary_w: 0.0,
        }
    }

    fn row(point: &OperatingPoint, full: bool) -> Row {
        Row { full, electric: Some((point.pack_v, point.battery_a)), rev_per_s: point.rev_per_s, thrust_n: Some(point.thrust_n) }
    }

    fn rows(train: &Powertrain) -> Vec<Row> {
        let full = train.operating_point(&sea_level(), 0.8, 1.0).unwrap();
        let part = train.point_at_thrust(&sea_level(), 0.8, full.thrust_n / 4.0, &Inflow::STILL).unwrap();
        vec![row(&full, true), row(&part, false)]
    }

    #[test]
    fn rows_of_the_model_itself_change_nothing() {
        let train = stand(1950.0);
        let found = fit(&rows(&train), &train.motor, &train.propeller, train.esc, &sea_level()).unwrap();
        assert!((found.kv.unwrap() - 1.0).abs() < 1e-6, "{found:?}");
        assert!((found.thrust.unwrap() - 1.0).abs() < 1e-9 && (found.power.unwrap() - 1.0).abs() < 1e-6, "{found:?}");
    }

    #[test]
    fn another_motor_and_propeller_are_found() {
        let listed = stand(1950.0);
        let mut real = stand(1950.0);
        real.motor.kv *= 1.04;
        real.propeller.calibration.thrust *= 1.12;
        real.propeller.calibration.power *= 0.93;
        let found = fit(&rows(&real), &listed.motor, &listed.propeller, listed.esc, &sea_level()).unwrap();
        assert!((found.kv.unwrap() / 1.04 - 1.0).abs() < 1e-6, "{found:?}");
        assert!(
            (found.thrust.unwrap() / 1.12 - 1.0).abs() < 1e-9 && (found.power.unwrap() / 0.93 - 1.0).abs() < 1e-6,
            "{found:?}"
        );
    }

    #[test]
    fn what_no_such_motor_gives_is_refused() {
        let train = stand(1950.0);
        let of = |row: Row| fit(&[row], &train.motor, &train.propeller, train.esc, &sea_level());
        let good = rows(&train)[0];
        assert!(of(Row { rev_per_s: good.rev_per_s / 5.0, ..good }).is_err(), "a slip of the speed");
        assert!(matches!(
            of(Row { electric: Some((22.0, 0.4 * good.electric.unwrap().1)), full: false, ..good }),
            Err(ModelError::Infeasible(Infeasible::FigureOfMerit { .. }) | ModelError::OutOfRange { .. })
        ));
        assert_eq!(of(Row { electric: None, thrust_n: None, ..good }).unwrap(), Fit { kv: None, thrust: None, power: None });
    }
}
