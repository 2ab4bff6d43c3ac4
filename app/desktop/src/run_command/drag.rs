//! Edits while a control is held: many edits, one step of undo, one comparison in the ledger.

use std::sync::Arc;

use super::{Outside, apply, can_be_read, changed};
use crate::{
    edit::Edit,
    state::{App, DocumentId},
};

/// Edits; what was dragged to before is overwritten as long as the control is held.
pub(super) fn drag(app: &mut App, outside: &mut Outside, id: DocumentId, edit: &Edit) {
    let catalogue = Arc::clone(&app.catalogue);
    let Some(document) = app.document_mut(id) else { return };
    let next = edit.applied(&document.build, &catalogue);
    if next == *document.build || !can_be_read(&next) {
        return;
    }
    let label = edit.label(&catalogue, &document.build);
    let goes_on = document.dragged && document.past.last().is_some_and(|step| step.label == label);
    if goes_on {
        document.build = Arc::new(next);
        let before = document.before.clone();
        changed(app, outside, id);
        if let Some(document) = app.document_mut(id) {
            document.before = before;
        }
    } else {
        apply(app, outside, id, edit);
    }
    if let Some(document) = app.document_mut(id) {
        document.dragged = true;
    }
}

/// The control was let go: what follows is a step of its own.
pub(super) fn drop(app: &mut App, id: DocumentId) {
    if let Some(document) = app.document_mut(id) {
        document.dragged = false;
    }
}

#[cfg(test)]
mod tests {
    use propwright_schema::{
        build_list::{BuildList, Conditions},
        quantity::{Metres, MetresPerSecond},
    };

    use super::*;
    use crate::{
        browse::Dialogs,
        command::{Action, Command},
        run_command::{open, run},
        state::Memory,
        worker::Worker,
    };

    fn altitude(metres: &str) -> Edit {
        Edit::Conditions(Box::new(Conditions { altitude_m: Metres::parse(metres).ok(), ..Conditions::default() }))
    }

    #[test]
    fn a_drag_is_one_step_of_undo() {
        let mut outside =
            Outside { worker: Worker::Inline(Vec::new()), dialogs: Dialogs::default(), wake: Arc::new(|| {}), dark: false };
        let mut app = App::new(Arc::default(), Arc::default(), Memory::default());
        let id = open(&mut app, &mut outside, BuildList::empty("Meadow"));
        for metres in ["100", "200", "300"] {
            run(&mut app, &mut outside, Command::Drag(id, altitude(metres)));
        }
        assert_eq!(app.document(id).map(|document| document.past.len()), Some(1));
        run(&mut app, &mut outside, Command::Drop(id));
        run(&mut app, &mut outside, Command::Drag(id, altitude("400")));
        let wind = Conditions {
            altitude_m: Metres::parse("400").ok(),
            wind_ms: MetresPerSecond::parse("3").ok(),
            ..Conditions::default()
        };
        run(&mut app, &mut outside, Command::Drag(id, Edit::Conditions(Box::new(wind))));
        assert_eq!(app.document(id).map(|document| document.past.len()), Some(3), "another control is another step");
        for left in [Metres::parse("400").ok(), Metres::parse("300").ok(), None] {
            run(&mut app, &mut outside, Command::Do(id, Action::Undo));
            assert_eq!(app.document(id).map(|document| document.build.conditions.altitude_m), Some(left));
        }
    }
}
