//! What the window holds. It changes in `run_command.rs` alone.

mod document;
mod entering;
mod importing;
mod mending;
mod paper;
mod picker;
mod shelf;
mod sources;

use std::{path::PathBuf, sync::Arc};

use propwright_engine::policy::Policy;
use propwright_schema::catalogue::Catalogue;

use crate::{
    demo::{self, Beginning},
    files::Disk,
    run_command::deeds::Deed,
    view::Words,
};

pub use document::{Costed, Curves, Document, DocumentId, Judged, Place, Step};
pub use entering::{Entering, Unkept, Use, UseKey, Uses};
pub use importing::{Going, Importing, Remembered, Taking};
pub use mending::{GraphLook, Mending, Stop};
pub use paper::{GraphFile, Paper};
pub use picker::{Beside, Look, MOST_BESIDE, Picker, Tried, Work};
pub use shelf::{Own, Purse, Section};
pub use sources::{Kept, Reading, Sources};

/// A page: what stands beside the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, serde::Serialize, serde::Deserialize)]
pub enum Page {
    /// What the craft is for.
    Purpose,
    /// Choosing parts.
    Parts,
    /// What stands in the way of the parts together.
    #[default]
    Together,
    /// How it flies.
    Flight,
    /// What it costs.
    Cost,
    /// What is printed of it.
    Paper,
}

impl Page {
    /// The pages in the order of the job.
    pub const ALL: [Self; 6] = [Self::Purpose, Self::Parts, Self::Together, Self::Flight, Self::Cost, Self::Paper];

    /// The word on its tab.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Purpose => "Purpose",
            Self::Parts => "Parts",
            Self::Together => "Together",
            Self::Flight => "Flight",
            Self::Cost => "Cost",
            Self::Paper => "Paper",
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
        /// The file was found to be there already: saving again replaces it.
        replace: bool,
    },
    /// Asks what to do with a document whose file was changed by somebody else.
    Changed {
        /// The document.
        document: DocumentId,
        /// In what the file differs from the document.
        differs: String,
        /// What goes on once that is answered.
        then: Then,
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
    /// What the program checks, by which thresholds, and which key does what.
    Help(Help),
    /// Asks for catalogues and thresholds of the user's own.
    Sources {
        /// The path of a catalogue so far.
        catalogue: String,
        /// The path of a policy so far.
        policy: String,
        /// Why the last try failed; empty before.
        problems: Vec<String>,
    },
    /// Asks what to do with a form that was filled in and not kept, before it is closed.
    Unkept,
    /// Says what went wrong, or what was shown only in part.
    Message {
        /// What it is about.
        title: String,
        /// One line each.
        lines: Vec<String>,
    },
}

/// What goes on once a question about a changed file is answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Then {
    /// Nothing: the change was noticed by the way.
    Rest,
    /// The save that noticed it.
    Save {
        /// Close the document afterwards.
        then_close: bool,
    },
}

/// How a question about a changed file is answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Whose {
    /// The document stays as it is and may overwrite the file.
    Mine,
    /// The document becomes what the file holds; undo brings it back.
    Theirs,
}

/// What the help shows.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Help {
    /// The chapter.
    pub topic: Topic,
    /// Words that an entry must hold.
    pub words: String,
    /// The rule that stands open, by its id.
    pub rule: Option<&'static str>,
    /// The names of the thresholds that it judges by.
    pub thresholds: Vec<&'static str>,
}

impl Help {
    /// The help on one rule.
    pub fn on(rule: &'static str) -> Self {
        Self { topic: Topic::Rules, words: rule.to_owned(), rule: Some(rule), ..Self::default() }
    }
}

/// A chapter of the help.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Topic {
    /// What the words mean.
    #[default]
    Words,
    /// What is checked.
    Rules,
    /// By which thresholds.
    Thresholds,
    /// What the keys do.
    Keys,
    /// What can hurt, and how far to trust the figures.
    Cautions,
}

impl Topic {
    /// All chapters.
    pub const ALL: [Self; 5] = [Self::Words, Self::Rules, Self::Thresholds, Self::Keys, Self::Cautions];

    /// The word on its tab.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Words => "Words",
            Self::Rules => "Rules",
            Self::Thresholds => "Thresholds",
            Self::Keys => "Keys",
            Self::Cautions => "Cautions",
        }
    }
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
    /// Catalogues of the user's own, later ones over earlier ones.
    pub catalogues: Vec<PathBuf>,
    /// Thresholds of the user's own.
    pub policy: Option<PathBuf>,
    /// The page that was shown.
    pub page: Page,
    /// The file of the user's shelf.
    pub stock: Option<PathBuf>,
    /// The file of exchange rates.
    pub rates: Option<PathBuf>,
    /// A part or kit that was being entered when the window was last seen, as text.
    pub entering: Option<String>,
    /// What the columns of tables hold, as the user said it last.
    pub mappings: Vec<Remembered>,
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
    /// Files of the user's own that parts and thresholds come from.
    pub sources: Sources,
    /// The user's shelf and exchange rates.
    pub purse: Purse,
    /// The parts to choose from.
    pub catalogue: Arc<Catalogue>,
    /// The words by which its parts are found.
    pub words: Words,
    /// Demo builds to begin from, with its prices.
    pub beginnings: Vec<Beginning>,
    /// The thresholds in force.
    pub policy: Arc<Policy>,
    /// Where files are written.
    pub disk: Disk,
    /// The page that is shown.
    pub page: Page,
    /// What covers the window, if anything.
    pub cover: Option<Cover>,
    /// The part or kit that is being entered.
    pub entering: Option<Entering>,
    /// The table that is being read.
    pub importing: Option<Importing>,
    /// Rows of a table that are on their way into a catalogue file.
    pub taking: Option<Taking>,
    /// Deeds beside the build lists that can be taken back, the latest last.
    pub deeds_past: Vec<Deed>,
    /// Deeds that were taken back, the nearest last.
    pub deeds_future: Vec<Deed>,
    /// What is remembered.
    pub memory: Memory,
    /// The window was asked to close and closes when no document is left unsaved.
    pub leaving: bool,
    /// The window may close now.
    pub left: bool,
    next: u64,
    ticks: u64,
}

impl App {
    /// A window's content without a document.
    pub fn new(catalogue: Arc<Catalogue>, policy: Arc<Policy>, memory: Memory) -> Self {
        Self {
            documents: Vec::new(),
            current: DocumentId(0),
            sources: Sources::new(Arc::clone(&catalogue)),
            purse: Purse::default(),
            words: Words::of(&catalogue),
            beginnings: demo::beginnings(&catalogue),
            catalogue,
            policy,
            disk: Disk::Real,
            page: memory.page,
            cover: None,
            entering: None,
            importing: None,
            taking: None,
            deeds_past: Vec::new(),
            deeds_future: Vec::new(),
            memory,
            leaving: false,
            left: false,
            next: 0,
            ticks: 0,
        }
    }

    /// A document's id that was never used before.
    pub const fn next_id(&mut self) -> DocumentId {
        self.next += 1;
        DocumentId(self.next)
    }

    /// The next place in the order of all edits and deeds.
    pub const fn tick(&mut self) -> u64 {
        self.ticks += 1;
        self.ticks
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
