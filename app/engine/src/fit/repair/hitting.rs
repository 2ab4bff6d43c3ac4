//! Minimal hitting sets: the smallest choices that take at least one of each of several sets.
//!
//! Raymond Reiter, "A theory of diagnosis from first principles", Artificial Intelligence 32 (1987): what resolves all conflicts
//! is exactly what hits each of them. The sets here are small, so that the tree is grown breadth first.

use std::collections::BTreeSet;

/// All minimal hitting sets with at most `largest` elements, the smaller ones first; growing stops after `most` nodes.
///
/// ```
/// use std::collections::BTreeSet;
/// use propwright_engine::fit::repair::hitting_sets;
/// let sets = [BTreeSet::from([1, 2]), BTreeSet::from([2, 3])];
/// assert_eq!(hitting_sets(&sets, 3, 1000), [BTreeSet::from([2]), BTreeSet::from([1, 3])]);
/// ```
pub fn hitting_sets(sets: &[BTreeSet<usize>], largest: usize, most: usize) -> Vec<BTreeSet<usize>> {
    let mut found: Vec<BTreeSet<usize>> = Vec::new();
    let mut level = BTreeSet::from([BTreeSet::new()]);
    let mut nodes = 0;
    for _ in 0..=largest {
        let mut next = BTreeSet::new();
        for node in level {
            nodes += 1;
            if nodes > most || found.iter().any(|known| known.is_subset(&node)) {
                continue;
            }
            match sets.iter().find(|set| set.is_disjoint(&node)) {
                None => found.push(node),
                Some(open) => next.extend(open.iter().map(|element| {
                    let mut larger = node.clone();
                    larger.insert(*element);
                    larger
                })),
            }
        }
        level = next;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn hits(node: &BTreeSet<usize>, sets: &[BTreeSet<usize>]) -> bool {
        sets.iter().all(|set| !set.is_disjoint(node))
    }

    fn subsets(of: usize) -> impl Iterator<Item = BTreeSet<usize>> {
        (0..1_u32 << of).map(move |mask| (0..of).filter(|at| mask >> at & 1 == 1).collect())
    }

    proptest! {
        #[test]
        fn all_minimal_ones_are_found(sets in proptest::collection::vec(proptest::collection::btree_set(0_usize..7, 1..4), 0..6)) {
            let hitting: Vec<BTreeSet<usize>> = subsets(7).filter(|node| hits(node, &sets)).collect();
            let minimal: BTreeSet<BTreeSet<usize>> =
                hitting.iter().filter(|node| !hitting.iter().any(|other| other != *node && other.is_subset(node))).cloned().collect();
            let found = hitting_sets(&sets, 7, 100_000);
            prop_assert_eq!(found.iter().cloned().collect::<BTreeSet<_>>(), minimal);
            prop_assert!(found.is_sorted_by_key(BTreeSet::len));
        }
    }

    #[test]
    fn what_cannot_be_hit_has_no_answer() {
        assert_eq!(hitting_sets(&[BTreeSet::new()], 3, 100), Vec::<BTreeSet<usize>>::new());
    }
}
