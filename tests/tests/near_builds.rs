//! Ten thousand builds, each one to four random swaps away from a sound one: nothing panics, the order of the slots changes
//! nothing, and every rule meets what it lets pass and what it does not.
//!
//! A seed tells a build; `PROPWRIGHT_NEAR=4711 cargo test -p propwright-tests --test near_builds` looks at that one alone.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::{collections::BTreeMap, sync::Arc, thread};

use propwright_engine::{
    evaluate,
    finding::{Finding, Status},
    policy::Policy,
    report::every_finding,
    rules::{self, Rule, Weight},
};
use propwright_schema::{build_list::BuildList, catalogue::Catalogue};
use propwright_tests::{
    near::{self, Dice, near, turned},
    sample,
};

/// How many builds.
const BUILDS: u64 = 10_000;
/// How often each rule lets a build pass, and how often it does not, at the least.
const LEAST: u64 = 20;
/// Every how many builds the whole report is made, with bill and sums, in both orders.
const WHOLE: u64 = 16;

/// In how many builds a rule let pass and did not.
#[derive(Debug, Clone, Copy, Default)]
struct Met {
    passed: u64,
    stopped: u64,
}

type Tally = BTreeMap<&'static str, Met>;

fn build_of(catalogue: &Catalogue, sound: &[(&'static str, BuildList)], seed: u64) -> (BuildList, Dice) {
    let mut dice = Dice::new(seed);
    let (_, reference) = &sound[dice.below(sound.len())];
    let swaps = 1 + dice.below(4);
    (near(catalogue, reference, swaps, &mut dice), dice)
}

/// All that the rules find, and that another order of the slots finds the same.
fn judged(catalogue: &Catalogue, sound: &[(&'static str, BuildList)], seed: u64) -> Vec<Finding> {
    let (build, mut dice) = build_of(catalogue, sound, seed);
    let other = Arc::new(turned(&build, &mut dice));
    let build = Arc::new(build);
    let policy = Policy::default();
    let found = every_finding(catalogue, &build, &policy);
    assert_eq!(found, every_finding(catalogue, &other, &policy), "the order of slots changes what is found, seed {seed}");
    if seed.is_multiple_of(WHOLE) {
        let (one, two) = (evaluate(catalogue, &build, &policy), evaluate(catalogue, &other, &policy));
        assert_eq!((one.findings, one.totals), (two.findings, two.totals), "seed {seed}");
        assert_eq!((one.cautions, one.advice, one.flight), (two.cautions, two.advice, two.flight), "seed {seed}");
    }
    found
}

/// A rule that can forbid stops a build by a mismatch, one that can only warn by a warning; advice and cautions let pass
/// when they are silent.
fn meets(rule: &Rule, found: &[Finding]) -> [bool; 2] {
    let worst = if rule.says.mismatch.is_empty() { Status::Tight } else { Status::Mismatch };
    let own = |status: Status| found.iter().any(|finding| finding.rule == rule.id && finding.status() == status);
    let stopped = own(worst);
    let passed = match rule.weight {
        Weight::Finding => own(Status::Fits),
        Weight::Advice | Weight::Caution => !stopped,
    };
    [passed, stopped]
}

fn tally(catalogue: &Catalogue, sound: &[(&'static str, BuildList)], seeds: impl Iterator<Item = u64>) -> Tally {
    let mut tally = Tally::new();
    for seed in seeds {
        let found = judged(catalogue, sound, seed);
        for rule in rules::ALL {
            let [passed, stopped] = meets(rule, &found);
            let met = tally.entry(rule.id).or_default();
            met.passed += u64::from(passed);
            met.stopped += u64::from(stopped);
        }
    }
    tally
}

/// All seeds, shared among the processor's cores.
fn all(catalogue: &Catalogue, sound: &[(&'static str, BuildList)]) -> Tally {
    let cores = thread::available_parallelism().map_or(1, |cores| cores.get() as u64);
    let shares = thread::scope(|scope| {
        let share = |core| scope.spawn(move || tally(catalogue, sound, (core..BUILDS).step_by(usize::try_from(cores).unwrap())));
        (0..cores).map(share).collect::<Vec<_>>().into_iter().map(|one| one.join().unwrap()).collect::<Vec<_>>()
    });
    let mut sum = Tally::new();
    for (rule, met) in shares.into_iter().flatten() {
        let of = sum.entry(rule).or_default();
        of.passed += met.passed;
        of.stopped += met.stopped;
    }
    sum
}

#[test]
fn every_rule_meets_both() {
    let (catalogue, sound) = (near::catalogue(), sample::reference());
    if let Some(seed) = std::env::var("PROPWRIGHT_NEAR").ok().and_then(|seed| seed.parse().ok()) {
        eprintln!("{:#?}", build_of(&catalogue, &sound, seed).0);
        judged(&catalogue, &sound, seed);
        return;
    }
    let tally = all(&catalogue, &sound);
    let mut rare = Vec::new();
    for (rule, Met { passed, stopped }) in &tally {
        eprintln!("{rule:24} let {passed:5} pass and stopped {stopped:5} of {BUILDS} builds");
        if *passed < LEAST || *stopped < LEAST {
            rare.push(format!("{rule}: {passed} passed, {stopped} stopped"));
        }
    }
    assert_eq!(tally.len(), rules::ALL.len());
    assert!(rare.is_empty(), "{} rules meet one of both fewer than {LEAST} times: {rare:#?}", rare.len());
}
