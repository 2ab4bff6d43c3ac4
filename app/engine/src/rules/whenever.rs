//! What cautions say whenever a part of their slot is on the list, in one place.

use super::{Facts, run};
use crate::{
    finding::{Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site},
};

/// One warning for the slot whose part `fitted` reads; none when the slot is empty.
pub(super) fn fitted(site: &Site, fitted: Property) -> Vec<Outcome> {
    let gather = |site: &Site| vec![site.one(fitted)] as Vec<Result<Reading, Missing>>;
    let facts = |reading: &Reading| -> Facts { vec![("fitted", reading.because.clone())] };
    run(site, gather, |_| Verdict::plain(Status::Tight), facts)
}
