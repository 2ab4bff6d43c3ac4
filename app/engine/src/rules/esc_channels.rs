//! The speed controllers have a channel for each motor.
//!
//! Formula: `Σ count · channels ≥ motors`. Valid for single controllers and several on one board. Source: common practice, no
//! source. When it fails, a motor has nothing to drive it.

use propwright_schema::slot::Slot;

use super::{
    Example, Facts, Form, Group, Law, Rule, Says, Weight,
    motor_outputs::{MOTORS, motors},
    run,
};
use crate::{
    finding::{Missing, Outcome, Unknown},
    graph::{Property, Reading, Site, part},
    interval::Interval,
    verdict,
};

const CHANNELS: Property = part(Slot::Esc, "channels");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "esc-channels",
    title: "A speed controller for each motor",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Esc, Slot::Motor],
    formula: "Σ count · channels ≥ motors",
    source: "common practice, no source",
    law: Law::MoreIsBetter(CHANNELS),
    reads: &[CHANNELS, MOTORS],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The speed controllers ({esc.part}) drive {available} motors; the craft has {required}",
        tight: "",
        fits: "The speed controllers ({esc.part}) drive {available} motors; the craft has {required}",
        costs: "A motor has nothing to drive it.",
    },
    hints: &["List as many speed controllers as motors", "Choose a board with more channels"],
    fails: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(channels: 1)]), (id: "m", name: "Motor", fills: [Motor()])"#,
        build: r#"parts: [(slot: Esc, part: "e"), (slot: Motor, part: "m", count: 4)]"#,
    },
    passes: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(channels: 1)]), (id: "m", name: "Motor", fills: [Motor()])"#,
        build: r#"parts: [(slot: Esc, part: "e", count: 4), (slot: Motor, part: "m", count: 4)]"#,
    },
};

struct Channels {
    esc: Reading,
    motors: Reading,
    required: Interval,
    available: Interval,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, |channels| verdict::enough(channels.required, channels.available), facts)
}

fn gather(site: &Site) -> Vec<Result<Channels, Missing>> {
    let escs = site.all(CHANNELS);
    match (motors(site), escs.first()) {
        (Some((motors, required)), Some(esc)) => {
            vec![all(&escs).map(|available| Channels { esc: esc.clone(), motors, required, available })]
        }
        _ => Vec::new(),
    }
}

fn all(escs: &[Reading]) -> Result<Interval, Missing> {
    let each = escs.iter().map(|esc| Ok(esc.figure()?.repeated(esc.count)));
    let all = each.collect::<Result<Vec<_>, Missing>>()?.into_iter().reduce(Interval::plus);
    all.ok_or(Missing { subject: None, what: Unknown::Empty(Slot::Esc) })
}

fn facts(channels: &Channels) -> Facts {
    vec![("esc", channels.esc.because.clone()), ("motors", channels.motors.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn channels_of_all_boards_add() {
        let motors = ("Motor", "", ", count: 8");
        let two = |channels: &str| judged(&RULE, &[("Esc", channels, ", count: 2"), motors], "");
        assert_eq!(two("channels: 4"), [Status::Fits]);
        assert_eq!(two("channels: 3"), [Status::Mismatch]);
        assert_eq!(two(""), [Status::Unstated]);
        assert_eq!(judged(&RULE, &[("Esc", "channels: 5", ""), ("Esc", "channels: 3", ""), motors], ""), [Status::Fits]);
        assert_eq!(judged(&RULE, &[motors], ""), []);
    }
}
