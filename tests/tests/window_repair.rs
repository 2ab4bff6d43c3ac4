//! The way out in the window: from opening a file to no mismatch in at most two presses, taken back in as many.

#![expect(clippy::unwrap_used, reason = "a test that does not find its control has failed")]

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::{
    Harness,
    kittest::{NodeT as _, Queryable as _},
};
use propwright::{
    state::{Document, Mending, Page},
    window::{Window, sample_catalogue},
    worker::Worker,
};
use propwright_engine::{explain, finding::Status, working::COST};
use propwright_schema::build_list::BuildList;
use propwright_tests::{sample, scratch::Scratch};

fn window_on(build: BuildList) -> Harness<'static, Window> {
    let mut harness = Harness::builder().with_size(vec2(1280.0, 800.0)).with_max_steps(20).build_eframe(|cc| {
        let mut window = Window::new(cc, sample_catalogue().unwrap(), Worker::Inline(Vec::new())).unwrap();
        window.open(build);
        window
    });
    harness.run();
    harness
}

fn document<'h>(harness: &'h Harness<'_, Window>) -> &'h Document {
    harness.state().app().shown().unwrap()
}

fn mismatches(harness: &Harness<'_, Window>) -> usize {
    document(harness).report().unwrap().count(Status::Mismatch)
}

/// Presses the button of this name.
fn press(harness: &mut Harness<'_, Window>, name: &str) {
    let nodes: Vec<_> = harness.root().query_all_by(|node| node.label().as_deref() == Some(name)).collect();
    let button = nodes.iter().find(|node| node.accesskit_node().role() == Role::Button);
    button.ok_or_else(|| format!("no button {name}")).unwrap().click();
    harness.run();
}

/// The first way that the page offers: for all at once where there are several mismatches.
fn first_way(harness: &Harness<'_, Window>) -> String {
    let mended = &document(harness).bench.mended;
    let all = mended.sets.first().or_else(|| mended.of.values().flat_map(|known| &known.ways).next());
    all.unwrap().steps.clone()
}

#[test]
fn every_flawed_build_is_mended_in_two_presses_and_taken_back() {
    for (name, build) in sample::flawed() {
        let mut harness = window_on(build.clone());
        assert_eq!(harness.state().app().page, Page::Together);
        let mut presses = 0;
        while mismatches(&harness) > 0 {
            presses += 1;
            assert!(presses <= 2, "{name}");
            let way = first_way(&harness);
            press(&mut harness, &way);
            let last = document(&harness).past.last().unwrap();
            assert_eq!(last.label.to_lowercase(), way.to_lowercase(), "{name}: undo names it");
        }
        for _ in 0..presses {
            harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
            harness.run();
        }
        assert_eq!(*document(&harness).build, build, "{name}");
        assert!(mismatches(&harness) > 0);
    }
}

#[test]
fn the_conflict_is_said_in_a_sentence() {
    let (_, build) = sample::flawed().into_iter().find(|(name, _)| *name == "motor-screw-length").unwrap();
    let harness = window_on(build);
    let told = |beginning: &str| {
        let begins = |text: Option<String>| text.is_some_and(|text| text.starts_with(beginning));
        harness.root().query_all_by(|node| node.role() == Role::Label && begins(node.value().or(node.label()))).count()
    };
    assert_eq!(told("The Vellacre 2207 1750 KV, the M3 x 10 screws and the Tarnholt Fellrunner 5 are in each other's way"), 1);
    assert_eq!(told("Ways out, each tried on this list"), 1);
}

#[test]
fn a_sound_build_tries_nothing() {
    let harness = window_on(sample::demo());
    assert!(matches!(document(&harness).mending, Mending::Idle));
}

#[test]
fn a_figure_is_followed_down_from_the_ledger() {
    let mut harness = window_on(sample::demo());
    let cell = harness.root().query_all_by(|node| node.label().is_some_and(|label| label.starts_with("Calm flight: "))).next();
    cell.unwrap().click();
    harness.run();
    assert_eq!(document(&harness).followed, Some("time-calm"));
    let step = document(&harness).bench.working.as_ref().unwrap().because[0].clone();
    let text = explain::headline(&step);
    harness.get_by_role_and_label(Role::DisclosureTriangle, &text).click();
    harness.run();
    let below = explain::headline(&step.from[0]);
    let told =
        harness.root().query_all_by(|node| node.value().or(node.label()).is_some_and(|said| said.contains(&below))).count();
    assert!(told > 0, "{below}");
    press(&mut harness, "Close the working");
    assert_eq!(document(&harness).followed, None);
}

/// How often a text stands in the window, be it as a label's words or as a button's name.
fn stands(harness: &Harness<'_, Window>, text: &str) -> usize {
    harness.root().query_all_by(|node| node.value().or(node.label()).as_deref() == Some(text)).count()
}

#[test]
fn the_price_is_followed_down_like_the_other_figures() {
    let mut harness = window_on(sample::demo());
    let cell = |harness: &Harness<'_, Window>| {
        harness
            .root()
            .query_all_by(|node| node.label().is_some_and(|label| label.starts_with("Price: ")))
            .next()
            .unwrap()
            .click();
    };
    cell(&harness);
    harness.run();
    assert_eq!((harness.state().app().page, document(&harness).followed), (Page::Together, Some(COST)));
    let step = document(&harness).bench.working.as_ref().unwrap().because[0].clone();
    harness.get_by_role_and_label(Role::DisclosureTriangle, &explain::headline(&step)).click();
    harness.run();
    assert!(stands(&harness, &explain::headline(&step.from[0])) > 0);
    press(&mut harness, "To page Cost");
    assert_eq!(harness.state().app().page, Page::Cost);
    assert_eq!(stands(&harness, "How what is left to pay comes about"), 2, "the working stays, beside the sum that leads to it");
    press(&mut harness, "Close the working");
    // On its own page the sum opens there, and each line opens below itself.
    cell(&harness);
    harness.run();
    assert_eq!((harness.state().app().page, document(&harness).followed), (Page::Cost, Some(COST)));
    press(&mut harness, "Close the working");
    let row = document(&harness).bench.bill.groups[0].rows.iter().find(|row| row.because.is_some()).unwrap();
    let (name, because) = (format!("How the price of {} comes about", row.name), row.because.clone().unwrap());
    assert_eq!(stands(&harness, &explain::headline(&because)), 0);
    harness.root().query_all_by(|node| node.label().as_deref() == Some(&name)).next().unwrap().click_accesskit();
    harness.run();
    assert_eq!(stands(&harness, &explain::headline(&because)), 1);
}

/// Every figure of ledger, page Flight and page Cost opens its working.
#[test]
fn every_figure_shown_can_be_followed() {
    let mut harness = window_on(sample::demo());
    for (key, page) in [(Key::Num4, Page::Flight), (Key::Num5, Page::Cost)] {
        harness.key_press_modifiers(Modifiers::COMMAND, key);
        harness.run();
        let bench = &document(&harness).bench;
        let figures: Vec<String> = if page == Page::Flight {
            let flight = &bench.flight;
            let barriers = flight.barriers.iter().inspect(|barrier| assert!(barrier.worked, "{}", barrier.name));
            let ids = flight.times.iter().map(|time| time.id).chain(barriers.map(|barrier| barrier.id));
            ids.chain(flight.sure.iter().map(|sure| sure.id)).map(propwright::view::comes_about).collect()
        } else {
            let rows = bench.bill.groups.iter().flat_map(|group| &group.rows).filter(|row| row.because.is_some());
            let lines = rows.map(|row| format!("How the price of {} comes about", row.name));
            lines.chain([propwright::view::comes_about(COST)]).collect()
        };
        assert!(figures.len() > 5);
        for name in figures {
            assert!(harness.root().query_all_by(|node| node.label().as_deref() == Some(&name)).next().is_some(), "{name}");
        }
    }
}

#[test]
fn plugs_are_told_pin_by_pin() {
    let (_, build) = sample::flawed().into_iter().find(|(name, _)| *name == "harness-pin-order").unwrap();
    let harness = window_on(build);
    let card = document(&harness).bench.findings.open.iter().find(|card| card.rule == "harness-pin-order").unwrap().clone();
    let pins = card.pins.unwrap();
    assert!(pins.pins.iter().any(|pin| !pin.meets()));
    assert!([pins.board.0, pins.partner.0].iter().all(|slot| stands(&harness, slot.title()) > 0) && stands(&harness, "Pin") == 1);
    for pin in &pins.pins {
        assert!(stands(&harness, &pin.board) > 0 && stands(&harness, &pin.partner) > 0, "{pin:?}");
    }
}

/// A step that has the keys lights in the graph what it speaks of and rests on, and nothing else.
#[test]
fn the_graph_lights_what_a_step_rests_on() {
    let (_, build) = sample::flawed().into_iter().find(|(name, _)| *name == "motor-screw-length").unwrap();
    let mut harness = window_on(build);
    harness.root().query_all_by(|node| node.label().as_deref() == Some("Graph")).next().unwrap().click();
    harness.run();
    let lit = |harness: &Harness<'_, Window>, words: &str| {
        let begins = |text: Option<String>| text.is_some_and(|text| text.starts_with(words));
        harness.root().query_all_by(|node| begins(node.value().or(node.label()))).count()
    };
    assert!(lit(&harness, "lit: the path of ") > 0 && lit(&harness, "lit: what the step rests on") == 0);
    let card = document(&harness).bench.findings.open.iter().find(|card| card.rule == "motor-screw-length").unwrap().clone();
    let step = card.because.iter().find(|step| !step.from.is_empty()).unwrap();
    let told = document(&harness).bench.graph.as_ref().unwrap().picture.told(step);
    let picture = &document(&harness).bench.graph.as_ref().unwrap().picture;
    let keys: Vec<&str> = told.iter().map(|at| picture.dots[*at].key.as_str()).collect();
    for key in ["motor-screw", "motor-screw.length_mm", "frame.arm_thickness_mm", "screw-engagement"] {
        assert!(keys.contains(&key), "{key} of {keys:?}");
    }
    assert!(!keys.contains(&"motor.thread_depth_mm") && !keys.contains(&"motor-screw-length"), "{keys:?}");
    harness.get_by_role_and_label(Role::DisclosureTriangle, &explain::headline(step)).focus();
    harness.run();
    assert!(lit(&harness, "lit: the path of ") == 0 && lit(&harness, "lit: what the step rests on") > 0);
}

#[test]
fn the_graph_lights_the_path_of_a_finding_and_gives_way_to_the_craft() {
    let (_, build) = sample::flawed().into_iter().find(|(name, _)| *name == "motor-screw-length").unwrap();
    let mut harness = window_on(build);
    let buttons: Vec<_> = harness.root().query_all_by(|node| node.label().as_deref() == Some("Graph")).collect();
    buttons.first().unwrap().click();
    harness.run();
    let drawn = document(&harness).bench.graph.as_ref().unwrap();
    let lit: Vec<&str> = drawn.lit.iter().map(|at| drawn.picture.dots[*at].key.as_str()).collect();
    for key in ["motor-screw", "motor-screw.length_mm", "motor", "frame", "motor-screw-length"] {
        assert!(lit.contains(&key), "{key} of {lit:?}");
    }
    assert!(
        harness.root().query_all_by(|node| node.label().is_some_and(|label| label.starts_with("Graph of "))).next().is_some()
    );
    press(&mut harness, "Back to the craft");
    assert!(document(&harness).bench.graph.is_none());
}

#[test]
fn the_graph_is_saved_as_it_is_shown_and_replaces_nothing_unasked() {
    let scratch = Scratch::new("window-graph");
    let path = scratch.folder().join("graph.svg");
    let (_, build) = sample::flawed().into_iter().find(|(name, _)| *name == "motor-screw-length").unwrap();
    let mut harness = window_on(build);
    let buttons: Vec<_> = harness.root().query_all_by(|node| node.label().as_deref() == Some("Graph")).collect();
    buttons.first().unwrap().click();
    harness.run();
    press(&mut harness, "Save as SVG…");
    press(&mut harness, "Write");
    assert_eq!(document(&harness).graph_file.said, ["Type the path of the file to write."]);
    let field = harness.get_by_role_and_label(Role::TextInput, "Graph into file");
    field.focus();
    field.type_text(path.to_str().unwrap());
    harness.run();
    press(&mut harness, "Write");
    let text = std::fs::read_to_string(&path).unwrap();
    let drawn = document(&harness).bench.graph.as_ref().unwrap();
    let read = roxmltree::Document::parse(&text).unwrap();
    // A title for each node that is shown, none of those that were left out; the lit ones are bold.
    let titles = read.descendants().filter(|node| node.has_tag_name("title")).count();
    let bold = read.descendants().filter(|node| node.attribute("font-weight") == Some("bold")).count();
    assert_eq!((titles, bold), (drawn.picture.dots.len(), drawn.lit.len()));

    std::fs::write(&path, "mine").unwrap();
    press(&mut harness, "Write");
    assert!(document(&harness).graph_file.said[0].contains("there already"), "{:?}", document(&harness).graph_file.said);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "mine");
    press(&mut harness, "Write");
    assert_eq!(std::fs::read_to_string(&path).unwrap(), text);
}
