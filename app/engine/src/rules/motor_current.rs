//! The motor stands the current of full throttle for the burst, and the current of hard flying for good.
//!
//! Formula: `I_motor(full throttle, fresh pack) ≤ burst rating; √(a·I_full² + (1 − a)·I_between²) ≤ continuous rating`. Motor
//! current, not pack current, heats the winding. Valid in moving air. Unpublished ratings are estimated, burst √(1.9·m/R) and
//! 0.55 of it for good: those warn and never forbid. Source: common practice, no source. When it fails, the winding's varnish
//! burns and the magnets lose their strength.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::{CURRENT_BURST, CURRENT_LASTING},
};

const BURST: Property = derived("motor-burst");
const LASTING: Property = derived("motor-lasting");
const STANDS_BURST: Property = derived("motor-stands-burst");
const STANDS: Property = derived("motor-stands");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "motor-current",
    title: "Current through the motors",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Motor, Slot::Propeller, Slot::Battery],
    formula: "I_motor(full throttle) ≤ burst rating; I_rms(hard mix) ≤ continuous rating",
    source: "common practice, no source",
    law: Law::MoreIsBetter(part(Slot::Motor, "current_burst_a")),
    reads: &[BURST, LASTING, STANDS_BURST, STANDS],
    form: Form::Table(&[
        Comparison { left: BURST, is: Operator::AtMost, right: Operand::Property(STANDS_BURST), tight: Some(CURRENT_BURST) },
        Comparison { left: LASTING, is: Operator::AtMost, right: Operand::Property(STANDS), tight: Some(CURRENT_LASTING) },
    ]),
    says: Says {
        mismatch: "The {right.part} stands {right} ({right.title}); {left.title}: {left}",
        tight: "The {right.part} stands {right} ({right.title}); {left.title}: {left}",
        fits: "The motor stands {right}; {left.title}: {left}",
        costs: "The winding burns and the magnets lose strength.",
    },
    hints: &[
        "Choose a propeller with less pitch or fewer blades",
        "Limit the motor output",
        "Choose a motor with a larger stator or less KV",
    ],
    fails: Example { parts: five_inch!(motor ", current_a: 10, current_burst_a: 18"), build: five_inch_build!() },
    passes: Example { parts: five_inch!(motor ", current_a: 35, current_burst_a: 55"), build: five_inch_build!() },
};

#[cfg(test)]
mod tests {
    use super::{BURST, LASTING, RULE};
    use crate::finding::Status;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{figure, verdicts};

    fn found(burst: i64, lasting: i64) -> Vec<Status> {
        let amps = |milli: i64| milli as f64 / 1000.0;
        let rated = format!("current_a: {}, current_burst_a: {}", amps(lasting), amps(burst));
        let parts = five_inch!(motor ", current_a: 0").replace("current_a: 0", &rated);
        verdicts(&RULE, &parts, five_inch_build!())
    }

    #[test]
    fn just_passes_just_fails() {
        let burst = figure(five_inch!(), five_inch_build!(), BURST.field);
        let lasting = figure(five_inch!(), five_inch_build!(), LASTING.field);
        let ample = |band: crate::interval::Interval| band.high.max(band.nominal * 10 / 9 + 1);
        assert_eq!(found(ample(burst), ample(lasting)), [Status::Fits, Status::Fits]);
        assert_eq!(found(burst.high - 1, lasting.high - 1), [Status::Tight, Status::Tight]);
        assert_eq!(found(burst.low - 1, lasting.low - 1), [Status::Mismatch, Status::Mismatch]);
    }

    #[test]
    fn an_estimated_rating_warns_and_never_forbids() {
        let small = five_inch!().replace("stator_height_mm: 7", "stator_height_mm: 3").replace("mass_g: 32", "mass_g: 8");
        assert_eq!(verdicts(&RULE, &small, five_inch_build!()), [Status::Tight, Status::Tight]);
    }

    #[test]
    fn without_mass_and_rating_it_is_unstated() {
        let unsaid = five_inch!().replace("mass_g: 32, ", "");
        assert_eq!(verdicts(&RULE, &unsaid, five_inch_build!()), [Status::Unstated, Status::Unstated]);
    }
}
