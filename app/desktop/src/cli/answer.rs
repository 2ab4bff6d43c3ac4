//! What a command answers, and how it is written.

use std::{
    io::{self, Write},
    process::ExitCode,
};

use propwright_paper::page::escaped;
use propwright_schema::diagnostic::Diagnostic;
use serde::Serialize;

/// The exit status.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exit {
    /// Done.
    Done,
    /// Done, and a mismatch or a problem was found.
    Found,
    /// Wrong usage, or a file that cannot be read.
    Refused,
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(match exit {
            Exit::Done => 0,
            Exit::Found => 1,
            Exit::Refused => 2,
        })
    }
}

/// What a command answers.
#[derive(Debug)]
pub(super) struct Answer {
    exit: Exit,
    out: String,
    err: String,
}

impl Answer {
    /// A text on standard output.
    pub(super) const fn text(exit: Exit, out: String) -> Self {
        Self { exit, out, err: String::new() }
    }

    /// JSON on standard output.
    pub(super) fn json(exit: Exit, value: &impl Serialize) -> Self {
        match serde_json::to_string_pretty(value) {
            Ok(text) => Self::text(exit, text + "\n"),
            Err(error) => {
                Self { exit: Exit::Refused, out: String::new(), err: format!("The answer cannot be written: {error}\n") }
            }
        }
    }

    /// Files that cannot be used: every problem on standard error, nothing on standard output.
    pub(super) fn refused(problems: &[Diagnostic]) -> Self {
        Self { exit: Exit::Refused, out: String::new(), err: problems.iter().map(problem).collect() }
    }

    /// The same with a sentence on standard error.
    pub(super) fn with_remark(self, remark: &str) -> Self {
        Self { err: format!("{}{}\n", self.err, escaped(remark)), ..self }
    }

    /// Writes it; an output that was closed early, as by `head`, is no failure.
    pub(super) fn write(self, out: &mut dyn Write, err: &mut dyn Write) -> Exit {
        // Where even standard error is closed, nobody is left to be told.
        let _ = err.write_all(self.err.as_bytes()).and_then(|()| err.flush());
        match out.write_all(self.out.as_bytes()).and_then(|()| out.flush()) {
            Err(error) if error.kind() != io::ErrorKind::BrokenPipe => {
                let _ = writeln!(err, "The answer cannot be written: {error}");
                Exit::Refused
            }
            _ => self.exit,
        }
    }
}

/// A problem as lines: place, part, field and reason on the first, the hint below.
pub(super) fn problem(problem: &Diagnostic) -> String {
    let bare = Diagnostic { hint: None, ..problem.clone() };
    let hint = problem.hint.as_ref().map(|hint| format!("    hint: {}\n", escaped(hint)));
    format!("{}\n{}", escaped(&bare.to_string()), hint.unwrap_or_default())
}

/// What the parser of the command line says: help and version are answers, the rest is wrong usage.
pub(super) fn usage(usage: &clap::Error) -> Answer {
    let text: String = usage.render().to_string().lines().map(|line| escaped(line) + "\n").collect();
    if usage.use_stderr() {
        Answer { exit: Exit::Refused, out: String::new(), err: text }
    } else {
        Answer::text(Exit::Done, text)
    }
}
