//! Catalogues and thresholds of the user's own: laid over what the program carries, left out, read again when they change.

use std::path::{Path, PathBuf};

use propwright_schema::catalogue::CatalogueFile;

use super::{Outside, changed, choice};
use crate::{
    demo,
    files::{self, Disk, Since, Stamp},
    state::{App, Cover, DocumentId, Kept, Reading},
    stored,
    view::Words,
};

/// Reads what was in force when the window was last closed. Files with problems stay named, without effect.
pub(super) fn restore(app: &mut App, outside: &mut Outside) {
    let catalogues = std::mem::take(&mut app.memory.catalogues);
    app.sources.catalogues = catalogues.into_iter().map(|path| Kept::new(path.clone(), stored::read_catalogue(&path))).collect();
    app.sources.policy = app.memory.policy.take().map(|path| Kept::new(path.clone(), stored::read_policy(&path)));
    let problems = app.sources.catalogues.iter().flat_map(|kept| &kept.problems);
    let problems: Vec<String> = problems.chain(app.sources.policy.iter().flat_map(|kept| &kept.problems)).cloned().collect();
    in_force(app, outside);
    tell(app, problems);
}

/// Lays a catalogue over the others, or reads it again.
pub(super) fn lay_over(app: &mut App, outside: &mut Outside, path: &Path) {
    let path = files::whole(path);
    let reading = stored::read_catalogue(&path);
    lay_reading(app, outside, path, reading);
}

/// The same with what came of reading it.
pub(super) fn lay_reading(app: &mut App, outside: &mut Outside, path: PathBuf, reading: Reading<CatalogueFile>) {
    let problems = reading.content.as_ref().err().cloned().unwrap_or_default();
    match app.sources.catalogue_mut(&path) {
        Some(kept) => kept.take(reading),
        // What cannot be used is not taken up; its problems are told.
        None if !problems.is_empty() => return tell(app, problems),
        None => app.sources.catalogues.push(Kept::new(path, reading)),
    }
    in_force(app, outside);
    tell(app, problems);
}

/// Takes a file out of force.
pub(super) fn leave_out(app: &mut App, outside: &mut Outside, path: &Path) {
    app.sources.catalogues.retain(|kept| kept.path != path);
    if app.sources.policy.as_ref().is_some_and(|kept| kept.path == path) {
        app.sources.policy = None;
    }
    in_force(app, outside);
    tell(app, Vec::new());
}

/// Lays a catalogue that is in force over all others.
pub(super) fn on_top(app: &mut App, outside: &mut Outside, path: &Path) {
    if let Some(at) = app.sources.catalogues.iter().position(|kept| kept.path == path) {
        let kept = app.sources.catalogues.remove(at);
        app.sources.catalogues.push(kept);
        in_force(app, outside);
    }
}

/// Judges by the thresholds of a file.
pub(super) fn judge_by(app: &mut App, outside: &mut Outside, path: &Path) {
    let path = files::whole(path);
    let reading = stored::read_policy(&path);
    let problems = reading.content.as_ref().err().cloned().unwrap_or_default();
    match &mut app.sources.policy {
        Some(kept) if kept.path == path => kept.take(reading),
        _ if !problems.is_empty() => return tell(app, problems),
        policy => *policy = Some(Kept::new(path, reading)),
    }
    in_force(app, outside);
    tell(app, problems);
}

/// Reads again what was changed on the disk; what has problems there stays as it was.
pub(super) fn look(app: &mut App, outside: &mut Outside) {
    let mut problems = Vec::new();
    let mut any = false;
    for kept in app.sources.catalogues.iter_mut().filter(|kept| has_changed(&kept.path, kept.stamp.as_ref())) {
        kept.take(stored::read_catalogue(&kept.path));
        problems.extend(kept.problems.iter().cloned());
        any = true;
    }
    if let Some(kept) = app.sources.policy.as_mut().filter(|kept| has_changed(&kept.path, kept.stamp.as_ref())) {
        kept.take(stored::read_policy(&kept.path));
        problems.extend(kept.problems.iter().cloned());
        any = true;
    }
    if any {
        in_force(app, outside);
        tell(app, problems);
    }
}

/// A file that is gone leaves in force what it held; one that could not be read is tried again once it is there.
fn has_changed(path: &Path, stamp: Option<&Stamp>) -> bool {
    match stamp {
        Some(stamp) => matches!(Disk::Real.since(path, stamp), Ok(Since::Changed)),
        None => files::is_there(path),
    }
}

/// Puts the files in force in all documents, and remembers them.
fn in_force(app: &mut App, outside: &mut Outside) {
    app.memory.catalogues = app.sources.catalogues.iter().map(|kept| kept.path.clone()).collect();
    app.memory.policy = app.sources.policy.as_ref().map(|kept| kept.path.clone());
    let (catalogue, policy) = (app.sources.laid(), app.sources.thresholds());
    if *catalogue == *app.catalogue && *policy == *app.policy {
        return;
    }
    app.words = Words::of(&catalogue);
    app.beginnings = demo::beginnings(&catalogue);
    app.catalogue = catalogue;
    app.policy = policy;
    let all: Vec<DocumentId> = app.documents.iter().map(|document| document.id).collect();
    for id in all {
        changed(app, outside, id);
        choice::fill(app, id);
    }
}

/// Problems stand where files are chosen; elsewhere in a cover of their own, unless another question is open.
fn tell(app: &mut App, problems: Vec<String>) {
    match &mut app.cover {
        Some(Cover::Sources { catalogue, policy, problems: shown }) => {
            if problems.is_empty() {
                catalogue.clear();
                policy.clear();
            }
            *shown = problems;
        }
        None if !problems.is_empty() => {
            let title = "A catalogue or policy file has problems; what was in force before stays".to_owned();
            app.cover = Some(Cover::Message { title, lines: problems });
        }
        Some(_) | None => {}
    }
}
