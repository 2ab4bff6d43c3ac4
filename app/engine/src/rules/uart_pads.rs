//! A serial port has the pad that its part needs.
//!
//! Formula: receiver, GPS and the controller's telemetry want a receive pad, a video transmitter a transmit pad. Valid for ports that the list names.
//! Source: common practice, no source. When it fails, the part stays deaf or mute.

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Datum, Missing, Status, Unknown, Verdict},
    graph::{Property, Reading, Site, line, part},
};

const UARTS: Property = part(Slot::FlightController, "uarts");
/// The slots that hang on a port, with the pad that each wants.
const WANTS: [(Slot, &str); 4] = [(Slot::Receiver, "rx"), (Slot::Gps, "rx"), (Slot::Esc, "rx"), (Slot::VideoTransmitter, "tx")];
const READS: [Property; 5] =
    [UARTS, line(WANTS[0].0, "uart"), line(WANTS[1].0, "uart"), line(WANTS[2].0, "uart"), line(WANTS[3].0, "uart")];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "uart-pads",
    title: "Pads of the serial ports",
    group: Group::Firmware,
    weight: Weight::Finding,
    slots: &[Slot::FlightController, Slot::Receiver, Slot::Gps, Slot::VideoTransmitter, Slot::Esc],
    formula: "receiver, GPS, telemetry: receive pad; video: transmit pad",
    source: "common practice, no source",
    law: Law::Match,
    reads: &READS,
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "The {port.part} wants a {pad} pad; serial port {port} of the {board.part} has none",
        tight: "",
        fits: "Serial port {port} has the pad that the {port.part} wants",
        costs: "The part is soldered to a port that cannot hear it, or not speak to it.",
    },
    hints: &["Choose another serial port"],
    fails: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(uarts: [(number: 1, rx: false, tx: true)])]), (id: "r", name: "Receiver", fills: [Receiver()])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Receiver, part: "r", uart: 1)]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(uarts: [(number: 1, rx: true, tx: true)])]), (id: "r", name: "Receiver", fills: [Receiver()])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Receiver, part: "r", uart: 1)]"#,
    },
};

struct Inputs {
    port: Reading,
    board: Reading,
    pad: &'static str,
    there: bool,
}

/// A port that the board does not have is the matter of another rule.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let Ok(board) = site.one(UARTS) else { return Vec::new() };
    let of = |port: Reading, pad: &'static str| {
        let number = port.value().ok()?;
        let uart = board.items().ok()?.iter().find(|uart| uart.field("number") == Some(number))?;
        let unknown = || Missing { subject: board.subject.clone(), what: Unknown::Field("uarts") };
        let there = uart.field(pad).and_then(Value::flag).ok_or_else(unknown);
        Some(there.map(|there| Inputs { port: port.clone(), board: board.clone(), pad, there }))
    };
    let each = |(slot, pad): (Slot, &'static str)| {
        site.all(line(slot, "uart")).into_iter().filter_map(move |port| of(port, pad)).collect::<Vec<_>>()
    };
    WANTS.into_iter().flat_map(each).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.there { Status::Fits } else { Status::Mismatch })
}

fn facts(inputs: &Inputs) -> Facts {
    let pad = Because::assumption("pad wanted", Some(Datum::word(inputs.pad)));
    vec![("port", inputs.port.because.clone()), ("board", inputs.board.because.clone()), ("pad", pad)]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn each_its_pad() {
        let port = |slot: &str, uart: &str| {
            let uarts = ["uarts: [(number: 1", uart, ")]"].concat();
            judged(&RULE, &[("FlightController", &uarts, ""), (slot, "", ", uart: 1")], "")
        };
        assert_eq!(port("Gps", ", rx: true, tx: false"), [Status::Fits]);
        assert_eq!(port("VideoTransmitter", ", rx: true, tx: false"), [Status::Mismatch]);
        assert_eq!(port("VideoTransmitter", ", tx: true"), [Status::Fits]);
        assert_eq!(port("Receiver", ", tx: true"), [Status::Unstated]);
        assert_eq!(judged(&RULE, &[("FlightController", "uarts: [(number: 2)]", ""), ("Gps", "", ", uart: 1")], ""), []);
    }
}
