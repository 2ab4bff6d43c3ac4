//! There is room behind the lens for the camera.
//!
//! Formula: depth of the camera behind the lens ≤ room behind the lens in the frame. Valid at the least tilt; a tilted camera
//! needs no more. Source: common practice, no source. When it fails, the camera presses on the stack, or the lens stands out
//! and takes the first blow.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::graph::{Property, part};

const CAMERA: Property = part(Slot::Camera, "depth_mm");
const ROOM: Property = part(Slot::Frame, "camera_depth_mm");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "camera-depth",
    title: "Room behind the lens",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Camera, Slot::Frame],
    formula: "depth of the camera ≤ depth of its place",
    source: "common practice, no source",
    law: Law::LessIsBetter(CAMERA),
    reads: &[CAMERA, ROOM],
    form: Form::Table(&[Comparison { left: CAMERA, is: Operator::AtMost, right: Operand::Property(ROOM), tight: None }]),
    says: Says {
        mismatch: "The {left.part} is {left} deep; the {right.part} has {right} behind the lens",
        tight: "The {left.part} is {left} deep; the {right.part} has about {right} behind the lens",
        fits: "The camera, {left} deep, has {right}",
        costs: "The camera presses on the stack, or its lens stands out and takes the first blow.",
    },
    hints: &["Choose a shorter camera", "Choose a frame with more room in front of the stack"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(camera_depth_mm: 22)]), (id: "c", name: "Camera", fills: [Camera(depth_mm: 28)])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(camera_depth_mm: 28)]), (id: "c", name: "Camera", fills: [Camera(depth_mm: 28)])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Camera, part: "c")]"#;

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(camera: &str) -> Vec<Status> {
        verdicts(&RULE, &RULE.passes.parts.replace("Camera(depth_mm: 28)", camera), BUILD)
    }

    #[test]
    fn just_passes_just_fails() {
        assert_eq!(found("Camera(depth_mm: 28)"), [Status::Fits]);
        assert_eq!(found("Camera(depth_mm: 28.1)"), [Status::Mismatch]);
        assert_eq!(found("Camera()"), [Status::Unstated]);
    }
}
