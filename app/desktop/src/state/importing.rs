//! The table that is being read into a catalogue of the user's own.

use std::{
    collections::BTreeMap,
    path::PathBuf,
    sync::{
        Arc,
        atomic::{AtomicUsize, Ordering},
    },
};

use propwright_schema::table::{Duplicate, Imported, Mapping, Same, Sheet};
use serde::{Deserialize, Serialize};

use super::Stop;
use crate::view::TableRow;

/// A table with what its columns hold, and what came of its rows.
#[derive(Debug, Clone)]
pub struct Importing {
    /// The table.
    pub path: PathBuf,
    /// Its cells.
    pub sheet: Arc<Sheet>,
    /// What its columns hold.
    pub mapping: Mapping,
    /// Counts the mappings: an answer to an earlier one is dropped.
    pub serial: u64,
    /// What came of its rows; absent while they are read, or after a stop.
    pub read: Option<Arc<Imported>>,
    /// Rows that are in a catalogue already.
    pub same: Vec<Duplicate>,
    /// What becomes of those.
    pub choice: Same,
    /// What becomes of single ones, by the id of the row.
    pub choices: BTreeMap<String, Same>,
    /// How far the reading is, and the way to stop it.
    pub going: Option<Going>,
    /// Only rows that are refused or there already are shown.
    pub only_doubtful: bool,
    /// Path of the catalogue that takes the rows.
    pub into: String,
    /// Why it could not be done, or what was done.
    pub told: Vec<String>,
    /// The rows as they are drawn.
    pub rows: Vec<TableRow>,
    /// The place of the deed that laid the rows into the catalogue.
    pub taken: Option<u64>,
}

impl Importing {
    /// What becomes of a row that is there already.
    pub fn choice_of(&self, part: &str) -> Same {
        self.choices.get(part).copied().unwrap_or(self.choice)
    }
}

/// A reading under way.
#[derive(Debug, Clone, Default)]
pub struct Going {
    /// Stops it.
    pub stop: Stop,
    rows: Arc<AtomicUsize>,
}

impl Going {
    /// Rows that are read.
    pub fn rows(&self) -> usize {
        self.rows.load(Ordering::Relaxed)
    }

    /// Says how many rows are read.
    pub fn tell(&self, rows: usize) {
        self.rows.store(rows, Ordering::Relaxed);
    }
}

/// Rows that the worker lays into a catalogue file.
#[derive(Debug, Clone)]
pub struct Taking {
    /// The table by its serial number.
    pub serial: u64,
    /// The catalogue file.
    pub into: PathBuf,
    /// Stops it before anything is written.
    pub stop: Stop,
    step: Arc<AtomicUsize>,
}

impl Taking {
    /// What is done step by step, in words.
    pub const STEPS: [&str; 4] =
        ["reading the catalogue", "laying the rows in", "writing the catalogue", "reading it back from the disk"];

    /// Rows of a table on their way into a file.
    pub fn new(serial: u64, into: PathBuf) -> Self {
        Self { serial, into, stop: Stop::default(), step: Arc::default() }
    }

    /// Says at which step it is.
    pub fn step(&self, step: usize) {
        self.step.store(step, Ordering::Relaxed);
    }

    /// How many steps are done.
    pub fn done(&self) -> usize {
        self.step.load(Ordering::Relaxed).min(Self::STEPS.len() - 1)
    }
}

/// What the columns of tables with one head hold, as the user said it last.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Remembered {
    /// The head.
    pub head: Vec<String>,
    /// What its columns hold.
    pub mapping: Mapping,
}
