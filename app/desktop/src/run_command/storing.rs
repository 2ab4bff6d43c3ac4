//! Files: opened, saved, asked for.

use std::{
    path::{Path, PathBuf},
    sync::Arc,
};

use propwright_schema::{build_list::BuildList, load::load_build};

use super::{Outside, close, disk, entering, importing, money, open, sources};
use crate::{
    browse::{Browsed, Wish},
    files,
    state::{App, Cover, DocumentId, Then, Unsaved},
    stored::{self, Earlier, Refused},
};

/// The cover that asks for a file, beginning in the folder of the last one.
pub(super) fn open_cover(app: &App) -> Cover {
    let folder = app.memory.recent.first().and_then(|path| path.parent()).map(|folder| files::name(&folder.join("")));
    Cover::Open { path: folder.unwrap_or_default(), problem: String::new() }
}

pub(super) fn read(app: &mut App, outside: &mut Outside, path: &Path) {
    let path = &files::whole(path);
    let known = app.documents.iter().find(|document| document.path.as_deref() == Some(path)).map(|document| document.id);
    if let Some(known) = known {
        app.current = known;
        app.cover = None;
        return;
    }
    if path.extension().is_some_and(|ending| ["csv", "tsv"].iter().any(|table| ending.eq_ignore_ascii_case(table))) {
        return importing::run(app, outside, importing::Table::Read(path.clone()));
    }
    match stored::read(path) {
        // A catalogue that was let go over the window is laid over the others.
        Err(_) if stored::read_catalogue(path).content.is_ok() => {
            app.cover = None;
            sources::lay_over(app, outside, path);
        }
        Err(_) if stored::read_policy(path).content.is_ok() => {
            app.cover = None;
            sources::judge_by(app, outside, path);
        }
        Err(_) if stored::read_stock(path).content.is_ok() => {
            app.cover = None;
            money::browsed(app, outside, Wish::Stock, path);
        }
        Err(_) if stored::read_rates(path).content.is_ok() => {
            app.cover = None;
            money::browsed(app, outside, Wish::Rates, path);
        }
        Err(problems) => refuse(app, path, problems),
        Ok(stored) => {
            drop_untouched(app);
            let id = open(app, outside, stored.build);
            if let Some(document) = app.document_mut(id) {
                document.path = Some(path.to_owned());
                document.text = Some(stored.text);
                document.stamp = Some(stored.stamp);
            }
            app.memory.used(path);
            app.cover = None;
        }
    }
}

/// Puts the user's catalogues and thresholds in force again, and opens what was not saved when the window ended without a
/// farewell; it stays unsaved.
pub fn restore(app: &mut App, outside: &mut Outside) {
    sources::restore(app, outside);
    money::restore(app, outside);
    entering::restore(app);
    for Unsaved { path, text } in std::mem::take(&mut app.memory.unsaved) {
        let Ok(build) = load_build("what was not saved", &text) else { continue };
        let known = path.as_deref().and_then(|path| stored::read(path).ok());
        let id = open(app, outside, build);
        let Some(document) = app.document_mut(id) else { continue };
        document.path = path;
        document.saved = Arc::new(known.as_ref().map_or_else(|| BuildList::empty(""), |known| known.build.clone()));
        document.stamp = known.as_ref().map(|known| known.stamp);
        document.text = known.map(|known| known.text);
    }
}

/// The problem stands where the path was typed; long lists get a cover of their own.
fn refuse(app: &mut App, path: &Path, problems: Vec<String>) {
    match (&mut app.cover, problems.as_slice()) {
        (Some(Cover::Open { problem, .. }), [only]) => problem.clone_from(only),
        _ => app.cover = Some(Cover::Message { title: format!("{} was not opened", files::name(path)), lines: problems }),
    }
}

/// An empty build that nobody touched gives way to the first file.
pub(super) fn drop_untouched(app: &mut App) {
    app.documents.retain(|document| document.path.is_some() || !document.build.parts.is_empty() || document.is_edited());
}

pub(super) fn save(app: &mut App, id: DocumentId, then_close: bool) {
    match app.document(id).and_then(|document| document.path.clone()) {
        Some(path) => write(app, id, &path, then_close, false),
        None => ask_name(app, id, then_close),
    }
}

/// Asks for a file's name; the build's name in the folder used last is proposed.
pub(super) fn ask_name(app: &mut App, id: DocumentId, then_close: bool) {
    let Some(document) = app.document(id) else { return };
    let proposed = || {
        let folder = app.memory.recent.first().and_then(|path| path.parent()).map(Path::to_owned).unwrap_or_default();
        folder.join(file_name(&document.build.name))
    };
    let path = document.path.clone().unwrap_or_else(proposed);
    let cover = Cover::SaveAs { document: id, path: files::name(&path), problem: String::new(), then_close, replace: false };
    app.cover = Some(cover);
}

/// A build's name as a file's: letters and figures, the rest dashes.
fn file_name(name: &str) -> String {
    let plain: String = name.to_lowercase().chars().map(|letter| if letter.is_alphanumeric() { letter } else { '-' }).collect();
    let words: Vec<&str> = plain.split('-').filter(|word| !word.is_empty()).collect();
    format!("{}.ron", if words.is_empty() { "build".to_owned() } else { words.join("-") })
}

/// Writes a document to a file. Another file than its own is replaced only when that was said.
pub(super) fn write(app: &mut App, id: DocumentId, path: &Path, then_close: bool, replace: bool) {
    let (on, path) = (app.disk, &files::whole(path));
    let again = |problem: String, replace: bool| {
        Some(Cover::SaveAs { document: id, path: files::name(path), problem, then_close, replace })
    };
    let other = app.documents.iter().find(|other| other.id != id && other.path.as_deref() == Some(path));
    if let Some(other) = other {
        let problem = format!("This file is open as “{}”. Close that build, or save under another name.", other.build.name);
        app.cover = again(problem, false);
        return;
    }
    let Some(document) = app.document_mut(id) else { return };
    let own = document.path.as_deref() == Some(path);
    if !own && !replace && files::is_there(path) {
        app.cover =
            again("There is a file of this name. Replace it? Its present state stays beside it as .bak.".to_owned(), true);
        return;
    }
    let stamp = document.stamp.filter(|_| own);
    let earlier = Earlier { text: document.text.as_deref(), build: &document.saved, stamp: stamp.as_ref() };
    match stored::write(on, path, &document.build, earlier) {
        Ok((text, stamp)) => {
            document.text = Some(text);
            document.saved = Arc::clone(&document.build);
            document.path = Some(path.to_owned());
            document.stamp = Some(stamp);
            app.memory.used(path);
            app.cover = None;
            if then_close {
                close(app, id);
            }
        }
        Err(Refused::Changed) => disk::ask(app, id, Then::Save { then_close }),
        Err(Refused::Said(problem)) => app.cover = again(problem, replace),
    }
}

/// Opens the system's dialog for what the cover asks; `wish` tells apart where it asks for several.
pub(super) fn browse(app: &App, outside: &Outside, wish: Wish) {
    let (wish, path) = match &app.cover {
        Some(Cover::Open { path, .. }) => (Wish::Open, path),
        Some(Cover::SaveAs { path, .. }) => (Wish::Save, path),
        Some(Cover::Sources { catalogue, policy, .. }) if wish == Wish::Policy => {
            (wish, if policy.is_empty() { catalogue } else { policy })
        }
        Some(Cover::Sources { catalogue, .. }) => (Wish::Catalogue, catalogue),
        _ => return,
    };
    let wake = Arc::clone(&outside.wake);
    outside.dialogs.open(wish, &PathBuf::from(path), move || wake());
}

/// Reads or writes the file that was found, if its cover still asks.
pub(super) fn browsed(app: &mut App, outside: &mut Outside, browsed: Browsed) {
    let Some(found) = browsed.path else { return };
    match (&app.cover, browsed.wish) {
        (Some(Cover::Open { .. }), Wish::Open) => read(app, outside, &found),
        (Some(Cover::SaveAs { document, then_close, .. }), Wish::Save) => {
            // The system's dialog asks by itself before it names a file that is there.
            write(app, *document, &found, *then_close, true);
        }
        (Some(Cover::Sources { .. }), Wish::Catalogue) => sources::lay_over(app, outside, &found),
        (Some(Cover::Sources { .. }), Wish::Policy) => sources::judge_by(app, outside, &found),
        (_, Wish::Table) => importing::run(app, outside, importing::Table::Read(found)),
        (_, wish) => money::browsed(app, outside, wish, &found),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{browse::Dialogs, edit::Edit, state::Memory, worker::Worker};

    fn outside() -> Outside {
        Outside { worker: Worker::Inline(Vec::new()), dialogs: Dialogs::default(), wake: Arc::new(|| {}), dark: false }
    }

    #[test]
    fn what_was_not_saved_comes_back_unsaved() {
        let mut app = App::new(Arc::default(), Arc::default(), Memory::default());
        let id = open(&mut app, &mut outside(), BuildList::empty("Meadow"));
        super::super::apply(&mut app, &mut outside(), id, &Edit::Rename { name: "Ridge".to_owned() });
        let memory = Memory { unsaved: stored::unsaved(&app.documents), ..Memory::default() };
        assert_eq!(memory.unsaved.len(), 1);

        let mut again = App::new(Arc::default(), Arc::default(), memory);
        restore(&mut again, &mut outside());
        assert_eq!(again.documents[0].build.name, "Ridge");
        assert!(again.documents[0].is_edited() && again.memory.unsaved.is_empty());
    }

    #[test]
    fn a_file_is_called_as_the_build() {
        assert_eq!(file_name("Meadow, five-inch / 2"), "meadow-five-inch-2.ron");
        assert_eq!(file_name("../.."), "build.ron");
        assert_eq!(file_name("Höhe 7"), "höhe-7.ron");
    }
}
