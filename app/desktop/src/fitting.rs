//! What became of a part in a place, as far as rows and tables show it.

use propwright_engine::{
    explain,
    finding::Status,
    fit::{Candidate, Change},
};

/// How a part would go together with the rest, and what it would change.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// The part's id.
    pub part: String,
    /// Is it the one that is fitted?
    pub fitted: bool,
    /// The gravest of what counts against it.
    pub status: Status,
    /// What counts against it, gravest first, a sentence each.
    pub why: Vec<(Status, String)>,
    /// What it changes against the part that is fitted.
    pub change: Change,
}

impl From<&Candidate> for Fit {
    fn from(candidate: &Candidate) -> Self {
        let why = candidate.findings.iter().map(|finding| (finding.status(), explain::message(finding)));
        Self {
            part: candidate.part.id.clone(),
            fitted: candidate.fitted,
            status: candidate.status,
            why: why.collect(),
            change: candidate.change.clone(),
        }
    }
}
