//! The list of parts in the order of assembly.

use std::collections::BTreeMap;

use propwright_engine::{
    craft::{Placed, Unplaced},
    finding::{Finding, Status},
};
use propwright_schema::{part::Basis, quantity::Quantity, slot::Slot};

use crate::state::{Document, Place};

/// One row of the list.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Where it stands; the line is absent while the slot is empty or filled by another part's board.
    pub place: Place,
    /// The slot with its count: "Motors ×4".
    pub title: String,
    /// The part's name, or what stands in for it.
    pub name: String,
    /// The mass of all pieces: "128 g", "120 g est."; empty where the row has none of its own.
    pub mass: String,
    /// The gravest finding about it; absent where there is nothing to judge.
    pub status: Option<Status>,
    /// Is there a part?
    pub filled: bool,
}

impl Row {
    /// The row as it is read out.
    pub fn spoken(&self) -> String {
        let words = [self.title.as_str(), &self.name, self.status.map_or("", Status::word), &self.mass];
        words.into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(", ")
    }
}

/// The list.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Parts {
    /// What flies.
    pub aboard: Vec<Row>,
    /// What the take-off mass takes for wire and screws.
    pub allowance: Option<String>,
    /// What stays on the ground.
    pub ground: Vec<Row>,
    /// Slots that have no row: what may be added.
    pub more: Vec<Slot>,
    /// Lines whose part could not be found, one sentence each.
    pub strangers: Vec<String>,
}

/// The list of a document.
pub fn parts(document: &Document, status: &BTreeMap<Slot, Status>) -> Parts {
    // What the report misses has a row even while it is empty.
    let found = document.shown_report().map_or(&[][..], |report| &report.findings);
    let wanted: Vec<Slot> = found.iter().filter_map(Finding::vacant).collect();
    let rows: Vec<Row> = Slot::ALL.iter().flat_map(|slot| rows_of(document, *slot, &wanted, status)).collect();
    let more = Slot::ALL.iter().copied().filter(|slot| !rows.iter().any(|row| row.place.slot == *slot)).collect();
    let (ground, aboard) = rows.into_iter().partition(|row| row.place.slot.on_ground());
    let strangers = document.shown_craft().unplaced.iter().map(stranger).collect();
    Parts { aboard, allowance: allowance(document), ground, more, strangers }
}

fn rows_of(document: &Document, slot: Slot, wanted: &[Slot], status: &BTreeMap<Slot, Status>) -> Vec<Row> {
    let placed = document.shown_craft().in_slot(slot);
    if !placed.is_empty() {
        let judged = document.shown_report().map(|_| status.get(&slot).copied().unwrap_or(Status::Fits));
        return placed.iter().map(|placed| filled(placed, judged)).collect();
    }
    let empty = Row {
        place: Place { slot, line: None },
        title: slot.title().to_owned(),
        name: "choose…".to_owned(),
        mass: String::new(),
        status: None,
        filled: false,
    };
    if wanted.contains(&slot) { vec![empty] } else { Vec::new() }
}

fn filled(placed: &Placed, status: Option<Status>) -> Row {
    let (part, slot, count) = (&placed.subject.part, placed.subject.slot, placed.fitted.count);
    let (title, name, mass) = if placed.listed_here {
        let times = if count > 1 { format!(" ×{count}") } else { String::new() };
        let guessed = if part.basis_of("mass_g") == Some(Basis::Estimate) { " est." } else { "" };
        let mass = part.mass_g.map_or_else(|| "? g".to_owned(), |mass| grams(mass.decimal() * f64::from(count)) + guessed);
        (format!("{}{times}", slot.title()), part.name.clone(), mass)
    } else {
        (slot.title().to_owned(), format!("on the {}", part.name), String::new())
    };
    let place = Place { slot, line: placed.listed_here.then_some(placed.line) };
    Row { place, title, name, mass, status, filled: true }
}

/// Grams as they are said in a list, where light parts stand below heavy ones.
pub(super) fn grams(grams: f64) -> String {
    let digits = usize::from(grams < 9.95);
    format!("{grams:.digits$} g")
}

/// What the take-off mass holds beyond parts and payload.
fn allowance(document: &Document) -> Option<String> {
    let takeoff = document.shown_report()?.totals.takeoff_mass?;
    if document.build.weighed_g.is_some() {
        return None;
    }
    let mut listed = document.build.purpose.payload_g.map_or(0.0, Quantity::decimal);
    for placed in document.shown_craft().listed().filter(|placed| !placed.subject.slot.on_ground()) {
        listed += placed.subject.part.mass_g?.decimal() * f64::from(placed.fitted.count);
    }
    let [_, nominal, _] = takeoff.decimals();
    (nominal > listed).then(|| grams(nominal - listed))
}

fn stranger(unplaced: &Unplaced) -> String {
    match unplaced {
        Unplaced::Unknown(slot, id) => format!("{}: no catalogue holds “{id}”.", slot.title()),
        Unplaced::WrongSlot(slot, part) => format!("{}: the {} does not go there.", slot.title(), part.name),
    }
}
