//! `repair`: verified ways out of every mismatch, and the fewest choices behind each.

use std::{path::PathBuf, sync::Arc};

use clap::Args;
use propwright_engine::{evaluate, fit::repair};
use propwright_paper::repair as paper;

use super::{Exit, Form, answer::Answer, check::Day, input, own::Own};

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
    own: Own,
    #[command(flatten)]
    form: Form,
}

impl Repair {
    pub(super) fn answer(self) -> Answer {
        let read = input::catalogue(&self.catalog).and_then(|shelf| Ok((input::build(&self.build, &shelf.catalogue)?, shelf)));
        let (mut build, shelf) = match read {
            Ok(read) => read,
            Err(problems) => return Answer::refused(&problems),
        };
        self.day.apply(&mut build);
        let policy = match self.own.read() {
            Ok(policy) => policy,
            Err(problems) => return Answer::refused(&problems),
        };
        let report = evaluate(&shelf.catalogue, &Arc::new(build), &policy);
        let found = repair::Repair::new(&shelf.catalogue, &report, &policy).finish();
        if self.form.json {
            Answer::json(Exit::Done, &paper::json(&report, &found, &shelf.notes))
        } else {
            Answer::text(Exit::Done, paper::text(&report, &found, &shelf.notes))
        }
    }
}
