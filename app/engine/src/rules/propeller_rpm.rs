//! The propeller turns no faster than its maker allows.
//!
//! Formula: n(full throttle, fresh pack, output limit) ≤ limit of the propeller. Valid for sound blades: a nicked one breaks
//! earlier. Source: the maker's limit. When it fails, a blade comes off. Stand aside of the propellers' plane at full throttle.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::PROPELLER_SPEED,
};

const TURNS: Property = derived("rotor-speed");
const ALLOWED: Property = part(Slot::Propeller, "limit_rpm");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "propeller-rpm",
    title: "Rotor speed and the propeller's limit",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Propeller, Slot::Motor, Slot::Battery],
    formula: "n at full throttle ≤ limit of the propeller",
    source: "the maker's limit; margin: common practice, no source",
    law: Law::MoreIsBetter(ALLOWED),
    reads: &[TURNS, ALLOWED],
    form: Form::Table(&[Comparison {
        left: TURNS,
        is: Operator::AtMost,
        right: Operand::Property(ALLOWED),
        tight: Some(PROPELLER_SPEED),
    }]),
    says: Says {
        mismatch: "The {right.part} may turn at {right}; full throttle turns it at {left}",
        tight: "Full throttle turns the {right.part} at {left}; its maker allows {right}",
        fits: "The propeller may turn at {right}; full throttle turns it at {left}",
        costs: "A blade comes off at full throttle.",
    },
    hints: &["Limit the motor output", "Choose a propeller with a higher limit", "Choose a motor with less KV"],
    fails: Example { parts: five_inch!(propeller ", limit_rpm: 20000"), build: five_inch_build!() },
    passes: Example { parts: five_inch!(propeller ", limit_rpm: 45000"), build: five_inch_build!() },
};

#[cfg(test)]
mod tests {
    use super::{RULE, TURNS};
    use crate::finding::Status;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{figure, verdicts};

    #[test]
    fn just_passes_just_fails() {
        let band = figure(five_inch!(), five_inch_build!(), TURNS.field);
        let found = |limit: i64| {
            let parts = five_inch!(propeller ", limit_rpm: 0").replace("limit_rpm: 0", &format!("limit_rpm: {limit}"));
            verdicts(&RULE, &parts, five_inch_build!())
        };
        // The unit's steps are whole turns a minute; the nominal must keep below 0.95 of the limit.
        assert_eq!(found(band.high.max(band.nominal * 100 / 95 + 1)), [Status::Fits]);
        assert_eq!(found(band.high - 1), [Status::Tight]);
        assert_eq!(found(band.low), [Status::Tight]);
        assert_eq!(found(band.low - 1), [Status::Mismatch]);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(verdicts(&RULE, five_inch!(), five_inch_build!()), [Status::Unstated]);
    }
}
