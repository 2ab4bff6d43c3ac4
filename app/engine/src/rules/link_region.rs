//! Receiver and transmitter of the control link are of one band and region variant.
//!
//! Formula: region of the receiver = region of the radio or module that speaks its family. Valid for one family of link; other
//! families are the matter of the rule on link families. Source: common practice, no source. When it fails, receiver and
//! transmitter never find each other, whatever is set.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, link_family::speakers, run};
use crate::{
    finding::{Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const RECEIVER: Property = part(Slot::Receiver, "region");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "link-region",
    title: "One region of the link",
    group: Group::Radio,
    weight: Weight::Finding,
    slots: &[Slot::Receiver, Slot::Radio, Slot::RadioModule],
    formula: "region of the receiver = region of the transmitter of its family",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[
        RECEIVER,
        part(Slot::Radio, "region"),
        part(Slot::RadioModule, "region"),
        part(Slot::Receiver, "family"),
        part(Slot::Radio, "families"),
        part(Slot::RadioModule, "family"),
    ],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {receiver.part} is made for region {receiver}, the {sender.part} for region {sender}: neither hears the other",
        tight: "",
        fits: "The {receiver.part} and the {sender.part} are both the {receiver} variant",
        costs: "Receiver and transmitter never find each other, and a foreign band may be against the law.",
    },
    hints: &["Choose the receiver in the transmitter's variant", "Look which band the law of the place allows"],
    fails: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(family: "Larkwire", region: "868")]), (id: "t", name: "Radio", fills: [Radio(families: ["Larkwire"], region: "915")])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "t")]"#,
    },
    passes: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(family: "Larkwire", region: "868")]), (id: "t", name: "Radio", fills: [Radio(families: ["Larkwire"], region: "868")])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "t")]"#,
    },
};

struct Pair {
    receiver: Reading,
    sender: Reading,
    same: bool,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, facts)
}

/// One entry a receiver: the transmitter of its variant if there is one, else the first that speaks its family.
fn gather(site: &Site) -> Vec<Result<Pair, Missing>> {
    let best = |receiver: Reading| {
        let mut pairs: Vec<_> = speakers(site, receiver.subject.as_ref()?)
            .iter()
            .map(|sender| {
                let sender = site.of(sender, part(sender.slot, "region"))?;
                Ok(Pair { same: receiver.word()? == sender.word()?, receiver: receiver.clone(), sender })
            })
            .collect();
        let same = pairs.iter().position(|pair| pair.as_ref().is_ok_and(|pair| pair.same));
        (!pairs.is_empty()).then(|| pairs.swap_remove(same.unwrap_or(0)))
    };
    site.all(RECEIVER).into_iter().filter_map(best).collect()
}

fn judge(pair: &Pair) -> Verdict {
    let status = if pair.same { Status::Fits } else { Status::Mismatch };
    let side = |reading: &Reading| reading.known.clone().ok();
    Verdict { status, required: side(&pair.sender), available: side(&pair.receiver), margin: None }
}

fn facts(pair: &Pair) -> Facts {
    vec![("receiver", pair.receiver.because.clone()), ("sender", pair.sender.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    fn link(receiver: &str, radio: &str, module: &str) -> Vec<Status> {
        let parts = [
            r#"(id: "r", name: "R", fills: [Receiver("#,
            receiver,
            r#")]), (id: "t", name: "T", fills: [Radio("#,
            radio,
            r#")]), (id: "m", name: "M", fills: [RadioModule("#,
            module,
            ")])",
        ]
        .concat();
        let build = r#"parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "t"), (slot: RadioModule, part: "m")]"#;
        verdicts(&RULE, &parts, build)
    }

    #[test]
    fn the_one_that_speaks_the_family_counts() {
        let (receiver, other) = (r#"family: "Larkwire", region: "868""#, r#"families: ["Oxbow"], region: "915""#);
        assert_eq!(link(receiver, other, r#"family: "Larkwire", region: "868""#), [Status::Fits]);
        assert_eq!(link(receiver, other, r#"family: "Larkwire", region: "915""#), [Status::Mismatch]);
        assert_eq!(
            link(receiver, r#"families: ["Larkwire"], region: "868""#, r#"family: "Larkwire", region: "915""#),
            [Status::Fits]
        );
    }

    #[test]
    fn another_family_is_another_rules_matter() {
        assert_eq!(link(r#"family: "Larkwire", region: "868""#, r#"families: ["Oxbow"], region: "915""#, ""), []);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(link(r#"family: "Larkwire""#, r#"families: ["Larkwire"], region: "868""#, ""), [Status::Unstated]);
        assert_eq!(link(r#"family: "Larkwire", region: "868""#, r#"families: ["Larkwire"]"#, ""), [Status::Unstated]);
    }
}
