//! The order in which a worker's thread does its jobs.
//!
//! The most urgent first, and a search over the parts of a place in small steps: between two steps whatever is more urgent is
//! done, rows that came into view are taken first, and a list that changed or a choice that ended stops it.

use std::sync::mpsc;

use propwright_engine::fit::{self, Replacing, Search};

use super::{Answer, Asked, Job, Order, Outcome, done, drop_stale, guarded};
use crate::{fitting::Fit, state::Place};

/// Takes jobs until the window is gone.
pub(super) fn work(asked: &mpsc::Receiver<Job>, answers: &mpsc::Sender<Answer>, wake: &impl Fn()) {
    let mut desk = Desk { asked, answers, wake, waiting: Vec::new() };
    while let Some(job) = desk.next() {
        let more = if is_search(&job) { desk.search(&job) } else { desk.answer(done(&job)) };
        if more.is_none() {
            return;
        }
    }
}

/// The thread's jobs, and where the answers go.
struct Desk<'a, W> {
    asked: &'a mpsc::Receiver<Job>,
    answers: &'a mpsc::Sender<Answer>,
    wake: &'a W,
    waiting: Vec<Job>,
}

impl<W: Fn()> Desk<'_, W> {
    /// The next job; waits for one. `None` when the window is gone.
    fn next(&mut self) -> Option<Job> {
        if self.waiting.is_empty() {
            self.waiting.push(self.asked.recv().ok()?);
        }
        self.look();
        let job = most_urgent(&self.waiting).map(|at| self.waiting.remove(at))?;
        if is_search(&job) {
            // Of two searches for one document the later is the one that is still wanted.
            self.waiting.retain(|other| !(is_search(other) && other.document == job.document));
        }
        Some(job)
    }

    /// Takes what was asked meanwhile.
    fn look(&mut self) {
        self.waiting.extend(self.asked.try_iter());
        drop_stale(&mut self.waiting);
    }

    /// `None` when the window is gone.
    fn answer(&self, answer: Option<Answer>) -> Option<()> {
        let Some(answer) = answer else { return Some(()) };
        self.answers.send(answer).ok()?;
        (self.wake)();
        Some(())
    }

    /// Searches in steps. `None` when the window is gone.
    fn search(&mut self, job: &Job) -> Option<()> {
        let mut hunt = match &job.order {
            Order::Fits(asked) => Hunt::fits(job, asked),
            Order::StandIns(asked) => Hunt::stand_ins(job, asked),
            _ => return Some(()),
        };
        loop {
            self.look();
            if self.overtakes(job) {
                return Some(());
            }
            for first in self.firsts(job) {
                hunt.first(&first);
            }
            if let Some(at) = self.waiting.iter().rposition(|other| urgency(&other.order) < urgency(&job.order)) {
                let urgent = self.waiting.remove(at);
                self.answer(done(&urgent))?;
                continue;
            }
            let mut last = false;
            let outcome = guarded(|| {
                let (outcome, ended) = hunt.step();
                last = ended;
                outcome
            });
            let last = last || matches!(outcome, Outcome::Failed(_));
            self.answer(Some(Answer { document: job.document, revision: job.revision, outcome }))?;
            if last {
                return Some(());
            }
        }
    }

    /// Was the search ended, asked anew, or overtaken by a change of the list?
    fn overtakes(&mut self, job: &Job) -> bool {
        let ends = |other: &Job| {
            let asked = is_search(other) || matches!(other.order, Order::Stop);
            other.document == job.document && (other.revision > job.revision || asked)
        };
        let ended = self.waiting.iter().any(ends);
        self.waiting.retain(|other| !(other.document == job.document && matches!(other.order, Order::Stop)));
        ended
    }

    /// The rows that came into view meanwhile.
    fn firsts(&mut self, job: &Job) -> Vec<Vec<String>> {
        let mut firsts = Vec::new();
        self.waiting.retain(|other| match &other.order {
            Order::First(ids) if other.document == job.document => {
                firsts.push(ids.clone());
                false
            }
            _ => true,
        });
        firsts
    }
}

const fn is_search(job: &Job) -> bool {
    matches!(job.order, Order::Fits(_) | Order::StandIns(_))
}

/// Reports before all, searches last.
const fn urgency(order: &Order) -> u8 {
    match order {
        Order::Report => 0,
        Order::Try => 1,
        Order::Curves(_) => 2,
        Order::Take(_) => 3,
        Order::Paper(..) | Order::Graph(..) | Order::Costing { .. } | Order::Used(_) | Order::Rows(_) | Order::Repairs(..) => 4,
        Order::Fits(_) | Order::StandIns(_) => 5,
        Order::First(_) | Order::Stop => 6,
    }
}

/// The most urgent job; of several the one that was asked last.
fn most_urgent(waiting: &[Job]) -> Option<usize> {
    (0..waiting.len()).rev().min_by_key(|at| urgency(&waiting[*at].order))
}

/// How many stand-ins are looked for, the closest first.
const MOST_STAND_INS: usize = 40;
/// Parts in one step of a search; a step takes some ten milliseconds at most.
const STEP: usize = 8;

/// A search under way.
pub(super) enum Hunt<'a> {
    /// Over every part for a place.
    Fits(Place, Search<'a>),
    /// Over the parts closest to the one of a place.
    StandIns(Place, Replacing<'a>),
}

impl<'a> Hunt<'a> {
    pub(super) fn fits(job: &'a Job, asked: &'a Asked) -> Self {
        let mut search = Search::new(job.means(), &asked.now, engines(asked.place));
        search.first(&asked.first);
        Self::Fits(asked.place, search)
    }

    pub(super) fn stand_ins(job: &'a Job, asked: &'a Asked) -> Self {
        let mut search = Replacing::new(job.means(), &asked.now, engines(asked.place), MOST_STAND_INS);
        search.first(&asked.first);
        Self::StandIns(asked.place, search)
    }

    fn first(&mut self, ids: &[String]) {
        match self {
            Self::Fits(_, search) => search.first(ids),
            Self::StandIns(_, search) => search.first(ids),
        }
    }

    /// One step, and whether it was the last.
    fn step(&mut self) -> (Outcome, bool) {
        match self {
            Self::Fits(place, search) => {
                let found: Vec<Fit> = search.next_chunk(STEP).iter().map(Fit::from).collect();
                let last = found.is_empty();
                (Outcome::Fits(*place, found, search.left()), last)
            }
            Self::StandIns(place, search) => {
                let found = search.next_chunk(1);
                (Outcome::StandIns(*place, found, search.left()), search.left() == 0)
            }
        }
    }

    pub(super) fn finish(self) -> Outcome {
        match self {
            Self::Fits(place, search) => Outcome::Fits(place, search.finish().iter().map(Fit::from).collect(), 0),
            Self::StandIns(place, search) => Outcome::StandIns(place, search.finish(), 0),
        }
    }
}

const fn engines(place: Place) -> fit::Place {
    fit::Place { slot: place.slot, line: place.line }
}
