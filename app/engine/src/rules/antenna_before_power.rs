//! A video transmitter never runs without its antenna.
//!
//! Formula: whenever there is one. Valid: any transmitter. Source: common practice, no source. Who forgets it sends with a burned output stage.

use propwright_schema::slot::Slot;

use super::{Example, Form, Group, Law, Rule, Says, Weight, whenever};
use crate::graph::{Property, part};

const FITTED: Property = part(Slot::VideoTransmitter, "id");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "antenna-before-power",
    title: "Antenna before power",
    group: Group::Conduct,
    weight: Weight::Caution,
    slots: &[Slot::VideoTransmitter],
    formula: "whenever there is one",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[FITTED],
    form: Form::Solved(|site| whenever::fitted(site, FITTED)),
    says: Says {
        mismatch: "",
        tight: "Screw the antennas on before the first power: a transmitter without its antenna burns its output stage, at the bench within minutes",
        fits: "",
        costs: "A transmitter that is dead or weak before its first flight.",
    },
    hints: &["Set the lowest power for the bench", "Blow air over it when it stays on for longer than a minute"],
    fails: Example {
        parts: r#"(id: "x", name: "Part", fills: [VideoTransmitter()])"#,
        build: r#"parts: [(slot: VideoTransmitter, part: "x")]"#,
    },
    passes: Example { parts: "", build: "parts: []" },
};
