//! A table read row by row, so that a window can show how far it is and stop it.

use std::{collections::BTreeMap, sync::Arc};

use super::{
    aside::{RefusedRow, set_aside},
    head::{Mapping, guess},
    row::{Made, Row},
    sheet::Sheet,
};
use crate::{catalogue::CatalogueFile, diagnostic::Diagnostic, kit::Kit, part::Part, version::CURRENT};

/// A row that is in use.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TakenRow {
    /// Line of the table, counted from 1.
    pub line: u32,
    /// Id of its part or kit.
    pub id: String,
    /// Is it a kit?
    pub kit: bool,
    /// Is it a further role of a part that an earlier row began?
    pub further: bool,
}

/// What a table holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Imported {
    /// The parts and kits of all rows that can be used.
    pub catalogue: CatalogueFile,
    /// The rows that made them, in the order of the table.
    pub taken: Vec<TakenRow>,
    /// The other rows, likewise.
    pub refused: Vec<RefusedRow>,
    /// The head, for the rows that are kept aside.
    pub head: Vec<String>,
}

impl Imported {
    /// The refused rows as a table of their own; see [`set_aside`].
    ///
    /// # Errors
    /// As [`set_aside`].
    pub fn set_aside(&self) -> Result<String, csv::Error> {
        set_aside(&self.head, &self.refused)
    }
}

/// A table that is being read.
#[derive(Debug, Clone)]
pub struct Import {
    sheet: Arc<Sheet>,
    mapping: Mapping,
    next: usize,
    parts: Vec<Part>,
    kits: Vec<Kit>,
    /// Line and place of each part by its id.
    known: BTreeMap<String, (u32, usize)>,
    taken: Vec<TakenRow>,
    refused: Vec<RefusedRow>,
}

impl Import {
    /// A table with the mapping guessed from its head.
    ///
    /// # Errors
    /// When the text is no table.
    pub fn new(file: &str, text: &str) -> Result<Self, Vec<Diagnostic>> {
        let sheet = Sheet::read(file, text)?;
        let mapping = guess(sheet.head());
        Ok(Self::of(Arc::new(sheet), mapping))
    }

    /// A table whose columns hold what is said.
    pub const fn of(sheet: Arc<Sheet>, mapping: Mapping) -> Self {
        Self {
            sheet,
            mapping,
            next: 0,
            parts: Vec::new(),
            kits: Vec::new(),
            known: BTreeMap::new(),
            taken: Vec::new(),
            refused: Vec::new(),
        }
    }

    /// The head as it is.
    pub fn head(&self) -> &[String] {
        self.sheet.head()
    }

    /// Which field each column holds.
    pub const fn mapping(&self) -> &Mapping {
        &self.mapping
    }

    /// Reads by another mapping, from the first row on.
    pub fn map(&mut self, mapping: Mapping) {
        *self = Self::of(Arc::clone(&self.sheet), mapping);
    }

    /// Rows that are still to be read.
    pub fn left(&self) -> usize {
        self.sheet.rows() - self.next
    }

    /// Rows of the table.
    pub fn rows(&self) -> usize {
        self.sheet.rows()
    }

    /// Reads so many rows more.
    pub fn next_chunk(&mut self, rows: usize) {
        let end = self.next.saturating_add(rows).min(self.sheet.rows());
        for at in self.next..end {
            self.row(at);
        }
        self.next = end;
    }

    /// Reads what is left.
    pub fn finish(mut self) -> Imported {
        self.next_chunk(usize::MAX);
        let catalogue = CatalogueFile {
            version: CURRENT,
            parts: self.parts.into_iter().map(Arc::new).collect(),
            kits: self.kits.into_iter().map(Arc::new).collect(),
        };
        Imported { catalogue, taken: self.taken, refused: self.refused, head: self.sheet.head().to_vec() }
    }

    fn row(&mut self, at: usize) {
        let sheet = Arc::clone(&self.sheet);
        let record = &sheet.records()[at];
        let mut row = Row::of(sheet.file(), record, &self.mapping);
        let made = row.made();
        let line = row.line();
        let id = match &made {
            Some(Made::Part(part)) => Some(part.id.clone()),
            Some(Made::Kit(kit)) => Some(kit.id.clone()),
            _ => None,
        };
        let earlier = id.as_ref().and_then(|id| Some((id, self.known.get(id)?)));
        if let Some((id, (earlier, _))) = earlier {
            row.wrong_id(id, format!("the id {id:?} stands in line {earlier} already"));
        }
        match made {
            Some(Made::Role(id, role)) => match self.known.get(&id) {
                Some((_, place)) if row.problems.is_empty() && *place < self.parts.len() => {
                    let mut part = self.parts[*place].clone();
                    part.fills.push(role);
                    row.check(&part, part.fills.len() - 1);
                    if row.problems.is_empty() {
                        self.parts[*place] = part;
                        self.taken.push(TakenRow { line, id, kit: false, further: true });
                    }
                }
                Some(_) => {}
                None => row.wrong_id(&id, format!("no row above begins a part {id:?}, and this one has no name")),
            },
            Some(Made::Part(part)) if row.problems.is_empty() => {
                self.known.insert(part.id.clone(), (line, self.parts.len()));
                self.taken.push(TakenRow { line, id: part.id.clone(), kit: false, further: false });
                self.parts.push(part);
            }
            Some(Made::Kit(kit)) if row.problems.is_empty() => {
                self.known.insert(kit.id.clone(), (line, usize::MAX));
                self.taken.push(TakenRow { line, id: kit.id.clone(), kit: true, further: false });
                self.kits.push(kit);
            }
            _ => {}
        }
        self.refused.extend(row.refused());
    }
}
