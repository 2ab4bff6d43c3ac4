//! Every page walked through: each control has a name, and the Tab key comes to each.

#![expect(clippy::unwrap_used, reason = "a test that does not find its control has failed")]

use std::collections::BTreeSet;

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::{
    Harness, Node,
    kittest::{AccessKitNode, NodeT as _, Queryable as _},
};
use propwright::{
    state::Page,
    window::{Window, demo_build, sample_catalogue},
    worker::Worker,
};
use propwright_schema::{build_list::BuildList, load::load_build};

/// What can be used.
const USED: [Role; 8] = [
    Role::Button,
    Role::TextInput,
    Role::MultilineTextInput,
    Role::CheckBox,
    Role::ComboBox,
    Role::SpinButton,
    Role::Slider,
    Role::DisclosureTriangle,
];

fn window_on(build: BuildList) -> Harness<'static, Window> {
    let mut harness = Harness::builder().with_size(vec2(1280.0, 800.0)).with_max_steps(40).build_eframe(|cc| {
        let mut window = Window::new(cc, sample_catalogue().unwrap(), Worker::Inline(Vec::new())).unwrap();
        window.open(build);
        window
    });
    harness.run();
    harness
}

fn press(harness: &mut Harness<'_, Window>, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

/// A control as a person would point it out.
fn told(node: &Node<'_>) -> String {
    let (known, centre) = (node.accesskit_node(), node.rect().center());
    format!("{:?} “{}” at {:.0}, {:.0}", known.role(), known.label().unwrap_or_default(), centre.x, centre.y)
}

fn is_used(node: &AccessKitNode<'_>) -> bool {
    USED.contains(&node.role()) && !node.is_disabled()
}

fn names(harness: &Harness<'_, Window>, place: &str) {
    for node in harness.root().query_all_by(is_used) {
        let named = node.accesskit_node().label().is_some_and(|label| !label.trim().is_empty());
        assert!(named, "{place}: without a name: {}", told(&node));
    }
}

/// Walks with Tab until the keys come back to a control, and says what was not come to.
fn reach(harness: &mut Harness<'_, Window>, place: &str) {
    let all: BTreeSet<String> =
        harness.root().query_all_by(is_used).map(|node| format!("{:?}", node.accesskit_node().id())).collect();
    let mut seen = BTreeSet::new();
    for _ in 0..3 * all.len() + 20 {
        press(harness, Modifiers::NONE, Key::Tab);
        #[expect(clippy::redundant_closure_for_method_calls, reason = "the method itself is not general enough over lifetimes")]
        let focused = harness.root().query_all_by(|node| node.is_focused()).next();
        seen.extend(focused.map(|node| format!("{:?}", node.accesskit_node().id())));
        if all.is_subset(&seen) {
            return;
        }
    }
    let still = harness.root().query_all_by(is_used).filter(|node| !seen.contains(&format!("{:?}", node.accesskit_node().id())));
    let missed: Vec<String> = still.map(|node| told(&node)).collect();
    assert!(missed.is_empty(), "{place}: Tab does not come to {missed:#?}");
}

const KEYS: [Key; 7] = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7];

#[test]
fn every_control_of_every_page_has_a_name_and_is_reached_by_tab() {
    for (page, key) in Page::ALL.iter().zip(KEYS) {
        let mut harness = window_on(demo_build());
        press(&mut harness, Modifiers::COMMAND, key);
        assert_eq!(harness.state().app().page, *page);
        names(&harness, page.word());
        reach(&mut harness, page.word());
    }
}

#[test]
fn so_have_the_details_of_a_part() {
    let (file, text) = propwright_sample::FLAWED.iter().find(|(name, _)| *name == "video-supply").unwrap();
    for slot in ["Motors ×4, ", "Video transmitter, ", "Pack, ", "Frame, ", "Motor screws ×16, "] {
        let mut harness = window_on(load_build(file, text).unwrap());
        let row =
            |node: &AccessKitNode<'_>| node.role() == Role::Button && node.label().is_some_and(|label| label.starts_with(slot));
        harness.root().query_all_by(row).next().unwrap().click();
        harness.run();
        names(&harness, slot);
    }
}

#[test]
fn what_the_keys_come_to_is_in_sight() {
    let mut harness = window_on(demo_build());
    press(&mut harness, Modifiers::COMMAND, Key::Num1);
    let field = |harness: &Harness<'_, Window>| harness.get_by_role_and_label(Role::TextInput, "Mean wind").rect();
    harness.get_by_role_and_label(Role::TextInput, "Mean wind").focus();
    harness.run();
    harness.run();
    let ledger = harness.get_by_label_contains("Take-off mass: ").rect();
    assert!(field(&harness).bottom() <= ledger.top(), "{:?} above {:?}", field(&harness), ledger);
}
