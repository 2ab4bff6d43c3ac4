//! The sound demo builds have no mismatch, and each build with a fault has exactly its own.

use std::collections::BTreeMap;

use propwright_engine::finding::Status;
use propwright_engine::{Report, explain, rules};
use propwright_schema::{build_list::BuildList, slot::Slot};
use propwright_tests::sample;

fn mismatches(report: &Report) -> Vec<&'static str> {
    let mut ids: Vec<&str> =
        report.findings.iter().filter(|finding| finding.status() == Status::Mismatch).map(|finding| finding.rule).collect();
    ids.dedup();
    ids
}

#[test]
fn reference_builds_have_no_mismatch() {
    let catalogue = sample::catalogue();
    for (name, build) in sample::reference() {
        let report = sample::report(&catalogue, &build);
        assert!(report.craft.unplaced.is_empty(), "{name}: {:?}", report.craft.unplaced);
        let said: Vec<String> =
            report.findings.iter().filter(|finding| finding.status() == Status::Mismatch).map(explain::message).collect();
        assert_eq!(said, Vec::<String>::new(), "{name}");
    }
}

#[test]
fn reference_builds_know_price_and_mass() {
    let catalogue = sample::catalogue();
    for (name, build) in sample::reference() {
        let totals = sample::report(&catalogue, &build).totals;
        assert!(totals.unpriced.is_empty() && totals.unweighed.is_empty(), "{name}: {totals:?}");
        assert!(totals.dry_mass.is_some() && totals.takeoff_mass.is_some(), "{name}");
        // Packs that hold the pieces of each line, at the price of a pack, each currency by itself.
        let mut sums: BTreeMap<String, i64> = BTreeMap::new();
        for fitted in build.parts.iter().filter(|fitted| !fitted.owned) {
            let part = catalogue.part(&fitted.part).unwrap();
            let (price, pieces) = (part.price.unwrap(), part.pieces.unwrap_or(1));
            let packs = (1..=fitted.count).find(|packs| packs * pieces >= fitted.count).unwrap();
            *sums.entry(price.currency().to_owned()).or_default() += price.minor() * i64::from(packs);
        }
        let said = totals.cost.iter().map(|cost| (cost.currency().to_owned(), cost.minor())).collect();
        assert_eq!(sums, said, "{name}");
    }
}

#[test]
fn each_flawed_build_has_exactly_its_fault() {
    let catalogue = sample::catalogue();
    for (fault, build) in sample::flawed() {
        assert!(rules::by_id(fault).is_some(), "{fault} is named after the rule that finds it");
        assert_eq!(mismatches(&sample::report(&catalogue, &build)), [fault]);
    }
}

#[test]
fn every_finding_has_its_sentence() {
    let catalogue = sample::catalogue();
    for (name, build) in sample::reference().into_iter().chain(sample::flawed()) {
        let report = sample::report(&catalogue, &build);
        for finding in report.findings.iter().chain(&report.cautions).chain(&report.advice) {
            let message = explain::message(finding);
            assert!(message.ends_with(['.', '?']), "{name}, {}: {message:?}", finding.rule);
            assert!(!message.contains(['{', '}']) && !message.contains(" ? "), "{name}, {}: {message:?}", finding.rule);
        }
    }
}

/// The craft with another motor in the place of its own.
fn with_motor(build: &BuildList, motor: &str) -> BuildList {
    let mut swapped = build.clone();
    for fitted in swapped.parts.iter_mut().filter(|fitted| fitted.slot == Slot::Motor) {
        motor.clone_into(&mut fitted.part);
    }
    swapped
}

#[test]
fn each_class_can_be_built_in_three_ways_at_least() {
    let catalogue = sample::catalogue();
    for (name, build) in sample::reference() {
        let motors = catalogue.for_slot(Slot::Motor).map(|part| with_motor(&build, &part.id));
        let sound = motors.filter(|swapped| sample::report(&catalogue, swapped).count(Status::Mismatch) == 0).count();
        assert!(sound >= 3, "{name}: {sound} motors go with it");
    }
}
