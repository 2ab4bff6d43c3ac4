//! Shelf, rates, and what is worked out for the page of costs.

use std::{path::Path, sync::Arc};

use propwright_engine::bill::{Given, stock};
use propwright_schema::{
    build_list::BuildList,
    kit::KitItem,
    load::{load_rates, load_stock},
    rates::{Rate, Rates},
    stock::{Condition, Stock, StockItem},
};

use super::{
    Outside, ask_report, changed,
    deeds::{self, Was},
    job,
};
use crate::{
    browse::Wish,
    demo, files,
    money::Money,
    state::{App, Costed, Document, DocumentId, Own, Section},
    stored, view,
    worker::{Order, Wanted},
};

/// Most builds that stand side by side.
pub(crate) const MOST: usize = 4;

pub(super) fn run(app: &mut App, outside: &mut Outside, money: Money) {
    match money {
        Money::Section(section) => app.purse.section = section,
        Money::Ask(id) => ask(app, outside, id),
        Money::Browse(wish) => browse(app, outside, wish),
        Money::OpenStock(path) => open_stock(app, outside, &path),
        Money::SaveStock(path) => save_stock(app, &path),
        Money::Demo => demo(app, outside),
        Money::CloseStock => {
            app.purse.stock = None;
            app.memory.stock = None;
            in_force(app, outside);
        }
        Money::OpenRates(path) => open_rates(app, outside, &path),
        Money::SaveRates(path) => save_rates(app, &path),
        Money::Rate(rate) => set_rate(app, outside, rate),
        Money::RemoveRate(at) => {
            let mut rates = rates_now(app);
            if at < rates.rates.len() {
                rates.rates.remove(at);
                put_rates(app, outside, rates);
            }
        }
        Money::Build(id) => build(app, outside, id),
        Money::Bought(kit) => bought(app, outside, &kit),
        Money::Own(part) => own(app, outside, &part),
        Money::TakeApart(id) => take_apart(app, outside, id),
        Money::Beside(id, beside) => toggle(&mut app.purse.left_out, id, !beside),
        Money::Then(id, then) => toggle(&mut app.purse.then, id, then),
        Money::Example(name) => example(app, outside, name),
    }
}

/// Reads shelf and rates of the last time.
pub(super) fn restore(app: &mut App, outside: &mut Outside) {
    if let Some(path) = app.memory.stock.clone() {
        open_stock(app, outside, &path);
    }
    if let Some(path) = app.memory.rates.clone() {
        open_rates(app, outside, &path);
    }
    in_force(app, outside);
}

fn toggle(list: &mut Vec<DocumentId>, id: DocumentId, holds: bool) {
    list.retain(|other| *other != id);
    if holds {
        list.push(id);
    }
}

fn browse(app: &App, outside: &Outside, wish: Wish) {
    let file = match wish {
        Wish::Rates | Wish::SaveRates => app.purse.rates.as_ref().and_then(|own| own.path.clone()),
        _ => app.purse.stock.as_ref().and_then(|own| own.path.clone()),
    };
    let near = file.or_else(|| app.memory.recent.first().cloned()).unwrap_or_default();
    let wake = Arc::clone(&outside.wake);
    outside.dialogs.open(wish, &near, move || wake());
}

/// Reads or writes the file that a dialog found.
pub(super) fn browsed(app: &mut App, outside: &mut Outside, wish: Wish, path: &Path) {
    match wish {
        Wish::Stock => open_stock(app, outside, path),
        Wish::SaveStock => save_stock(app, path),
        Wish::Rates => open_rates(app, outside, path),
        Wish::SaveRates => save_rates(app, path),
        _ => {}
    }
}

fn open_stock(app: &mut App, outside: &mut Outside, path: &Path) {
    let path = files::whole(path);
    let reading = stored::read_stock(&path);
    match reading.content {
        Ok(stock) => {
            app.memory.stock = Some(path.clone());
            app.purse.stock = Some(Own { content: Arc::new(stock), path: Some(path), stamp: reading.stamp });
            app.purse.problems.clear();
            in_force(app, outside);
        }
        Err(problems) => app.purse.problems = problems,
    }
}

fn open_rates(app: &mut App, outside: &mut Outside, path: &Path) {
    let path = files::whole(path);
    let reading = stored::read_rates(&path);
    match reading.content {
        Ok(rates) => {
            app.memory.rates = Some(path.clone());
            app.purse.rates = Some(Own { content: Arc::new(rates), path: Some(path), stamp: reading.stamp });
            app.purse.problems.clear();
            in_force(app, outside);
        }
        Err(problems) => app.purse.problems = problems,
    }
}

/// The invented shelf and rates of the demo, in no file.
fn demo(app: &mut App, outside: &mut Outside) {
    app.purse.stock = load_stock("shelf.ron", propwright_sample::SHELF).ok().map(Own::loose);
    app.purse.rates = load_rates("rates.ron", propwright_sample::RATES).ok().map(Own::loose);
    app.purse.problems.clear();
    in_force(app, outside);
}

fn save_stock(app: &mut App, path: &Path) {
    let path = files::whole(path);
    let content = app.purse.stock.as_ref().map_or_else(Arc::default, |own| Arc::clone(&own.content));
    match stored::write_stock(&path, &content, None) {
        Ok(stamp) => {
            app.memory.stock = Some(path.clone());
            app.purse.stock = Some(Own { content, path: Some(path), stamp: Some(stamp) });
            app.purse.problems.clear();
        }
        Err(problem) => app.purse.problems = vec![problem],
    }
}

fn save_rates(app: &mut App, path: &Path) {
    let path = files::whole(path);
    let content = Arc::new(rates_now(app));
    match stored::write_rates(&path, &content, None) {
        Ok(stamp) => {
            app.memory.rates = Some(path.clone());
            app.purse.rates = Some(Own { content, path: Some(path), stamp: Some(stamp) });
            app.purse.problems.clear();
        }
        Err(problem) => app.purse.problems = vec![problem],
    }
}

/// Puts a changed shelf in its file and in force; where it cannot be written nothing changes.
fn put_stock(app: &mut App, outside: &mut Outside, stock: Stock) -> bool {
    let mut own = app.purse.stock.clone().unwrap_or_else(|| Own::loose(Stock::default()));
    if let Some(path) = &own.path {
        match stored::write_stock(path, &stock, own.stamp.as_ref()) {
            Ok(stamp) => own.stamp = Some(stamp),
            Err(problem) => {
                app.purse.problems = vec![problem];
                return false;
            }
        }
    }
    own.content = Arc::new(stock);
    app.purse.stock = Some(own);
    app.purse.problems.clear();
    in_force(app, outside);
    true
}

fn rates_now(app: &App) -> Rates {
    let none = || Rates { version: propwright_schema::version::CURRENT, rates: Vec::new() };
    app.purse.rates.as_ref().map_or_else(none, |own| Rates::clone(&own.content))
}

fn set_rate(app: &mut App, outside: &mut Outside, rate: Rate) {
    let mut rates = rates_now(app);
    rates.rates.retain(|known| (known.from, known.to, known.on) != (rate.from, rate.to, rate.on));
    rates.rates.push(rate);
    put_rates(app, outside, rates);
}

fn put_rates(app: &mut App, outside: &mut Outside, rates: Rates) {
    let mut own = app.purse.rates.clone().unwrap_or_else(|| Own::loose(rates.clone()));
    if let Some(path) = &own.path {
        match stored::write_rates(path, &rates, own.stamp.as_ref()) {
            Ok(stamp) => own.stamp = Some(stamp),
            Err(problem) => {
                app.purse.problems = vec![problem];
                return;
            }
        }
    }
    own.content = Arc::new(rates);
    app.purse.rates = Some(own);
    app.purse.problems.clear();
    in_force(app, outside);
}

/// Makes the shelf another one.
pub(super) fn take_stock(app: &mut App, outside: &mut Outside, stock: Stock) -> Result<(), String> {
    if put_stock(app, outside, stock) { Ok(()) } else { Err(std::mem::take(&mut app.purse.problems).join(" ")) }
}

/// Puts the shelf back as it was, into the file where it lies now; returns what it was until then.
pub(super) fn put_back(app: &mut App, outside: &mut Outside, before: Option<&Own<Stock>>) -> Result<Option<Own<Stock>>, String> {
    let now = app.purse.stock.clone();
    let held = before.map(|own| Stock::clone(&own.content)).unwrap_or_default();
    take_stock(app, outside, held)?;
    if before.is_none() && now.as_ref().is_some_and(|own| own.path.is_none()) {
        app.purse.stock = None;
        in_force(app, outside);
    }
    Ok(now)
}

/// The bill of the report is paid: its parts go into the craft.
fn build(app: &mut App, outside: &mut Outside, id: DocumentId) {
    let Some(document) = app.document(id).filter(|document| document.is_current()) else { return };
    let Some(report) = document.report().cloned() else { return };
    let name = document.build.name.clone();
    let before = app.purse.stock.clone();
    if put_stock(app, outside, stock::built(&app.purse.given.stock.clone(), &report.bill, &name)) {
        deeds::did(app, format!("{name} was built"), Was::Shelf(before));
    }
}

/// All that lies in the box of a kit goes on the shelf.
fn bought(app: &mut App, outside: &mut Outside, kit: &str) {
    let Some(kit) = app.catalogue.kits().find(|known| known.id == kit).cloned() else { return };
    let new = |item: &KitItem| StockItem { condition: Some(Condition::New), ..StockItem::new(&item.part, item.count) };
    lay(app, outside, kit.contents.iter().map(new), format!("{} lies on the shelf", kit.name));
}

/// A used piece of a part goes on the shelf.
fn own(app: &mut App, outside: &mut Outside, part: &str) {
    let name = app.catalogue.part(part).map_or_else(|| part.to_owned(), |part| part.name.clone());
    let item = StockItem { condition: Some(Condition::Used), ..StockItem::new(part, 1) };
    lay(app, outside, [item], format!("{name} lies on the shelf"));
}

fn lay(app: &mut App, outside: &mut Outside, items: impl IntoIterator<Item = StockItem>, label: String) {
    let before = app.purse.stock.clone();
    if put_stock(app, outside, stock::laid(&app.purse.given.stock, items)) {
        deeds::did(app, label, Was::Shelf(before));
    }
}

fn take_apart(app: &mut App, outside: &mut Outside, id: DocumentId) {
    let Some(name) = app.document(id).map(|document| document.build.name.clone()) else { return };
    let before = app.purse.stock.clone();
    if put_stock(app, outside, stock::apart(&app.purse.given.stock.clone(), &name)) {
        deeds::did(app, format!("{name} was taken apart"), Was::Shelf(before));
    }
}

fn in_force(app: &mut App, outside: &mut Outside) {
    let given = Given {
        stock: app.purse.stock.as_ref().map(|own| Stock::clone(&own.content)).unwrap_or_default(),
        rates: app.purse.rates.as_ref().map(|own| Rates::clone(&own.content)),
        today: files::today(),
    };
    if *app.purse.given == given {
        return;
    }
    app.purse.given = Arc::new(given);
    let all: Vec<DocumentId> = app.documents.iter().map(|document| document.id).collect();
    for id in all {
        changed(app, outside, id);
    }
}

/// Opens a demo build beside the one that is shown, and flies it after that one.
fn example(app: &mut App, outside: &mut Outside, name: &str) {
    let Some(build) = demo::build(name) else { return };
    let id = app.next_id();
    let mut document = Document::new(id, Arc::new(build), &app.catalogue);
    document.bench = view::bench(&document);
    app.documents.push(document);
    ask_report(app, outside, id);
    if app.purse.section == Section::Learning {
        app.purse.then.push(id);
    }
}

/// Is what the section shows to be worked out anew?
pub(crate) fn is_due(app: &App, id: DocumentId) -> bool {
    let section = app.purse.section;
    let Some(key) = key(app, id, section) else { return false };
    app.document(id).is_some_and(|document| document.costing.get(&section).is_none_or(|costed| costed.key != key))
}

/// Asks the worker for what a section shows, once for each state of all builds that it is about.
fn ask(app: &mut App, outside: &mut Outside, id: DocumentId) {
    let section = app.purse.section;
    let Some(key) = key(app, id, section) else { return };
    let Some(document) = app.document(id) else { return };
    if !is_due(app, id) {
        return;
    }
    let Some(report) = document.report().cloned() else { return };
    let others = |ids: &[DocumentId]| -> Vec<&Document> { ids.iter().filter_map(|id| app.document(*id)).collect() };
    let wanted = match section {
        Section::Bill | Section::Shelf => return,
        Section::Kit => Wanted::Kits(report),
        Section::Learning => {
            let next = others(&then(app, id)).into_iter().map(|document| Arc::clone(&document.build));
            Wanted::Course([Arc::clone(&document.build)].into_iter().chain(next).collect::<Vec<Arc<BuildList>>>())
        }
        Section::Compare => {
            let beside = others(&beside(app, id)).into_iter().filter_map(|document| document.report().cloned());
            Wanted::Compared([report].into_iter().chain(beside).collect())
        }
    };
    outside.worker.ask(job(app, document, Order::Costing { section, key: key.clone(), wanted }));
    if let Some(document) = app.document_mut(id) {
        // What was shown before stays until the answer comes.
        let shown = document.costing.remove(&section).and_then(|costed| costed.shown);
        document.costing.insert(section, Costed { key, shown });
    }
}

/// The builds that stand beside one: the first open ones that were not left out.
pub(crate) fn beside(app: &App, id: DocumentId) -> Vec<DocumentId> {
    let others = app.documents.iter().map(|document| document.id).filter(|other| *other != id);
    others.filter(|other| !app.purse.left_out.contains(other)).take(MOST - 1).collect()
}

/// The open builds that are flown after one.
pub(crate) fn then(app: &App, id: DocumentId) -> Vec<DocumentId> {
    app.purse.then.iter().copied().filter(|other| *other != id && app.document(*other).is_some()).collect()
}

/// The states of all builds that a section is about; `None` while one of them is not judged yet.
fn key(app: &App, id: DocumentId, section: Section) -> Option<Vec<(DocumentId, u64)>> {
    let others = match section {
        Section::Learning => then(app, id),
        Section::Compare => beside(app, id),
        Section::Bill | Section::Kit | Section::Shelf => Vec::new(),
    };
    let state = |id: DocumentId| {
        let document = app.document(id)?;
        document.is_current().then_some((id, document.revision))
    };
    [id].into_iter().chain(others).map(state).collect()
}
