//! The pack can slide so far that the centre of mass comes under the middle of the motors.
//!
//! Formula: `s = |Σ m·(y − ȳ)|/m_pack`, `s/L ≤ 0.25`; y in mm along the body, ȳ the middle of the motors, L the body's length. Valid for a pack that
//! straps hold where one likes. Source: statics; threshold: common practice, no source. When it fails, the motors of one end work harder.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived},
    policy::PACK_SLIDE,
};

const SHARE: Property = derived("pack-slide-share");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "balance",
    title: "Centre of mass under the motors",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Battery, Slot::Frame, Slot::Camera, Slot::Payload, Slot::Gps],
    formula: "s/L ≤ 0.25; s the way that the pack slides to balance the craft, L the length of the body",
    source: "common practice, no source",
    law: Law::LessIsBetter(SHARE),
    reads: &[SHARE],
    form: Form::Table(&[Comparison { left: SHARE, is: Operator::AtMost, right: Operand::Limit(PACK_SLIDE), tight: None }]),
    says: Says {
        mismatch: "",
        tight: "The {left.part} must slide by {left} of the body to balance the craft; it then overhangs",
        fits: "The pack balances the craft with little sliding",
        costs: "The motors of one end run hot, and the craft drops its nose as the throttle is cut.",
    },
    hints: &["Mount the payload nearer to the middle", "Choose a heavier pack", "Choose a longer frame"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(body_length_mm: 140, motors: [(x_mm: 80, y_mm: 60), (x_mm: 80, y_mm: -60)])]), (id: "b", name: "Pack", mass_g: 200, fills: [Battery()]), (id: "p", name: "Action camera", mass_g: 120, fills: [Payload(place: "front")])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Battery, part: "b"), (slot: Payload, part: "p")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(body_length_mm: 140, motors: [(x_mm: 80, y_mm: 60), (x_mm: 80, y_mm: -60)])]), (id: "b", name: "Pack", mass_g: 200, fills: [Battery()]), (id: "p", name: "Action camera", mass_g: 60, fills: [Payload(place: "front")])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Battery, part: "b"), (slot: Payload, part: "p")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    const PARTS: &str = r#"(id: "f", name: "Frame", fills: [Frame(body_length_mm: 140, motors: [(x_mm: 80, y_mm: 60), (x_mm: 80, y_mm: -60)])]), (id: "b", name: "Pack", mass_g: 200, fills: [Battery()]), (id: "p", name: "Action camera", mass_g: 60, fills: [Payload(place: "front")])"#;
    const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Battery, part: "b"), (slot: Payload, part: "p")]"#;

    #[test]
    fn just_passes_just_fails() {
        // A camera at 70 mm: 100 g over 200 g of pack are 35 mm, a quarter of 140 mm.
        let found = |mass: &str| verdicts(&RULE, &PARTS.replace("mass_g: 60", mass), BUILD);
        assert_eq!(found("mass_g: 99.9"), [Status::Fits]);
        assert_eq!(found("mass_g: 101"), [Status::Tight]);
        assert_eq!(verdicts(&RULE, &PARTS.replace("mass_g: 60, ", ""), BUILD), [Status::Unstated]);
    }
}
