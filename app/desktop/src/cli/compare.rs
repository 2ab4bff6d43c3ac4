//! `compare`: builds side by side.

use std::{path::PathBuf, sync::Arc};

use clap::Args;
use propwright_engine::{Report, evaluate_with, finding::Status, fit::compare::compare};
use propwright_paper::compare as paper;
use propwright_schema::{build_list::BuildList, diagnostic::Diagnostic};

use super::{Exit, Form, answer::Answer, check::Day, given::Given, input, own::Own};
use crate::files;

/// Sets builds side by side.
#[derive(Debug, Args)]
pub(super) struct Compare {
    /// The build lists, two to four
    #[arg(value_name = "BUILD.ron", num_args = 2..=4, required = true)]
    builds: Vec<PathBuf>,
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

impl Compare {
    pub(super) fn answer(self) -> Answer {
        self.compared().unwrap_or_else(|problems| Answer::refused(&problems))
    }

    fn compared(&self) -> Result<Answer, Vec<Diagnostic>> {
        let mut shelf = input::catalogue(&self.catalog)?;
        let given = self.given.read(&shelf.catalogue, &mut shelf.notes)?;
        let policy = self.own.read()?;
        let builds = input::builds(&self.builds, &shelf.catalogue, self.day)?;
        let judge = |build: &Arc<BuildList>| evaluate_with(&shelf.catalogue, build, &policy, &given);
        let reports: Vec<Report> = builds.iter().map(judge).collect();
        let reports: Vec<&Report> = reports.iter().collect();
        let compared = compare(&reports);
        let mismatch = reports.iter().any(|report| report.count(Status::Mismatch) > 0);
        let exit = if mismatch { Exit::Found } else { Exit::Done };
        let names: Vec<String> = self.builds.iter().map(|path| files::name(path)).collect();
        Ok(if self.form.json {
            Answer::json(exit, &paper::json(&reports, &names, &compared, &shelf.notes))
        } else {
            Answer::text(exit, paper::text(&reports, &names, &compared, &shelf.notes))
        })
    }
}
