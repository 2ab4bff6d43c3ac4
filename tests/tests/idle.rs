//! A window that waits asks for no further frame: on every page, under every cover, with and without a mouse over it.

#![expect(clippy::unwrap_used, reason = "a test that cannot open its window has failed")]

use std::time::Duration;

use egui::{Key, Modifiers, pos2, vec2};
use egui_kittest::Harness;
use propwright::{
    state::Page,
    window::{Window, demo_build, sample_catalogue},
    worker::Worker,
};

fn window() -> Harness<'static, Window> {
    let mut harness = Harness::builder().with_size(vec2(1280.0, 800.0)).with_max_steps(60).build_eframe(|cc| {
        let mut window = Window::new(cc, sample_catalogue().unwrap(), Worker::Inline(Vec::new())).unwrap();
        window.open(demo_build());
        window
    });
    harness.run();
    harness
}

/// How soon another frame is asked for once all has settled.
fn next_frame(harness: &mut Harness<'_, Window>) -> Duration {
    harness.run();
    // Whatever comes of the last frame has a second one.
    harness.run_steps(2);
    harness.output().viewport_output.values().map(|viewport| viewport.repaint_delay).min().unwrap()
}

fn press(harness: &mut Harness<'_, Window>, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

#[test]
fn every_page_rests() {
    let mut harness = window();
    let keys = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7];
    for (page, key) in Page::ALL.into_iter().zip(keys) {
        press(&mut harness, Modifiers::COMMAND, key);
        assert_eq!(harness.state().app().page, page);
        assert_eq!(next_frame(&mut harness), Duration::MAX, "{page:?}");
        // Over the list of parts, the drawing, and what stands beside it. A hover text waits a moment, then it rests too.
        for x in [100.0, 600.0, 1100.0] {
            harness.hover_at(pos2(x, 300.0));
            harness.run();
            harness.run_steps(40);
            assert_eq!(next_frame(&mut harness), Duration::MAX, "{page:?}, the mouse at {x}");
        }
    }
}

#[test]
fn a_choice_rests_with_the_cursor_in_its_filter() {
    let mut harness = window();
    press(&mut harness, Modifiers::COMMAND, Key::K);
    assert_eq!(next_frame(&mut harness), Duration::MAX, "finder");
    for letter in ["p", "r", "o", "p"] {
        harness.event(egui::Event::Text(letter.to_owned()));
        harness.run();
    }
    assert_eq!(next_frame(&mut harness), Duration::MAX, "finder with words");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert!(harness.state().app().shown().unwrap().picker.is_some(), "the propellers");
    assert_eq!(next_frame(&mut harness), Duration::MAX, "picker");
}

#[test]
fn every_cover_rests() {
    let mut harness = window();
    let (ctrl, shifted) = (Modifiers::COMMAND, Modifiers::COMMAND | Modifiers::SHIFT);
    for (modifiers, key) in [(Modifiers::NONE, Key::F1), (shifted, Key::O), (ctrl, Key::O), (shifted, Key::S)] {
        press(&mut harness, modifiers, key);
        assert!(harness.state().app().cover.is_some(), "{key:?}");
        assert_eq!(next_frame(&mut harness), Duration::MAX, "{key:?}");
        press(&mut harness, Modifiers::NONE, Key::Escape);
    }
}
