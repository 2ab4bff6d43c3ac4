//! A part in a place, judged by a whole evaluation: the measure for everything faster.

use std::sync::Arc;

use propwright_schema::{catalogue::Catalogue, part::Part};

use super::{
    change::{State, change},
    place::Place,
    search::Candidate,
    standing::{Before, gravest},
};
use crate::{
    policy::Policy,
    report::{Report, evaluate},
};

/// What becomes of the build of a report when a part is put in a place.
///
/// The status is the gravest of what counts against the part: every finding of the new build that is about the part itself,
/// and every other one that is graver than in `base`.
pub fn candidate(catalogue: &Catalogue, base: &Report, policy: &Policy, place: Place, part: &Arc<Part>) -> Candidate {
    let put = place.put(&base.craft, &part.id);
    let report = evaluate(catalogue, &put.build, policy);
    let against = Before::of(&base.findings).against(&report.findings, &report.craft, &[put.line]);
    let [before, after] = [base, &report].map(|report| State { craft: &report.craft, store: &report.store });
    Candidate {
        part: Arc::clone(part),
        fitted: place.fitted(&base.craft).is_some_and(|placed| placed.subject.part.id == part.id),
        status: gravest(&against),
        findings: against,
        change: change(before, after),
        whole: true,
    }
}
