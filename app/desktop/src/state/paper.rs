//! What is put on paper, as the page of that name shows it.

use std::sync::Arc;

use propwright_paper::sheet::{Format, Sheet};

use crate::export::Kind;

/// The file into which the graph is drawn, while it is asked for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct GraphFile {
    /// Is it asked for?
    pub asked: bool,
    /// The file to write, as typed.
    pub path: String,
    /// What became of the last writing, a line each; empty before.
    pub said: Vec<String>,
    /// The file is there already and the user was told so: the next writing replaces it.
    pub replace: bool,
}

/// The choice of a document on paper, and what came of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Paper {
    /// Which document.
    pub kind: Kind,
    /// Size of the paper.
    pub format: Format,
    /// Its leaves, once laid out.
    pub sheet: Option<Arc<Sheet>>,
    /// Of which build, kind and paper these leaves are.
    pub of: Option<(u64, Kind, Format)>,
    /// The file to write, as typed.
    pub path: String,
    /// What became of the last writing, a line each; empty before.
    pub said: Vec<String>,
    /// The file is there already and the user was told so: the next writing replaces it.
    pub replace: bool,
}
