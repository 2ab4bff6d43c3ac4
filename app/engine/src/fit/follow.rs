//! What must follow when a part is exchanged: the cheapest set of other parts with which nothing is newly forbidden.
//!
//! The cheapest choices are tried first. A choice answers one forbidding finding by another part in one of the slots that the
//! finding joins; whatever is still forbidden is answered in turn, each slot at most once. Every set that is told was judged as
//! a whole.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};

use propwright_schema::{build_list::BuildList, part::Part, quantity::Money, slot::Slot};

use super::{
    bench::{Bench, Judged, Solve},
    change::Change,
    place::Place,
    standing::{About, about},
};
use crate::{
    bill::price_of,
    craft::{Craft, Placed},
    finding::{Finding, Status},
    rules,
};

/// How many parts may follow.
const MOST_SWAPS: usize = 3;
/// How many sets are tried before the search gives up.
const MOST_TRIALS: usize = 600;

/// One part that takes the place of another.
#[derive(Debug, Clone, PartialEq)]
pub struct Swap {
    /// Where.
    pub place: Place,
    /// The part of now.
    pub from: Arc<Part>,
    /// The part that takes its place.
    pub to: Arc<Part>,
    /// How many.
    pub count: u32,
    /// What is to pay for them; absent while that is not known.
    pub price: Option<Money>,
}

/// Parts that follow.
#[derive(Debug, Clone, PartialEq)]
pub struct Set {
    /// The exchanges, in the order of the slots.
    pub swaps: Vec<Swap>,
    /// The list with all of them.
    pub build: Arc<BuildList>,
    /// The gravest of what counts against the exchanged parts.
    pub status: Status,
    /// What all of it changes against the build as it was.
    pub change: Change,
}

/// What must follow.
#[derive(Debug, Clone, PartialEq)]
pub enum Following {
    /// Nothing is forbidden.
    Nothing,
    /// The cheapest set with which nothing is.
    Set(Box<Set>),
    /// No set of so few parts helps.
    Hopeless,
    /// None was found before the search gave up.
    Open,
}

/// First what is not priced in the currency of most, then the sum in it.
type Cost = (usize, i64);

#[derive(Clone, Default)]
struct Choice {
    cost: Cost,
    swaps: Vec<(Place, Arc<Part>)>,
    /// The finding that the last of them answers.
    answers: Option<About>,
}

/// A search for what follows from an exchange that stands already in a list.
pub(super) struct Hunt<'a, 'b> {
    pub(super) bench: &'b mut Bench<'a>,
    /// The list with the exchange.
    pub(super) build: &'b Arc<BuildList>,
    /// The lines of the exchange; their slot stays as it is.
    pub(super) lines: &'b [usize],
}

impl Hunt<'_, '_> {
    /// The cheapest set.
    pub(super) fn follow(&mut self) -> Following {
        let mut open = BTreeMap::from([((Cost::default(), 0), Choice::default())]);
        let (mut trials, mut made) = (0, 0);
        while let Some((_, choice)) = open.pop_first() {
            trials += 1;
            if trials > MOST_TRIALS {
                return Following::Open;
            }
            let craft = self.craft(&choice);
            let judged = self.judge(&craft, &choice);
            if judged.status != Status::Mismatch {
                return if choice.swaps.is_empty() {
                    Following::Nothing
                } else {
                    Following::Set(Box::new(self.set(&craft, &choice, judged)))
                };
            }
            let forbidding = || judged.against.iter().filter(|finding| finding.forbids());
            let stays = forbidding().any(|finding| choice.answers.as_ref() == Some(&about(finding)));
            if stays || choice.swaps.len() == MOST_SWAPS {
                continue;
            }
            for next in forbidding().take(1).flat_map(|first| self.answers(&craft, &choice, first)) {
                made += 1;
                open.insert((next.cost, made), next);
            }
        }
        Following::Hopeless
    }

    fn craft(&self, choice: &Choice) -> Craft {
        let catalogue = self.bench.means.catalogue;
        let start = Craft::new(catalogue, self.build);
        choice.swaps.iter().fold(start, |craft, (place, part)| Craft::new(catalogue, &place.put(&craft, &part.id).build))
    }

    fn judge(&mut self, craft: &Craft, choice: &Choice) -> Judged {
        let swapped = choice.swaps.iter().filter_map(|(place, _)| place.line);
        let lines: Vec<usize> = self.lines.iter().copied().chain(swapped).collect();
        let of = |craft: &Craft| -> BTreeSet<Slot> {
            lines.iter().flat_map(|line| craft.of_line(*line).map(|placed| placed.subject.slot).collect::<Vec<_>>()).collect()
        };
        let touched = &of(&self.bench.base.craft) | &of(craft);
        self.bench.judge(&craft.build, touched, &lines, Solve::Unless)
    }

    /// The choices that could answer a finding: every other part in each line that it concerns.
    fn answers(&self, craft: &Craft, choice: &Choice, finding: &Finding) -> Vec<Choice> {
        let taken = |line: &usize| self.lines.contains(line) || choice.swaps.iter().any(|(place, _)| place.line == Some(*line));
        let mut choices = Vec::new();
        for placed in concerned(craft, finding).into_iter().filter(|placed| !taken(&placed.line)) {
            let place = Place { slot: placed.subject.slot, line: Some(placed.line) };
            if self.lines.iter().any(|line| craft.build.parts.get(*line).is_some_and(|fitted| fitted.slot == place.slot)) {
                continue;
            }
            let others = self.bench.means.catalogue.for_slot(place.slot);
            for part in others.filter(|part| !part.retired && part.id != placed.subject.part.id) {
                let mut swaps = choice.swaps.clone();
                swaps.push((place, Arc::clone(part)));
                let cost = self.cost(choice.cost, part, placed.fitted.count);
                choices.push(Choice { cost, swaps, answers: Some(about(finding)) });
            }
        }
        choices
    }

    /// The cost with another part; what the shelf holds costs nothing.
    fn cost(&self, so_far: Cost, part: &Part, count: u32) -> Cost {
        let home = self.bench.base.totals.cost.first();
        let shelf = self.bench.means.given.stock.items.iter().filter(|item| item.part == part.id && item.is_usable());
        if shelf.map(|item| item.count).sum::<u32>() >= count {
            return so_far;
        }
        match price_of(part, count) {
            Some(price) if home.is_none_or(|home| home.currency() == price.currency()) => {
                (so_far.0, so_far.1.saturating_add(price.minor()))
            }
            _ => (so_far.0 + 1, so_far.1),
        }
    }

    fn set(&self, craft: &Craft, choice: &Choice, judged: Judged) -> Set {
        let before = Craft::new(self.bench.means.catalogue, self.build);
        let swap = |(place, to): &(Place, Arc<Part>)| {
            let from = place.fitted(&before)?;
            let price = judged.bill.of_part(from.line)?.price;
            let count = from.fitted.count;
            Some(Swap { place: *place, from: Arc::clone(&from.subject.part), to: Arc::clone(to), count, price })
        };
        let mut swaps: Vec<Swap> = choice.swaps.iter().filter_map(swap).collect();
        swaps.sort_by_key(|swap| swap.place);
        Set { swaps, build: Arc::clone(&craft.build), status: judged.status, change: judged.change }
    }
}

/// The listed parts that a finding is about; of one about the whole craft, those in the slots of its rule.
fn concerned<'c>(craft: &'c Craft, finding: &Finding) -> Vec<&'c Placed> {
    let subjects = &finding.outcome.subjects;
    let listed = |slot: Slot| craft.in_slot(slot).iter().filter(|placed| placed.listed_here);
    if subjects.is_empty() {
        let slots = rules::by_id(finding.rule).map_or(&[][..], |rule| rule.slots);
        return slots.iter().flat_map(|slot| listed(*slot)).collect();
    }
    let of = |slot: Slot, index: usize| listed(slot).filter(move |placed| placed.subject.index == index);
    subjects.iter().flat_map(|subject| of(subject.slot, subject.index)).collect()
}
