//! The tips of the propellers stay well below the speed of sound.
//!
//! Formula: Ma = π·D·n/a at full throttle on a fresh pack, a the speed of sound at the place. Valid for any propeller; the
//! models end at Mach 0.85. Source of the threshold: common practice, no source. When it fails, the propeller howls, takes power
//! without pulling, and its blades flutter.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived},
    policy::TIP_MACH,
};

const TIPS: Property = derived("tip-mach");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "tip-mach",
    title: "Speed of the blade tips",
    group: Group::Flight,
    weight: Weight::Finding,
    slots: &[Slot::Propeller, Slot::Motor, Slot::Battery],
    formula: "π·D·n/a ≤ 0.75",
    source: "common practice, no source",
    law: Law::LessIsBetter(TIPS),
    reads: &[TIPS],
    form: Form::Table(&[Comparison { left: TIPS, is: Operator::AtMost, right: Operand::Limit(TIP_MACH), tight: None }]),
    says: Says {
        mismatch: "",
        tight: "The blade tips reach Mach {left} at full throttle; more than {right} is noise and heat",
        fits: "The blade tips stay at Mach {left}",
        costs: "The propeller howls, takes power without pulling, and its blades flutter.",
    },
    hints: &["Choose a smaller propeller", "Choose a motor with less KV", "Limit the motor output"],
    fails: Example { parts: FAST, build: five_inch_build!() },
    passes: Example { parts: five_inch!(), build: five_inch_build!() },
};

const FAST: &str = r#"(id: "f", name: "Frame", mass_g: 118, fills: [Frame(guard: Open)]),
    (id: "m", name: "Motor", mass_g: 60, fills: [Motor(stator_diameter_mm: 28, stator_height_mm: 7, kv_rpm_per_v: 1850)]),
    (id: "p", name: "Propeller", mass_g: 4, fills: [Propeller(diameter_in: 5.1, pitch_in: 3, blades: 2)]),
    (id: "e", name: "Controller", mass_g: 14, fills: [Esc(channels: 4, current_a: 80)]),
    (id: "b", name: "Pack", mass_g: 218, fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 2200)])"#;

#[cfg(test)]
mod tests {
    use super::{FAST, RULE};
    use crate::finding::Status;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{outcomes, verdicts};

    #[test]
    fn an_output_limit_brings_the_tips_down() {
        let limited = concat!("output_limit_percent: 60, ", five_inch_build!());
        assert_eq!(verdicts(&RULE, FAST, limited), [Status::Fits]);
    }

    #[test]
    fn thin_cold_air_is_judged_by_its_own_sound() {
        let cold = concat!("conditions: (temperature_c: -35), ", five_inch_build!());
        let tips = |build| outcomes(&RULE, five_inch!(), build)[0].verdict.required.clone().and_then(|datum| datum.figure());
        assert!(tips(cold).unwrap().nominal > tips(five_inch_build!()).unwrap().nominal);
    }

    #[test]
    fn without_kv_it_is_unstated() {
        let unsaid = FAST.replace("kv_rpm_per_v: 1850", "");
        assert_eq!(verdicts(&RULE, &unsaid, five_inch_build!()), [Status::Unstated]);
    }
}
