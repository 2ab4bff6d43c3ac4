//! The sound demo builds keep every rule on power, radio, video and ports; a flawed one breaks the rule that it is named for.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::sync::Arc;

use propwright_engine::{
    Report, evaluate, explain,
    finding::{Finding, Status},
    policy::Policy,
    rules::{self, Group},
};
use propwright_schema::{build_list::BuildList, catalogue::Catalogue, ron_options};

const GROUPS: [Group; 4] = [Group::Complete, Group::Electrical, Group::Radio, Group::Firmware];
/// Rules of these groups that rest on models of currents and temperatures.
const BY_MODELS: [&str; 5] = ["esc-current", "motor-current", "loaded-cell", "landing-cell", "connector-heating"];

fn catalogue() -> Catalogue {
    let mut catalogue = Catalogue::default();
    for (_, text) in propwright_sample::CATALOGUE {
        catalogue.lay_over(&ron_options().from_str(text).unwrap());
    }
    catalogue
}

fn report(catalogue: &Catalogue, text: &str) -> Report {
    let build: BuildList = ron_options().from_str(text).unwrap();
    evaluate(catalogue, &Arc::new(build), &Policy::default())
}

fn of_wiring(finding: &Finding) -> bool {
    let group = rules::by_id(finding.rule).map(|rule| rule.group);
    group.is_some_and(|group| GROUPS.contains(&group)) && !BY_MODELS.contains(&finding.rule)
}

fn said(findings: &[&Finding]) -> Vec<String> {
    findings.iter().map(|finding| [finding.rule, ": ", &explain::message(finding)].concat()).collect()
}

#[test]
fn sound_builds_are_wired_well() {
    let catalogue = catalogue();
    for (name, text) in propwright_sample::REFERENCE {
        let report = report(&catalogue, text);
        let wiring = || report.findings.iter().filter(|finding| of_wiring(finding));
        let wrong: Vec<_> = wiring().filter(|finding| finding.status() == Status::Mismatch).collect();
        assert!(wrong.is_empty(), "{name}: {:#?}", said(&wrong));
        assert!(wiring().count() >= 20, "{name}: {} findings on its wiring", wiring().count());
        let unsaid: Vec<_> = wiring().filter(|finding| explain::message(finding).contains('?')).collect();
        assert!(unsaid.is_empty(), "{name}: {:#?}", said(&unsaid));
    }
}

#[test]
fn a_flawed_build_breaks_its_rule() {
    let catalogue = catalogue();
    for (name, text) in propwright_sample::FLAWED {
        let report = report(&catalogue, text);
        let broken: Vec<_> =
            report.findings.iter().filter(|finding| of_wiring(finding) && finding.status() == Status::Mismatch).collect();
        if rules::by_id(name).is_some_and(|rule| GROUPS.contains(&rule.group)) {
            assert!(broken.iter().any(|finding| finding.rule == *name), "{name}: {:#?}", said(&broken));
        }
        let others: Vec<_> = broken.into_iter().filter(|finding| finding.rule != *name).collect();
        assert!(others.is_empty(), "{name}: {:#?}", said(&others));
    }
}
