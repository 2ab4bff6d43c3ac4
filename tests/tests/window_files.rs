//! Files in the window: catalogues and thresholds of the user's own, files that others change, and the help on it all.

#![expect(clippy::unwrap_used, reason = "a test that does not find its control has failed")]

use std::{fs, path::Path};

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::{Harness, kittest::Queryable as _};
use propwright::{
    state::{Cover, Document, Memory, Page},
    window::{Window, demo_build, sample_catalogue},
    worker::Worker,
};
use propwright_engine::{finding::Status, rules, thresholds};
use propwright_schema::{build_list::BuildList, load::load_build, slot::Slot};
use propwright_tests::{sample, scratch::Scratch};

fn window() -> Harness<'static, Window> {
    window_on(demo_build())
}

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

fn cover<'h>(harness: &'h Harness<'_, Window>) -> Option<&'h Cover> {
    harness.state().app().cover.as_ref()
}

fn press(harness: &mut Harness<'_, Window>, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

fn click(harness: &mut Harness<'_, Window>, name: &str) {
    harness.get_by_role_and_label(Role::Button, name).click_accesskit();
    harness.run();
}

/// Types into a field in the place of what it held.
fn fill(harness: &mut Harness<'_, Window>, field: &str, text: &str) {
    harness.get_by_role_and_label(Role::TextInput, field).focus();
    harness.run();
    press(harness, Modifiers::COMMAND, Key::A);
    harness.get_by_role_and_label(Role::TextInput, field).type_text(text);
    harness.run();
}

fn shows(harness: &Harness<'_, Window>, words: &str) -> bool {
    let find = |text: Option<String>| text.is_some_and(|text| text.contains(words));
    harness.root().query_all_by(|node| find(node.label()) || find(node.value())).next().is_some()
}

/// The window is left for another one and looked at again.
fn come_back(harness: &mut Harness<'_, Window>) {
    for focused in [false, true] {
        harness.input_mut().focused = focused;
        harness.run();
    }
}

/// Takes the next pack of the catalogue.
fn edit(harness: &mut Harness<'_, Window>) {
    let find = |label: String| label.starts_with("Pack, ");
    harness.get_by(|node| node.role() == Role::Button && node.label().is_some_and(find)).click();
    harness.run();
    press(harness, Modifiers::NONE, Key::ArrowDown);
    press(harness, Modifiers::NONE, Key::Enter);
    assert!(document(harness).is_edited());
}

fn opened(path: &Path) -> Harness<'static, Window> {
    let mut harness = window_on(BuildList::empty("New build"));
    harness.state_mut().read(path);
    harness.run();
    assert_eq!(document(&harness).path.as_deref(), Some(path));
    harness
}

/// The demo build's text under another name.
fn renamed(name: &str) -> String {
    let text = sample::demo_text();
    let was = format!("name: {:?}", sample::demo().name);
    assert!(text.contains(&was));
    text.replacen(&was, &format!("name: {name:?}"), 1)
}

fn lay_over(harness: &mut Harness<'_, Window>, path: &Path) {
    press(harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::O);
    fill(harness, "Path of a catalogue", path.to_str().unwrap());
    click(harness, "Add");
}

#[test]
fn a_catalogue_of_ones_own_shadows_and_is_left_out_again() {
    let scratch = Scratch::new("a_catalogue_of_ones_own_shadows_and_is_left_out_again");
    let mut harness = window();
    let fitted = document(&harness).build.fitted(Slot::Battery).next().unwrap().1.part.clone();
    let mass = document(&harness).bench.cells[0].value.clone();
    let own = format!(
        "(version: 1, parts: [(id: {fitted:?}, name: \"Own heavy pack\", mass_g: 999, fills: [Battery()]),
          (id: \"own-pack\", name: \"Own light pack\", mass_g: 9, fills: [Battery()])])"
    );
    let path = scratch.file("own.ron", own);
    lay_over(&mut harness, &path);
    assert!(shows(&harness, "2 parts · takes the place of 1: "));
    click(&mut harness, "Close");
    assert_ne!(document(&harness).bench.cells[0].value, mass, "the report follows the catalogue");
    assert!(!document(&harness).is_edited(), "the list is the same");
    assert_eq!(harness.state().app().memory.catalogues, std::slice::from_ref(&path), "remembered");

    fs::write(&path, "(version: 1, parts: [(id: \"own-pack\", name: \"Own light pack\", mas_g: 9, fills: [Battery()])])")
        .unwrap();
    come_back(&mut harness);
    assert!(shows(&harness, &format!("{}:1:", path.display())), "its place");
    press(&mut harness, Modifiers::NONE, Key::Escape);
    let pack = |harness: &Harness<'_, Window>| harness.state().app().catalogue.part(&fitted).unwrap().name.clone();
    assert_eq!(pack(&harness), "Own heavy pack", "what was in force stays");

    press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::O);
    assert!(shows(&harness, "as it was before these problems"));
    click(&mut harness, "Leave out");
    assert_ne!(pack(&harness), "Own heavy pack");
    assert_eq!(document(&harness).bench.cells[0].value, mass);
}

#[test]
fn a_catalogue_with_problems_is_not_taken_up() {
    let scratch = Scratch::new("a_catalogue_with_problems_is_not_taken_up");
    let path = scratch.file("torn.ron", "(version: 1, parts: [(id: \"x\", name: \"X\", fills: [Mast()])])");
    let mut harness = window();
    let before = harness.state().app().catalogue.parts().count();
    lay_over(&mut harness, &path);
    assert!(shows(&harness, &format!("{}:1:", path.display())));
    assert_eq!(harness.state().app().catalogue.parts().count(), before);
    assert!(harness.state().app().memory.catalogues.is_empty());
}

#[test]
fn thresholds_of_ones_own_change_findings() {
    let scratch = Scratch::new("thresholds_of_ones_own_change_findings");
    let path = scratch.file("policy.ron", "(version: 1, thresholds: [(name: \"tip-gap\", tight: 500, mismatch: 400)])");
    let mut harness = window();
    let tip_gap = |harness: &Harness<'_, Window>| {
        let report = document(harness).report().unwrap().clone();
        report.findings.iter().find(|finding| finding.rule == "tip-gap").unwrap().status()
    };
    assert_eq!(tip_gap(&harness), Status::Fits);
    press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::O);
    fill(&mut harness, "Path of a policy file", path.to_str().unwrap());
    click(&mut harness, "Judge by it");
    assert!(shows(&harness, "changes 1 threshold"));
    click(&mut harness, "Close");
    assert_eq!(tip_gap(&harness), Status::Mismatch);
    assert!(shows(&harness, "our own threshold"), "the finding says so");
    press(&mut harness, Modifiers::NONE, Key::F1);
    click(&mut harness, "Thresholds");
    fill(&mut harness, "Find in the help", "tip-gap");
    assert!(shows(&harness, "Your own threshold instead of"), "the help says so");
}

#[test]
fn the_help_on_a_rule_names_every_threshold_that_it_judges_by() {
    let mut harness = window();
    press(&mut harness, Modifiers::NONE, Key::F1);
    for rule in rules::ALL.iter().filter(|rule| !thresholds::of_rule(rule).is_empty()) {
        fill(&mut harness, "Find in the help", rule.id);
        let name = format!("{}, {} ·", rule.title, rule.id);
        let entry = |label: String| label.starts_with(&name);
        harness.get_by(|node| node.role() == Role::DisclosureTriangle && node.label().is_some_and(entry)).click_accesskit();
        harness.run();
        for threshold in thresholds::of_rule(rule) {
            assert!(shows(&harness, &format!("{threshold}: ")), "{}: {threshold}", rule.id);
        }
    }
}

#[test]
fn a_file_that_was_changed_is_not_overwritten_without_an_answer() {
    let scratch = Scratch::new("a_file_that_was_changed_is_not_overwritten_without_an_answer");
    let path = scratch.file("meadow.ron", renamed("Meadow"));
    let mut harness = opened(&path);
    edit(&mut harness);
    let mine = document(&harness).build.clone();
    let theirs = renamed("Ridge with a longer name");
    fs::write(&path, &theirs).unwrap();
    press(&mut harness, Modifiers::COMMAND, Key::S);
    assert!(matches!(cover(&harness), Some(Cover::Changed { .. })), "{:?}", cover(&harness));
    assert_eq!(fs::read_to_string(&path).unwrap(), theirs, "nothing was written yet");
    click(&mut harness, "Keep mine");
    assert_eq!(cover(&harness), None);
    let written = fs::read_to_string(&path).unwrap();
    assert_eq!(load_build("meadow.ron", &written).unwrap(), *mine);
    assert_eq!(scratch.holds()["meadow.ron.bak"], theirs.as_bytes(), "their state is kept beside it");
    assert!(!document(&harness).is_edited());
}

#[test]
fn what_others_wrote_can_be_taken_and_undone() {
    let scratch = Scratch::new("what_others_wrote_can_be_taken_and_undone");
    let path = scratch.file("meadow.ron", renamed("Meadow"));
    let mut harness = opened(&path);
    edit(&mut harness);
    let mine = document(&harness).build.clone();
    fs::write(&path, renamed("Ridge with a longer name")).unwrap();
    come_back(&mut harness);
    assert!(shows(&harness, "It differs in: "));
    click(&mut harness, "Take theirs");
    assert_eq!(document(&harness).build.name, "Ridge with a longer name");
    assert!(!document(&harness).is_edited());
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(document(&harness).build, mine, "nothing is lost");
    come_back(&mut harness);
    assert_eq!(cover(&harness), None, "asked once");
}

#[test]
fn a_file_that_is_gone_leaves_an_unsaved_build() {
    let scratch = Scratch::new("a_file_that_is_gone_leaves_an_unsaved_build");
    let path = scratch.file("meadow.ron", renamed("Meadow"));
    let mut harness = opened(&path);
    fs::remove_file(&path).unwrap();
    come_back(&mut harness);
    assert!(shows(&harness, "is gone from the disk"));
    press(&mut harness, Modifiers::NONE, Key::Escape);
    assert!(document(&harness).is_edited());
    press(&mut harness, Modifiers::COMMAND, Key::S);
    assert_eq!(cover(&harness), None);
    assert_eq!(load_build("meadow.ron", &fs::read_to_string(&path).unwrap()).unwrap(), *document(&harness).build);
}

#[test]
fn another_file_is_replaced_only_when_that_was_said() {
    let scratch = Scratch::new("another_file_is_replaced_only_when_that_was_said");
    let path = scratch.file("other.ron", "mine, not yours");
    let mut harness = window();
    press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    fill(&mut harness, "Path of the file", path.to_str().unwrap());
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert!(shows(&harness, "There is a file of this name"));
    assert_eq!(fs::read(&path).unwrap(), b"mine, not yours");
    click(&mut harness, "Replace");
    assert_eq!(cover(&harness), None);
    assert_eq!(load_build("other.ron", &fs::read_to_string(&path).unwrap()).unwrap(), *document(&harness).build);
    assert_eq!(scratch.holds()["other.ron.bak"], b"mine, not yours");
}

#[test]
fn two_documents_of_one_file_are_one() {
    let scratch = Scratch::new("two_documents_of_one_file_are_one");
    let path = scratch.file("meadow.ron", renamed("Meadow"));
    let mut harness = opened(&path);
    press(&mut harness, Modifiers::COMMAND, Key::N);
    assert_eq!(harness.state().app().documents.len(), 2);
    let detour = scratch.folder().join("..").join(scratch.folder().file_name().unwrap()).join("meadow.ron");
    harness.state_mut().read(&detour);
    harness.run();
    assert_eq!(harness.state().app().documents.len(), 2);
    assert_eq!(document(&harness).build.name, "Meadow");
    // Nor can the other one be saved over it.
    press(&mut harness, Modifiers::COMMAND, Key::Tab);
    press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    fill(&mut harness, "Path of the file", detour.to_str().unwrap());
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert!(shows(&harness, "This file is open as “Meadow”"));
}

#[test]
fn files_used_last_are_found() {
    let scratch = Scratch::new("files_used_last_are_found");
    let path = scratch.file("meadow-craft.ron", renamed("Meadow"));
    let mut harness = opened(&path);
    press(&mut harness, Modifiers::COMMAND, Key::W);
    press(&mut harness, Modifiers::COMMAND, Key::K);
    harness.get_by_role_and_label(Role::TextInput, "Find anything").type_text("meadow-craft");
    harness.run();
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(document(&harness).path.as_deref(), Some(&*path));
}

#[test]
fn the_help_is_searched_and_reached_from_a_finding() {
    let (file, text) = propwright_sample::FLAWED.iter().find(|(known, _)| *known == "motor-screw-length").unwrap();
    let mut harness = window_on(load_build(file, text).unwrap());
    click(&mut harness, "Rule motor-screw-length");
    assert!(shows(&harness, "screw length − arm − washers and pads ≤ thread depth"), "the formula");
    press(&mut harness, Modifiers::NONE, Key::Escape);
    press(&mut harness, Modifiers::NONE, Key::F1);
    fill(&mut harness, "Find in the help", "speed of the blade tips");
    let found = |harness: &Harness<'_, Window>| {
        harness
            .root()
            .query_all_by(|node| node.role() == Role::DisclosureTriangle && node.label().is_some_and(|l| l.contains("tip-mach")))
            .count()
    };
    assert_eq!(found(&harness), 1);
    click(&mut harness, "Keys");
    fill(&mut harness, "Find in the help", "Ctrl K");
    assert!(shows(&harness, "Find anything…"));
    click(&mut harness, "Cautions");
    fill(&mut harness, "Find in the help", "fire-safe");
    assert!(shows(&harness, "Charge under watch"));
}

#[test]
fn the_next_start_has_the_page_and_the_files_of_the_last() {
    let scratch = Scratch::new("the_next_start_has_the_page_and_the_files_of_the_last");
    let path = scratch.file("own.ron", "(version: 1, parts: [(id: \"own-pack\", name: \"Own pack\", fills: [Battery()])])");
    let policy = scratch.file("policy.ron", "(version: 1, thresholds: [(name: \"tip-gap\", tight: 500.0, mismatch: 400.0)])");
    let torn = scratch.file("torn.ron", "(version: 1, parts: [");
    let memory = Memory {
        page: Page::Flight,
        catalogues: vec![torn.clone(), path.clone()],
        policy: Some(policy.clone()),
        ..Memory::default()
    };
    let mut harness = Harness::builder().with_size(vec2(1280.0, 800.0)).with_max_steps(20).build_eframe(|cc| {
        let catalogue = sample_catalogue().unwrap();
        let mut window = Window::with_memory(cc, catalogue, Worker::Inline(Vec::new()), memory).unwrap();
        window.restore();
        window.open(demo_build());
        window
    });
    harness.run();
    let app = harness.state().app();
    assert_eq!(app.page, Page::Flight);
    assert!(app.catalogue.part("own-pack").is_some());
    assert_eq!(document(&harness).report().unwrap().count(Status::Mismatch), 1, "by the thresholds of the user's own");
    assert!(shows(&harness, &format!("{}:1:", torn.display())), "what cannot be read is told");
    assert_eq!(app.memory.catalogues, [torn, path], "and stays named");
    assert_eq!(app.memory.policy, Some(policy));
}
