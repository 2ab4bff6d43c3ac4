//! Entering parts and kits into a catalogue of the user's own.

use std::{path::PathBuf, sync::Arc};

use propwright_engine::explain::field_words;
use propwright_schema::{
    catalogue::{Catalogue, CatalogueFile},
    part::{Basis, Role},
    value::Value,
    version::CURRENT,
};

use super::{Outside, deeds, job};
use crate::{
    entering::{Article, Spot},
    files,
    state::{App, Cover, Entering, Page, Unkept, Use},
    stored,
    view::form,
    worker::{Order, Used},
};

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

/// One step of entering; each can be taken back.
fn edit(app: &mut App, enter: Enter) {
    let Some(entering) = &mut app.entering else { return };
    let before = entering.article.clone();
    let label = match &enter {
        Enter::Add(spot) => format!("add to {}", field_words(spot.field)),
        Enter::Remove(spot, _) => format!("take out of {}", field_words(spot.field)),
        Enter::Role(kind) => format!("add {kind}"),
        Enter::NoRole(_) => "take a kind away".to_owned(),
        Enter::Vouch(spot, _) => format!("who vouches for {}", field_words(spot.field)),
        Enter::Choose(spot, _) | Enter::Leave(spot) => field_words(spot.field),
        _ => String::new(),
    };
    match enter {
        Enter::Type(spot, text) => {
            entering.drafts.insert(spot, text);
            return;
        }
        Enter::GiveUp(spot) => {
            entering.drafts.remove(&spot);
            return;
        }
        Enter::Leave(spot) => leave(entering, spot),
        Enter::Choose(spot, value) => {
            entering.touched.insert(spot);
            entering.article.set(spot, value);
        }
        Enter::Vouch(spot, basis) => {
            entering.drafts.remove(&spot);
            entering.article.vouch(spot, basis);
        }
        Enter::Add(spot) => {
            entering.article.add(spot);
        }
        Enter::Remove(spot, item) => {
            entering.article.remove(spot, item);
            entering.drafts.retain(|draft, _| (draft.role, draft.field) != (spot.role, spot.field));
        }
        Enter::Role(kind) => {
            if let (Article::Part(part), Some(role)) = (&mut entering.article, Role::of_kind(kind)) {
                part.fills.push(role);
            }
        }
        Enter::NoRole(at) => {
            if let Article::Part(part) = &mut entering.article
                && at < part.fills.len()
                && part.fills.len() > 1
            {
                part.fills.remove(at);
                entering.drafts.retain(|draft, _| draft.role.is_none_or(|role| role < at));
            }
        }
        _ => {}
    }
    if entering.article != before {
        entering.past.push((label, before));
        entering.future.clear();
        entering.changes += 1;
    }
}

fn leave(entering: &mut Entering, spot: Spot) {
    entering.touched.insert(spot);
    let Some(text) = entering.drafts.get(&spot).cloned() else { return };
    if entering.article.shown(spot) == text.trim() {
        entering.drafts.remove(&spot);
        return;
    }
    if !entering.article.take(spot, &text) {
        return;
    }
    entering.drafts.remove(&spot);
    if spot == Spot::of(None, "id") {
        entering.id_follows = entering.article.id().is_empty();
    }
    if entering.id_follows {
        let usual = entering.article.usual_id();
        entering.article.call(usual);
    }
}

/// What stands ready in a field counts before anything is done with the whole.
fn settle(entering: &mut Entering) {
    let before = entering.article.clone();
    let spots: Vec<Spot> = entering.drafts.keys().copied().collect();
    for spot in spots {
        leave(entering, spot);
    }
    if entering.article != before {
        entering.past.push(("what was typed".to_owned(), before));
        entering.future.clear();
        entering.changes += 1;
    }
}

/// Undo and redo of what was entered. Says whether a form is open that takes them.
pub(super) fn step(app: &mut App, back: bool) -> bool {
    if app.page != Page::Parts {
        return false;
    }
    let Some(entering) = &mut app.entering else { return false };
    settle(entering);
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
        entering.form = drawn;
    }
}

fn keep(app: &mut App, outside: &mut Outside) {
    let Some(entering) = &mut app.entering else { return };
    settle(entering);
    entering.tried = true;
    redraw(app);
    let Some(entering) = &mut app.entering else { return };
    if !entering.form.hindered.is_empty() || is_busy(app) {
        return;
    }
    let Some(entering) = &app.entering else { return };
    let mut article = entering.article.clone();
    article.keep_price_of(&entering.from);
    let path = files::whole(std::path::Path::new(&entering.into));
    let (was, name) = (entering.was.clone(), article.name().to_owned());
    let label = if was.is_some() { format!("Change {name}") } else { format!("Enter {name}") };
    let from = entering.from.clone();
    let written = stored::change_catalogue(app.disk, &path, |file| {
        if was.as_deref().is_some_and(|was| held(file, &from, was).as_ref() != Some(&from)) {
            return Err(format!("{name} was changed in the file since the form was opened; close the form and open it again."));
        }
        if was.as_deref() != Some(article.id()) && held(file, &article, article.id()).is_some() {
            return Err(format!("The file holds a record of the id {} already; give it another one.", article.id()));
        }
        put(file, article, was.as_deref());
        Ok(())
    });
    done(app, outside, label, path, written);
}

/// Is a catalogue being written already? Says so in the form.
fn is_busy(app: &mut App) -> bool {
    if let (Some(_), Some(entering)) = (&app.taking, &mut app.entering) {
        entering.problems = vec![deeds::BUSY.to_owned()];
    }
    app.taking.is_some()
}

/// What became of a change of the file.
fn done(app: &mut App, outside: &mut Outside, label: String, path: PathBuf, written: Result<CatalogueFile, String>) {
    match written {
        Ok(before) => {
            app.entering = None;
            deeds::changed_catalogue(app, outside, label, path, before);
        }
        Err(problem) => {
            if let Some(entering) = &mut app.entering {
                entering.problems = vec![problem];
            }
        }
    }
}

/// The record of a file that an article takes the place of.
fn held(file: &CatalogueFile, like: &Article, id: &str) -> Option<Article> {
    match like {
        Article::Part(_) => {
            file.parts.iter().find(|part| part.id == id).map(|part| Article::Part(Box::new(part.as_ref().clone())))
        }
        Article::Kit(_) => file.kits.iter().find(|kit| kit.id == id).map(|kit| Article::Kit(Box::new(kit.as_ref().clone()))),
    }
}

/// Takes the record that is being changed out of its catalogue.
fn take_out(app: &mut App, outside: &mut Outside) {
    if is_busy(app) {
        return;
    }
    let Some(entering) = &mut app.entering else { return };
    let Some(was) = entering.was.clone() else { return };
    let path = files::whole(std::path::Path::new(&entering.into));
    let label = format!("Take {} out of the catalogue", entering.from.name());
    let kit = matches!(entering.article, Article::Kit(_));
    let written = stored::change_catalogue(app.disk, &path, |file| {
        if kit {
            file.kits.retain(|own| own.id != was);
        } else {
            file.parts.retain(|own| own.id != was);
        }
        Ok(())
    });
    done(app, outside, label, path, written);
}

/// Puts an article in the place of the record that it was, or behind the others.
fn put(file: &mut CatalogueFile, article: Article, was: Option<&str>) {
    fn into<T>(all: &mut Vec<Arc<T>>, one: T, at: Option<usize>) {
        match at {
            Some(at) => all[at] = Arc::new(one),
            None => all.push(Arc::new(one)),
        }
    }
    match article {
        Article::Part(part) => {
            let at = file.parts.iter().position(|own| Some(own.id.as_str()) == was);
            into(&mut file.parts, *part, at);
        }
        Article::Kit(kit) => {
            let at = file.kits.iter().position(|own| Some(own.id.as_str()) == was);
            into(&mut file.kits, *kit, at);
        }
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
