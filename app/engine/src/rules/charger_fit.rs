//! The charger charges the packs: cells, chemistry and plug.
//!
//! Formula: `cells_min ≤ cells ≤ cells_max`; chemistry ∈ chemistries; plug ∈ plugs. Valid for packs charged one by one. Source:
//! common practice, no source. When it fails, the pack cannot be charged, or is charged by the wrong end volts: a fire.

use propwright_schema::slot::Slot;

use super::{Comparison, Example, Form, Group, Law, Operand, Operator, Rule, Says, Weight};
use crate::graph::{Property, part};

const CELLS: Property = part(Slot::Battery, "cells");
const CHEMISTRY: Property = part(Slot::Battery, "chemistry");
const PLUG: Property = part(Slot::Battery, "plug");
const FEWEST: Property = part(Slot::Charger, "cells_min");
const MOST: Property = part(Slot::Charger, "cells_max");
const CHEMISTRIES: Property = part(Slot::Charger, "chemistries");
const PLUGS: Property = part(Slot::Charger, "plugs");

const fn compare(left: Property, is: Operator, right: Property) -> Comparison {
    Comparison { left, is, right: Operand::Property(right), tight: None }
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "charger-fit",
    title: "Charger for the packs",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Battery, Slot::Charger],
    formula: "cells_min ≤ cells ≤ cells_max; chemistry ∈ chemistries; plug ∈ plugs",
    source: "common practice, no source",
    law: Law::MoreIsBetter(MOST),
    reads: &[CELLS, CHEMISTRY, PLUG, FEWEST, MOST, CHEMISTRIES, PLUGS],
    form: Form::Table(&[
        compare(CELLS, Operator::AtMost, MOST),
        compare(CELLS, Operator::AtLeast, FEWEST),
        compare(CHEMISTRY, Operator::OneOf, CHEMISTRIES),
        compare(PLUG, Operator::OneOf, PLUGS),
    ]),
    says: Says {
        mismatch: "The {right.part} is limited to {right}; the {left.part} has {left}",
        tight: "The {right.part} is limited to about {right}; the {left.part} has {left}",
        fits: "The {right.part} takes the {left.part}: {left}",
        costs: "The pack cannot be charged, or is charged to the wrong end volts: a fire.",
    },
    hints: &["Choose a charger for the packs", "Make a charge lead with the pack's plug"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(cells: 12, chemistry: LiPo, plug: "60 A")]), (id: "c", name: "Charger", fills: [Charger(cells_min: 1, cells_max: 6, chemistries: [LiPo], plugs: ["60 A"])])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: Charger, part: "c")]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(cells: 6, chemistry: LiPo, plug: "60 A")]), (id: "c", name: "Charger", fills: [Charger(cells_min: 1, cells_max: 6, chemistries: [LiPo], plugs: ["60 A"])])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: Charger, part: "c")]"#,
    },
};

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    fn charged(pack: &str) -> Vec<Status> {
        let charger = r#"cells_min: 2, cells_max: 6, chemistries: [LiPo, LiHv], plugs: ["60 A"]"#;
        judged(&RULE, &[("Battery", pack, ""), ("Charger", charger, "")], "")
    }

    #[test]
    fn each_figure_is_compared() {
        use Status::{Fits, Mismatch, Unstated};
        assert_eq!(charged(r#"cells: 2, chemistry: LiHv, plug: "60 A""#), [Fits, Fits, Fits, Fits]);
        assert_eq!(charged(r#"cells: 1, chemistry: LiHv, plug: "60 A""#), [Fits, Mismatch, Fits, Fits]);
        assert_eq!(charged(r#"cells: 7, chemistry: LiHv, plug: "60 A""#), [Mismatch, Fits, Fits, Fits]);
        assert_eq!(charged(r#"cells: 6, chemistry: LiIon, plug: "90 A""#), [Fits, Fits, Mismatch, Mismatch]);
        assert_eq!(charged("cells: 6"), [Fits, Fits, Unstated, Unstated]);
    }
}
