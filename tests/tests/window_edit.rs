//! Editing in the window: a build from nothing, broken and mended, taken back and done again, saved and read.

#![expect(clippy::unwrap_used, reason = "a test that does not find its control has failed")]

use std::fs;

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::{
    Harness,
    kittest::{AccessKitNode, Queryable as _},
};
use propwright::{
    files::{Disk, Step},
    state::{Cover, Document, Page},
    window::{Window, demo_build, sample_catalogue},
    worker::Worker,
};
use propwright_engine::finding::Status;
use propwright_schema::{
    build_list::{Arrangement, BuildList, Feed, Fitted},
    load::load_build,
    quantity::Quantity,
    save::write_build,
    slot::Slot,
};
use propwright_tests::scratch::Scratch;

type Bench = Harness<'static, Window>;

fn window_on(build: BuildList) -> Bench {
    let mut harness = Harness::builder().with_size(vec2(1280.0, 800.0)).with_max_steps(20).build_eframe(|cc| {
        let mut window = Window::new(cc, sample_catalogue().unwrap(), Worker::Inline(Vec::new())).unwrap();
        window.open(build);
        window
    });
    harness.run();
    harness
}

fn document(harness: &Bench) -> &Document {
    harness.state().app().shown().unwrap()
}

fn line(harness: &Bench, slot: Slot) -> Fitted {
    document(harness).build.fitted(slot).next().unwrap().1.clone()
}

fn press(harness: &mut Bench, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

fn labelled(harness: &Bench, role: Role, beginning: &str) -> bool {
    harness
        .root()
        .query_all_by(|node| node.role() == role && node.label().is_some_and(|l| l.starts_with(beginning)))
        .next()
        .is_some()
}

/// Clicks the control of a role whose label begins so; what lies beyond the edge is scrolled to first.
fn click(harness: &mut Bench, role: Role, beginning: &str) {
    for scrolled in [false, true] {
        let found = |node: &AccessKitNode<'_>| node.role() == role && node.label().is_some_and(|l| l.starts_with(beginning));
        let node = harness.root().query_all_by(found).next().ok_or_else(|| format!("no {role:?} begins with {beginning}"));
        if scrolled {
            node.unwrap().click();
        } else {
            node.unwrap().scroll_to_me();
        }
        harness.run();
    }
}

/// Types into a field in the place of what it held, and leaves it with Enter.
fn fill(harness: &mut Bench, field: &str, text: &str) {
    write(harness, field, text);
    press(harness, Modifiers::NONE, Key::Enter);
}

fn write(harness: &mut Bench, field: &str, text: &str) {
    let role = if labelled(harness, Role::TextInput, field) { Role::TextInput } else { Role::MultilineTextInput };
    harness.get_by_role_and_label(role, field).focus();
    harness.run();
    press(harness, Modifiers::COMMAND, Key::A);
    harness.get_by_role_and_label(role, field).type_text(text);
    harness.run();
}

/// Opens a choice and takes what begins so.
fn pick(harness: &mut Bench, choice: &str, words: &str) {
    click(harness, Role::ComboBox, choice);
    click(harness, Role::Button, words);
}

fn shows(harness: &Bench, words: &str) -> bool {
    let find = |text: Option<String>| text.is_some_and(|text| text.contains(words));
    harness.root().query_all_by(|node| find(node.label()) || find(node.value())).next().is_some()
}

fn page(harness: &mut Bench, page: Page) {
    let keys = [Key::Num1, Key::Num2, Key::Num3];
    let at = Page::ALL.iter().position(|known| *known == page).unwrap();
    press(harness, Modifiers::COMMAND, keys[at]);
    assert_eq!(harness.state().app().page, page);
}

/// Chooses a part for a slot by its name, typed into the filter.
fn choose(harness: &mut Bench, fitted: &Fitted) {
    let title = fitted.slot.title();
    let row = format!("{title}, choose…");
    if labelled(harness, Role::Button, &row) {
        click(harness, Role::Button, &row);
    } else {
        click(harness, Role::Button, "Add a part…");
        click(harness, Role::Button, title);
    }
    // Some parts have one name, and some ids begin alike: both together tell them apart.
    let name = sample_catalogue().unwrap().part(&fitted.part).unwrap().name.clone();
    harness.get_by_role_and_label(Role::TextInput, "Filter").type_text(&format!("{name} {}", fitted.part));
    harness.run();
    press(harness, Modifiers::NONE, Key::Enter);
    assert_eq!(line(harness, fitted.slot).part, fitted.part);
}

/// Lists and wires the part just chosen as another build has it.
fn wire(harness: &mut Bench, like: &Fitted) {
    if line(harness, like.slot).count != like.count {
        fill(harness, "How many", &like.count.to_string());
    }
    match &like.feed {
        Some(Feed::Pack) => pick(harness, "Fed from", "the pack"),
        Some(Feed::Rail(rail)) => pick(harness, "Fed from", &format!("rail {rail} · ")),
        Some(Feed::Own) if labelled(harness, Role::ComboBox, "Fed from") => pick(harness, "Fed from", "a battery of its own"),
        _ => {}
    }
    if let Some(uart) = like.uart {
        pick(harness, "Serial port", &format!("serial {uart}"));
    }
    if like.outputs.is_some() {
        click(harness, Role::Button, "The free ones");
    }
    if like.owned {
        click(harness, Role::CheckBox, "on the shelf");
    }
    if let Some(note) = &like.note {
        write(harness, "Note", note);
    }
}

/// From an empty list to the demo build, as hands do it.
fn built_from_nothing() -> Bench {
    let mut harness = window_on(BuildList::empty("New build"));
    let demo = demo_build();
    // Boards before what hangs on them; outputs are offered once the board is there.
    let boards = |fitted: &&Fitted| matches!(fitted.slot, Slot::Frame | Slot::FlightController | Slot::Esc);
    let (first, rest): (Vec<&Fitted>, Vec<&Fitted>) = demo.parts.iter().partition(boards);
    for fitted in first.into_iter().chain(rest) {
        choose(&mut harness, fitted);
        wire(&mut harness, fitted);
    }
    page(&mut harness, Page::Purpose);
    fill(&mut harness, "Name", "Meadow craft");
    pick(&mut harness, "Use", "freestyle");
    pick(&mut harness, "Place", "trees");
    click(&mut harness, Role::CheckBox, "Battery figures in the picture");
    for (field, text) in [
        ("Calm flight", "300 s"),
        ("In a simulator", "30"),
        ("In the air", "25"),
        ("Altitude", "310"),
        ("Temperature", "16"),
        ("Mean wind", "10.8 km/h"),
    ] {
        fill(&mut harness, field, text);
    }
    harness
}

#[test]
fn from_nothing_to_no_mismatch_and_all_the_way_back() {
    let mut harness = built_from_nothing();
    let demo = demo_build();
    let build = document(&harness).build.clone();
    let report = document(&harness).report().unwrap();
    let open: Vec<&str> = report.findings.iter().filter(|finding| finding.forbids()).map(|finding| finding.rule).collect();
    assert_eq!(open, Vec::<&str>::new());
    assert_eq!((build.pilot.clone(), build.conditions.clone()), (demo.pilot.clone(), demo.conditions.clone()));
    assert_eq!((build.purpose.usage, build.purpose.calm_min), (demo.purpose.usage, demo.purpose.calm_min));
    for fitted in &demo.parts {
        assert_eq!(&line(&harness, fitted.slot), fitted);
    }

    let past: Vec<BuildList> = document(&harness).past.iter().map(|step| (*step.build).clone()).collect();
    assert!(past.len() > 40, "each edit is a step: {}", past.len());
    for before in past.iter().rev() {
        press(&mut harness, Modifiers::COMMAND, Key::Z);
        assert_eq!(*document(&harness).build, *before);
    }
    assert_eq!(*document(&harness).build, BuildList::empty("New build"));
    assert!(document(&harness).past.is_empty() && !document(&harness).is_edited());
    for after in past.iter().skip(1).chain([&*build]) {
        press(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
        assert_eq!(*document(&harness).build, *after);
    }
    assert!(document(&harness).future.is_empty());
}

#[test]
fn a_feed_breaks_the_craft_and_mends_it() {
    let mut harness = window_on(demo_build());
    click(&mut harness, Role::Button, "Video transmitter, ");
    pick(&mut harness, "Fed from", "the pack");
    assert_eq!(line(&harness, Slot::VideoTransmitter).feed, Some(Feed::Pack));
    assert_eq!(document(&harness).report().unwrap().count(Status::Mismatch), 1);
    assert!(shows(&harness, "Open: 1 mismatch"));
    pick(&mut harness, "Fed from", "rail 9V · ");
    assert_eq!(document(&harness).report().unwrap().count(Status::Mismatch), 0);
    assert_eq!(*document(&harness).build, demo_build());
}

#[test]
fn a_port_that_is_taken_says_who_has_it() {
    let mut harness = window_on(demo_build());
    click(&mut harness, Role::Button, "Receiver, ");
    click(&mut harness, Role::ComboBox, "Serial port");
    assert!(labelled(&harness, Role::Button, "serial 4 · taken by GPS"));
    assert!(labelled(&harness, Role::Button, "serial 1 · taken by video transmitter"));
}

#[test]
fn what_is_wrong_is_said_at_once_and_kept() {
    let mut harness = window_on(demo_build());
    page(&mut harness, Page::Purpose);
    write(&mut harness, "Payload", "5 V");
    assert!(shows(&harness, "“V” is no unit here; expected g, kg, mg, oz or lb"));
    press(&mut harness, Modifiers::NONE, Key::Enter);
    page(&mut harness, Page::Together);
    page(&mut harness, Page::Purpose);
    assert!(shows(&harness, "“V” is no unit here"), "the text stays, and what is wrong with it");
    assert_eq!(*document(&harness).build, demo_build());
    write(&mut harness, "Payload", "5 oz");
    assert!(shows(&harness, "= 141.748 g"), "what it comes to");
    assert!(!document(&harness).is_edited(), "not before the field is left");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(document(&harness).build.purpose.payload_g.map(Quantity::steps), Some(141_748));
    write(&mut harness, "Payload", "9");
    press(&mut harness, Modifiers::NONE, Key::Escape);
    assert_eq!(document(&harness).build.purpose.payload_g.map(Quantity::steps), Some(141_748));
    assert!(document(&harness).drafts.is_empty());
    assert_eq!(document(&harness).past.len(), 1);
}

#[test]
fn what_the_purpose_asks_is_shown_with_what_is_met() {
    let mut harness = window_on(demo_build());
    page(&mut harness, Page::Purpose);
    assert!(shows(&harness, "open craft, 4 motors"));
    let lifts = |harness: &Bench| {
        let asked = &document(harness).bench.asked.cards;
        asked.iter().find(|card| card.key.starts_with("thrust-to-weight")).unwrap().status
    };
    assert_eq!(lifts(&harness), Status::Fits);
    fill(&mut harness, "Payload", "2 kg");
    assert_eq!(lifts(&harness), Status::Mismatch);
    assert!(shows(&harness, " not met"));
    pick(&mut harness, "Use", "not said");
    assert!(!shows(&harness, "Thrust to weight for freestyle"));
    pick(&mut harness, "Use", "long range");
    assert!(shows(&harness, "Thrust to weight for long range"));
}

#[test]
fn lines_are_added_duplicated_moved_and_taken_out() {
    let mut harness = window_on(demo_build());
    click(&mut harness, Role::Button, "Pack, ");
    click(&mut harness, Role::Button, "Duplicate");
    let packs =
        |harness: &Bench| document(harness).build.fitted(Slot::Battery).map(|(_, fitted)| fitted.count).collect::<Vec<_>>();
    assert_eq!(packs(&harness), [1, 1]);
    click(&mut harness, Role::Button, "Pack, ");
    fill(&mut harness, "How many", "3");
    assert_eq!(packs(&harness), [3, 1]);
    click(&mut harness, Role::Button, "Move down");
    assert_eq!(packs(&harness), [1, 3]);
    pick(&mut harness, "Packs connected", "parallel");
    assert_eq!(document(&harness).build.packs, Some(Arrangement::Parallel));
    fill(&mut harness, "Spares", "2");
    assert_eq!(document(&harness).build.spares[0].count, 2);
    click(&mut harness, Role::Button, "Take out");
    assert_eq!(packs(&harness), [1]);
    click(&mut harness, Role::Button, "Add another");
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(packs(&harness).len(), 2);
    click(&mut harness, Role::Button, "Done");
    fill(&mut harness, "Weighed", "702.5");
    assert_eq!(document(&harness).build.weighed_g.map(Quantity::steps), Some(702_500));
    click(&mut harness, Role::Button, "No spare");
    assert!(document(&harness).build.spares.is_empty());
    while !document(&harness).past.is_empty() {
        press(&mut harness, Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(*document(&harness).build, demo_build());
}

#[test]
fn what_is_edited_is_saved_and_read_again() {
    let scratch = Scratch::new("what_is_edited_is_saved_and_read_again");
    let text = write_build(None, &demo_build(), &demo_build()).unwrap();
    let path = scratch.file("meadow.ron", &text);
    let mut harness = window_on(BuildList::empty("New build"));
    harness.state_mut().read(&path);
    harness.run();
    click(&mut harness, Role::Button, "Receiver, ");
    write(&mut harness, "Note", "antenna up");
    // What stands in the field counts, left or not.
    press(&mut harness, Modifiers::COMMAND, Key::S);
    assert!(!document(&harness).is_edited() && harness.state().app().cover.is_none());
    let read = load_build("meadow.ron", &fs::read_to_string(&path).unwrap()).unwrap();
    assert_eq!(read, *document(&harness).build);
    assert_eq!(line(&harness, Slot::Receiver).note.as_deref(), Some("antenna up"));
}

#[test]
fn a_save_that_fails_says_so_and_loses_nothing() {
    for step in Step::OF_A_SAVE {
        let scratch = Scratch::new("a_save_that_fails_says_so_and_loses_nothing");
        let old = write_build(None, &demo_build(), &demo_build()).unwrap();
        let path = scratch.file("meadow.ron", &old);
        let mut harness = window_on(BuildList::empty("New build"));
        harness.state_mut().read(&path);
        harness.run();
        page(&mut harness, Page::Purpose);
        fill(&mut harness, "Payload", "250");
        let build = document(&harness).build.clone();
        harness.state_mut().write_on(Disk::FailingAt(step));
        press(&mut harness, Modifiers::COMMAND, Key::S);
        let problem = match &harness.state().app().cover {
            Some(Cover::SaveAs { problem, .. }) => problem.clone(),
            _ => String::new(),
        };
        assert!(problem.contains(" failed: ") && shows(&harness, &problem), "{step:?}: {problem}");
        assert!(document(&harness).is_edited() && document(&harness).build == build, "{step:?}");
        assert!(!document(&harness).past.is_empty(), "{step:?}: it can still be taken back");
        let found = fs::read_to_string(&path).unwrap();
        if step == Step::SyncFolder {
            assert_eq!(load_build("meadow.ron", &found).unwrap(), *build);
        } else {
            assert_eq!(found, old, "{step:?}");
        }
        harness.state_mut().write_on(Disk::Real);
        click(&mut harness, Role::Button, "Save");
        assert!(harness.state().app().cover.is_none() && !document(&harness).is_edited(), "{step:?}");
        assert_eq!(load_build("meadow.ron", &fs::read_to_string(&path).unwrap()).unwrap(), *build);
    }
}
