//! Reading a table into a catalogue of the user's own, and writing the catalogue as a table.

use std::{
    path::{Path, PathBuf},
    sync::Arc,
};

use propwright_schema::{
    catalogue::CatalogueFile,
    table::{self, Duplicate, Imported, Mapping, Same, guess, write_catalogue},
    version::CURRENT,
};

use super::{Outside, deeds, entering, job, listed};
use crate::{
    browse::Wish,
    files,
    state::{App, Cover, Going, Importing, Page, Remembered},
    stored,
    view::table_rows,
    worker::{Order, Rows},
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
    /// Closes it.
    Close,
    /// Writes all parts in force as a table.
    Write(PathBuf),
    /// Asks for a file.
    Browse,
}

/// Most heads that are remembered.
const MOST: usize = 12;

pub(super) fn run(app: &mut App, outside: &mut Outside, table: Table) {
    match table {
        Table::Read(path) => return begin(app, outside, &path),
        Table::Write(path) => return write(app, &path),
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

/// Lays the rows into the catalogue; those that cannot be used are kept aside in a file beside the table.
fn take(app: &mut App, outside: &mut Outside) {
    let Some(importing) = &app.importing else { return };
    let Some(read) = importing.read.clone() else { return };
    if importing.into.trim().is_empty() {
        return tell(app, vec!["Name the catalogue that takes the rows.".to_owned()]);
    }
    let path = files::whole(Path::new(&importing.into));
    let (same, source) = (importing.same.clone(), importing.path.clone());
    let kept = (!read.refused.is_empty()).then(|| listed::keep(app, &source, read.set_aside())).transpose();
    let aside = match kept {
        Ok(aside) => aside,
        Err(problem) => return tell(app, vec![problem]),
    };
    let Some(importing) = &app.importing else { return };
    let choices = importing.clone();
    let mut counts = [0; 3];
    let written = stored::change_catalogue(app.disk, &path, |file| {
        let merged = table::merge(file, &read.catalogue, &same, |one| choices.choice_of(&one.part));
        counts = [merged.added, merged.replaced, merged.left];
        *file = merged.catalogue;
        Ok(())
    });
    match written {
        Err(problem) => tell(app, vec![problem]),
        Ok(before) => {
            let label = format!("Read {}", source.file_name().unwrap_or_default().to_string_lossy());
            deeds::changed_catalogue(app, outside, label, path.clone(), before);
            let [added, replaced, left] = counts;
            let mut told = vec![format!("{added} new, {replaced} replaced, {left} left out, in {}.", files::name(&path))];
            told.extend(aside.map(|aside| format!("{} rows kept aside in {aside}.", read.refused.len())));
            tell(app, told);
            let taken = app.deeds_past.last().map(|deed| deed.at);
            if let Some(importing) = &mut app.importing {
                importing.taken = taken;
            }
        }
    }
}

fn tell(app: &mut App, told: Vec<String>) {
    if let Some(importing) = &mut app.importing {
        importing.told = told;
    }
}

/// Writes all that is in force as a table, under a name that is free.
fn write(app: &mut App, path: &Path) {
    let all = CatalogueFile {
        version: CURRENT,
        parts: app.catalogue.parts().cloned().collect(),
        kits: app.catalogue.kits().cloned().collect(),
    };
    let path = files::free(&files::whole(path));
    let written = write_catalogue(&all).map_err(|error| error.to_string()).and_then(|text| {
        let saved = app.disk.save(&path, &text, None);
        saved.map_err(|error| format!("{}: {error}; {}.", files::name(&path), error.hint()))
    });
    let (title, line) = match written {
        Ok(_) => ("Written", format!("{} parts and {} kits: {}", all.parts.len(), all.kits.len(), files::name(&path))),
        Err(problem) => ("Not written", problem),
    };
    app.cover = Some(Cover::Message { title: title.to_owned(), lines: vec![line] });
}
