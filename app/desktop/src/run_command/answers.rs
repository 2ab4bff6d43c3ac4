//! What the worker found is put where it belongs; what a later change has overtaken is dropped.

use std::sync::Arc;

use super::{Outside, curves, entering, fitting, importing, paper};
use crate::{
    state::{App, Judged, Mending},
    view,
    worker::{Answer, Outcome},
};

pub(super) fn take(app: &mut App, outside: &mut Outside, answer: Answer) {
    let answer = match answer {
        Answer { document, outcome: Outcome::Curves(report, sweep), .. } => return curves::take(app, document, &report, *sweep),
        Answer { outcome: Outcome::Rows(serial, read), .. } => return importing::found(app, serial, read.0, read.1),
        Answer { outcome: Outcome::Taken(taken), .. } => return importing::taken(app, outside, taken),
        Answer { outcome: Outcome::Used(key, uses), .. } => return entering::found(app, &key, uses),
        other => other,
    };
    let Some(document) = app.document_mut(answer.document) else { return };
    if answer.revision != document.revision {
        return;
    }
    match answer.outcome {
        Outcome::Report(report) => {
            document.judged = Judged::Done(Arc::new(*report));
            document.judged_revision = Some(answer.revision);
        }
        Outcome::Curves(..)
        | Outcome::Used(..)
        | Outcome::Rows(..)
        | Outcome::Taken(_)
        | Outcome::Nothing
        | Outcome::Repairs(None) => return,
        Outcome::Costing(section, key, worked) => {
            if let Some(costed) = document.costing.get_mut(&section).filter(|costed| costed.key == key) {
                costed.shown = Some(view::costing(&worked));
            }
            return;
        }
        Outcome::Repairs(Some(found)) => document.mending = Mending::Done(Arc::from(found)),
        Outcome::Failed(reason) => document.judged = Judged::Failed(reason),
        Outcome::Sheet(kind, format, sheet) => {
            if (document.paper.kind, document.paper.format) == (kind, format) {
                document.paper.sheet = Some(Arc::from(sheet));
            }
            return;
        }
        Outcome::Written(written) => {
            paper::written(document, written);
            return;
        }
        Outcome::GraphWritten(written) => {
            paper::graph_written(document, written);
            return;
        }
        Outcome::Fits(place, found, left) => return fitting::found(document, place, found, left),
        Outcome::StandIns(place, found, left) => return fitting::stand_ins(document, place, found, left),
        Outcome::Tried(report) => fitting::tried(document, report),
    }
    document.bench = view::bench(document);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        browse::Dialogs,
        state::{Document, DocumentId, Memory},
        worker::{Answer, Worker},
    };
    use propwright_schema::build_list::BuildList;

    fn app() -> App {
        let mut app = App::new(Arc::default(), Arc::default(), Memory::default());
        let document = Document::new(DocumentId(7), Arc::new(BuildList::empty("trial")), &app.catalogue);
        app.documents.push(document);
        app
    }

    fn outside() -> Outside {
        Outside { worker: Worker::Inline(Vec::new()), dialogs: Dialogs::default(), wake: Arc::new(|| {}), dark: false }
    }

    fn failed(revision: u64) -> Answer {
        Answer { document: DocumentId(7), revision, outcome: Outcome::Failed("a slip".to_owned()) }
    }

    #[test]
    fn a_failure_is_shown_instead_of_a_report() {
        let mut app = app();
        take(&mut app, &mut outside(), failed(1));
        assert_eq!(app.documents[0].bench.failure.as_deref(), Some("a slip"));
    }

    #[test]
    fn an_answer_to_an_earlier_state_is_dropped() {
        let mut app = app();
        app.documents[0].revision = 2;
        take(&mut app, &mut outside(), failed(1));
        assert!(matches!(app.documents[0].judged, Judged::Waiting));
        take(&mut app, &mut outside(), Answer { document: DocumentId(8), ..failed(2) });
        assert!(matches!(app.documents[0].judged, Judged::Waiting));
    }
}
