//! A policy file of the user's own: it takes effect, is marked on every finding that it touches, and tells its problems with
//! their places.
#![expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]

use std::{collections::BTreeMap, sync::Arc};

use propwright::cli::Exit;
use propwright_engine::{
    finding::Finding,
    policy::{self, Edit, Policy},
    report::every_finding,
};
use propwright_tests::{
    command_line::{path, propwright},
    sample,
    scratch::Scratch,
};
use serde_json::Value;

/// The report of the demo build on a 30 V capacitor's margin as somebody likes it.
fn judged_by(policy: &str, test: &str, json: bool) -> (Exit, String) {
    let scratch = Scratch::new(test);
    let build = scratch.file("build.ron", sample::demo_text());
    let policy = scratch.file("own.ron", policy);
    let mut args = vec!["check".into(), path(&build), "--policy".into(), path(&policy)];
    args.extend(json.then(|| "--json".into()));
    let answered = propwright(args);
    (answered.exit, answered.out + &answered.err)
}

fn of_rule<'v>(report: &'v Value, rule: &str) -> &'v Value {
    report["findings"].as_array().unwrap().iter().find(|finding| finding["rule"] == rule).unwrap()
}

const STRICT: &str = r#"(version: 1, thresholds: [(name: "capacitor-spare", tight: 1.5, note: "they age")])"#;

#[test]
fn an_edit_takes_effect_and_is_marked_in_json() {
    let (_, out) = judged_by(STRICT, "an_edit_takes_effect_and_is_marked_in_json", true);
    let report: Value = serde_json::from_str(&out).unwrap();
    let finding = of_rule(&report, "capacitor-voltage");
    assert_eq!(finding["status"], "tight");
    let own = &finding["own_thresholds"][0];
    assert_eq!((&own["threshold"], &own["which"]), (&Value::from("capacitor-spare"), &Value::from("tight")));
    assert_eq!((own["value"].as_f64(), own["instead_of"].as_f64()), (Some(1.5), Some(1.2)));
    assert_eq!(own["text"], "your own threshold: 1.5 instead of 1.2 (capacitor-spare, tight)");
    assert_eq!(of_rule(&report, "motor-pattern")["own_thresholds"], Value::Array(Vec::new()));
}

#[test]
fn an_edit_is_marked_in_the_text() {
    let (_, out) = judged_by(STRICT, "an_edit_is_marked_in_the_text", false);
    let joined = out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(joined.contains("your own threshold: 1.5 instead of 1.2 (capacitor-spare, tight)"), "{out}");
}

#[test]
fn problems_have_their_places() {
    let text = "(\n    version: 1,\n    thresholds: [\n        (name: \"capacitor-spar\", tight: 1.5),\n        (name: \"tip-gap\", tight: -1),\n        (name: \"tip-mach\", mismatch: 0.9),\n        (name: \"cold\"),\n    ],\n)\n";
    let (exit, out) = judged_by(text, "problems_have_their_places", false);
    assert_eq!(exit, Exit::Refused);
    assert!(out.contains("own.ron:7:"), "named and not changed: {out}");
    let text = text.replace("        (name: \"cold\"),\n", "");
    let (exit, out) = judged_by(&text, "problems_have_their_places_too", false);
    assert_eq!(exit, Exit::Refused);
    for wanted in ["own.ron:4:", "did you mean \"capacitor-spare\"?", "own.ron:5:", "own.ron:6:", "has no mismatch value"] {
        assert!(out.contains(wanted), "{wanted} in {out}");
    }
}

#[test]
fn what_reads_no_policy_is_refused() {
    for text in ["", "(version: 9)", "(version: 1, threshold: [])", "(version: 1, thresholds: [(name: \"cold\", tight: NaN)])"] {
        assert!(policy::read("own.ron", text).is_err(), "{text}");
    }
    assert_eq!(policy::read("own.ron", "(version: 1)").unwrap(), Policy::default());
}

/// Every finding that a moved threshold alters says so, over all thresholds and all sound builds.
#[test]
fn whatever_an_edit_alters_is_marked() {
    let catalogue = sample::catalogue();
    let mut unmarked = Vec::new();
    for (name, build) in sample::reference() {
        let build = Arc::new(build);
        let before = every_finding(&catalogue, &build, &Policy::default());
        for limit in policy::ALL {
            let doubled = |value: Option<f64>| value.map(|value| if value == 0.0 { 1.0 } else { value * 1.5 });
            let edit = Edit { tight: doubled(limit.tight), mismatch: doubled(limit.mismatch) };
            let own = Policy::edited(BTreeMap::from([(limit.name.to_owned(), edit)]));
            let after = every_finding(&catalogue, &build, &own);
            let status = |finding: &&Finding| (finding.rule, finding.status());
            let same = before.len() == after.len();
            let altered = before.iter().zip(&after).filter(|(one, other)| same && status(one) != status(other));
            for (_, finding) in altered {
                let marked = finding.own_thresholds().iter().any(|own| own.name == limit.name);
                unmarked.extend((!marked).then(|| format!("{name}: {} altered {}", limit.name, finding.rule)));
            }
        }
    }
    assert!(unmarked.is_empty(), "not marked: {unmarked:#?}");
}
