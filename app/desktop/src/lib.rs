//! Propwright's window and command line.

pub mod browse;
pub mod cli;
pub mod command;
pub mod demo;
pub mod edit;
pub mod entering;
pub mod export;
pub mod files;
pub mod fitting;
pub mod input;
pub mod money;
pub mod panel;
pub mod run_command;
pub mod state;
pub mod stored;
pub mod theme;
pub mod view;
pub mod widget;
pub mod window;
pub mod worker;
