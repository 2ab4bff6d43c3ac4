//! What stands between pack and motors carries the current of all motors together.
//!
//! Formula: power board, anti-spark plug, selector: `I_rms(hard mix) ≤ continuous rating`; power board: `I_full ≤ burst rating`, in A. Valid for
//! the purpose's stated mix. Source: common practice, no source. When it fails, the one path of all currents burns.

use propwright_schema::slot::Slot;

use super::five_inch::five_inch;
use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::{
    graph::{Property, derived, part},
    policy::{CURRENT_BURST, CURRENT_LASTING},
};

const LASTING: Property = derived("battery-lasting");
const BURST: Property = derived("path-burst");
const BOARD: Property = part(Slot::PowerBoard, "current_a");
const BOARD_BURST: Property = part(Slot::PowerBoard, "current_burst_a");
const PLUG: Property = part(Slot::AntiSpark, "current_a");
const SELECTOR: Property = part(Slot::PackSelector, "current_a");

/// The craft of the other examples about currents, with a plug between pack and controller.
const WITH_PLUG: &str = concat!(five_inch!(), r#", (id: "a", name: "Plug", mass_g: 9, fills: [AntiSpark(current_a: 90)])"#);
const WEAK_PLUG: &str = concat!(five_inch!(), r#", (id: "a", name: "Plug", mass_g: 9, fills: [AntiSpark(current_a: 30)])"#);
const WITH_PLUG_BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4), (slot: AntiSpark, part: "a"),
    (slot: Propeller, part: "p", count: 4), (slot: Esc, part: "e"), (slot: Battery, part: "b")]"#;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "path-current",
    title: "Current through what joins the pack",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::PowerBoard, Slot::AntiSpark, Slot::PackSelector, Slot::Battery, Slot::Motor, Slot::Propeller],
    formula: "I_rms(hard mix) ≤ continuous rating; power board: I_full ≤ burst rating",
    source: "common practice, no source",
    law: Law::MoreIsBetter(PLUG),
    reads: &[LASTING, BURST, BOARD, BOARD_BURST, PLUG, SELECTOR],
    form: Form::Table(&[
        Comparison { left: LASTING, is: Operator::AtMost, right: Operand::Property(BOARD), tight: Some(CURRENT_LASTING) },
        Comparison { left: LASTING, is: Operator::AtMost, right: Operand::Property(PLUG), tight: Some(CURRENT_LASTING) },
        Comparison { left: LASTING, is: Operator::AtMost, right: Operand::Property(SELECTOR), tight: Some(CURRENT_LASTING) },
        Comparison { left: BURST, is: Operator::AtMost, right: Operand::Property(BOARD_BURST), tight: Some(CURRENT_BURST) },
    ]),
    says: Says {
        mismatch: "The {right.part} stands {right}; {left.title}: {left}",
        tight: "The {right.part} stands {right}; {left} pass through it, with little to spare",
        fits: "The {right.part} stands {right} for {left}",
        costs: "It burns, and all motors stop at once.",
    },
    hints: &["Choose one of more current", "Choose a propeller with less pitch", "Limit the motor output"],
    fails: Example { parts: WEAK_PLUG, build: WITH_PLUG_BUILD },
    passes: Example { parts: WITH_PLUG, build: WITH_PLUG_BUILD },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{
        finding::Status,
        rules::trial::{figure, verdicts},
    };

    use super::{WITH_PLUG, WITH_PLUG_BUILD};

    fn through(amps: &str) -> Vec<Status> {
        verdicts(&RULE, &WITH_PLUG.replace("current_a: 90", amps), WITH_PLUG_BUILD)
    }

    #[test]
    fn just_passes_just_fails() {
        let current = figure(WITH_PLUG, WITH_PLUG_BUILD, "battery-lasting").decimals();
        let stands = |amps: f64| through(&format!("current_a: {amps:.3}"));
        assert_eq!(stands(current[2] / 0.9 + 1.0), [Status::Fits]);
        assert_eq!(stands(current[2] - 0.5), [Status::Tight]);
        assert_eq!(stands(current[0] - 0.5), [Status::Mismatch]);
        assert_eq!(through(""), [Status::Unstated]);
    }

    #[test]
    fn a_board_stands_full_throttle_for_its_burst() {
        let current = figure(WITH_PLUG, WITH_PLUG_BUILD, "path-burst").decimals();
        let found = |amps: f64| {
            let board = format!("PowerBoard(current_a: 400, current_burst_a: {amps:.3})");
            let parts = WITH_PLUG.replace("AntiSpark(current_a: 90)", &board);
            verdicts(&RULE, &parts, &WITH_PLUG_BUILD.replace("AntiSpark", "PowerBoard"))
        };
        assert_eq!(found(current[2] / 0.9 + 1.0), [Status::Fits, Status::Fits]);
        assert_eq!(found(current[2] - 0.5), [Status::Fits, Status::Tight]);
        assert_eq!(found(current[0] - 0.5), [Status::Fits, Status::Mismatch]);
    }
}
