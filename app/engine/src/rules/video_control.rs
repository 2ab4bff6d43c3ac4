//! The radio sets channel and power of an analog video transmitter.
//!
//! Formula: `control ≠ none ∧ serial port listed`. Valid for analog video; a digital one is set through its own picture. Source: common practice, no
//! source. When it fails, the channel changes only at the bench.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    derive::ports::ANALOG,
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, line, part},
};

const SIGNAL: Property = part(Slot::VideoTransmitter, "signal");
const CONTROL: Property = part(Slot::VideoTransmitter, "control");
const PORT: Property = line(Slot::VideoTransmitter, "uart");
const LISTED: Property = line(Slot::VideoTransmitter, "listed");
/// The word of a transmitter that only its button sets.
const NONE: &str = "none";

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "video-control",
    title: "Channel and power from the radio",
    group: Group::Radio,
    weight: Weight::Finding,
    slots: &[Slot::VideoTransmitter],
    formula: "analog: control ≠ none, and a serial port",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[SIGNAL, CONTROL, PORT, LISTED],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "Channel and power of the {control.part} change only by its button: its control is {control}, and no serial port is listed for it",
        fits: "Channel and power change from the radio",
        costs: "In a group one lands and opens the canopy to change the channel.",
    },
    hints: &["Wire its control to a free serial port", "Choose a transmitter that the radio sets"],
    fails: Example {
        parts: r#"(id: "v", name: "Sender", fills: [VideoTransmitter(signal: "analog", control: "none")])"#,
        build: r#"parts: [(slot: VideoTransmitter, part: "v")]"#,
    },
    passes: Example {
        parts: r#"(id: "v", name: "Sender", fills: [VideoTransmitter(signal: "analog", control: "two-way")])"#,
        build: r#"parts: [(slot: VideoTransmitter, part: "v", uart: 1)]"#,
    },
};

struct Inputs {
    control: Reading,
    wired: bool,
}

/// A transmitter on another part's board is wired there; digital video is the matter of the overlay.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let analog = site.all(SIGNAL).into_iter().map(|signal| signal.word() == Ok(ANALOG));
    let wiring = site.all(PORT).into_iter().zip(site.all(LISTED));
    let each = site.all(CONTROL).into_iter().zip(wiring).zip(analog).filter(|(_, analog)| *analog);
    let inputs = |((control, (port, listed)), _): ((Reading, (Reading, Reading)), bool)| {
        let on_board = !listed.flag().unwrap_or(true);
        let wired = control.word()? != NONE && (on_board || port.known.is_ok());
        Ok(Inputs { control, wired })
    };
    each.map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.wired { Status::Fits } else { Status::Tight })
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("control", inputs.control.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn control_and_a_port() {
        let sender = |record: &str, port: &str| judged(&RULE, &[("VideoTransmitter", record, port)], "");
        let set = r#"signal: "analog", control: "two-way""#;
        assert_eq!(sender(set, ", uart: 3"), [Status::Fits]);
        assert_eq!(sender(set, ""), [Status::Tight]);
        assert_eq!(sender(r#"signal: "analog", control: "none""#, ", uart: 3"), [Status::Tight]);
        assert_eq!(sender(r#"signal: "analog""#, ", uart: 3"), [Status::Unstated]);
        assert_eq!(sender(r#"signal: "Fernlight", control: "none""#, ""), []);
    }
}
