//! Tables of the shelf and of a thrust stand: read in the window as parts are, rows that cannot be used kept aside; and writing
//! these and the parts in force as tables.

use std::path::Path;

use propwright_schema::{
    catalogue::CatalogueFile,
    measured::StandRow,
    stock::{Stock, StockItem},
    table::{self, Listed},
    version::CURRENT,
};

use super::{
    Outside, apply,
    deeds::{self, Was},
    importing::RowsOf,
    money,
};
use crate::{
    edit::Edit,
    files,
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
    let kept = stored::kept_aside(app.disk, source, read.set_aside())?;
    let kept = format!("{} rows kept aside in {kept}:", read.refused.len());
    let problems = read.refused.iter().flat_map(|row| &row.problems).map(ToString::to_string);
    Ok(std::iter::once(kept).chain(problems).collect())
}

/// Writes rows as a table under a name that is free, so that nothing is replaced.
pub(super) fn write(app: &mut App, rows: RowsOf, path: &Path) {
    let (text, told) = match rows {
        RowsOf::Articles => {
            let (parts, kits) = (app.catalogue.parts().cloned().collect(), app.catalogue.kits().cloned().collect());
            let all = CatalogueFile { version: CURRENT, parts, kits };
            (table::write_catalogue(&all), format!("{} parts and {} kits", all.parts.len(), all.kits.len()))
        }
        RowsOf::Shelf => {
            let none = Stock::default();
            let stock = app.purse.stock.as_ref().map_or(&none, |own| &own.content);
            (table::write_stock(stock), format!("{} rows of the shelf", stock.items.len()))
        }
        RowsOf::Stand => {
            let rows = app.shown().map(|document| document.build.stand.as_slice()).unwrap_or_default();
            (table::write_stand(rows), format!("{} rows of the thrust stand", rows.len()))
        }
    };
    let path = files::free(&files::whole(path));
    let written = text.map_err(|error| error.to_string()).and_then(|text| {
        let saved = app.disk.save(&path, &text, None);
        saved.map_err(|error| format!("{}: {error}; {}.", files::name(&path), error.hint()))
    });
    match written {
        Ok(_) => say(app, "Written", vec![format!("{told}: {}", files::name(&path))]),
        Err(problem) => say(app, "Not written", vec![problem]),
    }
}
