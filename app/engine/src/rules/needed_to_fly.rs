//! Nothing that is needed to fly by the picture is left out of the list.
//!
//! Formula: each needed slot holds a part; a part with several roles fills the slots of all of them. Valid for any craft that
//! is flown by first-person view. Source: common practice, no source; the fire-safe bag only warns. When it fails, the craft
//! waits on the bench for one more parcel.

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Claim, Datum, Missing, Origin, Outcome, Status, Unknown, Verdict},
    graph::{Property, Site, part},
};

/// What no such craft flies without, with the ground kit.
const NEEDED: [Slot; 12] = [
    Slot::Frame,
    Slot::Motor,
    Slot::Propeller,
    Slot::Esc,
    Slot::FlightController,
    Slot::Battery,
    Slot::Receiver,
    Slot::Camera,
    Slot::VideoTransmitter,
    Slot::Radio,
    Slot::Goggles,
    Slot::Charger,
];

const READS: [Property; NEEDED.len() + 1] = {
    let mut reads = [part(Slot::FireSafeBag, "id"); NEEDED.len() + 1];
    let mut at = 0;
    while at < NEEDED.len() {
        reads[at] = part(NEEDED[at], "id");
        at += 1;
    }
    reads
};

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "needed-to-fly",
    title: "Nothing left out",
    group: Group::Complete,
    weight: Weight::Finding,
    slots: &[
        Slot::Frame,
        Slot::Motor,
        Slot::Propeller,
        Slot::Esc,
        Slot::FlightController,
        Slot::Battery,
        Slot::Receiver,
        Slot::Camera,
        Slot::VideoTransmitter,
        Slot::Radio,
        Slot::Goggles,
        Slot::Charger,
        Slot::FireSafeBag,
    ],
    formula: "each needed slot holds a part",
    source: "common practice, no source",
    law: Law::Match,
    reads: &READS,
    form: Form::Solved(check),
    says: Says {
        mismatch: "Still to choose: {slot}",
        tight: "Still to choose, for charging and storage: {slot}",
        fits: "All that is needed to fly is chosen",
        costs: "The craft cannot fly without it, or the packs cannot be charged safely.",
    },
    hints: &["Choose a part for the empty slot", "Choose a part with several roles"],
    fails: Example { parts: r#"(id: "f", name: "Frame", fills: [Frame()])"#, build: r#"parts: [(slot: Frame, part: "f")]"# },
    passes: Example {
        parts: r#"(id: "a", name: "All in one", fills: [Frame(), Motor(), Propeller(), Esc(), FlightController(), Receiver(), Camera(), VideoTransmitter()]),
            (id: "p", name: "Pack", fills: [Battery()]), (id: "g", name: "Ground kit", fills: [Radio(), Goggles(), Charger(), FireSafeBag()])"#,
        build: r#"parts: [(slot: Frame, part: "a"), (slot: Battery, part: "p"), (slot: Radio, part: "g")]"#,
    },
};

/// One slot that is empty, or none of them.
enum Found {
    Lacks(Slot),
    Complete,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, facts)
}

fn gather(site: &Site) -> Vec<Result<Found, Missing>> {
    let needed = NEEDED.into_iter().chain([Slot::FireSafeBag]);
    let mut found: Vec<_> =
        needed.filter(|slot| site.all(part(*slot, "id")).is_empty()).map(|slot| Ok(Found::Lacks(slot))).collect();
    if found.is_empty() {
        found.push(Ok(Found::Complete));
    }
    found
}

fn judge(found: &Found) -> Verdict {
    Verdict::plain(match found {
        Found::Complete => Status::Fits,
        Found::Lacks(Slot::FireSafeBag) => Status::Tight,
        Found::Lacks(_) => Status::Mismatch,
    })
}

/// The empty slot twice: in words for the sentence, and as what is missing for whoever wants to fill it.
fn facts(found: &Found) -> Facts {
    let Found::Lacks(slot) = found else { return Vec::new() };
    let datum = Datum::Value(Value::Word(slot.title().to_owned()));
    let in_words = Claim::Fact { subject: None, field: "empty", datum, basis: None, origin: Origin::Build };
    let missing = Claim::Missing(Missing { subject: None, what: Unknown::Empty(*slot) });
    vec![("slot", Because::plain(in_words)), ("missing", Because::plain(missing))]
}

#[cfg(test)]
mod tests {
    use propwright_schema::slot::Slot;

    use super::RULE;
    use crate::{
        finding::{Finding, Status, Unknown},
        rules::trial::{outcomes, verdicts},
    };

    #[test]
    fn each_empty_slot_is_a_finding_of_its_own() {
        let parts = [
            r#"(id: "a", name: "A", fills: [Frame(), Motor(), Propeller(), Esc(), FlightController(), Receiver(), Camera()]),"#,
            r#"(id: "p", name: "P", fills: [Battery()]), (id: "g", name: "G", fills: [Radio(), Goggles(), Charger()])"#,
        ]
        .concat();
        let build = r#"parts: [(slot: Frame, part: "a"), (slot: Battery, part: "p"), (slot: Radio, part: "g")]"#;
        let found = outcomes(&RULE, &parts, build);
        let lacks = |outcome| Finding { rule: RULE.id, outcome }.missing().cloned().unwrap().what;
        assert_eq!(found.iter().map(|one| one.verdict.status).collect::<Vec<_>>(), [Status::Mismatch, Status::Tight]);
        let lacking: Vec<_> = found.into_iter().map(lacks).collect();
        assert_eq!(lacking, [Unknown::Empty(Slot::VideoTransmitter), Unknown::Empty(Slot::FireSafeBag)]);
    }

    #[test]
    fn an_empty_list_lacks_everything() {
        assert_eq!(verdicts(&RULE, "", "parts: []").len(), 13);
    }
}
