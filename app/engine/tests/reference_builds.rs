//! The mechanical rules on the sample builds: sound builds have no mismatch, and each flaw is found by the rule of its name.

use std::sync::Arc;

use propwright_engine::{evaluate, explain, finding::Finding, finding::Status, policy::Policy, rules, rules::Group};
use propwright_sample::{CATALOGUE, FLAWED, REFERENCE};
use propwright_schema::{build_list::BuildList, catalogue::Catalogue, catalogue::CatalogueFile, ron_options};

fn catalogue() -> Result<Catalogue, ron::error::SpannedError> {
    let mut catalogue = Catalogue::default();
    for (_, text) in CATALOGUE {
        let file: CatalogueFile = ron_options().from_str(text)?;
        catalogue.lay_over(&file);
    }
    Ok(catalogue)
}

fn mechanical(catalogue: &Catalogue, text: &str) -> Result<Vec<Finding>, ron::error::SpannedError> {
    let build: BuildList = ron_options().from_str(text)?;
    let of_shapes = |finding: &Finding| rules::by_id(finding.rule).is_some_and(|rule| rule.group == Group::Mechanical);
    let report = evaluate(catalogue, &Arc::new(build), &Policy::default());
    Ok(report.findings.into_iter().filter(of_shapes).collect())
}

#[test]
fn sound_builds_have_no_mechanical_mismatch() {
    let catalogue = catalogue().unwrap();
    for (name, text) in REFERENCE {
        let findings = mechanical(&catalogue, text).unwrap();
        let broken = findings.iter().filter(|finding| finding.status() == Status::Mismatch);
        let said: Vec<String> = broken.map(|finding| [finding.rule, ": ", &explain::message(finding)].concat()).collect();
        assert!(said.is_empty(), "{name}: {said:#?}");
        assert!(findings.iter().any(|finding| finding.status() == Status::Fits), "{name}: nothing was judged");
    }
}

#[test]
fn a_mechanical_flaw_is_found_by_its_rule() {
    let catalogue = catalogue().unwrap();
    let flaws = FLAWED.iter().filter(|(rule, _)| rules::by_id(rule).is_some_and(|rule| rule.group == Group::Mechanical));
    let mut seen = 0;
    for (rule, text) in flaws {
        let findings = mechanical(&catalogue, text).unwrap();
        let broken: Vec<&str> =
            findings.iter().filter(|finding| finding.status() == Status::Mismatch).map(|finding| finding.rule).collect();
        assert_eq!(broken, [*rule]);
        seen += 1;
    }
    assert!(seen > 0, "no flaw of shape among the samples");
}
