//! What is set apart, and the choice of a part.

use std::sync::Arc;

use crate::{
    edit::Edit,
    state::{App, Document, DocumentId, Page, Picker, Place},
    view,
};

pub(super) fn select(app: &mut App, id: DocumentId, place: Option<Place>) {
    if let Some(document) = app.document_mut(id) {
        document.chosen = place;
    }
}

/// Begins the choice for a place, or ends it.
pub(super) fn pick(app: &mut App, id: DocumentId, place: Option<Place>) {
    let Some(document) = app.document_mut(id) else { return };
    // A line of what was on trial may not be there without it.
    let place = place.map(|place| listed(document, place));
    if document.tried.take().is_some() {
        document.bench = view::bench(document);
    }
    document.picker = place.map(Picker::new);
    if place.is_some() {
        document.chosen = place;
        app.page = Page::Parts;
        app.current = id;
    }
    fill(app, id);
}

fn listed(document: &Document, place: Place) -> Place {
    let holds = |line: usize| document.build.parts.get(line).is_some_and(|fitted| fitted.slot == place.slot);
    if place.line.is_none_or(holds) { place } else { document.first_place(place.slot) }
}

pub(super) fn filter(app: &mut App, id: DocumentId, words: String) {
    change(app, id, |picker| picker.filter = words);
}

pub(super) fn only_fitting(app: &mut App, id: DocumentId, only: bool) {
    change(app, id, |picker| picker.only_fitting = only);
}

fn change(app: &mut App, id: DocumentId, how: impl FnOnce(&mut Picker)) {
    if let Some(picker) = app.document_mut(id).and_then(|document| document.picker.as_mut()) {
        how(picker);
        fill(app, id);
    }
}

pub(super) fn row(app: &mut App, id: DocumentId, row: usize) {
    if let Some(picker) = app.document_mut(id).and_then(|document| document.picker.as_mut()) {
        picker.row = row;
    }
}

/// Lists the parts anew; the row of the fitted part is set apart, else the first.
pub(super) fn fill(app: &mut App, id: DocumentId) {
    let catalogue = Arc::clone(&app.catalogue);
    let Some(document) = app.document_mut(id) else { return };
    let Some(picker) = &document.picker else { return };
    let parts = view::choices(&catalogue, document, picker);
    let fitted = picker.place.line.and_then(|line| document.build.parts.get(line)).map(|fitted| fitted.part.clone());
    let row = parts.iter().position(|part| Some(&part.id) == fitted.as_ref()).unwrap_or(0);
    if let Some(picker) = &mut document.picker {
        picker.row = row;
        picker.parts = parts;
    }
}

/// Keeps what is set apart on its line after an edit moved the lines.
pub(super) fn follow(document: &mut Document, edit: &Edit) {
    match edit {
        Edit::Choose { place: Place { slot, line: None }, .. } => {
            let place = Place { slot: *slot, line: document.build.parts.len().checked_sub(1) };
            document.chosen = Some(place);
            if let Some(picker) = document.picker.as_mut().filter(|picker| picker.place.slot == *slot) {
                picker.place = place;
            }
        }
        Edit::Remove { .. } | Edit::Mend { .. } => keep_within(document),
        Edit::Duplicate { line } => move_to(document, *line, |place| Place { line: Some(line + 1), ..place }),
        Edit::Swap { line, with } => move_to(document, *line, |place| Place { line: Some(*with), ..place }),
        Edit::Relist { line, slot } => move_to(document, *line, |place| Place { slot: *slot, ..place }),
        _ => {}
    }
}

/// What was set apart or chosen on a line goes with it.
fn move_to(document: &mut Document, line: usize, to: impl Fn(Place) -> Place) {
    let moved = |place: Place| if place.line == Some(line) { to(place) } else { place };
    document.chosen = document.chosen.map(moved);
    if let Some(picker) = &mut document.picker {
        picker.place = moved(picker.place);
    }
}

/// Drops lines that are there no more, or that hold another slot now.
pub(super) fn keep_within(document: &mut Document) {
    let build = Arc::clone(&document.build);
    let holds =
        |place: Place| place.line.is_none_or(|line| build.parts.get(line).is_some_and(|fitted| fitted.slot == place.slot));
    let kept = |place: Place| {
        if holds(place) { place } else { Place { slot: place.slot, line: build.fitted(place.slot).map(|(line, _)| line).next() } }
    };
    document.chosen = document.chosen.map(kept);
    if let Some(picker) = &mut document.picker {
        picker.place = kept(picker.place);
    }
}
