//! What the window holds. It changes in `run_command.rs` alone.

mod document;

use std::{path::PathBuf, sync::Arc};

use propwright_engine::policy::Policy;
use propwright_schema::catalogue::Catalogue;

pub use document::{Document, DocumentId, Judged, Picker, Place, Step};

/// A page: what stands beside the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
pub enum Page {
    /// What the craft is for.
    Purpose,
    /// Choosing parts.
    Parts,
    /// What stands in the way of the parts together.
    Together,
    /// How it flies.
    Flight,
    /// What it costs.
    Cost,
}

impl Page {
    /// The pages in the order of the job.
    pub const ALL: [Self; 5] = [Self::Purpose, Self::Parts, Self::Together, Self::Flight, Self::Cost];

    /// The word on its tab.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Purpose => "Purpose",
            Self::Parts => "Parts",
            Self::Together => "Together",
            Self::Flight => "Flight",
            Self::Cost => "Cost",
        }
    }
}

/// What covers the window until it is answered.
#[derive(Debug, Clone, PartialEq)]
pub enum Cover {
    /// Asks which file to read.
    Open {
        /// The path so far.
        path: String,
        /// Why the last try failed; empty before.
        problem: String,
    },
    /// Asks under which name to save.
    SaveAs {
        /// The document.
        document: DocumentId,
        /// The path so far.
        path: String,
        /// Why the last try failed; empty before.
        problem: String,
        /// Close the document when it is saved.
        then_close: bool,
    },
    /// Asks for a new name of the document.
    Rename {
        /// The document.
        document: DocumentId,
        /// The name so far.
        name: String,
    },
    /// Asks what to do with a document that is not saved, before it is closed.
    Unsaved {
        /// The document.
        document: DocumentId,
    },
    /// Finds anything.
    Finder {
        /// The words so far.
        words: String,
        /// The line that Enter takes.
        line: usize,
    },
    /// The list of keys.
    Keys,
    /// Says what went wrong, or what was shown only in part.
    Message {
        /// What it is about.
        title: String,
        /// One line each.
        lines: Vec<String>,
    },
}

/// Light, dark, or as the system has it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Serialize, serde::Deserialize)]
pub enum Appearance {
    /// As the system has it.
    #[default]
    System,
    /// Ink on paper.
    Light,
    /// Paper on ink.
    Dark,
}

/// What is remembered from one start to the next.
#[derive(Debug, Clone, PartialEq, Default, serde::Serialize, serde::Deserialize)]
#[serde(default)]
pub struct Memory {
    /// Light or dark.
    pub appearance: Appearance,
    /// Files used last, the latest first.
    pub recent: Vec<PathBuf>,
    /// What was not saved when the window was last seen, in case it ends without a farewell.
    pub unsaved: Vec<Unsaved>,
}

/// A build list that was not saved.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Unsaved {
    /// Its file, if it has one.
    pub path: Option<PathBuf>,
    /// Its text.
    pub text: String,
}

impl Memory {
    /// How many files are remembered.
    const MOST: usize = 8;

    /// Puts a file first.
    pub fn used(&mut self, path: &std::path::Path) {
        self.recent.retain(|known| known != path);
        self.recent.insert(0, path.to_owned());
        self.recent.truncate(Self::MOST);
    }
}

/// All that the window holds.
pub struct App {
    /// The open documents, never none once the window is up.
    pub documents: Vec<Document>,
    /// The one that is shown.
    pub current: DocumentId,
    /// The parts to choose from.
    pub catalogue: Arc<Catalogue>,
    /// The thresholds in force.
    pub policy: Arc<Policy>,
    /// The page that is shown.
    pub page: Page,
    /// What covers the window, if anything.
    pub cover: Option<Cover>,
    /// What is remembered.
    pub memory: Memory,
    /// The window was asked to close and closes when no document is left unsaved.
    pub leaving: bool,
    /// The window may close now.
    pub left: bool,
    next: u64,
}

impl App {
    /// A window's content without a document.
    pub const fn new(catalogue: Arc<Catalogue>, policy: Arc<Policy>, memory: Memory) -> Self {
        Self {
            documents: Vec::new(),
            current: DocumentId(0),
            catalogue,
            policy,
            page: Page::Together,
            cover: None,
            memory,
            leaving: false,
            left: false,
            next: 0,
        }
    }

    /// A document's id that was never used before.
    pub const fn next_id(&mut self) -> DocumentId {
        self.next += 1;
        DocumentId(self.next)
    }

    /// An open document.
    pub fn document(&self, id: DocumentId) -> Option<&Document> {
        self.documents.iter().find(|document| document.id == id)
    }

    /// An open document, to change it.
    pub fn document_mut(&mut self, id: DocumentId) -> Option<&mut Document> {
        self.documents.iter_mut().find(|document| document.id == id)
    }

    /// The document that is shown.
    pub fn shown(&self) -> Option<&Document> {
        self.document(self.current)
    }
}
