//! Everything that Propwright computes: physics, rules, reasons, totals.
//!
//! No window, no file, no clock and no randomness enters here.

pub mod band;
pub mod models;
