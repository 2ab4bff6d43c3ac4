//! The frame holds the video antenna.
//!
//! Formula: a screwed connector (SMA, RP-SMA) ⇒ "SMA plate" among the frame's mounts; any other connector ⇒ some mount. Valid for frames that
//! list their mounts. Source: common practice, no source. When it fails, the antenna hangs by its cable.

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const MOUNTS: Property = part(Slot::Frame, "antenna_mounts");
const CONNECTOR: Property = part(Slot::AntennaVideo, "connector");
/// Connectors that are screwed through a plate, and the mount that is one.
const SCREWED: [&str; 2] = ["SMA", "RP-SMA"];
const PLATE: &str = "SMA plate";

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "antenna-mount",
    title: "A mount for the video antenna",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::AntennaVideo, Slot::Frame],
    formula: "SMA or RP-SMA ⇒ an SMA plate among the mounts; any other ⇒ some mount",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[MOUNTS, CONNECTOR],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The {antenna.part} ends in {antenna}; the {mounts.part} offers {mounts}",
        fits: "The video antenna has its mount",
        costs: "The antenna hangs by its cable, and breaks or turns into a blade.",
    },
    hints: &[
        "Print a mount for the antenna",
        "Choose an antenna for the mounts of the frame",
        "Choose a frame with a plate for screwed antennas",
    ],
    fails: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(antenna_mounts: ["printed T mount"])]), (id: "a", name: "Antenna", fills: [Antenna(connector: "SMA")])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: AntennaVideo, part: "a")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(antenna_mounts: ["SMA plate"])]), (id: "a", name: "Antenna", fills: [Antenna(connector: "SMA")])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: AntennaVideo, part: "a")]"#,
    },
};

struct Inputs {
    antenna: Reading,
    mounts: Reading,
    held: bool,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let inputs = |antenna: Reading| {
        let mounts = site.one(MOUNTS)?;
        let screwed = SCREWED.contains(&antenna.word()?);
        let suits = |mount: &Value| mount.word().is_some_and(|mount| !screwed || mount == PLATE);
        let held = mounts.items()?.iter().any(suits);
        Ok(Inputs { antenna, mounts, held })
    };
    site.all(CONNECTOR).into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.held { Status::Fits } else { Status::Tight })
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("antenna", inputs.antenna.because.clone()), ("mounts", inputs.mounts.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn a_screwed_connector_wants_its_plate() {
        let held = |mounts: &str, antenna: &str| judged(&RULE, &[("Frame", mounts, ""), ("AntennaVideo", antenna, "")], "");
        let tube = r#"antenna_mounts: ["arm tube"]"#;
        assert_eq!(held(tube, r#"connector: "RP-SMA""#), [Status::Tight]);
        assert_eq!(held(tube, r#"connector: "MMCX""#), [Status::Fits]);
        assert_eq!(held("antenna_mounts: []", r#"connector: "MMCX""#), [Status::Tight]);
        assert_eq!(held("", r#"connector: "SMA""#), [Status::Unstated]);
        assert_eq!(held(tube, ""), [Status::Unstated]);
    }
}
