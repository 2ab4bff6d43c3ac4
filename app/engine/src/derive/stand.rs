//! A thrust stand's rows with this motor and this propeller, and what they make of the models.

use propwright_schema::{slot::Slot, value::Value};

use super::{gather::Gather, rig::refused};
use crate::{
    finding::Missing,
    graph::{Property, build, part},
    models::{
        atmosphere::{Air, GRAVITY},
        esc::Esc,
        installation::{Calibration, Propeller},
        motor::Motor,
        stand::{Fit, Row, fit},
    },
};

const OF_MOTOR: Property = part(Slot::Motor, "stand");
const OF_BUILD: Property = build("stand");
const MOTOR: Property = part(Slot::Motor, "id");
const PROPELLER: Property = part(Slot::Propeller, "id");
const COAXIAL: Property = part(Slot::Frame, "coaxial");
/// All that is read here.
pub(super) const READS: [Property; 5] = [OF_MOTOR, OF_BUILD, MOTOR, PROPELLER, COAXIAL];

/// Motor output from which a row counts as full throttle.
const FULL: f64 = 0.995;

/// Spread of a propeller's CT and CP on a stand, and of a KV that a full row tells.
pub(super) const SIGMA: f64 = 0.03;
pub(super) const KV_SIGMA: f64 = 0.01;
/// Spread that is left of a winding's resistance when its KV was told with it: what an error of the one takes at that load, the other
/// gives back (judgement).
pub(super) const OHM_SIGMA: f64 = 0.05;

/// What the rows make of motor and propeller; nothing without rows of just these two. Stands are taken to run at sea level.
pub(super) fn calibration(gather: &mut Gather, motor: &Motor, propeller: &Propeller, esc: Esc) -> Result<Option<Fit>, Missing> {
    let rows = rows(gather);
    if rows.is_empty() {
        return Ok(None);
    }
    gather.assume("the stand ran in the standard air of sea level", None);
    let coaxial = gather.reading(COAXIAL).and_then(|reading| reading.flag().ok()).unwrap_or(false);
    let pair = if coaxial { Calibration::coaxial() } else { Calibration::ISOLATED };
    let alone = Calibration { thrust: 1.0 / pair.thrust, power: 1.0 / pair.power, advance: 1.0 };
    let open = Propeller { duct: None, calibration: propeller.calibration.and(alone), ..*propeller };
    let found = Air::standard(0.0).and_then(|air| fit(&rows, motor, &open, esc, &air));
    found.map(Some).map_err(|error| refused(&error))
}

fn rows(gather: &mut Gather) -> Vec<Row> {
    let [motor, propeller] = [MOTOR, PROPELLER].map(|id| gather.maybe_word(id));
    let mut rows = Vec::new();
    for (property, named) in [(OF_MOTOR, true), (OF_BUILD, false)] {
        let Some(reading) = gather.reading(property) else { continue };
        let Ok(items) = reading.items() else { continue };
        // A motor's own rows tell their propeller; those of a build are its own unless they say otherwise.
        let same = |row: &Value, key: &str, fitted: Option<&str>| row.field(key).map_or(!named, |id| id.word() == fitted);
        let meant =
            |row: &&Value| same(row, "propeller", propeller.as_deref()) && (named || same(row, "motor", motor.as_deref()));
        rows.extend(items.iter().filter(meant).filter_map(row));
    }
    rows
}

fn row(row: &Value) -> Option<Row> {
    let field = |name| row.field(name).and_then(Value::si);
    Some(Row {
        full: field("output_percent").is_some_and(|output| output >= FULL),
        electric: field("volts_v").zip(field("current_a")),
        rev_per_s: field("speed_rpm")? / (2.0 * std::f64::consts::PI),
        thrust_n: field("thrust_gf").map(|kilograms| kilograms * GRAVITY),
    })
}

#[cfg(test)]
mod tests {
    use crate::finding::Status;
    use crate::interval::Interval;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{figure, readings, report};

    const ROWS: &str = "(output_percent: 100, volts_v: 23, current_a: 33, speed_rpm: 29500, thrust_gf: 1380),
        (output_percent: 40, volts_v: 24.4, current_a: 4.1, speed_rpm: 14900, thrust_gf: 350)";

    fn of(parts: &str, build: &str, id: &'static str) -> Interval {
        figure(parts, build, id)
    }

    fn width(figure: Interval) -> f64 {
        (figure.high as f64 / figure.low as f64).ln()
    }

    #[test]
    fn rows_narrow_what_motor_and_propeller_decide() {
        let parts = five_inch!(battery ", resistance_mohm: 24");
        let weighed = five_inch_build!("weighed_g: 700, ");
        let build = format!("stand: [{ROWS}], {weighed}");
        // Weighed, with a published pack. Typical one standard deviation of a craft with a bench row: full amps 3 to 4 %, thrust to weight 6 to 7 %.
        for (id, widest) in [("battery-burst", 0.065), ("thrust-to-weight", 0.07), ("time-hover", 0.09)] {
            let (before, after) = (of(parts, weighed, id), of(parts, &build, id));
            assert!(width(after) < width(before) && width(after) < 2.0 * 1.645 * widest, "{id}: {before:?} {after:?}");
        }
    }

    #[test]
    fn only_rows_of_this_motor_with_this_propeller_count() {
        let motor = |propeller: &str| {
            five_inch!().replace(
                "kv_rpm_per_v: 1950",
                &format!("kv_rpm_per_v: 1950, stand: [(propeller: \"{propeller}\", speed_rpm: 20000, thrust_gf: 700)]"),
            )
        };
        let plain = of(five_inch!(), five_inch_build!(), "thrust-to-weight");
        assert_ne!(of(&motor("p"), five_inch_build!(), "thrust-to-weight"), plain);
        assert_eq!(of(&motor("q"), five_inch_build!(), "thrust-to-weight"), plain);
        let other = format!("stand: [(motor: \"n\", speed_rpm: 20000, thrust_gf: 700)], {}", five_inch_build!());
        assert_eq!(of(five_inch!(), &other, "thrust-to-weight"), plain);
    }

    #[test]
    fn a_slip_of_the_speed_is_said() {
        let build = format!("stand: [(volts_v: 23, current_a: 33, speed_rpm: 2950, thrust_gf: 1380)], {}", five_inch_build!());
        assert!(readings(five_inch!(), &build, "rig")[0].known.is_err());
        let flies = report(five_inch!(), &build).findings.into_iter().find(|finding| finding.rule == "flies");
        assert_eq!(flies.map(|finding| finding.status()), Some(Status::Unstated));
    }
}
