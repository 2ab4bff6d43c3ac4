//! Propellers turn clear of the pack on top.
//!
//! Formula: `gap = min(d − D/2)` over all motors, d in mm from the hub to the pack in the middle of the top plate; where the disc passes
//! below the pack, the height between both. Valid for open propellers and a pack in the middle of the top; as a pack can be shifted, it
//! warns only. Source of the threshold: common
//! practice, no source. When it fails, the blades cut into the pack.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::PACK_GAP,
};

const GAP: Property = derived("pack-gap");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "propeller-pack",
    title: "Propellers clear of the pack",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Propeller, Slot::Battery, Slot::Frame, Slot::Motor],
    formula: "d − D/2 ≥ least gap; d from the hub to the pack on top; or the height of the pack over the disc",
    source: "common practice, no source",
    law: Law::LessIsBetter(part(Slot::Battery, "width_mm")),
    reads: &[GAP],
    form: Form::Table(&[Comparison { left: GAP, is: Operator::AtLeast, right: Operand::Limit(PACK_GAP), tight: None }]),
    says: Says {
        mismatch: "",
        tight: "The discs of the {left.part} overlap the pack on top ({left} of gap): shift it or carry it higher",
        fits: "The propellers pass the pack by {left}",
        costs: "The blades cut into the pack: a fire.",
    },
    hints: &["Choose a narrower pack", "Choose a smaller propeller", "Choose a frame that carries the pack higher"],
    fails: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(guard: Open, body_length_mm: 140, body_width_mm: 40, pack_place: Top, arm_thickness_mm: 5, bottom_plate_mm: 2, standoff_mm: 30, top_plate_mm: 2, motors: [(x_mm: 80, y_mm: 60), (x_mm: -80, y_mm: 60), (x_mm: 80, y_mm: -60), (x_mm: -80, y_mm: -60)])]), (id: "m", name: "Part", fills: [Motor(height_mm: 24)]), (id: "p", name: "Part", fills: [Propeller(diameter_in: 5, hub_mm: 6)]), (id: "b", name: "Pack", fills: [Battery(length_mm: 80, width_mm: 60)])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4), (slot: Propeller, part: "p", count: 4), (slot: Battery, part: "b")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(guard: Open, body_length_mm: 140, body_width_mm: 40, pack_place: Top, arm_thickness_mm: 5, bottom_plate_mm: 2, standoff_mm: 30, top_plate_mm: 2, motors: [(x_mm: 80, y_mm: 60), (x_mm: -80, y_mm: 60), (x_mm: 80, y_mm: -60), (x_mm: -80, y_mm: -60)])]), (id: "m", name: "Part", fills: [Motor(height_mm: 24)]), (id: "p", name: "Part", fills: [Propeller(diameter_in: 5, hub_mm: 6)]), (id: "b", name: "Pack", fills: [Battery(length_mm: 80, width_mm: 30)])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4), (slot: Propeller, part: "p", count: 4), (slot: Battery, part: "b")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    const PARTS: &str = r#"(id: "f", name: "Part", fills: [Frame(guard: Open, body_length_mm: 140, body_width_mm: 40, pack_place: Top, arm_thickness_mm: 5, bottom_plate_mm: 2, standoff_mm: 30, top_plate_mm: 2, motors: [(x_mm: 80, y_mm: 60), (x_mm: -80, y_mm: 60), (x_mm: 80, y_mm: -60), (x_mm: -80, y_mm: -60)])]), (id: "m", name: "Part", fills: [Motor(height_mm: 24)]), (id: "p", name: "Part", fills: [Propeller(diameter_in: 5, hub_mm: 6)]), (id: "b", name: "Pack", fills: [Battery(length_mm: 80, width_mm: 30)])"#;
    const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4), (slot: Propeller, part: "p", count: 4), (slot: Battery, part: "b")]"#;

    fn wide(width: &str) -> Vec<Status> {
        verdicts(&RULE, &PARTS.replace("width_mm: 30", width), BUILD)
    }

    #[test]
    fn just_passes_just_fails() {
        // The hub is 80 mm aside and 20 mm ahead of the pack: √(63.5² − 20²) = 60.27 mm to its side leave 39.46 mm of width.
        assert_eq!(wide("width_mm: 39.4"), [Status::Fits]);
        assert_eq!(wide("width_mm: 39.6"), [Status::Tight]);
        assert_eq!(wide(""), [Status::Unstated]);
    }

    #[test]
    fn a_pack_above_the_discs_is_clear() {
        let low = PARTS.replace("height_mm: 24", "height_mm: 18").replace("width_mm: 30", "width_mm: 60");
        assert_eq!(verdicts(&RULE, &low, BUILD), [Status::Fits]);
    }
}
