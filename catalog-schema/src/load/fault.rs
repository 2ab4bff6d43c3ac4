//! A fault by its place in bytes, before lines are counted.

use crate::{diagnostic::Diagnostic, load::Places};

/// A problem at a place of the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Fault {
    /// Place in bytes.
    pub(crate) at: usize,
    /// Id of the record.
    pub(crate) part: Option<String>,
    /// Field.
    pub(crate) field: Option<String>,
    /// What is wrong.
    pub(crate) reason: String,
    /// What to do.
    pub(crate) hint: Option<String>,
    /// The text itself is torn here (a bracket, comma or quote), so that what follows may be misread.
    pub(crate) torn: bool,
    /// It stands within one of the records.
    pub(crate) in_record: bool,
}

impl Fault {
    pub(crate) const fn new(at: usize, reason: String, hint: Option<String>) -> Self {
        Self { at, part: None, field: None, reason, hint, torn: false, in_record: false }
    }

    pub(crate) fn placed(self, file: &str, places: &Places<'_>) -> Diagnostic {
        let (line, column) = places.line_and_column(self.at);
        let Self { part, field, reason, hint, .. } = self;
        Diagnostic { file: file.to_owned(), line, column, part, field, reason, hint }
    }
}
