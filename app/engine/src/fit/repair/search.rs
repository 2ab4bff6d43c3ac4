//! The search for ways out, step by step: as long as it is asked for more.

use std::{
    collections::{BTreeMap, BTreeSet, VecDeque},
    sync::Arc,
};

use propwright_schema::build_list::BuildList;

use super::{
    super::{bench::Means, change::Change},
    bench::{Bench, Judged},
    candidates::{Candidate, Cost, Family, candidates},
    conflict::{Conflict, Explaining, Untold},
    fault::Fault,
    hitting::hitting_sets,
    one_by_one::{Next, OneByOne},
    step::{Step, go_together, proper_subsets},
};
use crate::{
    finding::{Finding, Status},
    report::Report,
};

/// How many ways out of one mismatch are told.
const MOST_WAYS: usize = 6;
/// How many first halves of a way in two steps are followed up, and how many second halves of each are tried.
const MOST_HALVES: usize = 6;
const MOST_SECONDS: usize = 60;
/// How many sets are told; how large they may be, also to be proven minimal; how many are judged before the search gives up.
const MOST_SETS: usize = 3;
const LARGEST_PROVEN: usize = 8;
const LARGEST_SET: usize = 6;
const MOST_TRIALS: usize = 48;
/// Nodes of the tree of hitting sets.
const MOST_NODES: usize = 20_000;

/// Steps after which mismatches are gone and nothing new is wrong.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// The steps.
    pub steps: Vec<Step>,
    /// The list after them.
    pub build: Arc<BuildList>,
    /// The mismatches that are gone.
    pub removes: BTreeSet<Fault>,
    /// What it costs.
    pub cost: Cost,
    /// What is graver than before without being a mismatch, gravest first.
    pub leaves: Vec<Finding>,
    /// What else changes.
    pub change: Change,
}

/// One mismatch with its ways out.
#[derive(Debug, Clone, PartialEq)]
pub struct Mismatch {
    /// The finding.
    pub finding: Finding,
    /// Ways out, the cheapest first.
    pub ways: Vec<Way>,
    /// The fewest choices that are in each other's way, or why none are told.
    pub conflict: Result<Conflict, Untold>,
}

/// All that was found.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Repairs {
    /// The mismatches, in the order of the report.
    pub mismatches: Vec<Mismatch>,
    /// Of several mismatches: the smallest sets of steps after which none is left, the cheapest first.
    pub sets: Vec<Way>,
}

impl Repairs {
    /// All single ways, each once, the cheapest first.
    pub fn ways(&self) -> Vec<&Way> {
        let mut ways: Vec<&Way> = Vec::new();
        for way in self.mismatches.iter().flat_map(|mismatch| &mismatch.ways) {
            if !ways.iter().any(|known| known.steps == way.steps) {
                ways.push(way);
            }
        }
        ways.sort_by_key(|way| way.cost);
        ways
    }
}

enum Phase<'a> {
    /// Single steps for one mismatch; first halves of ways in two steps are set aside.
    Single {
        at: usize,
        queue: VecDeque<Candidate>,
        told: BTreeMap<Family, usize>,
        halves: Vec<Candidate>,
    },
    /// Ways in two steps for a mismatch without a single one.
    Double {
        at: usize,
        queue: VecDeque<Vec<Step>>,
    },
    /// The minimal conflict of a mismatch.
    Conflict {
        at: usize,
        search: Box<Explaining<'a>>,
    },
    /// Sets for all of them.
    Sets {
        queue: VecDeque<Vec<Way>>,
        trials: usize,
    },
    /// Steps for all of them, one mismatch after another.
    OneByOne(OneByOne),
    Done,
}

/// A search that goes on as long as it is asked for more.
pub struct Repair<'a> {
    bench: Bench<'a>,
    currency: Option<String>,
    found: Repairs,
    phase: Phase<'a>,
}

impl<'a> Repair<'a> {
    /// A search for the ways out of all mismatches of a report, judged by the means by which the report was.
    pub fn new(means: Means<'a>, base: &'a Report) -> Self {
        let mut faults = BTreeSet::new();
        let findings = base.findings.iter().filter(|finding| finding.status() == Status::Mismatch);
        let mismatches = findings.filter(|finding| faults.insert(Fault::of(finding))).map(|finding| Mismatch {
            finding: finding.clone(),
            ways: Vec::new(),
            conflict: Err(Untold::NotSought),
        });
        let found = Repairs { mismatches: mismatches.collect(), sets: Vec::new() };
        let currency = base.totals.cost.first().map(|cost| cost.currency().to_owned());
        let mut repair = Self { bench: Bench::new(means, base), currency, found, phase: Phase::Done };
        repair.phase = repair.single(0);
        repair
    }

    /// What is found so far.
    pub const fn found(&self) -> &Repairs {
        &self.found
    }

    /// Is all done?
    pub const fn is_done(&self) -> bool {
        matches!(self.phase, Phase::Done)
    }

    /// Goes on by so many steps, of which each takes a few milliseconds at most.
    pub fn next_chunk(&mut self, steps: usize) {
        for _ in 0..steps {
            if self.is_done() {
                return;
            }
            self.step();
        }
    }

    /// Goes on until all is done.
    pub fn finish(mut self) -> Repairs {
        while !self.is_done() {
            self.step();
        }
        self.found
    }

    fn step(&mut self) {
        let phase = std::mem::replace(&mut self.phase, Phase::Done);
        self.phase = match phase {
            Phase::Single { at, queue, told, halves } => self.try_single(at, queue, told, halves),
            Phase::Double { at, queue } => self.try_double(at, queue),
            Phase::Conflict { at, search } => self.explain(at, search),
            Phase::Sets { queue, trials } => self.try_set(queue, trials),
            Phase::OneByOne(one) => self.settle(one),
            Phase::Done => Phase::Done,
        };
    }

    fn single(&self, at: usize) -> Phase<'a> {
        let Some(mismatch) = self.found.mismatches.get(at) else { return self.sets() };
        let queue = candidates(self.bench.means.catalogue, &self.bench.base.craft, &mismatch.finding, self.currency.as_deref());
        Phase::Single { at, queue: queue.into(), told: BTreeMap::new(), halves: Vec::new() }
    }

    fn fault(&self, at: usize) -> BTreeSet<Fault> {
        self.found.mismatches.get(at).map(|mismatch| Fault::of(&mismatch.finding)).into_iter().collect()
    }

    fn try_single(
        &mut self,
        at: usize,
        mut queue: VecDeque<Candidate>,
        mut told: BTreeMap<Family, usize>,
        mut halves: Vec<Candidate>,
    ) -> Phase<'a> {
        let full = |told: &BTreeMap<Family, usize>, family: &Family| told.get(family).is_some_and(|many| *many >= family.told());
        let next = loop {
            match queue.pop_front() {
                Some(candidate) if full(&told, &candidate.family) => {}
                next => break next,
            }
        };
        let ways = self.found.mismatches.get(at).map_or(0, |mismatch| mismatch.ways.len());
        let Some(candidate) = next.filter(|_| ways < MOST_WAYS) else {
            return if ways == 0 { Phase::Double { at, queue: self.doubles(at, &halves) } } else { self.conflict(at) };
        };
        let fault = self.fault(at);
        let judged = self.bench.judge(&candidate.steps, &fault);
        let gone = fault.iter().all(|fault| !judged.after.holds(fault));
        if let Some(way) = self.way(candidate.steps.clone(), judged) {
            *told.entry(candidate.family).or_default() += 1;
            self.tell(at, way);
        } else if gone && halves.len() < MOST_HALVES {
            halves.push(candidate);
        }
        Phase::Single { at, queue, told, halves }
    }

    fn way(&self, steps: Vec<Step>, judged: Judged) -> Option<Way> {
        let (leaves, change) = judged.reached?;
        let removes = self.bench.before.all().filter(|fault| !judged.after.holds(fault)).cloned().collect();
        let cost = Cost::of(&steps, self.currency.as_deref());
        Some(Way { steps, build: judged.build, removes, cost, leaves, change })
    }

    fn tell(&mut self, at: usize, way: Way) {
        if let Some(mismatch) = self.found.mismatches.get_mut(at) {
            mismatch.ways.push(way);
            mismatch.ways.sort_by_key(|way| way.cost);
        }
    }

    /// Second steps for first ones that remove the mismatch but bring another.
    fn doubles(&self, at: usize, halves: &[Candidate]) -> VecDeque<Vec<Step>> {
        let fault = self.fault(at);
        let mut all: Vec<(Cost, Vec<Step>)> = Vec::new();
        for half in halves {
            let means = self.bench.means;
            let build = Arc::new(super::step::applied(&half.steps, &self.bench.base.craft.build));
            let report = means.evaluate(&build);
            let after = super::fault::Faults::of(&report.findings);
            if fault.iter().any(|fault| after.holds(fault)) {
                continue;
            }
            let new: BTreeSet<&Fault> = after.beyond(&self.bench.before).collect();
            let first = report.findings.iter().find(|finding| new.contains(&Fault::of(finding)) && finding.forbids());
            let Some(first) = first else { continue };
            let (craft, _) = means.craft(&build);
            let seconds = candidates(means.catalogue, &craft, first, self.currency.as_deref()).into_iter();
            let fitting = seconds.filter(|second| go_together(&half.steps, &second.steps)).take(MOST_SECONDS);
            all.extend(fitting.map(|second| {
                let steps: Vec<Step> = half.steps.iter().chain(&second.steps).cloned().collect();
                (Cost::of(&steps, self.currency.as_deref()), steps)
            }));
        }
        all.sort_by_key(|(cost, _)| *cost);
        all.into_iter().map(|(_, steps)| steps).collect()
    }

    fn try_double(&mut self, at: usize, mut queue: VecDeque<Vec<Step>>) -> Phase<'a> {
        let enough = self.found.mismatches.get(at).is_none_or(|mismatch| mismatch.ways.len() >= 2);
        let Some(steps) = queue.pop_front().filter(|_| !enough) else { return self.conflict(at) };
        let judged = self.bench.judge(&steps, &self.fault(at));
        if let Some(way) = self.way(steps, judged) {
            self.tell(at, way);
        }
        Phase::Double { at, queue }
    }

    fn conflict(&self, at: usize) -> Phase<'a> {
        let (means, base) = (self.bench.means, self.bench.base);
        let Some(mismatch) = self.found.mismatches.get(at) else { return self.sets() };
        Phase::Conflict { at, search: Box::new(Explaining::new(means, &base.craft, &mismatch.finding)) }
    }

    fn explain(&mut self, at: usize, mut search: Box<Explaining<'a>>) -> Phase<'a> {
        let Some(found) = search.step() else { return Phase::Conflict { at, search } };
        if let Some(mismatch) = self.found.mismatches.get_mut(at) {
            mismatch.conflict = found;
        }
        self.single(at + 1)
    }

    /// The minimal hitting sets of the ways of all mismatches, the smallest and then the cheapest first.
    fn sets(&self) -> Phase<'a> {
        if self.found.mismatches.len() < 2 {
            return Phase::Done;
        }
        let ways = self.found.ways();
        let hits = |mismatch: &Mismatch| -> BTreeSet<usize> {
            let fault = Fault::of(&mismatch.finding);
            ways.iter().enumerate().filter(|(_, way)| way.removes.contains(&fault)).map(|(at, _)| at).collect()
        };
        let families: Vec<BTreeSet<usize>> = self.found.mismatches.iter().map(hits).collect();
        let mut sets: Vec<Vec<Way>> = hitting_sets(&families, LARGEST_SET, MOST_NODES)
            .into_iter()
            .map(|set| set.into_iter().filter_map(|at| ways.get(at).map(|way| (*way).clone())).collect())
            .collect();
        sets.retain(|set: &Vec<Way>| compatible(set));
        let sum = |set: &Vec<Way>| {
            let steps: Vec<Step> = set.iter().flat_map(|way| way.steps.clone()).collect();
            Cost::of(&steps, self.currency.as_deref())
        };
        sets.sort_by_cached_key(|set| (set.iter().map(|way| way.steps.len()).sum::<usize>(), sum(set)));
        Phase::Sets { queue: sets.into(), trials: 0 }
    }

    fn try_set(&mut self, mut queue: VecDeque<Vec<Way>>, trials: usize) -> Phase<'a> {
        let enough = self.found.sets.len() >= MOST_SETS || trials >= MOST_TRIALS;
        let Some(set) = queue.pop_front().filter(|_| !enough) else { return self.last_resort() };
        let steps: Vec<Step> = set.into_iter().flat_map(|way| way.steps).collect();
        let all: BTreeSet<Fault> = self.bench.before.all().cloned().collect();
        let judged = self.bench.judge(&steps, &all);
        if let Some(way) = self.way(steps, judged)
            && self.is_minimal(&way.steps, &all)
        {
            self.found.sets.push(way);
        }
        Phase::Sets { queue, trials: trials + 1 }
    }

    /// Where no set was found although each mismatch has a way out: one after another.
    fn last_resort(&self) -> Phase<'a> {
        let open = self.found.sets.is_empty() && self.found.mismatches.iter().all(|mismatch| !mismatch.ways.is_empty());
        if open { Phase::OneByOne(OneByOne::new(&self.bench.base.craft.build)) } else { Phase::Done }
    }

    fn settle(&mut self, mut one: OneByOne) -> Phase<'a> {
        match one.next(self.bench.means) {
            Next::More => return Phase::OneByOne(one),
            Next::Done(steps) => self.tell_least(&steps),
            Next::Stuck => {}
        }
        Phase::Done
    }

    /// Tells the smallest part of some steps after which no mismatch is left.
    fn tell_least(&mut self, steps: &[Step]) {
        let all: BTreeSet<Fault> = self.bench.before.all().cloned().collect();
        let mut needed = steps.to_vec();
        for at in (0..needed.len()).rev() {
            let mut fewer = needed.clone();
            fewer.remove(at);
            if self.bench.judge(&fewer, &all).reached.is_some() {
                needed = fewer;
            }
        }
        if needed.len() > LARGEST_PROVEN {
            return;
        }
        let mut parts = proper_subsets(&needed);
        parts.push(needed);
        parts.sort_by_key(Vec::len);
        for part in parts {
            let judged = self.bench.judge(&part, &all);
            if let Some(way) = self.way(part, judged) {
                if self.is_minimal(&way.steps, &all) {
                    self.found.sets.push(way);
                }
                return;
            }
        }
    }

    /// The first way in one step out of a mismatch whose steps are wanted.
    pub(super) fn first(&mut self, at: usize, wanted: impl Fn(&[Step]) -> bool) -> Option<Way> {
        self.phase = self.single(at);
        while matches!(self.phase, Phase::Single { .. }) {
            self.step();
            let ways = &self.found.mismatches.get(at)?.ways;
            if let Some(way) = ways.iter().find(|way| wanted(&way.steps)) {
                return Some(way.clone());
            }
        }
        None
    }

    /// Does every smaller part of the steps leave a mismatch? One after which something is unknown instead leaves none.
    fn is_minimal(&mut self, steps: &[Step], all: &BTreeSet<Fault>) -> bool {
        proper_subsets(steps).into_iter().all(|part| {
            let judged = self.bench.judge(&part, all);
            judged.reached.is_none() && self.is_broken(&judged)
        })
    }

    /// Is a mismatch left? What was judged up to the first obstacle only is judged as a whole.
    fn is_broken(&self, judged: &Judged) -> bool {
        let whole = || self.bench.means.evaluate(&judged.build);
        judged.after.all().next().is_some() || whole().findings.iter().any(Finding::forbids)
    }
}

/// Can all of them be carried out?
fn compatible(set: &[Way]) -> bool {
    set.iter().enumerate().all(|(at, one)| set.iter().skip(at + 1).all(|other| go_together(&one.steps, &other.steps)))
}
