//! There is one motor for each motor place of the frame.
//!
//! Formula: motors listed = places of the frame, twice that many where two share each arm. Valid for frames whose places are
//! published; spare motors belong on the shelf, not in the list. Source: common practice, no source. When it fails, an arm
//! stays empty, or a motor has no place.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Datum, Missing, Status, Verdict},
    graph::{Property, Reading, Site, derived, line},
    interval::{COUNT, Interval},
};

const PLACES: Property = derived("motor-places");
const MOTORS: Property = line(Slot::Motor, "count");

struct Inputs {
    places: Reading,
    takes: Interval,
    motors: Vec<Reading>,
    listed: Interval,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "motor-count",
    title: "A motor for each arm",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Motor, Slot::Frame],
    formula: "motors listed = motor places of the frame",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[PLACES, MOTORS],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "The {frame.part} takes {required} motors; the list has {available}, the {motor.part} among them",
        tight: "The {frame.part} may take {required} motors; the list has {available}",
        fits: "{available} motors for {required} places",
        costs: "An arm stays empty, or a motor has no place.",
    },
    hints: &["Set the count of the motor's line to the frame's places"],
    fails: Example { parts: FRAME_AND_MOTOR, build: r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m")]"# },
    passes: Example { parts: FRAME_AND_MOTOR, build: r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 3)]"# },
};

const FRAME_AND_MOTOR: &str = r#"(id: "f", name: "Frame", fills: [Frame(motors: [
    (x_mm: 90, y_mm: 60), (x_mm: -90, y_mm: 60), (x_mm: 0, y_mm: -110)])]), (id: "m", name: "Motor", fills: [Motor()])"#;

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let motors = site.all(MOTORS);
    if motors.is_empty() {
        return Vec::new();
    }
    let listed = motors.iter().map(|motor| i64::from(motor.count)).fold(0, i64::saturating_add);
    let inputs = |places: Reading| {
        let takes = places.figure()?;
        Ok(Inputs { places, takes, motors: motors.clone(), listed: Interval::exact(listed, &COUNT) })
    };
    site.all(PLACES).into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    let status = if inputs.takes == inputs.listed { Status::Fits } else { Status::Mismatch };
    let verdict = Verdict::of_words(status, Datum::Figure(inputs.takes), Datum::Figure(inputs.listed));
    verdict.softened(inputs.places.is_estimated())
}

fn facts(inputs: &Inputs) -> Facts {
    let motors = inputs.motors.iter().map(|motor| ("motor", motor.because.clone()));
    motors.chain([("frame", inputs.places.because.clone())]).collect()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(frame: &str, motors: &str) -> Vec<Status> {
        let parts = format!(r#"(id: "f", name: "F", fills: [Frame({frame})]), (id: "m", name: "M", fills: [Motor()])"#);
        let build = format!(r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: {motors})]"#);
        verdicts(&RULE, &parts, &build)
    }

    #[test]
    fn neither_more_nor_fewer() {
        let two = "motors: [(x_mm: 90, y_mm: 0), (x_mm: -90, y_mm: 0)]";
        assert_eq!(found(two, "1"), [Status::Mismatch]);
        assert_eq!(found(two, "2"), [Status::Fits]);
        assert_eq!(found(two, "3"), [Status::Mismatch]);
    }

    #[test]
    fn two_on_an_arm() {
        let arms = "motors: [(x_mm: 90, y_mm: 0), (x_mm: -90, y_mm: 0)], coaxial: true";
        assert_eq!(found(arms, "4"), [Status::Fits], "the frame lists its arms");
        let places = "motors: [(x_mm: 90, y_mm: 0), (x_mm: 90, y_mm: 0, z_mm: 40), (x_mm: -90, y_mm: 0),
            (x_mm: -90, y_mm: 0, z_mm: 40)], coaxial: true";
        assert_eq!(found(places, "4"), [Status::Fits], "the frame lists its motors");
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(found("", "4"), [Status::Unstated]);
    }
}
