//! No two parts hang on one serial port, and none on a port that the board has taken.
//!
//! Formula: each port number of the list is named once and is free. Valid for ports with both pads used. Source: common practice,
//! no source. When it fails, both parts talk into each other: no control, or no position.

use std::sync::Arc;

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    derive::ports::SERIAL,
    finding::{Because, Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, line, part},
};

const BOARD: Property = part(Slot::FlightController, "uarts");

/// Where each part with a serial port says its own, and the board's ports.
pub(super) const READS: [Property; 2 * SERIAL.len() + 1] = {
    let mut reads = [BOARD; 2 * SERIAL.len() + 1];
    let mut at = 0;
    while at < SERIAL.len() {
        reads[2 * at] = line(SERIAL[at], "uart");
        reads[2 * at + 1] = line(SERIAL[at], "listed");
        at += 1;
    }
    reads
};

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "uart-clash",
    title: "One part a serial port",
    group: Group::Firmware,
    weight: Weight::Finding,
    slots: &[
        Slot::FlightController,
        Slot::Receiver,
        Slot::VideoTransmitter,
        Slot::Gps,
        Slot::Esc,
        Slot::Camera,
        Slot::RemoteId,
        Slot::Finder,
        Slot::Payload,
    ],
    formula: "each serial port is named once and not taken on the board",
    source: "common practice, no source",
    law: Law::Match,
    reads: &READS,
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {holder.part} has serial port {port}; the {port.part} is listed on it, too",
        tight: "",
        fits: "The {port.part} has serial port {port} for itself",
        costs: "Both parts talk into each other: no control, or no position.",
    },
    hints: &["List one of them on a free port", "Choose a flight controller with more serial ports"],
    fails: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver()]), (id: "g", name: "Fix", fills: [Gps()])"#,
        build: r#"parts: [(slot: Receiver, part: "r", uart: 2), (slot: Gps, part: "g", uart: 2)]"#,
    },
    passes: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver()]), (id: "g", name: "Fix", fills: [Gps()])"#,
        build: r#"parts: [(slot: Receiver, part: "r", uart: 2), (slot: Gps, part: "g", uart: 3)]"#,
    },
};

struct Use {
    port: Reading,
    holder: Option<Arc<Because>>,
}

fn check(site: &Site) -> Vec<Outcome> {
    let judge = |found: &Use| Verdict::plain(if found.holder.is_some() { Status::Mismatch } else { Status::Fits });
    run(site, gather, judge, facts)
}

/// The ports that the lines of the list name, each with its number; a role on another part's board names none of its own.
pub(super) fn named(site: &Site) -> Vec<(Reading, i64)> {
    let in_slot = |slot: &Slot| {
        let listed = site.all(line(*slot, "listed"));
        let each = site.all(line(*slot, "uart")).into_iter().zip(listed).filter(|(_, listed)| listed.flag().unwrap_or(true));
        each.filter_map(|(port, _)| port.figure().ok().map(|number| (port, number.nominal))).collect::<Vec<_>>()
    };
    SERIAL.iter().flat_map(in_slot).collect()
}

/// The board's record of a port.
pub(super) fn record(uarts: &Reading, number: i64) -> Option<&Value> {
    let numbered = |uart: &&Value| uart.field("number").and_then(Value::steps) == Some(number);
    uarts.items().ok()?.iter().find(numbered)
}

fn gather(site: &Site) -> Vec<Result<Use, Missing>> {
    let named = named(site);
    let board = site.one(BOARD).ok();
    let of = |(at, (port, number)): (usize, &(Reading, i64))| {
        let before = named[..at].iter().find(|(_, other)| other == number).map(|(other, _)| other.because.clone());
        let uart = board.as_ref().and_then(|uarts| record(uarts, *number));
        let taken = uart.and_then(|uart| uart.field("taken")).and_then(Value::flag) == Some(true);
        let on_board = board.as_ref().filter(|_| taken).map(|uarts| uarts.because.clone());
        match (&board, before.or(on_board)) {
            (Some(Reading { known: Err(missing), .. }), None) => Err(missing.clone()),
            (_, holder) => Ok(Use { port: port.clone(), holder }),
        }
    };
    named.iter().enumerate().map(of).collect()
}

fn facts(found: &Use) -> Facts {
    let holder = found.holder.clone().map(|holder| ("holder", holder));
    holder.into_iter().chain([("port", found.port.because.clone())]).collect()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn named_twice_or_taken() {
        let board = |uarts: &str, port: &str| {
            judged(&RULE, &[("FlightController", uarts, ""), ("Gps", "", port), ("Receiver", "", ", uart: 1")], "")
        };
        let two = "uarts: [(number: 1), (number: 2, taken: true)]";
        assert_eq!(board(two, ", uart: 3"), [Status::Fits, Status::Fits]);
        assert_eq!(board(two, ", uart: 2"), [Status::Fits, Status::Mismatch]);
        assert_eq!(board(two, ", uart: 1"), [Status::Fits, Status::Mismatch]);
        assert_eq!(board(two, ""), [Status::Fits]);
    }

    #[test]
    fn unpublished_ports_are_unstated_unless_two_share_one() {
        let gps =
            |port: &str| judged(&RULE, &[("FlightController", "", ""), ("Gps", "", port), ("Receiver", "", ", uart: 1")], "");
        assert_eq!(gps(", uart: 2"), [Status::Unstated, Status::Unstated]);
        assert_eq!(gps(", uart: 1"), [Status::Unstated, Status::Mismatch]);
    }
}
