//! Tables of the shelf and of a thrust stand: read in the window as parts are, rows that cannot be used kept aside.

use std::path::{Path, PathBuf};

use propwright_schema::{
    measured::StandRow,
    stock::{Stock, StockItem},
    table::Listed,
    version::CURRENT,
};

use super::{
    Outside, apply,
    deeds::{self, Was},
    money,
};
use crate::{
    edit::Edit,
    files::{self, FileError},
    state::{App, Cover},
    stored,
};

/// Makes the shelf what a table holds.
pub(super) fn shelf(app: &mut App, outside: &mut Outside, path: &Path, read: Listed<StockItem>) {
    let before = app.purse.stock.clone();
    let many = read.rows.len();
    let told = match aside(app, path, &read) {
        Ok(told) => told,
        Err(problem) => return say(app, "The shelf stays as it is", vec![problem]),
    };
    match money::take_stock(app, outside, Stock { version: CURRENT, items: read.rows }) {
        Ok(()) => {
            deeds::did(app, format!("Read {many} rows of the shelf"), Was::Shelf(before));
            say(
                app,
                "The shelf was read",
                vec![format!("{many} rows; undo brings the earlier shelf back.")].into_iter().chain(told).collect(),
            );
        }
        Err(problem) => say(app, "The shelf stays as it is", vec![problem]),
    }
}

/// Makes the thrust stand of the shown list what a table holds.
pub(super) fn stand(app: &mut App, outside: &mut Outside, path: &Path, read: Listed<StandRow>) {
    let many = read.rows.len();
    let told = match aside(app, path, &read) {
        Ok(told) => told,
        Err(problem) => return say(app, "The list stays as it is", vec![problem]),
    };
    apply(app, outside, app.current, &Edit::Stand(read.rows));
    if app.cover.is_none() {
        let about = "They stand for motor and propeller of this list: the figures of page Flight are calibrated by them.";
        let lines = [format!("{many} rows. {about} Undo takes them out again.")].into_iter().chain(told).collect();
        say(app, "The thrust stand was read", lines);
    }
}

fn say(app: &mut App, title: &str, lines: Vec<String>) {
    app.cover = Some(Cover::Message { title: title.to_owned(), lines });
}

/// Writes the rows that cannot be used beside the table; says what is wrong with each and where they lie.
fn aside<T>(app: &App, source: &Path, read: &Listed<T>) -> Result<Vec<String>, String> {
    if read.refused.is_empty() {
        return Ok(Vec::new());
    }
    let kept = keep(app, source, read.set_aside())?;
    let kept = format!("{} rows kept aside in {kept}:", read.refused.len());
    let problems = read.refused.iter().flat_map(|row| &row.problems).map(ToString::to_string);
    Ok(std::iter::once(kept).chain(problems).collect())
}

/// Keeps refused rows beside their table; says where.
pub(super) fn keep(app: &App, source: &Path, text: Result<String, impl std::fmt::Display>) -> Result<String, String> {
    let text = text.map_err(|error| error.to_string())?;
    let kept = stored::keep_aside(app.disk, source, &text);
    let said = |(path, error): (PathBuf, FileError)| format!("{}: {error}; {}.", files::name(&path), error.hint());
    kept.map(|path| files::name(&path)).map_err(said)
}
