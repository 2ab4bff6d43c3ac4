//! A build list with its parts looked up: which part stands in which slot, and what could not be found.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};

use propwright_schema::{
    build_list::{BuildList, Fitted},
    catalogue::Catalogue,
    part::{Basis, Part, Role},
    slot::Slot,
};

use crate::estimated;

/// One part in one slot: what a finding speaks about.
#[derive(Debug, Clone, PartialEq)]
pub struct Subject {
    /// The slot.
    pub slot: Slot,
    /// Which of the slot's parts, from 0.
    pub index: usize,
    /// How many parts the slot holds.
    pub of: usize,
    /// The part.
    pub part: Arc<Part>,
    /// What of the part is meant, such as a rail by its name.
    pub detail: Option<String>,
}

impl Subject {
    /// `motor`, or `motor[1]` for one of several.
    pub fn slot_text(&self) -> String {
        if self.of > 1 { format!("{}[{}]", self.slot, self.index) } else { self.slot.to_string() }
    }

    /// The same part with a detail.
    #[must_use]
    pub fn with_detail(&self, detail: &str) -> Self {
        Self { detail: Some(detail.to_owned()), ..self.clone() }
    }
}

/// A part in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// Slot and part.
    pub subject: Subject,
    /// The line of the build list.
    pub line: usize,
    /// That line.
    pub fitted: Fitted,
    /// Is this the slot in which it is listed? A part with several roles fills others besides.
    pub listed_here: bool,
}

/// Why a line of the list could not be placed.
#[derive(Debug, Clone, PartialEq)]
pub enum Unplaced {
    /// No catalogue holds the part.
    Unknown(Slot, String),
    /// The part does not fill that slot.
    WrongSlot(Slot, Arc<Part>),
}

impl std::fmt::Display for Unplaced {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Unknown(slot, id) => write!(f, "{slot}: {id}"),
            Self::WrongSlot(slot, part) => write!(f, "{slot}: {}", part.id),
        }
    }
}

/// A part's id, the word of its role (none for the mass), and the field for which an estimate stands.
pub(crate) type Guessed = (String, Option<&'static str>, &'static str);

/// A craft: the build list and its parts.
#[derive(Debug, Clone)]
pub struct Craft {
    /// The list.
    pub build: Arc<BuildList>,
    places: BTreeMap<Slot, Vec<Placed>>,
    /// Lines that could not be placed.
    pub unplaced: Vec<Unplaced>,
    /// Parts and fields for which an estimate of the list stands.
    pub(crate) estimated: BTreeSet<Guessed>,
}

impl Craft {
    /// Looks the parts of a build list up; its estimates stand where their records say nothing. The order in which slots are listed makes no difference.
    pub fn new(catalogue: &Catalogue, build: &Arc<BuildList>) -> Self {
        let mut craft =
            Self { build: Arc::clone(build), places: BTreeMap::new(), unplaced: Vec::new(), estimated: BTreeSet::new() };
        let mut lines: Vec<(usize, &Fitted)> = build.parts.iter().enumerate().collect();
        lines.sort_by_key(|(line, fitted)| (fitted.slot, *line));
        for (line, fitted) in lines {
            match catalogue.part(&fitted.part) {
                None => craft.unplaced.push(Unplaced::Unknown(fitted.slot, fitted.part.clone())),
                Some(part) if part.role(fitted.slot).is_none() => {
                    craft.unplaced.push(Unplaced::WrongSlot(fitted.slot, Arc::clone(part)));
                }
                Some(part) => craft.place(line, fitted, part),
            }
        }
        for places in craft.places.values_mut() {
            let of = places.len();
            for (index, placed) in places.iter_mut().enumerate() {
                placed.subject = Subject { index, of, ..placed.subject.clone() };
            }
        }
        estimated::assume(&mut craft);
        craft
    }

    fn place(&mut self, line: usize, fitted: &Fitted, part: &Arc<Part>) {
        for (slot, _) in part.filled_from(fitted.slot) {
            let subject = Subject { slot, index: 0, of: 1, part: Arc::clone(part), detail: None };
            let placed = Placed { subject, line, fitted: fitted.clone(), listed_here: slot == fitted.slot };
            self.places.entry(slot).or_default().push(placed);
        }
    }

    /// Lets another record stand for the part of a line, such as one with measured figures.
    pub(crate) fn replace(&mut self, line: usize, part: &Arc<Part>) {
        for placed in self.places.values_mut().flatten().filter(|placed| placed.line == line) {
            placed.subject.part = Arc::clone(part);
        }
    }

    /// Does an estimate of the list stand for a field of a part? `role` is the word of the role that has it, none for the mass.
    pub fn is_estimated(&self, part: &Part, role: Option<&str>, field: &str) -> bool {
        let is_own = |(id, of, known): &Guessed| *id == part.id && *of == role && *known == field;
        part.basis_of(field) == Some(Basis::Estimate) && self.estimated.iter().any(is_own)
    }

    /// Who vouches for a field of the part in a place, and whether it is the user's own estimate.
    pub(crate) fn basis_of(&self, subject: &Subject, field: &str) -> (Option<Basis>, bool) {
        let part = &subject.part;
        let role = (field != "mass_g").then(|| part.role(subject.slot).map(Role::word)).flatten();
        if self.is_estimated(part, role, field) {
            return (Some(Basis::Estimate), true);
        }
        // A record's basis names a field of all roles; the estimate is of another one.
        let of_another = self.estimated.iter().any(|(id, _, known)| *id == part.id && *known == field);
        (part.basis_of(field).filter(|basis| !(of_another && *basis == Basis::Estimate)), false)
    }

    /// The parts in a slot.
    pub fn in_slot(&self, slot: Slot) -> &[Placed] {
        self.places.get(&slot).map_or(&[], Vec::as_slice)
    }

    /// The places that a line of the list fills.
    pub fn of_line(&self, line: usize) -> impl Iterator<Item = &Placed> {
        self.places.values().flatten().filter(move |placed| placed.line == line)
    }

    /// All listed parts in the order of assembly, each once.
    pub fn listed(&self) -> impl Iterator<Item = &Placed> {
        self.places.values().flatten().filter(|placed| placed.listed_here)
    }
}
