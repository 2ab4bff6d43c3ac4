//! `sheet`: a build on paper.

use std::{
    fmt::Write as _,
    path::{Path, PathBuf},
    sync::Arc,
};

use clap::{Args, ValueEnum};
use propwright_engine::{Report, evaluate_with, finding::Status, policy::Policy};
use propwright_paper::{json::SCHEMA, page::escaped, sheet::Format};
use propwright_schema::{build_list::BuildList, diagnostic::Diagnostic};
use serde::Serialize;

use super::{Exit, Form, answer::Answer, check::Day, given::Given, input, own::Own};
use crate::{
    export::{self, ENDINGS, Kind, Wanted},
    files::{self, Disk},
};

/// Puts a build on paper.
#[derive(Debug, Args)]
pub(super) struct Sheet {
    /// The build list; several for a comparison
    #[arg(value_name = "BUILD.ron", num_args = 1..=4, required = true)]
    builds: Vec<PathBuf>,
    /// The file to write; its ending decides the form: pdf, svg, png, csv, txt, json or ron
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// What is put on paper
    #[arg(long, value_enum, default_value_t = Kind::Build)]
    kind: Kind,
    /// Size of the paper
    #[arg(long, value_enum, default_value_t = Paper::A4)]
    paper: Paper,
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

/// A size of paper for a printer.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum Paper {
    /// 210 × 297 mm
    A4,
    /// 8.5 × 11 in
    Letter,
}

impl From<Paper> for Format {
    fn from(paper: Paper) -> Self {
        match paper {
            Paper::A4 => Self::A4,
            Paper::Letter => Self::Letter,
        }
    }
}

/// All that is read to write a sheet.
struct Read {
    notes: Vec<String>,
    reports: Vec<Report>,
    policy: Policy,
    day: Option<jiff::civil::Date>,
}

/// What was written.
#[derive(Debug, Serialize)]
struct Written {
    schema: u32,
    #[serde(rename = "written")]
    files: Vec<String>,
    mismatches: usize,
}

impl Sheet {
    pub(super) fn answer(self) -> Answer {
        self.written().unwrap_or_else(|problems| Answer::refused(&problems))
    }

    fn written(&self) -> Result<Answer, Vec<Diagnostic>> {
        let read = self.read()?;
        let all: Vec<&Report> = read.reports.iter().collect();
        let wanted = Wanted { kind: self.kind, reports: &all, policy: &read.policy, format: self.paper.into(), day: read.day };
        let files = export::files(&wanted, &self.out, &read.notes)
            .map_err(|error| vec![about(&self.out, error.to_string(), format!("end its name with one of {ENDINGS}"))])?;
        for (path, bytes) in &files {
            self.keep_the_source(path)?;
            Disk::Real.export(path, bytes).map_err(|error| error.problems(path))?;
        }
        let written: Vec<String> = files.iter().map(|(path, _)| files::name(path)).collect();
        let mismatches = all.iter().map(|report| report.count(Status::Mismatch)).sum();
        let exit = if mismatches > 0 { Exit::Found } else { Exit::Done };
        if self.form.json {
            return Ok(Answer::json(exit, &Written { schema: SCHEMA, files: written, mismatches }));
        }
        let mut text = String::new();
        for path in written {
            // Writing to a string cannot fail.
            let _ = writeln!(text, "Written: {}", escaped(&path));
        }
        if mismatches > 0 {
            let _ = writeln!(text, "It shows {mismatches} in the way.");
        }
        Ok(Answer::text(exit, text))
    }

    fn read(&self) -> Result<Read, Vec<Diagnostic>> {
        let mut shelf = input::catalogue(&self.catalog)?;
        let given = self.given.read(&shelf.catalogue, &mut shelf.notes)?;
        let policy = self.own.read()?;
        let builds = input::builds(&self.builds, &shelf.catalogue, self.day)?;
        let judge = |build: &Arc<BuildList>| evaluate_with(&shelf.catalogue, build, &policy, &given);
        let reports: Vec<Report> = builds.iter().map(judge).collect();
        Ok(Read { notes: shelf.notes, reports, policy, day: given.today })
    }

    /// A sheet never takes the place of the build list that it is made from.
    fn keep_the_source(&self, path: &Path) -> Result<(), Vec<Diagnostic>> {
        if self.builds.iter().any(|build| files::same(build, path)) {
            return Err(vec![about(path, "this is the build list itself".to_owned(), "name another file".to_owned())]);
        }
        Ok(())
    }
}

fn about(path: &Path, reason: String, hint: String) -> Diagnostic {
    Diagnostic { file: files::name(path), line: 1, column: 1, part: None, field: None, reason, hint: Some(hint) }
}
