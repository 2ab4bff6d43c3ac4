//! The flight controller has an output for each motor.
//!
//! Formula: `outputs ≥ motors`. Valid for any number of motors. Source: common practice, no source. When it fails, a motor has no
//! signal and the craft cannot fly.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Outcome},
    graph::{Property, Reading, Site, line, part},
    interval::{COUNT, Interval},
    verdict,
};

const OUTPUTS: Property = part(Slot::FlightController, "outputs");
/// How many motors a line lists.
pub(super) const MOTORS: Property = line(Slot::Motor, "count");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "motor-outputs",
    title: "An output for each motor",
    group: Group::Firmware,
    weight: Weight::Finding,
    slots: &[Slot::FlightController, Slot::Motor],
    formula: "outputs ≥ motors",
    source: "common practice, no source",
    law: Law::MoreIsBetter(OUTPUTS),
    reads: &[OUTPUTS, MOTORS],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {board.part} has {available} motor outputs; the craft has {required} motors",
        tight: "",
        fits: "The {board.part} has {available} motor outputs for {required} motors",
        costs: "A motor has no signal: the craft cannot fly.",
    },
    hints: &["Choose a flight controller with more outputs", "Choose a frame with fewer motors"],
    fails: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(outputs: 4)]), (id: "m", name: "Motor", fills: [Motor()])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Motor, part: "m", count: 8)]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(outputs: 8)]), (id: "m", name: "Motor", fills: [Motor()])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Motor, part: "m", count: 8)]"#,
    },
};

struct Outputs {
    board: Reading,
    motors: Reading,
    required: Interval,
    available: Interval,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, |outputs| verdict::enough(outputs.required, outputs.available), facts)
}

/// All motors of the list, with the first line that lists some; nothing without motors.
pub(super) fn motors(site: &Site) -> Option<(Reading, Interval)> {
    let lines = site.all(MOTORS);
    let all = lines.iter().map(|line| i64::from(line.count)).sum();
    Some((lines.into_iter().next()?, Interval::exact(all, &COUNT)))
}

fn gather(site: &Site) -> Vec<Result<Outputs, Missing>> {
    let Some((motors, required)) = motors(site) else { return Vec::new() };
    let of = |board: Reading| Ok(Outputs { available: board.figure()?, required, board, motors: motors.clone() });
    site.all(OUTPUTS).into_iter().map(of).collect()
}

fn facts(outputs: &Outputs) -> Facts {
    vec![("board", outputs.board.because.clone()), ("motors", outputs.motors.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn all_lines_count() {
        let board = |outputs: &str| {
            let motors = ("Motor", "", ", count: 2");
            judged(&RULE, &[("FlightController", outputs, ""), motors, motors], "")
        };
        assert_eq!(board("outputs: 4"), [Status::Fits]);
        assert_eq!(board("outputs: 3"), [Status::Mismatch]);
        assert_eq!(board(""), [Status::Unstated]);
        assert_eq!(judged(&RULE, &[("FlightController", "outputs: 1", "")], ""), []);
    }
}
