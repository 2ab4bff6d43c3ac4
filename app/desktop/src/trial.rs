//! What becomes of a build when another part is put in one place: for the rows of the picker.

use std::sync::Arc;

use propwright_engine::{
    Report, evaluate, explain,
    finding::{Finding, Status},
    policy::Policy,
};
use propwright_schema::{build_list::BuildList, catalogue::Catalogue, slot::Slot};

use crate::{edit::Edit, state::Place, view::Figures};

/// How a part would go together with the rest.
#[derive(Debug, Clone, PartialEq)]
pub struct Trial {
    /// The gravest of what it would bring.
    pub status: Status,
    /// Why it does not fit, or what is tight or unstated, the gravest first.
    pub why: Vec<String>,
    /// The figures with it.
    pub figures: Figures,
}

/// Tries a part in a place of a build.
///
/// What counts is what is found about the place itself, and what would be found elsewhere but is not found in `now`, the
/// report of the build as it is.
pub fn try_part(
    catalogue: &Catalogue,
    build: &BuildList,
    policy: &Policy,
    place: Place,
    part: &str,
    now: Option<&Report>,
) -> Trial {
    let next = Edit::Choose { place, part: part.to_owned() }.applied(build, catalogue);
    let report = evaluate(catalogue, &Arc::new(next), policy);
    let counts = |finding: &&Finding| is_about(finding, place.slot) || now.is_none_or(|now| !knows(now, finding));
    let relevant: Vec<&Finding> = report.findings.iter().filter(counts).collect();
    let status = relevant.iter().map(|finding| finding.status()).max().unwrap_or(Status::Fits);
    // A report lists the gravest first.
    let why = relevant.iter().filter(|finding| finding.status() == status && status != Status::Fits);
    Trial { status, why: why.map(|finding| explain::message(finding)).collect(), figures: Figures::of(&report) }
}

fn is_about(finding: &Finding, slot: Slot) -> bool {
    finding.outcome.subjects.iter().any(|subject| subject.slot == slot)
}

/// Is the same rule found as grave or graver about the same slots already?
fn knows(now: &Report, finding: &Finding) -> bool {
    let slots = |finding: &Finding| finding.outcome.subjects.iter().map(|subject| subject.slot).collect::<Vec<_>>();
    let same = |other: &&Finding| other.rule == finding.rule && slots(other) == slots(finding);
    now.findings.iter().filter(same).any(|other| other.status() >= finding.status())
}
