//! Speed controller and flight controller stand the pack at full charge.
//!
//! Formula: `V_pack ≤ V_max`, V in V; where only cells are printed `V_max` is cells × 4.20 V, and a LiHV pack of as many cells is
//! tight: charge it to 4.20 V. Valid for any pack arrangement. Source: common practice, no source. When it fails, the board
//! burns as the pack is plugged in, or at the first hard braking, which lifts the volts further.

use propwright_schema::slot::Slot;

use super::{Example, Form, Group, Law, Rule, Says, Weight, supply_max};
use crate::graph::part;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "esc-supply",
    title: "Boards stand the pack",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Esc, Slot::FlightController, Slot::Battery],
    formula: "V_pack ≤ V_max; where only cells are printed V_max = cells · 4.20 V",
    source: "common practice, no source",
    law: Law::MoreIsBetter(part(Slot::Esc, "supply_max_v")),
    reads: &[supply_max::FED, supply_max::CEILING],
    form: Form::Solved(|site| supply_max::check(site, &[Slot::Esc, Slot::FlightController])),
    says: Says {
        mismatch: "The {limit.part} stands {available}; the pack gives {required} at full charge",
        tight: "The {limit.part} stands about {available} and gets {required}: charge to 4.20 V a cell, and ask its maker",
        fits: "The {limit.part} stands {available} and gets {required} at full charge",
        costs: "The board burns as the pack is plugged in, or at the first hard braking.",
    },
    hints: &["Choose a pack with fewer cells", "Choose a board for the pack's volts"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 6)]), (id: "e", name: "Controller", fills: [Esc(supply_max_v: 17)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: Esc, part: "e", feed: Pack)]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 4)]), (id: "e", name: "Controller", fills: [Esc(supply_max_v: 17)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: Esc, part: "e", feed: Pack)]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    fn board(pack: &str, limit: &str) -> Vec<Status> {
        judged(&RULE, &[("Battery", pack, ""), ("Esc", limit, "")], "")
    }

    #[test]
    fn volts_before_cells() {
        assert_eq!(board("chemistry: LiPo, cells: 6", "supply_max_v: 25.2"), [Status::Fits]);
        assert_eq!(board("chemistry: LiPo, cells: 6", "supply_max_v: 25.199"), [Status::Mismatch]);
        assert_eq!(board("chemistry: LiPo, cells: 6", "supply_max_v: 25.199, cells_max: 6"), [Status::Mismatch]);
    }

    #[test]
    fn high_volt_cells_are_tight_where_only_cells_are_printed() {
        assert_eq!(board("chemistry: LiPo, cells: 6", "cells_max: 6"), [Status::Fits]);
        assert_eq!(board("chemistry: LiHv, cells: 6", "cells_max: 6"), [Status::Tight]);
        assert_eq!(board("chemistry: LiHv, cells: 7", "cells_max: 6"), [Status::Mismatch]);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(board("chemistry: LiPo, cells: 6", ""), [Status::Unstated]);
        assert_eq!(board("chemistry: LiPo", "cells_max: 6"), [Status::Unstated]);
    }
}
