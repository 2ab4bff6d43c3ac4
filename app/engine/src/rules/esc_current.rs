//! The speed controller stands the current of full throttle for the burst, and the current of hard flying for good.
//!
//! Formula: `I_burst(full throttle, fresh pack) ≤ burst rating; √(a·I_full² + (1 − a)·I_between²) ≤ continuous rating`. Valid for
//! ratings in moving air; a burst rating without a duration is taken for 10 s, and one for less than the use asks for falls with
//! 1/√t. Source: common practice, no source. When it fails, the controller desolders itself or stops a motor in the air.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::{CURRENT_BURST, CURRENT_LASTING},
};

const BURST: Property = derived("esc-burst");
const LASTING: Property = derived("esc-lasting");
const STANDS_BURST: Property = derived("esc-stands-burst");
const STANDS: Property = part(Slot::Esc, "current_a");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "esc-current",
    title: "Current through the speed controller",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Esc, Slot::Motor, Slot::Propeller, Slot::Battery],
    formula: "I_burst ≤ burst rating; I_rms(hard mix) ≤ continuous rating",
    source: "common practice, no source",
    law: Law::MoreIsBetter(part(Slot::Esc, "current_burst_a")),
    reads: &[BURST, LASTING, STANDS_BURST, STANDS],
    form: Form::Table(&[
        Comparison { left: BURST, is: Operator::AtMost, right: Operand::Property(STANDS_BURST), tight: Some(CURRENT_BURST) },
        Comparison { left: LASTING, is: Operator::AtMost, right: Operand::Property(STANDS), tight: Some(CURRENT_LASTING) },
    ]),
    says: Says {
        mismatch: "The {right.part} stands {right} a channel; these motors pull {left} as {left.title}",
        tight: "The {right.part} stands {right} a channel; {left} is pulled as {left.title}",
        fits: "A channel stands {right}; {left} is pulled as {left.title}",
        costs: "A channel burns out and a motor stops in the air.",
    },
    hints: &[
        "Choose a speed controller with a higher rating",
        "Limit the motor output",
        "Choose a propeller with less pitch or fewer blades",
    ],
    fails: Example { parts: five_inch!(esc ", current_burst_a: 25"), build: five_inch_build!() },
    passes: Example { parts: five_inch!(esc ", current_burst_a: 60"), build: five_inch_build!() },
};

#[cfg(test)]
mod tests {
    use super::{BURST, LASTING, RULE};
    use crate::finding::Status;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{figure, verdicts};

    const RATED: &str = "resistance_mohm: 1.6, current_a: 50";

    fn found(burst: i64, lasting: i64) -> Vec<Status> {
        let amps = |milli: i64| milli as f64 / 1000.0;
        let rated = format!("resistance_mohm: 1.6, current_a: {}, current_burst_a: {}", amps(lasting), amps(burst));
        verdicts(&RULE, &five_inch!().replace("current_a: 50", &rated), five_inch_build!())
    }

    #[test]
    fn just_passes_just_fails() {
        let parts = five_inch!().replace("current_a: 50", RATED);
        let burst = figure(&parts, five_inch_build!(), BURST.field);
        let lasting = figure(&parts, five_inch_build!(), LASTING.field);
        let ample = |band: crate::interval::Interval| band.high.max(band.nominal * 10 / 9 + 1);
        assert_eq!(found(ample(burst), ample(lasting)), [Status::Fits, Status::Fits]);
        assert_eq!(found(burst.high - 1, lasting.high - 1), [Status::Tight, Status::Tight]);
        assert_eq!(found(burst.low - 1, lasting.low - 1), [Status::Mismatch, Status::Mismatch]);
    }

    #[test]
    fn unpublished_is_unstated() {
        let parts = five_inch!().replace("current_a: 50", "resistance_mohm: 1.6");
        assert_eq!(verdicts(&RULE, &parts, five_inch_build!()), [Status::Unstated, Status::Unstated]);
    }
}
