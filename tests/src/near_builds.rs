//! Builds near the reference builds, and what must hold of the ways out of each.

use std::{collections::BTreeSet, sync::Arc};

use propwright_engine::{
    Report, evaluate,
    finding::Status,
    fit::repair::{Fault, Mismatch, Repair, Repairs, Way, conflicts, proper_subsets},
    policy::Policy,
};
use propwright_schema::{
    build_list::{BuildList, Feed},
    catalogue::Catalogue,
    slot::Slot,
};

/// A stream of numbers that is the same wherever it runs.
///
/// Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014.
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, end: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ mixed >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ mixed >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
        usize::try_from((mixed ^ mixed >> 31) % end.max(1) as u64).unwrap()
    }
}

/// The build of a number: a reference build with one to three of its lines changed.
pub fn near_build(catalogue: &Catalogue, reference: &[(&'static str, BuildList)], number: usize) -> BuildList {
    let mut numbers = Numbers(number as u64);
    let mut build = reference[number % reference.len()].1.clone();
    for _ in 0..=numbers.below(3) {
        let line = numbers.below(build.parts.len());
        change(&mut build, line, catalogue, &mut numbers);
    }
    build
}

fn change(build: &mut BuildList, line: usize, catalogue: &Catalogue, numbers: &mut Numbers) {
    let fitted = &mut build.parts[line];
    match numbers.below(10) {
        0 if fitted.feed.is_some() && fitted.feed != Some(Feed::Own) => {
            let feeds = [Feed::Pack, Feed::Rail("5V".to_owned()), Feed::Rail("9V".to_owned()), Feed::Rail("12V".to_owned())];
            fitted.feed = feeds.get(numbers.below(feeds.len())).cloned();
        }
        1 if fitted.uart.is_some() => fitted.uart = Some(1 + u32::try_from(numbers.below(8)).unwrap()),
        2 if fitted.slot == Slot::Capacitor => drop(build.parts.remove(line)),
        3 if fitted.slot == Slot::Motor => fitted.count = 3 + u32::try_from(numbers.below(4)).unwrap(),
        _ => {
            let others: Vec<_> = catalogue.for_slot(fitted.slot).collect();
            others[numbers.below(others.len())].id.clone_into(&mut fitted.part);
        }
    }
}

fn faults(report: &Report) -> Vec<Fault> {
    let mut faults: Vec<Fault> =
        report.findings.iter().filter(|finding| finding.status() == Status::Mismatch).map(Fault::of).collect();
    faults.sort();
    faults
}

/// What was checked.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub struct Checked {
    /// Mismatches of the build.
    pub mismatches: usize,
    /// Mismatches with at least one way out.
    pub with_way: usize,
    /// Ways out.
    pub ways: usize,
    /// Minimal conflicts.
    pub conflicts: usize,
    /// Sets of steps.
    pub sets: usize,
    /// Builds with several mismatches of which each has a way out, but no set was found for all.
    pub without_set: usize,
}

impl std::ops::AddAssign for Checked {
    fn add_assign(&mut self, other: Self) {
        self.mismatches += other.mismatches;
        self.with_way += other.with_way;
        self.ways += other.ways;
        self.conflicts += other.conflicts;
        self.sets += other.sets;
        self.without_set += other.without_set;
    }
}

/// Finds the ways out of a build and proves each by plain evaluation, each conflict by brute force over all its parts, and each
/// set by all its parts.
///
/// # Errors
/// What does not hold.
pub fn check(catalogue: &Catalogue, build: &BuildList) -> Result<Checked, String> {
    let policy = Policy::default();
    let base = evaluate(catalogue, &Arc::new(build.clone()), &policy);
    let found = Repair::new(catalogue, &base, &policy).finish();
    let before = faults(&base);
    for way in found.ways() {
        way_holds(catalogue, &policy, way, &before)?;
    }
    for mismatch in &found.mismatches {
        conflict_holds(catalogue, &policy, &base, mismatch)?;
    }
    for set in &found.sets {
        set_holds(catalogue, &policy, &base, set)?;
    }
    Ok(counted(&found))
}

fn counted(found: &Repairs) -> Checked {
    let with_way = found.mismatches.iter().filter(|mismatch| !mismatch.ways.is_empty()).count();
    let solvable = with_way == found.mismatches.len() && with_way > 1;
    Checked {
        mismatches: found.mismatches.len(),
        with_way,
        ways: found.ways().len(),
        conflicts: found.mismatches.iter().filter(|mismatch| mismatch.conflict.is_some()).count(),
        sets: found.sets.len(),
        without_set: usize::from(solvable && found.sets.is_empty()),
    }
}

fn way_holds(catalogue: &Catalogue, policy: &Policy, way: &Way, before: &[Fault]) -> Result<(), String> {
    let after = faults(&evaluate(catalogue, &way.build, policy));
    let said = || way.steps.iter().map(propwright_engine::explain::repair::step).collect::<Vec<_>>();
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

fn conflict_holds(catalogue: &Catalogue, policy: &Policy, base: &Report, mismatch: &Mismatch) -> Result<(), String> {
    let rule = mismatch.finding.rule;
    let Some(conflict) = &mismatch.conflict else { return Ok(()) };
    let choices = &conflict.choices;
    let asks = |kept: &[_]| conflicts(catalogue, &base.craft, policy, &mismatch.finding, kept);
    if !asks(choices) {
        return Err(format!("{rule}: the conflict is none"));
    }
    for mask in 0..(1_usize << choices.len()) - 1 {
        let part: Vec<_> =
            choices.iter().enumerate().filter(|(at, _)| mask >> at & 1 == 1).map(|(_, choice)| choice.clone()).collect();
        if asks(&part) {
            return Err(format!("{rule}: {} of {} choices conflict already", part.len(), choices.len()));
        }
    }
    Ok(())
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
