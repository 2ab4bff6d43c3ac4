//! Every figure shows its working: in the report, in JSON and in the plain text.

#![expect(clippy::unwrap_used, reason = "a key that is not there fails the test")]

use std::{collections::BTreeSet, sync::Arc};

use propwright_engine::{
    Report, explain,
    finding::{Because, Claim},
    working::{self, figures},
};
use propwright_paper::{json, text};
use propwright_tests::sample;
use serde_json::Value;

/// Figures that every craft with video, control link, pack and prices has.
const MAIN: [&str; 13] = [
    "takeoff-mass",
    "thrust-to-weight",
    "hover-duty",
    "hover-current",
    "battery-burst",
    "time-hover",
    "time-calm",
    "time-hard",
    "time-flat-out",
    "top-speed",
    "wind-held",
    "path",
    "radius-energy",
];

fn each_reference(mut check: impl FnMut(&str, &Report)) {
    let catalogue = sample::catalogue();
    for (name, build) in sample::reference() {
        check(name, &sample::report(&catalogue, &build));
    }
}

/// The steps that rest on nothing, anywhere below.
fn leaves<'b>(step: &'b Arc<Because>, into: &mut Vec<&'b Arc<Because>>) {
    if step.from.is_empty() {
        into.push(step);
    }
    step.from.iter().for_each(|below| leaves(below, into));
}

#[test]
fn every_main_figure_goes_down_to_facts_and_assumptions() {
    each_reference(|name, report| {
        for id in MAIN.into_iter().chain([working::COST]) {
            let workings = report.working(id);
            assert!(!workings.is_empty(), "{name}: {id}");
            for working in workings {
                let mut all = Vec::new();
                leaves(&working.because, &mut all);
                assert!(!Arc::ptr_eq(all[0], &working.because), "{name}: {id} rests on nothing");
                let told = |leaf: &Because| {
                    matches!(leaf.claim, Claim::Fact { .. } | Claim::Assumption { .. } | Claim::Threshold { .. })
                };
                let others: BTreeSet<String> =
                    all.into_iter().filter(|leaf| !told(leaf)).map(|leaf| explain::headline(leaf)).collect();
                assert!(others.is_empty(), "{name}: {id} ends at {others:?}");
            }
        }
    });
}

#[test]
fn a_computed_step_says_its_formula_and_somewhere_below_its_source() {
    fn sourced(step: &Because) -> bool {
        explain::source(step).is_some_and(|source| !source.is_empty()) || step.from.iter().any(|below| sourced(below))
    }
    fn told(step: &Because) {
        if matches!(step.claim, Claim::Derived { .. }) {
            assert!(explain::working(step).is_some(), "{}", explain::headline(step));
            assert!(sourced(step), "{}", explain::headline(step));
        }
        step.from.iter().for_each(|below| told(below));
    }
    each_reference(|_, report| report.workings().iter().for_each(|working| told(&working.because)));
}

/// All steps of JSON, anywhere below.
fn steps<'v>(value: &'v Value, into: &mut Vec<&'v Value>) {
    match value {
        Value::Array(items) => items.iter().for_each(|item| steps(item, into)),
        Value::Object(fields) => {
            if fields.contains_key("because") && fields.contains_key("text") {
                into.push(value);
            }
            fields.values().for_each(|inner| steps(inner, into));
        }
        _ => {}
    }
}

#[test]
fn no_derivation_is_told_twice_and_each_reference_was_told_before() {
    each_reference(|name, report| {
        let answer = serde_json::to_value(json::report(report, &[])).unwrap();
        let mut all = Vec::new();
        steps(&answer["findings"], &mut all);
        steps(&answer["workings"], &mut all);
        let (mut told, mut numbers) = (BTreeSet::new(), BTreeSet::new());
        for step in all {
            if let Some(number) = step["as_told"].as_u64() {
                assert!(numbers.contains(&number), "{name}: {number} was not told before");
                assert!(step["because"].as_array().unwrap().is_empty());
                continue;
            }
            if let Some(number) = step["told"].as_u64() {
                assert!(numbers.insert(number), "{name}: two steps are number {number}");
            }
            if step["derived"].is_object() && !step["because"].as_array().unwrap().is_empty() {
                let what = format!("{} {} {}", step["derived"]["slot"], step["text"], step["because"]);
                assert!(told.insert(what.clone()), "{name}: told twice: {what}");
            }
        }
    });
}

/// The figure of a key beside its working: under `totals` or `flight`.
fn beside(answer: &Value, key: &str) -> Value {
    let flight = &answer["flight"];
    let (group, rest) = key.split_once('_').unwrap();
    let grouped = |group: &str, suffix: &str| flight[group][rest.strip_suffix(suffix).unwrap()].clone();
    match group {
        "takeoff" | "dry" => answer["totals"][key].clone(),
        "time" => grouped("time_min", "_min"),
        "radius" => flight["radius_km"][rest.strip_suffix("_km").unwrap_or(rest)].clone(),
        _ => flight[key].clone(),
    }
}

#[test]
fn figures_in_json_are_those_of_their_workings() {
    each_reference(|name, report| {
        let answer = serde_json::to_value(json::report(report, &[])).unwrap();
        let mut compared = BTreeSet::new();
        for working in answer["workings"].as_array().unwrap() {
            let key = working["figure"].as_str().unwrap();
            let derived = &working["step"]["derived"];
            if key == working::COST {
                let amounts = answer["totals"]["cost"].as_array().unwrap();
                let said = |one: &Value| format!("{} {}", one["amount"].as_str().unwrap(), one["currency"].as_str().unwrap());
                assert!(amounts.iter().any(|one| derived["name"] == said(one)), "{name}: {derived}");
                compared.insert(key.to_owned());
                continue;
            }
            let figure = beside(&answer, key);
            if let Some(band) = figure.as_object() {
                let nominal = if derived["band"].is_object() { &derived["band"]["nominal"] } else { &derived["value"] };
                assert_eq!(band["nominal"], *nominal, "{name}: {key}");
                compared.insert(key.to_owned());
            }
        }
        let main = figures().filter(|(_, id)| MAIN.contains(id)).map(|(key, _)| key).chain([working::COST]);
        for key in main {
            assert!(compared.contains(key), "{name}: {key} was not compared");
        }
    });
}

#[test]
fn the_plain_text_tells_the_workings_when_they_are_asked_for() {
    each_reference(|name, report| {
        let (plain, worked) = (text::report(report, &[]), text::report_with_workings(report, &[]));
        let heading = "How each figure comes about";
        assert!(!plain.contains(heading), "{name}");
        let (_, told) = worked.split_once(heading).unwrap();
        for id in MAIN {
            let working = &report.working(id)[0];
            let beginning = explain::headline(&working.because);
            let beginning = beginning.split(' ').take(4).collect::<Vec<_>>().join(" ");
            assert!(told.contains(&beginning), "{name}: {beginning}");
        }
        assert!(told.contains("[as told at "), "{name}: figures of one solve refer to it");
    });
}
