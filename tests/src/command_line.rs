//! The command line, run within the test.

use std::{ffi::OsString, path::Path};

use propwright::cli::{Exit, run};

/// What a command answered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answered {
    /// The exit status.
    pub exit: Exit,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

impl Answered {
    /// Standard output as JSON.
    pub fn json(&self) -> serde_json::Value {
        serde_json::from_str(&self.out).unwrap()
    }
}

/// Runs a command; the program's name is put in front.
pub fn propwright<A: Into<OsString>>(args: impl IntoIterator<Item = A>) -> Answered {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let args = std::iter::once(OsString::from("propwright")).chain(args.into_iter().map(Into::into));
    let exit = run(args, &mut out, &mut err);
    Answered { exit, out: String::from_utf8(out).unwrap(), err: String::from_utf8(err).unwrap() }
}

/// A path as an argument.
pub fn path(path: &Path) -> OsString {
    path.as_os_str().to_owned()
}
