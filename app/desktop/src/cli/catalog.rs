//! `catalog check`: all problems of catalogue files; they are the answer.

use std::path::PathBuf;

use clap::Args;
use propwright_paper::page::escaped;
use propwright_schema::diagnostic::Diagnostic;
use serde::Serialize;

use super::{
    Exit, Form,
    answer::{self, Answer},
    input,
};

/// Checks catalogue files.
#[derive(Debug, Args)]
pub(super) struct Check {
    /// Catalogue files
    #[arg(value_name = "FILE", required = true)]
    files: Vec<PathBuf>,
    #[command(flatten)]
    form: Form,
}

#[derive(Debug, Serialize)]
struct Found<'a> {
    problems: Vec<Problem<'a>>,
    notes: &'a [String],
}

#[derive(Debug, Serialize)]
pub(super) struct Problem<'a> {
    file: &'a str,
    line: u32,
    column: u32,
    part: Option<&'a str>,
    field: Option<&'a str>,
    reason: &'a str,
    hint: Option<&'a str>,
}

impl<'a> From<&'a Diagnostic> for Problem<'a> {
    fn from(problem: &'a Diagnostic) -> Self {
        Self {
            file: &problem.file,
            line: problem.line,
            column: problem.column,
            part: problem.part.as_deref(),
            field: problem.field.as_deref(),
            reason: &problem.reason,
            hint: problem.hint.as_deref(),
        }
    }
}

impl Check {
    pub(super) fn answer(self) -> Answer {
        let (shelf, problems) = input::lay_over_one_another(&self.files);
        let exit = if problems.is_empty() { Exit::Done } else { Exit::Found };
        if self.form.json {
            return Answer::json(exit, &Found { problems: problems.iter().map(Problem::from).collect(), notes: &shelf.notes });
        }
        let (parts, kits) = (shelf.catalogue.parts().count(), shelf.catalogue.kits().count());
        let sum = match problems.len() {
            0 => format!("No problem; {parts} parts and {kits} kits.\n"),
            1 => "1 problem.\n".to_owned(),
            several => format!("{several} problems.\n"),
        };
        let notes = shelf.notes.iter().map(|note| format!("Note: {}\n", escaped(note)));
        let text = problems.iter().map(answer::problem).chain([sum]).chain(notes).collect();
        Answer::text(exit, text)
    }
}
