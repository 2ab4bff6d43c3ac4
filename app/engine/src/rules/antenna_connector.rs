//! An antenna's connector mates with that of the part it is screwed or pressed on.
//!
//! Formula: connector of the antenna = connector of the part (SMA is not RP-SMA), genders opposite. Valid for antennas with a
//! connector; goggles with a module take their antennas at the module. Source: common practice, no source. When it fails, the
//! antenna does not go on, or goes on without its middle pin touching: no range, and a transmitter that burns.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    craft::Subject,
    finding::{Datum, Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

/// Which antennas go on what, the more likely part last.
const PAIRS: [(Slot, Slot); 4] = [
    (Slot::AntennaVideo, Slot::VideoTransmitter),
    (Slot::AntennaControl, Slot::Receiver),
    (Slot::AntennaGoggles, Slot::Goggles),
    (Slot::AntennaGoggles, Slot::GogglesModule),
];

const READS: [Property; 4 * PAIRS.len()] = {
    let mut reads = [part(Slot::Frame, "id"); 4 * PAIRS.len()];
    let mut at = 0;
    while at < PAIRS.len() {
        reads[4 * at] = part(PAIRS[at].0, "connector");
        reads[4 * at + 1] = part(PAIRS[at].0, "gender");
        reads[4 * at + 2] = part(PAIRS[at].1, "antenna_connector");
        reads[4 * at + 3] = part(PAIRS[at].1, "antenna_gender");
        at += 1;
    }
    reads
};

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "antenna-connector",
    title: "Antenna connectors mate",
    group: Group::Radio,
    weight: Weight::Finding,
    slots: &[
        Slot::AntennaVideo,
        Slot::VideoTransmitter,
        Slot::AntennaControl,
        Slot::Receiver,
        Slot::AntennaGoggles,
        Slot::Goggles,
        Slot::GogglesModule,
    ],
    formula: "one connector, opposite genders",
    source: "common practice, no source",
    law: Law::Match,
    reads: &READS,
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {antenna.part} has {available}; the {device.part} has {required}",
        tight: "",
        fits: "The {antenna.part} ({available}) goes on the {device.part} ({required})",
        costs: "The antenna does not go on, or its middle pin does not touch: no range, and a transmitter without load burns.",
    },
    hints: &["Choose an antenna with the other connector", "Take an adapter, and lose some of the range"],
    fails: Example {
        parts: r#"(id: "v", name: "Sender", fills: [VideoTransmitter(antenna_connector: "SMA", antenna_gender: Female)]), (id: "a", name: "Antenna", fills: [Antenna(connector: "RP-SMA", gender: Male)])"#,
        build: r#"parts: [(slot: VideoTransmitter, part: "v"), (slot: AntennaVideo, part: "a")]"#,
    },
    passes: Example {
        parts: r#"(id: "v", name: "Sender", fills: [VideoTransmitter(antenna_connector: "SMA", antenna_gender: Female)]), (id: "a", name: "Antenna", fills: [Antenna(connector: "SMA", gender: Male)])"#,
        build: r#"parts: [(slot: VideoTransmitter, part: "v"), (slot: AntennaVideo, part: "a")]"#,
    },
};

struct Joint {
    antenna: Reading,
    device: Reading,
    mates: bool,
    ends: [String; 2],
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, facts)
}

fn gather(site: &Site) -> Vec<Result<Joint, Missing>> {
    let mut joints = Vec::new();
    for antenna_slot in [Slot::AntennaVideo, Slot::AntennaControl, Slot::AntennaGoggles] {
        let devices = PAIRS.iter().filter(|(antenna, _)| *antenna == antenna_slot).map(|(_, device)| *device);
        let mut fitted = devices.map(|device| site.all(part(device, "antenna_connector"))).filter(|all| !all.is_empty());
        let Some(devices) = fitted.next_back() else { continue };
        for antenna in site.all(part(antenna_slot, "connector")) {
            joints.extend(devices.iter().map(|device| joint(site, antenna.clone(), device.clone())));
        }
    }
    joints
}

/// Connectors first: when they differ, the genders do not matter.
fn joint(site: &Site, antenna: Reading, device: Reading) -> Result<Joint, Missing> {
    let (one, other) = (antenna.word()?.to_owned(), device.word()?.to_owned());
    let gender = |subject: &Option<Subject>, field| match subject {
        Some(subject) => site.of(subject, part(subject.slot, field)).and_then(|gender| Ok(gender.word()?.to_owned())),
        None => Ok(String::new()),
    };
    let (at_antenna, at_device) = (gender(&antenna.subject, "gender"), gender(&device.subject, "antenna_gender"));
    if one != other {
        let ends = [end(one, at_antenna.ok()), end(other, at_device.ok())];
        return Ok(Joint { antenna, device, mates: false, ends });
    }
    let (at_antenna, at_device) = (at_antenna?, at_device?);
    let mates = at_antenna != at_device;
    Ok(Joint { antenna, device, mates, ends: [end(one, Some(at_antenna)), end(other, Some(at_device))] })
}

/// Connector and gender in one, such as `SMA female`.
fn end(connector: String, gender: Option<String>) -> String {
    match gender {
        Some(gender) => [connector, gender].join(" "),
        None => connector,
    }
}

fn judge(joint: &Joint) -> Verdict {
    let [antenna, device] = joint.ends.clone().map(Datum::word);
    Verdict::of_words(if joint.mates { Status::Fits } else { Status::Mismatch }, device, antenna)
}

fn facts(joint: &Joint) -> Facts {
    vec![("antenna", joint.antenna.because.clone()), ("device", joint.device.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    fn joint(sender: &str, antenna: &str) -> Vec<Status> {
        let parts = [
            r#"(id: "v", name: "V", fills: [VideoTransmitter("#,
            sender,
            r#")]), (id: "a", name: "A", fills: [Antenna("#,
            antenna,
            ")])",
        ]
        .concat();
        verdicts(&RULE, &parts, r#"parts: [(slot: VideoTransmitter, part: "v"), (slot: AntennaVideo, part: "a")]"#)
    }

    #[test]
    fn genders_are_opposite() {
        let sender = r#"antenna_connector: "SMA", antenna_gender: Female"#;
        assert_eq!(joint(sender, r#"connector: "SMA", gender: Male"#), [Status::Fits]);
        assert_eq!(joint(sender, r#"connector: "SMA", gender: Female"#), [Status::Mismatch]);
    }

    #[test]
    fn unpublished_is_unstated_unless_the_connectors_differ() {
        let sender = r#"antenna_connector: "SMA", antenna_gender: Female"#;
        assert_eq!(joint(sender, r#"connector: "SMA""#), [Status::Unstated]);
        assert_eq!(joint(sender, r#"connector: "RP-SMA""#), [Status::Mismatch]);
        assert_eq!(joint(sender, ""), [Status::Unstated]);
        assert_eq!(joint("", r#"connector: "SMA", gender: Male"#), [Status::Unstated]);
    }

    #[test]
    fn a_module_takes_the_goggles_antennas() {
        let parts = r#"(id: "g", name: "G", fills: [Goggles(antenna_connector: "RP-SMA", antenna_gender: Female)]),
            (id: "m", name: "M", fills: [GogglesModule(antenna_connector: "SMA", antenna_gender: Female)]),
            (id: "a", name: "A", fills: [Antenna(connector: "SMA", gender: Male)])"#;
        let bare = r#"parts: [(slot: Goggles, part: "g"), (slot: AntennaGoggles, part: "a")]"#;
        let with = r#"parts: [(slot: Goggles, part: "g"), (slot: GogglesModule, part: "m"), (slot: AntennaGoggles, part: "a")]"#;
        assert_eq!(verdicts(&RULE, parts, bare), [Status::Mismatch]);
        assert_eq!(verdicts(&RULE, parts, with), [Status::Fits]);
    }
}
