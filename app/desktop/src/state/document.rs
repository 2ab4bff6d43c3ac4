//! One build list with its past, its file and its report.

use std::{collections::BTreeMap, path::PathBuf, sync::Arc};

use propwright_engine::{Report, craft::Craft, sweep::Sweep};
use propwright_schema::{build_list::BuildList, catalogue::Catalogue, slot::Slot};

use super::{GraphFile, GraphLook, Mending, Paper, Picker, Section, Tried};
use crate::{
    demo,
    files::Stamp,
    input::Input,
    view::{Bench, Costing, Figures},
};

/// Names a document as long as the program runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct DocumentId(pub u64);

/// A line of the list, or a slot that shall get one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// The slot.
    pub slot: Slot,
    /// The line of the build list; absent: a new one.
    pub line: Option<usize>,
}

/// A state to go back to, or forward to.
#[derive(Debug, Clone)]
pub struct Step {
    /// What was done after it, as the menu says it: "Choose Duskmarl 50".
    pub label: String,
    /// Its place in the order of all edits and deeds.
    pub at: u64,
    /// The list.
    pub build: Arc<BuildList>,
}

/// What is known about the list as it is now.
#[derive(Debug, Clone)]
pub enum Judged {
    /// Nothing yet.
    Waiting,
    /// The report.
    Done(Arc<Report>),
    /// The evaluation failed, with the reason.
    Failed(String),
}

/// The curves of a list's flight, drawn while the page about it is shown.
#[derive(Debug, Clone, Default)]
pub struct Curves {
    /// The curves that were found last.
    pub sweep: Option<Arc<Sweep>>,
    /// The report to which they belong.
    pub of: Option<Arc<Report>>,
    /// The report for which they were asked last.
    pub asked: Option<Arc<Report>>,
}

impl Curves {
    /// Do the curves belong to this report?
    pub fn are_of(&self, report: &Arc<Report>) -> bool {
        self.of.as_ref().is_some_and(|of| Arc::ptr_eq(of, report))
    }
}

/// What a section of the page of costs shows.
pub struct Costed {
    /// The states of the builds for which it was asked.
    pub key: Vec<(DocumentId, u64)>,
    /// What is drawn; absent while the answer is awaited.
    pub shown: Option<Costing>,
}

/// One open build list.
pub struct Document {
    /// Its name for commands.
    pub id: DocumentId,
    /// The list as it is now.
    pub build: Arc<BuildList>,
    /// The parts of the list as it is now, looked up.
    pub craft: Craft,
    /// The list as it is in its file, or as it was opened.
    pub saved: Arc<BuildList>,
    /// Its file.
    pub path: Option<PathBuf>,
    /// The text of that file.
    pub text: Option<String>,
    /// The state of that file when it was read or written.
    pub stamp: Option<Stamp>,
    /// States to go back to, the latest last.
    pub past: Vec<Step>,
    /// States to go forward to, the nearest last.
    pub future: Vec<Step>,
    /// The last step of the past is still being dragged: edits of the same label go into it.
    pub dragged: bool,
    /// What is being typed, and what was typed and cannot be read, by its field.
    pub drafts: BTreeMap<Input, String>,
    /// Counts the changes.
    pub revision: u64,
    /// What was found last.
    pub judged: Judged,
    /// The revision to which that belongs.
    pub judged_revision: Option<u64>,
    /// The curves of the flight.
    pub curves: Curves,
    /// The figures before the last change.
    pub before: Option<Figures>,
    /// What is set apart in list and drawing.
    pub chosen: Option<Place>,
    /// How the graph is looked at, while it is shown in the place of the craft.
    pub graph: Option<GraphLook>,
    /// Where the graph is written as a drawing.
    pub graph_file: GraphFile,
    /// The derivation whose working is shown, by its id.
    pub followed: Option<&'static str>,
    /// The ways out of what stands in the way.
    pub mending: Mending,
    /// What is put on paper.
    pub paper: Paper,
    /// The choice of a part that is under way.
    pub picker: Option<Picker>,
    /// What is shown on trial in place of the list.
    pub tried: Option<Tried>,
    /// What the sections of the page of costs show.
    pub costing: BTreeMap<Section, Costed>,
    /// What the panels draw, derived from all this.
    pub bench: Bench,
}

impl Document {
    /// A document of a list, not yet judged.
    pub fn new(id: DocumentId, build: Arc<BuildList>, catalogue: &Catalogue) -> Self {
        Self {
            id,
            craft: Craft::new(catalogue, &build),
            saved: Arc::clone(&build),
            build,
            path: None,
            text: None,
            stamp: None,
            past: Vec::new(),
            future: Vec::new(),
            dragged: false,
            drafts: BTreeMap::new(),
            revision: 1,
            judged: Judged::Waiting,
            judged_revision: None,
            curves: Curves::default(),
            before: None,
            chosen: None,
            paper: Paper::default(),
            graph: None,
            graph_file: GraphFile::default(),
            followed: None,
            mending: Mending::default(),
            picker: None,
            tried: None,
            costing: BTreeMap::new(),
            bench: Bench::default(),
        }
    }

    /// Does the list differ from its file?
    pub fn is_edited(&self) -> bool {
        !Arc::ptr_eq(&self.saved, &self.build) && self.saved != self.build
    }

    /// Is it a demo build as it came?
    pub fn is_a_demo(&self) -> bool {
        self.path.is_none() && !self.is_edited() && demo::builds().iter().any(|(_, demo)| **demo == *self.build)
    }

    /// The last report, even if the list has changed since.
    pub const fn report(&self) -> Option<&Arc<Report>> {
        match &self.judged {
            Judged::Done(report) => Some(report),
            Judged::Waiting | Judged::Failed(_) => None,
        }
    }

    /// The craft that is shown: the one on trial, else the list's own.
    pub fn shown_craft(&self) -> &Craft {
        self.tried.as_ref().map_or(&self.craft, |tried| &tried.craft)
    }

    /// The report of the craft that is shown.
    pub fn shown_report(&self) -> Option<&Arc<Report>> {
        self.tried.as_ref().map_or_else(|| self.report(), |tried| tried.report.as_ref())
    }

    /// Does the report belong to the list as it is now?
    pub fn is_current(&self) -> bool {
        self.judged_revision == Some(self.revision)
    }

    /// The first line of a slot, or the slot without a line while it is empty.
    pub fn first_place(&self, slot: Slot) -> Place {
        Place { slot, line: self.build.fitted(slot).map(|(line, _)| line).next() }
    }

    /// The line that is set apart.
    pub fn chosen_line(&self) -> Option<usize> {
        self.chosen?.line
    }
}
