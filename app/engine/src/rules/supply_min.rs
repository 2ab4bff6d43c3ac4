//! What hangs on the pack still has enough volts at landing.
//!
//! Formula: `V_fed ≥ V_min`; `V_fed` in V is the pack's under load at landing or the rail's. On the pack it is tight below
//! `1.05 · V_min`; a rail holds its volts. Valid for anything with a rated supply. Source: common practice, no source. When it
//! fails, the part shuts down in the last minute of the flight.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    derive::feed::FED,
    finding::{Missing, Outcome},
    graph::{PACK, Property, Reading, Site, derived, line, part},
    interval::Interval,
    policy, verdict,
};

const AT_LANDING: Property = derived("fed-volts-min");
/// Fed slots whose records print a least supply.
const SLOTS: [Slot; 10] = [
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
];

const READS: [Property; 2 * SLOTS.len() + 1] = {
    let mut reads = [AT_LANDING; 2 * SLOTS.len() + 1];
    let mut at = 0;
    while at < SLOTS.len() {
        reads[2 * at] = part(SLOTS[at], "supply_min_v");
        reads[2 * at + 1] = line(SLOTS[at], "feed");
        at += 1;
    }
    reads
};

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
    reads: &READS,
    form: Form::Solved(check),
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

struct Supply {
    least: Reading,
    fed: Reading,
    required: Interval,
    available: Interval,
    tight_from: Interval,
}

fn check(site: &Site) -> Vec<Outcome> {
    let judge = |supply: &Supply| {
        let found = verdict::judge(supply.required, supply.available, supply.tight_from);
        found.softened(supply.least.is_estimated() || supply.fed.is_estimated())
    };
    run(site, gather, judge, |supply| facts(supply, site))
}

/// A part of which the list does not say what feeds it is the matter of the rules on the largest supply.
fn gather(site: &Site) -> Vec<Result<Supply, Missing>> {
    let of = |fed: Reading| {
        let device = fed.subject.clone().filter(|device| SLOTS.contains(&device.slot) && fed.known.is_ok())?;
        let supply = || {
            let least = site.of(&device, part(device.slot, "supply_min_v"))?;
            let (required, available) = (least.figure()?, fed.figure()?);
            let on_rail =
                site.of(&device, line(device.slot, "feed")).is_ok_and(|feed| feed.word().is_ok_and(|feed| feed != PACK));
            let spare = site.policy().tight(&policy::SUPPLY_LEAST).filter(|_| !on_rail).map_or(1.0, |spare| spare.si());
            Ok(Supply { required, available, tight_from: available.times(1.0 / spare), least, fed: fed.clone() })
        };
        Some(supply())
    };
    site.all(AT_LANDING).into_iter().filter_map(of).collect()
}

fn facts(supply: &Supply, site: &Site) -> Facts {
    vec![
        ("least", supply.least.because.clone()),
        ("fed", supply.fed.because.clone()),
        ("limit", site.threshold(&policy::SUPPLY_LEAST)),
    ]
}

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
