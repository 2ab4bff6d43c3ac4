//! What the panels draw, as plain structs made by pure functions of a document and its report.

mod asking;
mod beginning;
mod beside;
mod cost;
mod entering;
mod finder;
mod findings;
mod flight;
mod glossary;
mod graph;
mod help;
mod importing;
mod ledger;
mod parts;
mod picker;
mod purpose;
mod sources;
mod ways;
mod wiring;
mod words;
mod working;

use std::collections::BTreeMap;

use propwright_engine::{
    drawing::{Drawing, side_view, top_view},
    finding::{Finding, Status},
};
use propwright_schema::slot::Slot;

pub use asking::{Asking, Guess, Said, Waiting};
pub use beginning::{Beginning, beginnings, made_for};
pub use beside::{Cell as BesideCell, Column as BesideColumn, Line as BesideLine, Table, table};
pub use cost::{
    Bar, BillRow, BillView, Charged, Column, ComparedRow, ComparedView, Costing, CourseView, Group, KitView, Mark, Segment,
    StepView, bill_view, costing,
};
pub use entering::{Control, Fold, Form, Group as FormGroup, Line, form};
pub use finder::{Hit, hits};
pub use findings::{Card, Findings, Reason, findings, lower_first, reason};
pub use flight::{Barrier, Flight, Made, Sure, Time, flight};
pub use glossary::{about as explained, meaning};
pub use graph::{Drawn, drawn};
pub use help::{Entry as HelpEntry, help, leading, threshold_lines};
pub use importing::{TableRow, table_rows};
pub use ledger::{Figures, cells};
pub use parts::{Parts, Row, parts};
pub use picker::{Candidate, all_change_words, candidate, change_words, choices, way_name};
pub use purpose::{Asked, Threshold, asked, thresholds};
pub use sources::{Source, sources};
pub use ways::{Mended, WayOut, WaysOut, mended};
pub use wiring::{Offer, feeds, free_outputs, neighbours, other_slots, outputs, ports};
pub use words::Words;
pub use working::{Working, behind, comes_about, slots_told, working};

use crate::{
    state::{Document, Judged, Mending},
    widget::ledger::Cell,
};

/// All that is drawn of one document on every page.
#[derive(Debug, Clone, Default)]
pub struct Bench {
    /// The list in the order of assembly.
    pub parts: Parts,
    /// What stands in the way.
    pub findings: Findings,
    /// What the purpose asks for.
    pub asked: Asked,
    /// The figures along the bottom.
    pub cells: Vec<Cell>,
    /// The craft from above.
    pub top: Drawing,
    /// The craft from the side.
    pub side: Drawing,
    /// What is bought and drawn from the shelf.
    pub bill: BillView,
    /// The gravest status of each slot.
    pub status: BTreeMap<Slot, Status>,
    /// How the craft flies.
    pub flight: Flight,
    /// The graph, while it is shown.
    pub graph: Option<Drawn>,
    /// How the followed figure comes about.
    pub working: Option<Working>,
    /// Ways out of what stands in the way.
    pub mended: Mended,
    /// Why there is no report; absent while there is one or it is awaited.
    pub failure: Option<String>,
}

/// Derives what is drawn.
pub fn bench(document: &Document) -> Bench {
    let report = document.shown_report();
    // What is on trial is compared with the list as it is.
    let own = || document.report().map(|report| Figures::of(report));
    let before = if document.tried.is_some() { own() } else { document.before.clone() };
    let status = report.map(|report| gravest(&report.findings)).unwrap_or_default();
    Bench {
        parts: parts(document, &status),
        findings: report.map(|report| findings(report)).unwrap_or_default(),
        asked: asked(document),
        cells: cells(report.map(|report| &**report), before.as_ref()),
        top: top_view(document.shown_craft()),
        side: side_view(document.shown_craft()),
        bill: report.map(|report| bill_view(report)).unwrap_or_default(),
        status,
        flight: flight(document),
        graph: drawn(document),
        working: working(document),
        mended: match &document.mending {
            Mending::Done(found) => mended(found),
            Mending::Idle | Mending::Working(_) | Mending::Stopped => Mended::default(),
        },
        failure: match &document.judged {
            Judged::Failed(reason) => Some(reason.clone()),
            Judged::Waiting | Judged::Done(_) => None,
        },
    }
}

/// The gravest status of each slot that a finding is about.
fn gravest(findings: &[Finding]) -> BTreeMap<Slot, Status> {
    let mut status = BTreeMap::new();
    for finding in findings {
        for subject in &finding.outcome.subjects {
            let known = status.entry(subject.slot).or_insert(Status::Fits);
            *known = (*known).max(finding.status());
        }
    }
    status
}
