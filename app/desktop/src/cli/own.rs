//! The user's own thresholds, read for a command.

use std::path::PathBuf;

use clap::Args;
use propwright_engine::policy::{self, Policy};
use propwright_schema::diagnostic::Diagnostic;

use crate::files::{self, Disk};

/// A file of the user's own thresholds.
#[derive(Debug, Default, Args)]
pub(super) struct Own {
    /// Your own thresholds in place of the program's; every finding that rests on one says so
    #[arg(long, value_name = "FILE")]
    policy: Option<PathBuf>,
}

impl Own {
    /// The thresholds in force.
    ///
    /// # Errors
    /// Every problem of the file.
    pub(super) fn read(&self) -> Result<Policy, Vec<Diagnostic>> {
        let Some(path) = &self.policy else { return Ok(Policy::default()) };
        let opened = Disk::Real.read(path).map_err(|error| error.problems(path))?;
        policy::read(&files::name(path), &opened.text)
    }
}
