//! Windows of every size: nothing fails in a small one, and what is asked can still be answered.

#![expect(clippy::unwrap_used, reason = "a test that cannot open its window has failed")]

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::{Harness, kittest::Queryable as _};
use propwright::{
    state::Page,
    window::{Window, demo_build, sample_catalogue},
    worker::Worker,
};

fn window(width: f32, height: f32) -> Harness<'static, Window> {
    let mut harness = Harness::builder().with_size(vec2(width, height)).with_max_steps(60).build_eframe(|cc| {
        let mut window = Window::new(cc, sample_catalogue().unwrap(), Worker::Inline(Vec::new())).unwrap();
        window.open(demo_build());
        window
    });
    harness.run();
    harness
}

fn press(harness: &mut Harness<'_, Window>, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

#[test]
fn every_page_and_cover_holds_in_a_small_window() {
    // 640 × 400 points: a screen of 1280 × 800 at 200 %.
    for (width, height) in [(640.0, 400.0), (960.0, 540.0), (300.0, 200.0)] {
        let mut harness = window(width, height);
        for (page, key) in
            Page::ALL.into_iter().zip([Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7])
        {
            press(&mut harness, Modifiers::COMMAND, key);
            assert_eq!(harness.state().app().page, page);
        }
        let (ctrl, shifted) = (Modifiers::COMMAND, Modifiers::COMMAND | Modifiers::SHIFT);
        for (modifiers, key) in [(ctrl, Key::K), (Modifiers::NONE, Key::F1), (shifted, Key::O), (ctrl, Key::O), (shifted, Key::S)]
        {
            press(&mut harness, modifiers, key);
            assert!(harness.state().app().cover.is_some(), "{key:?}");
            press(&mut harness, Modifiers::NONE, Key::Escape);
        }
        press(&mut harness, Modifiers::COMMAND, Key::Num2);
        press(&mut harness, Modifiers::COMMAND, Key::K);
        harness.get_by_role_and_label(Role::TextInput, "Find anything").type_text("propellers");
        harness.run();
        press(&mut harness, Modifiers::NONE, Key::Enter);
        assert!(harness.state().app().shown().unwrap().picker.is_some());
    }
}

#[test]
fn tabs_do_not_cover_one_another_at_200_percent() {
    let harness = window(640.0, 400.0);
    let mut right = 0.0;
    for page in Page::ALL {
        let tab = harness.get_by_role_and_label(Role::Button, page.word()).rect();
        assert!(tab.left() >= right && tab.right() <= 640.0, "{}: {tab:?}", page.word());
        right = tab.right();
    }
}
