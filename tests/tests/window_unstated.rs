//! What nobody stated, in the window: each figure is asked once, and leads to what waits for it.

#![expect(clippy::unwrap_used, reason = "a test that does not find its control has failed")]

use egui::{accesskit::Role, vec2};
use egui_kittest::{Harness, kittest::Queryable as _};
use propwright::{state::Document, view::Asking, window::Window, worker::Worker};
use propwright_engine::finding::Status;
use propwright_schema::catalogue::Catalogue;
use propwright_tests::{sample, unpublished};

const MOTOR: &str = "vellacre-2207-1750";

fn window(catalogue: Catalogue) -> Harness<'static, Window> {
    let mut harness = Harness::builder().with_size(vec2(1280.0, 1600.0)).with_max_steps(20).build_eframe(move |cc| {
        let mut window = Window::new(cc, catalogue, Worker::Inline(Vec::new())).unwrap();
        window.open(sample::reference().into_iter().find(|(name, _)| *name == "freestyle-5in").unwrap().1);
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
