//! What hangs on the pack still has enough volts at landing.
//!
//! Formula: `V_fed ≥ V_min`; `V_fed` in V is the pack's under load at landing or the rail's. On the pack it is tight below
//! `1.05 · V_min`; a rail holds its volts. Valid for anything with a rated supply. Source: common practice, no source. When it
//! fails, the part shuts down in the last minute of the flight.

use propwright_schema::slot::Slot;

use super::{Example, Form, Group, Law, Rule, Says, Weight, supply_floor};
use crate::{
    derive::feed::FED,
    graph::{Property, derived, part},
};

const AT_LANDING: Property = derived("fed-volts-min");
/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "supply-min",
    title: "Volts enough at landing",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &FED,
    formula: "V_fed ≥ V_min; on the pack tight below 1.05 · V_min",
    source: "common practice, no source",
    law: Law::LessIsBetter(part(Slot::VideoTransmitter, "supply_min_v")),
    reads: &supply_floor::reads(AT_LANDING),
    form: Form::Solved(|site| supply_floor::above(site, AT_LANDING, false)),
    says: Says {
        mismatch: "The {least.part} needs {least}; at landing it gets {fed}",
        tight: "The {least.part} needs {least} and gets {fed} at landing, with little to spare",
        fits: "The {least.part} needs {least} and gets {fed} at landing",
        costs: "It shuts down in the last minute of the flight, or in a burst.",
    },
    hints: &["Choose one that works from fewer volts", "Feed it from a rail", "Land with fuller packs"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiIon, cells: 2)]), (id: "v", name: "Sender", fills: [VideoTransmitter(supply_min_v: 7)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: VideoTransmitter, part: "v", feed: Pack)]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 3)]), (id: "v", name: "Sender", fills: [VideoTransmitter(supply_min_v: 7)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: VideoTransmitter, part: "v", feed: Pack)]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn landing_volts_decide() {
        let sender = |least: &str, feed: &str| {
            let rails = r#"rails: [(name: "9V", volts_v: 9, current_a: 2)]"#;
            let pack = ("Battery", "chemistry: LiPo, cells: 6", "");
            judged(&RULE, &[pack, ("PowerBoard", rails, ""), ("VideoTransmitter", least, feed)], "")
        };
        // 6 cells of 3.5 V are 21 V; 21 ÷ 1.05 = 20.
        assert_eq!(sender("supply_min_v: 20", ", feed: Pack"), [Status::Fits]);
        assert_eq!(sender("supply_min_v: 20.01", ", feed: Pack"), [Status::Tight]);
        assert_eq!(sender("supply_min_v: 21", ", feed: Pack"), [Status::Tight]);
        assert_eq!(sender("supply_min_v: 21.01", ", feed: Pack"), [Status::Mismatch]);
        assert_eq!(sender("supply_min_v: 9", r#", feed: Rail("9V")"#), [Status::Fits], "a rail holds its volts");
        assert_eq!(sender("", ", feed: Pack"), [Status::Unstated]);
    }
}
