//! Proves a conflict minimal: no part of it conflicts by itself.
//!
//! A choice can undo the conflict of others, as a regulator does, so that the answer of `QuickXplain` is not minimal as it stands.
//! All parts are asked, from the largest down, with two exceptions. Of a part on which the rule is silent none smaller is asked:
//! what it lacks they lack too. And where a choice does nothing but weigh, a part without it conflicts no more than one with
//! it; it is left out alone, never together with others. Once a part conflicts, only its own parts are left to ask.

use std::collections::{BTreeMap, BTreeSet};

use super::conflict::Untold;

/// What a list of some choices alone says of a mismatch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Says {
    /// The mismatch is there.
    Broken,
    /// The rule speaks of these parts, and the mismatch is not there.
    Kept,
    /// The rule does not speak of these parts: one is gone, or something that it cannot do without.
    Silent,
}

/// Parts of a conflict for which its rule is judged at most: what needs more is told as too much.
const MOST: usize = 4096;

/// A proof under way.
pub(super) struct Proof<T> {
    found: Vec<T>,
    /// The choices that do nothing but weigh, as bits over `found`.
    weigh: u32,
    /// The smallest conflict so far, likewise.
    least: u32,
    /// Parts still to be asked of the size that is looked at, and those one smaller.
    level: BTreeSet<u32>,
    below: BTreeSet<u32>,
    known: BTreeMap<u32, Says>,
    silent: Vec<u32>,
}

impl<T: Clone> Proof<T> {
    /// Begins with a conflict.
    pub(super) fn of(found: Vec<T>, weighs: impl Fn(&T) -> bool) -> Self {
        let bit = |at: usize| u32::try_from(at).ok().and_then(|at| 1_u32.checked_shl(at)).unwrap_or(0);
        let weigh = found.iter().enumerate().filter(|(_, choice)| weighs(choice)).map(|(at, _)| bit(at)).sum();
        let least = (0..found.len()).map(bit).sum();
        let (level, below, known) = (BTreeSet::new(), BTreeSet::new(), BTreeMap::new());
        let mut proof = Self { found, weigh, least, level, below, known, silent: Vec::new() };
        proof.level = proof.parts_of(least);
        proof
    }

    /// The parts of a set to be asked that lack one choice of it.
    fn parts_of(&self, mask: u32) -> BTreeSet<u32> {
        let bits = (0..u32::BITS).map(|at| 1_u32 << at).filter(|bit| mask & bit != 0);
        let alone = mask == self.least;
        bits.filter(|bit| alone || self.weigh & bit == 0).map(|bit| mask & !bit).collect()
    }

    fn chosen(&self, mask: u32) -> Vec<T> {
        let bits = self.found.iter().zip((0..u32::BITS).map(|at| 1_u32 << at));
        bits.filter(|(_, bit)| mask & bit != 0).map(|(choice, _)| choice.clone()).collect()
    }

    /// Asks for one part; the minimal conflict when none is left to ask.
    pub(super) fn next(&mut self, ask: impl Fn(&[T]) -> Says) -> Option<Result<Vec<T>, Untold>> {
        if self.found.len() > u32::BITS as usize || self.known.len() > MOST {
            return Some(Err(Untold::TooMany(self.chosen(self.least).len())));
        }
        if self.level.is_empty() {
            self.level = std::mem::take(&mut self.below);
        }
        let Some(mask) = self.level.pop_last() else { return Some(Ok(self.chosen(self.least))) };
        if self.silent.iter().any(|silent| mask & !silent == 0) {
            return None;
        }
        let says = self.known.get(&mask).copied().unwrap_or_else(|| ask(&self.chosen(mask)));
        self.known.insert(mask, says);
        let weigh = self.weigh & self.least;
        match says {
            Says::Silent => self.silent.push(mask),
            Says::Kept if mask & weigh == weigh => self.below.extend(self.parts_of(mask)),
            Says::Kept => {}
            Says::Broken => {
                self.least = mask;
                self.level = self.parts_of(mask);
                self.below.clear();
            }
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn proven(found: &[u32], weighs: fn(&u32) -> bool, ask: impl Fn(&[u32]) -> Says) -> Result<Vec<u32>, Untold> {
        let mut proof = Proof::of(found.to_vec(), weighs);
        std::iter::repeat_with(|| proof.next(&ask)).find_map(|found| found).unwrap()
    }

    fn says(broken: bool) -> Says {
        if broken { Says::Broken } else { Says::Kept }
    }

    proptest! {
        /// Against brute force, for families of conflicts that other choices undo.
        #[test]
        fn no_part_of_the_answer_conflicts(
            family in proptest::collection::vec((proptest::collection::btree_set(0_u32..7, 1..5), proptest::option::of(0_u32..7)), 1..5)
        ) {
            let broken = |set: &[u32]| {
                let holds = |choice: &u32| set.contains(choice);
                family.iter().any(|(conflict, undone)| conflict.iter().all(holds) && !undone.as_ref().is_some_and(holds))
            };
            let all: Vec<u32> = (0..7).collect();
            prop_assume!(broken(&all));
            let found = proven(&all, |_| false, |set| says(broken(set))).unwrap();
            prop_assert!(broken(&found));
            for mask in 0..(1_u32 << found.len()) - 1 {
                let part: Vec<u32> = found.iter().enumerate().filter(|(at, _)| mask >> at & 1 == 1).map(|(_, item)| *item).collect();
                prop_assert!(!broken(&part), "{part:?} of {found:?}");
            }
        }

        /// Weights that together are too much: each is left out alone.
        #[test]
        fn many_weights_are_proven_by_few_questions(weights in proptest::collection::vec(1_u32..100, 1..24), share in 0.3_f64..1.0) {
            let limit = f64::from(weights.iter().sum::<u32>()) * share;
            let heavy = |set: &[u32]| f64::from(set.iter().sum::<u32>()) >= limit;
            let found = proven(&weights, |_| true, |set| says(heavy(set))).unwrap();
            prop_assert!(heavy(&found));
            for at in 0..found.len() {
                let mut without = found.clone();
                without.remove(at);
                prop_assert!(!heavy(&without));
            }
        }
    }

    #[test]
    fn too_many_that_hang_together_are_told_as_such() {
        let all: Vec<u32> = (0..16).collect();
        assert_eq!(proven(&all, |_| false, |set| says(set.len() == 16)), Err(Untold::TooMany(16)));
        assert_eq!(proven(&all, |_| true, |set| says(set.len() == 16)).map(|found| found.len()), Ok(16));
    }
}
