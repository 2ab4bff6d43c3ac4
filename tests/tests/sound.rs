//! Sound builds, which an experienced builder would fly, are let pass: none has a mismatch, and each carries at most three tight
//! findings, every one of which a builder agrees with.
//!
//! The builds are those of the demo catalogue and those of `sound/`, at least three a class. `sound/tight.txt` tells each tight
//! finding with the reason why a builder agrees with it; one that is not told there is a rule that fires wrongly.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::collections::{BTreeMap, BTreeSet};

use propwright_engine::{
    Report, explain,
    finding::{Finding, Status},
};
use propwright_schema::{
    build_list::{BuildList, Use},
    catalogue::Catalogue,
    slot::Slot,
};
use propwright_tests::sample;

/// Most tight findings of a sound build.
const MOST_TIGHT: usize = 3;
/// Least sound builds beside those of the demo catalogue, and of each class.
const LEAST: usize = 20;
const LEAST_OF_A_CLASS: usize = 3;
/// Largest propeller of a small long-range craft, in inches.
const SMALL: f64 = 4.5;

/// The builds of the demo catalogue and the sound ones, by their names.
fn all() -> Vec<(String, BuildList)> {
    let reference = sample::reference().into_iter().map(|(name, build)| (name.to_owned(), build));
    reference.chain(sample::sound()).collect()
}

/// Build and rule of each tight finding that a builder agrees with, and why.
fn agreed() -> BTreeMap<(String, String), String> {
    let line = |line: &str| {
        let mut words = line.splitn(3, ": ").map(|word| word.trim().to_owned());
        let (build, rule, reason) = (words.next().unwrap(), words.next().unwrap(), words.next().unwrap_or_default());
        assert!(reason.len() > 20, "{build}, {rule}: no reason is told");
        ((build, rule), reason)
    };
    let text = include_str!("../sound/tight.txt");
    text.lines().filter(|line| !line.is_empty() && !line.starts_with('#')).map(line).collect()
}

fn of_status(report: &Report, status: Status) -> Vec<&Finding> {
    report.findings.iter().filter(|finding| finding.status() == status).collect()
}

fn said(name: &str, findings: &[&Finding]) -> Vec<String> {
    findings.iter().map(|finding| format!("{name}: {} fires: {}", finding.rule, explain::message(finding))).collect()
}

#[test]
fn no_rule_fires_wrongly_on_a_sound_build() {
    let (catalogue, agreed) = (sample::catalogue(), agreed());
    let (mut wrong, mut met) = (Vec::new(), BTreeSet::new());
    for (name, build) in all() {
        let report = sample::report(&catalogue, &build);
        wrong.extend(said(&name, &of_status(&report, Status::Mismatch)));
        let tight = of_status(&report, Status::Tight);
        if tight.len() > MOST_TIGHT {
            wrong.extend(said(&name, &tight));
        }
        for finding in tight {
            let key = (name.clone(), finding.rule.to_owned());
            if !agreed.contains_key(&key) {
                wrong.extend(said(&name, &[finding]));
            }
            met.insert(key);
        }
        assert!(report.flight.is_some(), "{name}: its flight is not known");
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    let gone: Vec<_> = agreed.keys().filter(|key| !met.contains(*key)).collect();
    assert!(gone.is_empty(), "told in sound/tight.txt and found no more: {gone:?}");
}

/// The class of a build by its use, and by its propellers where one use has two classes.
fn class(catalogue: &Catalogue, build: &BuildList) -> String {
    let usage = build.purpose.usage.unwrap();
    let propeller = build.fitted(Slot::Propeller).next().and_then(|(_, fitted)| catalogue.part(&fitted.part)).unwrap();
    let diameter = propeller.role(Slot::Propeller).and_then(|role| role.get("diameter_in")).unwrap();
    let inches = propwright_engine::interval::Interval::of(&diameter).unwrap().decimals()[1];
    let small = usage == Use::LongRange && inches <= SMALL;
    format!("{}{}", if small { "small " } else { "" }, usage.word())
}

#[test]
fn at_least_three_sound_builds_a_class() {
    let catalogue = sample::catalogue();
    let sound = sample::sound();
    assert!(sound.len() >= LEAST, "{}", sound.len());
    let mut classes: BTreeMap<String, usize> = BTreeMap::new();
    for (_, build) in &sound {
        *classes.entry(class(&catalogue, build)).or_default() += 1;
    }
    assert_eq!(classes.len(), Use::ALL.len() + 1, "{classes:?}");
    assert!(classes.values().all(|builds| *builds >= LEAST_OF_A_CLASS), "{classes:?}");
}

/// Builds that differ by a part or two would find no more than one of them.
#[test]
fn sound_builds_are_of_different_parts() {
    let parts = |build: &BuildList, slot: Slot| -> BTreeSet<String> {
        build.parts.iter().filter(|fitted| fitted.slot == slot).map(|fitted| fitted.part.clone()).collect()
    };
    let core = |build: &BuildList| [Slot::Frame, Slot::Motor, Slot::Propeller, Slot::Battery].map(|slot| parts(build, slot));
    let (all, carried) = (all(), sample::reference().len());
    for (at, (name, build)) in all.iter().enumerate().skip(carried) {
        for (other_name, other) in &all[..at] {
            let same = core(build).iter().zip(core(other)).filter(|(one, other)| **one == *other).count();
            assert!(same <= 2, "{name} and {other_name} share {same} of frame, motor, propeller and pack");
        }
    }
    let different = |slot| sample::sound().iter().flat_map(|(_, build)| parts(build, slot)).collect::<BTreeSet<_>>().len();
    for (slot, least) in
        [(Slot::Frame, 18), (Slot::Motor, 16), (Slot::Propeller, 16), (Slot::Battery, 13), (Slot::VideoTransmitter, 8)]
    {
        assert!(different(slot) >= least, "{slot}: {} of them", different(slot));
    }
}
