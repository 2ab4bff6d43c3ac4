//! The ways out: asked for while they can be seen, stopped when the list changes or somebody says so.

use propwright_engine::finding::Status;

use super::{Outside, job};
use crate::{
    state::{App, DocumentId, Mending, Page, Stop},
    worker::Order,
};

/// Asks for the ways out of the shown list once its report is there and holds a mismatch.
pub(super) fn ask(app: &mut App, outside: &mut Outside) {
    let (page, id) = (app.page, app.current);
    let Some(document) = app.document_mut(id).filter(|_| page == Page::Together) else { return };
    let broken = document.report().is_some_and(|report| report.count(Status::Mismatch) > 0);
    if !broken || !document.is_current() || !matches!(document.mending, Mending::Idle) {
        return;
    }
    let Some(report) = document.report().cloned() else { return };
    let stop = Stop::default();
    document.mending = Mending::Working(stop.clone());
    if let Some(document) = app.document(id) {
        outside.worker.ask(job(app, document, Order::Repairs(report, stop)));
    }
}

/// Stops the search of a document.
pub(super) fn stop(app: &mut App, id: DocumentId) {
    if let Some(document) = app.document_mut(id) {
        document.mending.reset();
        document.mending = Mending::Stopped;
    }
}

/// Asks anew after a stop.
pub(super) fn again(app: &mut App, id: DocumentId) {
    if let Some(document) = app.document_mut(id) {
        document.mending.reset();
    }
}
