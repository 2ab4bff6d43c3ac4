//! The air of the place carries nearly as at sea level.
//!
//! Formula: `ρ/1.225 kg/m³ ≥ 0.9`, about 1080 m in standard air, less on a hot day. Valid up to 11 km. Source: ISO 2533; threshold: common practice, no
//! source. When it fails, thrust falls and the current in hover rises, as the figures show.

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived},
    policy::AIR_DENSITY,
};

const DENSITY: Property = derived("air-density");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "thin-air",
    title: "Thin air",
    group: Group::Flight,
    weight: Weight::Advice,
    slots: &[],
    formula: "ρ/1.225 kg/m³ ≥ 0.9",
    source: "common practice, no source",
    law: Law::MoreIsBetter(DENSITY),
    reads: &[DENSITY],
    form: Form::Table(&[Comparison { left: DENSITY, is: Operator::AtLeast, right: Operand::Limit(AIR_DENSITY), tight: None }]),
    says: Says {
        mismatch: "",
        tight: "The air has {left} of its density at sea level: less thrust, more current in hover",
        fits: "The air has {left} of its density at sea level",
        costs: "The craft falls through its turns, and lands earlier than at home.",
    },
    hints: &["Take payload off", "Reckon with the shorter times shown", "Choose a propeller with more diameter or pitch"],
    fails: Example { parts: "", build: "conditions: (altitude_m: 2000), parts: []" },
    passes: Example { parts: "", build: "conditions: (altitude_m: 300), parts: []" },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn just_passes_just_fails() {
        // ISO 2533: (1 − 2.2558e-5·h)^4.2559 is 0.9 at 1084 m.
        let at = |place: &str| verdicts(&RULE, "", &["conditions: (", place, "), parts: []"].concat());
        assert_eq!(at("altitude_m: 1070"), [Status::Fits]);
        assert_eq!(at("altitude_m: 1100"), [Status::Tight]);
        assert_eq!(at("altitude_m: 1070, temperature_c: 30"), [Status::Tight]);
        assert_eq!(at("altitude_m: 6000, temperature_c: -300"), [Status::Unstated]);
    }
}
