//! Build lists, catalogues and policies in files: read with all problems; build lists written back as text.

use std::path::{Path, PathBuf};

use propwright_engine::policy::{self, Policy};
use propwright_schema::{
    build_list::BuildList,
    catalogue::CatalogueFile,
    diagnostic::Diagnostic,
    load::{load_build, load_catalogue, load_rates, load_stock},
    measured::StandRow,
    rates::Rates,
    save::{self, SaveError, write_build},
    stock::{Stock, StockItem},
    table::{self, Listed, Rows, Sheet},
    version::CURRENT,
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

/// Changes a catalogue in its file; a file that is not there yet is made. What did not change stays byte for byte. Returns what the
/// file held before.
///
/// # Errors
/// Why it could not be changed, and what to do; the file then holds what it held.
pub fn change_catalogue(
    disk: Disk,
    path: &Path,
    change: impl FnOnce(&mut CatalogueFile) -> Result<(), String>,
) -> Result<CatalogueFile, String> {
    let said = |error: &FileError| format!("{}: {error}; {}.", files::name(path), error.hint());
    let opened = match disk.read(path) {
        Ok(opened) => Some(opened),
        Err(FileError::NoSuchFile) => None,
        Err(error) => return Err(said(&error)),
    };
    let before = match &opened {
        Some(opened) => load_catalogue(&files::name(path), &opened.text).map_err(|_| {
            format!("{} is no catalogue that can be read; choose another file, or mend it first.", files::name(path))
        })?,
        None => CatalogueFile { version: CURRENT, parts: Vec::new(), kits: Vec::new() },
    };
    let mut after = before.clone();
    change(&mut after)?;
    let text = save::write_catalogue(opened.as_ref().map(|opened| opened.text.as_str()), &before, &after);
    let text = text.map_err(|error| error.to_string())?;
    disk.save(path, &text, opened.as_ref().map(|opened| &opened.stamp)).map_err(|error| said(&error))?;
    Ok(before)
}

/// Reads a table; what its head says decides as what.
///
/// # Errors
/// One line for each problem.
pub fn read_table(path: &Path) -> Result<Table, Vec<String>> {
    let said = |problems: Vec<Diagnostic>| problems.iter().map(ToString::to_string).collect::<Vec<_>>();
    let text = Disk::Real.read(path).map_err(|error| said(error.problems(path)))?.text;
    let name = files::name(path);
    let table = match table::rows_of(&name, &text) {
        Ok(Rows::Articles) => Sheet::read(&name, &text).map(Table::Articles),
        Ok(Rows::Shelf) => table::read_stock(&name, &text).map(Table::Shelf),
        Ok(Rows::Stand) => table::read_stand(&name, &text).map(Table::Stand),
        Err(problems) => Err(problems),
    };
    table.map_err(said)
}

/// A table by what its rows are.
pub enum Table {
    /// Cells of parts and kits, to be read by a mapping.
    Articles(Sheet),
    /// What lies on the shelf.
    Shelf(Listed<StockItem>),
    /// Steps of a thrust stand.
    Stand(Listed<StandRow>),
}

/// Writes rows that cannot be used beside a file, under a name that is free. Says that name.
///
/// # Errors
/// The name and why it could not be written.
pub fn keep_aside(disk: Disk, beside: &Path, text: &str) -> Result<PathBuf, (PathBuf, FileError)> {
    let path = files::free(&beside.with_extension("refused.csv"));
    match disk.save(&path, text, None) {
        Ok(_) => Ok(path),
        Err(error) => Err((path, error)),
    }
}

/// The same with rows that are a table already; says the name of the file, or why there is none.
///
/// # Errors
/// Why they could not be kept, and what to do.
pub fn kept_aside(disk: Disk, beside: &Path, text: Result<String, impl std::fmt::Display>) -> Result<String, String> {
    let text = text.map_err(|error| error.to_string())?;
    let said = |(path, error): (PathBuf, FileError)| format!("{}: {error}; {}.", files::name(&path), error.hint());
    keep_aside(disk, beside, &text).map(|path| files::name(&path)).map_err(said)
}

/// Reads thresholds of the user's own.
pub fn read_policy(path: &Path) -> Reading<Policy> {
    reading(path, policy::read)
}

/// Reads what lies on the shelf.
pub fn read_stock(path: &Path) -> Reading<Stock> {
    reading(path, load_stock)
}

/// Reads exchange rates.
pub fn read_rates(path: &Path) -> Reading<Rates> {
    reading(path, load_rates)
}

/// Writes a shelf; what did not change stays byte for byte. With the stamp of an earlier reading, a file that holds something
/// else by now is left alone.
///
/// # Errors
/// Why it could not be written, and what to do.
pub fn write_stock(path: &Path, stock: &Stock, stamp: Option<&Stamp>) -> Result<Stamp, String> {
    written(path, stock, stamp, load_stock, save::write_stock)
}

/// Writes exchange rates, likewise.
///
/// # Errors
/// Why they could not be written, and what to do.
pub fn write_rates(path: &Path, rates: &Rates, stamp: Option<&Stamp>) -> Result<Stamp, String> {
    written(path, rates, stamp, load_rates, save::write_rates)
}

fn written<T>(
    path: &Path,
    content: &T,
    stamp: Option<&Stamp>,
    load: fn(&str, &str) -> Result<T, Vec<Diagnostic>>,
    write: fn(Option<&str>, &T, &T) -> Result<String, SaveError>,
) -> Result<Stamp, String> {
    let earlier = Disk::Real.read(path).ok().map(|opened| opened.text);
    let earlier = match earlier {
        // Another kind of file of this name is somebody's work.
        Some(text) => match load(&files::name(path), &text) {
            Ok(before) => Some((before, text)),
            Err(_) => return Err(format!("{} holds something else; choose another name.", files::name(path))),
        },
        None => None,
    };
    let text = match &earlier {
        Some((before, text)) => write(Some(text), before, content),
        None => write(None, content, content),
    };
    let text = text.map_err(|error| error.to_string())?;
    let saved = Disk::Real.save(path, &text, stamp);
    saved.map_err(|error| format!("{}: {error}; {}.", files::name(path), error.hint()))
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
