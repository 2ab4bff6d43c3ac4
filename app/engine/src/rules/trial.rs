//! Runs a rule on a small craft given as text.

use std::sync::Arc;

use propwright_schema::{build_list::BuildList, catalogue::Catalogue, catalogue::CatalogueFile, ron_options};

use super::{Example, Rule};
use crate::{
    Report, craft::Craft, evaluate, finding::Outcome, finding::Status, graph, graph::Reading, graph::Site, interval::Interval,
    policy::Policy,
};

/// The craft of an example.
pub(crate) fn craft(parts: &str, build: &str) -> Craft {
    let (catalogue, build) = read(parts, build);
    Craft::new(&catalogue, &build)
}

/// The report of a craft.
pub(crate) fn report(parts: &str, build: &str) -> Report {
    let (catalogue, build) = read(parts, build);
    evaluate(&catalogue, &build, &Policy::default())
}

/// The parts and the build list of an example.
pub(crate) fn read(parts: &str, build: &str) -> (Catalogue, Arc<BuildList>) {
    let file: CatalogueFile =
        ron_options().from_str(&format!("(version: 1, parts: [{parts}])")).expect("the parts of an example");
    let mut catalogue = Catalogue::default();
    catalogue.lay_over(&file);
    let build: BuildList = ron_options().from_str(&format!("(version: 1, name: \"trial\", {build})")).expect("its build list");
    (catalogue, Arc::new(build))
}

/// What a rule finds on a craft.
pub(crate) fn outcomes(rule: &Rule, parts: &str, build: &str) -> Vec<Outcome> {
    let (craft, policy) = (craft(parts, build), Policy::default());
    let store = graph::graph().derive(&craft, &policy);
    rule.check(&Site::new(&craft, &store, &policy))
}

/// The statuses of what a rule finds on a craft.
pub(crate) fn verdicts(rule: &Rule, parts: &str, build: &str) -> Vec<Status> {
    outcomes(rule, parts, build).iter().map(|outcome| outcome.verdict.status).collect()
}

/// The readings of a derivation on a craft.
pub(crate) fn readings(parts: &str, build: &str, id: &'static str) -> Vec<Reading> {
    let (craft, policy) = (craft(parts, build), Policy::default());
    let store = graph::graph().derive(&craft, &policy);
    Site::new(&craft, &store, &policy).all(graph::derived(id))
}

/// The one figure of a derivation on a craft.
pub(crate) fn figure(parts: &str, build: &str, id: &'static str) -> Interval {
    readings(parts, build, id)[0].figure().expect("a figure")
}

/// The statuses of what a rule finds on a craft whose parts are given one a line: slot, figures of its record, and what more
/// the line of the build list says.
pub(crate) fn judged(rule: &Rule, fitted: &[(&str, &str, &str)], more: &str) -> Vec<Status> {
    let role = |slot: &&str| if slot.starts_with("Antenna") { "Antenna".to_owned() } else { (*slot).to_owned() };
    let numbered = || fitted.iter().enumerate();
    let part = |(at, (slot, record, _)): (usize, &(&str, &str, &str))| {
        format!("(id: \"{at}\", name: \"{slot} {at}\", fills: [{}({record})]),", role(slot))
    };
    let line = |(at, (slot, _, line)): (usize, &(&str, &str, &str))| format!("(slot: {slot}, part: \"{at}\"{line}),");
    let (parts, lines): (String, String) = (numbered().map(part).collect(), numbered().map(line).collect());
    verdicts(rule, &parts, &format!("parts: [{lines}], {more}"))
}

/// A flag of the radio's record is asked of newcomers, up to ten hours in the air, and of nobody else.
pub(crate) fn only_newcomers_want_of_a_radio(rule: &Rule, flag: &str) {
    let radio = |record: &str, hours: &str| judged(rule, &[("Radio", record, "")], hours);
    let lacks = format!("{flag}: false");
    assert_eq!(radio(&lacks, "pilot: (flown_h: 9)"), [Status::Tight]);
    assert_eq!(radio(&lacks, "pilot: (flown_h: 10)"), [Status::Fits]);
    assert_eq!(radio("", "pilot: (flown_h: 10)"), [Status::Fits], "nothing more is asked");
    assert_eq!(radio("", "pilot: (flown_h: 0)"), [Status::Unstated]);
}

fn gravest(rule: &Rule, example: &Example) -> Option<Status> {
    verdicts(rule, example.parts, example.build).into_iter().max()
}

#[test]
fn examples_do_what_they_say() {
    for rule in super::ALL {
        let failing = if rule.says.mismatch.is_empty() { Status::Tight } else { Status::Mismatch };
        assert_eq!(gravest(rule, &rule.fails), Some(failing), "{}: the failing example", rule.id);
        let passed = gravest(rule, &rule.passes);
        assert!(matches!(passed, Some(Status::Fits) | None), "{}: the passing example is {passed:?}", rule.id);
    }
}
