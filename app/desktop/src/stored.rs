//! Build lists in files: read with all problems, written back as text.

use std::path::Path;

use propwright_schema::{build_list::BuildList, diagnostic::Diagnostic, load::load_build, ron_options};
use ron::ser::PrettyConfig;

use crate::files::{self, Disk, Stamp};

/// A build list as it was read.
pub struct Stored {
    /// The list.
    pub build: BuildList,
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
    Ok(Stored { build, stamp: opened.stamp })
}

/// Writes a build list; with the stamp of an earlier read, a file that holds something else by now is left alone.
///
/// # Errors
/// Why it could not be written, and what to do.
pub fn write(path: &Path, build: &BuildList, since: Option<&Stamp>) -> Result<Stamp, String> {
    let text = text(build)?;
    Disk::Real.save(path, &text, since).map_err(|error| format!("{}: {error}; {}.", files::name(path), error.hint()))
}

/// A build list as text.
///
/// # Errors
/// When it cannot be written as text, which no list of plain figures causes.
pub fn text(build: &BuildList) -> Result<String, String> {
    let form = PrettyConfig::new().depth_limit(2).new_line("\n");
    let text = ron_options().to_string_pretty(build, form).map_err(|error| error.to_string())?;
    Ok(format!("{text}\n"))
}
