//! The curves of a flight: asked for while they can be seen, taken even when the list has moved on a little.

use std::sync::Arc;

use propwright_engine::{Report, sweep::Sweep};

use super::{Outside, job};
use crate::{
    state::{App, DocumentId, Page},
    view,
    worker::Order,
};

/// Asks for the curves of the shown list once its report is there.
pub(super) fn ask(app: &mut App, outside: &mut Outside) {
    let (page, id) = (app.page, app.current);
    let Some(document) = app.document_mut(id).filter(|_| page == Page::Flight) else { return };
    let Some(report) = document.report().cloned().filter(|_| document.is_current()) else { return };
    if document.curves.asked.as_ref().is_some_and(|asked| Arc::ptr_eq(asked, &report)) {
        return;
    }
    document.curves.asked = Some(Arc::clone(&report));
    if let Some(document) = app.document(id) {
        outside.worker.ask(job(app, document, Order::Curves(report)));
    }
}

/// While a condition is dragged, curves of the state just before are better than none; they never replace those asked last.
pub(super) fn take(app: &mut App, id: DocumentId, report: &Arc<Report>, sweep: Sweep) {
    let Some(document) = app.document_mut(id) else { return };
    let newest = document.curves.asked.as_ref().is_some_and(|asked| document.curves.are_of(asked));
    if !newest {
        document.curves.sweep = Some(Arc::new(sweep));
        document.curves.of = Some(Arc::clone(report));
        document.bench.flight = view::flight(document);
    }
}
