//! The fewest choices that are in each other's way.
//!
//! A choice is a line of the list, or something that the list says as a whole: a purpose, a condition, how the packs are
//! connected. A set of choices conflicts when a list of these alone, all else left open, shows the mismatch. What is told is
//! minimal: without any one of them, or any several, the mismatch is not there; every part of it was asked.

use std::{collections::BTreeSet, sync::Arc};

use propwright_schema::{build_list::BuildList, slot::Slot, value::Record as _};

use super::{
    super::bench::Means,
    proof::{Proof, Says},
    quickxplain::quickxplain,
    step::At,
};
use crate::{
    craft::{Craft, Placed},
    derive,
    finding::{Because, Claim, Finding, Status},
    graph::{Of, Property, Stage, Store, derived, graph},
    rules,
};

/// One choice.
#[derive(Debug, Clone, PartialEq)]
pub enum Choice {
    /// A line of the list.
    Line(At),
    /// A line whose part no catalogue holds, or whose part does not fill its slot.
    Unplaced {
        /// The line, counted from 0.
        line: usize,
        /// The slot in which it is listed.
        slot: Slot,
        /// The id that it names.
        id: String,
    },
    /// What the list says as a whole, by the name of its field.
    Said(&'static str),
}

impl Choice {
    const fn line(&self) -> Option<usize> {
        match self {
            Self::Line(at) => Some(at.line),
            Self::Unplaced { line, .. } => Some(*line),
            Self::Said(_) => None,
        }
    }
}

/// Choices that are in each other's way, and the requirement that they break together.
#[derive(Debug, Clone, PartialEq)]
pub struct Conflict {
    /// The choices, those that the finding is about first.
    pub choices: Vec<Choice>,
    /// The rule that they break.
    pub rule: &'static str,
}

/// Why no conflict is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Untold {
    /// The search has not come to it.
    NotSought,
    /// So many choices hang together that none could be proven minimal.
    TooMany(usize),
    /// The mismatch comes from something that is no choice of the list.
    NoChoice,
}

/// Takes back what a list says in a field. What was measured is no choice, and stays.
fn clear(build: &mut BuildList, field: &str) {
    match field.split_once('.') {
        Some(("purpose", inner)) => {
            build.purpose.set(inner, None);
        }
        Some(("pilot", inner)) => {
            build.pilot.set(inner, None);
        }
        Some(("conditions", inner)) => {
            build.conditions.set(inner, None);
        }
        _ => match field {
            "packs" => build.packs = None,
            "output_limit_percent" => build.output_limit_percent = None,
            "weighed_g" => build.weighed_g = None,
            _ => {}
        },
    }
}

/// The search for the minimal conflict behind a mismatch, step by step.
pub(super) struct Explaining<'a> {
    asked: Asked<'a>,
    proof: Option<Proof<Choice>>,
}

/// The derivations that add masses up.
const MASSES: [&str; 3] = ["dry-mass", "pack-mass", "payload-mass"];

/// Parts of a conflict that are judged in one step; each may solve a model.
const A_STEP: usize = 4;

impl<'a> Explaining<'a> {
    pub(super) fn new(means: Means<'a>, craft: &'a Craft, finding: &Finding) -> Self {
        Self { asked: Asked::new(means, craft, finding), proof: None }
    }

    /// Goes on by a step; what is found once that is the last.
    pub(super) fn step(&mut self) -> Option<Result<Conflict, Untold>> {
        let Some(proof) = &mut self.proof else {
            match self.asked.likely() {
                Some(found) => self.proof = Some(Proof::of(found, |choice| self.asked.only_weighs(choice))),
                None => return Some(Err(Untold::NoChoice)),
            }
            return None;
        };
        let asked = &self.asked;
        let choices = (0..A_STEP).find_map(|_| proof.next(|kept| asked.answer(kept)))?;
        Some(choices.map(|choices| Conflict { choices, rule: asked.finding.rule }))
    }
}

/// Does a list of these choices alone show the mismatch? For those who want to prove a conflict minimal.
pub fn conflicts(means: Means, craft: &Craft, finding: &Finding, kept: &[Choice]) -> bool {
    Asked::new(means, craft, finding).conflicts(kept)
}

struct Asked<'a> {
    means: Means<'a>,
    craft: &'a Craft,
    finding: Finding,
    stage: Stage,
    /// What the rule reads of the list as a whole, by the names of its fields.
    said: Vec<&'static str>,
}

impl<'a> Asked<'a> {
    fn new(means: Means<'a>, craft: &'a Craft, finding: &Finding) -> Self {
        let path = graph().path(finding.rule);
        let said = path.iter().filter(|property| property.of == Of::Build).map(|property| property.field).collect();
        Self { means, craft, finding: finding.clone(), stage: graph().toward(finding.rule), said }
    }

    /// A conflict that is minimal as long as no choice undoes the conflict of others; among what the finding tells of, if that
    /// alone shows the mismatch.
    fn likely(&self) -> Option<Vec<Choice>> {
        let choices = self.choices();
        let told: Vec<Choice> = choices.iter().filter(|choice| self.is_told(choice)).cloned().collect();
        let mut conflicts = |kept: &[Choice]| self.conflicts(kept);
        let within = if conflicts(&told) { &told } else { &choices };
        quickxplain(within, &mut conflicts)
    }

    /// All choices on the path of the rule, those that the finding is about first, then those in its reason.
    fn choices(&self) -> Vec<Choice> {
        let path = graph().path(self.finding.rule);
        let slots: BTreeSet<Slot> = path.iter().filter_map(Property::slot).collect();
        let mut told = BTreeSet::new();
        for (_, because) in &self.finding.outcome.facts {
            lines_told(self.craft, because, &mut told);
        }
        let about = self.about();
        let rank = |line: usize| match (about.contains(&line), told.contains(&line)) {
            (true, _) => 0,
            (false, true) => 1,
            (false, false) => 2,
        };
        let joins = |placed: &&Placed| self.craft.of_line(placed.line).any(|other| slots.contains(&other.subject.slot));
        let mut lines: Vec<At> = self.craft.listed().filter(joins).map(at).collect();
        lines.sort_by_key(|at| (rank(at.line), at.line));
        let unplaced = self.unplaced().filter(|_| self.said.contains(&"unplaced"));
        let said = self.said.iter().filter(|field| self.says(field)).map(|field| Choice::Said(field));
        lines.into_iter().map(Choice::Line).chain(unplaced).chain(said).collect()
    }

    /// Does the line do nothing to the finding but add to the mass? That more mass never mends a finding is not proven here but
    /// tried, build by build, in the tests.
    fn only_weighs(&self, choice: &Choice) -> bool {
        let Choice::Line(at) = choice else { return false };
        let path = graph().path(self.finding.rule);
        let rule = rules::by_id(self.finding.rule);
        let reads_only_mass = |property: &Property| {
            let readers = derive::ALL.iter().filter(|one| path.contains(&derived(one.id)) && one.reads.contains(property));
            ["mass_g", "listed"].contains(&property.field)
                && rule.is_some_and(|rule| !rule.reads.contains(property))
                && readers.into_iter().all(|one| MASSES.contains(&one.id))
        };
        let fills: BTreeSet<Slot> = self.craft.of_line(at.line).map(|placed| placed.subject.slot).collect();
        let of_line = |property: &&Property| property.slot().is_some_and(|slot| fills.contains(&slot));
        at.part.mass_g.is_some() && path.iter().filter(of_line).all(reads_only_mass)
    }

    /// The lines that could not be placed.
    fn unplaced(&self) -> impl Iterator<Item = Choice> {
        let lines = self.craft.build.parts.iter().enumerate();
        let lost = lines.filter(|(line, _)| self.craft.of_line(*line).next().is_none());
        lost.map(|(line, fitted)| Choice::Unplaced { line, slot: fitted.slot, id: fitted.part.clone() })
    }

    /// Does the list say something in this field?
    fn says(&self, field: &str) -> bool {
        let mut without = (*self.craft.build).clone();
        clear(&mut without, field);
        without != *self.craft.build
    }

    fn about(&self) -> BTreeSet<usize> {
        let of = |subject: &crate::craft::Subject| self.craft.in_slot(subject.slot).get(subject.index).map(|placed| placed.line);
        self.finding.outcome.subjects.iter().filter_map(of).collect()
    }

    /// Is it told in the reason of the finding?
    fn is_told(&self, choice: &Choice) -> bool {
        let mut told = self.about();
        for (_, because) in &self.finding.outcome.facts {
            lines_told(self.craft, because, &mut told);
        }
        match choice {
            Choice::Line(at) => told.contains(&at.line),
            Choice::Unplaced { .. } => true,
            Choice::Said(field) => self.finding.outcome.facts.iter().any(|(_, because)| says_field(because, field)),
        }
    }

    fn conflicts(&self, kept: &[Choice]) -> bool {
        self.answer(kept) == Says::Broken
    }

    fn answer(&self, kept: &[Choice]) -> Says {
        let build = Arc::new(self.only(kept));
        let (craft, _) = self.means.craft(&build);
        let found = self.stage.run(&craft, self.means.policy, &mut Store::new());
        let gravest = found.iter().filter(|other| self.is_same(other)).map(Finding::status).max();
        match gravest {
            Some(Status::Mismatch) => Says::Broken,
            Some(_) => Says::Kept,
            None => Says::Silent,
        }
    }

    /// The same parts with the same details, wherever they stand now.
    fn is_same(&self, other: &Finding) -> bool {
        let parts = |finding: &Finding| -> BTreeSet<(Slot, String, Option<String>)> {
            let each = finding.outcome.subjects.iter();
            each.map(|subject| (subject.slot, subject.part.id.clone(), subject.detail.clone())).collect()
        };
        parts(&self.finding).is_subset(&parts(other)) || parts(other).is_subset(&parts(&self.finding))
    }

    fn only(&self, kept: &[Choice]) -> BuildList {
        let keeps = |line: usize| kept.iter().any(|choice| choice.line() == Some(line));
        let mut build = (*self.craft.build).clone();
        let mut line = 0;
        build.parts.retain(|_| {
            line += 1;
            keeps(line - 1)
        });
        for field in self.said.iter().filter(|field| !kept.contains(&Choice::Said(field))) {
            clear(&mut build, field);
        }
        build
    }
}

/// Does a reason tell, anywhere below, what the list says in a field?
fn says_field(because: &Because, field: &str) -> bool {
    let here = matches!(&because.claim, Claim::Fact { subject: None, field: told, .. } if *told == field);
    here || because.from.iter().any(|below| says_field(below, field))
}

/// The line of a part.
pub(super) fn at(placed: &Placed) -> At {
    At { line: placed.line, slot: placed.fitted.slot, part: Arc::clone(&placed.subject.part) }
}

/// Adds the lines whose parts a reason tells of, all the way down.
pub(super) fn lines_told(craft: &Craft, because: &Because, lines: &mut BTreeSet<usize>) {
    if let Some(subject) = because.subject() {
        lines.extend(craft.in_slot(subject.slot).get(subject.index).map(|placed| placed.line));
    }
    for below in &because.from {
        lines_told(craft, below, lines);
    }
}
