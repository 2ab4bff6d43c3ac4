//! Tables of the shelf and of a thrust stand: read in the window as parts are, rows that cannot be used kept aside.

use std::path::Path;

use propwright_schema::{
    stock::Stock,
    table::{Listed, Sheet, guess, read_stand, read_stock},
    version::CURRENT,
};

use super::{
    Outside, apply,
    deeds::{self, Was},
    money,
};
use crate::{
    edit::Edit,
    files,
    state::{App, Cover},
};

/// What the rows of a table are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rows {
    /// Parts and kits.
    Articles,
    /// What lies on the shelf.
    Shelf,
    /// Steps of a thrust stand.
    Stand,
}

/// What the head of a table says that its rows are: thrust at a step is a stand's, a part with its count and no name the shelf's.
pub(super) fn rows_of(sheet: &Sheet, text: &str) -> Rows {
    let holds = |fields: &[Option<String>], field: &str| fields.iter().flatten().any(|known| known == field);
    let articles = guess(sheet.head());
    let named = holds(&articles.fields, "name") || holds(&articles.fields, "kind");
    let stand = read_stand(sheet.file(), text).is_ok_and(|stand| holds(&stand.mapping.fields, "thrust_gf"));
    let shelf = read_stock(sheet.file(), text)
        .is_ok_and(|shelf| holds(&shelf.mapping.fields, "part") && holds(&shelf.mapping.fields, "count"));
    match (named, stand, shelf) {
        (true, ..) => Rows::Articles,
        (_, true, _) => Rows::Stand,
        (_, _, true) => Rows::Shelf,
        _ => Rows::Articles,
    }
}

/// Makes the shelf what a table holds.
pub(super) fn shelf(app: &mut App, outside: &mut Outside, path: &Path, text: &str) {
    let Ok(read) = read_stock(&files::name(path), text) else { return };
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
pub(super) fn stand(app: &mut App, outside: &mut Outside, path: &Path, text: &str) {
    let Ok(read) = read_stand(&files::name(path), text) else { return };
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
    let text = read.set_aside().map_err(|error| error.to_string())?;
    let path = files::free(&source.with_extension("refused.csv"));
    let saved = app.disk.save(&path, &text, None);
    saved.map_err(|error| format!("{}: {error}; {}.", files::name(&path), error.hint()))?;
    let kept = format!("{} rows kept aside in {}:", read.refused.len(), files::name(&path));
    let problems = read.refused.iter().flat_map(|row| &row.problems).map(ToString::to_string);
    Ok(std::iter::once(kept).chain(problems).collect())
}
