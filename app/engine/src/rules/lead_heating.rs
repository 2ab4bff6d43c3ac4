//! The pack's leads keep cool enough for their insulation.
//!
//! Formula: rise in a burst without cooling, `I²t = K²S²·ln((θf + 234.5)/(θi + 234.5))`, at most 60 K; air + steady rise of hard
//! flight in moving air + that rise at most 80 % (100 %) of the insulation's limit. Valid for stranded copper in silicone, 200 °C.
//! Source: IEC 60949; S.W. Churchill and M. Bernstein; thresholds: common practice, no source. When it fails, the insulation
//! creeps and the leads touch one another or the carbon of the frame.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::{LEAD_RISE, LEAD_TEMPERATURE},
};

const RISE: Property = derived("lead-rise");
const END: Property = derived("lead-temperature");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "lead-heating",
    title: "Heat of the pack's leads",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Battery, Slot::Motor, Slot::Propeller],
    formula: "rise in a burst ≤ 60 K; air + steady rise + burst ≤ 160 °C (200 °C)",
    source: "IEC 60949; thresholds: common practice, no source",
    law: Law::LessIsBetter(part(Slot::Battery, "lead_awg")),
    reads: &[RISE, END],
    form: Form::Table(&[
        Comparison { left: RISE, is: Operator::AtMost, right: Operand::Limit(LEAD_RISE), tight: None },
        Comparison { left: END, is: Operator::AtMost, right: Operand::Limit(LEAD_TEMPERATURE), tight: None },
    ]),
    says: Says {
        mismatch: "The leads of the {left.part} reach {left}; their insulation ends at {right}",
        tight: "The leads of the {left.part} get hot; {left.title}: {left}",
        fits: "The leads stay cool enough; {left.title}: {left}",
        costs: "The insulation creeps, and the leads touch one another or the frame.",
    },
    hints: &["Choose a pack with thicker leads", "Limit the motor output", "Fly two packs side by side"],
    fails: Example { parts: five_inch!(battery ", lead_awg: 20"), build: five_inch_build!() },
    passes: Example { parts: five_inch!(battery ", lead_awg: 10"), build: five_inch_build!() },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::finding::Status;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{figure, verdicts};

    #[test]
    fn thinner_leads_are_hotter_and_judged_so() {
        let heat = |awg: u32| {
            let parts = five_inch!(battery ", lead_awg: 0").replace("lead_awg: 0", &format!("lead_awg: {awg}"));
            let rise = figure(&parts, five_inch_build!(), "lead-rise").decimals()[1];
            (rise, verdicts(&RULE, &parts, five_inch_build!())[1])
        };
        let all: Vec<(f64, Status)> = [10, 12, 14, 16, 18].map(heat).to_vec();
        assert!(all.is_sorted_by(|thick, thin| thick.0 < thin.0), "{all:?}");
        // A lead one gauge thinner has 1.26 times the resistance (ASTM B258), and rises by as much and more.
        assert!(all[1].0 / all[0].0 > 1.26_f64.powi(2));
        assert_eq!((all[0].1, all[4].1), (Status::Fits, Status::Mismatch));
    }

    #[test]
    fn a_longer_burst_is_hotter() {
        let rise = |build| figure(five_inch!(battery ", lead_awg: 14"), build, "lead-rise").nominal;
        assert!(
            rise(five_inch_build!("purpose: (usage: Speed), ")) > 2 * rise(five_inch_build!("purpose: (usage: Freestyle), "))
        );
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(verdicts(&RULE, five_inch!(), five_inch_build!()), [Status::Unstated, Status::Unstated]);
    }
}
