//! No threshold of any rule is hidden: what a finding rests on stands at its rule in the help and in the documents, and every
//! threshold of the policy is judged by somewhere.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};

use propwright_engine::{finding::Finding, policy, policy::Policy, report::every_finding, rules, thresholds};
use propwright_schema::{build_list::BuildList, catalogue::Catalogue};
use propwright_tests::{sample, suite};

/// The thresholds that the help and the documents name at each rule.
fn shown() -> BTreeMap<&'static str, BTreeSet<&'static str>> {
    rules::ALL.iter().map(|rule| (rule.id, thresholds::of_rule(rule).into_iter().collect())).collect()
}

fn on_builds() -> Vec<Finding> {
    let (catalogue, policy) = (sample::catalogue(), Policy::default());
    let found = |catalogue: &Catalogue, build: BuildList| every_finding(catalogue, &Arc::new(build), &policy);
    let carried = sample::reference().into_iter().chain(sample::flawed()).map(|(_, build)| build);
    let builds = carried.chain(sample::sound().into_iter().map(|(_, build)| build));
    let of_builds: Vec<Finding> = builds.flat_map(|build| found(&catalogue, build)).collect();
    of_builds.into_iter().chain(suite::all().iter().flat_map(|scenario| scenario.findings(&policy))).collect()
}

#[test]
fn what_a_finding_rests_on_stands_at_its_rule() {
    let shown = shown();
    let mut hidden = BTreeSet::new();
    for finding in on_builds() {
        let known = &shown[finding.rule];
        hidden.extend(thresholds::of_finding(&finding).difference(known).map(|name| format!("{}: {name}", finding.rule)));
    }
    assert!(hidden.is_empty(), "not shown at their rules: {hidden:#?}");
}

#[test]
fn every_threshold_stands_at_some_rule() {
    let named: BTreeSet<&str> = shown().into_values().flatten().collect();
    let unused: Vec<&str> = policy::ALL.iter().map(|limit| limit.name).filter(|name| !named.contains(name)).collect();
    assert!(unused.is_empty(), "no rule names them: {unused:#?}");
}
