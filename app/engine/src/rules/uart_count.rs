//! The flight controller has as many free serial ports as the parts need.
//!
//! Formula: `n_asked ≤ n_free`; one port each for a receiver, a GPS and whatever names one in the list, one more for a digital
//! video transmitter that shall write battery figures into the picture: without that one it is tight. Valid for parts with a
//! serial port of their own. Source: common practice, no source. When it fails, a part finds no port to be soldered to.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Outcome},
    graph::{Property, Reading, Site, derived},
    interval::Interval,
    verdict,
};

const ASKED: Property = derived("uarts-asked");
const OFFERED: Property = derived("uarts-offered");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "uart-count",
    title: "Serial ports enough",
    group: Group::Firmware,
    weight: Weight::Finding,
    slots: &[Slot::FlightController, Slot::Receiver, Slot::Gps, Slot::VideoTransmitter, Slot::RemoteId, Slot::Esc],
    formula: "serial ports asked for ≤ free serial ports",
    source: "common practice, no source",
    law: Law::LessIsBetter(ASKED),
    reads: &[ASKED, OFFERED],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {offered.part} has {offered} free serial ports; the parts ask for {asked}",
        tight: "The {offered.part} has {offered} free serial ports: none is left for the digital video transmitter",
        fits: "The {offered.part} has {offered} free serial ports; the parts ask for {asked}",
        costs: "A part finds no port: the craft flies without it, or not at all.",
    },
    hints: &[
        "Choose a flight controller with more serial ports",
        "Choose one with the receiver on the board",
        "Leave a part out",
    ],
    fails: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(uarts: [(number: 1), (number: 2)])]), (id: "r", name: "Receiver", fills: [Receiver()]), (id: "g", name: "Fix", fills: [Gps()])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Receiver, part: "r", count: 2), (slot: Gps, part: "g")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(uarts: [(number: 1), (number: 2), (number: 3)])]), (id: "r", name: "Receiver", fills: [Receiver()]), (id: "g", name: "Fix", fills: [Gps()])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Receiver, part: "r", count: 2), (slot: Gps, part: "g")]"#,
    },
};

struct Ports {
    asked: Reading,
    offered: Reading,
    required: Interval,
    available: Interval,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, |ports| verdict::enough(ports.required, ports.available), facts)
}

fn gather(site: &Site) -> Vec<Result<Ports, Missing>> {
    let each = site.all(OFFERED).into_iter().zip(site.all(ASKED));
    each.map(|(offered, asked)| Ok(Ports { available: offered.figure()?, required: asked.figure()?, asked, offered })).collect()
}

fn facts(ports: &Ports) -> Facts {
    vec![("offered", ports.offered.because.clone()), ("asked", ports.asked.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    const LINES: &str =
        r#"parts: [(slot: FlightController, part: "f"), (slot: Receiver, part: "r"), (slot: VideoTransmitter, part: "v")]"#;

    fn ports(uarts: &str, signal: &str) -> Vec<Status> {
        let parts = [
            r#"(id: "f", name: "F", fills: [FlightController("#,
            uarts,
            r#")]), (id: "r", name: "R", fills: [Receiver()]), (id: "v", name: "V", fills: [VideoTransmitter(signal: ""#,
            signal,
            r#"")])"#,
        ]
        .concat();
        verdicts(&RULE, &parts, LINES)
    }

    #[test]
    fn a_taken_port_is_not_free() {
        assert_eq!(ports("uarts: [(number: 1, taken: false)]", "analog"), [Status::Fits]);
        assert_eq!(ports("uarts: [(number: 1, taken: true)]", "analog"), [Status::Mismatch]);
    }

    #[test]
    fn digital_video_only_warns() {
        assert_eq!(ports("uarts: [(number: 1)]", "Fernlight"), [Status::Tight]);
        assert_eq!(ports("uarts: [(number: 1), (number: 2)]", "Fernlight"), [Status::Fits]);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(ports("", "analog"), [Status::Unstated]);
    }
}
