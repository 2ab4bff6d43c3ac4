//! `repair`: verified ways out of every mismatch, and the fewest choices behind each.

use std::{path::PathBuf, sync::Arc};

use clap::Args;
use propwright_engine::fit::{Means, repair};
use propwright_paper::repair as paper;
use propwright_schema::diagnostic::Diagnostic;

use super::{Exit, Form, answer::Answer, check::Day, given::Given, input, own::Own};

/// Finds ways out.
#[derive(Debug, Args)]
pub(super) struct Repair {
    /// The build list
    #[arg(value_name = "BUILD.ron")]
    build: PathBuf,
    /// Catalogue file laid over the demo parts; may be given several times, later files shadow earlier ones
    #[arg(long, value_name = "FILE")]
    catalog: Vec<PathBuf>,
    #[command(flatten)]
    day: Day,
    #[command(flatten)]
    given: Given,
    #[command(flatten)]
    own: Own,
    #[command(flatten)]
    form: Form,
}

impl Repair {
    pub(super) fn answer(self) -> Answer {
        self.found().unwrap_or_else(|problems| Answer::refused(&problems))
    }

    fn found(&self) -> Result<Answer, Vec<Diagnostic>> {
        let mut shelf = input::catalogue(&self.catalog)?;
        let mut build = input::build(&self.build, &shelf.catalogue)?;
        let given = self.given.read(&shelf.catalogue, &mut shelf.notes)?;
        self.day.apply(&mut build);
        let policy = self.own.read()?;
        let means = Means { catalogue: &shelf.catalogue, policy: &policy, given: &given };
        let report = means.evaluate(&Arc::new(build));
        let found = repair::Repair::new(means, &report).finish();
        Ok(if self.form.json {
            Answer::json(Exit::Done, &paper::json(&report, &found, &shelf.notes))
        } else {
            Answer::text(Exit::Done, paper::text(&report, &found, &shelf.notes))
        })
    }
}
