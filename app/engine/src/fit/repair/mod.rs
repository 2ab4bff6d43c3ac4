//! The smallest way out of what does not go together.
//!
//! In reading order:
//!
//! 1. `step` is a change that a builder can carry out: another part, a part more, another feed, a limit;
//! 2. `fault` says what counts as the same mismatch before and after;
//! 3. `candidates` lists what might remove a mismatch, the cheapest first;
//! 4. `bench` judges a changed list: every way that is told was judged so, models and all;
//! 5. `conflict` finds the fewest choices that are in each other's way, by `quickxplain` and `proof`;
//! 6. `hitting` finds the smallest sets of ways that remove all mismatches, `one_by_one` some steps where ways hinder each other;
//! 7. `search` does all of that step by step, so that a window can stop it.

mod bench;
mod candidates;
mod conflict;
mod fault;
mod hitting;
mod one_by_one;
mod proof;
mod quickxplain;
mod search;
mod step;

pub use candidates::Cost;
pub use conflict::{Choice, Conflict, Untold, conflicts};
pub use fault::Fault;
pub use hitting::hitting_sets;
pub use quickxplain::quickxplain;
pub use search::{Mismatch, Repair, Repairs, Way};
pub use step::{At, Step, applied, proper_subsets};
