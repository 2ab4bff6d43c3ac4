//! A build list's references to a catalogue: unknown ids and slots that a part does not fill, each in its place.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use propwright_schema::{
    build_list::BuildList,
    catalogue::Catalogue,
    load::{load_build, load_catalogue},
    validate::check_references,
};

fn catalogue() -> Catalogue {
    let text = "(version: 1, parts: [
        (id: \"quad-5\", name: \"Quad\", fills: [Frame()]),
        (id: \"bell-2207\", name: \"Bell\", fills: [Motor()]),
        (id: \"stubby\", name: \"Stubby\", fills: [Antenna()]),
        (id: \"both\", name: \"Both\", fills: [FlightController(), Receiver()]),
    ])";
    let mut catalogue = Catalogue::default();
    catalogue.lay_over(&load_catalogue("c.ron", text).unwrap());
    catalogue
}

fn problems(text: &str) -> Vec<String> {
    let build: BuildList = load_build("b.ron", text).unwrap();
    check_references(&build, text, "b.ron", &catalogue()).iter().map(ToString::to_string).collect()
}

#[test]
fn known_parts_in_their_slots() {
    let text = "(version: 1, name: \"B\", parts: [(slot: Frame, part: \"quad-5\"), (slot: AntennaVideo, part: \"stubby\"),
        (slot: AntennaControl, part: \"stubby\"), (slot: Receiver, part: \"both\"), (slot: FlightController, part: \"both\")])";
    assert!(problems(text).is_empty());
}

#[test]
fn unknown_ids_and_wrong_slots() {
    let text = "(version: 1, name: \"B\", parts: [
  // two frames
  (slot: Frame, part: \"qad-5\"),
  (slot: Motor, part: \"quad-5\"), (part: \"both\", slot: Esc),
  (slot: Motor, part: \"zeppelin\"),
])";
    let expected = [
        "b.ron:3:23: part \"qad-5\", field part: no catalogue holds a part \"qad-5\"\n    hint: did you mean \"quad-5\"?",
        "b.ron:4:10: part \"quad-5\", field slot: \"Quad\" (frame) does not fill the slot Motor\n    hint: it can fill Frame",
        "b.ron:4:55: part \"both\", field slot: \"Both\" (flight controller, receiver) does not fill the slot Esc\n    hint: it can fill FlightController, Receiver",
        "b.ron:5:23: part \"zeppelin\", field part: no catalogue holds a part \"zeppelin\"\n    hint: open the catalogue that holds it, or choose another part",
    ];
    assert_eq!(problems(text), expected);
}

#[test]
fn spares_are_parts_too() {
    let text = "(version: 1, name: \"B\", parts: [], spares: [(part: \"quad-5\", arm: true), (part: \"bell-2207\", arm: true),
 (part: \"bel-2207\", count: 2)])";
    let expected = [
        "b.ron:1:99: part \"bell-2207\", field arm: \"Bell\" is no frame and has no arms\n    hint: leave arm out, or name the frame",
        "b.ron:2:9: part \"bel-2207\", field part: no catalogue holds a part \"bel-2207\"\n    hint: did you mean \"bell-2207\"?",
    ];
    assert_eq!(problems(text), expected);
}

#[test]
fn an_empty_text_gives_no_place_but_the_problem() {
    let text = "(version: 1, name: \"B\", parts: [(slot: Frame, part: \"x\")])";
    let build = load_build("b.ron", text).unwrap();
    let found = check_references(&build, "", "b.ron", &catalogue());
    assert_eq!((found.len(), found[0].line, found[0].column), (1, 1, 1));
}
