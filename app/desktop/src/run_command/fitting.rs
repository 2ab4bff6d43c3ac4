//! The choice of a part: what the worker finds of it, what is tried on, and what stands side by side.

use std::sync::Arc;

use propwright_engine::{
    Report,
    craft::Craft,
    drawing::top_view,
    finding::Status,
    fit::{self, Replacement, Way, ranked},
};
use propwright_schema::{build_list::BuildList, catalogue::Catalogue};

use super::{Outside, apply, job};
use crate::{
    command::Choosing,
    edit::Edit,
    fitting::Fit,
    state::{App, Beside, Document, DocumentId, Look, MOST_BESIDE, Picker, Place, Tried, Work},
    view,
    worker::{Asked, Order},
};

pub(super) fn choosing(app: &mut App, outside: &mut Outside, id: DocumentId, choosing: Choosing) {
    match choosing {
        Choosing::Look(look) => {
            let Some(picker) = app.document_mut(id).and_then(|document| document.picker.as_mut()) else { return };
            picker.look = look;
            picker.row = 0;
            if look == Look::StandIns && picker.stand_in_work == Work::Idle {
                ask_stand_ins(app, outside, id);
            }
        }
        Choosing::Beside(part) => beside(app, id, &part),
        Choosing::Try(part) => try_part(app, outside, id, &part),
        Choosing::TryList(name, build) => put_on(app, outside, id, name, build),
        Choosing::TakeOff => take_off(app, id),
        Choosing::Keep => keep(app, outside, id),
        Choosing::Stop => stop(app, outside, id),
    }
}

/// Judges the parts of the place, these first; what is judged already needs no new question.
pub(super) fn want(app: &mut App, outside: &mut Outside, id: DocumentId, first: Vec<String>) {
    let catalogue = Arc::clone(&app.catalogue);
    let Some(document) = app.document_mut(id).filter(|document| document.is_current()) else { return };
    let Some(now) = document.report().cloned() else { return };
    let Some(picker) = &mut document.picker else { return };
    picker.wanted.clone_from(&first);
    let order = match picker.work {
        Work::Going { .. } => Order::First(first),
        Work::Done | Work::Stopped => return,
        Work::Idle => {
            let of = catalogue.for_slot(picker.place.slot).count();
            picker.work = Work::with_left(of, of);
            Order::Fits(Asked { place: picker.place, now, first })
        }
    };
    ask(app, outside, id, order);
}

fn ask_stand_ins(app: &mut App, outside: &mut Outside, id: DocumentId) {
    let Some(document) = app.document_mut(id).filter(|document| document.is_current()) else { return };
    let Some(now) = document.report().cloned() else { return };
    let Some(picker) = document.picker.as_mut().filter(|picker| picker.place.line.is_some()) else { return };
    picker.stand_in_work = Work::Going { left: usize::MAX, of: 0 };
    // One search at a time: the rows are judged again when they are looked at.
    if matches!(picker.work, Work::Going { .. }) {
        picker.work = Work::Idle;
        picker.wanted.clear();
    }
    let order = Order::StandIns(Asked { place: picker.place, now, first: Vec::new() });
    ask(app, outside, id, order);
}

fn ask(app: &App, outside: &mut Outside, id: DocumentId, order: Order) {
    if let Some(document) = app.document(id) {
        outside.worker.ask(job(app, document, order));
    }
}

/// Stops the searches for a choice.
pub(super) fn stop(app: &mut App, outside: &mut Outside, id: DocumentId) {
    let Some(picker) = app.document_mut(id).and_then(|document| document.picker.as_mut()) else { return };
    let mut going = false;
    for work in [&mut picker.work, &mut picker.stand_in_work] {
        if matches!(work, Work::Going { .. }) {
            *work = Work::Stopped;
            going = true;
        }
    }
    if going {
        ask(app, outside, id, Order::Stop);
    }
}

/// Takes what was found of some parts.
pub(super) fn found(document: &mut Document, place: Place, found: Vec<Fit>, left: usize) {
    let Some(picker) = document.picker.as_mut().filter(|picker| picker.place == place) else { return };
    if let Work::Going { of, .. } = picker.work {
        picker.work = Work::with_left(left, of);
    }
    let kept = place.line.and_then(|line| document.build.parts.get(line)).map(|fitted| fitted.part.as_str());
    for fit in found {
        if picker.only_fitting && fit.status == Status::Mismatch && kept != Some(&*fit.part) {
            picker.parts.retain(|part| part.id != fit.part);
        }
        picker.found.insert(fit.part.clone(), fit);
    }
}

/// Takes some parts that stand in, in the order in which they are told.
pub(super) fn stand_ins(document: &mut Document, place: Place, found: Vec<Replacement>, left: usize) {
    let Some(picker) = document.picker.as_mut().filter(|picker| picker.place == place) else { return };
    let mut all = std::mem::take(&mut picker.stand_ins);
    all.retain(|known| !found.iter().any(|new| new.part.id == known.part.id));
    all.extend(found);
    picker.stand_ins = ranked(all);
    if picker.stand_in_work != Work::Stopped {
        let of = match picker.stand_in_work {
            Work::Going { of, .. } => of.max(left),
            _ => left,
        };
        picker.stand_in_work = Work::with_left(left, of);
    }
}

/// Takes the report of what is on trial.
pub(super) fn tried(document: &mut Document, report: Box<Report>) {
    if let Some(tried) = document.tried.as_mut().filter(|tried| Arc::ptr_eq(&tried.build, &report.craft.build)) {
        tried.report = Some(Arc::new(*report));
    }
}

/// Tries on what the row of the choice stands for; takes it off when something is on.
pub(super) fn try_on(app: &mut App, outside: &mut Outside, id: DocumentId) {
    let Some(document) = app.document(id) else { return };
    if document.tried.is_some() {
        take_off(app, id);
        return;
    }
    let Some(picker) = &document.picker else { return };
    match picker.look {
        Look::All => {
            if let Some(part) = picker.parts.get(picker.row).map(|part| part.id.clone()) {
                try_part(app, outside, id, &part);
            }
        }
        Look::Beside => {
            if let Some(part) = picker.beside.get(picker.row % picker.beside.len().max(1)).map(|beside| beside.part.id.clone()) {
                try_part(app, outside, id, &part);
            }
        }
        Look::StandIns => {
            let found = picker.stand_ins.get(picker.row);
            let way = found.and_then(|found| found.ways().find(|way| way.goes()));
            if let Some((found, way)) = found.zip(way) {
                let (name, build) = (view::way_name(found, way), Arc::clone(Way::list(way)));
                put_on(app, outside, id, name, build);
            }
        }
    }
}

fn try_part(app: &mut App, outside: &mut Outside, id: DocumentId, part: &str) {
    let Some(document) = app.document(id) else { return };
    let Some(picker) = &document.picker else { return };
    let name = app.catalogue.part(part).map_or_else(|| part.to_owned(), |part| part.name.clone());
    let build = with(document, picker.place, part);
    put_on(app, outside, id, name, Arc::new(build));
}

fn with(document: &Document, place: Place, part: &str) -> BuildList {
    fit::Place { slot: place.slot, line: place.line }.with(&document.craft, part)
}

fn put_on(app: &mut App, outside: &mut Outside, id: DocumentId, name: String, build: Arc<BuildList>) {
    let catalogue = Arc::clone(&app.catalogue);
    let Some(document) = app.document_mut(id) else { return };
    let craft = Craft::new(&catalogue, &build);
    document.tried = Some(Tried { name, build: Arc::clone(&build), craft, report: None });
    document.bench = view::bench(document);
    if let Some(document) = app.document(id) {
        let mut job = job(app, document, Order::Try);
        job.build = build;
        outside.worker.ask(job);
    }
}

fn take_off(app: &mut App, id: DocumentId) {
    if let Some(document) = app.document_mut(id)
        && document.tried.take().is_some()
    {
        document.bench = view::bench(document);
    }
}

fn keep(app: &mut App, outside: &mut Outside, id: DocumentId) {
    let Some(tried) = app.document_mut(id).and_then(|document| document.tried.take()) else { return };
    apply(app, outside, id, &Edit::Replace { name: tried.name, with: tried.build });
}

/// Sets the part of the row beside others.
pub(super) fn beside_row(app: &mut App, id: DocumentId) {
    let picker = app.document(id).and_then(|document| document.picker.as_ref());
    let part = picker.and_then(|picker| match picker.look {
        Look::All => picker.parts.get(picker.row).map(|part| part.id.clone()),
        Look::StandIns => picker.stand_ins.get(picker.row).map(|found| found.part.id.clone()),
        Look::Beside => None,
    });
    if let Some(part) = part {
        beside(app, id, &part);
    }
}

/// The part that stands there longest makes room for a fifth.
fn beside(app: &mut App, id: DocumentId, part: &str) {
    let catalogue = Arc::clone(&app.catalogue);
    let Some(document) = app.document_mut(id) else { return };
    let Some(mut picker) = document.picker.take() else { return };
    let known = picker.beside.len();
    picker.beside.retain(|beside| beside.part.id != part);
    if picker.beside.len() == known
        && let Some(part) = catalogue.part(part)
    {
        if known == MOST_BESIDE {
            picker.beside.remove(0);
        }
        let drawing = drawn(document, &picker, &catalogue, &part.id);
        picker.beside.push(Beside { part: Arc::clone(part), drawing });
    }
    document.picker = Some(picker);
}

fn drawn(document: &Document, picker: &Picker, catalogue: &Catalogue, part: &str) -> propwright_engine::drawing::Drawing {
    top_view(&Craft::new(catalogue, &Arc::new(with(document, picker.place, part))))
}

/// Draws what stands side by side again after the list has changed.
pub(super) fn redraw(document: &mut Document, catalogue: &Catalogue) {
    let Some(mut picker) = document.picker.take() else { return };
    let drawings: Vec<_> = picker.beside.iter().map(|beside| drawn(document, &picker, catalogue, &beside.part.id)).collect();
    for (beside, drawing) in picker.beside.iter_mut().zip(drawings) {
        beside.drawing = drawing;
    }
    document.picker = Some(picker);
}
