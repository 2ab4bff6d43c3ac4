//! The page Paper, by role and label: what is shown, what is written, and what is refused.

#![expect(clippy::unwrap_used, reason = "a test that does not find its control has failed")]

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::{
    Harness,
    kittest::{NodeT as _, Queryable as _},
};
use propwright::{
    export::Kind,
    state::Page,
    window::{Window, demo_build, sample_catalogue},
    worker::Worker,
};
use propwright_tests::scratch::Scratch;

fn window() -> Harness<'static, Window> {
    let mut harness = Harness::builder().with_size(vec2(1280.0, 800.0)).with_max_steps(20).build_eframe(|cc| {
        let mut window = Window::new(cc, sample_catalogue().unwrap(), Worker::Inline(Vec::new())).unwrap();
        window.open(demo_build());
        window
    });
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Num6);
    harness.run();
    assert_eq!(harness.state().app().page, Page::Paper);
    harness
}

fn leaf(harness: &Harness<'_, Window>) -> String {
    let first = |node: &egui_kittest::kittest::AccessKitNode<'_>| {
        node.role() == Role::Image && node.label().is_some_and(|label| label.contains(", leaf 1 of "))
    };
    harness.root().query_all_by(first).next().unwrap().accesskit_node().label().unwrap()
}

fn type_path(harness: &mut Harness<'_, Window>, path: &str) {
    let field = harness.get_by(|node| node.role() == Role::TextInput);
    field.focus();
    field.type_text(path);
    harness.run();
}

fn click(harness: &mut Harness<'_, Window>, label: &str) {
    harness.get_by_role_and_label(Role::Button, label).click();
    harness.run();
}

fn said(harness: &Harness<'_, Window>) -> String {
    harness.state().app().shown().unwrap().paper.said.join("\n")
}

#[test]
fn each_document_is_shown_with_its_words() {
    let mut harness = window();
    let name = demo_build().name;
    for kind in Kind::ALL {
        click(&mut harness, kind.word());
        let label = leaf(&harness);
        assert!(label.starts_with(kind.word()) && label.contains(&name), "{label}");
    }
}

#[test]
fn an_edit_is_on_the_paper_at_once() {
    let mut harness = window();
    let before = leaf(&harness);
    harness.key_press(Key::F2);
    harness.run();
    harness.get_by_role_and_label(Role::TextInput, "Name").type_text(" of the ridge");
    harness.run();
    click(&mut harness, "Rename");
    assert!(!before.contains("of the ridge"));
    assert!(leaf(&harness).contains("of the ridge"), "{}", leaf(&harness));
}

#[test]
fn a_sheet_is_written_and_not_replaced_without_asking() {
    let scratch = Scratch::new("window-paper");
    let path = scratch.folder().join("sheet.pdf");
    let mut harness = window();
    type_path(&mut harness, path.to_str().unwrap());
    click(&mut harness, "Write");
    assert!(said(&harness).starts_with("Written: "), "{}", said(&harness));
    assert!(std::fs::read(&path).unwrap().starts_with(b"%PDF"));

    std::fs::write(&path, "mine").unwrap();
    click(&mut harness, "Write");
    assert!(said(&harness).contains("there already"), "{}", said(&harness));
    assert_eq!(std::fs::read(&path).unwrap(), b"mine");
    click(&mut harness, "Write");
    assert!(std::fs::read(&path).unwrap().starts_with(b"%PDF"));
}

#[test]
fn a_wrong_ending_says_which_there_are() {
    let scratch = Scratch::new("window-paper-ending");
    let mut harness = window();
    click(&mut harness, "Write");
    assert!(said(&harness).contains("Type the path"));
    type_path(&mut harness, scratch.folder().join("sheet.docx").to_str().unwrap());
    click(&mut harness, "Write");
    assert!(said(&harness).contains("pdf, svg, png"), "{}", said(&harness));
    assert!(scratch.holds().is_empty());
}
