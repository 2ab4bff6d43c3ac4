//! Each motor hangs on an output of its own that the flight controller has.
//!
//! Formula: outputs listed are distinct, between 1 and the outputs of the controller, and as many as motors. Valid where the list names outputs. Source:
//! common practice, no source. When it fails, the craft flips on take-off.

use std::collections::BTreeSet;

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, line, part},
};

const WIRED: Property = line(Slot::Motor, "outputs");
const OUTPUTS: Property = part(Slot::FlightController, "outputs");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "outputs-wired",
    title: "Each motor on its own output",
    group: Group::Firmware,
    weight: Weight::Finding,
    slots: &[Slot::FlightController, Slot::Motor],
    formula: "outputs listed are distinct, ≤ outputs of the controller, and as many as motors",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[WIRED, OUTPUTS],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "Motor outputs {wired}: each of the motors wants one of its own, from 1 to {outputs}",
        tight: "",
        fits: "Each motor has its own output",
        costs: "A motor does not turn, or two turn as one: the craft flips on take-off.",
    },
    hints: &["Give each motor its own output in the list"],
    fails: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(outputs: 4)]), (id: "m", name: "Motor", fills: [Motor()])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Motor, part: "m", count: 4, outputs: [1, 2, 3, 3])]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(outputs: 4)]), (id: "m", name: "Motor", fills: [Motor()])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Motor, part: "m", count: 4, outputs: [1, 2, 3, 4])]"#,
    },
};

struct Inputs {
    wired: Reading,
    outputs: Reading,
    sound: bool,
}

/// One judgement for all lines; a list that names no outputs has not been wired yet.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let lines = site.all(WIRED);
    let Some(wired) = lines.iter().find(|line| line.known.is_ok()).cloned() else { return Vec::new() };
    let motors: u32 = lines.iter().map(|line| line.count).sum();
    let inputs = |outputs: Reading| {
        let most = outputs.figure()?.nominal;
        let all: Vec<i64> = lines.iter().filter_map(|line| line.items().ok()).flatten().filter_map(Value::steps).collect();
        let distinct: BTreeSet<i64> = all.iter().copied().collect();
        let sound =
            distinct.len() == all.len() && u32::try_from(all.len()) == Ok(motors) && all.iter().all(|at| (1..=most).contains(at));
        Ok(Inputs { wired: wired.clone(), outputs, sound })
    };
    site.all(OUTPUTS).into_iter().take(1).map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.sound { Status::Fits } else { Status::Mismatch })
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("wired", inputs.wired.because.clone()), ("outputs", inputs.outputs.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn distinct_known_and_as_many() {
        let wired = |outputs: &str, board: &str| judged(&RULE, &[("FlightController", board, ""), ("Motor", "", outputs)], "");
        assert_eq!(wired(", count: 4, outputs: [4, 3, 2, 1]", "outputs: 4"), [Status::Fits]);
        assert_eq!(wired(", count: 4, outputs: [1, 2, 3, 5]", "outputs: 4"), [Status::Mismatch]);
        assert_eq!(wired(", count: 4, outputs: [1, 2, 3]", "outputs: 4"), [Status::Mismatch]);
        assert_eq!(wired(", count: 4, outputs: [0, 1, 2, 3]", "outputs: 4"), [Status::Mismatch]);
        assert_eq!(wired(", count: 4", "outputs: 4"), []);
        assert_eq!(wired(", outputs: [1]", ""), [Status::Unstated]);
    }
}
