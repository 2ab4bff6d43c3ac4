//! A rail gives the current that all its parts draw together.
//!
//! Formula: `Σ count · I ≤ I_rail`, currents in A, a video transmitter at its highest power step; tight above nine tenths.
//! Valid for lasting currents; the short surge of a camera at start is the rail's own matter. Source: common practice, no
//! source. When it fails, the rail sags or shuts down: the picture goes black, or the receiver restarts in the air.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Outcome},
    graph::{Property, Reading, Site, derived, part},
    interval::Interval,
    policy, verdict,
};

const ASKED: Property = derived("rail-asked");
const OFFERED: Property = derived("rail-offered");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rail-load",
    title: "Load of the rails",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[
        Slot::FlightController,
        Slot::Regulator,
        Slot::PowerBoard,
        Slot::Esc,
        Slot::Receiver,
        Slot::Camera,
        Slot::VideoTransmitter,
        Slot::Gps,
        Slot::RemoteId,
        Slot::Finder,
        Slot::Payload,
    ],
    formula: "Σ count · I ≤ I_rail",
    source: "common practice, no source",
    law: Law::MoreIsBetter(part(Slot::FlightController, "rails.current_a")),
    reads: &[ASKED, OFFERED],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The rail of the {offered.part} gives {offered}; what hangs on it draws {asked}",
        tight: "The rail of the {offered.part} gives {offered}; what hangs on it draws {asked}, with little to spare",
        fits: "The rail of the {offered.part} gives {offered}; what hangs on it draws {asked}",
        costs: "The rail sags or shuts down: the picture goes black, or the receiver restarts in the air.",
    },
    hints: &["Move a part to another rail", "Feed the video transmitter from the pack if it stands the volts", "Add a regulator"],
    fails: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(rails: [(name: "9V", volts_v: 9, current_a: 1.5)])]),
            (id: "v", name: "Sender", fills: [VideoTransmitter(steps: [(power_mw: 25, current_a: 0.9), (power_mw: 700, current_a: 2.1)])])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: VideoTransmitter, part: "v", feed: Rail("9V"))]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(rails: [(name: "9V", volts_v: 9, current_a: 3)])]),
            (id: "v", name: "Sender", fills: [VideoTransmitter(steps: [(power_mw: 25, current_a: 0.9), (power_mw: 700, current_a: 2.1)])])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: VideoTransmitter, part: "v", feed: Rail("9V"))]"#,
    },
};

struct Load {
    asked: Reading,
    offered: Reading,
    required: Interval,
    available: Interval,
}

fn check(site: &Site) -> Vec<Outcome> {
    let judge = |load: &Load| {
        let found = verdict::within_share(load.required, load.available, &policy::RAIL_LOAD, site.policy());
        found.softened(load.asked.is_estimated() || load.offered.is_estimated())
    };
    run(site, gather, judge, |load| facts(load, site))
}

/// Both derivations go through the rails in one order.
fn gather(site: &Site) -> Vec<Result<Load, Missing>> {
    let each = site.all(ASKED).into_iter().zip(site.all(OFFERED));
    each.map(|(asked, offered)| Ok(Load { available: offered.figure()?, required: asked.figure()?, asked, offered })).collect()
}

fn facts(load: &Load, site: &Site) -> Facts {
    vec![
        ("offered", load.offered.because.clone()),
        ("asked", load.asked.because.clone()),
        ("limit", site.threshold(&policy::RAIL_LOAD)),
    ]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    fn rail(gives: &str, draws: &str, count: &str) -> Vec<Status> {
        let parts = [
            r#"(id: "f", name: "F", fills: [FlightController(rails: [(name: "5V", volts_v: 5"#,
            gives,
            r#")])]), (id: "g", name: "G", fills: [Gps("#,
            draws,
            ")])",
        ]
        .concat();
        let build =
            [r#"parts: [(slot: FlightController, part: "f"), (slot: Gps, part: "g", feed: Rail("5V"), count: "#, count, ")]"]
                .concat();
        verdicts(&RULE, &parts, &build)
    }

    #[test]
    fn boundaries() {
        assert_eq!(rail(", current_a: 1", "current_a: 0.9", "1"), [Status::Fits]);
        assert_eq!(rail(", current_a: 1", "current_a: 0.901", "1"), [Status::Tight]);
        assert_eq!(rail(", current_a: 1", "current_a: 1", "1"), [Status::Tight]);
        assert_eq!(rail(", current_a: 1", "current_a: 1.001", "1"), [Status::Mismatch]);
    }

    #[test]
    fn each_piece_draws() {
        assert_eq!(rail(", current_a: 1", "current_a: 0.4", "2"), [Status::Fits]);
        assert_eq!(rail(", current_a: 1", "current_a: 0.4", "3"), [Status::Mismatch]);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(rail("", "current_a: 0.9", "1"), [Status::Unstated]);
        assert_eq!(rail(", current_a: 1", "", "1"), [Status::Unstated]);
    }
}
