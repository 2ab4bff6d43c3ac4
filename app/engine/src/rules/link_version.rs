//! Receiver and transmitter speak one version of the link's protocol.
//!
//! Formula: major versions equal; other minor versions are tight. Valid for one family of link. Source: common practice, no
//! source. When it fails, the two do not bind until one of them is flashed anew.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, link_family::speakers, run};
use crate::{
    craft::Subject,
    finding::{Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const MAJOR: Property = part(Slot::Receiver, "version_major");
const MINOR: Property = part(Slot::Receiver, "version_minor");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "link-version",
    title: "One version of the link",
    group: Group::Radio,
    weight: Weight::Finding,
    slots: &[Slot::Receiver, Slot::Radio, Slot::RadioModule],
    formula: "major version of the receiver = that of the transmitter; other minor versions are tight",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[
        MAJOR,
        MINOR,
        part(Slot::Radio, "version_major"),
        part(Slot::Radio, "version_minor"),
        part(Slot::RadioModule, "version_major"),
        part(Slot::RadioModule, "version_minor"),
        part(Slot::Receiver, "family"),
        part(Slot::Radio, "families"),
        part(Slot::RadioModule, "family"),
    ],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {receiver.part} speaks version {receiver} of the link; the {sender.part} speaks {sender}",
        tight: "The {receiver.part} speaks version {receiver}.{receiver_minor}, the {sender.part} {sender}.{sender_minor}: flash both alike",
        fits: "The {receiver.part} and the {sender.part} speak version {receiver}.{receiver_minor}",
        costs: "The two do not bind, or lose functions, until one of them is flashed anew.",
    },
    hints: &["Flash receiver and transmitter with one version", "Choose a receiver of the transmitter's version"],
    fails: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(family: "Larkwire", version_major: 2, version_minor: 9)]), (id: "t", name: "Radio", fills: [Radio(families: ["Larkwire"], version_major: 3, version_minor: 0)])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "t")]"#,
    },
    passes: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(family: "Larkwire", version_major: 3, version_minor: 0)]), (id: "t", name: "Radio", fills: [Radio(families: ["Larkwire"], version_major: 3, version_minor: 0)])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "t")]"#,
    },
};

/// Major and minor version of one end.
#[derive(Clone)]
struct End {
    major: Reading,
    minor: Reading,
}

struct Pair {
    receiver: End,
    sender: End,
    status: Status,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(
        site,
        gather,
        |pair| Verdict {
            required: pair.sender.major.known.clone().ok(),
            available: pair.receiver.major.known.clone().ok(),
            ..Verdict::plain(pair.status)
        },
        facts,
    )
}

/// One entry a receiver: the best of the transmitters that speak its family.
fn gather(site: &Site) -> Vec<Result<Pair, Missing>> {
    let of = |receiver: Reading| {
        let receiver = receiver.subject?;
        let pairs = speakers(site, &receiver).into_iter().map(|sender| pair(end(site, &receiver)?, end(site, &sender)?));
        pairs.min_by_key(|pair| pair.as_ref().map_or(Status::Unstated, |pair| pair.status))
    };
    site.all(MAJOR).into_iter().filter_map(of).collect()
}

fn end(site: &Site, subject: &Subject) -> Result<End, Missing> {
    Ok(End {
        major: site.of(subject, part(subject.slot, "version_major"))?,
        minor: site.of(subject, part(subject.slot, "version_minor"))?,
    })
}

/// Minor versions matter only under one major version.
fn pair(receiver: End, sender: End) -> Result<Pair, Missing> {
    let same = |one: &Reading, other: &Reading| Ok::<_, Missing>(one.figure()?.nominal == other.figure()?.nominal);
    let status = if !same(&receiver.major, &sender.major)? {
        Status::Mismatch
    } else if same(&receiver.minor, &sender.minor)? {
        Status::Fits
    } else {
        Status::Tight
    };
    Ok(Pair { receiver, sender, status })
}

fn facts(pair: &Pair) -> Facts {
    vec![
        ("receiver", pair.receiver.major.because.clone()),
        ("sender", pair.sender.major.because.clone()),
        ("receiver_minor", pair.receiver.minor.because.clone()),
        ("sender_minor", pair.sender.minor.because.clone()),
    ]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    fn link(receiver: &str, radio: &str) -> Vec<Status> {
        let receiver = [r#"family: "Larkwire", "#, receiver].concat();
        let radio = [r#"families: ["Larkwire"], "#, radio].concat();
        judged(&RULE, &[("Receiver", &receiver, ""), ("Radio", &radio, "")], "")
    }

    #[test]
    fn minor_warns_and_major_forbids() {
        let radio = "version_major: 3, version_minor: 4";
        assert_eq!(link("version_major: 3, version_minor: 4", radio), [Status::Fits]);
        assert_eq!(link("version_major: 3, version_minor: 3", radio), [Status::Tight]);
        assert_eq!(link("version_major: 2, version_minor: 4", radio), [Status::Mismatch]);
    }

    #[test]
    fn unpublished_is_unstated_unless_the_major_versions_differ() {
        let radio = "version_major: 3, version_minor: 4";
        assert_eq!(link("version_major: 3", radio), [Status::Unstated]);
        assert_eq!(link("version_minor: 4", radio), [Status::Unstated]);
        assert_eq!(link("version_major: 2", radio), [Status::Mismatch]);
    }
}
