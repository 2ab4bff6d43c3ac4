//! Reading a table into a catalogue of the user's own, and writing the catalogue as a table.

use std::{
    path::{Path, PathBuf},
    sync::Arc,
};

use propwright_schema::table::{Duplicate, Imported, Mapping, Same, guess};

use super::{Outside, deeds, entering, job, listed, sources};
use crate::{
    browse::Wish,
    files,
    state::{App, Cover, Going, Importing, Page, Remembered, Taking},
    stored,
    view::table_rows,
    worker::{Order, Rows, Take, Taken},
};

/// What can be done with a table.
#[derive(Debug, Clone, PartialEq)]
pub enum Table {
    /// Reads one.
    Read(PathBuf),
    /// Says what a column holds; nothing leaves it out.
    Column(usize, Option<String>),
    /// Says in which unit the bare figures of a column are; nothing means that of the field.
    Unit(usize, String),
    /// Says what the rows are where no column does.
    Kind(Option<String>),
    /// Says what becomes of all rows that are there already.
    Same(Same),
    /// The same for one.
    SameOf(String, Same),
    /// Shows only rows that are refused or there already.
    OnlyDoubtful(bool),
    /// Names the catalogue.
    Into(String),
    /// Stops reading.
    Stop,
    /// Reads again after a stop.
    Again,
    /// Lays the rows into the catalogue.
    Take,
    /// Stops that, as long as nothing is written.
    StopTaking,
    /// Closes it.
    Close,
    /// Writes a table of these rows.
    Write(RowsOf, PathBuf),
    /// Asks for a file.
    Browse,
}

/// The rows of a table that is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowsOf {
    /// All parts and kits in force.
    Articles,
    /// What lies on the shelf.
    Shelf,
    /// The steps of the thrust stand of the list that is shown.
    Stand,
}

/// Most heads that are remembered.
const MOST: usize = 12;

pub(super) fn run(app: &mut App, outside: &mut Outside, table: Table) {
    match table {
        Table::Read(path) => return begin(app, outside, &path),
        Table::Write(rows, path) => return listed::write(app, rows, &path),
        Table::Browse => {
            let near = app.memory.recent.first().cloned().unwrap_or_default();
            let wake = Arc::clone(&outside.wake);
            return outside.dialogs.open(Wish::Table, &near, move || wake());
        }
        Table::Close => {
            stop(app);
            app.importing = None;
            return;
        }
        Table::Take => return take(app, outside),
        Table::StopTaking => {
            if let Some(taking) = &app.taking {
                taking.stop.stop();
            }
            return;
        }
        _ => {}
    }
    let Some(importing) = &mut app.importing else { return };
    let mapping = importing.mapping.clone();
    match table {
        Table::Column(at, field) if at < importing.mapping.fields.len() => importing.mapping.fields[at] = field,
        Table::Unit(at, unit) if at < importing.mapping.units.len() => {
            importing.mapping.units[at] = Some(unit.trim().to_owned()).filter(|unit| !unit.is_empty());
        }
        Table::Kind(kind) => importing.mapping.kind = kind,
        Table::Same(same) => {
            importing.choice = same;
            importing.choices.clear();
        }
        Table::SameOf(part, same) => {
            importing.choices.insert(part, same);
        }
        Table::OnlyDoubtful(only) => {
            importing.only_doubtful = only;
            redraw(importing);
        }
        Table::Into(path) => importing.into = path,
        Table::Stop => stop(app),
        Table::Again => read(app, outside),
        _ => {}
    }
    let changed = app.importing.as_ref().is_some_and(|importing| importing.mapping != mapping);
    if changed {
        remember(app);
        read(app, outside);
    }
}

fn begin(app: &mut App, outside: &mut Outside, path: &Path) {
    let path = files::whole(path);
    match stored::read_table(&path) {
        Err(problems) => {
            app.cover = Some(Cover::Message { title: format!("{} cannot be read", files::name(&path)), lines: problems });
        }
        Ok(stored::Table::Shelf(read)) => {
            app.cover = None;
            listed::shelf(app, outside, &path, read);
        }
        Ok(stored::Table::Stand(read)) => {
            app.cover = None;
            listed::stand(app, outside, &path, read);
        }
        Ok(stored::Table::Articles(sheet)) => {
            let known = app.memory.mappings.iter().find(|known| known.head == sheet.head());
            let mapping = known.map_or_else(|| guess(sheet.head()), |known| known.mapping.clone());
            stop(app);
            app.importing = Some(Importing {
                path,
                sheet: Arc::new(sheet),
                mapping,
                serial: app.tick(),
                read: None,
                same: Vec::new(),
                choice: Same::default(),
                choices: std::collections::BTreeMap::new(),
                going: None,
                only_doubtful: false,
                into: files::name(&entering::usual_file(app)),
                told: Vec::new(),
                rows: Vec::new(),
                taken: None,
            });
            app.page = Page::Parts;
            app.cover = None;
            // A form gives way; about one that holds something it is asked.
            entering::leave_form(app);
            read(app, outside);
        }
    }
}

/// A mapping that the user changed is proposed for the next table with this head.
fn remember(app: &mut App) {
    let Some(importing) = &app.importing else { return };
    let now = Remembered { head: importing.sheet.head().to_vec(), mapping: importing.mapping.clone() };
    app.memory.mappings.retain(|known| known.head != now.head);
    app.memory.mappings.insert(0, now);
    app.memory.mappings.truncate(MOST);
}

fn stop(app: &mut App) {
    if let Some(going) = app.importing.as_mut().and_then(|importing| importing.going.take()) {
        going.stop.stop();
    }
}

/// Has the rows read by the mapping as it is now.
fn read(app: &mut App, outside: &mut Outside) {
    stop(app);
    let serial = app.tick();
    let Some(importing) = &mut app.importing else { return };
    (importing.serial, importing.read) = (serial, None);
    importing.rows.clear();
    importing.told.clear();
    if let Some(field) = importing.mapping.twice() {
        importing.told = vec![format!("Two columns hold {field}; leave one of them out.")];
        return;
    }
    let going = Going::default();
    importing.going = Some(going.clone());
    let rows = Rows { serial, sheet: Arc::clone(&importing.sheet), mapping: Mapping::clone(&importing.mapping), going };
    if let Some(document) = app.shown() {
        outside.worker.ask(job(app, document, Order::Rows(rows)));
    }
}

/// Takes what came of the rows.
pub(super) fn found(app: &mut App, serial: u64, read: Imported, same: Vec<Duplicate>) {
    let Some(importing) = app.importing.as_mut().filter(|importing| importing.serial == serial) else { return };
    (importing.read, importing.same, importing.going) = (Some(Arc::new(read)), same, None);
    redraw(importing);
}

/// Derives the rows as they are drawn.
fn redraw(importing: &mut Importing) {
    let read = importing.read.as_ref();
    importing.rows = read.map(|read| table_rows(read, &importing.same, importing.only_doubtful)).unwrap_or_default();
}

/// Has the rows laid into the catalogue; those that cannot be used are kept aside in a file beside the table.
fn take(app: &mut App, outside: &mut Outside) {
    let Some(importing) = &app.importing else { return };
    let (Some(read), None) = (importing.read.clone(), &app.taking) else { return };
    if importing.into.trim().is_empty() {
        return tell(app, vec!["Name the catalogue that takes the rows.".to_owned()]);
    }
    let taking = Taking::new(importing.serial, files::whole(Path::new(&importing.into)));
    let take = Take {
        source: importing.path.clone(),
        read,
        same: importing.same.clone(),
        choice: importing.choice,
        choices: importing.choices.clone(),
        disk: app.disk,
        taking: taking.clone(),
    };
    if let Some(document) = app.shown() {
        outside.worker.ask(job(app, document, Order::Take(take)));
        app.taking = Some(taking);
        tell(app, Vec::new());
    }
}

/// Puts in force what the worker has written, or says why nothing was. The table may be closed by now.
pub(super) fn taken(app: &mut App, outside: &mut Outside, taken: Result<Box<Taken>, String>) {
    let Some(Taking { serial, into, .. }) = app.taking.take() else { return };
    let name = files::name(&into);
    let told = match taken {
        Err(problem) => vec![problem],
        Ok(taken) => {
            let Taken { counts: [added, replaced, left], aside, before, reading } = *taken;
            sources::lay_reading(app, outside, into.clone(), reading);
            let source = app.importing.as_ref().map(|importing| importing.path.file_name().unwrap_or_default().to_string_lossy());
            let label = source.map_or_else(|| "Read a table".to_owned(), |source| format!("Read {source}"));
            deeds::noted_catalogue(app, label, into, before);
            let told = format!("{added} new, {replaced} replaced, {left} left out, in {name}.");
            let aside = aside.map(|(rows, aside)| format!("{rows} rows kept aside in {aside}."));
            std::iter::once(told).chain(aside).collect()
        }
    };
    let deed = app.deeds_past.last().map(|deed| deed.at);
    match app.importing.as_mut().filter(|importing| importing.serial == serial) {
        Some(importing) => (importing.told, importing.taken) = (told, deed),
        None => app.cover = Some(Cover::Message { title: "The table".to_owned(), lines: told }),
    }
}

fn tell(app: &mut App, told: Vec<String>) {
    if let Some(importing) = &mut app.importing {
        importing.told = told;
    }
}
