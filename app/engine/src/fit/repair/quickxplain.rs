//! Minimal conflicts: `QuickXplain`.
//!
//! Ulrich Junker, "`QuickXplain`: Preferred Explanations and Relaxations for Over-Constrained Problems", AAAI 2004, algorithm 1.
//! It splits the constraints in halves and asks for a conflict only O(k · log(n/k)) times, k being the size of the answer.
//! The answer is minimal when more constraints never undo a conflict.

/// A minimal set of `all` for which `conflicts` still says yes, in the order of `all`; empty when even none of them conflicts,
/// `None` when all of them together do not.
///
/// What stands first in `all` is kept with preference.
///
/// ```
/// use propwright_engine::fit::repair::quickxplain;
/// // Three numbers conflict when they hold both 2 and 7.
/// let conflict = quickxplain(&[1, 2, 3, 7, 9], &mut |set: &[i32]| set.contains(&2) && set.contains(&7));
/// assert_eq!(conflict, Some(vec![2, 7]));
/// assert_eq!(quickxplain(&[1, 2], &mut |_: &[i32]| false), None);
/// ```
pub fn quickxplain<T: Clone>(all: &[T], conflicts: &mut impl FnMut(&[T]) -> bool) -> Option<Vec<T>> {
    if conflicts(&[]) {
        return Some(Vec::new());
    }
    conflicts(all).then(|| explain(&[], false, all, conflicts))
}

/// A minimal part of `open` that conflicts together with `given`; `grown`: `given` has grown since the last question.
fn explain<T: Clone>(given: &[T], grown: bool, open: &[T], conflicts: &mut impl FnMut(&[T]) -> bool) -> Vec<T> {
    if grown && conflicts(given) {
        return Vec::new();
    }
    if open.len() <= 1 {
        return open.to_vec();
    }
    let (first, second) = open.split_at(open.len() / 2);
    let late = explain(&joined(given, first), !first.is_empty(), second, conflicts);
    let early = explain(&joined(given, &late), !late.is_empty(), first, conflicts);
    joined(&early, &late)
}

fn joined<T: Clone>(one: &[T], other: &[T]) -> Vec<T> {
    one.iter().chain(other).cloned().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn holds(set: &[u8], conflict: &[u8]) -> bool {
        conflict.iter().all(|item| set.contains(item))
    }

    proptest! {
        /// Against brute force over all subsets, for random families of conflicts.
        #[test]
        fn the_answer_is_a_minimal_conflict(family in proptest::collection::vec(proptest::collection::vec(0_u8..9, 1..5), 1..5)) {
            let all: Vec<u8> = (0..9).collect();
            let is_conflict = |set: &[u8]| family.iter().any(|conflict| holds(set, conflict));
            let found = quickxplain(&all, &mut |set: &[u8]| is_conflict(set)).unwrap();
            prop_assert!(is_conflict(&found));
            for mask in 0..(1_u32 << found.len()) - 1 {
                let part: Vec<u8> = found.iter().enumerate().filter(|(at, _)| mask >> at & 1 == 1).map(|(_, item)| *item).collect();
                prop_assert!(!is_conflict(&part), "{part:?} of {found:?}");
            }
        }
    }

    #[test]
    fn few_questions_are_asked() {
        let all: Vec<u32> = (0..256).collect();
        let mut asked = 0;
        let found = quickxplain(&all, &mut |set: &[u32]| {
            asked += 1;
            set.contains(&3) && set.contains(&200)
        });
        assert_eq!(found, Some(vec![3, 200]));
        assert!(asked <= 2 * 2 * 8 + 2, "{asked} questions for 2 of 256");
    }
}
