//! What the craft cannot fly without hangs on no rail that the radio switches.
//!
//! Formula: `switched ⇒ device ∉ {flight controller, receiver}`; GPS and remote identification on such a rail are tight; lights and video belong
//! there. Valid for rails whose record says it. Source: common practice, no source. When it fails, one switch drops the craft.

use std::sync::Arc;

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    derive::feed::{self, Fed, Source},
    finding::{Because, Missing, Status, Verdict},
    graph::{Property, Site, part},
};

const GPS: Property = part(Slot::Gps, "id");
/// What must never be switched off in the air, and what should not.
const VITAL: [Slot; 2] = [Slot::FlightController, Slot::Receiver];
const USEFUL: [Slot; 2] = [Slot::Gps, Slot::RemoteId];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "switched-feed",
    title: "Nothing vital on a switched rail",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::FlightController, Slot::Receiver, Slot::Gps, Slot::RemoteId, Slot::Regulator, Slot::PowerBoard, Slot::Esc],
    formula: "switched rail ⇒ neither flight controller nor receiver; GPS and remote identification are tight",
    source: "common practice, no source",
    law: Law::Match,
    reads: &feed::reads(GPS),
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "The {device.part} is fed from the rail {device} of the {rail.part}, which the radio can switch off: the craft falls",
        tight: "The {device.part} is fed from the rail {device} of the {rail.part}, which the radio can switch off",
        fits: "The {device.part} is fed from a rail that stays on",
        costs: "One wrong switch on the radio, and control or position is gone.",
    },
    hints: &["Feed it from a rail that stays on", "Lock the switch in the firmware"],
    fails: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(rails: [(name: "9V", volts_v: 9, switched: true)])]), (id: "r", name: "Receiver", fills: [Receiver()])"#,
        build: r#"parts: [(slot: FlightController, part: "f", feed: Pack), (slot: Receiver, part: "r", feed: Rail("9V"))]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(rails: [(name: "5V", volts_v: 5, switched: false)])]), (id: "r", name: "Receiver", fills: [Receiver()])"#,
        build: r#"parts: [(slot: FlightController, part: "f", feed: Pack), (slot: Receiver, part: "r", feed: Rail("5V"))]"#,
    },
};

struct Inputs {
    device: Arc<Because>,
    rail: Arc<Because>,
    switched: bool,
    vital: bool,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let of = |fed: Fed| {
        let slot = fed.device.slot;
        let vital = VITAL.contains(&slot);
        let Ok(Source::Rail(rail)) = fed.source else { return None };
        let device = fed.because.filter(|_| vital || USEFUL.contains(&slot))?;
        Some(rail.flag("switched").map(|(switched, rail)| Inputs { device, rail, switched, vital }))
    };
    feed::fed(site).into_iter().filter_map(of).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(match (inputs.switched, inputs.vital) {
        (false, _) => Status::Fits,
        (true, true) => Status::Mismatch,
        (true, false) => Status::Tight,
    })
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("device", inputs.device.clone()), ("rail", inputs.rail.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn only_what_is_vital_forbids() {
        let fed = |slot: &str, switched: &str| {
            let rails = [r#"rails: [(name: "9V", volts_v: 9"#, switched, ")]"].concat();
            judged(&RULE, &[("PowerBoard", &rails, ""), (slot, "", r#", feed: Rail("9V")"#)], "")
        };
        assert_eq!(fed("Receiver", ", switched: true"), [Status::Mismatch]);
        assert_eq!(fed("Receiver", ", switched: false"), [Status::Fits]);
        assert_eq!(fed("Gps", ", switched: true"), [Status::Tight]);
        assert_eq!(fed("Camera", ", switched: true"), []);
        assert_eq!(fed("Receiver", ""), [Status::Unstated]);
    }
}
