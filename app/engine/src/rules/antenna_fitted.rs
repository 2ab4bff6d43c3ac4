//! Whatever sends or receives has its antenna: on the board, in the box, or listed.
//!
//! Formula: antennas listed ≥ antenna connectors, or antenna built in. Valid for video transmitter, receiver and goggles. Source:
//! common practice, no source. When it fails, a transmitter burns its last stage within minutes of sending into nothing.

use std::sync::Arc;

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Datum, Missing, Outcome, Status, Unknown, Verdict},
    graph::{Property, Reading, Site, part},
    interval::{COUNT, Interval},
};

const MODULE: Property = part(Slot::GogglesModule, "id");
/// Each device: its connector, the field that tells of an antenna that comes with it, and where antennas for it are listed.
const DEVICES: [(Slot, &str, Slot); 3] = [
    (Slot::VideoTransmitter, "antenna_built_in", Slot::AntennaVideo),
    (Slot::Receiver, "antenna_built_in", Slot::AntennaControl),
    (Slot::Goggles, "antennas_in_box", Slot::AntennaGoggles),
];
/// Devices whose records tell how many antennas they take.
const COUNTED: [Slot; 2] = [Slot::VideoTransmitter, Slot::Goggles];

const READS: [Property; 3 * DEVICES.len() + COUNTED.len() + 1] = {
    let mut reads = [MODULE; 3 * DEVICES.len() + COUNTED.len() + 1];
    let mut at = 0;
    while at < DEVICES.len() {
        reads[3 * at] = part(DEVICES[at].0, "antenna_connector");
        reads[3 * at + 1] = part(DEVICES[at].0, DEVICES[at].1);
        reads[3 * at + 2] = part(DEVICES[at].2, "id");
        at += 1;
    }
    let mut counted = 0;
    while counted < COUNTED.len() {
        reads[3 * DEVICES.len() + counted] = part(COUNTED[counted], "antennas");
        counted += 1;
    }
    reads
};

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "antenna-fitted",
    title: "An antenna on everything that sends",
    group: Group::Radio,
    weight: Weight::Finding,
    slots: &[
        Slot::VideoTransmitter,
        Slot::AntennaVideo,
        Slot::Receiver,
        Slot::AntennaControl,
        Slot::Goggles,
        Slot::GogglesModule,
        Slot::AntennaGoggles,
    ],
    formula: "antennas listed ≥ antenna connectors, or antenna built in",
    source: "common practice, no source",
    law: Law::Match,
    reads: &READS,
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {device.part} has no antenna: none is listed, none comes with it",
        tight: "The {device.part} takes {required} antennas; {available} is listed",
        fits: "The {device.part} has its antenna",
        costs: "A transmitter that sends without antenna burns its last stage within minutes; a receiver hears nothing.",
    },
    hints: &["Add an antenna with the mating connector", "Fit the antenna before the first power"],
    fails: Example {
        parts: r#"(id: "v", name: "Sender", fills: [VideoTransmitter(antenna_connector: "SMA")])"#,
        build: r#"parts: [(slot: VideoTransmitter, part: "v")]"#,
    },
    passes: Example {
        parts: r#"(id: "v", name: "Sender", fills: [VideoTransmitter(antenna_connector: "SMA", antennas: 1)]), (id: "a", name: "Antenna", fills: [Antenna()])"#,
        build: r#"parts: [(slot: VideoTransmitter, part: "v"), (slot: AntennaVideo, part: "a")]"#,
    },
};

struct Fitted {
    device: Arc<Because>,
    listed: u32,
    /// Antennas that it takes, where its record tells.
    takes: Option<Interval>,
    comes_with: bool,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, |fitted| Facts::from([("device", fitted.device.clone())]))
}

fn gather(site: &Site) -> Vec<Result<Fitted, Missing>> {
    DEVICES.into_iter().flat_map(|(slot, with, antennas)| in_slot(site, slot, with, antennas)).collect()
}

fn in_slot(site: &Site, slot: Slot, with: &'static str, antennas: Slot) -> Vec<Result<Fitted, Missing>> {
    let listed = site.all(part(antennas, "id")).iter().map(|antenna| antenna.count).sum();
    let built_in = site.all(part(slot, with));
    let connectors = site.all(part(slot, "antenna_connector")).into_iter().zip(built_in);
    let of = |(connector, built_in): (Reading, Reading)| {
        let takes = takes(site, &connector);
        let bare_shell = slot == Slot::Goggles && takes.is_some_and(|takes| takes.high == 0) && site.all(MODULE).is_empty();
        (!bare_shell).then(|| fitted(&connector, &built_in, listed, takes, with))
    };
    connectors.filter_map(of).collect()
}

fn takes(site: &Site, device: &Reading) -> Option<Interval> {
    let subject = device.subject.as_ref().filter(|subject| COUNTED.contains(&subject.slot))?;
    site.of(subject, part(subject.slot, "antennas")).and_then(|antennas| antennas.figure()).ok()
}

/// A device that tells of a connector, and of no antenna with it, comes without.
fn fitted(
    connector: &Reading,
    built_in: &Reading,
    listed: u32,
    takes: Option<Interval>,
    with: &'static str,
) -> Result<Fitted, Missing> {
    let unknown = Missing { subject: connector.subject.clone(), what: Unknown::Field(with) };
    let comes_with = match built_in.flag() {
        Ok(flag) => flag,
        Err(_) if listed > 0 || (connector.known.is_ok() && with == DEVICES[0].1) => false,
        Err(_) => return Err(unknown),
    };
    let device = if built_in.known.is_ok() { built_in } else { connector };
    Ok(Fitted { device: device.because.clone(), listed, takes, comes_with })
}

fn judge(fitted: &Fitted) -> Verdict {
    let listed = Interval::exact(i64::from(fitted.listed), &COUNT);
    let takes = fitted.takes.unwrap_or(listed);
    let status = match fitted.listed {
        _ if fitted.comes_with => Status::Fits,
        0 => Status::Mismatch,
        _ if listed.nominal < takes.nominal => Status::Tight,
        _ => Status::Fits,
    };
    Verdict::of_words(status, Datum::Figure(takes), Datum::Figure(listed))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn built_in_counts() {
        let receiver = |record: &str| judged(&RULE, &[("Receiver", record, "")], "");
        assert_eq!(receiver("antenna_built_in: true"), [Status::Fits]);
        assert_eq!(receiver("antenna_built_in: false"), [Status::Mismatch]);
        assert_eq!(receiver(r#"antenna_connector: "SMA""#), [Status::Mismatch]);
        assert_eq!(receiver(""), [Status::Unstated]);
    }

    #[test]
    fn one_of_two_is_tight() {
        let sender = ("VideoTransmitter", r#"antennas: 2, antenna_connector: "MMCX""#, "");
        let antennas = |count: &str| judged(&RULE, &[sender, ("AntennaVideo", "", count)], "");
        assert_eq!(antennas(", count: 2"), [Status::Fits]);
        assert_eq!(antennas(", count: 1"), [Status::Tight]);
    }

    #[test]
    fn goggles_bring_theirs_or_take_a_module() {
        let goggles = |record: &str| judged(&RULE, &[("Goggles", record, "")], "");
        assert_eq!(goggles("antennas: 2, antennas_in_box: true"), [Status::Fits]);
        assert_eq!(goggles("antennas: 2, antennas_in_box: false"), [Status::Mismatch]);
        assert_eq!(goggles(r#"antennas: 2, antenna_connector: "SMA""#), [Status::Unstated]);
        assert_eq!(goggles("antennas: 0, antennas_in_box: false"), []);
        let module = [("Goggles", "antennas: 0, antennas_in_box: false", ""), ("GogglesModule", "", "")];
        assert_eq!(judged(&RULE, &module, ""), [Status::Mismatch]);
    }
}
