//! `catalog import` and `catalog export`: catalogues as tables for spreadsheets.

use std::{
    fmt::Write as _,
    path::{Path, PathBuf},
};

use clap::Args;
use propwright_paper::{json::SCHEMA, page::escaped};
use propwright_schema::{
    catalogue::CatalogueFile,
    diagnostic::Diagnostic,
    save,
    table::{self, Duplicate, Import, Imported},
    version::CURRENT,
};
use serde::Serialize;

use super::{
    Exit, Form,
    answer::{self, Answer},
    catalog::Problem,
    input,
};
use crate::files::{self, Disk};

/// Reads a table into a catalogue.
#[derive(Debug, Args)]
pub(super) struct Read {
    /// The table (CSV; columns parted by comma, semicolon or tab)
    #[arg(value_name = "FILE.csv")]
    table: PathBuf,
    /// The catalogue to write; absent: only a preview
    #[arg(long, value_name = "FILE.ron")]
    out: Option<PathBuf>,
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

/// Writes a catalogue as a table.
#[derive(Debug, Args)]
pub(super) struct Write {
    /// The table to write
    #[arg(value_name = "FILE.csv")]
    table: PathBuf,
    /// Catalogue file to write instead of the demo parts; may be given several times, later files shadow earlier ones
    #[arg(long, value_name = "FILE")]
    catalog: Vec<PathBuf>,
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
    written: Vec<String>,
}

#[derive(Debug, Serialize)]
struct ColumnJson<'a> {
    column: &'a str,
    field: Option<&'a str>,
}

#[derive(Debug, Serialize)]
struct RefusedJson<'a> {
    line: u32,
    problems: Vec<Problem<'a>>,
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
        self.read().unwrap_or_else(|problems| Answer::refused(&problems))
    }

    fn read(&self) -> Result<Answer, Vec<Diagnostic>> {
        let file = files::name(&self.table);
        let text = Disk::Real.read(&self.table).map_err(|error| error.problems(&self.table))?.text;
        let mut import = Import::new(&file, &text)?;
        self.mapped(&mut import)?;
        let mapping = import.mapping().clone();
        let read = import.finish();
        let known = input::catalogue(&self.catalog)?.catalogue;
        let same = table::duplicates(&read.catalogue, &known);
        let written = self.write(&read)?;
        let exit = if read.refused.is_empty() { Exit::Done } else { Exit::Found };
        let columns = read.head.iter().zip(&mapping.fields);
        if self.form.json {
            return Ok(Answer::json(
                exit,
                &ReadJson {
                    schema: SCHEMA,
                    columns: columns.map(|(column, field)| ColumnJson { column, field: field.as_deref() }).collect(),
                    parts: read.catalogue.parts.len(),
                    kits: read.catalogue.kits.len(),
                    refused: read
                        .refused
                        .iter()
                        .map(|row| RefusedJson { line: row.line, problems: row.problems.iter().map(Problem::from).collect() })
                        .collect(),
                    duplicates: same.iter().map(|one| DuplicateJson { part: &one.part, known: &one.known }).collect(),
                    written,
                },
            ));
        }
        let mut text: String = columns.map(|(column, field)| told_column(column, field.as_deref())).collect();
        text.push_str(&told_rows(&read, &same));
        text.extend(written.iter().map(|path| format!("Written: {}\n", escaped(path))));
        if written.is_empty() {
            text.push_str("Nothing is written; say --out FILE.ron to write the catalogue.\n");
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

    /// The catalogue, and the refused rows beside it.
    fn write(&self, read: &Imported) -> Result<Vec<String>, Vec<Diagnostic>> {
        let Some(out) = &self.out else { return Ok(Vec::new()) };
        let refused =
            |path: &Path, error: &dyn std::fmt::Display| vec![about(path, error.to_string(), "name another file".to_owned())];
        if files::is_there(out) {
            return Err(refused(out, &"the file is there already"));
        }
        let empty = CatalogueFile { version: CURRENT, parts: Vec::new(), kits: Vec::new() };
        let text = save::write_catalogue(None, &empty, &read.catalogue).map_err(|error| refused(out, &error))?;
        let mut all = vec![(out.clone(), text)];
        if !read.refused.is_empty() {
            let aside = out.with_extension("refused.csv");
            all.push((aside.clone(), read.set_aside().map_err(|error| refused(&aside, &error))?));
        }
        let mut written = Vec::new();
        for (path, text) in all {
            Disk::Real.save(&path, &text, None).map_err(|error| error.problems(&path))?;
            written.push(files::name(&path));
        }
        Ok(written)
    }
}

fn told_column(column: &str, field: Option<&str>) -> String {
    let field = field.unwrap_or("left out");
    format!("{}: {field}\n", escaped(column))
}

fn told_rows(read: &Imported, same: &[Duplicate]) -> String {
    let mut text: String = read.refused.iter().flat_map(|row| &row.problems).map(answer::problem).collect();
    for one in same {
        // Writing to a string cannot fail.
        let _ = if one.part == one.known {
            writeln!(text, "{}: is there already, and would be replaced.", escaped(&one.part))
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
        self.written().unwrap_or_else(|problems| Answer::refused(&problems))
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

fn about(path: &Path, reason: String, hint: String) -> Diagnostic {
    Diagnostic { file: files::name(path), line: 1, column: 1, part: None, field: None, reason, hint: Some(hint) }
}
