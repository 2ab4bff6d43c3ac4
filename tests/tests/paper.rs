//! The report on paper says all that the report holds, in an order that serves, within the width of a page.

use propwright_engine::{Report, explain, finding::Status, rules};
use propwright_paper::{json, page::WIDTH, text};
use propwright_schema::{build_list::BuildList, slot::Slot};
use propwright_tests::sample;

fn reports() -> Vec<(&'static str, Report)> {
    let catalogue = sample::catalogue();
    let builds = sample::reference().into_iter().chain(sample::flawed());
    builds.map(|(name, build)| (name, sample::report(&catalogue, &build))).collect()
}

/// A text on one line, so that a wrapped sentence is found.
fn unwrapped(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn no_line_is_wider_than_the_page() {
    let catalogue = sample::catalogue();
    let mut long = sample::demo();
    long.name = "x".repeat(300);
    long.parts[0].note = Some("word ".repeat(200));
    let long = sample::report(&catalogue, &long);
    for (name, report) in reports().into_iter().chain([("long names", long)]) {
        for line in text::report(&report, &[]).lines() {
            assert!(line.chars().count() <= WIDTH, "{name}: {line}");
        }
    }
}

#[test]
fn it_says_all_that_was_found() {
    for (name, report) in reports() {
        let text = unwrapped(&text::report(&report, &["a note".to_owned()]));
        let loud = report.findings.iter().filter(|finding| finding.status() != Status::Fits);
        for finding in loud.chain(&report.cautions).chain(&report.advice) {
            let rule = rules::by_id(finding.rule).unwrap();
            assert!(text.contains(&unwrapped(&explain::message(finding))), "{name}: {}", rule.id);
            if let Some(cost) = explain::cost(finding) {
                assert!(text.contains(&unwrapped(cost)), "{name}: {}", rule.id);
                assert!(explain::hints(finding).iter().all(|hint| text.contains(&unwrapped(hint))), "{name}: {}", rule.id);
            }
        }
        for placed in report.craft.listed() {
            let line = format!("{} ×", placed.fitted.count);
            assert!(text.contains(&line) && text.contains(&unwrapped(&placed.subject.part.name)), "{name}");
        }
        for cost in &report.totals.cost {
            assert!(text.contains(&cost.to_string()), "{name}");
        }
        assert!(text.ends_with("a note"), "{name}");
    }
}

#[test]
fn the_gravest_comes_first() {
    let headings = [
        "What stands in the way",
        "What is tight",
        "What nobody stated",
        "In the air",
        "Parts",
        "Cautions",
        "Advice",
        "more fit",
    ];
    for (name, report) in reports() {
        let text = text::report(&report, &[]);
        let places: Vec<usize> = headings.iter().filter_map(|heading| text.find(&format!("{heading}\n-"))).collect();
        assert!(places.is_sorted(), "{name}");
        assert_eq!(text.contains(headings[0]), report.count(Status::Mismatch) > 0, "{name}");
    }
}

#[test]
fn a_line_without_a_part_is_told() {
    let catalogue = sample::catalogue();
    let mut build: BuildList = sample::demo();
    build.parts[0].part = "nobodys-frame".to_owned();
    build.parts.iter_mut().find(|fitted| fitted.slot == Slot::Motor).unwrap().slot = Slot::Strap;
    let text = unwrapped(&text::report(&sample::report(&catalogue, &build), &[]));
    assert!(text.contains("no catalogue holds a part \"nobodys-frame\"") && text.contains("does not fill this slot"), "{text}");
}

#[test]
fn both_forms_say_the_same() {
    for (name, report) in reports() {
        let value = serde_json::to_value(json::report(&report, &[])).unwrap();
        let text = unwrapped(&text::report(&report, &[]));
        for finding in value["findings"].as_array().unwrap().iter().filter(|finding| finding["status"] != "fits") {
            assert!(text.contains(&unwrapped(finding["message"].as_str().unwrap())), "{name}: {finding}");
        }
        let count = value["findings"].as_array().unwrap().iter().filter(|finding| finding["status"] == "fits").count();
        assert!(count == 0 || text.contains(&format!("{count} more fit")), "{name}");
    }
}

#[test]
fn what_is_not_known_is_null_and_told() {
    let catalogue = sample::catalogue();
    let mut build = sample::demo();
    build.parts.retain(|fitted| fitted.slot == Slot::Strap);
    let mut parts: Vec<_> = catalogue.parts().cloned().collect();
    for part in parts.iter_mut().filter(|part| part.id == build.parts[0].part) {
        let unknown = std::sync::Arc::make_mut(part);
        (unknown.mass_g, unknown.price) = (None, None);
    }
    build.parts[0].owned = false;
    let report = sample::report(&parts.into_iter().collect(), &build);
    let totals = serde_json::to_value(json::report(&report, &[])).unwrap()["totals"].clone();
    assert!(totals["dry_mass_g"].is_null() && totals["takeoff_mass_g"].is_null(), "{totals}");
    assert_eq!(totals["unpriced"], serde_json::json!(["strap"]));
    let text = text::report(&report, &[]);
    assert!(text.contains("not known, and no mass is known of: straps"), "{text}");
    assert!(text.contains("price ?") && text.contains("not known, and no price is known of: straps"), "{text}");
}
