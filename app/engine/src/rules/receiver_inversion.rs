//! The receiver's serial port reads the signal the way up that the receiver sends it.
//!
//! Formula: inverted at both ends, plain at both ends, or a port that does either. Valid for the port named in the list. Source:
//! common practice, no source. When it fails, the flight controller hears nothing from the receiver.

use propwright_schema::{part::Inversion, slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run, uart_clash::record};
use crate::{
    finding::{Datum, Missing, Outcome, Status, Unknown, Verdict},
    graph::{Property, Reading, Site, line, part},
};

const SENDS: Property = part(Slot::Receiver, "inversion");
const PORT: Property = line(Slot::Receiver, "uart");
const LISTED: Property = line(Slot::Receiver, "listed");
const BOARD: Property = part(Slot::FlightController, "uarts");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "receiver-inversion",
    title: "Receiver the right way up",
    group: Group::Firmware,
    weight: Weight::Finding,
    slots: &[Slot::Receiver, Slot::FlightController],
    formula: "inversion of the port = inversion of the receiver, or either",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[SENDS, PORT, LISTED, BOARD],
    form: Form::Solved(check),
    says: Says {
        mismatch: "Serial port {port} of the {board.part} reads {available}; the {receiver.part} sends {required}",
        tight: "",
        fits: "Serial port {port} of the {board.part} reads what the {receiver.part} sends",
        costs: "The flight controller hears nothing from the receiver.",
    },
    hints: &["List the receiver on a port that does either", "Choose a receiver that sends plain"],
    fails: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(inversion: Inverted)]), (id: "f", name: "Board", fills: [FlightController(uarts: [(number: 1, inversion: Plain)])])"#,
        build: r#"parts: [(slot: Receiver, part: "r", uart: 1), (slot: FlightController, part: "f")]"#,
    },
    passes: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(inversion: Inverted)]), (id: "f", name: "Board", fills: [FlightController(uarts: [(number: 1, inversion: Either)])])"#,
        build: r#"parts: [(slot: Receiver, part: "r", uart: 1), (slot: FlightController, part: "f")]"#,
    },
};

struct Wire {
    receiver: Reading,
    board: Reading,
    port: Reading,
    sends: String,
    reads: String,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, facts)
}

/// Nothing for a receiver on the board, without a port in the list, or on a port that does not exist.
fn gather(site: &Site) -> Vec<Result<Wire, Missing>> {
    let Ok(board) = site.one(BOARD) else { return Vec::new() };
    let wiring = site.all(PORT).into_iter().zip(site.all(LISTED));
    let each = site.all(SENDS).into_iter().zip(wiring);
    let wire = |(receiver, (port, listed)): (Reading, (Reading, Reading))| {
        let number = port.figure().ok().filter(|_| listed.flag().unwrap_or(true))?.nominal;
        let uart = record(&board, number)?.clone();
        let reads = || {
            let unknown = || Missing { subject: board.subject.clone(), what: Unknown::Field("uarts.inversion") };
            let reads = uart.field("inversion").and_then(Value::word).ok_or_else(unknown)?.to_owned();
            Ok(Wire {
                sends: receiver.word()?.to_owned(),
                reads,
                receiver: receiver.clone(),
                board: board.clone(),
                port: port.clone(),
            })
        };
        Some(reads())
    };
    each.filter_map(wire).collect()
}

fn judge(wire: &Wire) -> Verdict {
    let either = Inversion::Either.word();
    let fits = wire.sends == wire.reads || wire.reads == either || wire.sends == either;
    let status = if fits { Status::Fits } else { Status::Mismatch };
    Verdict::of_words(status, Datum::word(wire.sends.clone()), Datum::word(wire.reads.clone()))
}

fn facts(wire: &Wire) -> Facts {
    vec![("board", wire.board.because.clone()), ("receiver", wire.receiver.because.clone()), ("port", wire.port.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn the_named_port_counts() {
        let wire = |sends: &str, line: &str| {
            let uarts = "uarts: [(number: 1, inversion: Plain), (number: 2, inversion: Inverted), (number: 3)]";
            judged(&RULE, &[("FlightController", uarts, ""), ("Receiver", sends, line)], "")
        };
        assert_eq!(wire("inversion: Plain", ", uart: 1"), [Status::Fits]);
        assert_eq!(wire("inversion: Plain", ", uart: 2"), [Status::Mismatch]);
        assert_eq!(wire("inversion: Plain", ", uart: 3"), [Status::Unstated]);
        assert_eq!(wire("", ", uart: 1"), [Status::Unstated]);
        assert_eq!(wire("inversion: Plain", ""), []);
    }
}
