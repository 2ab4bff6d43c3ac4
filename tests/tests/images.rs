//! Pictures, drawn by a software graphics driver: `cargo test -p propwright-tests --features images --test images`.
//!
//! What the panels draw with is compared with pictures in `tests/tests/snapshots` (`UPDATE_SNAPSHOTS=1` renews them). Whole pages
//! follow the catalogue and the rules, so theirs are not kept: each is drawn twice, in light and dark, at 100 and 200 %, and
//! must come out the same to the last bit, with something on it.
#![cfg(feature = "images")]
#![expect(clippy::unwrap_used, reason = "a test that cannot draw has failed")]

use std::collections::BTreeSet;

use egui::{Theme as Look, Ui, vec2};
use egui_kittest::{Harness, SnapshotResults};
use propwright::{
    state::{Appearance, Memory, Page},
    theme::{self, GRID, Theme},
    widget::{
        Span,
        ledger::{Cell, WIDE, ledger},
        margin_bar::{Margin, margin_bar},
        mark::mark_with_word,
    },
    window::{Window, demo_build, sample_catalogue},
    worker::Worker,
};
use propwright_engine::finding::Status;

fn margin(ui: &mut Ui, status: Status, required: f64, available: f64) {
    let (required_words, available_words) = (format!("{required} A asked"), format!("{available} A there"));
    let (required, available) = (Span::exact(required), Span { low: available - 2.0, nominal: available, high: available + 2.0 });
    margin_bar(ui, &Margin { required, available, status, required_words, available_words });
}

/// Every mark, margin and figure, on the ground on which it stands.
fn all_widgets(ui: &mut Ui) {
    let tokens = theme::tokens(ui);
    egui::Frame::NONE.fill(tokens.paper).inner_margin(4.0 * GRID).show(ui, |ui| {
        ui.label(theme::title("Marks and margins"));
        for (status, required, available) in [
            (Status::Mismatch, 41.0, 35.0),
            (Status::Tight, 33.0, 35.0),
            (Status::Unstated, 30.0, 35.0),
            (Status::Fits, 20.0, 35.0),
        ] {
            mark_with_word(ui, status, "current through the speed controller");
            margin(ui, status, required, available);
        }
        let cell = |caption: &str, value: &str, change: Option<&str>| Cell {
            caption: caption.to_owned(),
            value: value.to_owned(),
            change: change.map(str::to_owned),
            ..Cell::default()
        };
        ledger(ui, &[cell("Take-off mass", "739 g", Some("+12 g")), cell("Price", "389.50 EUR", None)], &WIDE);
        ui.label(theme::sentence("The speed controller stands 35 A for 10 s; these motors pull 41 A."));
        ui.label(theme::caption("common practice, no source"));
    });
}

#[test]
fn widgets_look_as_they_did() {
    let mut all = SnapshotResults::new();
    for (look, name) in [(Look::Light, "widgets-light"), (Look::Dark, "widgets-dark")] {
        let setup = |ctx: &egui::Context| theme::install(ctx, &Theme::embedded().unwrap());
        let builder = Harness::builder().with_size(vec2(480.0, 360.0)).with_theme(look).with_context_setup(setup);
        let mut harness = builder.wgpu().build_ui(all_widgets);
        harness.run();
        // Another processor may round the last bit otherwise: the harness's usual tolerance, not none.
        harness.snapshot(name);
        all.extend_harness(&mut harness);
    }
}

fn drawn(page: Page, appearance: Appearance, scale: f32) -> (Vec<u8>, usize) {
    let memory = Memory { appearance, page, ..Memory::default() };
    let builder = Harness::builder().with_size(vec2(1280.0, 800.0)).with_pixels_per_point(scale).with_max_steps(60);
    let mut harness = builder.wgpu().build_eframe(|cc| {
        let mut window = Window::with_memory(cc, sample_catalogue().unwrap(), Worker::Inline(Vec::new()), memory).unwrap();
        window.open(demo_build());
        window
    });
    harness.run();
    let picture = harness.render().unwrap();
    let tones: BTreeSet<[u8; 4]> = picture.pixels().map(|pixel| pixel.0).collect();
    (picture.into_raw(), tones.len())
}

#[test]
fn every_page_is_drawn_the_same_twice() {
    for page in Page::ALL {
        let mut pictures = BTreeSet::new();
        for appearance in [Appearance::Light, Appearance::Dark] {
            for scale in [1.0, 2.0] {
                let (picture, tones) = drawn(page, appearance, scale);
                assert!(tones > 16, "{page:?} {appearance:?} at {scale}: nothing was drawn");
                assert!(picture == drawn(page, appearance, scale).0, "{page:?} {appearance:?} at {scale} differs");
                pictures.insert(picture);
            }
        }
        assert_eq!(pictures.len(), 4, "{page:?}: light and dark, 100 and 200 % differ");
    }
}
