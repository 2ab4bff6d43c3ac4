//! The camera goes between the camera plates, without much play.
//!
//! Formula: width of the camera ≤ width between the plates; far less asks for washers or a bracket: tight. Valid for cameras
//! held by screws from both sides. Source: common practice, no source. When it fails, the camera does not go in, or tilts in a
//! hard landing.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Verdict},
    graph::{Property, Reading, Site, part},
    interval::Interval,
    policy, verdict,
};

const CAMERA: Property = part(Slot::Camera, "width_mm");
const PLATES: Property = part(Slot::Frame, "camera_width_mm");

struct Inputs {
    camera: Reading,
    width: Interval,
    plates: Reading,
    room: Interval,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "camera-width",
    title: "Camera between its plates",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Camera, Slot::Frame],
    formula: "width of the camera ≤ width between the plates, less a play that washers fill",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[CAMERA, PLATES],
    form: Form::Solved(|site| run(site, gather, |inputs| judge(inputs, site), |inputs| facts(inputs, site))),
    says: Says {
        mismatch: "The {camera.part} is {camera} wide; the plates of the {plates.part} stand {plates} apart",
        tight: "The {camera.part}, {camera} wide, sits loosely or hard between plates {plates} apart in the {plates.part}",
        fits: "The camera, {camera} wide, goes between plates {plates} apart",
        costs: "The camera does not go in, or turns in a hard landing and the horizon with it.",
    },
    hints: &["Put washers or a printed bracket beside the camera", "Choose a camera of the frame's width"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(camera_width_mm: 14)]), (id: "c", name: "Camera", fills: [Camera(width_mm: 19)])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(camera_width_mm: 20)]), (id: "c", name: "Camera", fills: [Camera(width_mm: 19)])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Camera, part: "c")]"#;

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let inputs = |camera: Reading| {
        let plates = site.one(PLATES)?;
        Ok(Inputs { width: camera.figure()?, camera, room: plates.figure()?, plates })
    };
    site.all(CAMERA).into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs, site: &Site) -> Verdict {
    let play = verdict::at_most(inputs.room.minus(inputs.width), &policy::CAMERA_PLAY, site.policy());
    let estimated = inputs.camera.is_estimated() || inputs.plates.is_estimated();
    verdict::enough(inputs.width, inputs.room).graver(play).softened(estimated)
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    let play = site.threshold(&policy::CAMERA_PLAY);
    vec![("camera", inputs.camera.because.clone()), ("plates", inputs.plates.because.clone()), ("play", play)]
}

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(frame: &str, camera: &str) -> Vec<Status> {
        let parts = format!(r#"(id: "f", name: "F", fills: [Frame({frame})]), (id: "c", name: "C", fills: [Camera({camera})])"#);
        verdicts(&RULE, &parts, BUILD)
    }

    #[test]
    fn just_passes_just_fails() {
        assert_eq!(found("camera_width_mm: 19", "width_mm: 19"), [Status::Fits]);
        assert_eq!(found("camera_width_mm: 19", "width_mm: 19.1"), [Status::Mismatch]);
        assert_eq!(found("camera_width_mm: 21", "width_mm: 19"), [Status::Fits]);
        assert_eq!(found("camera_width_mm: 21.1", "width_mm: 19"), [Status::Tight]);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(found("", "width_mm: 19"), [Status::Unstated]);
        assert_eq!(found("camera_width_mm: 19", ""), [Status::Unstated]);
    }
}
