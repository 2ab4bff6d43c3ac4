//! Propellers turn clear of the body, its stack and what is strapped along it.
//!
//! Formula: `gap = max(min(d − (W + D)/2), (D_max − D)/2)`, the least over all motors; d in mm from the hub to a line of length L
//! − W along the middle of the body, W and L its width and length, D the diameter, `D_max` the largest propeller that the frame's
//! maker names: many bodies are waisted where the discs pass, and a propeller within `D_max` turns clear, whatever the drawing
//! says. Valid for open propellers; a duct holds everything off by itself. The shape and height of the body are assumed, so it
//! warns only. Source of the threshold: common practice, no source. When it fails, the blades cut plates, leads or camera.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::BODY_GAP,
};

const GAP: Property = derived("body-gap");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "propeller-body",
    title: "Propellers clear of the body",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Propeller, Slot::Frame],
    formula: "d − (W + D)/2, or (D_max − D)/2 where that is more, ≥ least gap; d from the hub to the line along the body",
    source: "common practice, no source",
    law: Law::LessIsBetter(part(Slot::Propeller, "diameter_in")),
    reads: &[GAP],
    form: Form::Table(&[Comparison { left: GAP, is: Operator::AtLeast, right: Operand::Limit(BODY_GAP), tight: None }]),
    says: Says {
        mismatch: "",
        tight: "The tips of the {left.part} overlap the body ({left} of gap): see that they turn above or below it",
        fits: "The propellers pass the body by {left}",
        costs: "The blades cut the plates, the leads or the camera at the first hard flight.",
    },
    hints: &["Choose a smaller propeller", "Choose a frame with longer arms or a narrower body"],
    fails: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(guard: Open, body_length_mm: 140, body_width_mm: 40, pack_place: Top, arm_thickness_mm: 5, bottom_plate_mm: 2, standoff_mm: 30, top_plate_mm: 2, motors: [(x_mm: 80, y_mm: 60), (x_mm: -80, y_mm: 60), (x_mm: 80, y_mm: -60), (x_mm: -80, y_mm: -60)])]), (id: "p", name: "Part", fills: [Propeller(diameter_in: 5)])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Propeller, part: "p", count: 4)]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(guard: Open, body_length_mm: 140, body_width_mm: 40, pack_place: Top, arm_thickness_mm: 5, bottom_plate_mm: 2, standoff_mm: 30, top_plate_mm: 2, motors: [(x_mm: 80, y_mm: 60), (x_mm: -80, y_mm: 60), (x_mm: 80, y_mm: -60), (x_mm: -80, y_mm: -60)])]), (id: "p", name: "Part", fills: [Propeller(diameter_in: 4.5)])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Propeller, part: "p", count: 4)]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    const PARTS: &str = r#"(id: "f", name: "Part", fills: [Frame(guard: Open, body_length_mm: 140, body_width_mm: 40, pack_place: Top, arm_thickness_mm: 5, bottom_plate_mm: 2, standoff_mm: 30, top_plate_mm: 2, motors: [(x_mm: 80, y_mm: 60), (x_mm: -80, y_mm: 60), (x_mm: 80, y_mm: -60), (x_mm: -80, y_mm: -60)])]), (id: "p", name: "Part", fills: [Propeller(diameter_in: 4.6)])"#;
    const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Propeller, part: "p", count: 4)]"#;

    fn diameter(inches: &str) -> Vec<Status> {
        verdicts(&RULE, &PARTS.replace("diameter_in: 4.6", inches), BUILD)
    }

    #[test]
    fn just_passes_just_fails() {
        // The hub is 80.62 mm from the body's line: 20 mm of body leave 121.24 mm of diameter, 4.773 in.
        assert_eq!(diameter("diameter_in: 4.77"), [Status::Fits]);
        assert_eq!(diameter("diameter_in: 4.78"), [Status::Tight]);
        assert_eq!(diameter(""), [Status::Unstated]);
    }
}
