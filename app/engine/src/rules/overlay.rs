//! The flight controller writes battery figures into the picture.
//!
//! Formula: analog video wants an analog overlay, digital video a digital one over a serial port of its own. Valid for any video;
//! it forbids only when the purpose asks for the figures. Source: common practice, no source. When it fails, the pilot flies
//! without pack volts before the eyes and sets channels with a button on the craft.

use std::sync::Arc;

use propwright_schema::{part::Overlay, slot::Slot};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    derive::ports::ANALOG,
    finding::{Because, Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, build, line, part},
};

const SIGNAL: Property = part(Slot::VideoTransmitter, "signal");
const PORT: Property = line(Slot::VideoTransmitter, "uart");
const LISTED: Property = line(Slot::VideoTransmitter, "listed");
const OVERLAY: Property = part(Slot::FlightController, "overlay");
const WANTED: Property = build("purpose.overlay_wanted");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "overlay",
    title: "Battery figures in the picture",
    group: Group::Firmware,
    weight: Weight::Finding,
    slots: &[Slot::FlightController, Slot::VideoTransmitter],
    formula: "analog: analog overlay; digital: digital overlay and a serial port",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[SIGNAL, PORT, LISTED, OVERLAY, WANTED],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {board.part} ({board}) writes nothing into the {sender} picture of the {sender.part}, and the purpose asks for battery figures",
        tight: "The {board.part} ({board}) writes nothing into the {sender} picture of the {sender.part}: no battery figures, no remote channel change",
        fits: "The {board.part} ({board}) writes into the {sender} picture",
        costs: "The pilot flies without pack volts before the eyes.",
    },
    hints: &[
        "Give the digital transmitter a serial port",
        "Choose a flight controller with the overlay",
        "Watch volts by a buzzer",
    ],
    fails: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(overlay: Without)]), (id: "v", name: "Sender", fills: [VideoTransmitter(signal: "analog")])"#,
        build: r#"purpose: (overlay_wanted: true), parts: [(slot: FlightController, part: "f"), (slot: VideoTransmitter, part: "v")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(overlay: Analog)]), (id: "v", name: "Sender", fills: [VideoTransmitter(signal: "analog")])"#,
        build: r#"purpose: (overlay_wanted: true), parts: [(slot: FlightController, part: "f"), (slot: VideoTransmitter, part: "v")]"#,
    },
};

struct Picture {
    sender: Reading,
    board: Reading,
    wish: Option<Arc<Because>>,
    written: bool,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, facts)
}

fn gather(site: &Site) -> Vec<Result<Picture, Missing>> {
    let wiring = site.all(PORT).into_iter().zip(site.all(LISTED));
    let each = site.all(SIGNAL).into_iter().zip(wiring);
    let wish = site.one(WANTED).ok().filter(|wish| wish.flag().unwrap_or(false)).map(|wish| wish.because);
    let picture = |(sender, (port, listed)): (Reading, (Reading, Reading))| {
        let board = site.one(OVERLAY)?;
        let wired = port.known.is_ok() || !listed.flag().unwrap_or(true);
        let suited = if sender.word()? == ANALOG { Overlay::Analog } else { Overlay::Digital };
        let overlay = board.word()?;
        let has = overlay == suited.word() || overlay == Overlay::Both.word();
        Ok(Picture { written: has && (suited == Overlay::Analog || wired), wish: wish.clone(), sender, board })
    };
    each.map(picture).collect()
}

fn judge(picture: &Picture) -> Verdict {
    Verdict::plain(match (picture.written, &picture.wish) {
        (true, _) => Status::Fits,
        (false, None) => Status::Tight,
        (false, Some(_)) => Status::Mismatch,
    })
}

fn facts(picture: &Picture) -> Facts {
    let mut facts = vec![("board", picture.board.because.clone()), ("sender", picture.sender.because.clone())];
    facts.extend(picture.wish.clone().map(|wish| ("wish", wish)));
    facts
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    fn picture(board: &str, signal: &str, port: &str) -> Status {
        let sender = [r#"signal: ""#, signal, r#"""#].concat();
        judged(&RULE, &[("FlightController", board, ""), ("VideoTransmitter", &sender, port)], "")[0]
    }

    #[test]
    fn analog_wants_a_chip_and_digital_a_port() {
        assert_eq!(picture("overlay: Analog", "analog", ""), Status::Fits);
        assert_eq!(picture("overlay: Digital", "analog", ""), Status::Tight);
        assert_eq!(picture("overlay: Both", "Fernlight", ", uart: 1"), Status::Fits);
        assert_eq!(picture("overlay: Both", "Fernlight", ""), Status::Tight);
        assert_eq!(picture("overlay: Analog", "Fernlight", ", uart: 1"), Status::Tight);
        assert_eq!(picture("", "analog", ""), Status::Unstated);
    }

    #[test]
    fn only_a_wish_forbids() {
        let fitted = [("FlightController", "overlay: Without", ""), ("VideoTransmitter", r#"signal: "analog""#, "")];
        assert_eq!(judged(&RULE, &fitted, "purpose: (overlay_wanted: true)"), [Status::Mismatch]);
        assert_eq!(judged(&RULE, &fitted, "purpose: (overlay_wanted: false)"), [Status::Tight]);
    }
}
