//! The rule suite, and whether it would notice a broken rule.
//!
//! `PROPWRIGHT_REWRITE=1 cargo test -p propwright-tests --test suite` writes the findings of today into the files: status,
//! rule and slots only. Read the difference before it is kept.
#![expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]

use std::{collections::BTreeMap, fs};

use propwright_engine::{
    finding::Status,
    policy::{self, Edit, Limit, Policy},
    rules,
};
use propwright_tests::suite::{self, Forced, Scenario};

#[test]
fn every_file_finds_what_it_says() {
    let mut wrong = Vec::new();
    for scenario in suite::all() {
        let found = scenario.found(&Policy::default(), None);
        if found != scenario.expected {
            if std::env::var_os("PROPWRIGHT_REWRITE").is_some() {
                fs::write(&scenario.path, scenario.rewritten(&found)).unwrap();
            }
            wrong.push(format!("{}\n  expected {:#?}\n  found {found:#?}", scenario.path.display(), scenario.expected));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

fn notices(all: &[Scenario], policy: &Policy, forced: Forced) -> bool {
    all.iter().any(|scenario| scenario.found(policy, forced) != scenario.expected)
}

#[test]
#[ignore = "until the suite holds every rule"]
fn a_rule_that_always_says_the_same_is_noticed() {
    let all = suite::all();
    let mut missed = Vec::new();
    for rule in rules::ALL {
        let own: Vec<&Scenario> = all.iter().filter(|scenario| scenario.judges.iter().any(|judged| judged == rule.id)).collect();
        for status in [Status::Fits, Status::Mismatch, Status::Unstated] {
            let noticed =
                own.iter().any(|scenario| scenario.found(&Policy::default(), Some((rule.id, status))) != scenario.expected);
            if !noticed {
                missed.push(format!("{} forced to {}", rule.id, status.word()));
            }
        }
    }
    assert!(missed.is_empty(), "the suite of {} files misses {}: {missed:#?}", all.len(), missed.len());
}

fn moved(limit: &Limit, by: f64) -> Policy {
    let move_one = |value: Option<f64>| value.map(|value| if value == 0.0 { by - 1.0 } else { value * by });
    Policy::edited(BTreeMap::from([(
        limit.name.to_owned(),
        Edit { tight: move_one(limit.tight), mismatch: move_one(limit.mismatch) },
    )]))
}

#[test]
#[ignore = "until the suite holds every rule"]
fn a_threshold_moved_by_five_per_cent_is_noticed() {
    let all = suite::all();
    let mut missed = Vec::new();
    for limit in policy::ALL {
        for by in [0.95, 1.05] {
            if !notices(&all, &moved(limit, by), None) {
                missed.push(format!("{} times {by}", limit.name));
            }
        }
    }
    assert!(missed.is_empty(), "the suite of {} files misses {}: {missed:#?}", all.len(), missed.len());
}
