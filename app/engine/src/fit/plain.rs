//! A part in a place, judged by a whole evaluation: the measure for everything faster.

use std::sync::Arc;

use propwright_schema::part::Part;

use super::{
    bench::Means,
    change::change,
    place::Place,
    search::Candidate,
    standing::{Before, gravest},
};
use crate::report::Report;

/// What becomes of the build of a report when a part is put in a place.
///
/// The status is the gravest of what counts against the part: every finding of the new build that is about the part itself,
/// and every other one that is graver than in `base`.
pub fn candidate(means: Means, base: &Report, place: Place, part: &Arc<Part>) -> Candidate {
    let put = place.put(&base.craft, &part.id);
    let report = means.evaluate(&put.build);
    let against = Before::of(&base.findings).against(&report.findings, &report.craft, &[put.line]);
    Candidate {
        part: Arc::clone(part),
        fitted: place.fitted(&base.craft).is_some_and(|placed| placed.subject.part.id == part.id),
        status: gravest(&against),
        findings: against,
        change: change(base.into(), (&report).into()),
        whole: true,
    }
}
