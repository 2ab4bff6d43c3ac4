//! Propwright's window and command line.

pub mod cli;
pub mod files;
pub mod theme;
pub mod widget;
pub mod window;
