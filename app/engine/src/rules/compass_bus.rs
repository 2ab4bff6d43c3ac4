//! A compass in the GPS finds its bus on the flight controller.
//!
//! Formula: `compass ⇒ pads for I²C`. Valid for compasses on that bus. Source: common practice, no source. When it fails, two wires of the GPS find no
//! pad.

use propwright_schema::slot::Slot;

use super::{
    Example, Form, Group, Law, Rule, Says, Weight,
    condition::{Demand, under},
};
use crate::graph::{Property, part};

const COMPASS: Property = part(Slot::Gps, "compass");
const BUS: Property = part(Slot::FlightController, "i2c");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "compass-bus",
    title: "A bus for the compass",
    group: Group::Firmware,
    weight: Weight::Finding,
    slots: &[Slot::Gps, Slot::FlightController],
    formula: "compass ⇒ pads for I²C",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[COMPASS, BUS],
    form: Form::Solved(|site| under(site, COMPASS, &Demand::Set(BUS))),
    says: Says {
        mismatch: "",
        tight: "The {when.part} holds a compass; the {figure.part} has no pads for it",
        fits: "The compass has its bus",
        costs: "The compass stays silent, and the way home is held by movement alone.",
    },
    hints: &["Choose a flight controller with pads for I²C", "Leave the two wires of the compass off"],
    fails: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(i2c: false)]), (id: "g", name: "Fix", fills: [Gps(compass: true)])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Gps, part: "g")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(i2c: true)]), (id: "g", name: "Fix", fills: [Gps(compass: true)])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Gps, part: "g")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn only_a_compass_asks() {
        let both = |gps: &str, board: &str| judged(&RULE, &[("Gps", gps, ""), ("FlightController", board, "")], "");
        assert_eq!(both("compass: false", ""), [Status::Fits]);
        assert_eq!(both("compass: true", ""), [Status::Unstated]);
        assert_eq!(both("", "i2c: true"), [Status::Unstated]);
    }
}
