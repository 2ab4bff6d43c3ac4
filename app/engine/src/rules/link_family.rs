//! The radio, or its module, speaks the receiver's family of link.
//!
//! Formula: family of the receiver ∈ families of the radio and its module. Valid for any control link. Source: common
//! practice, no source. When it fails, the receiver cannot be bound to the radio.

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    craft::Subject,
    finding::{Datum, Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const RECEIVER: Property = part(Slot::Receiver, "family");
const RADIO: Property = part(Slot::Radio, "families");
const MODULE: Property = part(Slot::RadioModule, "family");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "link-family",
    title: "One family of link",
    group: Group::Radio,
    weight: Weight::Finding,
    slots: &[Slot::Receiver, Slot::Radio, Slot::RadioModule],
    formula: "family of the receiver ∈ families of radio and module",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[RECEIVER, RADIO, MODULE],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {receiver.part} speaks {receiver}; the {sender.part} speaks {sender}",
        tight: "",
        fits: "The {sender.part} speaks {receiver}, as the {receiver.part} does",
        costs: "The receiver cannot be bound to the radio.",
    },
    hints: &["Choose a receiver of the radio's family", "Put a module of the receiver's family into the radio's bay"],
    fails: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(family: "Larkwire")]), (id: "t", name: "Radio", fills: [Radio(families: ["Oxbow"])])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "t")]"#,
    },
    passes: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(family: "Larkwire")]), (id: "t", name: "Radio", fills: [Radio(families: ["Oxbow"])]), (id: "m", name: "Module", fills: [RadioModule(family: "Larkwire")])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "t"), (slot: RadioModule, part: "m")]"#,
    },
};

/// Radios and modules with the families that they speak.
fn senders(site: &Site) -> Vec<Reading> {
    let mut all = site.all(MODULE);
    all.extend(site.all(RADIO));
    all
}

fn speaks(sender: &Reading, family: &Value) -> bool {
    sender.items().is_ok_and(|families| families.contains(family))
}

/// The radios and modules of which it is known that they speak the receiver's family, modules first.
///
/// Reads the families of receiver, radio and module.
pub(super) fn speakers(site: &Site, receiver: &Subject) -> Vec<Subject> {
    let family = site.of(receiver, RECEIVER);
    let Ok(family) = family.as_ref().map_err(Clone::clone).and_then(Reading::value) else { return Vec::new() };
    senders(site).into_iter().filter(|sender| speaks(sender, family)).filter_map(|sender| sender.subject).collect()
}

struct Pair {
    receiver: Reading,
    sender: Reading,
    family: Value,
    spoken: Value,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, facts)
}

/// One entry a receiver: with a transmitter that speaks its family, else with one that tells nothing, else with the first.
fn gather(site: &Site) -> Vec<Result<Pair, Missing>> {
    let all = senders(site);
    let of = |receiver: Reading| {
        let speaks = |sender: &&Reading| receiver.value().is_ok_and(|family| speaks(sender, family));
        let silent = |sender: &&Reading| sender.known.is_err();
        let sender = all.iter().find(speaks).or_else(|| all.iter().find(silent)).or_else(|| all.first())?.clone();
        let pair = || {
            Ok(Pair {
                family: receiver.value()?.clone(),
                spoken: sender.value()?.clone(),
                receiver: receiver.clone(),
                sender: sender.clone(),
            })
        };
        Some(pair())
    };
    site.all(RECEIVER).into_iter().filter_map(of).collect()
}

fn judge(pair: &Pair) -> Verdict {
    let status = if speaks(&pair.sender, &pair.family) { Status::Fits } else { Status::Mismatch };
    Verdict::of_words(status, Datum::Value(pair.family.clone()), Datum::Value(pair.spoken.clone()))
}

fn facts(pair: &Pair) -> Facts {
    vec![("receiver", pair.receiver.because.clone()), ("sender", pair.sender.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    fn link(receiver: &str, radio: &str) -> Vec<Status> {
        let parts =
            [r#"(id: "r", name: "R", fills: [Receiver("#, receiver, r#")]), (id: "t", name: "T", fills: [Radio("#, radio, ")])"]
                .concat();
        verdicts(&RULE, &parts, r#"parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "t")]"#)
    }

    #[test]
    fn one_of_the_radios_families_is_enough() {
        assert_eq!(link(r#"family: "Larkwire""#, r#"families: ["Oxbow", "Larkwire"]"#), [Status::Fits]);
        assert_eq!(link(r#"family: "Larkwire""#, "families: []"), [Status::Mismatch]);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(link(r#"family: "Larkwire""#, ""), [Status::Unstated]);
        assert_eq!(link("", r#"families: ["Larkwire"]"#), [Status::Unstated]);
    }

    #[test]
    fn without_a_radio_there_is_nothing_to_compare() {
        let parts = r#"(id: "r", name: "R", fills: [Receiver(family: "Larkwire")])"#;
        assert_eq!(verdicts(&RULE, parts, r#"parts: [(slot: Receiver, part: "r")]"#), []);
    }
}
