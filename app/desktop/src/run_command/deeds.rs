//! Deeds that concern files beside the build lists, a catalogue or the shelf: taken back and done again in the same order as edits.

use std::{path::PathBuf, sync::Arc};

use propwright_schema::{catalogue::CatalogueFile, stock::Stock};

use super::{Outside, money, sources};
use crate::{
    files,
    state::{App, Cover, Own},
    stored,
};

/// Why no file of the user's own is changed for the moment.
pub(super) const BUSY: &str = "Rows of a table are being written into a catalogue; try again when that is done.";

/// What a deed changed, as it was before.
#[derive(Debug, Clone)]
pub enum Was {
    /// A catalogue file.
    Catalogue {
        /// The file.
        path: PathBuf,
        /// What it held; nothing where it was not there.
        before: Box<CatalogueFile>,
        /// What it holds since: a file that somebody else has changed meanwhile is left alone.
        after: Arc<CatalogueFile>,
    },
    /// The shelf; absent where there was none.
    Shelf(Option<Own<Stock>>),
}

/// A deed that can be taken back.
#[derive(Debug, Clone)]
pub struct Deed {
    /// What was done, as the menu says it.
    pub label: String,
    /// Its place in the order of all edits and deeds.
    pub at: u64,
    /// What it changed.
    pub was: Was,
}

/// Notes a deed that has just been done.
pub(super) fn did(app: &mut App, label: String, was: Was) {
    let at = app.tick();
    app.deeds_past.push(Deed { label, at, was });
    app.deeds_future.clear();
}

/// Notes that a catalogue file was changed, and puts it in force.
pub(super) fn changed_catalogue(app: &mut App, outside: &mut Outside, label: String, path: PathBuf, before: CatalogueFile) {
    sources::lay_over(app, outside, &path);
    noted_catalogue(app, label, path, before);
}

/// Notes that a catalogue file was changed that is in force already.
pub(super) fn noted_catalogue(app: &mut App, label: String, path: PathBuf, before: CatalogueFile) {
    let after = app.sources.catalogue_mut(&path).and_then(|kept| kept.content.clone());
    if let Some(after) = after {
        did(app, label, Was::Catalogue { path, before: Box::new(before), after });
    }
}

/// Takes the last deed back, or does the next one again.
pub(super) fn step(app: &mut App, outside: &mut Outside, back: bool) {
    if app.taking.is_some() {
        let lines = vec![BUSY.to_owned()];
        app.cover = Some(Cover::Message { title: "It stays as it is".to_owned(), lines });
        return;
    }
    let from = if back { &mut app.deeds_past } else { &mut app.deeds_future };
    let Some(Deed { label, at, was }) = from.pop() else { return };
    let now = match was.clone() {
        Was::Catalogue { path, before, after } => {
            let then = Arc::new((*before).clone());
            let written = stored::change_catalogue(app.disk, &path, |file| {
                if *file != *after {
                    return Err(format!("{} was changed by somebody else since.", files::name(&path)));
                }
                *file = *before;
                Ok(())
            });
            written.map(|now| {
                sources::lay_over(app, outside, &path);
                Was::Catalogue { path, before: Box::new(now), after: then }
            })
        }
        Was::Shelf(before) => money::put_back(app, outside, before.as_ref()).map(Was::Shelf),
    };
    let (from, to) =
        if back { (&mut app.deeds_past, &mut app.deeds_future) } else { (&mut app.deeds_future, &mut app.deeds_past) };
    match now {
        Ok(was) => to.push(Deed { label, at, was }),
        Err(problem) => {
            from.push(Deed { label: label.clone(), at, was });
            app.cover = Some(Cover::Message { title: format!("{label}: it stays as it is"), lines: vec![problem] });
        }
    }
}
