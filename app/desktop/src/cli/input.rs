//! Reading catalogues and build lists for a command: all problems at once, or everything that it needs.

use std::{
    path::{Path, PathBuf},
    sync::Arc,
};

use propwright_schema::{
    build_list::BuildList,
    catalogue::Catalogue,
    diagnostic::Diagnostic,
    load::{load_build, load_catalogue, load_stand},
    measured::StandRow,
    validate::{check_kits, check_references},
};

use super::check::Day;
use crate::files::{self, Disk};

/// The parts and kits at hand, and what is to be known about the files that hold them.
#[derive(Debug, Default)]
pub(super) struct Shelf {
    pub(super) catalogue: Catalogue,
    pub(super) notes: Vec<String>,
}

impl Shelf {
    /// Lays a catalogue text over what is there; the parts that it shadows are noted.
    fn lay_over(&mut self, file: &str, text: &str) -> Result<(), Vec<Diagnostic>> {
        let shadowed = self.catalogue.lay_over(&load_catalogue(file, text)?);
        if !shadowed.is_empty() {
            self.notes
                .push(format!("{file} takes the place of these parts and kits of earlier catalogues: {}", shadowed.join(", ")));
        }
        Ok(())
    }

    fn lay_file_over(&mut self, path: &Path) -> Result<(), Vec<Diagnostic>> {
        let opened = Disk::Real.read(path).map_err(|error| error.problems(path))?;
        self.lay_over(&files::name(path), &opened.text)
    }
}

/// Lays files over one another; every problem of every file beside what could be read. What kits hold is looked up in these
/// files and in the demo parts once all files could be read.
pub(super) fn lay_over_one_another(paths: &[PathBuf]) -> (Shelf, Vec<Diagnostic>) {
    let mut shelf = Shelf::default();
    let mut problems: Vec<Diagnostic> = paths.iter().filter_map(|path| shelf.lay_file_over(path).err()).flatten().collect();
    if problems.is_empty() {
        problems = kits(paths);
    }
    (shelf, problems)
}

/// Articles of kits that are no part of the files nor of the demo.
fn kits(paths: &[PathBuf]) -> Vec<Diagnostic> {
    let Ok(Shelf { catalogue, .. }) = catalogue(paths) else { return Vec::new() };
    let of_file = |path: &PathBuf| {
        let (name, opened) = (files::name(path), Disk::Real.read(path).ok()?);
        let file = load_catalogue(&name, &opened.text).ok()?;
        Some(check_kits(&file, &opened.text, &name, &catalogue))
    };
    paths.iter().filter_map(of_file).flatten().collect()
}

/// The demo parts with files laid over them.
///
/// # Errors
/// Every problem of every file.
pub(super) fn catalogue(paths: &[PathBuf]) -> Result<Shelf, Vec<Diagnostic>> {
    let mut shelf = Shelf::default();
    for (file, text) in propwright_sample::CATALOGUE {
        shelf.lay_over(file, text)?;
    }
    let problems: Vec<Diagnostic> = paths.iter().filter_map(|path| shelf.lay_file_over(path).err()).flatten().collect();
    if problems.is_empty() { Ok(shelf) } else { Err(problems) }
}

/// A build list whose parts the catalogue holds.
///
/// # Errors
/// Every problem of the file.
pub(super) fn build(path: &Path, catalogue: &Catalogue) -> Result<BuildList, Vec<Diagnostic>> {
    let opened = Disk::Real.read(path).map_err(|error| error.problems(path))?;
    parse(&files::name(path), &opened.text, catalogue)
}

/// The rows of a thrust stand.
///
/// # Errors
/// Every problem of the file.
pub(super) fn stand(path: &Path) -> Result<Vec<StandRow>, Vec<Diagnostic>> {
    let opened = Disk::Real.read(path).map_err(|error| error.problems(path))?;
    load_stand(&files::name(path), &opened.text)
}

/// Several build lists on one day.
///
/// # Errors
/// Every problem of every file.
pub(super) fn builds(paths: &[PathBuf], catalogue: &Catalogue, day: Day) -> Result<Vec<Arc<BuildList>>, Vec<Diagnostic>> {
    let (mut builds, mut problems) = (Vec::new(), Vec::new());
    for path in paths {
        match build(path, catalogue) {
            Ok(mut build) => {
                day.apply(&mut build);
                builds.push(Arc::new(build));
            }
            Err(found) => problems.extend(found),
        }
    }
    if problems.is_empty() { Ok(builds) } else { Err(problems) }
}

/// The demo build.
///
/// # Errors
/// As [`build`]; a test holds that there are none.
pub(super) fn demo(catalogue: &Catalogue) -> Result<BuildList, Vec<Diagnostic>> {
    let text =
        propwright_sample::REFERENCE.iter().find(|(name, _)| *name == propwright_sample::DEMO).map_or("", |(_, text)| text);
    parse(propwright_sample::DEMO, text, catalogue)
}

fn parse(file: &str, text: &str, catalogue: &Catalogue) -> Result<BuildList, Vec<Diagnostic>> {
    let build = load_build(file, text)?;
    let unknown = check_references(&build, text, file, catalogue);
    if unknown.is_empty() { Ok(build) } else { Err(unknown) }
}
