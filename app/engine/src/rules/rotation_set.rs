//! The propellers bought turn in both directions.
//!
//! Formula: clockwise and counter-clockwise ∈ directions of all propellers listed, wherever two or more motors turn. Valid for
//! craft whose torques cancel. Source: common practice, no source. When it fails, some motors blow upwards and the craft flips
//! on take-off.

use propwright_schema::{
    part::RotationSet,
    slot::Slot,
    value::{Describe, Value},
};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Datum, Missing, Status, Verdict},
    graph::{Property, Reading, Site, line, part},
};

const ROTATION: Property = part(Slot::Propeller, "rotation");
const MOTORS: Property = line(Slot::Motor, "count");

struct Inputs {
    propellers: Vec<Reading>,
    motor: Reading,
    directions: Vec<Value>,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rotation-set",
    title: "Propellers of both directions",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Propeller, Slot::Motor],
    formula: "both directions of rotation among the propellers, for two motors or more",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[ROTATION, MOTORS],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "The {propeller.part} turns {propeller} only; the motors need propellers of both directions",
        tight: "The {propeller.part} may turn {propeller} only; the motors need propellers of both directions",
        fits: "There are propellers for both directions",
        costs: "Some motors blow upwards, and the craft flips on take-off.",
    },
    hints: &["List the same propeller of the other direction too", "Choose a pack with both directions"],
    fails: Example {
        parts: r#"(id: "p", name: "P", fills: [Propeller(rotation: Clockwise)]), (id: "m", name: "M", fills: [Motor()])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "p", name: "P", fills: [Propeller(rotation: Both)]), (id: "m", name: "M", fills: [Motor()])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: Propeller, part: "p", count: 4), (slot: Motor, part: "m", count: 4)]"#;

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let (propellers, motors) = (site.all(ROTATION), site.all(MOTORS));
    let turning: u32 = motors.iter().map(|motor| motor.count).fold(0, u32::saturating_add);
    let Some(motor) = motors.into_iter().next().filter(|_| turning > 1 && !propellers.is_empty()) else { return Vec::new() };
    let directions = propellers.iter().map(|propeller| propeller.value().cloned()).collect::<Result<Vec<_>, _>>();
    vec![directions.map(|directions| Inputs { propellers, motor, directions })]
}

fn judge(inputs: &Inputs) -> Verdict {
    let has = |rotation: RotationSet| inputs.directions.contains(&rotation.value());
    let holds = has(RotationSet::Both) || (has(RotationSet::Clockwise) && has(RotationSet::CounterClockwise));
    let status = if holds { Status::Fits } else { Status::Mismatch };
    let asked = Datum::Value(RotationSet::Both.value());
    let verdict = Verdict::of_words(status, asked, Datum::Value(Value::List(inputs.directions.clone())));
    verdict.softened(inputs.propellers.iter().any(Reading::is_estimated))
}

fn facts(inputs: &Inputs) -> Facts {
    let mut facts: Facts = inputs.propellers.iter().map(|propeller| ("propeller", propeller.because.clone())).collect();
    facts.push(("motor", inputs.motor.because.clone()));
    facts
}

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    const TWO: &str = r#"(id: "p", name: "P", fills: [Propeller(rotation: Clockwise)]), (id: "q", name: "Q",
        fills: [Propeller(rotation: CounterClockwise)]), (id: "m", name: "M", fills: [Motor()])"#;

    #[test]
    fn two_lines_make_a_set() {
        let build = BUILD.replace("parts: [", r#"parts: [(slot: Propeller, part: "q", count: 2), "#);
        assert_eq!(verdicts(&RULE, TWO, &build), [Status::Fits]);
        assert_eq!(verdicts(&RULE, TWO, BUILD), [Status::Mismatch]);
    }

    #[test]
    fn one_motor_needs_one_direction() {
        let build = r#"parts: [(slot: Propeller, part: "p"), (slot: Motor, part: "m")]"#;
        assert_eq!(verdicts(&RULE, TWO, build), []);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(verdicts(&RULE, &TWO.replace("rotation: Clockwise", ""), BUILD), [Status::Unstated]);
    }
}
