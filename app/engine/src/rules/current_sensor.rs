//! The flight controller reckons with the scale of the current sensor.
//!
//! Formula: scale of the sensor = scale expected, in mV/A. Valid where a board says that it has a sensor; 0 means none. It is
//! advice: the scale is a setting of the firmware, as the poles of the motors are, and no part has to go. Source: common
//! practice, no source. When it fails, current and charge in the picture are wrong by the ratio of both.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Datum, Missing, Status, Verdict},
    graph::{Property, Reading, Site, part},
    interval::Interval,
};

const ESC: Property = part(Slot::Esc, "current_scale_mv_per_a");
const BOARD: Property = part(Slot::PowerBoard, "current_scale_mv_per_a");
const EXPECTED: Property = part(Slot::FlightController, "current_scale_mv_per_a");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "current-sensor",
    title: "Scale of the current sensor",
    group: Group::Electrical,
    weight: Weight::Advice,
    slots: &[Slot::Esc, Slot::PowerBoard, Slot::FlightController],
    formula: "scale of the sensor = scale that the controller expects",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[ESC, BOARD, EXPECTED],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The {sensor.part} tells {sensor}; the {expected.part} reckons with {expected}: set it",
        fits: "The {expected.part} reckons with {expected}, as the {sensor.part} tells",
        costs: "The picture shows a wrong current and a wrong charge used, and one lands too late.",
    },
    hints: &["Set the scale in the firmware before the first flight", "Compare the charge used with what goes back in"],
    fails: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(current_scale_mv_per_a: 40)]), (id: "f", name: "Board", fills: [FlightController(current_scale_mv_per_a: 25)])"#,
        build: r#"parts: [(slot: Esc, part: "e"), (slot: FlightController, part: "f")]"#,
    },
    passes: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(current_scale_mv_per_a: 25)]), (id: "f", name: "Board", fills: [FlightController(current_scale_mv_per_a: 25)])"#,
        build: r#"parts: [(slot: Esc, part: "e"), (slot: FlightController, part: "f")]"#,
    },
};

struct Inputs {
    sensor: Reading,
    expected: Reading,
    figures: [Interval; 2],
}

/// The sensor of the power board counts where there is one, else that of the speed controller; none is no finding.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let there = |sensor: &Reading| sensor.figure().is_ok_and(|scale| scale.nominal > 0);
    let sensor = [BOARD, ESC].into_iter().filter_map(|scale| site.one(scale).ok()).find(there);
    let inputs = |sensor: Reading| {
        let expected = site.one(EXPECTED)?;
        let figures = [sensor.figure()?, expected.figure()?];
        Ok(Inputs { sensor, expected, figures })
    };
    sensor.into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    let [sensor, expected] = inputs.figures;
    let status = if sensor.nominal == expected.nominal { Status::Fits } else { Status::Tight };
    Verdict::of_words(status, Datum::Figure(sensor), Datum::Figure(expected))
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("sensor", inputs.sensor.because.clone()), ("expected", inputs.expected.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn the_sensor_that_is_there_counts() {
        let (esc, board) = ("current_scale_mv_per_a: 40", "current_scale_mv_per_a: 25");
        let scales = |fitted: &[(&str, &str, &str)]| judged(&RULE, fitted, "");
        assert_eq!(scales(&[("Esc", esc, ""), ("FlightController", board, "")]), [Status::Tight]);
        assert_eq!(scales(&[("Esc", esc, ""), ("PowerBoard", board, ""), ("FlightController", board, "")]), [Status::Fits]);
        assert_eq!(scales(&[("Esc", "current_scale_mv_per_a: 0", ""), ("FlightController", board, "")]), []);
        assert_eq!(scales(&[("Esc", esc, ""), ("FlightController", "", "")]), [Status::Unstated]);
    }
}
