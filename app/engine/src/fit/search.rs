//! Every part of the catalogue in one place of a build, step by step.
//!
//! Only what the exchange reaches in the graph is computed again, in two stages: first all that is plain comparison, and only for
//! the parts that pass it what solves a model. Whoever asks can stop between two steps; nothing runs besides.

use std::{
    collections::{BTreeMap, VecDeque},
    sync::Arc,
};

use propwright_schema::part::Part;

use super::{
    bench::{Bench, Means, Solve},
    change::Change,
    place::Place,
};
use crate::{
    finding::{Finding, Status},
    report::Report,
};

/// A part in a place: whether it goes with the rest, and what it changes.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// The part.
    pub part: Arc<Part>,
    /// Is it the one that is fitted now?
    pub fitted: bool,
    /// The gravest of what counts against it; a part fits as long as this is no mismatch.
    pub status: Status,
    /// What counts against it, gravest first.
    pub findings: Vec<Finding>,
    /// What it changes against the part that is fitted now.
    pub change: Change,
    /// Is all of it computed? Of a part that is a mismatch by plain comparison, solved rules and figures come later; its
    /// status is final.
    pub whole: bool,
}

impl Candidate {
    /// The rules that forbid it, each once.
    pub fn blocking(&self) -> Vec<&'static str> {
        let forbidding = self.findings.iter().filter(|finding| finding.forbids());
        let mut rules: Vec<&str> = forbidding.map(|finding| finding.rule).collect();
        rules.sort_unstable();
        rules.dedup();
        rules
    }
}

/// A search that goes on as long as it is asked for more.
pub struct Search<'a> {
    bench: Bench<'a>,
    place: Place,
    waiting: VecDeque<Arc<Part>>,
    /// Mismatches of which the solved rules and figures are still to come.
    unfinished: VecDeque<Arc<Part>>,
}

impl<'a> Search<'a> {
    /// A search over every part of the catalogue that fills the slot of the place. `base` is the report of the build as it is,
    /// judged by the same means.
    pub fn new(means: Means<'a>, base: &'a Report, place: Place) -> Self {
        Self {
            bench: Bench::new(means, base),
            place,
            waiting: means.catalogue.for_slot(place.slot).cloned().collect(),
            unfinished: VecDeque::new(),
        }
    }

    /// Takes these parts before all others, in this order: the rows that are on the screen.
    pub fn first(&mut self, ids: &[String]) {
        for queue in [&mut self.waiting, &mut self.unfinished] {
            let rank = |part: &Arc<Part>| ids.iter().position(|id| *id == part.id).unwrap_or(ids.len());
            queue.make_contiguous().sort_by_cached_key(rank);
        }
    }

    /// How many steps are left at most before every part has its final status.
    pub fn left(&self) -> usize {
        self.waiting.len()
    }

    /// Goes on by `steps` parts. A mismatch by plain comparison comes twice: at once with its status, and again as a whole
    /// after all others have come. Empty when all is done.
    pub fn next_chunk(&mut self, steps: usize) -> Vec<Candidate> {
        (0..steps).map_while(|_| self.step()).collect()
    }

    /// Goes on until all is done: each part once, as a whole, in the order of the ids.
    pub fn finish(mut self) -> Vec<Candidate> {
        let mut all: BTreeMap<String, Candidate> = BTreeMap::new();
        while let Some(candidate) = self.step() {
            all.insert(candidate.part.id.clone(), candidate);
        }
        all.into_values().collect()
    }

    fn step(&mut self) -> Option<Candidate> {
        if let Some(part) = self.waiting.pop_front() {
            let candidate = self.judge(&part, Solve::Unless);
            if !candidate.whole {
                self.unfinished.push_back(part);
            }
            return Some(candidate);
        }
        let part = self.unfinished.pop_front()?;
        Some(self.judge(&part, Solve::Always))
    }

    fn judge(&mut self, part: &Arc<Part>, solve: Solve) -> Candidate {
        let (now, place) = (&self.bench.base.craft, self.place);
        let put = place.put(now, &part.id);
        let fitted = place.fitted(now).is_some_and(|placed| placed.subject.part.id == part.id);
        let judged = self.bench.judge(&put.build, place.touches(now, part), &[put.line], solve);
        Candidate {
            part: Arc::clone(part),
            fitted,
            status: judged.status,
            change: judged.change,
            findings: judged.against,
            whole: judged.whole,
        }
    }
}
