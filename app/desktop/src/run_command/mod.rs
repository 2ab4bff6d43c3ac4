//! The only place where what the window holds changes.

mod answers;
mod choice;
mod curves;
pub mod deeds;
mod disk;
mod drag;
pub mod entering;
mod fitting;
pub mod importing;
mod listed;
mod mending;
pub(crate) mod money;
mod paper;
mod sources;
mod storing;
mod typing;

use std::sync::Arc;

use propwright_engine::thresholds;
use propwright_schema::{build_list::BuildList, validate::build_remarks};

use crate::{
    browse::Dialogs,
    command::{Action, Command},
    demo,
    edit::Edit,
    state::{App, Appearance, Cover, Document, DocumentId, GraphLook, Help, Page, Step},
    view::{self, Figures},
    worker::{Job, Order, Worker},
};

pub use storing::restore;

/// What lies outside: the worker, the system's dialogs, and how to wake the window.
pub struct Outside {
    /// Evaluates.
    pub worker: Worker,
    /// Asks for files.
    pub dialogs: Dialogs,
    /// Draws the window again.
    pub wake: Arc<dyn Fn() + Send + Sync>,
    /// Does the system show the window dark? Decides what "light or dark" changes to.
    pub dark: bool,
}

/// Does a command.
pub fn run(app: &mut App, outside: &mut Outside, command: Command) {
    // What stands ready in a field counts before it is saved, taken back or left behind.
    if let Command::Do(id, _) | Command::Pick(id, _) | Command::SaveAndClose(id) | Command::Write { document: id, .. } = &command
    {
        typing::settle_all(app, outside, *id);
    }
    match command {
        Command::Do(id, action) => act(app, outside, id, action),
        Command::Edit(id, edit) => apply(app, outside, id, &edit),
        Command::Drag(id, edit) => drag::drag(app, outside, id, &edit),
        Command::Drop(id) => drag::drop(app, id),
        Command::Type(id, input, text) => typing::take(app, id, input, text),
        Command::Leave(id, input) => typing::settle(app, outside, id, &input),
        Command::GiveUp(id, input) => typing::give_up(app, id, &input),
        Command::Select(id, place) => choice::select(app, id, place),
        Command::Pick(id, place) => {
            fitting::stop(app, outside, id);
            if place.is_some() {
                entering::make_way(app);
            }
            choice::pick(app, id, place);
        }
        Command::Filter(id, words) => choice::filter(app, id, words),
        Command::OnlyFitting(id, only) => choice::only_fitting(app, id, only),
        Command::Row(id, row) => choice::row(app, id, row),
        Command::Try(id, parts) => fitting::want(app, outside, id, parts),
        Command::Choosing(id, choosing) => fitting::choosing(app, outside, id, choosing),
        Command::Show(id) => show(app, id),
        Command::Page(page) => app.page = page,
        Command::Cover(cover) => set_cover(app, cover),
        Command::Help(help) => show_help(app, help),
        Command::Browse(wish) => storing::browse(app, outside, wish),
        Command::Demo(name) => open_demo(app, outside, name),
        Command::Read(path) => storing::read(app, outside, &path),
        Command::Write { document, path, then_close, replace } => storing::write(app, document, &path, then_close, replace),
        Command::Back => {
            sources::look(app, outside);
            disk::look(app);
        }
        Command::Settle(id, whose, then) => disk::settle(app, outside, id, whose, then),
        Command::AskName { document, then_close } => storing::ask_name(app, document, then_close),
        Command::SaveAndClose(id) => storing::save(app, id, true),
        Command::Discard(id) => close(app, id),
        Command::Paper(id, kind, format) => paper::choose(app, outside, id, kind, format),
        Command::PaperPath(id, path) => paper::path(app, id, path),
        Command::PaperWrite(id) => paper::write(app, outside, id),
        Command::Graph(id, look) => look_at(app, id, look),
        Command::GraphFile(id, asked) => paper::graph_file(app, id, asked),
        Command::GraphPath(id, path) => paper::graph_path(app, id, path),
        Command::GraphWrite(id) => paper::write_graph(app, outside, id),
        Command::Follow(id, figure) => follow(app, id, figure),
        Command::Mend(id) => mending::again(app, id),
        Command::StopMending(id) => mending::stop(app, id),
        Command::Answered(answer) => answers::take(app, outside, answer),
        Command::Browsed(browsed) => storing::browsed(app, outside, browsed),
        other => of_own_files(app, outside, other),
    }
    curves::ask(app, outside);
    mending::ask(app, outside);
    paper::refresh(app, outside);
    entering::ask(app, outside);
}

/// What concerns files of the user's own beside the build lists.
fn of_own_files(app: &mut App, outside: &mut Outside, command: Command) {
    match command {
        Command::LayOver(path) => sources::lay_over(app, outside, &path),
        Command::OnTop(path) => sources::on_top(app, outside, &path),
        Command::LeaveOut(path) => sources::leave_out(app, outside, &path),
        Command::JudgeBy(path) => sources::judge_by(app, outside, &path),
        Command::Money(money) => money::run(app, outside, money),
        Command::Enter(enter) => entering::run(app, outside, enter),
        Command::Table(table) => importing::run(app, outside, table),
        Command::LeaveForm => entering::leave_form(app),
        Command::TakeBack => deeds::step(app, outside, true),
        _ => {}
    }
}

/// Shows the graph in the place of the craft, or the craft again.
fn look_at(app: &mut App, id: DocumentId, look: Option<GraphLook>) {
    let Some(document) = app.document_mut(id) else { return };
    document.graph = look;
    document.bench = view::bench(document);
    if look.is_some() {
        app.page = Page::Together;
    }
}

/// Shows how a figure comes about: on the page of the flight, or a sum on that of costs, where that is shown; else on that of
/// reasons.
fn follow(app: &mut App, id: DocumentId, figure: Option<&'static str>) {
    let Some(document) = app.document_mut(id) else { return };
    document.followed = figure;
    document.bench = view::bench(document);
    let stays = match app.page {
        Page::Flight => true,
        Page::Cost => figure == Some(propwright_engine::working::COST),
        _ => false,
    };
    if figure.is_some() && !stays {
        app.page = Page::Together;
    }
}

/// Whoever turns the question away stays.
fn set_cover(app: &mut App, cover: Option<Cover>) {
    if cover.is_none() {
        app.leaving = false;
    }
    app.cover = cover;
}

/// Opens the help; the thresholds of the open rule are found once.
fn show_help(app: &mut App, help: Help) {
    let rule = help.rule.and_then(propwright_engine::rules::by_id);
    let known = matches!(&app.cover, Some(Cover::Help(shown)) if shown.rule == help.rule);
    let thresholds = if known { help.thresholds } else { rule.map(thresholds::of_rule).unwrap_or_default() };
    app.cover = Some(Cover::Help(Help { thresholds, ..help }));
}

fn act(app: &mut App, outside: &mut Outside, id: DocumentId, action: Action) {
    match action {
        Action::New => {
            entering::make_way(app);
            open(app, outside, BuildList::empty(demo::NEW));
            app.page = Page::Purpose;
        }
        Action::Open => app.cover = Some(storing::open_cover(app)),
        Action::Save if app.page == Page::Parts && app.entering.is_some() => entering::run(app, outside, entering::Enter::Keep),
        Action::Save => storing::save(app, id, false),
        Action::SaveAs => storing::ask_name(app, id, false),
        Action::Rename => {
            let name = app.document(id).map(|document| document.build.name.clone());
            app.cover = name.map(|name| Cover::Rename { document: id, name });
        }
        Action::Close if app.document(id).is_some_and(Document::is_edited) => app.cover = Some(Cover::Unsaved { document: id }),
        Action::Close => close(app, id),
        Action::Undo => step(app, outside, id, Direction::Back),
        Action::Redo => step(app, outside, id, Direction::Forward),
        Action::Choose => choice::pick(app, id, app.document(id).and_then(|document| document.chosen)),
        Action::TakeOut => {
            if let Some(line) = app.document(id).and_then(Document::chosen_line) {
                apply(app, outside, id, &Edit::Remove { line });
            }
        }
        Action::TryOn => fitting::try_on(app, outside, id),
        Action::Beside => fitting::beside_row(app, id),
        Action::Page(page) => app.page = page,
        Action::Next => {
            let at = app.documents.iter().position(|document| document.id == id).unwrap_or(0);
            let next = app.documents.get((at + 1) % app.documents.len().max(1)).map(|document| document.id);
            if let Some(next) = next {
                show(app, next);
            }
        }
        Action::Find => app.cover = Some(Cover::Finder { words: String::new(), line: 0 }),
        Action::Appearance => app.memory.appearance = if outside.dark { Appearance::Light } else { Appearance::Dark },
        Action::Help => app.cover = Some(Cover::Help(Help::default())),
        Action::Sources => {
            app.cover = Some(Cover::Sources { catalogue: String::new(), policy: String::new(), problems: Vec::new() });
        }
        Action::Quit => leave(app),
    }
}

/// Opens a document of a list and asks for its report.
pub fn open(app: &mut App, outside: &mut Outside, build: BuildList) -> DocumentId {
    let id = app.next_id();
    let mut document = Document::new(id, Arc::new(build), &app.catalogue);
    document.bench = view::bench(&document);
    app.documents.push(document);
    show(app, id);
    ask_report(app, outside, id);
    id
}

/// Opens a copy of a demo build that is in no file.
fn open_demo(app: &mut App, outside: &mut Outside, name: &str) {
    if let Some(build) = demo::build(name) {
        entering::make_way(app);
        storing::drop_untouched(app);
        open(app, outside, build);
        app.cover = None;
    }
}

fn show(app: &mut App, id: DocumentId) {
    if app.document(id).is_some() {
        app.current = id;
    }
}

/// Closes a document; the window never stands empty.
fn close(app: &mut App, id: DocumentId) {
    let at = app.documents.iter().position(|document| document.id == id);
    app.documents.retain(|document| document.id != id);
    app.cover = None;
    if app.documents.is_empty() && !app.leaving {
        let id = app.next_id();
        let mut document = Document::new(id, Arc::new(BuildList::empty(demo::NEW)), &app.catalogue);
        document.bench = view::bench(&document);
        app.documents.push(document);
    }
    let next = at.unwrap_or(0).min(app.documents.len().saturating_sub(1));
    if let Some(document) = app.documents.get(next) {
        app.current = document.id;
    }
    if app.leaving {
        leave(app);
    }
}

/// Leaves, or asks about the first document that is not saved.
pub fn leave(app: &mut App) {
    app.leaving = true;
    match app.documents.iter().find(|document| document.is_edited()).map(|document| document.id) {
        Some(document) => {
            show(app, document);
            app.cover = Some(Cover::Unsaved { document });
        }
        None => app.left = true,
    }
}

fn apply(app: &mut App, outside: &mut Outside, id: DocumentId, edit: &Edit) {
    let catalogue = Arc::clone(&app.catalogue);
    let at = app.tick();
    let Some(document) = app.document_mut(id) else { return };
    let next = edit.applied(&document.build, &catalogue);
    if next == *document.build {
        return;
    }
    if !can_be_read(&next) {
        let lines = build_remarks(&next).into_iter().map(|remark| format!("{}; {}.", remark.reason, remark.hint)).collect();
        app.cover = Some(Cover::Message { title: "The list stays as it was".to_owned(), lines });
        return;
    }
    let label = edit.label(&catalogue, &document.build);
    let build = std::mem::replace(&mut document.build, Arc::new(next));
    document.past.push(Step { label, at, build });
    document.future.clear();
    document.dragged = false;
    typing::follow(document, edit);
    choice::follow(document, edit);
    changed(app, outside, id);
}

/// Would the list be read again from its file?
fn can_be_read(build: &BuildList) -> bool {
    build_remarks(build).is_empty()
}

/// Which way undo goes.
#[derive(Clone, Copy)]
enum Direction {
    Back,
    Forward,
}

/// Was the last deed done after the last edit of the list? Going forward: before the next one?
pub(crate) fn deed_is_next(app: &App, id: DocumentId, back: bool) -> bool {
    let document = app.document(id);
    let edit = document.and_then(|document| if back { document.past.last() } else { document.future.last() });
    let deed = if back { app.deeds_past.last() } else { app.deeds_future.last() };
    match (deed, edit) {
        (Some(deed), Some(edit)) => (deed.at > edit.at) == back,
        (deed, _) => deed.is_some(),
    }
}

fn step(app: &mut App, outside: &mut Outside, id: DocumentId, direction: Direction) {
    let back = matches!(direction, Direction::Back);
    if entering::step(app, back) {
        return;
    }
    if deed_is_next(app, id, back) {
        return deeds::step(app, outside, back);
    }
    let Some(document) = app.document_mut(id) else { return };
    let (from, to) = match direction {
        Direction::Back => (&mut document.past, &mut document.future),
        Direction::Forward => (&mut document.future, &mut document.past),
    };
    let Some(Step { label, at, build }) = from.pop() else { return };
    let build = std::mem::replace(&mut document.build, build);
    to.push(Step { label, at, build: Arc::clone(&build) });
    typing::keep_within(document, &build);
    document.dragged = false;
    choice::keep_within(document);
    changed(app, outside, id);
}

/// After each change of a list: a new revision, the old figures kept for comparison, a new report asked for.
fn changed(app: &mut App, outside: &mut Outside, id: DocumentId) {
    let catalogue = Arc::clone(&app.catalogue);
    let Some(document) = app.document_mut(id) else { return };
    if document.is_current() {
        document.before = document.report().map(|report| Figures::of(report));
    }
    document.revision += 1;
    document.mending.reset();
    document.craft = propwright_engine::craft::Craft::new(&catalogue, &document.build);
    if let Some(picker) = &mut document.picker {
        picker.forget();
    }
    document.tried = None;
    fitting::redraw(document, &catalogue);
    document.bench = view::bench(document);
    ask_report(app, outside, id);
    if app.document(id).is_some_and(|document| document.picker.as_ref().is_some_and(|picker| picker.only_fitting)) {
        choice::fill(app, id);
    }
}

fn ask_report(app: &App, outside: &mut Outside, id: DocumentId) {
    if let Some(document) = app.document(id) {
        outside.worker.ask(job(app, document, Order::Report));
    }
}

fn job(app: &App, document: &Document, order: Order) -> Job {
    Job {
        document: document.id,
        revision: document.revision,
        catalogue: Arc::clone(&app.catalogue),
        policy: Arc::clone(&app.policy),
        build: Arc::clone(&document.build),
        given: Arc::clone(&app.purse.given),
        order,
    }
}
