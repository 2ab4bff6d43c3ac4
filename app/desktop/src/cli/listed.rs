//! Shelf and thrust stand as tables, for `catalog import` and `catalog export`.

use std::{
    fmt::Write as _,
    path::{Path, PathBuf},
};

use propwright_paper::{json::SCHEMA, page::escaped};
use propwright_schema::{
    build_list::BuildList,
    diagnostic::Diagnostic,
    load::{load_build, load_stock},
    save,
    stock::Stock,
    table::{self, Listed},
};
use serde::Serialize;

use super::{
    Exit, Form,
    answer::{self, Answer},
    table::{ColumnJson, RefusedJson, about, told_column},
};
use crate::{
    files::{self, Disk, Opened},
    stored,
};

/// Where what was read goes.
#[derive(Debug, Clone, Copy)]
pub(super) enum Target<'t> {
    /// Nowhere: a preview.
    Nowhere,
    /// Into a new file.
    New(&'t Path),
    /// Into a file that may be there.
    Into(&'t Path),
}

impl<'t> Target<'t> {
    pub(super) fn of(out: Option<&'t PathBuf>, into: Option<&'t PathBuf>) -> Self {
        match (out, into) {
            (Some(out), _) => Self::New(out),
            (None, Some(into)) => Self::Into(into),
            (None, None) => Self::Nowhere,
        }
    }

    /// Its path, and what the file holds if it is there. A new file must not be.
    pub(super) fn opened(self) -> Result<Option<(&'t Path, Option<Opened>)>, Vec<Diagnostic>> {
        let there = |path: &Path| {
            vec![about(path, "the file is there already".to_owned(), "name another file, or say --into".to_owned())]
        };
        match self {
            Self::Nowhere => Ok(None),
            Self::New(path) if files::is_there(path) => Err(there(path)),
            Self::Into(path) if files::is_there(path) => {
                Disk::Real.read(path).map(|opened| Some((path, Some(opened)))).map_err(|error| error.problems(path))
            }
            Self::New(path) | Self::Into(path) => Ok(Some((path, None))),
        }
    }
}

#[derive(Debug, Serialize)]
struct ListedJson<'a> {
    schema: u32,
    columns: Vec<ColumnJson<'a>>,
    rows: usize,
    refused: Vec<RefusedJson<'a>>,
    written: Vec<String>,
}

#[derive(Debug, Serialize)]
struct RowsJson {
    schema: u32,
    rows: usize,
    written: Vec<String>,
}

/// Reads a shelf; its rows take the place of what the file of the shelf holds.
pub(super) fn import_stock(table: &Path, target: Target<'_>, form: Form) -> Result<Answer, Vec<Diagnostic>> {
    let read = table::read_stock(&files::name(table), &text(table)?)?;
    let mut written = Vec::new();
    if let Some((path, opened)) = target.opened()? {
        let stock = Stock { items: read.rows.clone(), ..Stock::default() };
        let before = opened.as_ref().map(|opened| load_stock(&files::name(path), &opened.text)).transpose()?;
        let stock = Stock { version: before.as_ref().map_or(stock.version, |before| before.version), ..stock };
        let earlier = opened.as_ref().map(|opened| opened.text.as_str());
        let text = save::write_stock(earlier, before.as_ref().unwrap_or(&stock), &stock);
        written = put(path, &text.map_err(|error| refused(path, &error))?, opened.as_ref(), aside(&read)?)?;
    }
    Ok(told(&read, written, "SHELF.ron", form))
}

/// Reads rows of a thrust stand; they take the place of those that the build list holds.
pub(super) fn import_stand(table: &Path, target: Target<'_>, form: Form) -> Result<Answer, Vec<Diagnostic>> {
    let read = table::read_stand(&files::name(table), &text(table)?)?;
    let mut written = Vec::new();
    if let Some((path, opened)) = target.opened()? {
        let Some(opened) = opened else {
            return Err(vec![about(
                path,
                "there is no such build list".to_owned(),
                "name the list whose craft was on the stand".to_owned(),
            )]);
        };
        let before = load_build(&files::name(path), &opened.text)?;
        let build = BuildList { stand: read.rows.clone(), ..before.clone() };
        let text = save::write_build(Some(&opened.text), &before, &build).map_err(|error| refused(path, &error))?;
        written = put(path, &text, Some(&opened), aside(&read)?)?;
    }
    Ok(told(&read, written, "BUILD.ron", form))
}

/// Writes a shelf as a table.
pub(super) fn export_stock(table: &Path, stock: &Path, form: Form) -> Result<Answer, Vec<Diagnostic>> {
    let stock = load_stock(&files::name(stock), &text(stock)?)?;
    exported(table, table::write_stock(&stock), stock.items.len(), form)
}

/// Writes the rows of a build list's thrust stand as a table.
pub(super) fn export_stand(table: &Path, build: &Path, form: Form) -> Result<Answer, Vec<Diagnostic>> {
    let build = load_build(&files::name(build), &text(build)?)?;
    exported(table, table::write_stand(&build.stand), build.stand.len(), form)
}

fn exported<E: std::fmt::Display>(
    table: &Path,
    text: Result<String, E>,
    rows: usize,
    form: Form,
) -> Result<Answer, Vec<Diagnostic>> {
    let text = text.map_err(|error| refused(table, &error))?;
    Disk::Real.save(table, &text, None).map_err(|error| error.problems(table))?;
    let written = vec![files::name(table)];
    if form.json {
        return Ok(Answer::json(Exit::Done, &RowsJson { schema: SCHEMA, rows, written }));
    }
    Ok(Answer::text(Exit::Done, format!("{rows} rows written: {}\n", escaped(&written[0]))))
}

fn text(path: &Path) -> Result<String, Vec<Diagnostic>> {
    Disk::Real.read(path).map(|opened| opened.text).map_err(|error| error.problems(path))
}

pub(super) fn refused(path: &Path, error: &dyn std::fmt::Display) -> Vec<Diagnostic> {
    vec![about(path, error.to_string(), "name another file".to_owned())]
}

fn aside<T>(read: &Listed<T>) -> Result<Option<String>, Vec<Diagnostic>> {
    let text = || read.set_aside().map_err(|error| refused(Path::new("refused rows"), &error));
    if read.refused.is_empty() { Ok(None) } else { text().map(Some) }
}

/// Writes the rows that were refused, then the file itself: should the second fail, nothing is lost.
pub(super) fn put(
    path: &Path,
    text: &str,
    opened: Option<&Opened>,
    aside: Option<String>,
) -> Result<Vec<String>, Vec<Diagnostic>> {
    let aside = aside.map(|text| stored::keep_aside(Disk::Real, path, &text)).transpose();
    let aside = aside.map_err(|(path, error)| error.problems(&path))?;
    Disk::Real.save(path, text, opened.map(|opened| &opened.stamp)).map_err(|error| error.problems(path))?;
    Ok(std::iter::once(path.to_owned()).chain(aside).map(|path| files::name(&path)).collect())
}

fn told<T>(read: &Listed<T>, written: Vec<String>, into: &str, form: Form) -> Answer {
    let exit = if read.refused.is_empty() { Exit::Done } else { Exit::Found };
    let columns = || read.head.iter().zip(&read.mapping.fields);
    if form.json {
        let json = ListedJson {
            schema: SCHEMA,
            columns: columns().map(ColumnJson::from).collect(),
            rows: read.rows.len(),
            refused: read.refused.iter().map(RefusedJson::from).collect(),
            written,
        };
        return Answer::json(exit, &json);
    }
    let mut text: String = columns().map(|(column, field)| told_column(column, field.as_deref())).collect();
    text.extend(read.refused.iter().flat_map(|row| &row.problems).map(answer::problem));
    text.push_str(&format_rows(read.rows.len(), read.refused.len()));
    text.extend(written.iter().map(|path| format!("Written: {}\n", escaped(path))));
    if written.is_empty() {
        // Writing to a string cannot fail.
        let _ = writeln!(text, "Nothing is written; say --into {into} to write the rows.");
    }
    Answer::text(exit, text)
}

fn format_rows(rows: usize, refused: usize) -> String {
    format!("{rows} rows read; {refused} rows refused.\n")
}
