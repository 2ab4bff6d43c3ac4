//! The rule suite, and whether it would notice a broken rule or a moved threshold.
//!
//! `PROPWRIGHT_REWRITE=1 cargo test -p propwright-tests --test suite` writes the findings of today into the files: status,
//! rule and slots only. Read the difference before it is kept.

use std::{
    collections::{BTreeMap, BTreeSet},
    fs,
};

use propwright_engine::{
    finding::{Because, Claim, Status},
    policy::{self, Edit, Limit, Policy},
    rules,
};
use propwright_tests::suite::{self, Forced, Scenario};

/// Fewest files of the suite.
const FILES: usize = 60;

/// Limits for a warning that no file can show: the model's band is wider than the way to the limit that forbids, so a figure
/// between the two is tight by its band already.
const BEHIND_THE_BAND: &[&str] = &["hover-duty-micro"];

#[test]
fn every_file_finds_what_it_says() {
    let all = suite::all();
    let mut wrong = Vec::new();
    for scenario in &all {
        let found = scenario.found(&Policy::default(), None);
        if found != scenario.expected {
            if std::env::var_os("PROPWRIGHT_REWRITE").is_some() {
                fs::write(&scenario.path, scenario.rewritten(&found)).unwrap();
            }
            wrong.push(format!("{}\n  expected {:#?}\n  found {found:#?}", scenario.path.display(), scenario.expected));
        }
    }
    let findings: usize = all.iter().map(|scenario| scenario.expected.len()).sum();
    eprintln!("{} files hold {findings} findings of {} rules", all.len(), rules::ALL.len());
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(all.len() >= FILES, "only {} files", all.len());
}

#[test]
fn every_file_judges_known_rules_and_says_what_it_is_about() {
    for scenario in suite::all() {
        let name = scenario.path.display();
        assert!(!scenario.judges.is_empty(), "{name} judges nothing");
        for rule in &scenario.judges {
            assert!(rules::by_id(rule).is_some(), "{name} judges {rule}, which is no rule");
        }
        for line in &scenario.expected {
            let rule = line.split(' ').nth(1).unwrap_or_default();
            assert!(scenario.judges.iter().any(|judged| judged == rule), "{name} expects a finding of {rule}");
        }
        assert!(
            scenario.text.starts_with("// ") && !scenario.text.starts_with("// judges"),
            "{name} begins with what it is about"
        );
    }
}

/// A file with what it finds now, and the thresholds that its reasons name.
struct Known {
    scenario: Scenario,
    now: Vec<String>,
    names: BTreeSet<&'static str>,
}

impl Known {
    /// Does it find something else than now? What it expects wrongly is the matter of another test.
    fn notices(&self, policy: &Policy, forced: Forced) -> bool {
        self.scenario.found(policy, forced) != self.now
    }
}

fn all_known() -> Vec<Known> {
    let known = |scenario: Scenario| {
        let mut names = BTreeSet::new();
        for finding in scenario.findings(&Policy::default()) {
            finding.outcome.facts.iter().for_each(|(_, because)| named(because, &mut names));
        }
        Known { now: scenario.found(&Policy::default(), None), scenario, names }
    };
    suite::all().into_iter().map(known).collect()
}

/// Collects the thresholds that a reason names.
fn named(because: &Because, names: &mut BTreeSet<&'static str>) {
    if let Claim::Threshold { name, .. } = &because.claim {
        names.insert(name);
    }
    because.from.iter().for_each(|below| named(below, names));
}

#[test]
fn a_rule_that_always_says_the_same_is_noticed() {
    let all = all_known();
    let (mut missed, mut killed) = (Vec::new(), 0);
    for rule in rules::ALL {
        let judged = |known: &&Known| known.scenario.judges.iter().any(|judged| judged == rule.id);
        let own: Vec<&Known> = all.iter().filter(judged).collect();
        for status in [Status::Fits, Status::Mismatch, Status::Unstated] {
            if own.iter().any(|known| known.notices(&Policy::default(), Some((rule.id, status)))) {
                killed += 1;
            } else {
                missed.push(format!("{} forced to {}", rule.id, status.word()));
            }
        }
    }
    eprintln!("{killed} forced rules noticed, {} not", missed.len());
    assert!(missed.is_empty(), "the suite of {} files misses {}: {missed:#?}", all.len(), missed.len());
}

/// A threshold moved to another place: a count by one, one at zero by a twentieth of its unit, any other by its share.
fn moved(limit: &Limit, value: f64, share: f64) -> f64 {
    if limit.unit.dimension == "count" {
        value + share.signum()
    } else if value == 0.0 {
        share
    } else {
        value * (1.0 + share)
    }
}

/// One of a limit's two thresholds moved by a share, the other left; with what was moved.
fn movements(limit: &Limit) -> Vec<(String, Policy)> {
    let mut all = Vec::new();
    for share in [-0.05, 0.05] {
        let by = |value: Option<f64>| value.map(|value| moved(limit, value, share));
        let edits = [
            ("tight", Edit { tight: by(limit.tight), mismatch: None }),
            ("mismatch", Edit { tight: None, mismatch: by(limit.mismatch) }),
        ];
        for (which, edit) in edits {
            let moves = edit.tight.or(edit.mismatch).is_some();
            let hidden = which == "tight" && BEHIND_THE_BAND.contains(&limit.name);
            if moves && !hidden {
                let policy = Policy::edited(BTreeMap::from([(limit.name.to_owned(), edit)]));
                all.push((format!("{} {which} by {share}", limit.name), policy));
            }
        }
    }
    all
}

#[test]
fn a_threshold_moved_by_five_per_cent_is_noticed() {
    let all = all_known();
    let (mut missed, mut killed) = (Vec::new(), 0);
    for limit in policy::ALL {
        // Files whose reasons name the threshold first: they will notice.
        let (first, then): (Vec<&Known>, Vec<&Known>) = all.iter().partition(|known| known.names.contains(limit.name));
        for (what, policy) in movements(limit) {
            if first.iter().chain(&then).any(|known| known.notices(&policy, None)) {
                killed += 1;
            } else {
                missed.push(what);
            }
        }
    }
    eprintln!("{killed} moved thresholds noticed, {} not", missed.len());
    assert!(missed.is_empty(), "the suite of {} files misses {}: {missed:#?}", all.len(), missed.len());
}
