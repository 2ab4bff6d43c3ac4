//! Nothing fed from the craft gets more volts than it stands.
//!
//! Formula: `V_fed ≤ V_max`; `V_fed` in V is the pack's at full charge or the rail's. Where only cells are printed, `V_max` is
//! cells × 4.20 V, and a LiHV pack of as many cells is tight: charge it to 4.20 V. Valid for anything with a rated supply.
//! Source: common practice, no source. When it fails, the part burns as the pack is plugged in.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Outcome},
    graph::{Property, Reading, Site, derived, part},
    interval::Interval,
    verdict,
};

/// Volts fed at full charge, one entry a part.
pub(super) const FED: Property = derived("fed-volts-max");
/// Largest supply, one entry a part.
pub(super) const CEILING: Property = derived("supply-ceiling");

const SLOTS: [Slot; 9] = [
    Slot::Regulator,
    Slot::PowerBoard,
    Slot::AntiSpark,
    Slot::PackSelector,
    Slot::Receiver,
    Slot::Gps,
    Slot::RemoteId,
    Slot::Finder,
    Slot::Payload,
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "supply-max",
    title: "Volts within the supply",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[
        Slot::Battery,
        Slot::Regulator,
        Slot::PowerBoard,
        Slot::AntiSpark,
        Slot::PackSelector,
        Slot::Receiver,
        Slot::Gps,
        Slot::RemoteId,
        Slot::Finder,
        Slot::Payload,
    ],
    formula: "V_fed ≤ V_max; where only cells are printed V_max = cells · 4.20 V",
    source: "common practice, no source",
    law: Law::MoreIsBetter(part(Slot::Receiver, "supply_max_v")),
    reads: &[FED, CEILING],
    form: Form::Solved(|site| check(site, &SLOTS)),
    says: Says {
        mismatch: "The {limit.part} stands {available}; it is fed {required}",
        tight: "The {limit.part} stands about {available} and is fed {required}: charge to 4.20 V a cell, and ask its maker",
        fits: "The {limit.part} stands {available} and is fed {required}",
        costs: "It burns as the pack is plugged in.",
    },
    hints: &["Feed it from a rail of lower volts", "Choose one that stands the pack's volts", "Put a regulator before it"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 4)]), (id: "r", name: "Receiver", fills: [Receiver(supply_max_v: 5.5)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: Receiver, part: "r", feed: Pack)]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 1)]), (id: "r", name: "Receiver", fills: [Receiver(supply_max_v: 5.5)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: Receiver, part: "r", feed: Pack)]"#,
    },
};

struct Supply {
    fed: Reading,
    limit: Reading,
    required: Interval,
    available: Interval,
}

/// Volts against the supply for the fed parts of some slots.
pub(super) fn check(site: &Site, slots: &[Slot]) -> Vec<Outcome> {
    let judge = |supply: &Supply| {
        verdict::enough(supply.required, supply.available).softened(supply.fed.is_estimated() || supply.limit.is_estimated())
    };
    run(site, |site| gather(site, slots), judge, facts)
}

fn gather(site: &Site, slots: &[Slot]) -> Vec<Result<Supply, Missing>> {
    let of = |fed: Reading| {
        let limit = fed.subject.as_ref().filter(|device| slots.contains(&device.slot)).map(|device| site.of(device, CEILING));
        limit.map(|limit| {
            let limit = limit?;
            Ok(Supply { required: fed.figure()?, available: limit.figure()?, fed, limit })
        })
    };
    site.all(FED).into_iter().filter_map(of).collect()
}

fn facts(supply: &Supply) -> Facts {
    vec![("limit", supply.limit.because.clone()), ("fed", supply.fed.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    fn receiver(pack: &str, limit: &str, line: &str) -> Vec<Status> {
        let parts = [
            r#"(id: "p", name: "P", fills: [Battery("#,
            pack,
            r#")]), (id: "r", name: "R", fills: [Receiver("#,
            limit,
            r#")]), (id: "f", name: "F", fills: [FlightController(rails: [(name: "5V", volts_v: 5, current_a: 2)])])"#,
        ]
        .concat();
        let build = [
            r#"parts: [(slot: Battery, part: "p"), (slot: FlightController, part: "f"), (slot: Receiver, part: "r""#,
            line,
            ")]",
        ]
        .concat();
        verdicts(&RULE, &parts, &build)
    }

    #[test]
    fn full_charge_decides() {
        let two = "chemistry: LiPo, cells: 2";
        assert_eq!(receiver(two, "supply_max_v: 8.4", ", feed: Pack"), [Status::Fits]);
        assert_eq!(receiver(two, "supply_max_v: 8.399", ", feed: Pack"), [Status::Mismatch]);
        assert_eq!(receiver("chemistry: LiHv, cells: 2", "supply_max_v: 8.4", ", feed: Pack"), [Status::Mismatch]);
    }

    #[test]
    fn a_rail_gives_its_own_volts() {
        let six = "chemistry: LiPo, cells: 6";
        assert_eq!(receiver(six, "supply_max_v: 5", r#", feed: Rail("5V")"#), [Status::Fits]);
        assert_eq!(receiver(six, "supply_max_v: 4.9", r#", feed: Rail("5V")"#), [Status::Mismatch]);
        assert_eq!(receiver(six, "supply_max_v: 5", ", feed: Partner"), []);
    }

    #[test]
    fn unknown_is_unstated() {
        let one = "chemistry: LiPo, cells: 1";
        assert_eq!(receiver(one, "", ", feed: Pack"), [Status::Unstated]);
        assert_eq!(receiver(one, "supply_max_v: 5.5", ""), [Status::Unstated]);
        assert_eq!(receiver("cells: 1", "supply_max_v: 5.5", ", feed: Pack"), [Status::Unstated]);
        assert_eq!(receiver(one, "supply_max_v: 5.5", r#", feed: Rail("9V")"#), [Status::Unstated]);
    }

    #[test]
    fn several_packs_need_an_arrangement() {
        let parts = r#"(id: "p", name: "P", fills: [Battery(chemistry: LiPo, cells: 1)]), (id: "r", name: "R", fills: [Receiver(supply_max_v: 8.3)])"#;
        let lines = r#"parts: [(slot: Battery, part: "p", count: 2), (slot: Receiver, part: "r", feed: Pack)]"#;
        assert_eq!(verdicts(&RULE, parts, lines), [Status::Unstated]);
        assert_eq!(verdicts(&RULE, parts, &["packs: Parallel, ", lines].concat()), [Status::Fits]);
        assert_eq!(verdicts(&RULE, parts, &["packs: InTurn, ", lines].concat()), [Status::Fits]);
        assert_eq!(verdicts(&RULE, parts, &["packs: Series, ", lines].concat()), [Status::Mismatch]);
    }
}
