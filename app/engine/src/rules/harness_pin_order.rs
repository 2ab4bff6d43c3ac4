//! Two boards joined by a plug have their signals on the same pins.
//!
//! Formula: pins of the flight controller's plug = pins of the partner's plug, from the mark on. Valid for a straight harness
//! between speed controller or video transmitter and flight controller; a plug of another kind needs a harness of its own.
//! Source: common practice, no source. When it fails, pack volts meet a signal pin and both boards burn at the first power.

use std::sync::Arc;

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    craft::Subject,
    finding::{Because, Claim, Datum, Missing, Outcome, Status, Unknown, Verdict},
    graph::{Property, Reading, Site, part},
};

const BOARD: Property = part(Slot::FlightController, "plugs");
const ESC: Property = part(Slot::Esc, "plugs");
const CHANNELS: Property = part(Slot::Esc, "channels");
const VIDEO: Property = part(Slot::VideoTransmitter, "plugs");
/// How the partners' records call the flight controller.
const TO_BOARD: &str = "flight-controller";

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "harness-pin-order",
    title: "Pin order of the plugs",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Esc, Slot::FlightController, Slot::VideoTransmitter],
    formula: "pins from the mark on are the same at both ends",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[BOARD, ESC, CHANNELS, VIDEO],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The plugs of the {partner.part} and the {board.part} carry different signals on pin {differ}, counted from the mark: re-pin the harness before power",
        tight: "The plugs of the {partner.part} and the {board.part} are not of one kind: make a harness, and meter each pin before power",
        fits: "The plugs of the {partner.part} and the {board.part} have one order: {board}",
        costs: "Pack volts meet a signal pin: both boards burn at the first power.",
    },
    hints: &["Re-pin the harness, and meter each pin before power", "Choose boards with one pin order"],
    fails: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(channels: 4, plugs: [(to: "flight-controller", plug: "8 pin", pins: ["GND", "VBAT"])])]),
            (id: "f", name: "Board", fills: [FlightController(plugs: [(to: "esc", plug: "8 pin", pins: ["VBAT", "GND"])])])"#,
        build: r#"parts: [(slot: Esc, part: "e"), (slot: FlightController, part: "f")]"#,
    },
    passes: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(channels: 4, plugs: [(to: "flight-controller", plug: "8 pin", pins: ["VBAT", "GND"])])]),
            (id: "f", name: "Board", fills: [FlightController(plugs: [(to: "esc", plug: "8 pin", pins: ["VBAT", "GND"])])])"#,
        build: r#"parts: [(slot: Esc, part: "e"), (slot: FlightController, part: "f")]"#,
    },
};

struct Harness {
    partner: Subject,
    board: Subject,
    /// What both records say of their plugs.
    read: [Reading; 2],
    /// Pins at both ends; absent when the plugs are not of one kind.
    pins: Option<[Value; 2]>,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, facts)
}

fn gather(site: &Site) -> Vec<Result<Harness, Missing>> {
    let Ok(board) = site.one(BOARD) else { return Vec::new() };
    let many_channels = |esc: &&Reading| {
        let channels = esc.subject.as_ref().and_then(|esc| site.of(esc, CHANNELS).ok());
        channels.is_none_or(|channels| channels.figure().is_ok_and(|channels| channels.nominal > 1))
    };
    let (escs, video) = (site.all(ESC), site.all(VIDEO));
    let escs = escs.iter().filter(many_channels).filter_map(|esc| harness(esc, &board, "esc"));
    // A video transmitter soldered with single wires has no plug to speak of.
    let plugged = |video: &&Reading| entry(video, TO_BOARD).is_ok_and(|plug| plug.is_some());
    let video = video.iter().filter(plugged).filter_map(|video| harness(video, &board, "video"));
    escs.chain(video).collect()
}

/// The plug that goes to `to`, when there is one.
fn entry<'a>(plugs: &'a Reading, to: &str) -> Result<Option<&'a Value>, Missing> {
    let leads_there = |plug: &&Value| plug.field("to").and_then(Value::word) == Some(to);
    Ok(plugs.items()?.iter().find(leads_there))
}

/// Nothing for two roles of one part, or when one of them publishes that it has no such plug.
fn harness(partner: &Reading, board: &Reading, from_board: &str) -> Option<Result<Harness, Missing>> {
    let (one, other) = (partner.subject.clone()?, board.subject.clone()?);
    if one.part.id == other.part.id {
        return None;
    }
    match (entry(partner, TO_BOARD), entry(board, from_board)) {
        (Err(missing), _) | (_, Err(missing)) => Some(Err(missing)),
        (Ok(Some(there)), Ok(Some(here))) => {
            let pins = compared((&one, there), (&other, here));
            Some(pins.map(|pins| Harness { partner: one, board: other, read: [partner.clone(), board.clone()], pins }))
        }
        _ => None,
    }
}

/// The pins at both ends; nothing when the plugs are not of one kind.
fn compared((partner, there): (&Subject, &Value), (board, here): (&Subject, &Value)) -> Result<Option<[Value; 2]>, Missing> {
    if there.field("plug") != here.field("plug") {
        return Ok(None);
    }
    let pins = |subject: &Subject, plug: &Value| {
        let unknown = || Missing { subject: Some(subject.clone()), what: Unknown::Field("plugs.pins") };
        plug.field("pins").cloned().ok_or_else(unknown)
    };
    Ok(Some([pins(partner, there)?, pins(board, here)?]))
}

fn judge(harness: &Harness) -> Verdict {
    match &harness.pins {
        None => Verdict::plain(Status::Tight),
        Some([there, here]) => {
            let status = if there == here { Status::Fits } else { Status::Mismatch };
            Verdict::of_words(status, Datum::Value(here.clone()), Datum::Value(there.clone()))
        }
    }
}

fn facts(harness: &Harness) -> Facts {
    let [there, here] = harness.pins.clone().map_or([None, None], |pins| pins.map(Some));
    let [partner, board] = &harness.read;
    let mut facts = vec![("partner", pins(partner, &harness.partner, there)), ("board", pins(board, &harness.board, here))];
    facts.extend(harness.pins.as_ref().map(differing).filter(|differing| !differing.is_empty()).map(|places| {
        let (title, formula) = ("pins that differ", "comparing both records place by place, from the mark on");
        let datum = Datum::Value(Value::List(places));
        let claim = Claim::Derived { subject: None, title, datum, formula, source: "both records" };
        ("differ", Because::plain(claim))
    }));
    facts
}

/// The places from 1 on at which the two ends differ.
fn differing([there, here]: &[Value; 2]) -> Vec<Value> {
    let (there, here) = (there.items(), here.items());
    let places = (0..there.len().max(here.len())).filter(|at| there.get(*at) != here.get(*at));
    places.filter_map(|at| i64::try_from(at + 1).ok().map(Value::Count)).collect()
}

fn pins(plugs: &Reading, subject: &Subject, pins: Option<Value>) -> Arc<Because> {
    plugs.inner(subject, "pins", Datum::Value(pins.unwrap_or_else(|| Value::Word("another plug".to_owned()))))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    const BOARD: &str = r#"plugs: [(to: "esc", plug: "8 pin", pins: ["VBAT", "GND"]), (to: "video", plug: "6 pin", pins: ["V+", "GND", "TX", "RX"])]"#;

    fn esc(record: &str) -> Vec<Status> {
        judged(&RULE, &[("Esc", record, ""), ("FlightController", BOARD, "")], "")
    }

    #[test]
    fn the_order_counts() {
        let plug =
            |pins: &str| [r#"channels: 4, plugs: [(to: "flight-controller", plug: "8 pin", pins: ["#, pins, "])]"].concat();
        assert_eq!(esc(&plug(r#""VBAT", "GND""#)), [Status::Fits]);
        assert_eq!(esc(&plug(r#""GND", "VBAT""#)), [Status::Mismatch]);
    }

    #[test]
    fn another_plug_wants_a_harness_of_its_own() {
        assert_eq!(esc(r#"channels: 4, plugs: [(to: "flight-controller", plug: "7 pin", pins: ["VBAT"])]"#), [Status::Tight]);
    }

    #[test]
    fn unpublished_is_unstated_but_no_plug_is_no_harness() {
        assert_eq!(esc("channels: 4"), [Status::Unstated]);
        assert_eq!(esc(r#"channels: 4, plugs: [(to: "flight-controller", plug: "8 pin")]"#), [Status::Unstated]);
        assert_eq!(esc("channels: 4, plugs: []"), []);
        assert_eq!(esc("channels: 1"), [], "single controllers are soldered wire by wire");
    }

    #[test]
    fn video_is_compared_when_it_has_a_plug() {
        let video = |record: &str| judged(&RULE, &[("VideoTransmitter", record, ""), ("FlightController", BOARD, "")], "");
        let plug = r#"plugs: [(to: "flight-controller", plug: "6 pin", pins: ["V+", "GND", "RX", "TX"])]"#;
        assert_eq!(video(plug), [Status::Mismatch]);
        assert_eq!(video(""), []);
    }
}
