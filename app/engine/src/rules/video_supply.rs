//! Camera and video transmitter stand the volts that they are fed at full charge.
//!
//! Formula: `V_fed ≤ V_max`, as in the rule on supplies; V in V. Valid for anything with a rated supply. Source: common
//! practice, no source. When it fails, the video transmitter burns on the first pack: the commonest way to lose one.

use propwright_schema::slot::Slot;

use super::{Example, Form, Group, Law, Rule, Says, Weight, supply_max};
use crate::graph::part;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "video-supply",
    title: "Video stands the volts",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::VideoTransmitter, Slot::Camera, Slot::Battery],
    formula: "V_fed ≤ V_max",
    source: "common practice, no source",
    law: Law::MoreIsBetter(part(Slot::VideoTransmitter, "supply_max_v")),
    reads: &[supply_max::FED, supply_max::CEILING],
    form: Form::Solved(|site| supply_max::check(site, &[Slot::Camera, Slot::VideoTransmitter])),
    says: Says {
        mismatch: "The {limit.part} stands {available}; it is fed {required}",
        tight: "The {limit.part} stands about {available} and is fed {required}: charge to 4.20 V a cell, and ask its maker",
        fits: "The {limit.part} stands {available} and is fed {required}",
        costs: "It burns as the pack is plugged in.",
    },
    hints: &["Feed it from a rail within its volts", "Choose one that stands the pack's volts", "Put a regulator before it"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 6)]), (id: "v", name: "Sender", fills: [VideoTransmitter(supply_max_v: 17)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: VideoTransmitter, part: "v", feed: Pack)]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 4)]), (id: "v", name: "Sender", fills: [VideoTransmitter(supply_max_v: 17)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: VideoTransmitter, part: "v", feed: Pack)]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    fn sender(limit: &str, basis: &str) -> Vec<Status> {
        let pack = r#"(id: "p", name: "P", fills: [Battery(chemistry: LiPo, cells: 4)])"#;
        let sender = [r#", (id: "v", name: "V", fills: [VideoTransmitter("#, limit, ")], basis: {", basis, "})"].concat();
        let build = r#"parts: [(slot: Battery, part: "p"), (slot: VideoTransmitter, part: "v", feed: Pack)]"#;
        verdicts(&RULE, &[pack, &sender].concat(), build)
    }

    #[test]
    fn full_charge_decides() {
        assert_eq!(sender("supply_max_v: 16.8", ""), [Status::Fits]);
        assert_eq!(sender("supply_max_v: 16.799", ""), [Status::Mismatch]);
        assert_eq!(sender("", ""), [Status::Unstated]);
    }

    #[test]
    fn an_estimate_only_warns() {
        assert_eq!(sender("supply_max_v: 16.0", r#""supply_max_v": Estimate"#), [Status::Tight]);
    }

    #[test]
    fn a_camera_is_judged_too() {
        let parts = r#"(id: "p", name: "P", fills: [Battery(chemistry: LiPo, cells: 2)]), (id: "c", name: "C", fills: [Camera(supply_max_v: 5)])"#;
        let build = r#"parts: [(slot: Battery, part: "p"), (slot: Camera, part: "c", feed: Pack)]"#;
        assert_eq!(verdicts(&RULE, parts, build), [Status::Mismatch]);
    }
}
