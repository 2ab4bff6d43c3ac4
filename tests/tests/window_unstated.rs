//! What nobody stated, in the window: each figure is asked once, and leads to what waits for it.

#![expect(clippy::unwrap_used, reason = "a test that does not find its control has failed")]

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::{
    Harness,
    kittest::{NodeT as _, Queryable as _},
};
use propwright::{edit::Edit, state::Document, view::Asking, window::Window, worker::Worker};
use propwright_engine::finding::Status;
use propwright_schema::{build_list::BuildList, catalogue::Catalogue, slot::Slot};
use propwright_tests::{sample, unpublished};

const MOTOR: &str = "vellacre-2207-1750";

fn freestyle() -> BuildList {
    sample::reference().into_iter().find(|(name, _)| *name == "freestyle-5in").unwrap().1
}

fn window(catalogue: Catalogue) -> Harness<'static, Window> {
    window_on(catalogue, freestyle())
}

fn window_on(catalogue: Catalogue, build: BuildList) -> Harness<'static, Window> {
    let mut harness = Harness::builder().with_size(vec2(1280.0, 1600.0)).with_max_steps(20).build_eframe(move |cc| {
        let mut window = Window::new(cc, catalogue, Worker::Inline(Vec::new())).unwrap();
        window.open(build);
        window
    });
    harness.run();
    harness
}

fn document<'h>(harness: &'h Harness<'_, Window>) -> &'h Document {
    harness.state().app().shown().unwrap()
}

fn asking<'h>(harness: &'h Harness<'_, Window>, title: &str) -> &'h Asking {
    let questions = &document(harness).bench.findings.questions;
    questions.iter().find(|asking| asking.title == title).ok_or_else(|| format!("{title}: {questions:#?}")).unwrap()
}

/// How often a text stands in the window.
fn told(harness: &Harness<'_, Window>, text: &str) -> usize {
    harness
        .root()
        .query_all_by(|node| node.role() == Role::Label && node.value().or(node.label()).as_deref() == Some(text))
        .count()
}

#[test]
fn each_figure_is_asked_once_and_leads_to_what_waits_for_it() {
    let mut harness = window(unpublished::catalogue(&[(MOTOR, &["thread_depth_mm", "pattern", "mass_g"])]));
    let depth = asking(&harness, "Thread depth of the Vellacre 2207 1750 KV");
    let card = depth.waiting[0].card.clone();
    assert_eq!(card.status, Status::Unstated);
    assert_eq!(told(&harness, "Thread depth of the Vellacre 2207 1750 KV"), 1);
    assert_eq!(told(&harness, &card.sentence), 0, "the finding is opened on demand");
    harness.get_by_role_and_label(Role::DisclosureTriangle, &card.about).click();
    harness.run();
    assert_eq!(told(&harness, &card.sentence), 1);
    let findings = &document(&harness).bench.findings;
    assert!(findings.open.iter().all(|card| card.status != Status::Unstated), "each stands at its question");
    let mass = asking(&harness, "Mass of the Vellacre 2207 1750 KV");
    assert!(mass.waiting.iter().any(|waits| waits.card.rule == "flies"), "{mass:#?}");
}

#[test]
fn every_unstated_finding_has_its_place() {
    let gone: Vec<String> =
        sample::catalogue().part(MOTOR).unwrap().fills[0].fields().iter().map(|field| field.name.to_owned()).collect();
    for field in gone {
        if sample::catalogue().part(MOTOR).unwrap().fills[0].get(&field).is_none() {
            continue;
        }
        let harness = window(unpublished::catalogue(&[(MOTOR, &[field.as_str()])]));
        let (document, report) = (document(&harness), document(&harness).report().unwrap());
        let findings = &document.bench.findings;
        let asked = findings.questions.iter().flat_map(|asking| asking.waiting.iter().map(|waits| waits.at));
        let places: std::collections::BTreeSet<usize> = asked.collect();
        let open = findings.open.iter().filter(|card| card.status == Status::Unstated).count();
        assert_eq!(places.len() + open, report.count(Status::Unstated), "{field}");
    }
}

const DEPTH: &str = "Thread depth of the Vellacre 2207 1750 KV";

#[test]
fn an_estimate_is_typed_undone_and_taken_back() {
    let mut harness = window(unpublished::catalogue(&[(MOTOR, &["thread_depth_mm"])]));
    let bare = document(&harness).build.clone();
    let field = |harness: &Harness<'_, Window>| harness.get_all_by_role_and_label(Role::TextInput, DEPTH).count();
    assert_eq!(field(&harness), 1);
    harness.get_by_role_and_label(Role::TextInput, DEPTH).focus();
    harness.run();
    harness.get_by_role_and_label(Role::TextInput, DEPTH).type_text("3.5");
    harness.run();
    harness.key_press(Key::Tab);
    harness.run();
    let label = "estimate the thread depth of Vellacre 2207 1750 KV";
    assert_eq!(document(&harness).past.last().unwrap().label, label);
    assert_eq!(document(&harness).past.len(), 1, "one step");
    let findings = &document(&harness).bench.findings;
    assert!(findings.questions.is_empty() && findings.guesses.len() == 1);
    assert_eq!(told(&harness, "What you estimated"), 1);
    let marked = findings
        .open
        .iter()
        .chain(&findings.fitting)
        .filter(|card| card.own.iter().any(|own| own.contains("thread depth 3.5 mm")));
    assert!(marked.count() > 0);
    for (modifiers, count) in [(Modifiers::COMMAND, 0), (Modifiers::COMMAND | Modifiers::SHIFT, 1)] {
        harness.key_press_modifiers(modifiers, Key::Z);
        harness.run();
        assert_eq!(document(&harness).build.estimates.len(), count);
        assert_eq!(document(&harness).bench.findings.questions.len(), 1 - count);
    }
    harness.get_by_role_and_label(Role::Button, &format!("Take back: {DEPTH}")).click();
    harness.run();
    assert_eq!(document(&harness).build, bare);
    assert_eq!(
        document(&harness).past.last().unwrap().label,
        "take back the estimate of the thread depth of Vellacre 2207 1750 KV"
    );
}

/// A list is typed as into a table; how is said below the field. A measurement says why it is not estimated.
#[test]
fn a_list_is_typed_and_what_cannot_be_estimated_says_why() {
    let esc = freestyle().fitted(Slot::Esc).next().unwrap().1.part.clone();
    let mut harness = window(unpublished::catalogue(&[(&esc, &["plugs"])]));
    let asked = document(&harness).bench.findings.questions.iter().find(|asking| asking.key.ends_with(" plugs")).unwrap();
    let (title, waits) = (asked.title.clone(), asked.waiting.len());
    assert!(waits > 0 && asked.no_estimate.is_empty());
    assert_eq!(told(&harness, "Each is typed as to: …; plug: …; pins: …; several are parted by |."), 1);
    harness.get_by_role_and_label(Role::TextInput, &title).focus();
    harness.run();
    harness
        .get_by_role_and_label(Role::TextInput, &title)
        .type_text("to: flight-controller; plug: 8 pin; pins: GND, VBAT| to: pack");
    harness.run();
    harness.key_press(Key::Tab);
    harness.run();
    let held = document(&harness).build.estimates[0].figures()[0].2.clone();
    assert_eq!(held.items()[0].field("pins").unwrap().items().len(), 2);
    assert!(document(&harness).bench.findings.guesses.iter().any(|guess| guess.title == title), "{title}");

    let mut catalogue = sample::catalogue();
    let mut part = (**catalogue.part(&esc).unwrap()).clone();
    let role = part.fills.iter_mut().find(|role| role.get("plugs").is_some()).unwrap();
    let bare = "to: flight-controller; plug: 1 mm pin, 8 way";
    let field = propwright_schema::estimate::field(Some("esc"), "plugs").unwrap();
    let there = role.get("plugs").unwrap().items()[0].field("plug").and_then(|plug| plug.word().map(str::to_owned)).unwrap();
    let text = bare.replace("1 mm pin, 8 way", &there.replace(',', "\\,"));
    let value = propwright_schema::estimate::read(&text, field).unwrap();
    assert!(role.set("plugs", value.as_ref()));
    catalogue.lay_over(&propwright_schema::catalogue::CatalogueFile { version: 1, parts: vec![part.into()], kits: Vec::new() });
    let harness = window(catalogue);
    let questions = &document(&harness).bench.findings.questions;
    let asked = questions.iter().find(|asking| asking.key.ends_with(" plugs.pins")).unwrap();
    assert!(asked.estimate.is_none() && asked.no_estimate.contains("the rest of that list is published"), "{asked:#?}");
    assert_eq!(told(&harness, asked.no_estimate), 1);
}

#[test]
fn what_cannot_be_read_stays_and_is_told() {
    let mut harness = window(unpublished::catalogue(&[(MOTOR, &["thread_depth_mm"])]));
    harness.get_by_role_and_label(Role::TextInput, DEPTH).focus();
    harness.run();
    harness.get_by_role_and_label(Role::TextInput, DEPTH).type_text("350 mm");
    harness.run();
    harness.key_press(Key::Tab);
    harness.run();
    assert!(document(&harness).build.estimates.is_empty() && document(&harness).past.is_empty());
    let texts: Vec<String> = harness
        .root()
        .query_all_by(|node| node.role() == Role::Label)
        .filter_map(|node| node.accesskit_node().value().or(node.accesskit_node().label()))
        .filter(|text| text.contains("not plausible"))
        .collect();
    assert_eq!(texts.len(), 1, "{texts:?}");
}

#[test]
fn estimates_go_with_their_part() {
    let harness = window(unpublished::catalogue(&[(MOTOR, &["thread_depth_mm"])]));
    let mut build = (*document(&harness).build).clone();
    let depth = propwright_schema::estimate::field(Some("motor"), "thread_depth_mm").unwrap();
    let value = propwright_schema::estimate::read("3.5", depth).unwrap();
    assert!(build.estimate(MOTOR, Some("motor"), depth.name, value.as_ref()));
    let line = build.parts.iter().position(|fitted| fitted.part == MOTOR).unwrap();
    let gone = Edit::Remove { line }.applied(&build, &sample::catalogue());
    assert!(gone.estimates.is_empty() && !build.estimates.is_empty());
}

#[test]
fn what_the_list_does_not_say_leads_to_where_it_is_said() {
    let mut build = freestyle();
    let line = build.parts.iter().position(|fitted| fitted.slot == Slot::Receiver).unwrap();
    build.parts[line].feed = None;
    let mut harness = window_on(sample::catalogue(), build);
    let questions = &document(&harness).bench.findings.questions;
    assert!(questions.iter().any(|asking| asking.said.is_some() && asking.estimate.is_none()), "{questions:#?}");
    harness.get_all_by_role_and_label(Role::Button, "Say it at the part").next().unwrap().click();
    harness.run();
    let place = document(&harness).picker.as_ref().unwrap().place;
    assert_eq!((place.slot, place.line), (Slot::Receiver, Some(line)));
}
