//! What hangs on the pack still has enough volts while the motors pull full throttle.
//!
//! Formula: `V_pack ≥ V_min`, both in V at full throttle on a fresh pack, with its band; tight below `1.05 · V_min`. Valid for
//! parts on the pack itself: a rail holds its volts. Source: common practice, no source. When it fails, the part restarts in a
//! burst.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Example, Form, Group, Law, Rule, Says, Weight, supply_floor};
use crate::graph::{Property, derived, part};

const IN_BURST: Property = derived("fed-volts-burst");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "brown-out",
    title: "Volts enough in a burst",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[
        Slot::Esc,
        Slot::Regulator,
        Slot::FlightController,
        Slot::Receiver,
        Slot::Camera,
        Slot::VideoTransmitter,
        Slot::Gps,
        Slot::RemoteId,
        Slot::Finder,
        Slot::Payload,
        Slot::Battery,
        Slot::Motor,
        Slot::Propeller,
    ],
    formula: "V_pack(full throttle, fresh) ≥ V_min; tight below 1.05 · V_min",
    source: "common practice, no source",
    law: Law::LessIsBetter(part(Slot::Esc, "supply_min_v")),
    reads: &supply_floor::reads(IN_BURST),
    form: Form::Solved(|site| supply_floor::above(site, IN_BURST, true)),
    says: Says {
        mismatch: "The {least.part} needs {least}; in a burst the pack sags to {fed}",
        tight: "The {least.part} needs {least}; in a burst the pack sags to {fed}, with little to spare",
        fits: "The {least.part} needs {least} and gets {fed} in a burst",
        costs: "It restarts at full throttle: the picture goes black, or the craft falls.",
    },
    hints: &[
        "Feed it from a rail",
        "Choose a pack of less resistance",
        "Limit the motor output",
        "Choose one that works from fewer volts",
    ],
    fails: Example { parts: five_inch!(esc ", supply_min_v: 24.9"), build: five_inch_build!() },
    passes: Example { parts: five_inch!(esc ", supply_min_v: 9"), build: five_inch_build!() },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{
        finding::Status,
        rules::five_inch::{five_inch, five_inch_build},
        rules::trial::{figure, verdicts},
    };

    #[test]
    fn just_passes_just_fails() {
        let [low, _, high] = figure(five_inch!(), five_inch_build!(), "loaded-pack").decimals();
        let found = |least: f64| {
            let parts = five_inch!(esc ", supply_min_v: 9").replace("supply_min_v: 9", &format!("supply_min_v: {least:.3}"));
            verdicts(&RULE, &parts, five_inch_build!())
        };
        assert_eq!(found(low / 1.05 - 1.0), [Status::Fits]);
        assert_eq!(found(low + 0.01), [Status::Tight]);
        assert_eq!(found(high + 0.01), [Status::Mismatch]);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(verdicts(&RULE, five_inch!(), five_inch_build!()), [Status::Unstated]);
    }
}
