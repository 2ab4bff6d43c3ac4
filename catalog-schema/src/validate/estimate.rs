//! What is wrong with what the user estimates.

use super::{Issue, Step, described, id_issue, number};
use crate::{
    build_list::BuildList,
    description,
    diagnostic::did_you_mean,
    estimate::{Estimate, MEASURED},
};

/// What is wrong with the estimates of one part.
pub(crate) fn estimate(estimate: &Estimate) -> Vec<Issue> {
    let mut issues: Vec<Issue> = id_issue(&estimate.part).map(|issue| issue.key("part")).into_iter().collect();
    issues.extend(number(&description::MASS, estimate.mass_g));
    for (at, role) in estimate.fills.iter().enumerate() {
        let found = described(role.fields(), |name| role.get(name));
        let measured = MEASURED.into_iter().filter(|name| role.get(name).is_some()).map(|name| {
            let hint = "write it into a catalogue of your own, or into the stand of the list";
            Issue::new("a measurement cannot be estimated".to_owned(), hint).key(name)
        });
        issues.extend(found.into_iter().chain(measured).map(|issue| issue.within(Step::Item(at)).key("fills")));
    }
    if estimate.mass_g.is_none() && estimate.fills.is_empty() {
        let hint = "say what is estimated, such as fills: [Motor(thread_depth_mm: 3.5)], or remove it";
        issues.push(Issue::new("nothing is estimated here".to_owned(), hint));
    }
    issues
}

/// Estimates of parts that no line lists, and a second record for a part.
pub(crate) fn estimates_elsewhere(build: &BuildList) -> Vec<Issue> {
    let mut issues = Vec::new();
    for (at, estimate) in build.estimates.iter().enumerate() {
        let listed = build.parts.iter().any(|fitted| fitted.part == estimate.part);
        let again = build.estimates[..at].iter().any(|before| before.part == estimate.part);
        let found = if !listed {
            let ids = build.parts.iter().map(|fitted| fitted.part.as_str());
            let hint = match did_you_mean(&estimate.part, ids) {
                Some(meant) => format!("did you mean \"{meant}\"?"),
                None => "name a part of the list, or remove the estimate".to_owned(),
            };
            Issue::new(format!("no line lists \"{}\", of which this is an estimate", estimate.part), hint)
        } else if again {
            Issue::new(format!("\"{}\" is estimated here a second time", estimate.part), "write all of it in one record")
        } else {
            continue;
        };
        issues.push(found.key("part").within(Step::Item(at)).key("estimates"));
    }
    issues
}
