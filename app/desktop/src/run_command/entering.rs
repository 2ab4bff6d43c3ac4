//! Entering parts and kits into a catalogue of the user's own.

mod filling;
mod keeping;

use std::{path::PathBuf, sync::Arc};

use propwright_schema::{
    catalogue::{Catalogue, CatalogueFile},
    part::Basis,
    value::Value,
    version::CURRENT,
};

use super::{Outside, job};
use crate::{
    entering::{Article, Spot},
    files,
    state::{App, Cover, Entering, Page, Unkept, Use},
    view::form,
    worker::{Order, Used},
};
use filling::{edit, settle};
use keeping::{keep, put, take_out};

/// What can be done with a part or kit that is entered.
#[derive(Debug, Clone, PartialEq)]
pub enum Enter {
    /// Begins a new one of a kind.
    New(&'static str),
    /// Changes a part, by its id.
    Part(String),
    /// Changes a kit, by its id.
    Kit(String),
    /// Begins a new one from a part.
    Copy(String),
    /// Begins a new kit from a kit.
    CopyKit(String),
    /// Takes what is being typed in a place.
    Type(Spot, String),
    /// Leaves a place: what was typed counts if it can be read.
    Leave(Spot),
    /// Gives up what was typed in a place.
    GiveUp(Spot),
    /// Chooses a value, or none.
    Choose(Spot, Option<Value>),
    /// Says who vouches for a figure.
    Vouch(Spot, Option<Basis>),
    /// Adds a record to a list.
    Add(Spot),
    /// Takes a record out of a list.
    Remove(Spot, usize),
    /// Adds a role to a part.
    Role(&'static str),
    /// Takes a role away from a part.
    NoRole(usize),
    /// Says of every figure that is not there that nobody published it.
    RestNotPublished,
    /// Says of every figure that is there and can be measured that the user measured it.
    AllMeasured,
    /// Opens or closes the fields that pages seldom print.
    Open(bool),
    /// Names the catalogue that it goes into.
    Into(String),
    /// Writes it into that catalogue.
    Keep,
    /// Takes it out of that catalogue.
    TakeOut,
    /// Closes the form; what was entered is forgotten.
    Close,
}

pub(super) fn run(app: &mut App, outside: &mut Outside, enter: Enter) {
    match enter {
        Enter::New(kind) => begin(app, Article::of_kind(kind), None),
        Enter::Part(id) => {
            let part = app.catalogue.part(&id).map(|part| Article::Part(Box::new(part.as_ref().clone())));
            change(app, part);
        }
        Enter::Kit(id) => {
            let kit = app.catalogue.kits().find(|kit| kit.id == id).map(|kit| Article::Kit(Box::new(kit.as_ref().clone())));
            change(app, kit);
        }
        Enter::Copy(id) => {
            let part = app.catalogue.part(&id).map(|part| Article::Part(Box::new(part.as_ref().clone())));
            copy(app, part);
        }
        Enter::CopyKit(id) => {
            let kit = app.catalogue.kits().find(|kit| kit.id == id).map(|kit| Article::Kit(Box::new(kit.as_ref().clone())));
            copy(app, kit);
        }
        Enter::Keep => keep(app, outside),
        Enter::TakeOut => take_out(app, outside),
        Enter::Close => app.entering = None,
        Enter::Open(open) => {
            if let Some(entering) = &mut app.entering {
                entering.open = Some(open);
            }
        }
        Enter::Into(path) => {
            if let Some(entering) = &mut app.entering {
                entering.into = path;
            }
        }
        other => edit(app, other),
    }
    redraw(app);
}

/// The catalogue of the user's own that lies on top, or a new one in the folder of the program.
pub(super) fn usual_file(app: &App) -> PathBuf {
    app.sources.catalogues.last().map_or_else(|| files::whole(std::path::Path::new("parts.ron")), |kept| kept.path.clone())
}

fn begin(app: &mut App, article: Option<Article>, was: Option<(String, PathBuf)>) {
    let Some(article) = article else { return };
    let (was, path) = was.map_or_else(|| (None, usual_file(app)), |(was, path)| (Some(was), path));
    app.entering = Some(Entering::new(article, was, files::name(&path)));
    app.importing = None;
    app.page = Page::Parts;
    app.cover = None;
}

/// A record of the user's own is changed where it stands; one of the program's is taken into the user's catalogue.
fn change(app: &mut App, article: Option<Article>) {
    let Some(article) = article else { return };
    let holds = |file: &CatalogueFile| match &article {
        Article::Part(part) => file.parts.iter().any(|own| own.id == part.id),
        Article::Kit(kit) => file.kits.iter().any(|own| own.id == kit.id),
    };
    let mine = app.sources.catalogues.iter().rev().find(|kept| kept.content.as_ref().is_some_and(|file| holds(file)));
    let was = mine.map(|kept| (article.id().to_owned(), kept.path.clone()));
    begin(app, Some(article), was);
}

/// A copy needs a name and an id of its own.
fn copy(app: &mut App, article: Option<Article>) {
    let Some(mut article) = article else { return };
    article.make_copy();
    begin(app, Some(article), None);
    if let Some(entering) = &mut app.entering {
        entering.id_follows = true;
    }
}

/// Undo and redo of what was entered. Says whether a form is open that takes them.
pub(super) fn step(app: &mut App, back: bool) -> bool {
    if app.page != Page::Parts {
        return false;
    }
    let Some(entering) = &mut app.entering else { return false };
    settle(entering, &app.catalogue);
    let (from, to) = if back { (&mut entering.past, &mut entering.future) } else { (&mut entering.future, &mut entering.past) };
    if let Some((label, article)) = from.pop() {
        to.push((label, std::mem::replace(&mut entering.article, article)));
        entering.drafts.clear();
        entering.changes += 1;
    }
    redraw(app);
    true
}

/// Derives what is drawn.
pub(super) fn redraw(app: &mut App) {
    let Some(entering) = &app.entering else { return };
    let path = files::whole(std::path::Path::new(&entering.into));
    let mine = app.sources.catalogues.iter().find(|kept| kept.path == path).and_then(|kept| kept.content.clone());
    let drawn = form(entering, mine.as_deref(), &app.catalogue);
    if let Some(entering) = &mut app.entering {
        // What holds something already is looked through, not filled in.
        entering.open.get_or_insert_with(|| drawn.fold.is_some_and(|fold| fold.filled > 0));
        entering.form = drawn;
    }
}

/// Asks which builds list the article and what changes there, once for each state of form and builds.
pub(super) fn ask(app: &mut App, outside: &mut Outside) {
    let Some(entering) = app.entering.as_ref().filter(|_| app.page == Page::Parts) else { return };
    let states: Vec<_> = app.documents.iter().map(|document| (document.id, document.revision)).collect();
    let key = (entering.changes, states);
    if entering.uses.asked.as_ref() == Some(&key) {
        return;
    }
    let ids = entering.was.iter().cloned().chain([entering.from.id(), entering.article.id()].map(str::to_owned));
    let is_open = |path: &PathBuf| app.documents.iter().any(|document| document.path.as_ref() == Some(path));
    let used = Used {
        key: key.clone(),
        ids: ids.filter(|id| !id.is_empty()).collect(),
        open: app.documents.iter().map(|document| Arc::clone(&document.build)).collect(),
        recent: app.memory.recent.iter().filter(|path| !is_open(path)).cloned().collect(),
        after: Arc::new(with(&app.catalogue, &entering.article)),
    };
    if let Some(document) = app.shown() {
        outside.worker.ask(job(app, document, Order::Used(used)));
    }
    if let Some(entering) = &mut app.entering {
        entering.uses.asked = Some(key);
        entering.uses.waiting = true;
    }
}

/// The catalogue with the article as it is entered.
fn with(all: &Catalogue, article: &Article) -> Catalogue {
    let mut file = CatalogueFile { version: CURRENT, parts: Vec::new(), kits: Vec::new() };
    put(&mut file, article.clone(), None);
    let mut with = all.clone();
    if !article.id().is_empty() {
        with.lay_over(&file);
    }
    with
}

/// Takes what the worker found of the builds, unless the form has moved on.
pub(super) fn found(app: &mut App, key: &crate::state::UseKey, uses: Vec<Use>) {
    if let Some(entering) = app.entering.as_mut().filter(|entering| entering.uses.asked.as_ref() == Some(key)) {
        entering.uses.found = uses;
        entering.uses.waiting = false;
    }
}

/// Opens the form again that held something when the window ended.
pub(super) fn restore(app: &mut App) {
    if let Some(text) = app.memory.entering.take()
        && let Ok(Unkept { into, was, article }) = ron::from_str(&text)
    {
        app.entering = Some(Entering::new(article, was, files::name(&into)));
        redraw(app);
    }
}

/// What is remembered of a form in case the window ends.
pub fn unkept(app: &App) -> Option<String> {
    let entering = app.entering.as_ref().filter(|entering| entering.is_edited())?;
    let into = PathBuf::from(&entering.into);
    ron::to_string(&Unkept { into, was: entering.was.clone(), article: entering.article.clone() }).ok()
}

/// A form that holds something is not left without a word.
pub(super) fn leave_form(app: &mut App) {
    match &app.entering {
        Some(entering) if entering.is_edited() => app.cover = Some(Cover::Unkept),
        _ => app.entering = None,
    }
}

/// Lets a choice be seen: a table is closed, and a form in which nothing was entered; about another it asks.
pub(super) fn make_way(app: &mut App) {
    app.importing = None;
    leave_form(app);
}
