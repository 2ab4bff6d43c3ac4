//! Everything that Propwright computes, in reading order:
//!
//! 1. [`craft`] looks the parts of a build list up;
//! 2. [`graph`] knows which derivation and which rule reads which property, and runs them in order;
//! 3. [`mod@derive`] computes properties from others by calls of [`models`];
//! 4. [`rules`] judge, against thresholds of [`policy`], by the one comparison of [`verdict`];
//! 5. [`report::evaluate`] does all of that for a build and returns a [`report::Report`], with the figures of its [`flight`];
//! 6. [`sweep`](mod@sweep) varies one input at a time, for curves;
//! 7. [`purpose`] says what the craft is asked for, [`bill`] what of it is bought and what that costs;
//! 8. [`explain`] makes sentences of it, [`drawing`] shapes.
//!
//! No window, no file, no clock and no randomness enters here.

pub mod band;
pub mod bill;
pub mod calibration;
pub mod craft;
pub mod derive;
pub mod drawing;
pub mod estimated;
pub mod explain;
pub mod finding;
pub mod fit;
pub mod flight;
pub mod graph;
pub mod interval;
mod measured;
pub mod models;
pub mod policy;
pub mod purpose;
pub mod report;
pub mod rules;
pub mod sweep;
pub mod thresholds;
pub mod unknown;
pub mod verdict;
pub mod working;

pub use report::{Report, evaluate, evaluate_with};
