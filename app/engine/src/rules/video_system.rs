//! Camera, video transmitter and goggles speak one video system.
//!
//! Formula: signal of the camera = signal of the transmitter; signal of the transmitter ∈ families of the goggles or of their
//! module. Valid for analog video and for any digital family. Source: common practice, no source. When it fails, the goggles
//! stay black.

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Datum, Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const CAMERA: Property = part(Slot::Camera, "signal");
const SENDER: Property = part(Slot::VideoTransmitter, "signal");
const GOGGLES: Property = part(Slot::Goggles, "families");
const MODULE: Property = part(Slot::GogglesModule, "families");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "video-system",
    title: "One video system",
    group: Group::Radio,
    weight: Weight::Finding,
    slots: &[Slot::Camera, Slot::VideoTransmitter, Slot::Goggles, Slot::GogglesModule],
    formula: "signal of the camera = signal of the transmitter ∈ families of goggles or module",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[CAMERA, SENDER, GOGGLES, MODULE],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {other.part} works with {available}; the {sender.part} sends {required}",
        tight: "",
        fits: "The {other.part} works with the {sender.part}: {required}",
        costs: "The goggles stay black.",
    },
    hints: &["Choose camera, transmitter and goggles of one system", "Add a module to the goggles"],
    fails: Example {
        parts: r#"(id: "v", name: "Sender", fills: [VideoTransmitter(signal: "analog")]), (id: "g", name: "Goggles", fills: [Goggles(families: ["Fernlight"])])"#,
        build: r#"parts: [(slot: VideoTransmitter, part: "v"), (slot: Goggles, part: "g")]"#,
    },
    passes: Example {
        parts: r#"(id: "v", name: "Sender", fills: [VideoTransmitter(signal: "analog")]), (id: "g", name: "Goggles", fills: [Goggles(families: ["Fernlight", "analog"])])"#,
        build: r#"parts: [(slot: VideoTransmitter, part: "v"), (slot: Goggles, part: "g")]"#,
    },
};

struct Pair {
    sender: Reading,
    other: Reading,
    sends: Value,
    takes: Value,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, facts)
}

fn gather(site: &Site) -> Vec<Result<Pair, Missing>> {
    let mut pairs = Vec::new();
    for sender in site.all(SENDER) {
        let apart = |camera: &Reading| !same_part(&sender, camera);
        pairs.extend(site.all(CAMERA).into_iter().filter(apart).map(|camera| pair(sender.clone(), camera)));
        pairs.extend(receiving(site, sender));
    }
    pairs
}

/// Camera and transmitter of one set go together as sold.
fn same_part(one: &Reading, other: &Reading) -> bool {
    let id = |reading: &Reading| reading.subject.as_ref().map(|subject| subject.part.id.clone());
    id(one) == id(other)
}

fn pair(sender: Reading, other: Reading) -> Result<Pair, Missing> {
    Ok(Pair { sends: sender.value()?.clone(), takes: other.value()?.clone(), sender, other })
}

/// The goggles or module that receives the sender; if none does, the first of them or the first that tells nothing.
fn receiving(site: &Site, sender: Reading) -> Option<Result<Pair, Missing>> {
    let mut all = site.all(GOGGLES);
    all.extend(site.all(MODULE));
    let takes = |other: &Reading| match (sender.value(), other.items()) {
        (Ok(sends), Ok(families)) => families.contains(sends),
        _ => false,
    };
    let unknown = |other: &Reading| other.known.is_err();
    let chosen = all.iter().find(|other| takes(other)).or_else(|| all.iter().find(|other| unknown(other))).or(all.first())?;
    Some(pair(sender, chosen.clone()))
}

fn judge(pair: &Pair) -> Verdict {
    let status = if pair.takes.items().contains(&pair.sends) { Status::Fits } else { Status::Mismatch };
    Verdict::of_words(status, Datum::Value(pair.sends.clone()), Datum::Value(pair.takes.clone()))
}

fn facts(pair: &Pair) -> Facts {
    vec![("other", pair.other.because.clone()), ("sender", pair.sender.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    fn system(camera: &str, goggles: &str, module: &str) -> Vec<Status> {
        let parts = [
            r#"(id: "v", name: "V", fills: [VideoTransmitter(signal: "analog")]), (id: "c", name: "C", fills: [Camera("#,
            camera,
            r#")]), (id: "g", name: "G", fills: [Goggles("#,
            goggles,
            r#")]), (id: "m", name: "M", fills: [GogglesModule("#,
            module,
            ")])",
        ]
        .concat();
        let build = r#"parts: [(slot: VideoTransmitter, part: "v"), (slot: Camera, part: "c"), (slot: Goggles, part: "g"), (slot: GogglesModule, part: "m")]"#;
        verdicts(&RULE, &parts, build)
    }

    #[test]
    fn a_module_serves_too() {
        let (camera, module) = (r#"signal: "analog""#, r#"families: ["analog"]"#);
        assert_eq!(system(camera, r#"families: ["Fernlight"]"#, module), [Status::Fits, Status::Fits]);
        assert_eq!(system(camera, r#"families: ["Fernlight"]"#, r#"families: ["Fernlight"]"#), [Status::Fits, Status::Mismatch]);
        assert_eq!(system(r#"signal: "Fernlight""#, "families: []", module), [Status::Mismatch, Status::Fits]);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(system("", r#"families: ["analog"]"#, ""), [Status::Unstated, Status::Fits]);
        assert_eq!(system(r#"signal: "analog""#, r#"families: ["Fernlight"]"#, ""), [Status::Fits, Status::Unstated]);
    }
}
