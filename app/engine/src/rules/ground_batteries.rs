//! Radio and goggles have batteries.
//!
//! Formula: battery in the box, or buy one. Valid: any radio and goggles. Source: common practice, no source. Who overlooks it waits for a second
//! parcel.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const RADIO: Property = part(Slot::Radio, "battery_in_box");
const GOGGLES: Property = part(Slot::Goggles, "battery_in_box");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "ground-batteries",
    title: "Batteries of radio and goggles",
    group: Group::Radio,
    weight: Weight::Advice,
    slots: &[Slot::Radio, Slot::Goggles],
    formula: "battery in the box",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[RADIO, GOGGLES],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The {battery.part} comes without a battery",
        fits: "The {battery.part} comes with its battery",
        costs: "The first evening ends before it begins.",
    },
    hints: &["Buy the cells or the pack that its maker names", "Feed the goggles from a flight pack within their volts"],
    fails: Example {
        parts: r#"(id: "g", name: "Goggles", fills: [Goggles(battery_in_box: false)])"#,
        build: r#"parts: [(slot: Goggles, part: "g")]"#,
    },
    passes: Example {
        parts: r#"(id: "g", name: "Goggles", fills: [Goggles(battery_in_box: true)])"#,
        build: r#"parts: [(slot: Goggles, part: "g")]"#,
    },
};

fn gather(site: &Site) -> Vec<Result<(Reading, bool), Missing>> {
    let read = |battery: Reading| battery.flag().map(|inside| (battery, inside));
    [RADIO, GOGGLES].into_iter().flat_map(|property| site.all(property)).map(read).collect()
}

fn judge((_, inside): &(Reading, bool)) -> Verdict {
    Verdict::plain(if *inside { Status::Fits } else { Status::Tight })
}

fn facts((battery, _): &(Reading, bool)) -> Facts {
    vec![("battery", battery.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn each_by_itself() {
        let kit = [("Radio", "battery_in_box: true", ""), ("Goggles", "battery_in_box: false", "")];
        assert_eq!(judged(&RULE, &kit, ""), [Status::Fits, Status::Tight]);
        assert_eq!(judged(&RULE, &[("Radio", "", "")], ""), [Status::Unstated]);
    }
}
