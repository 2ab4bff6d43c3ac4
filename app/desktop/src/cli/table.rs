//! `catalog import` and `catalog export`: catalogues as tables for spreadsheets; `--stock` and `--stand` see `listed`.

use std::{
    fmt::Write as _,
    path::{Path, PathBuf},
};

use clap::Args;
use propwright_paper::{json::SCHEMA, page::escaped};
use propwright_schema::{
    catalogue::CatalogueFile,
    diagnostic::Diagnostic,
    load::load_catalogue,
    save,
    table::{self, Duplicate, Import, Imported, RefusedRow, Same},
    version::CURRENT,
};
use serde::Serialize;

use super::{
    Exit, Form,
    answer::{self, Answer},
    catalog::Problem,
    input,
    listed::{self, Target},
};
use crate::files::{self, Disk, Opened};

/// Reads a table into a catalogue, a shelf or the thrust stand of a build list.
#[derive(Debug, Args)]
pub(super) struct Read {
    /// The table (CSV; columns parted by comma, semicolon or tab)
    #[arg(value_name = "FILE.csv")]
    table: PathBuf,
    /// The file to write, which must not be there; absent: only a preview
    #[arg(long, value_name = "FILE.ron")]
    out: Option<PathBuf>,
    /// The file to write into: a catalogue keeps what it holds, byte for byte where the table says nothing of it; a shelf, and the
    /// rows of a thrust stand in a build list, become what the table holds
    #[arg(long, value_name = "FILE.ron", conflicts_with = "out")]
    into: Option<PathBuf>,
    /// What becomes of parts that are there already: the one that is there stays, the row takes its place, or both stand side by side
    #[arg(long, value_enum, default_value_t = Whose::Mine)]
    same: Whose,
    /// The table holds what lies on the shelf
    #[arg(long)]
    stock: bool,
    /// The table holds rows of a thrust stand, for the build list named by `--into`
    #[arg(long, conflicts_with_all = ["stock", "out"])]
    stand: bool,
    /// Kind of the rows where no column says it, such as motor
    #[arg(long, value_name = "KIND")]
    kind: Option<String>,
    /// Field of a column, such as `Weight=mass_g`; nothing behind the sign leaves the column out; may be given several times
    #[arg(long, value_name = "COLUMN=FIELD")]
    map: Vec<String>,
    /// Catalogue file in which duplicates are looked for, beside the demo parts; may be given several times
    #[arg(long, value_name = "FILE")]
    catalog: Vec<PathBuf>,
    #[command(flatten)]
    form: Form,
}

/// What becomes of a part that is there already.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum Whose {
    /// It stays.
    Mine,
    /// The row takes its place.
    Theirs,
    /// Both stand side by side, where their ids differ.
    Both,
}

impl From<Whose> for Same {
    fn from(whose: Whose) -> Self {
        match whose {
            Whose::Mine => Self::Mine,
            Whose::Theirs => Self::Theirs,
            Whose::Both => Self::Both,
        }
    }
}

/// Writes a catalogue, a shelf or rows of a thrust stand as a table.
#[derive(Debug, Args)]
pub(super) struct Write {
    /// The table to write
    #[arg(value_name = "FILE.csv")]
    table: PathBuf,
    /// Catalogue file to write instead of the demo parts; may be given several times, later files shadow earlier ones
    #[arg(long, value_name = "FILE")]
    catalog: Vec<PathBuf>,
    /// Shelf to write instead
    #[arg(long, value_name = "SHELF.ron", conflicts_with = "catalog")]
    stock: Option<PathBuf>,
    /// Build list whose rows of a thrust stand are written instead
    #[arg(long, value_name = "BUILD.ron", conflicts_with_all = ["catalog", "stock"])]
    stand: Option<PathBuf>,
    #[command(flatten)]
    form: Form,
}

#[derive(Debug, Serialize)]
struct ReadJson<'a> {
    schema: u32,
    columns: Vec<ColumnJson<'a>>,
    parts: usize,
    kits: usize,
    refused: Vec<RefusedJson<'a>>,
    duplicates: Vec<DuplicateJson<'a>>,
    /// What came of laying the rows into the catalogue; absent for a preview.
    merged: Option<MergedJson>,
    written: Vec<String>,
}

#[derive(Debug, Clone, Copy, Serialize)]
struct MergedJson {
    added: usize,
    replaced: usize,
    left: usize,
}

#[derive(Debug, Serialize)]
pub(super) struct ColumnJson<'a> {
    column: &'a str,
    field: Option<&'a str>,
}

impl<'a> From<(&'a String, &'a Option<String>)> for ColumnJson<'a> {
    fn from((column, field): (&'a String, &'a Option<String>)) -> Self {
        Self { column, field: field.as_deref() }
    }
}

#[derive(Debug, Serialize)]
pub(super) struct RefusedJson<'a> {
    line: u32,
    problems: Vec<Problem<'a>>,
}

impl<'a> From<&'a RefusedRow> for RefusedJson<'a> {
    fn from(row: &'a RefusedRow) -> Self {
        Self { line: row.line, problems: row.problems.iter().map(Problem::from).collect() }
    }
}

#[derive(Debug, Serialize)]
struct DuplicateJson<'a> {
    part: &'a str,
    known: &'a str,
}

#[derive(Debug, Serialize)]
struct WriteJson {
    schema: u32,
    parts: usize,
    kits: usize,
    written: Vec<String>,
}

impl Read {
    pub(super) fn answer(self) -> Answer {
        let target = Target::of(self.out.as_ref(), self.into.as_ref());
        let read = match (self.stock, self.stand) {
            (true, _) => listed::import_stock(&self.table, target, self.form),
            (_, true) => listed::import_stand(&self.table, target, self.form),
            _ => self.read(target),
        };
        read.unwrap_or_else(|problems| Answer::refused(&problems))
    }

    fn read(&self, target: Target<'_>) -> Result<Answer, Vec<Diagnostic>> {
        let file = files::name(&self.table);
        let text = Disk::Real.read(&self.table).map_err(|error| error.problems(&self.table))?.text;
        let mut import = Import::new(&file, &text)?;
        self.mapped(&mut import)?;
        let mapping = import.mapping().clone();
        let read = import.finish();
        let mut known = input::catalogue(&self.catalog)?.catalogue;
        let own = Own::of(target)?;
        if let Some(own) = &own {
            known.lay_over(&own.content);
        }
        let same = table::duplicates(&read.catalogue, &known);
        let merged = own.map(|own| own.take(&read, &same, self.same.into())).transpose()?;
        let exit = if read.refused.is_empty() { Exit::Done } else { Exit::Found };
        let columns = read.head.iter().zip(&mapping.fields);
        let (counts, written) = merged.map_or((None, Vec::new()), |(counts, written)| (Some(counts), written));
        if self.form.json {
            let json = ReadJson {
                schema: SCHEMA,
                columns: columns.map(ColumnJson::from).collect(),
                parts: read.catalogue.parts.len(),
                kits: read.catalogue.kits.len(),
                refused: read.refused.iter().map(RefusedJson::from).collect(),
                duplicates: same.iter().map(|one| DuplicateJson { part: &one.part, known: &one.known }).collect(),
                merged: counts,
                written,
            };
            return Ok(Answer::json(exit, &json));
        }
        let mut text: String = columns.map(|(column, field)| told_column(column, field.as_deref())).collect();
        text.push_str(&told_rows(&read, &same, self.same));
        if let Some(MergedJson { added, replaced, left }) = counts {
            // Writing to a string cannot fail.
            let _ = writeln!(text, "{added} added, {replaced} replaced, {left} left out because the one that is there stays.");
        }
        text.extend(written.iter().map(|path| format!("Written: {}\n", escaped(path))));
        if written.is_empty() {
            text.push_str("Nothing is written; say --out FILE.ron to write a catalogue, or --into FILE.ron to add to one.\n");
        }
        Ok(Answer::text(exit, text))
    }

    /// The guessed mapping with what the command line says otherwise.
    fn mapped(&self, import: &mut Import) -> Result<(), Vec<Diagnostic>> {
        let mut mapping = import.mapping().clone();
        mapping.kind = self.kind.clone().or(mapping.kind);
        let mut problems = Vec::new();
        for said in &self.map {
            let set = said.rsplit_once('=').is_some_and(|(column, field)| mapping.set(import.head(), column, field.trim()));
            if !set {
                let hint = format!("write COLUMN=FIELD; the columns are {}", import.head().join(", "));
                problems.push(about(&self.table, format!("{said:?} names no column of the table, or no field"), hint));
            }
        }
        if let Some(field) = mapping.twice() {
            problems.push(about(&self.table, format!("two columns hold {field}"), "leave one out: --map \"COLUMN=\"".to_owned()));
        }
        import.map(mapping);
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }
}

/// The catalogue file that takes the rows, with what it holds.
struct Own<'t> {
    path: &'t Path,
    opened: Option<Opened>,
    content: CatalogueFile,
}

impl<'t> Own<'t> {
    fn of(target: Target<'t>) -> Result<Option<Self>, Vec<Diagnostic>> {
        let Some((path, opened)) = target.opened()? else { return Ok(None) };
        let empty = CatalogueFile { version: CURRENT, parts: Vec::new(), kits: Vec::new() };
        let content = opened.as_ref().map_or(Ok(empty), |opened| load_catalogue(&files::name(path), &opened.text))?;
        Ok(Some(Self { path, opened, content }))
    }

    /// Writes it with what was read; the refused rows stand beside it.
    fn take(self, read: &Imported, same: &[Duplicate], choice: Same) -> Result<(MergedJson, Vec<String>), Vec<Diagnostic>> {
        let merged = table::merge(&self.content, &read.catalogue, same, |_| choice);
        let earlier = self.opened.as_ref().map(|opened| opened.text.as_str());
        let text = save::write_catalogue(earlier, &self.content, &merged.catalogue);
        let text = text.map_err(|error| listed::refused(self.path, &error))?;
        let aside = (!read.refused.is_empty()).then(|| read.set_aside()).transpose();
        let aside = aside.map_err(|error| listed::refused(self.path, &error))?;
        let written = listed::put(self.path, &text, self.opened.as_ref(), aside)?;
        Ok((MergedJson { added: merged.added, replaced: merged.replaced, left: merged.left }, written))
    }
}

pub(super) fn told_column(column: &str, field: Option<&str>) -> String {
    let field = field.unwrap_or("left out");
    format!("{}: {field}\n", escaped(column))
}

fn told_rows(read: &Imported, same: &[Duplicate], whose: Whose) -> String {
    let mut text: String = read.refused.iter().flat_map(|row| &row.problems).map(answer::problem).collect();
    for one in same {
        // Writing to a string cannot fail.
        let _ = if one.part == one.known {
            let what = if whose == Whose::Theirs { "is replaced" } else { "stays as it is" };
            writeln!(text, "{}: is there already, and {what}.", escaped(&one.part))
        } else {
            writeln!(text, "{}: looks like {}, which is there already.", escaped(&one.part), escaped(&one.known))
        };
    }
    let (parts, kits) = (read.catalogue.parts.len(), read.catalogue.kits.len());
    let _ = writeln!(text, "{parts} parts and {kits} kits read; {} rows refused.", read.refused.len());
    text
}

impl Write {
    pub(super) fn answer(self) -> Answer {
        let written = match (&self.stock, &self.stand) {
            (Some(stock), _) => listed::export_stock(&self.table, stock, self.form),
            (_, Some(build)) => listed::export_stand(&self.table, build, self.form),
            _ => self.written(),
        };
        written.unwrap_or_else(|problems| Answer::refused(&problems))
    }

    fn written(&self) -> Result<Answer, Vec<Diagnostic>> {
        let catalogue = if self.catalog.is_empty() {
            input::catalogue(&[])?.catalogue
        } else {
            let (shelf, problems) = input::lay_over_one_another(&self.catalog);
            if !problems.is_empty() {
                return Err(problems);
            }
            shelf.catalogue
        };
        let all = CatalogueFile {
            version: CURRENT,
            parts: catalogue.parts().cloned().collect(),
            kits: catalogue.kits().cloned().collect(),
        };
        let text = table::write_catalogue(&all)
            .map_err(|error| vec![about(&self.table, error.to_string(), "name another file".to_owned())])?;
        Disk::Real.save(&self.table, &text, None).map_err(|error| error.problems(&self.table))?;
        let (parts, kits, written) = (all.parts.len(), all.kits.len(), vec![files::name(&self.table)]);
        if self.form.json {
            return Ok(Answer::json(Exit::Done, &WriteJson { schema: SCHEMA, parts, kits, written }));
        }
        Ok(Answer::text(Exit::Done, format!("{parts} parts and {kits} kits written: {}\n", escaped(&written[0]))))
    }
}

pub(super) fn about(path: &Path, reason: String, hint: String) -> Diagnostic {
    Diagnostic { file: files::name(path), line: 1, column: 1, part: None, field: None, reason, hint: Some(hint) }
}
