//! Opening the window, and what is done where there is none.

use std::{
    panic::{self, AssertUnwindSafe},
    path::Path,
    sync::Arc,
};

use propwright_engine::{evaluate, policy::Policy};
use propwright_paper::text;

use super::{Exit, answer::Answer, input};
use crate::window;

/// Opens the window; where that fails it says so in one sentence and reports on the build in plain text instead.
pub(super) fn open(file: Option<&Path>) -> Answer {
    match window(file) {
        Ok(()) => Answer::text(Exit::Done, String::new()),
        Err(reason) => {
            report(file).with_remark(&format!("No window could be opened ({reason}); here is the report in plain text."))
        }
    }
}

/// The window toolkit returns an error where there is no display, and panics where a library is missing.
fn window(file: Option<&Path>) -> Result<(), String> {
    let usual = panic::take_hook();
    panic::set_hook(Box::new(|_| {}));
    let opened = panic::catch_unwind(AssertUnwindSafe(|| window::open_window(file)));
    panic::set_hook(usual);
    opened.unwrap_or_else(|payload| {
        let said = payload.downcast_ref::<String>().map(String::as_str).or(payload.downcast_ref::<&str>().copied());
        Err(said.unwrap_or("no reason given").to_owned())
    })
}

fn report(file: Option<&Path>) -> Answer {
    let read = input::catalogue(&[]).and_then(|shelf| {
        let build = match file {
            Some(file) => input::build(file, &shelf.catalogue),
            None => input::demo(&shelf.catalogue),
        };
        Ok((build?, shelf))
    });
    match read {
        Err(problems) => Answer::refused(&problems),
        Ok((build, shelf)) => {
            let report = evaluate(&shelf.catalogue, &Arc::new(build), &Policy::default());
            Answer::text(Exit::Done, text::report(&report, &shelf.notes))
        }
    }
}
