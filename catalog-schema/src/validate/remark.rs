//! The checks for those who edit a record: whether what they are about to write could be read again.

use super::{
    Issue, LONGEST_NAME, LONGEST_NOTE, build_header, charge, estimate, estimates_elsewhere, figures::value_issues, fitted,
    names::text_issue, spare, tax,
};
use crate::{
    build_list::BuildList,
    value::{Field, Value},
};

/// What is wrong with something that is to be written, and what to do about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remark {
    /// What is wrong.
    pub reason: String,
    /// What to do.
    pub hint: String,
}

impl From<Issue> for Remark {
    fn from(Issue { reason, hint, .. }: Issue) -> Self {
        Self { reason, hint }
    }
}

/// What is wrong with the value of a field; `None` for a plausible one.
pub fn field_remark(field: &Field, value: &Value) -> Option<Remark> {
    value_issues(field.name, field.kind, field.plausible, value).into_iter().next().map(Remark::from)
}

/// What is wrong with a name.
pub fn name_remark(name: &str) -> Option<Remark> {
    text_issue(name, LONGEST_NAME).map(Remark::from)
}

/// What is wrong with a note.
pub fn note_remark(note: &str) -> Option<Remark> {
    text_issue(note, LONGEST_NOTE).map(Remark::from)
}

/// All for which a build list would be refused if it were written and read again.
pub fn build_remarks(build: &BuildList) -> Vec<Remark> {
    let parts = build.parts.iter().flat_map(fitted);
    let spares = build.spares.iter().flat_map(spare);
    let charges = build.shipping.iter().flat_map(charge).chain(build.tax.iter().flat_map(tax));
    let estimates = build.estimates.iter().flat_map(estimate).chain(estimates_elsewhere(build));
    build_header(build).into_iter().chain(estimates).chain(parts).chain(spares).chain(charges).map(Remark::from).collect()
}
