//! Build lists in files: read with all problems, written back as text.

use std::path::Path;

use propwright_schema::{build_list::BuildList, diagnostic::Diagnostic, load::load_build, save::write_build};

use crate::{
    files::{self, Disk, Stamp},
    state::{Document, Unsaved},
};

/// A build list as it was read.
pub struct Stored {
    /// The list.
    pub build: BuildList,
    /// The text that it was read from.
    pub text: String,
    /// The state of its file.
    pub stamp: Stamp,
}

/// Reads a build list.
///
/// # Errors
/// One line for each problem.
pub fn read(path: &Path) -> Result<Stored, Vec<String>> {
    let said = |problems: Vec<Diagnostic>| problems.iter().map(ToString::to_string).collect::<Vec<_>>();
    let opened = Disk::Real.read(path).map_err(|error| said(error.problems(path)))?;
    let build = load_build(&files::name(path), &opened.text).map_err(said)?;
    Ok(Stored { build, text: opened.text, stamp: opened.stamp })
}

/// What of these documents is not saved.
pub fn unsaved(documents: &[Document]) -> Vec<Unsaved> {
    let edited = documents.iter().filter(|document| document.is_edited());
    let each = edited.filter_map(|document| {
        let text = write_build(document.text.as_deref(), &document.saved, &document.build).ok()?;
        Some(Unsaved { path: document.path.clone(), text })
    });
    each.collect()
}

/// What is known of a file before it is written again.
#[derive(Debug, Clone, Copy)]
pub struct Earlier<'a> {
    /// Its text; what was not edited stays in it byte for byte.
    pub text: Option<&'a str>,
    /// The list that the text holds.
    pub build: &'a BuildList,
    /// The state of the file: one that holds something else by now is left alone.
    pub stamp: Option<&'a Stamp>,
}

/// Writes a build list; returns the text that was written and the file's new state.
///
/// # Errors
/// Why it could not be written, and what to do.
pub fn write(path: &Path, build: &BuildList, earlier: Earlier<'_>) -> Result<(String, Stamp), String> {
    let text = write_build(earlier.text, earlier.build, build).map_err(|error| error.to_string())?;
    let saved = Disk::Real.save(path, &text, earlier.stamp);
    let stamp = saved.map_err(|error| format!("{}: {error}; {}.", files::name(path), error.hint()))?;
    Ok((text, stamp))
}
