//! What else fits in a place of a build, and what it changes; what takes the place of a part that is gone; builds side by side.
//!
//! In reading order:
//!
//! 1. `place` puts another part in a place of a list;
//! 2. `standing` says which findings of the new build count against that part;
//! 3. `change` says what it changes, with bands, and when that is nothing;
//! 4. `plain` does all of that by a whole evaluation: short, slow, and the measure for `search`;
//! 5. `search` does the same for every part of the catalogue, step by step, on a `bench` that computes only what the exchange reaches;
//! 6. `closeness`, `follow` and `replace` rank what could stand in for a part, alone or with what must follow;
//! 7. `compare` sets builds side by side;
//! 8. [`repair`] finds the smallest way out of what does not go together.

mod bench;
pub mod change;
mod closeness;
pub mod compare;
mod follow;
mod place;
mod plain;
pub mod repair;
mod replace;
mod search;
mod standing;

pub use bench::Means;
pub use change::{Change, Delta, FIGURES, Figure};
pub use closeness::distance;
pub use follow::{Following, Set, Swap};
pub use place::Place;
pub use plain::candidate;
pub use replace::{Buy, Replacement, Replacing, Way, ranked};
pub use search::{Candidate, Search};
