//! Files of documents that somebody else changed: noticed, asked about, never overwritten without an answer.

use std::sync::Arc;

use propwright_schema::{build_list::BuildList, slot::Slot};

use super::{Outside, changed, choice, storing};
use crate::{
    files::{self, Disk, Since},
    state::{App, Cover, DocumentId, Step, Then, Whose},
    stored,
};

/// Looks at the files of all documents; asks about the first that changed, unless another question is open.
pub(super) fn look(app: &mut App) {
    if app.cover.is_some() {
        return;
    }
    let since = |app: &App, id: DocumentId| {
        let document = app.document(id)?;
        Disk::Real.since(document.path.as_deref()?, document.stamp.as_ref()?).ok()
    };
    let all: Vec<DocumentId> = app.documents.iter().map(|document| document.id).collect();
    for id in all {
        match since(app, id) {
            Some(Since::Changed) => return ask(app, id, Then::Rest),
            Some(Since::Gone) => return gone(app, id),
            Some(Since::Same) | None => {}
        }
    }
}

/// Asks whose state shall count.
pub(super) fn ask(app: &mut App, id: DocumentId, then: Then) {
    let Some(document) = app.document(id) else { return };
    let Some(path) = &document.path else { return };
    let differs = match stored::read(path) {
        Ok(theirs) => differences(&document.build, &theirs.build),
        Err(problems) => problems.first().map_or_else(String::new, |first| format!("It cannot be read any more: {first}")),
    };
    app.current = id;
    app.cover = Some(Cover::Changed { document: id, differs, then });
}

/// A file that is gone leaves its document unsaved.
fn gone(app: &mut App, id: DocumentId) {
    let Some(document) = app.document_mut(id) else { return };
    document.saved = Arc::new(BuildList::empty(""));
    document.text = None;
    document.stamp = None;
    let name = document.path.as_deref().map(files::name).unwrap_or_default();
    let lines = vec!["The build is kept here and counts as not saved. Saving writes the file again.".to_owned()];
    app.cover = Some(Cover::Message { title: format!("{name} is gone from the disk"), lines });
}

/// Settles whose state counts, and goes on with what noticed the change.
pub(super) fn settle(app: &mut App, outside: &mut Outside, id: DocumentId, whose: Whose, then: Then) {
    app.cover = None;
    match whose {
        Whose::Mine => keep(app, id),
        Whose::Theirs => take(app, outside, id),
    }
    match then {
        Then::Save { then_close } if app.cover.is_none() && whose == Whose::Mine => storing::save(app, id, then_close),
        Then::Save { then_close: true } if app.cover.is_none() => super::close(app, id),
        Then::Save { .. } | Then::Rest => look(app),
    }
}

/// The document stays; what the file holds by now is what the next save writes over.
fn keep(app: &mut App, id: DocumentId) {
    let Some(document) = app.document_mut(id) else { return };
    let Some(path) = document.path.clone() else { return };
    if let Ok(theirs) = stored::read(&path) {
        document.saved = Arc::new(theirs.build);
        document.text = Some(theirs.text);
        document.stamp = Some(theirs.stamp);
    } else {
        // Nothing of it can be kept; the save leaves it as the file's backup.
        document.saved = Arc::new(BuildList::empty(""));
        document.text = None;
        document.stamp = None;
    }
}

/// The document becomes what the file holds, as one step of undo.
fn take(app: &mut App, outside: &mut Outside, id: DocumentId) {
    let at = app.tick();
    let Some(document) = app.document_mut(id) else { return };
    let Some(path) = document.path.clone() else { return };
    match stored::read(&path) {
        Ok(theirs) => {
            let build = Arc::new(theirs.build);
            document.saved = Arc::clone(&build);
            document.text = Some(theirs.text);
            document.stamp = Some(theirs.stamp);
            let mine = std::mem::replace(&mut document.build, build);
            document.past.push(Step { label: "take what the file holds".to_owned(), at, build: mine });
            document.future.clear();
            document.dragged = false;
            choice::keep_within(document);
            changed(app, outside, id);
        }
        Err(lines) => {
            let title = format!("{} cannot be read; the build stays as it is here", files::name(&path));
            app.cover = Some(Cover::Message { title, lines });
        }
    }
}

/// In which slots, and whether elsewhere, two lists differ.
fn differences(mine: &BuildList, theirs: &BuildList) -> String {
    let lists = |build: &BuildList, slot: Slot| build.fitted(slot).map(|(_, fitted)| fitted.clone()).collect::<Vec<_>>();
    let differ = Slot::ALL.iter().filter(|slot| lists(mine, **slot) != lists(theirs, **slot));
    let mut words: Vec<String> = differ.map(|slot| slot.title().to_owned()).collect();
    if (BuildList { parts: Vec::new(), ..mine.clone() }) != (BuildList { parts: Vec::new(), ..theirs.clone() }) {
        words.push("what stands beside the parts".to_owned());
    }
    if words.is_empty() {
        "It lists the same as the build here.".to_owned()
    } else {
        format!("It differs in: {}.", words.join(", "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use propwright_schema::build_list::Fitted;

    #[test]
    fn a_difference_is_named_by_its_slot() {
        let mine = BuildList { parts: vec![Fitted::new(Slot::Battery, "a")], ..BuildList::empty("Meadow") };
        assert_eq!(differences(&mine, &mine), "It lists the same as the build here.");
        let theirs = BuildList { parts: vec![Fitted::new(Slot::Battery, "b")], ..BuildList::empty("Ridge") };
        assert_eq!(
            differences(&mine, &theirs),
            format!("It differs in: {}, what stands beside the parts.", Slot::Battery.title())
        );
    }
}
