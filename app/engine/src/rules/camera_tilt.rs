//! The frame lets the camera tilt as the use asks.
//!
//! Formula: speed: `largest tilt ≥ 35°`; all other uses: `least tilt ≤ 20°`. Valid for a camera between plates. Source: common practice, no
//! source. When it fails, the pilot sees the sky in hover, or the ground at speed.

use std::sync::Arc;

use propwright_schema::{build_list::Use, slot::Slot};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Missing, Verdict},
    graph::{Property, Reading, Site, build, part},
    policy::{CAMERA_TILT_FAST, CAMERA_TILT_SLOW},
    verdict,
};

const LEAST: Property = part(Slot::Frame, "camera_tilt_min_deg");
const MOST: Property = part(Slot::Frame, "camera_tilt_max_deg");
const USE: Property = build("purpose.usage");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "camera-tilt",
    title: "Tilt of the camera",
    group: Group::Mechanical,
    weight: Weight::Advice,
    slots: &[Slot::Frame],
    formula: "speed: largest tilt ≥ 35°; other uses: least tilt ≤ 20°",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[LEAST, MOST, USE],
    form: Form::Solved(|site| run(site, gather, |inputs| inputs.verdict.clone(), facts)),
    says: Says {
        mismatch: "",
        tight: "The {tilt.part} holds the camera at {tilt}; {usage} asks for {limit}",
        fits: "The camera tilts as the use asks",
        costs: "The pilot looks at the sky or at the ground.",
    },
    hints: &["Print a wedge for the camera", "Choose a frame whose camera tilts as the use asks"],
    fails: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(camera_tilt_min_deg: 25, camera_tilt_max_deg: 60)])"#,
        build: r#"purpose: (usage: Lifter), parts: [(slot: Frame, part: "f")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(camera_tilt_min_deg: 0, camera_tilt_max_deg: 40)])"#,
        build: r#"purpose: (usage: Lifter), parts: [(slot: Frame, part: "f")]"#,
    },
};

struct Inputs {
    tilt: Reading,
    usage: Reading,
    limit: Arc<Because>,
    verdict: Verdict,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let inputs = |least: Reading, most: Reading| {
        let usage = site.one(USE)?;
        let fast = usage.word()? == Use::Speed.word();
        let (tilt, limit) = if fast { (most, CAMERA_TILT_FAST) } else { (least, CAMERA_TILT_SLOW) };
        let figure = tilt.figure()?;
        let policy = site.policy();
        let verdict = if fast { verdict::at_least(figure, &limit, policy) } else { verdict::at_most(figure, &limit, policy) };
        Ok(Inputs { tilt, usage, limit: site.threshold(&limit), verdict })
    };
    site.all(LEAST).into_iter().zip(site.all(MOST)).map(|(least, most)| inputs(least, most)).collect()
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("tilt", inputs.tilt.because.clone()), ("usage", inputs.usage.because.clone()), ("limit", inputs.limit.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn just_passes_just_fails() {
        let frame = |record: &str, purpose: &str| judged(&RULE, &[("Frame", record, "")], purpose);
        let (speed, calm) = ("purpose: (usage: Speed)", "purpose: (usage: Freestyle)");
        assert_eq!(frame("camera_tilt_max_deg: 35", speed), [Status::Fits]);
        assert_eq!(frame("camera_tilt_max_deg: 34.9", speed), [Status::Tight]);
        assert_eq!(frame("camera_tilt_min_deg: 20", calm), [Status::Fits]);
        assert_eq!(frame("camera_tilt_min_deg: 20.1", calm), [Status::Tight]);
        assert_eq!(frame("camera_tilt_max_deg: 60", calm), [Status::Unstated]);
        assert_eq!(frame("camera_tilt_min_deg: 0", ""), [Status::Unstated]);
    }
}
