//! Builds near the reference builds, and what must hold of the ways out of each.

use std::{collections::BTreeSet, sync::Arc};

use propwright_engine::{
    Report,
    bill::Given,
    evaluate, explain,
    finding::Status,
    fit::{
        Means,
        repair::{Fault, Mismatch, Repair, Repairs, Way, conflicts, proper_subsets},
    },
    policy::Policy,
};
use propwright_schema::{build_list::BuildList, catalogue::Catalogue};

use crate::near::{Dice, near};

/// The build of a number: one to three random swaps away from a reference build.
pub fn near_build(catalogue: &Catalogue, reference: &[(&'static str, BuildList)], number: usize) -> BuildList {
    let mut dice = Dice::new(number as u64);
    let swaps = 1 + dice.below(3);
    near(catalogue, &reference[number % reference.len()].1, swaps, &mut dice)
}

fn faults(report: &Report) -> Vec<Fault> {
    let mut faults: Vec<Fault> =
        report.findings.iter().filter(|finding| finding.status() == Status::Mismatch).map(Fault::of).collect();
    faults.sort();
    faults
}

/// What was checked.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub struct Checked {
    /// Mismatches of the build.
    pub mismatches: usize,
    /// Mismatches with at least one way out.
    pub with_way: usize,
    /// Ways out.
    pub ways: usize,
    /// Minimal conflicts.
    pub conflicts: usize,
    /// Those among them that are too large for all their parts to be asked, see [`check`].
    pub large: usize,
    /// Sets of steps.
    pub sets: usize,
    /// Builds with several mismatches of which each has a way out, but no set was found for all.
    pub without_set: usize,
    /// Why no conflict is told, in words, one of each mismatch that has none.
    pub untold: Vec<String>,
}

impl std::ops::AddAssign for Checked {
    fn add_assign(&mut self, other: Self) {
        self.mismatches += other.mismatches;
        self.with_way += other.with_way;
        self.ways += other.ways;
        self.conflicts += other.conflicts;
        self.large += other.large;
        self.sets += other.sets;
        self.without_set += other.without_set;
        self.untold.extend(other.untold);
    }
}

/// Finds the ways out of a build and proves each by plain evaluation, each conflict by brute force over all its parts, and each
/// set by all its parts. Of a conflict of more than [`WHOLE`] choices those parts are asked that lack one or two of them, and
/// [`DRAWN`] others.
///
/// # Errors
/// What does not hold.
pub fn check(catalogue: &Catalogue, build: &BuildList) -> Result<Checked, String> {
    let policy = Policy::default();
    let base = evaluate(catalogue, &Arc::new(build.clone()), &policy);
    let given = Given::default();
    let means = Means { catalogue, policy: &policy, given: &given };
    let found = Repair::new(means, &base).finish();
    let before = faults(&base);
    for way in found.ways() {
        way_holds(catalogue, &policy, way, &before)?;
    }
    for mismatch in &found.mismatches {
        conflict_holds(means, &base, mismatch)?;
    }
    for set in &found.sets {
        set_holds(catalogue, &policy, &base, set)?;
    }
    Ok(counted(&found))
}

fn counted(found: &Repairs) -> Checked {
    let untold = |mismatch: &Mismatch| {
        let why = mismatch.conflict.as_ref().err()?;
        Some(format!("{}: {}", mismatch.finding.rule, explain::repair::untold(*why)))
    };
    let sizes = || found.mismatches.iter().filter_map(|mismatch| Some(mismatch.conflict.as_ref().ok()?.choices.len()));
    let with_way = found.mismatches.iter().filter(|mismatch| !mismatch.ways.is_empty()).count();
    let solvable = with_way == found.mismatches.len() && with_way > 1;
    Checked {
        mismatches: found.mismatches.len(),
        with_way,
        ways: found.ways().len(),
        conflicts: sizes().count(),
        large: sizes().filter(|size| *size > WHOLE).count(),
        sets: found.sets.len(),
        without_set: usize::from(solvable && found.sets.is_empty()),
        untold: found.mismatches.iter().filter_map(untold).collect(),
    }
}

fn way_holds(catalogue: &Catalogue, policy: &Policy, way: &Way, before: &[Fault]) -> Result<(), String> {
    let after = faults(&evaluate(catalogue, &way.build, policy));
    let said = || way.steps.iter().map(explain::repair::step).collect::<Vec<_>>();
    for fault in &after {
        let count = |faults: &[Fault]| faults.iter().filter(|other| *other == fault).count();
        if count(&after) > count(before) {
            return Err(format!("{:?} adds {fault:?}", said()));
        }
    }
    let gone: BTreeSet<Fault> = before.iter().filter(|fault| !after.contains(fault)).cloned().collect();
    if gone.is_empty() || gone != way.removes {
        return Err(format!("{:?} says it removes {:?} and removes {gone:?}", said(), way.removes));
    }
    Ok(())
}

fn conflict_holds(means: Means, base: &Report, mismatch: &Mismatch) -> Result<(), String> {
    let rule = mismatch.finding.rule;
    let Ok(conflict) = &mismatch.conflict else { return Ok(()) };
    let choices = &conflict.choices;
    let asks = |kept: &[_]| conflicts(means, &base.craft, &mismatch.finding, kept);
    if !asks(choices) {
        return Err(format!("{rule}: the conflict is none"));
    }
    for mask in parts(choices.len()) {
        let part: Vec<_> =
            choices.iter().enumerate().filter(|(at, _)| mask >> at & 1 == 1).map(|(_, choice)| choice.clone()).collect();
        if asks(&part) {
            return Err(format!("{rule}: {} of {} choices conflict already", part.len(), choices.len()));
        }
    }
    Ok(())
}

/// So many choices have all their parts asked.
pub const WHOLE: usize = 11;
/// So many parts of a larger conflict are drawn at random.
pub const DRAWN: usize = 2048;

/// The parts of a conflict that are asked, as bits.
fn parts(choices: usize) -> Vec<usize> {
    let whole = (1_usize << choices) - 1;
    if choices <= WHOLE {
        return (0..whole).collect();
    }
    let pairs = (0..choices).flat_map(|one| (one..choices).map(move |other| whole & !(1 << one) & !(1 << other)));
    let mut dice = Dice::new(choices as u64);
    pairs.chain((0..DRAWN).map(|_| dice.below(whole))).collect()
}

fn set_holds(catalogue: &Catalogue, policy: &Policy, base: &Report, set: &Way) -> Result<(), String> {
    let left = |build: &BuildList| faults(&evaluate(catalogue, &Arc::new(build.clone()), policy)).len();
    if left(&set.build) > 0 {
        return Err("a set leaves a mismatch".to_owned());
    }
    for part in proper_subsets(&set.steps) {
        if left(&propwright_engine::fit::repair::applied(&part, &base.craft.build)) == 0 {
            return Err(format!("{} of {} steps are enough", part.len(), set.steps.len()));
        }
    }
    Ok(())
}
