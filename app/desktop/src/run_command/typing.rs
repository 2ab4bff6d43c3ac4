//! What is typed: kept as text until its field is left, then an edit; what cannot be read stays where it was typed.

use propwright_schema::build_list::BuildList;

use super::{Outside, apply};
use crate::{
    edit::Edit,
    input::Input,
    state::{App, Document, DocumentId},
};

pub(super) fn take(app: &mut App, id: DocumentId, input: Input, text: String) {
    if let Some(document) = app.document_mut(id) {
        document.drafts.insert(input, text);
    }
}

pub(super) fn give_up(app: &mut App, id: DocumentId, input: &Input) {
    if let Some(document) = app.document_mut(id) {
        document.drafts.remove(input);
    }
}

/// Makes an edit of what was typed, if it can be read.
pub(super) fn settle(app: &mut App, outside: &mut Outside, id: DocumentId, input: &Input) {
    let Some(document) = app.document_mut(id) else { return };
    let Some(text) = document.drafts.get(input) else { return };
    if *text == input.shown(&document.build) {
        document.drafts.remove(input);
        return;
    }
    if let Ok(edit) = input.read(text, &document.build) {
        document.drafts.remove(input);
        apply(app, outside, id, &edit);
    }
}

/// The same for every field.
pub(super) fn settle_all(app: &mut App, outside: &mut Outside, id: DocumentId) {
    let Some(document) = app.document(id) else { return };
    let inputs: Vec<Input> = document.drafts.keys().cloned().collect();
    for input in inputs {
        settle(app, outside, id, &input);
    }
}

/// Texts of a line go with it when an edit moves the lines.
pub(super) fn follow(document: &mut Document, edit: &Edit) {
    let to = |line: usize| match edit {
        Edit::Remove { line: gone } if line == *gone => None,
        Edit::Remove { line: gone } if line > *gone => Some(line - 1),
        Edit::Duplicate { line: twice } if line > *twice => Some(line + 1),
        Edit::Swap { line: one, with } if line == *one => Some(*with),
        Edit::Swap { line: one, with } if line == *with => Some(*one),
        _ => Some(line),
    };
    let moved = |(input, text): (Input, String)| match input.line() {
        Some(line) => to(line).map(|line| (input.at(line), text)),
        None => Some((input, text)),
    };
    document.drafts = std::mem::take(&mut document.drafts).into_iter().filter_map(moved).collect();
}

/// After undo or redo texts stay with a line only while it lists the same part as in `before`.
pub(super) fn keep_within(document: &mut Document, before: &BuildList) {
    let part = |build: &BuildList, line: usize| build.parts.get(line).map(|fitted| (fitted.slot, fitted.part.clone()));
    let now = &document.build;
    document.drafts.retain(|input, _| input.line().is_none_or(|line| part(before, line) == part(now, line)));
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use propwright_schema::{build_list::Fitted, slot::Slot};

    use super::*;
    use crate::{
        browse::Dialogs,
        command::{Action, Command},
        run_command::{open, run},
        state::Memory,
        worker::Worker,
    };

    fn outside() -> Outside {
        Outside { worker: Worker::Inline(Vec::new()), dialogs: Dialogs::default(), wake: Arc::new(|| {}), dark: false }
    }

    fn app() -> (App, DocumentId) {
        let mut app = App::new(Arc::default(), Arc::default(), Memory::default());
        let mut build = BuildList::empty("Meadow");
        build.parts = ["a", "b"].map(|part| Fitted::new(Slot::Battery, part)).to_vec();
        let id = open(&mut app, &mut outside(), build);
        (app, id)
    }

    fn typed(app: &mut App, id: DocumentId, input: &Input, text: &str) {
        run(app, &mut outside(), Command::Type(id, input.clone(), text.to_owned()));
        run(app, &mut outside(), Command::Leave(id, input.clone()));
    }

    #[test]
    fn what_cannot_be_read_stays_and_changes_nothing() {
        let (mut app, id) = app();
        let payload = Input::Purpose("payload_g");
        typed(&mut app, id, &payload, "much");
        assert_eq!(app.documents[0].drafts.get(&payload).map(String::as_str), Some("much"));
        assert!(!app.documents[0].is_edited());
        typed(&mut app, id, &payload, "2 kg");
        assert!(app.documents[0].drafts.is_empty());
        assert_eq!(payload.shown(&app.documents[0].build), "2000");
    }

    #[test]
    fn what_stands_ready_counts_before_undo_and_is_one_step() {
        let (mut app, id) = app();
        let name = Input::Name;
        run(&mut app, &mut outside(), Command::Type(id, name.clone(), "Ridge".to_owned()));
        assert_eq!(app.documents[0].build.name, "Meadow");
        run(&mut app, &mut outside(), Command::Do(id, Action::Undo));
        assert_eq!((app.documents[0].build.name.as_str(), app.documents[0].drafts.len()), ("Meadow", 0));
        run(&mut app, &mut outside(), Command::Do(id, Action::Redo));
        assert_eq!(app.documents[0].build.name, "Ridge");
    }

    #[test]
    fn texts_go_with_their_lines() {
        let (mut app, id) = app();
        typed(&mut app, id, &Input::Count(1), "none");
        run(&mut app, &mut outside(), Command::Edit(id, Edit::Duplicate { line: 0 }));
        assert!(app.documents[0].drafts.contains_key(&Input::Count(2)));
        run(&mut app, &mut outside(), Command::Edit(id, Edit::Swap { line: 2, with: 0 }));
        assert!(app.documents[0].drafts.contains_key(&Input::Count(0)));
        run(&mut app, &mut outside(), Command::Edit(id, Edit::Remove { line: 0 }));
        assert!(app.documents[0].drafts.is_empty());
    }

    #[test]
    fn an_edit_that_could_not_be_read_again_is_not_made() {
        let (mut app, id) = app();
        run(&mut app, &mut outside(), Command::Edit(id, Edit::Count { line: 0, count: 201 }));
        assert_eq!(app.documents[0].build.parts[0].count, 1);
        assert!(matches!(&app.cover, Some(crate::state::Cover::Message { lines, .. }) if lines.len() == 1));
    }
}
