//! The pack's plug carries the current of hard flying for good, and full throttle for ten seconds.
//!
//! Formula: `I_rms(hard mix) ≤ 1.0 (1.5) × rating, I(full throttle) ≤ 2 (3) × rating` of the plug; packs side by side share the
//! current. Valid for clean pairs of one make, soldered well. Source of the shares: common practice, no source. When it fails, the
//! plug softens its shell and the contacts let go in the air.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::{PLUG_LASTING, PLUG_PEAK},
};

const LASTING: Property = derived("pack-lasting");
const PEAK: Property = derived("pack-burst");
const STANDS: Property = part(Slot::Battery, "plug_a");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "connector-heating",
    title: "Current through the pack's plug",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Battery, Slot::Motor, Slot::Propeller],
    formula: "I_rms(hard mix) ≤ rating; I(full throttle) ≤ 2 × rating",
    source: "common practice, no source",
    law: Law::MoreIsBetter(STANDS),
    reads: &[LASTING, PEAK, STANDS],
    form: Form::Table(&[
        Comparison { left: LASTING, is: Operator::AtMost, right: Operand::Property(STANDS), tight: Some(PLUG_LASTING) },
        Comparison { left: PEAK, is: Operator::AtMost, right: Operand::Property(STANDS), tight: Some(PLUG_PEAK) },
    ]),
    says: Says {
        mismatch: "The plug of the {right.part} stands {right} for good; {left.title}: {left}",
        tight: "The plug of the {right.part} stands {right} for good, and runs hot; {left.title}: {left}",
        fits: "The plug stands {right}; {left.title}: {left}",
        costs: "The plug melts its shell, and the contacts let go in the air.",
    },
    hints: &["Choose a pack with a larger plug", "Limit the motor output", "Solder the plug on short"],
    fails: Example { parts: five_inch!(battery ", plug_a: 25"), build: five_inch_build!() },
    passes: Example { parts: five_inch!(battery ", plug_a: 120"), build: five_inch_build!() },
};

#[cfg(test)]
mod tests {
    use super::{LASTING, PEAK, RULE};
    use crate::finding::Status;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{figure, verdicts};

    fn found(milliamperes: i64) -> Vec<Status> {
        let plug = format!("plug_a: {}", milliamperes as f64 / 1000.0);
        verdicts(&RULE, &five_inch!(battery ", plug_a: 0").replace("plug_a: 0", &plug), five_inch_build!())
    }

    #[test]
    fn packs_side_by_side_share_the_current() {
        let parts = five_inch!(battery ", plug_a: 30");
        let gravest = |build: &str| verdicts(&RULE, parts, build).into_iter().max();
        let one = five_inch_build!();
        let two = one.replace(r#"(slot: Battery, part: "b")"#, r#"(slot: Battery, part: "b", count: 2)"#);
        let side_by_side = format!("packs: Parallel, {two}");
        assert_eq!(gravest(one), Some(Status::Mismatch));
        assert!(gravest(&side_by_side) < Some(Status::Mismatch), "each plug carries half");
    }

    #[test]
    fn lasting_just_passes_just_fails() {
        // The shares of the trade: 1.0 × for good is tight, 1.5 × a mismatch.
        let band = figure(five_inch!(), five_inch_build!(), LASTING.field);
        assert_eq!(found(band.nominal.max(band.high * 2 / 3 + 1))[0], Status::Fits);
        assert_eq!(found(band.nominal.min(band.high * 2 / 3) - 1)[0], Status::Tight);
        assert_eq!(found(band.low * 2 / 3 + 1)[0], Status::Tight);
        assert_eq!(found(band.low * 2 / 3 - 1)[0], Status::Mismatch);
    }

    #[test]
    fn the_peak_just_passes_just_fails() {
        // The shares of the trade: 2 × for ten seconds is tight, 3 × a mismatch.
        let band = figure(five_inch!(), five_inch_build!(), PEAK.field);
        assert_eq!(found((band.nominal / 2).max(band.high / 3) + 1)[1], Status::Fits);
        assert_eq!(found(band.nominal / 2 - 1)[1], Status::Tight);
        assert_eq!(found(band.low / 3 - 1)[1], Status::Mismatch);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(verdicts(&RULE, five_inch!(), five_inch_build!()), [Status::Unstated, Status::Unstated]);
    }
}
