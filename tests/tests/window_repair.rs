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
use propwright_engine::finding::Status;
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
    let text = propwright_engine::explain::headline(&step);
    harness.get_by_role_and_label(Role::DisclosureTriangle, &text).click();
    harness.run();
    let below = propwright_engine::explain::headline(&step.from[0]);
    let told =
        harness.root().query_all_by(|node| node.value().or(node.label()).is_some_and(|said| said.contains(&below))).count();
    assert!(told > 0, "{below}");
    press(&mut harness, "Close the working");
    assert_eq!(document(&harness).followed, None);
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
