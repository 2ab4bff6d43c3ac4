//! The fewest choices that are in each other's way.
//!
//! A choice is a line of the list, or something that the list says as a whole: a purpose, a condition, how the packs are
//! connected. A set of choices conflicts when a list of these alone, all else left open, shows the mismatch. What is told is
//! minimal: without any one of them, or any several, the mismatch is not there; every part of it was asked.

use std::{collections::BTreeSet, sync::Arc};

use propwright_schema::{build_list::BuildList, slot::Slot};

use super::{super::bench::Means, quickxplain::quickxplain, step::At};
use crate::{
    craft::{Craft, Placed},
    finding::{Because, Finding, Status},
    graph::{Of, Property, Stage, Store, graph},
};

/// One choice.
#[derive(Debug, Clone, PartialEq)]
pub enum Choice {
    /// A line of the list.
    Line(At),
    /// What the list says as a whole, by the name of its field.
    Said(&'static str),
}

/// Choices that are in each other's way, and the requirement that they break together.
#[derive(Debug, Clone, PartialEq)]
pub struct Conflict {
    /// The choices, those that the finding is about first.
    pub choices: Vec<Choice>,
    /// The rule that they break.
    pub rule: &'static str,
}

/// Clears what a list says in a field.
type Clear = fn(&mut BuildList);

/// What a list can say as a whole, besides its parts.
const SAID: [(&str, Clear); 16] = [
    ("packs", |build| build.packs = None),
    ("output_limit_percent", |build| build.output_limit_percent = None),
    ("weighed_g", |build| build.weighed_g = None),
    ("purpose.usage", |build| build.purpose.usage = None),
    ("purpose.place", |build| build.purpose.place = None),
    ("purpose.indoors", |build| build.purpose.indoors = None),
    ("purpose.payload_g", |build| build.purpose.payload_g = None),
    ("purpose.path_km", |build| build.purpose.path_km = None),
    ("purpose.calm_min", |build| build.purpose.calm_min = None),
    ("purpose.burst_s", |build| build.purpose.burst_s = None),
    ("purpose.overlay_wanted", |build| build.purpose.overlay_wanted = None),
    ("purpose.returns_home", |build| build.purpose.returns_home = None),
    ("pilot.flown_h", |build| build.pilot.flown_h = None),
    ("conditions.altitude_m", |build| build.conditions.altitude_m = None),
    ("conditions.temperature_c", |build| build.conditions.temperature_c = None),
    ("conditions.wind_ms", |build| build.conditions.wind_ms = None),
];

/// The minimal conflict behind a mismatch of a craft; `None` when the finding is none of its mismatches, or when too many
/// choices are in it to prove it minimal.
pub fn conflict(means: Means, craft: &Craft, finding: &Finding) -> Option<Conflict> {
    let asked = Asked { means, craft, finding, stage: graph().toward(finding.rule) };
    let choices = asked.choices();
    let likely: Vec<Choice> = choices.iter().filter(|choice| asked.is_told(choice)).cloned().collect();
    let mut conflicts = |kept: &[Choice]| asked.conflicts(kept);
    let within = if conflicts(&likely) { &likely } else { &choices };
    let found = quickxplain(within, &mut conflicts)?;
    let choices = smallest(&found, |kept| asked.answer(kept)).or_else(|| {
        // Some choice undoes the conflict of others: the shortest beginning that conflicts leaves those out that come later.
        let end = (1..=within.len()).find(|end| within.get(..*end).is_some_and(&mut conflicts))?;
        let found = quickxplain(within.get(..end)?, &mut conflicts)?;
        smallest(&found, |kept| asked.answer(kept))
    })?;
    Some(Conflict { choices, rule: finding.rule })
}

/// Parts of a conflict for which its rule is judged at most; each may solve a model. A conflict of so many parts is not told: it
/// could not be proven minimal in time, and would teach nobody.
const JUDGED: usize = 256;

/// What a list of some choices alone says of the mismatch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Says {
    /// The mismatch is there.
    Broken,
    /// The rule speaks of these parts, and the mismatch is not there.
    Kept,
    /// The rule does not speak of these parts: one is gone, or something that it cannot do without.
    Silent,
}

/// The smallest part that conflicts by itself; `None` when that would take too long to find out. A part can undo a conflict, as a
/// regulator does, so that the answer of `QuickXplain` is not minimal as it stands.
///
/// All parts are asked, from the largest down, save those of a part on which the rule is silent: what it lacks they lack too.
fn smallest(found: &[Choice], ask: impl Fn(&[Choice]) -> Says) -> Option<Vec<Choice>> {
    let part = |mask: u32| -> Vec<Choice> {
        found.iter().enumerate().filter(|(at, _)| mask >> at & 1 == 1).map(|(_, choice)| choice.clone()).collect()
    };
    let whole = 1_u32.checked_shl(u32::try_from(found.len()).ok()?)?.wrapping_sub(1);
    let (mut open, mut least, mut judged) = (BTreeSet::from([whole]), whole, 0);
    while !open.is_empty() {
        let smaller: BTreeSet<u32> = open
            .iter()
            .flat_map(|mask| (0..found.len()).map(move |at| mask & !(1 << at)).filter(move |less| less != mask))
            .collect();
        open.clear();
        for mask in smaller {
            let says = ask(&part(mask));
            if says == Says::Silent {
                continue;
            }
            judged += 1;
            if judged > JUDGED {
                return None;
            }
            if says == Says::Broken && mask.count_ones() < least.count_ones() {
                least = mask;
            }
            open.insert(mask);
        }
    }
    Some(part(least))
}

/// Does a list of these choices alone show the mismatch? For those who want to prove a conflict minimal.
pub fn conflicts(means: Means, craft: &Craft, finding: &Finding, kept: &[Choice]) -> bool {
    Asked { means, craft, finding, stage: graph().toward(finding.rule) }.conflicts(kept)
}

struct Asked<'a> {
    means: Means<'a>,
    craft: &'a Craft,
    finding: &'a Finding,
    stage: Stage,
}

impl Asked<'_> {
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
        let said = SAID.iter().filter(|(field, clear)| {
            let mut without = (*self.craft.build).clone();
            clear(&mut without);
            without != *self.craft.build && path.iter().any(|property| property.of == Of::Build && property.field == *field)
        });
        lines.into_iter().map(Choice::Line).chain(said.map(|(field, _)| Choice::Said(field))).collect()
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
        matches!(choice, Choice::Line(at) if told.contains(&at.line))
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
        parts(self.finding).is_subset(&parts(other)) || parts(other).is_subset(&parts(self.finding))
    }

    fn only(&self, kept: &[Choice]) -> BuildList {
        let keeps = |line: usize| kept.iter().any(|choice| matches!(choice, Choice::Line(at) if at.line == line));
        let mut build = (*self.craft.build).clone();
        let mut line = 0;
        build.parts.retain(|_| {
            line += 1;
            keeps(line - 1)
        });
        for (_, clear) in SAID.iter().filter(|(field, _)| !kept.contains(&Choice::Said(field))) {
            clear(&mut build);
        }
        build
    }
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
