//! Propwright's window and command line.

pub mod theme;
pub mod widget;
