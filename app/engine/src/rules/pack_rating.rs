//! A pack gives no more current than it is sold for, or, of Li-ion cells, than they stand.
//!
//! Formula: LiPo and LiHV `I_full ≤ C·Ah`, a seller's claim, up to 1.5 times of it with a warning; Li-ion, a real limit,
//! `I_climb ≤ C·Ah` at twice the hover power and `I_rms(hard mix) ≤ C·Ah`. Valid for packs side by side that share alike. Source:
//! common practice, no source. When it fails, the pack swells, or the cells of a Li-ion pack cut off in the climb. A swollen
//! pack burns: it goes to the fire-safe bag, not to the craft.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::{PACK_CLAIM, PACK_LIMIT},
};

const BURST: Property = derived("pack-burst");
const CLIMB: Property = derived("pack-climb");
const LASTING: Property = derived("pack-lasting");
const CLAIM: Property = derived("pack-claim");
const LIMIT: Property = derived("pack-limit");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pack-rating",
    title: "Current out of the pack",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Battery, Slot::Motor, Slot::Propeller],
    formula: "LiPo: I_full ≤ C·Ah; Li-ion: I_climb ≤ C·Ah, I_rms(hard mix) ≤ C·Ah",
    source: "common practice, no source",
    law: Law::MoreIsBetter(part(Slot::Battery, "discharge_c_rate")),
    reads: &[BURST, CLIMB, LASTING, CLAIM, LIMIT],
    form: Form::Table(&[
        Comparison { left: BURST, is: Operator::AtMost, right: Operand::Property(CLAIM), tight: Some(PACK_CLAIM) },
        Comparison { left: CLIMB, is: Operator::AtMost, right: Operand::Property(LIMIT), tight: Some(PACK_LIMIT) },
        Comparison { left: LASTING, is: Operator::AtMost, right: Operand::Property(LIMIT), tight: Some(PACK_LIMIT) },
    ]),
    says: Says {
        mismatch: "The {right.part} gives {right} ({right.title}); {left.title}: {left}",
        tight: "The {right.part} gives {right} ({right.title}); {left.title}: {left}",
        fits: "The pack gives {right}; {left.title}: {left}",
        costs: "The pack sags, grows hot and swells; Li-ion cells cut off in the climb.",
    },
    hints: &["Choose a pack with more capacity or a higher rating", "Fly two packs side by side", "Limit the motor output"],
    fails: Example { parts: five_inch!(battery ", discharge_c_rate: 25"), build: five_inch_build!() },
    passes: Example { parts: five_inch!(battery ", discharge_c_rate: 150, resistance_mohm: 30"), build: five_inch_build!() },
};

#[cfg(test)]
mod tests {
    use super::{BURST, CLIMB, LASTING, RULE};
    use crate::finding::Status;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{figure, verdicts};

    fn with(field: &str) -> String {
        five_inch!(battery ", plug_a: 60").replace("plug_a: 60", field)
    }

    fn li_ion(field: &str) -> String {
        with(&format!("{field}, resistance_mohm: 100")).replace("chemistry: LiPo", "chemistry: LiIon")
    }

    /// The rating in multiples of 1.3 Ah that gives so many milliamperes.
    fn c_rate(milliamperes: i64) -> String {
        format!("discharge_c_rate: {}", (milliamperes as f64 / 1300.0 * 1000.0).round() / 1000.0)
    }

    #[test]
    fn a_sellers_claim_just_passes_just_fails() {
        // The shares of the trade: tight above 1.0 × the claim, a mismatch above 1.5 ×.
        let band = figure(five_inch!(), five_inch_build!(), BURST.field);
        let found = |milliamperes| verdicts(&RULE, &with(&c_rate(milliamperes)), five_inch_build!());
        assert_eq!(found(band.nominal.max(band.high * 2 / 3) + 5), [Status::Fits]);
        assert_eq!(found(band.nominal.min(band.high * 2 / 3) - 5), [Status::Tight]);
        assert_eq!(found(band.low * 2 / 3 - 5), [Status::Mismatch]);
    }

    #[test]
    fn a_li_ion_limit_is_judged_by_climb_and_hard_flight() {
        let parts = li_ion("plug_a: 60");
        let (climb, lasting) =
            (figure(&parts, five_inch_build!(), CLIMB.field), figure(&parts, five_inch_build!(), LASTING.field));
        let found = |milliamperes| verdicts(&RULE, &li_ion(&c_rate(milliamperes)), five_inch_build!());
        assert_eq!(found(lasting.high.max(lasting.nominal * 10 / 9) + 5), [Status::Fits, Status::Fits]);
        assert_eq!(found(lasting.low - 5), [Status::Fits, Status::Mismatch]);
        assert_eq!(found(climb.low - 5)[0], Status::Mismatch);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(verdicts(&RULE, five_inch!(), five_inch_build!()), [Status::Unstated]);
    }
}
