//! The way home has the sensors that it wants: a compass and a barometer.
//!
//! Formula: `returns home ⇒ compass ∧ barometer`, on the flight controller or, the compass, in the GPS. Valid for returns that hold course and height.
//! Source: common practice, no source. When it fails, the craft finds its course only once it moves.

use std::sync::Arc;

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Datum, Missing, Status, Verdict},
    graph::{Property, Reading, Site, build, part},
};

const RETURNS: Property = build("purpose.returns_home");
const COMPASS: Property = part(Slot::Gps, "compass");
const SENSORS: Property = part(Slot::FlightController, "sensors");
/// The sensors by their words.
const WANTED: [&str; 2] = ["compass", "barometer"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "return-sensors",
    title: "Sensors for the way home",
    group: Group::Firmware,
    weight: Weight::Advice,
    slots: &[Slot::Gps, Slot::FlightController],
    formula: "returns home ⇒ compass and barometer",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[RETURNS, COMPASS, SENSORS],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The craft shall fly home by itself; it carries no {lack}",
        fits: "Compass and barometer are there for the way home",
        costs: "It turns into the wind and drifts, or climbs and sinks, on its way home.",
    },
    hints: &[
        "Choose a GPS with a compass",
        "Choose a flight controller with a barometer",
        "Set the return to climb first and fly slowly",
    ],
    fails: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(sensors: ["barometer"])]), (id: "g", name: "Fix", fills: [Gps(compass: false)])"#,
        build: r#"purpose: (returns_home: true), parts: [(slot: FlightController, part: "f"), (slot: Gps, part: "g")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(sensors: ["barometer"])]), (id: "g", name: "Fix", fills: [Gps(compass: true)])"#,
        build: r#"purpose: (returns_home: true), parts: [(slot: FlightController, part: "f"), (slot: Gps, part: "g")]"#,
    },
};

struct Inputs {
    returns: Reading,
    sensors: Reading,
    lack: Option<&'static str>,
}

/// Who does not ask for it needs nothing.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let Some(returns) = site.one(RETURNS).ok().filter(|returns| returns.flag() == Ok(true)) else { return Vec::new() };
    let in_gps = site.all(COMPASS).iter().any(|compass| compass.flag() == Ok(true));
    let inputs = |sensors: Reading| {
        let on_board: Vec<&str> = sensors.items()?.iter().filter_map(Value::word).collect();
        let there = |wanted: &str| on_board.contains(&wanted) || (in_gps && wanted == WANTED[0]);
        let lack = WANTED.into_iter().find(|wanted| !there(wanted));
        Ok(Inputs { returns: returns.clone(), sensors: sensors.clone(), lack })
    };
    site.all(SENSORS).into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.lack.is_some() { Status::Tight } else { Status::Fits })
}

fn facts(inputs: &Inputs) -> Facts {
    let lack = |lack: &str| ("lack", Because::assumption("wanted for the way home", Some(Datum::word(lack))));
    let mut facts: Vec<(&'static str, Arc<Because>)> = vec![("sensors", inputs.sensors.because.clone())];
    facts.push(("returns", inputs.returns.because.clone()));
    facts.extend(inputs.lack.map(lack));
    facts
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn both_and_only_when_wanted() {
        let home = "purpose: (returns_home: true)";
        let craft =
            |board: &str, gps: &str, wish: &str| judged(&RULE, &[("FlightController", board, ""), ("Gps", gps, "")], wish);
        assert_eq!(craft(r#"sensors: ["barometer", "compass"]"#, "", home), [Status::Fits]);
        assert_eq!(craft(r#"sensors: ["barometer"]"#, "compass: true", home), [Status::Fits]);
        assert_eq!(craft(r#"sensors: ["compass"]"#, "", home), [Status::Tight]);
        assert_eq!(craft("", "compass: true", home), [Status::Unstated]);
        assert_eq!(craft("sensors: []", "", ""), []);
    }
}
