//! The window as hands, keys and a screen reader find it: by role and label, without a screen.

#![expect(clippy::unwrap_used, reason = "a test that does not find its control has failed")]

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::{
    Harness,
    kittest::{NodeT as _, Queryable as _},
};
use propwright::{
    state::{Document, Page},
    window::{Window, demo_build, sample_catalogue},
    worker::Worker,
};
use propwright_engine::finding::Status;
use propwright_schema::{build_list::BuildList, load::load_build, slot::Slot};
use propwright_tests::scratch::Scratch;

fn window_on(build: BuildList) -> Harness<'static, Window> {
    let mut harness = Harness::builder().with_size(vec2(1280.0, 800.0)).with_max_steps(20).build_eframe(|cc| {
        let mut window = Window::new(cc, sample_catalogue().unwrap(), Worker::Inline(Vec::new())).unwrap();
        window.open(build);
        window
    });
    harness.run();
    harness
}

fn flawed(name: &str) -> BuildList {
    let (file, text) = propwright_sample::FLAWED.iter().find(|(known, _)| *known == name).unwrap();
    load_build(file, text).unwrap()
}

fn document<'h>(harness: &'h Harness<'_, Window>) -> &'h Document {
    harness.state().app().shown().unwrap()
}

fn part_in(harness: &Harness<'_, Window>, slot: Slot) -> String {
    document(harness).build.fitted(slot).next().unwrap().1.part.clone()
}

/// Clicks the button whose label begins so.
fn click(harness: &mut Harness<'_, Window>, beginning: &str) {
    let find = |label: String| label.starts_with(beginning);
    let nodes: Vec<_> = harness.root().query_all_by(|node| node.label().is_some_and(find)).collect();
    let button = nodes.iter().find(|node| node.accesskit_node().role() == Role::Button);
    button.ok_or_else(|| format!("no button begins with {beginning}")).unwrap().click();
    harness.run();
}

fn press(harness: &mut Harness<'_, Window>, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

/// Does a control's name or a text begin so?
fn shows(harness: &Harness<'_, Window>, beginning: &str) -> bool {
    let find = |words: Option<String>| words.is_some_and(|words| words.starts_with(beginning));
    harness.root().query_all_by(|node| find(node.label()) || find(node.value())).next().is_some()
}

#[test]
fn it_opens_on_the_demo_build() {
    let harness = window_on(demo_build());
    let build = demo_build();
    harness.get_by_role_and_label(Role::Button, &format!("Build {}: menu", build.name));
    for (fitted, title) in [(Slot::Frame, "Frame, "), (Slot::Motor, "Motors ×4, "), (Slot::Charger, "Charger, ")] {
        assert!(build.fitted(fitted).next().is_some());
        assert!(shows(&harness, title), "{title}");
    }
    harness.get_by_label("What stands in the way");
    for beginning in ["Take-off mass: ", "Price: ", "Calm flight: ", "Thrust to weight: ", "Open: "] {
        assert!(shows(&harness, beginning), "{beginning}");
    }
    assert!(document(&harness).is_current());
    harness.get_by_role_and_label(Role::Image, "From above");
}

#[test]
fn another_pack_changes_the_figures_and_undo_brings_them_back() {
    let mut harness = window_on(demo_build());
    let (fitted, cells) = (part_in(&harness, Slot::Battery), document(&harness).bench.cells.clone());
    click(&mut harness, "Pack, ");
    assert_eq!(harness.state().app().page, Page::Parts);
    // The field for the filter has the keys: the next row, taken with Enter.
    harness.get_by_role_and_label(Role::TextInput, "Filter");
    press(&mut harness, Modifiers::NONE, Key::ArrowDown);
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_ne!(part_in(&harness, Slot::Battery), fitted);
    let changed = document(&harness).bench.cells.clone();
    assert_ne!(changed[0].value, cells[0].value, "the take-off mass");
    assert!(changed[0].change.as_ref().unwrap().starts_with(['+', '−']), "{:?}", changed[0].change);
    assert!(document(&harness).is_edited());
    assert!(shows(&harness, "Build Freestyle 5 in edited"));

    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(part_in(&harness, Slot::Battery), fitted);
    assert_eq!(document(&harness).bench.cells[0].value, cells[0].value);
    assert!(!document(&harness).is_edited());
    press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    assert_eq!(document(&harness).bench.cells[0].value, changed[0].value);
}

#[test]
fn a_break_is_shown_and_mended_from_its_finding() {
    let mut harness = window_on(flawed("motor-screw-length"));
    assert_eq!(document(&harness).report().unwrap().count(Status::Mismatch), 1);
    assert!(shows(&harness, "mismatch · "));
    assert!(shows(&harness, "Open: 1 mismatch"));
    click(&mut harness, "Change motor screws");
    let filter = harness.get_by_role_and_label(Role::TextInput, "Filter");
    filter.type_text("M3 x 8");
    harness.run();
    assert!(document(&harness).picker.as_ref().unwrap().parts.iter().all(|part| part.name.contains("M3 x 8")));
    click(&mut harness, "M3 x 8");
    assert_eq!(document(&harness).report().unwrap().count(Status::Mismatch), 0);
    assert!(!shows(&harness, "Open: 1 mismatch"), "the ledger follows");
}

#[test]
fn what_does_not_fit_says_why_in_its_row() {
    let mut harness = window_on(demo_build());
    click(&mut harness, "Motor screws ×16, ");
    let picker = document(&harness).picker.as_ref().unwrap();
    let unfit = picker.found.values().filter(|fit| fit.status == Status::Mismatch).inspect(|fit| assert!(!fit.why.is_empty()));
    assert!(unfit.count() > 0, "some screw of the catalogue is too long");
}

#[test]
fn a_saved_build_reads_as_it_was() {
    let scratch = Scratch::new("a_saved_build_reads_as_it_was");
    let path = scratch.folder().join("meadow.ron");
    let mut harness = window_on(demo_build());
    click(&mut harness, "Pack, ");
    press(&mut harness, Modifiers::NONE, Key::ArrowDown);
    press(&mut harness, Modifiers::NONE, Key::Enter);
    press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    let field = harness.get_by_role_and_label(Role::TextInput, "Path of the file");
    field.focus();
    harness.run();
    press(&mut harness, Modifiers::COMMAND, Key::A);
    harness.get_by_role_and_label(Role::TextInput, "Path of the file").type_text(path.to_str().unwrap());
    harness.run();
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert!(harness.state().app().cover.is_none(), "{:?}", harness.state().app().cover);
    assert!(!document(&harness).is_edited());
    let build = document(&harness).build.clone();
    drop(harness);

    let mut again = window_on(BuildList::empty("New build"));
    again.state_mut().read(&path);
    again.run();
    assert_eq!(*document(&again).build, *build);
    assert_eq!(again.state().app().documents.len(), 1, "the empty build gave way");
}

#[test]
fn a_file_with_problems_is_refused_with_all_of_them() {
    let scratch = Scratch::new("a_file_with_problems_is_refused_with_all_of_them");
    let path =
        scratch.file("bad.ron", "(version: 1, name: \"Bad\", parts: [(slot: Nose, part: \"x\"), (slot: Frame, prt: \"y\")])");
    let mut harness = window_on(demo_build());
    harness.state_mut().read(&path);
    harness.run();
    assert!(shows(&harness, &format!("{} was not opened", path.display())));
    assert_eq!(document(&harness).build.name, demo_build().name);
    press(&mut harness, Modifiers::NONE, Key::Escape);
    assert!(harness.state().app().cover.is_none());
}

#[test]
fn an_unsaved_build_is_not_closed_without_a_question() {
    let mut harness = window_on(demo_build());
    click(&mut harness, "Pack, ");
    press(&mut harness, Modifiers::NONE, Key::ArrowDown);
    press(&mut harness, Modifiers::NONE, Key::Enter);
    press(&mut harness, Modifiers::COMMAND, Key::W);
    assert!(shows(&harness, "Freestyle 5 in is not saved"));
    click(&mut harness, "Stay");
    assert!(document(&harness).is_edited());
    press(&mut harness, Modifiers::COMMAND, Key::W);
    click(&mut harness, "Discard");
    assert_eq!(document(&harness).build.name, "New build");
}

#[test]
fn anything_is_found_and_done_by_keys_alone() {
    let mut harness = window_on(demo_build());
    press(&mut harness, Modifiers::COMMAND, Key::K);
    harness.get_by_role_and_label(Role::TextInput, "Find anything").type_text("propellers");
    harness.run();
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(document(&harness).picker.as_ref().unwrap().place.slot, Slot::Propeller);
    press(&mut harness, Modifiers::NONE, Key::Escape);
    assert!(document(&harness).picker.is_none());
    press(&mut harness, Modifiers::COMMAND, Key::Num3);
    assert_eq!(harness.state().app().page, Page::Together);
    press(&mut harness, Modifiers::COMMAND, Key::N);
    assert_eq!(harness.state().app().documents.len(), 2);
    press(&mut harness, Modifiers::COMMAND, Key::Tab);
    assert_eq!(document(&harness).build.name, demo_build().name);
}

#[test]
fn a_new_build_asks_for_its_parts_one_by_one() {
    let mut harness = window_on(BuildList::empty("New build"));
    assert!(shows(&harness, "Take-off mass: unknown"));
    click(&mut harness, "Frame, choose…");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(document(&harness).build.parts.len(), 1);
    click(&mut harness, "Motors, choose…");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    let motors = document(&harness).build.fitted(Slot::Motor).next().unwrap().1.count;
    let frame = document(&harness).craft.in_slot(Slot::Frame)[0].subject.part.clone();
    let places = frame.role(Slot::Frame).unwrap().get("motors").map_or(1, |places| places.items().len());
    assert_eq!(usize::try_from(motors).unwrap(), places);
}

#[test]
fn light_and_dark_change_places() {
    let mut harness = window_on(demo_build());
    let before = harness.ctx.theme();
    press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::L);
    harness.run();
    assert_ne!(harness.ctx.theme(), before);
    press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::L);
    harness.run();
    assert_eq!(harness.ctx.theme(), before);
}

#[test]
fn a_reason_opens_step_by_step() {
    let mut harness = window_on(flawed("video-supply"));
    let step = "Brindlecrag Lanternglass set, camera and transmitter: volts fed at full charge 25.2 V";
    let lines = |harness: &Harness<'_, Window>| {
        let told = [Role::Label, Role::DisclosureTriangle];
        harness.root().query_all_by(|node| told.contains(&node.role())).count()
    };
    let closed = lines(&harness);
    harness.get_by_role_and_label(Role::DisclosureTriangle, step).click();
    harness.run();
    assert!(lines(&harness) >= closed + 2, "its formula, and at least one step below");
    harness.get_by_role_and_label(Role::DisclosureTriangle, step).click();
    harness.run();
    assert_eq!(lines(&harness), closed);
}

/// Controls that are used must have a name.
#[test]
fn every_control_has_a_name() {
    let mut harness = window_on(flawed("video-supply"));
    let mut seen = 0;
    for open in ["", "Video transmitter, ", "Build "] {
        if !open.is_empty() {
            click(&mut harness, open);
        }
        let used = [Role::Button, Role::TextInput, Role::CheckBox, Role::ComboBox, Role::SpinButton, Role::DisclosureTriangle];
        let controls = harness.root().query_all_by(|node| used.contains(&node.role()));
        for control in controls {
            let node = control.accesskit_node();
            let named = node.label().is_some_and(|label| !label.is_empty()) || node.labelled_by().next().is_some();
            assert!(named, "{:?} at {:?}", node.role(), control.rect());
            seen += 1;
        }
    }
    assert!(seen > 60, "the controls were found: {seen}");
}
