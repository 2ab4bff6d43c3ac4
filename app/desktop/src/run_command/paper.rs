//! Paper: laid out and written off the window's thread.

use std::{path::PathBuf, sync::Arc};

use propwright_engine::Report;
use propwright_paper::{graph, sheet::Format};

use super::{Outside, job};
use crate::{
    export::Kind,
    files,
    state::{App, Document, DocumentId, GraphFile, Page},
    worker::{OnPaper, Order, Written},
};

/// As many builds stand side by side.
const MOST: usize = 4;

/// Lays the shown document out anew when its page is open and something of it has changed.
pub(super) fn refresh(app: &mut App, outside: &mut Outside) {
    let Some(document) = app.shown().filter(|_| app.page == Page::Paper) else { return };
    let of = (document.revision, document.paper.kind, document.paper.format);
    if document.paper.of == Some(of) || !document.is_current() {
        return;
    }
    let Some(order) = order(app, document) else { return };
    let job = job(app, document, Order::Paper(order, None));
    let id = document.id;
    if let Some(document) = app.document_mut(id) {
        document.paper.of = Some(of);
    }
    outside.worker.ask(job);
}

/// The shown build's report, and for a comparison those of the other open ones.
fn order(app: &App, document: &Document) -> Option<OnPaper> {
    let mut reports: Vec<Arc<Report>> = vec![Arc::clone(document.report()?)];
    if document.paper.kind == Kind::Comparison {
        let others = app.documents.iter().filter(|other| other.id != document.id);
        reports.extend(others.filter_map(Document::report).take(MOST - 1).cloned());
    }
    Some(OnPaper { kind: document.paper.kind, format: document.paper.format, reports, day: files::today() })
}

pub(super) fn choose(app: &mut App, outside: &mut Outside, id: DocumentId, kind: Kind, format: Format) {
    let Some(document) = app.document_mut(id) else { return };
    let paper = &mut document.paper;
    (paper.kind, paper.format, paper.of, paper.said, paper.replace) = (kind, format, None, Vec::new(), false);
    refresh(app, outside);
}

pub(super) fn path(app: &mut App, id: DocumentId, path: String) {
    if let Some(document) = app.document_mut(id) {
        document.paper.replace = false;
        document.paper.path = path;
    }
}

pub(super) fn write(app: &mut App, outside: &mut Outside, id: DocumentId) {
    let Some(document) = app.document(id) else { return };
    let path = PathBuf::from(document.paper.path.trim());
    let own = document.path.as_deref().is_some_and(|own| files::same(own, &path));
    let refused = match (path.as_os_str().is_empty(), own, document.is_current()) {
        (true, ..) => Some("Type the path of the file to write."),
        (_, true, _) => Some("This is the build list itself: name another file."),
        (_, _, false) => Some("The report is not ready yet."),
        _ => None,
    };
    let replace = document.paper.replace;
    let order = if refused.is_none() { order(app, document) } else { None };
    let asked = order.map(|order| job(app, document, Order::Paper(order, Some((path, replace)))));
    let Some(document) = app.document_mut(id) else { return };
    document.paper.said = vec![refused.unwrap_or("Writing…").to_owned()];
    if let Some(asked) = asked {
        outside.worker.ask(asked);
    }
}

pub(super) fn graph_file(app: &mut App, id: DocumentId, asked: bool) {
    if let Some(document) = app.document_mut(id) {
        let path = std::mem::take(&mut document.graph_file.path);
        document.graph_file = GraphFile { asked, path, ..GraphFile::default() };
    }
}

pub(super) fn graph_path(app: &mut App, id: DocumentId, path: String) {
    if let Some(document) = app.document_mut(id) {
        document.graph_file.replace = false;
        document.graph_file.path = path;
    }
}

/// Writes the graph exactly as it is shown: narrowed, and with its path lit.
pub(super) fn write_graph(app: &mut App, outside: &mut Outside, id: DocumentId) {
    let Some(document) = app.document(id) else { return };
    let path = PathBuf::from(document.graph_file.path.trim());
    let ending = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("svg"));
    let own = document.path.as_deref().is_some_and(|own| files::same(own, &path));
    let refused = match (path.as_os_str().is_empty(), own, ending) {
        (true, ..) => Some("Type the path of the file to write."),
        (_, true, _) => Some("This is the build list itself: name another file."),
        (_, _, false) => Some("The graph is drawn as SVG: end the file's name with .svg."),
        _ => None,
    };
    let shown = document.bench.graph.as_ref().filter(|_| refused.is_none());
    let replace = document.graph_file.replace;
    let text = shown.map(|drawn| graph::svg(&drawn.picture, &drawn.layered, &drawn.lit));
    let asked = text.map(|text| job(app, document, Order::Graph(text, path, replace)));
    let Some(document) = app.document_mut(id) else { return };
    document.graph_file.said = vec![refused.unwrap_or("Writing…").to_owned()];
    if let Some(asked) = asked {
        outside.worker.ask(asked);
    }
}

/// What became of writing the graph.
pub(super) fn graph_written(document: &mut Document, written: Written) {
    document.graph_file.replace = matches!(written, Written::There);
    document.graph_file.said = lines(written);
}

/// What the worker wrote, or why it did not.
pub(super) fn written(document: &mut Document, written: Written) {
    document.paper.replace = matches!(written, Written::There);
    document.paper.said = lines(written);
}

fn lines(written: Written) -> Vec<String> {
    match written {
        Written::There => vec!["The file is there already: press Write again to replace it.".to_owned()],
        Written::Done(files) => files.into_iter().map(|file| format!("Written: {file}")).collect(),
        Written::Failed(why) => vec![why],
    }
}
