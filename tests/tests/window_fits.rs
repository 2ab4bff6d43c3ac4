//! The choice of a part in the window: rows with reasons and changes, what stands in, parts side by side, trying on.

#![expect(clippy::unwrap_used, reason = "a test that does not find its control has failed")]

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::{
    Harness,
    kittest::{NodeT as _, Queryable as _},
};
use propwright::{
    state::{Document, Look, Picker, Work},
    window::{Window, demo_build, sample_catalogue},
    worker::Worker,
};
use propwright_engine::finding::Status;
use propwright_schema::slot::Slot;

fn window() -> Harness<'static, Window> {
    let mut harness = Harness::builder().with_size(vec2(1280.0, 800.0)).with_max_steps(20).build_eframe(|cc| {
        let mut window = Window::new(cc, sample_catalogue().unwrap(), Worker::Inline(Vec::new())).unwrap();
        window.open(demo_build());
        window
    });
    harness.run();
    harness
}

fn document<'h>(harness: &'h Harness<'_, Window>) -> &'h Document {
    harness.state().app().shown().unwrap()
}

fn picker<'h>(harness: &'h Harness<'_, Window>) -> &'h Picker {
    document(harness).picker.as_ref().unwrap()
}

fn fitted(harness: &Harness<'_, Window>, slot: Slot) -> Vec<(String, u32)> {
    document(harness).build.fitted(slot).map(|(_, fitted)| (fitted.part.clone(), fitted.count)).collect()
}

/// Clicks the button whose label begins so.
fn click(harness: &mut Harness<'_, Window>, beginning: &str) {
    let find = |label: String| label.starts_with(beginning);
    let nodes: Vec<_> = harness.root().query_all_by(|node| node.label().is_some_and(find)).collect();
    let button = nodes.iter().find(|node| node.accesskit_node().role() == Role::Button);
    button.ok_or_else(|| format!("no button begins with {beginning}")).unwrap().click_accesskit();
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
fn every_row_says_its_status_and_why_or_what_changes() {
    let mut harness = window();
    click(&mut harness, "Motors ×4, ");
    let found = picker(&harness);
    assert_eq!(found.work, Work::Done);
    assert_eq!(found.found.len(), found.parts.len(), "all rows are judged, not only those in view");
    for fit in found.found.values() {
        assert_eq!(fit.status == Status::Mismatch, fit.why.first().is_some_and(|(status, _)| *status == Status::Mismatch));
    }
    for part in &found.parts {
        let row = propwright::view::candidate(part, document(&harness), found);
        let fit = &found.found[&part.id];
        match (fit.status, fit.fitted) {
            (_, true) => assert!(row.words.starts_with("fitted"), "{}", row.words),
            (Status::Mismatch, _) => assert!(!row.words.contains("none"), "{}", row.words),
            _ if fit.change.mass.is_none() => assert!(!row.words.is_empty()),
            _ => assert!(row.words.contains("mass ") || row.words.contains("no change"), "{}", row.words),
        }
    }
}

#[test]
fn a_part_is_tried_on_and_off_by_one_key() {
    let mut harness = window();
    let (before, figures) = (document(&harness).build.clone(), document(&harness).bench.cells.clone());
    click(&mut harness, "Pack, ");
    press(&mut harness, Modifiers::NONE, Key::ArrowDown);
    press(&mut harness, Modifiers::COMMAND, Key::T);
    assert!(shows(&harness, "On trial: "));
    assert_ne!(document(&harness).bench.cells[0].value, figures[0].value, "the ledger shows the trial");
    assert!(document(&harness).bench.cells[0].change.is_some(), "with its change");
    assert_eq!(document(&harness).build, before, "the list stays as it is");
    press(&mut harness, Modifiers::COMMAND, Key::T);
    assert!(!shows(&harness, "On trial: "));
    assert_eq!(document(&harness).bench.cells[0].value, figures[0].value);

    press(&mut harness, Modifiers::COMMAND, Key::T);
    click(&mut harness, "Keep it");
    assert_ne!(document(&harness).build, before);
    assert_eq!(document(&harness).past.len(), 1, "one step of undo");
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(*document(&harness).build, *before);
}

#[test]
fn a_burned_motor_is_replaced_alone_or_with_all_others() {
    let mut harness = window();
    let motors = fitted(&harness, Slot::Motor);
    click(&mut harness, "Motors ×4, ");
    click(&mut harness, "In its place");
    assert_eq!((picker(&harness).look, picker(&harness).stand_in_work), (Look::StandIns, Work::Done));
    let all = &picker(&harness).stand_ins;
    assert!(all[0].same && all.iter().all(|found| found.one.is_some()), "one of four, or all");
    assert!(shows(&harness, "Put in one "));
    let other = all.iter().find(|found| !found.same && found.all.goes()).unwrap();
    let (id, list) = (other.part.id.clone(), other.all.list().clone());
    let name = propwright::view::way_name(other, &other.all);
    click(&mut harness, &format!("Put in {name}"));
    assert_eq!(document(&harness).build.parts, list.parts, "with all that must follow");
    assert_eq!(fitted(&harness, Slot::Motor), [(id, 4)]);
    assert_eq!(document(&harness).report().unwrap().count(Status::Mismatch), 0);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(fitted(&harness, Slot::Motor), motors, "undone in one");
}

#[test]
fn four_parts_stand_side_by_side_and_one_is_picked() {
    let mut harness = window();
    click(&mut harness, "Pack, ");
    for _ in 0..5 {
        press(&mut harness, Modifiers::NONE, Key::ArrowDown);
        press(&mut harness, Modifiers::COMMAND, Key::B);
    }
    assert_eq!(picker(&harness).beside.len(), 4, "the first made room");
    click(&mut harness, "Side by side (4)");
    let table = propwright::view::table(document(&harness), picker(&harness));
    assert_eq!((table.columns.len(), table.columns[0].fitted), (5, true));
    assert!(table.columns.iter().all(|column| column.status.is_some() && !column.drawing.shapes.is_empty()));
    for line in table.figures.iter().chain(&table.record) {
        assert_eq!(line.cells.len(), 5, "{}", line.title);
        assert!(!line.cells[0].differs, "{}", line.title);
    }
    assert!(table.record.iter().all(|line| line.cells.iter().any(|cell| cell.differs)), "only what differs has a row");
    click(&mut harness, "Pick it");
    let picked = picker(&harness).beside[0].part.id.clone();
    assert_eq!(fitted(&harness, Slot::Battery)[0].0, picked);
}
