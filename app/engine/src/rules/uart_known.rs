//! The serial ports named in the list exist on the flight controller.
//!
//! Formula: number of the port ∈ numbers of the board's ports. Valid for numbers as printed. Source: common practice, no source.
//! When it fails, there is no pad to solder the part to.

use propwright_schema::{slot::Slot, value::Value};

use super::{
    Example, Facts, Form, Group, Law, Rule, Says, Weight, run,
    uart_clash::{READS, named, record},
};
use crate::{
    finding::{Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const BOARD: Property = part(Slot::FlightController, "uarts");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "uart-known",
    title: "Serial ports that exist",
    group: Group::Firmware,
    weight: Weight::Finding,
    slots: &[Slot::FlightController, Slot::Receiver, Slot::VideoTransmitter, Slot::Gps, Slot::Esc, Slot::RemoteId, Slot::Finder],
    formula: "port named in the list ∈ ports of the flight controller",
    source: "common practice, no source",
    law: Law::Match,
    reads: &READS,
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {board.part} has no serial port {port}, on which the {port.part} is listed",
        tight: "",
        fits: "The {board.part} has serial port {port} for the {port.part}",
        costs: "There is no pad to solder it to.",
    },
    hints: &["List it on a port that the board prints", "Choose a flight controller with more serial ports"],
    fails: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(uarts: [(number: 1)])]), (id: "g", name: "Fix", fills: [Gps()])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Gps, part: "g", uart: 6)]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(uarts: [(number: 1)])]), (id: "g", name: "Fix", fills: [Gps()])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Gps, part: "g", uart: 1)]"#,
    },
};

struct Named {
    board: Reading,
    port: Reading,
    exists: bool,
}

fn check(site: &Site) -> Vec<Outcome> {
    let judge = |named: &Named| Verdict::plain(if named.exists { Status::Fits } else { Status::Mismatch });
    run(site, gather, judge, facts)
}

fn gather(site: &Site) -> Vec<Result<Named, Missing>> {
    let of = |(port, number): (Reading, i64)| {
        let board = site.one(BOARD)?;
        let unnumbered = board.items()?.iter().any(|uart| uart.field("number").and_then(Value::steps).is_none());
        Ok(Named { exists: unnumbered || record(&board, number).is_some(), board, port })
    };
    named(site).into_iter().map(of).collect()
}

fn facts(named: &Named) -> Facts {
    vec![("board", named.board.because.clone()), ("port", named.port.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn as_printed_on_the_board() {
        let gps = |uarts: &str| judged(&RULE, &[("FlightController", uarts, ""), ("Gps", "", ", uart: 2")], "");
        assert_eq!(gps("uarts: [(number: 1), (number: 2)]"), [Status::Fits]);
        assert_eq!(gps("uarts: [(number: 1), (number: 3)]"), [Status::Mismatch]);
        assert_eq!(gps(""), [Status::Unstated]);
        assert_eq!(judged(&RULE, &[("Gps", "", ", uart: 2")], ""), []);
    }
}
