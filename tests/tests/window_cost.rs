//! The page of costs as hands find it: the bill and its edits, kits, learning, builds side by side, shelf and rates.

#![expect(clippy::unwrap_used, reason = "a test that does not find its control has failed")]

use std::fs;

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::{
    Harness,
    kittest::{NodeT as _, Queryable as _},
};
use propwright::{
    state::{Document, Page},
    view::{BillView, Costing, beginnings},
    window::{Window, demo_build, sample_catalogue},
    worker::Worker,
};
use propwright_sample::{REFERENCE, SHELF};
use propwright_schema::{
    build_list::BuildList,
    load::{load_build, load_stock},
    slot::Slot,
};
use propwright_tests::scratch::Scratch;

fn reference(name: &str) -> BuildList {
    let text = REFERENCE.iter().find(|(known, _)| *known == name).unwrap().1;
    load_build(name, text).unwrap()
}

fn window_on(builds: Vec<BuildList>) -> Harness<'static, Window> {
    let mut harness = Harness::builder().with_size(vec2(1280.0, 800.0)).with_max_steps(20).build_eframe(|cc| {
        let mut window = Window::new(cc, sample_catalogue().unwrap(), Worker::Inline(Vec::new())).unwrap();
        for build in builds {
            window.open(build);
        }
        window
    });
    harness.run();
    press(&mut harness, Modifiers::COMMAND, Key::Num5);
    harness
}

fn document<'h>(harness: &'h Harness<'_, Window>) -> &'h Document {
    harness.state().app().shown().unwrap()
}

fn bill<'h>(harness: &'h Harness<'_, Window>) -> &'h BillView {
    &document(harness).bench.bill
}

fn press(harness: &mut Harness<'_, Window>, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

fn section(harness: &mut Harness<'_, Window>, words: &str) {
    harness.get_by_role_and_label(Role::Tab, words).click();
    harness.run();
}

fn click(harness: &mut Harness<'_, Window>, name: &str) {
    harness.get_by_role_and_label(Role::Button, name).click_accesskit();
    harness.run();
}

/// Types into a field in the place of what it held, and leaves it.
fn fill(harness: &mut Harness<'_, Window>, field: &str, text: &str) {
    harness.get_by_role_and_label(Role::TextInput, field).focus();
    harness.run();
    press(harness, Modifiers::COMMAND, Key::A);
    harness.get_by_role_and_label(Role::TextInput, field).type_text(text);
    harness.run();
    press(harness, Modifiers::NONE, Key::Enter);
}

fn shows(harness: &Harness<'_, Window>, words: &str) -> bool {
    let find = |text: Option<String>| text.is_some_and(|text| text.contains(words));
    harness.root().query_all_by(|node| find(node.label()) || find(node.value())).next().is_some()
}

#[test]
fn a_newcomer_reads_the_bill_against_the_budget() {
    let mut harness = window_on(vec![reference("micro-trainer-1in6")]);
    assert!(shows(&harness, "Left to pay") && shows(&harness, &bill(&harness).total.clone()));
    for supplier in bill(&harness).shipping_unsaid.clone() {
        assert!(shows(&harness, &format!("Shipping, {supplier}")), "{supplier}");
    }
    fill(&mut harness, "Budget", "300.00 EUR");
    assert_eq!(document(&harness).build.purpose.budget, "300.00 EUR".parse().ok());
    assert!(shows(&harness, "the budget of 300.00 EUR"));
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(document(&harness).build.purpose.budget, None);
}

#[test]
fn somebody_new_is_led_from_an_empty_build_to_a_craft_within_the_budget() {
    let mut harness = window_on(vec![demo_build()]);
    press(&mut harness, Modifiers::COMMAND, Key::N);
    assert_eq!(harness.state().app().page, Page::Purpose);
    assert!(shows(&harness, "Where to begin"));
    assert!(shows(&harness, "Price: no parts yet") && shows(&harness, "to choose"));
    assert!(!shows(&harness, "mismatch") && !shows(&harness, "tight,"), "nothing is chosen, so nothing conflicts");
    harness.get_by_role_and_label(Role::CheckBox, "Indoors").click();
    harness.run();
    fill(&mut harness, "Budget", "300 EUR");
    fill(&mut harness, "In the air", "0");
    assert!(shows(&harness, "with the kit"));
    assert!(shows(&harness, "over the budget") && shows(&harness, "not for indoors"));
    let offered = beginnings(harness.state().app(), &document(&harness).build);
    assert!(offered[0].against.is_empty() && offered[0].words.contains("a first craft"), "{:?}", offered[0]);
    let (name, price) = (offered[0].name.clone(), offered[0].price.clone());
    click(&mut harness, &name);
    let build = document(&harness).build.clone();
    assert_eq!((build.name.as_str(), build.purpose.indoors), (name.as_str(), Some(true)));
    assert_eq!(build.purpose.budget, "300.00 EUR".parse().ok(), "what was said stays");
    assert_eq!(bill(&harness).total, price, "the price offered is the price of the bill");
    assert!(build.parts.iter().all(|line| !line.owned), "somebody new owns nothing");
    assert!(shows(&harness, "over the budget"), "part by part it costs more than with the kit");
    let report = document(&harness).report().unwrap();
    assert!(report.findings.iter().all(|finding| !finding.forbids()));
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    let build = &document(&harness).build;
    assert!(build.parts.is_empty() && build.purpose.budget.is_some(), "only the parts are taken back");
}

#[test]
fn spares_shipping_and_taxes_are_edits() {
    let mut harness = window_on(vec![reference("micro-trainer-1in6")]);
    let before = bill(&harness).total.clone();
    click(&mut harness, "Take the usual spares");
    assert!(!document(&harness).build.spares.is_empty());
    let with_spares = bill(&harness).total.clone();
    assert_ne!(before, with_spares);
    fill(&mut harness, "Shipping of Quay Depot", "6.90 EUR");
    let minor = |total: &str| total.replace('.', "").trim_end_matches(" EUR").parse::<i64>().unwrap();
    assert_eq!(minor(&bill(&harness).total) - minor(&with_spares), 690);
    click(&mut harness, "Add a tax or duty");
    fill(&mut harness, "Amount of Tax", "10 %");
    let goods = minor(&with_spares);
    let rounded = (2 * goods * 10 + 100) / 200;
    assert_eq!(minor(&bill(&harness).total), goods + 690 + rounded, "half a unit away from zero");
    assert!(shows(&harness, "10 % of goods"));
    for _ in 0..4 {
        press(&mut harness, Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(bill(&harness).total, before);
    assert!(!document(&harness).is_edited());
}

#[test]
fn the_kit_question_turns_with_the_shelf() {
    let mut harness = window_on(vec![reference("micro-trainer-1in6")]);
    section(&mut harness, "Kit or separate");
    let answer = |harness: &Harness<'_, Window>| {
        let costed = &document(harness).costing[&harness.state().app().purse.section];
        let Some(Costing::Kits(kits)) = &costed.shown else { unreachable!("kits were worked out") };
        kits[0].clone()
    };
    let nothing = answer(&harness);
    assert!(nothing.goes && nothing.answer.to_lowercase().contains("the kit is"), "{}", nothing.answer);
    assert_eq!(nothing.bars.len(), 3);
    assert!(shows(&harness, "With the kit: ") && shows(&harness, "The same craft without it: "), "the bars are read out");
    section(&mut harness, "Shelf and rates");
    click(&mut harness, "Take the demo's shelf and rates");
    section(&mut harness, "Kit or separate");
    let owned = answer(&harness);
    assert!(owned.answer.contains("already owned") && owned.answer.contains("separate parts are"), "{}", owned.answer);
    assert!(owned.holds.iter().any(|(caption, words)| *caption == "Doubles with the shelf" && words.contains("Snug")));
}

#[test]
fn a_kit_that_was_bought_lies_on_the_shelf_and_so_does_what_one_owns() {
    let mut harness = window_on(vec![reference("micro-trainer-1in6")]);
    let before = bill(&harness).total.clone();
    section(&mut harness, "Shelf and rates");
    click(&mut harness, "I own a part…");
    let goggles = document(&harness).craft.in_slot(Slot::Goggles)[0].subject.part.name.clone();
    click(&mut harness, &format!("Goggles: {goggles}"));
    assert_ne!(bill(&harness).total, before, "they need not be bought");
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(bill(&harness).total, before);
    section(&mut harness, "Kit or separate");
    click(&mut harness, "I have bought it");
    let left = bill(&harness).total.clone();
    assert!(left != before && shows(&harness, "It holds nothing that this craft still needs"), "{left}");
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(bill(&harness).total, before);
}

#[test]
fn learning_follows_its_assumptions() {
    let mut harness = window_on(vec![demo_build(), reference("micro-trainer-1in6")]);
    section(&mut harness, "Learning");
    let course = |harness: &Harness<'_, Window>| {
        let costed = &document(harness).costing[&harness.state().app().purse.section];
        let Some(Costing::Course(course)) = &costed.shown else { unreachable!("the way was worked out") };
        course.clone()
    };
    assert_eq!(course(&harness).steps.len(), 1);
    fill(&mut harness, "Price of the simulator", "25.00 EUR");
    assert_eq!(course(&harness).simulator.1, "25.00 EUR");
    click(&mut harness, "Add a craft…");
    click(&mut harness, &demo_build().name);
    assert_eq!(course(&harness).steps.len(), 2);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(document(&harness).build.training, None);
}

#[test]
fn open_builds_stand_side_by_side() {
    let mut harness = window_on(vec![demo_build(), reference("micro-trainer-1in2"), reference("micro-trainer-1in6")]);
    section(&mut harness, "Compare");
    let compared = |harness: &Harness<'_, Window>| {
        let costed = &document(harness).costing[&harness.state().app().purse.section];
        let Some(Costing::Compared(compared)) = &costed.shown else { unreachable!("builds were compared") };
        compared.clone()
    };
    let all = compared(&harness);
    assert_eq!(all.names.len(), 3);
    assert!(all.parts.iter().any(|row| row.title == "Frame"));
    assert!(all.figures.iter().flat_map(|row| &row.each[1..]).any(|column| column.against == "within the bands"));
    assert!(all.figures[1].each[1..].iter().any(|column| column.against.starts_with(['+', '−'])), "masses differ");
    harness.get_by_role_and_label(Role::CheckBox, &demo_build().name).click();
    harness.run();
    assert_eq!(compared(&harness).names.len(), 2);
}

#[test]
fn a_craft_is_built_from_the_shelf_and_comes_back_to_it() {
    let scratch = Scratch::new("a_craft_is_built_from_the_shelf_and_comes_back_to_it");
    let path = scratch.file("shelf.ron", SHELF);
    let mut harness = window_on(vec![reference("micro-trainer-1in6")]);
    let bought = bill(&harness).total.clone();
    section(&mut harness, "Shelf and rates");
    fill(&mut harness, "Path of the shelf file", path.to_str().unwrap());
    assert_eq!(harness.state().app().memory.stock.as_deref(), Some(path.as_path()), "remembered");
    let drawn = bill(&harness).total.clone();
    assert_ne!(bought, drawn, "goggles, radio and a pack are drawn");
    click(&mut harness, "Hall trainer 1.6 in is built");
    assert_eq!(bill(&harness).total, "nothing");
    let stock = || load_stock("shelf.ron", &fs::read_to_string(&path).unwrap()).unwrap();
    let inside = |stock: &propwright_schema::stock::Stock| {
        let here = stock.items.iter().filter(|item| item.fitted_in.as_deref() == Some("Hall trainer 1.6 in"));
        here.cloned().collect::<Vec<_>>()
    };
    let built = inside(&stock());
    assert!(built.iter().any(|item| item.resistance_mohm.is_some()), "the measured pack is in the craft");
    assert!(fs::read_to_string(&path).unwrap().contains("kept for its bell"), "the rest of the file stays");
    click(&mut harness, "Hall trainer 1.6 in is taken apart");
    assert_eq!(inside(&stock()), []);
    click(&mut harness, "Take it back");
    assert_eq!(inside(&stock()), built);
    assert_eq!(bill(&harness).total, "nothing");
}

#[test]
fn a_shelf_that_somebody_changed_is_left_alone() {
    let scratch = Scratch::new("a_shelf_that_somebody_changed_is_left_alone");
    let path = scratch.file("shelf.ron", SHELF);
    let mut harness = window_on(vec![reference("micro-trainer-1in6")]);
    section(&mut harness, "Shelf and rates");
    fill(&mut harness, "Path of the shelf file", path.to_str().unwrap());
    let theirs = "(version: 1, items: [])";
    fs::write(&path, theirs).unwrap();
    click(&mut harness, "Hall trainer 1.6 in is built");
    assert!(shows(&harness, "was changed on the disk"));
    assert_eq!(fs::read_to_string(&path).unwrap(), theirs);
}

#[test]
fn currencies_join_by_a_rate_that_is_typed() {
    let text = r#"(version: 1, name: "Two", parts: [(slot: Goggles, part: "otterquay-shell"), (slot: Charger, part: "copperwhin-hexcell")])"#;
    let mut harness = window_on(vec![load_build("two", text).unwrap()]);
    assert!(shows(&harness, "they stay apart"));
    section(&mut harness, "Shelf and rates");
    fill(&mut harness, "A rate", "GBP EUR 1.17 2026-11-20");
    // 169.00 GBP at 1.17 are 197.73 EUR, and 45.00 EUR.
    assert_eq!(bill(&harness).total, "242.73 EUR");
    section(&mut harness, "Bill");
    assert!(shows(&harness, "169.00 GBP at 1.17 of 2026-11-20 are 197.73 EUR"));
}

#[test]
fn every_control_of_the_page_has_a_name() {
    let mut harness = window_on(vec![demo_build(), reference("micro-trainer-1in6")]);
    click(&mut harness, "Take the usual spares");
    click(&mut harness, "Add a tax or duty");
    let mut seen = 0;
    for words in ["Bill", "Kit or separate", "Learning", "Compare", "Shelf and rates"] {
        section(&mut harness, words);
        let used = [Role::Button, Role::TextInput, Role::CheckBox, Role::ComboBox, Role::SpinButton, Role::Tab];
        for control in harness.root().query_all_by(|node| used.contains(&node.role())) {
            let node = control.accesskit_node();
            let named = node.label().is_some_and(|label| !label.is_empty()) || node.labelled_by().next().is_some();
            assert!(named, "{words}: {:?} at {:?}", node.role(), control.rect());
            seen += 1;
        }
    }
    assert!(seen > 100, "the controls were found: {seen}");
}
