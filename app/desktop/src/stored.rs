//! Build lists, catalogues and policies in files: read with all problems; build lists written back as text.

use std::path::Path;

use propwright_engine::policy::{self, Policy};
use propwright_schema::{
    build_list::BuildList,
    catalogue::CatalogueFile,
    diagnostic::{Diagnostic, did_you_mean},
    load::{load_build, load_catalogue},
    save::write_build,
};

use crate::{
    files::{self, Disk, FileError, Stamp},
    state::{Document, Reading, Unsaved},
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

/// Reads a catalogue.
pub fn read_catalogue(path: &Path) -> Reading<CatalogueFile> {
    reading(path, load_catalogue)
}

/// Reads thresholds of the user's own.
pub fn read_policy(path: &Path) -> Reading<Policy> {
    reading(path, load_policy)
}

fn reading<T>(path: &Path, load: impl FnOnce(&str, &str) -> Result<T, Vec<Diagnostic>>) -> Reading<T> {
    let said = |problems: Vec<Diagnostic>| problems.iter().map(ToString::to_string).collect::<Vec<_>>();
    match Disk::Real.read(path) {
        Err(error) => Reading { stamp: None, content: Err(said(error.problems(path))) },
        Ok(opened) => {
            let content = load(&files::name(path), &opened.text).map_err(said);
            Reading { stamp: Some(opened.stamp), content }
        }
    }
}

/// Why a build list was not written.
pub enum Refused {
    /// The file was changed by somebody else since it was read.
    Changed,
    /// Anything else: why, and what to do.
    Said(String),
}

/// Writes a build list; returns the text that was written and the file's new state.
///
/// # Errors
/// Why it could not be written.
pub fn write(disk: Disk, path: &Path, build: &BuildList, earlier: Earlier<'_>) -> Result<(String, Stamp), Refused> {
    let text = write_build(earlier.text, earlier.build, build).map_err(|error| Refused::Said(error.to_string()))?;
    let stamp = disk.save(path, &text, earlier.stamp).map_err(|error| match error {
        FileError::Changed => Refused::Changed,
        error => Refused::Said(format!("{}: {error}; {}.", files::name(path), error.hint())),
    })?;
    Ok((text, stamp))
}

/// Reads a policy; a threshold that there is none of is a problem.
fn load_policy(file: &str, text: &str) -> Result<Policy, Vec<Diagnostic>> {
    let problem = |line, column, reason: String, hint: Option<String>| Diagnostic {
        file: file.to_owned(),
        line,
        column,
        part: None,
        field: None,
        reason,
        hint,
    };
    let read: Result<std::collections::BTreeMap<String, policy::Edit>, _> = propwright_schema::ron_options().from_str(text);
    let edits = read.map_err(|error| {
        let place = error.span.start;
        let line = |place: usize| u32::try_from(place).unwrap_or(u32::MAX);
        vec![problem(line(place.line), line(place.col), error.code.to_string(), None)]
    })?;
    let names = || policy::ALL.iter().map(|limit| limit.name);
    let unknown: Vec<Diagnostic> = edits
        .keys()
        .filter(|name| !names().any(|known| known == name.as_str()))
        .map(|name| {
            let hint = did_you_mean(name, names()).map(|meant| format!("did you mean {meant}?"));
            problem(1, 1, format!("there is no threshold called {name}"), hint)
        })
        .collect();
    if unknown.is_empty() { Ok(Policy::edited(edits)) } else { Err(unknown) }
}
