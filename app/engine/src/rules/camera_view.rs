//! The front propellers stay out of the middle of the picture.
//!
//! Formula: `α = atan(x/(y − L/2)) − asin((D/2)/√(x² + (y − L/2)²))`, in degrees, over all motors; the lens at the front of a body of length
//! L. Valid for open propellers. Source of the threshold: common practice, no source. When it fails, blades flicker across the picture.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::CAMERA_VIEW,
};

const ANGLE: Property = derived("view-angle");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "camera-view",
    title: "Propellers out of the picture",
    group: Group::Mechanical,
    weight: Weight::Advice,
    slots: &[Slot::Propeller, Slot::Frame],
    formula: "angle from the middle of the picture to the nearest propeller ≥ 15°",
    source: "common practice, no source",
    law: Law::LessIsBetter(part(Slot::Propeller, "diameter_in")),
    reads: &[ANGLE],
    form: Form::Table(&[Comparison { left: ANGLE, is: Operator::AtLeast, right: Operand::Limit(CAMERA_VIEW), tight: None }]),
    says: Says {
        mismatch: "",
        tight: "The {left.part} turns {left} from the middle of the picture: the blades fill it on both sides",
        fits: "The propellers begin {left} from the middle of the picture",
        costs: "The blades flicker across the picture and hide what comes from the side.",
    },
    hints: &["Choose a frame with wider front arms or a longer nose", "Tilt the camera up"],
    fails: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(guard: Open, body_length_mm: 60, body_width_mm: 40, pack_place: Top, arm_thickness_mm: 5, bottom_plate_mm: 2, standoff_mm: 30, top_plate_mm: 2, motors: [(x_mm: 80, y_mm: 60), (x_mm: -80, y_mm: 60), (x_mm: 80, y_mm: -60), (x_mm: -80, y_mm: -60)])]), (id: "p", name: "Part", fills: [Propeller(diameter_in: 5.5)])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Propeller, part: "p", count: 4)]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(guard: Open, body_length_mm: 140, body_width_mm: 40, pack_place: Top, arm_thickness_mm: 5, bottom_plate_mm: 2, standoff_mm: 30, top_plate_mm: 2, motors: [(x_mm: 80, y_mm: 60), (x_mm: -80, y_mm: 60), (x_mm: 80, y_mm: -60), (x_mm: -80, y_mm: -60)])]), (id: "p", name: "Part", fills: [Propeller(diameter_in: 5)])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Propeller, part: "p", count: 4)]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    const PARTS: &str = r#"(id: "f", name: "Part", fills: [Frame(guard: Open, body_length_mm: 60, body_width_mm: 40, pack_place: Top, arm_thickness_mm: 5, bottom_plate_mm: 2, standoff_mm: 30, top_plate_mm: 2, motors: [(x_mm: 80, y_mm: 60), (x_mm: -80, y_mm: 60), (x_mm: 80, y_mm: -60), (x_mm: -80, y_mm: -60)])]), (id: "p", name: "Part", fills: [Propeller(diameter_in: 5)])"#;
    const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Propeller, part: "p", count: 4)]"#;

    #[test]
    fn just_passes_just_fails() {
        // 80 mm aside and 30 mm ahead: 69.44° less the disc; 54.44° are left for it at 85.44 · sin 54.44° = 69.50 mm, 5.473 in.
        let found = |inches: &str| verdicts(&RULE, &PARTS.replace("diameter_in: 5", inches), BUILD);
        assert_eq!(found("diameter_in: 5.47"), [Status::Fits]);
        assert_eq!(found("diameter_in: 5.48"), [Status::Tight]);
        assert_eq!(found(""), [Status::Unstated]);
    }
}
