//! A table read row by row, so that a window can show how far it is and stop it.

use std::{collections::BTreeMap, sync::Arc};

use csv::{ReaderBuilder, StringRecord};

use super::{
    head::{Mapping, guess},
    row::{Made, Row},
};
use crate::{catalogue::CatalogueFile, diagnostic::Diagnostic, kit::Kit, part::Part, version::CURRENT};

/// A row that cannot be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RefusedRow {
    /// Line of the table, counted from 1.
    pub line: u32,
    /// Its cells as they were.
    pub cells: Vec<String>,
    /// All that is wrong with it.
    pub problems: Vec<Diagnostic>,
}

/// What a table holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Imported {
    /// The parts and kits of all rows that can be used.
    pub catalogue: CatalogueFile,
    /// The other rows.
    pub refused: Vec<RefusedRow>,
    /// The head, for the rows that are kept aside.
    pub head: Vec<String>,
}

impl Imported {
    /// The refused rows as a table of their own, with what is wrong in a last column: mended, it can be read again.
    ///
    /// # Errors
    /// When the writer refuses, which it does for nothing that was read.
    pub fn set_aside(&self) -> Result<String, csv::Error> {
        let mut writer = csv::WriterBuilder::new().flexible(true).from_writer(Vec::new());
        writer.write_record(self.head.iter().map(String::as_str).chain(std::iter::once(PROBLEM)))?;
        for row in &self.refused {
            let problems: Vec<String> = row.problems.iter().map(told).collect();
            let empty = self.head.len().saturating_sub(row.cells.len());
            let cells = row.cells.iter().cloned().chain(std::iter::repeat_n(String::new(), empty));
            writer.write_record(cells.chain(std::iter::once(problems.join(" / "))))?;
        }
        let bytes = writer.into_inner().map_err(|error| std::io::Error::other(error.to_string()))?;
        String::from_utf8(bytes).map_err(|error| std::io::Error::other(error.to_string()).into())
    }
}

/// Head of the column that says what is wrong; it is left out when such a table is read again.
const PROBLEM: &str = "problem";

fn told(problem: &Diagnostic) -> String {
    let field = problem.field.as_deref().unwrap_or_default();
    format!("{field}: {} ({})", problem.reason, problem.hint.as_deref().unwrap_or_default())
}

/// A table that is being read.
#[derive(Debug, Clone)]
pub struct Import {
    file: String,
    head: Vec<String>,
    mapping: Mapping,
    records: Vec<(u32, StringRecord)>,
    next: usize,
    parts: Vec<Part>,
    kits: Vec<Kit>,
    /// Line and place of each part by its id.
    known: BTreeMap<String, (u32, usize)>,
    refused: Vec<RefusedRow>,
}

impl Import {
    /// A table with the mapping guessed from its head. Columns are parted by commas, semicolons or tabs, whichever the head holds
    /// most of.
    ///
    /// # Errors
    /// When the text is no table.
    pub fn new(file: &str, text: &str) -> Result<Self, Vec<Diagnostic>> {
        let problem = |line: u64, reason: String, hint: &str| {
            vec![Diagnostic {
                file: file.to_owned(),
                line: u32::try_from(line).unwrap_or(u32::MAX).max(1),
                column: 1,
                part: None,
                field: None,
                reason,
                hint: Some(hint.to_owned()),
            }]
        };
        let first = text.lines().next().unwrap_or_default();
        let parter =
            [b',', b';', b'\t'].into_iter().max_by_key(|sign| (first.bytes().filter(|byte| byte == sign).count(), *sign == b','));
        let mut reader = ReaderBuilder::new().delimiter(parter.unwrap_or(b',')).flexible(true).from_reader(text.as_bytes());
        let head: Vec<String> = match reader.headers() {
            Ok(head) => head.iter().map(|name| name.trim_start_matches('\u{feff}').to_owned()).collect(),
            Err(error) => return Err(problem(1, format!("this is no table: {error}"), "save the spreadsheet as CSV in UTF-8")),
        };
        if head.iter().all(|name| name.trim().is_empty()) {
            return Err(problem(1, "the table has no head".to_owned(), "name the columns in the first line"));
        }
        let mut records = Vec::new();
        for record in reader.records() {
            let record = record
                .map_err(|error| problem(2, format!("this is no table: {error}"), "save the spreadsheet as CSV in UTF-8"))?;
            let line = record.position().map_or(1, csv::Position::line);
            if record.iter().any(|cell| !cell.trim().is_empty()) {
                records.push((u32::try_from(line).unwrap_or(u32::MAX), record));
            }
        }
        let mapping = guess(&head);
        Ok(Self {
            file: file.to_owned(),
            head,
            mapping,
            records,
            next: 0,
            parts: Vec::new(),
            kits: Vec::new(),
            known: BTreeMap::new(),
            refused: Vec::new(),
        })
    }

    /// The head as it is.
    pub fn head(&self) -> &[String] {
        &self.head
    }

    /// Which field each column holds.
    pub const fn mapping(&self) -> &Mapping {
        &self.mapping
    }

    /// Reads by another mapping, from the first row on.
    pub fn map(&mut self, mapping: Mapping) {
        self.mapping = mapping;
        self.next = 0;
        self.parts.clear();
        self.kits.clear();
        self.known.clear();
        self.refused.clear();
    }

    /// Rows that are still to be read.
    pub fn left(&self) -> usize {
        self.records.len() - self.next
    }

    /// Rows of the table.
    pub fn rows(&self) -> usize {
        self.records.len()
    }

    /// Reads so many rows more.
    pub fn next_chunk(&mut self, rows: usize) {
        let end = (self.next + rows).min(self.records.len());
        for at in self.next..end {
            self.row(at);
        }
        self.next = end;
    }

    /// Reads what is left.
    pub fn finish(mut self) -> Imported {
        self.next_chunk(usize::MAX - self.next);
        let catalogue = CatalogueFile {
            version: CURRENT,
            parts: self.parts.into_iter().map(Arc::new).collect(),
            kits: self.kits.into_iter().map(Arc::new).collect(),
        };
        Imported { catalogue, refused: self.refused, head: self.head }
    }

    fn row(&mut self, at: usize) {
        let (line, record) = &self.records[at];
        let mut row = Row { file: &self.file, line: *line, mapping: &self.mapping, record, problems: Vec::new() };
        let made = row.made();
        let id = match &made {
            Some(Made::Part(part)) => Some(part.id.clone()),
            Some(Made::Kit(kit)) => Some(kit.id.clone()),
            _ => None,
        };
        let earlier = id.as_ref().and_then(|id| self.known.get(id));
        if let Some((earlier, _)) = earlier {
            let reason = format!("the id {:?} stands in line {earlier} already", id.clone().unwrap_or_default());
            row.problems.push(repeated(&self.file, *line, id.clone(), reason));
        }
        match made {
            Some(Made::Role(id, role)) => match self.known.get(&id) {
                Some((_, place)) if row.problems.is_empty() && *place < self.parts.len() => {
                    let mut part = self.parts[*place].clone();
                    part.fills.push(role);
                    row.check(&part, part.fills.len() - 1);
                    if row.problems.is_empty() {
                        self.parts[*place] = part;
                    }
                }
                Some(_) => {}
                None => {
                    let reason = format!("no row above begins a part {id:?}, and this one has no name");
                    row.problems.push(repeated(&self.file, *line, Some(id), reason));
                }
            },
            Some(Made::Part(part)) if row.problems.is_empty() => {
                self.known.insert(part.id.clone(), (*line, self.parts.len()));
                self.parts.push(part);
            }
            Some(Made::Kit(kit)) if row.problems.is_empty() => {
                self.known.insert(kit.id.clone(), (*line, usize::MAX));
                self.kits.push(kit);
            }
            _ => {}
        }
        if !row.problems.is_empty() {
            let cells = record.iter().map(str::to_owned).collect();
            let problems = row.problems;
            self.refused.push(RefusedRow { line: *line, cells, problems });
        }
    }
}

fn repeated(file: &str, line: u32, part: Option<String>, reason: String) -> Diagnostic {
    let hint = Some("give the part an id of its own, and its first row a name".to_owned());
    Diagnostic { file: file.to_owned(), line, column: 1, part, field: Some("id".to_owned()), reason, hint }
}
