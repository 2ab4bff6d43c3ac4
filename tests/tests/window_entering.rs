//! Entering parts and kits in the window: forms made from the records, what is wrong said as one types, files changed by record,
//! undo of it all.

#![expect(clippy::unwrap_used, reason = "a test that does not find its control has failed")]

use std::{fs, path::Path};

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::{
    Harness,
    kittest::{NodeT as _, Queryable as _},
};
use propwright::{
    command::Command,
    run_command::{
        entering::Enter,
        importing::{RowsOf, Table},
    },
    state::Page,
    window::{Window, demo_build, sample_catalogue},
    worker::Worker,
};
use propwright_schema::{build_list::BuildList, load::load_catalogue};
use propwright_tests::scratch::Scratch;

fn window_on(build: BuildList) -> Harness<'static, Window> {
    let mut harness = Harness::builder().with_size(vec2(1280.0, 2400.0)).with_max_steps(20).build_eframe(|cc| {
        let mut window = Window::new(cc, sample_catalogue().unwrap(), Worker::Inline(Vec::new())).unwrap();
        window.open(build);
        window
    });
    harness.run();
    harness
}

fn click(harness: &mut Harness<'_, Window>, name: &str) {
    harness.get_by_role_and_label(Role::Button, name).click_accesskit();
    harness.run();
}

fn press(harness: &mut Harness<'_, Window>, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

/// Types into a field in the place of what it held, and leaves it.
fn fill(harness: &mut Harness<'_, Window>, field: &str, text: &str) {
    harness.get_by_role_and_label(Role::TextInput, field).focus();
    harness.run();
    press(harness, Modifiers::COMMAND, Key::A);
    harness.get_by_role_and_label(Role::TextInput, field).type_text(text);
    harness.run();
    press(harness, Modifiers::NONE, Key::Tab);
}

fn shows(harness: &Harness<'_, Window>, words: &str) -> bool {
    let find = |text: Option<String>| text.is_some_and(|text| text.contains(words));
    harness.root().query_all_by(|node| find(node.label()) || find(node.value())).next().is_some()
}

/// Opens the form of a kind by the finder, into a file.
fn form(harness: &mut Harness<'_, Window>, kind: &str, into: &Path) {
    press(harness, Modifiers::COMMAND, Key::K);
    harness.get_by_role_and_label(Role::TextInput, "Find anything").type_text(&format!("enter new {kind}"));
    harness.run();
    press(harness, Modifiers::NONE, Key::Enter);
    assert_eq!(harness.state().app().page, Page::Parts);
    fill(harness, "Catalogue", &into.display().to_string());
}

/// Opens what pages seldom print.
fn open_fold(harness: &mut Harness<'_, Window>) {
    let is_it = |label: String| label.starts_with("Seldom published");
    harness.get_by(|node| node.role() == Role::DisclosureTriangle && node.label().is_some_and(is_it)).click_accesskit();
    harness.run();
}

fn has(harness: &Harness<'_, Window>, id: &str) -> bool {
    harness.state().app().catalogue.part(id).is_some()
}

#[test]
fn a_motor_of_a_shop_page_is_entered_kept_taken_back_and_done_again() {
    let scratch = Scratch::new("entered motor");
    let file = scratch.folder().join("parts.ron");
    let mut harness = window_on(demo_build());
    form(&mut harness, "motor", &file);
    for (field, text) in [
        ("Name", "Quernby 2306 Moorhen"),
        ("Maker", "Quernby"),
        ("Mass", "1.13 oz"),
        ("KV", "1820"),
        ("Stator diameter", "23"),
        ("Stator height", "6"),
        ("Price", "17,90 €"),
    ] {
        fill(&mut harness, field, text);
    }
    open_fold(&mut harness);
    fill(&mut harness, "Priced on", "14.11.2026");
    assert!(shows(&harness, "= 32.035 g"), "what an ounce comes to is said");
    press(&mut harness, Modifiers::COMMAND, Key::S);
    assert!(harness.state().app().entering.is_none(), "kept");
    let id = "quernby-2306-moorhen";
    let held = load_catalogue("parts.ron", &fs::read_to_string(&file).unwrap()).unwrap();
    let part = &held.parts[0];
    assert_eq!((part.id.as_str(), part.price.unwrap().to_string().as_str()), (id, "17.90 EUR"));
    assert_eq!(part.typed.get("mass_g").map(String::as_str), Some("1.13 oz"));
    assert!(has(&harness, id));
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert!(!has(&harness, id));
    press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    assert!(has(&harness, id));
}

#[test]
fn what_is_wrong_is_said_and_nothing_is_written() {
    let scratch = Scratch::new("entered wrongly");
    let file = scratch.folder().join("parts.ron");
    let mut harness = window_on(demo_build());
    form(&mut harness, "motor", &file);
    fill(&mut harness, "Stator diameter", "0.87");
    assert!(shows(&harness, "0.87 mm is not plausible"));
    click(&mut harness, "Keep");
    assert!(harness.state().app().entering.is_some());
    assert!(shows(&harness, "Not kept yet:"));
    assert!(!file.exists());
    fill(&mut harness, "Stator diameter", "0.87 in");
    fill(&mut harness, "Name", "Quernby 22");
    click(&mut harness, "Keep");
    assert!(file.exists() && harness.state().app().entering.is_none());
}

#[test]
fn a_change_of_a_part_says_what_it_does_to_the_build_and_reaches_it() {
    let scratch = Scratch::new("changed part");
    let file = scratch.file("own.ron", "// my parts\n(version: 1, parts: [\n    // a scale of my own\n    (id: \"scale\", name: \"Scale\", fills: [Strap()]),\n])\n");
    let before = fs::read_to_string(&file).unwrap();
    let mut harness = window_on(demo_build());
    let motor = demo_build().parts.iter().find(|line| line.slot == propwright_schema::slot::Slot::Motor).unwrap().part.clone();
    let mass = |harness: &Harness<'_, Window>| harness.state().app().catalogue.part(&motor).unwrap().mass_g.unwrap().to_string();
    let was = mass(&harness);
    harness.state_mut().command(Command::LayOver(file.clone()));
    harness.state_mut().command(Command::Enter(Enter::Part(motor.clone())));
    harness.run();
    assert!(shows(&harness, "yours takes its place"));
    fill(&mut harness, "Mass", "60");
    let name = demo_build().name;
    let found = &harness.state().app().entering.as_ref().unwrap().uses.found;
    assert_eq!(found.iter().map(|used| used.build.as_str()).collect::<Vec<_>>(), [name.as_str()]);
    assert!(
        found[0].change.mass.is_some_and(|delta| delta.by.decimals()[1] > 100.0),
        "four motors of 60 g weigh over 100 g more"
    );
    assert_eq!(mass(&harness), was, "nothing is in force before it is kept");
    click(&mut harness, "Keep");
    assert_eq!(mass(&harness), "60 g");
    let now = fs::read_to_string(&file).unwrap();
    assert!(now.contains("// my parts") && now.contains("// a scale of my own"), "{now}");
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(mass(&harness), was);
    assert_eq!(fs::read_to_string(&file).unwrap(), before, "byte for byte");
}

#[test]
fn a_record_that_somebody_else_changed_is_left_alone() {
    let scratch = Scratch::new("changed meanwhile");
    let text = |name: &str| format!("(version: 1, parts: [(id: \"own\", name: \"{name}\", fills: [Strap()])])");
    let file = scratch.file("own.ron", text("Strap"));
    let mut harness = window_on(demo_build());
    harness.state_mut().command(Command::LayOver(file.clone()));
    harness.state_mut().command(Command::Enter(Enter::Part("own".to_owned())));
    harness.run();
    fill(&mut harness, "Name", "Mine");
    fs::write(&file, text("Theirs")).unwrap();
    click(&mut harness, "Keep");
    assert!(shows(&harness, "changed in the file since the form was opened"));
    assert_eq!(fs::read_to_string(&file).unwrap(), text("Theirs"));
    assert_eq!(harness.state().app().entering.as_ref().unwrap().article.name(), "Mine", "nothing typed is lost");
}

#[test]
fn a_form_is_not_closed_without_a_word() {
    let mut harness = window_on(demo_build());
    harness.state_mut().command(Command::Enter(Enter::New("strap")));
    harness.run();
    fill(&mut harness, "Name", "Long strap");
    click(&mut harness, "Close");
    assert!(shows(&harness, "What was entered would be lost."));
    click(&mut harness, "Stay");
    assert_eq!(harness.state().app().entering.as_ref().unwrap().article.name(), "Long strap");
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(harness.state().app().entering.as_ref().unwrap().article.name(), "");
    click(&mut harness, "Close");
    assert!(harness.state().app().entering.is_none());
}

#[test]
fn a_form_that_comes_takes_the_keys() {
    let scratch = Scratch::new("keys of a form");
    let mut harness = window_on(demo_build());
    form(&mut harness, "strap", &scratch.folder().join("own.ron"));
    click(&mut harness, "Close");
    press(&mut harness, Modifiers::COMMAND, Key::K);
    harness.get_by_role_and_label(Role::TextInput, "Find anything").type_text("enter new strap");
    harness.run();
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert!(harness.get_by_role_and_label(Role::TextInput, "Name").is_focused());
}

#[test]
fn a_table_is_seen_although_an_empty_form_was_open() {
    let scratch = Scratch::new("table over a form");
    let mut harness = window_on(demo_build());
    harness.state_mut().command(Command::Enter(Enter::New("strap")));
    harness.run();
    harness.state_mut().command(Command::Read(scratch.file("shop.csv", SHOP)));
    harness.run();
    assert!(shows(&harness, "The table shop.csv"));
}

#[test]
fn every_control_of_every_form_has_a_name() {
    let mut harness = window_on(demo_build());
    for kind in propwright_schema::part::Role::WORDS.iter().chain(std::iter::once(&"kit")) {
        harness.state_mut().command(Command::Enter(Enter::New(kind)));
        harness.run();
        let named = |role: Role| matches!(role, Role::Button | Role::TextInput | Role::ComboBox | Role::CheckBox);
        let bare: Vec<_> = harness
            .root()
            .query_all_by(|node| named(node.role()) && node.label().is_none_or(|label| label.is_empty()))
            .map(|node| format!("{:?} {:?}", node.accesskit_node().role(), node.accesskit_node().value()))
            .collect();
        assert!(bare.is_empty(), "{kind}: {bare:?}");
        harness.state_mut().command(Command::Enter(Enter::Close));
    }
}

#[test]
fn a_demo_build_is_begun_from_by_name() {
    let mut harness = window_on(BuildList::empty("New build"));
    press(&mut harness, Modifiers::COMMAND, Key::Num2);
    click(&mut harness, "Freestyle 5 in");
    let app = harness.state().app();
    assert_eq!(app.documents.len(), 1, "the empty one gives way");
    assert!(app.shown().unwrap().build.parts.len() > 10 && app.shown().unwrap().path.is_none());
}

/// A table with a sound row, one that is there already, and two bad ones.
const SHOP: &str = "Kind;Brand;Name;Weight (oz);KV;stator diameter;Price\n\
    motor;Quernby;2306 Moorhen;1,13;1820;23;17,90 EUR\n\
    motor;Vellacre;2207 1750 KV;1.2;1750;22;19 EUR\n\
    motor;Vellacre;Broken;heavy;1750;22;19 EUR\n\
    motor;Vellacre;Wide;1.2;1750;220;19 EUR\n";

#[test]
fn a_table_is_looked_at_taken_and_taken_back() {
    let scratch = Scratch::new("table in the window");
    let (table, own) = (scratch.file("shop.csv", SHOP), scratch.folder().join("own.ron"));
    let mut harness = window_on(demo_build());
    harness.state_mut().command(Command::Read(table));
    harness.run();
    assert!(shows(&harness, "2 parts and 0 kits · 1 there already · 2 rows refused"));
    assert!(shows(&harness, "looks like vellacre-2207-1750"));
    fill(&mut harness, "Catalogue", &own.display().to_string());
    click(&mut harness, "Take the rows");
    assert!(shows(&harness, "1 new, 0 replaced, 1 left out"));
    assert!(has(&harness, "quernby-2306-moorhen"));
    let aside = fs::read_to_string(scratch.folder().join("shop.refused.csv")).unwrap();
    assert!(aside.contains("Broken") && aside.contains("Wide") && !aside.contains("Moorhen"), "{aside}");
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert!(!has(&harness, "quernby-2306-moorhen"));
}

#[test]
fn a_mapping_that_was_changed_is_remembered_for_the_same_head() {
    let scratch = Scratch::new("mapping remembered");
    let table = scratch.file("odd.csv", "Label;Sort;Wt\nMoorhen;strap;12\n");
    let mut harness = window_on(demo_build());
    harness.state_mut().command(Command::Read(table.clone()));
    for (column, field) in [(0, "name"), (1, "kind"), (2, "mass_g")] {
        harness.state_mut().command(Command::Table(Table::Column(column, Some(field.to_owned()))));
    }
    let read = |harness: &Harness<'_, Window>| harness.state().app().importing.as_ref().unwrap().read.clone().unwrap();
    assert_eq!(read(&harness).catalogue.parts.len(), 1);
    harness.state_mut().command(Command::Table(Table::Close));
    harness.state_mut().command(Command::Read(table));
    harness.run();
    assert_eq!(read(&harness).catalogue.parts[0].mass_g.unwrap().to_string(), "12 g");
}

#[test]
fn tables_of_shelf_and_thrust_stand_are_written_and_read_again_as_they_were() {
    let scratch = Scratch::new("written tables");
    let motor = demo_build().parts.iter().find(|line| line.slot == propwright_schema::slot::Slot::Motor).unwrap().part.clone();
    let tables = [
        scratch.file("shelf.csv", format!("part,count,condition,cycles,note\n{motor},3,used,,\"a, b\"\n")),
        scratch.file("stand.csv", "Throttle;Voltage;Current;Thrust\n100;22,2;38;1510\n50;22,9;12;640\n"),
    ];
    let mut harness = window_on(demo_build());
    for table in tables {
        harness.state_mut().command(Command::Read(table));
        harness.run();
        click(&mut harness, "Close");
    }
    press(&mut harness, Modifiers::COMMAND, Key::Num2);
    let held = |harness: &Harness<'_, Window>| {
        let app = harness.state().app();
        (app.purse.stock.as_ref().unwrap().content.items.clone(), app.shown().unwrap().build.stand.clone())
    };
    let before = held(&harness);
    for (words, rows) in [("Write the shelf", RowsOf::Shelf), ("Write the thrust stand", RowsOf::Stand)] {
        assert!(harness.query_by_role_and_label(Role::Button, words).is_some(), "{words}");
        let path = scratch.folder().join("out.csv");
        harness.state_mut().command(Command::Table(Table::Write(rows, path.clone())));
        harness.run();
        assert!(shows(&harness, &path.display().to_string()), "where it lies is said");
        click(&mut harness, "Close");
        harness.state_mut().command(Command::Read(path.clone()));
        harness.run();
        click(&mut harness, "Close");
        assert_eq!(held(&harness), before);
        fs::remove_file(path).unwrap();
    }
}

#[test]
fn tables_of_shelf_and_thrust_stand_are_known_by_their_heads() {
    let scratch = Scratch::new("other tables");
    let motor = demo_build().parts.iter().find(|line| line.slot == propwright_schema::slot::Slot::Motor).unwrap().part.clone();
    let shelf = scratch.file("shelf.csv", format!("part,count,condition\n{motor},3,used\n{motor},many,used\n"));
    let stand = scratch.file("stand.csv", "Throttle;Voltage;Current;Thrust\n100;22,2;38;1510\n50;22,9;12;640\n");
    let mut harness = window_on(demo_build());
    harness.state_mut().command(Command::Read(shelf));
    harness.run();
    assert!(shows(&harness, "The shelf was read") && scratch.folder().join("shelf.refused.csv").exists());
    assert_eq!(harness.state().app().purse.stock.as_ref().unwrap().content.items[0].count, 3);
    click(&mut harness, "Close");
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert!(harness.state().app().purse.stock.is_none());
    harness.state_mut().command(Command::Read(stand));
    harness.run();
    let rows = |harness: &Harness<'_, Window>| harness.state().app().shown().unwrap().build.stand.len();
    assert_eq!(rows(&harness), 2);
    click(&mut harness, "Close");
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(rows(&harness), 0);
}

#[test]
fn a_kit_is_changed_from_the_finder() {
    let scratch = Scratch::new("changed kit");
    let file = scratch.folder().join("kits.ron");
    let mut harness = window_on(demo_build());
    let kit = sample_catalogue().unwrap().kits().next().unwrap().clone();
    press(&mut harness, Modifiers::COMMAND, Key::K);
    harness.get_by_role_and_label(Role::TextInput, "Find anything").type_text(&format!("change kit {}", kit.name));
    harness.run();
    press(&mut harness, Modifiers::NONE, Key::Enter);
    fill(&mut harness, "Catalogue", &file.display().to_string());
    fill(&mut harness, "Price", "1 EUR");
    fill(&mut harness, "Priced on", "2031-01-02");
    click(&mut harness, "Keep");
    let left =
        harness.state().app().entering.as_ref().map(|entering| (entering.problems.clone(), entering.form.hindered.clone()));
    assert_eq!(left, None, "kept");
    let held = load_catalogue("kits.ron", &fs::read_to_string(&file).unwrap()).unwrap();
    assert_eq!((held.kits[0].id.as_str(), held.kits[0].price.unwrap().to_string().as_str()), (kit.id.as_str(), "1.00 EUR"));
    assert_eq!(held.kits[0].contents, kit.contents);
    assert_eq!(held.kits[0].earlier_prices[0].price, kit.price.unwrap(), "the earlier price is kept");
}

#[test]
fn a_kit_is_entered_copied_and_retired() {
    let scratch = Scratch::new("kit of my own");
    let file = scratch.folder().join("kits.ron");
    let mut harness = window_on(demo_build());
    let motor = demo_build().parts.iter().find(|line| line.slot == propwright_schema::slot::Slot::Motor).unwrap().part.clone();
    form(&mut harness, "kit", &file);
    fill(&mut harness, "Name", "Bench box");
    fill(&mut harness, "Price", "79.90 EUR");
    click(&mut harness, "Add one: Contents");
    fill(&mut harness, "Contents 1: Part", &motor);
    fill(&mut harness, "Contents 1: Count", "4");
    click(&mut harness, "Keep");
    let find = |harness: &mut Harness<'_, Window>, words: &str| {
        press(harness, Modifiers::COMMAND, Key::K);
        harness.get_by_role_and_label(Role::TextInput, "Find anything").type_text(words);
        harness.run();
        press(harness, Modifiers::NONE, Key::Enter);
    };
    find(&mut harness, "one like the kit bench box");
    fill(&mut harness, "Name", "Bench box, large");
    click(&mut harness, "Keep");
    find(&mut harness, "change the kit bench box");
    harness.get_by_role_and_label(Role::ComboBox, "Retired").click_accesskit();
    harness.run();
    click(&mut harness, "yes");
    click(&mut harness, "Keep");
    let held = load_catalogue("kits.ron", &fs::read_to_string(&file).unwrap()).unwrap();
    let told: Vec<_> = held.kits.iter().map(|kit| (kit.id.as_str(), kit.retired, kit.contents[0].count)).collect();
    assert_eq!(told, [("bench-box", true, 4), ("bench-box-large", false, 4)]);
    assert_eq!(held.kits[0].contents[0].part, motor);
}

#[test]
fn an_id_that_the_file_holds_is_not_written_over() {
    let scratch = Scratch::new("id there");
    let text = "(version: 1, parts: [(id: \"own\", name: \"Theirs\", fills: [Strap()])])";
    // A catalogue that is not in force: the form cannot know what it holds before it is kept.
    let file = scratch.file("other.ron", text);
    let mut harness = window_on(demo_build());
    form(&mut harness, "strap", &file);
    fill(&mut harness, "Name", "Own");
    click(&mut harness, "Keep");
    assert!(shows(&harness, "holds a record of the id own already"));
    assert_eq!(fs::read_to_string(&file).unwrap(), text);
}

#[test]
fn a_choice_takes_the_place_of_an_empty_form_and_asks_about_a_filled_one() {
    let mut harness = window_on(demo_build());
    let pick = |harness: &mut Harness<'_, Window>| {
        let find = |label: String| label.starts_with("Pack, ");
        harness.get_by(|node| node.role() == Role::Button && node.label().is_some_and(find)).click();
        harness.run();
    };
    harness.state_mut().command(Command::Enter(Enter::New("strap")));
    harness.run();
    pick(&mut harness);
    assert!(harness.state().app().entering.is_none());
    harness.state_mut().command(Command::Enter(Enter::New("strap")));
    harness.run();
    fill(&mut harness, "Name", "Long strap");
    pick(&mut harness);
    assert!(shows(&harness, "What was entered would be lost."));
    click(&mut harness, "Discard");
    assert!(harness.state().app().entering.is_none());
}

#[test]
fn a_table_offers_to_take_back_only_what_was_done_last() {
    let scratch = Scratch::new("table and another deed");
    let (table, own) = (scratch.file("shop.csv", SHOP), scratch.folder().join("own.ron"));
    let mut harness = window_on(demo_build());
    harness.state_mut().command(Command::Read(table));
    harness.run();
    fill(&mut harness, "Catalogue", &own.display().to_string());
    click(&mut harness, "Take the rows");
    let offers = |harness: &Harness<'_, Window>| harness.query_by_role_and_label(Role::Button, "Take it back").is_some();
    assert!(offers(&harness));
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert!(!offers(&harness) && harness.query_by_role_and_label(Role::Button, "Take the rows").is_some());
}
