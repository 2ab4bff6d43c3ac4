//! The widgets as a keyboard, a mouse and a screen reader find them.
#![expect(clippy::unwrap_used, reason = "a test stops where something is missing")]

use egui::accesskit::Role as Spoken;
use egui::{Key, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use propwright::theme::{self, Theme};
use propwright::widget::Span;
use propwright::widget::drawing::{Emphasis, drawing};
use propwright::widget::ledger::{Cell, WIDE, ledger};
use propwright::widget::margin_bar::{Margin, margin_bar};
use propwright::widget::mark::{mark, mark_with_word};
use propwright_engine::drawing::{Drawing, Geometry, Role, Shape};
use propwright_engine::finding::Status;
use propwright_schema::slot::Slot;

const ALL: [Status; 4] = [Status::Fits, Status::Tight, Status::Mismatch, Status::Unstated];

fn harness<'a, S: 'a>(state: S, mut draw: impl FnMut(&mut egui::Ui, &mut S) + 'a) -> Harness<'a, S> {
    Harness::builder()
        .with_size(vec2(600.0, 400.0))
        .with_context_setup(|ctx| theme::install(ctx, &Theme::embedded().unwrap()))
        .build_ui_state(move |ui, state| draw(ui, state), state)
}

#[test]
fn every_mark_is_read_out_by_its_word() {
    let harness = harness((), |ui, ()| {
        for status in ALL {
            mark(ui, status);
        }
    });
    for status in ALL {
        harness.get_by_role_and_label(Spoken::Image, status.word());
    }
}

#[test]
fn a_mark_with_a_subject_is_one_line_of_text() {
    let harness = harness((), |ui, ()| {
        mark_with_word(ui, Status::Tight, "loaded cell");
        mark_with_word(ui, Status::Fits, "");
    });
    harness.get_by_label("tight · loaded cell");
    harness.get_by_label("fits");
}

#[test]
fn a_margin_bar_says_both_sides() {
    let harness = harness((), |ui, ()| {
        let margin = Margin {
            required: Span::exact(41.0),
            available: Span::exact(35.0),
            status: Status::Mismatch,
            required_words: "41 A pulled".to_owned(),
            available_words: "35 A it stands".to_owned(),
        };
        margin_bar(ui, &margin);
    });
    harness.get_by_label("mismatch: 35 A it stands, 41 A pulled");
}

#[test]
fn a_click_on_a_ledger_cell_is_told() {
    let cell = |caption: &str, value: &str| Cell { caption: caption.to_owned(), value: value.to_owned(), ..Cell::default() };
    let cells = [cell("Price", "389.50 EUR"), cell("Open", "1 mismatch")];
    let mut harness = harness(None, move |ui, clicked| {
        let responses = ledger(ui, &cells, &WIDE);
        if let Some(index) = responses.iter().position(egui::Response::clicked) {
            *clicked = Some(index);
        }
    });
    harness.get_by_label("Open: 1 mismatch").click();
    harness.run();
    assert_eq!(*harness.state(), Some(1));
}

fn two_parts() -> Drawing {
    let part = |slot: Slot, name: &str, x: f64| Shape {
        geometry: Geometry::Rect { min: [x - 10.0, -10.0], max: [x + 10.0, 10.0], corner: 0.0 },
        role: Role::Part,
        slot: Some(slot),
        name: name.to_owned(),
        stated: true,
    };
    Drawing {
        title: "From above".to_owned(),
        shapes: vec![part(Slot::Motor, "Motors, Quernby 2207", -30.0), part(Slot::Battery, "Pack, Ebbquist 6S 1300", 30.0)],
        notes: Vec::new(),
    }
}

fn two_parts_harness<'a>() -> Harness<'a, Option<Slot>> {
    harness(None, |ui, chosen| {
        let pointed = drawing(ui, vec2(500.0, 300.0), None, &two_parts(), &Emphasis::default());
        if pointed.chosen.is_some() {
            *chosen = pointed.chosen;
        }
    })
}

#[test]
fn arrow_keys_name_one_part_after_the_other() {
    let mut harness = two_parts_harness();
    let named = |harness: &Harness<'_, Option<Slot>>| {
        let node = harness.get_by_role_and_label(Spoken::Image, "From above");
        node.accesskit_node().value()
    };
    assert_eq!(named(&harness), None);
    harness.get_by_role_and_label(Spoken::Image, "From above").focus();
    harness.run();
    assert_eq!(named(&harness).as_deref(), Some("Motors, Quernby 2207"));
    for expected in ["Pack, Ebbquist 6S 1300", "Motors, Quernby 2207"] {
        harness.key_press(Key::ArrowRight);
        harness.run();
        assert_eq!(named(&harness).as_deref(), Some(expected));
    }
    harness.key_press(Key::ArrowLeft);
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(*harness.state(), Some(Slot::Battery));
}

#[test]
fn a_click_chooses_the_part_under_the_mouse() {
    let mut harness = two_parts_harness();
    let rect = harness.get_by_role_and_label(Spoken::Image, "From above").rect();
    // Both parts lie in the middle of the height below the heading, at the two ends of the width.
    let right = egui::pos2(rect.right() - 60.0, rect.center().y + 12.0);
    harness.hover_at(right);
    harness.run();
    harness.drag_at(right);
    harness.drop_at(right);
    harness.run();
    assert_eq!(*harness.state(), Some(Slot::Battery));
}
