//! Filling in a form: each step can be taken back, and what a name or a price says is followed.

use propwright_engine::explain::field_words;
use propwright_schema::{
    catalogue::Catalogue,
    part::{Basis, Role},
    typed,
    value::Describe as _,
};

use super::Enter;
use crate::{
    entering::{Article, Spot},
    files,
    state::{App, Entering},
};

/// One step of entering; each can be taken back.
pub(super) fn edit(app: &mut App, enter: Enter) {
    let Some(entering) = &mut app.entering else { return };
    if matches!(enter, Enter::RestNotPublished | Enter::AllMeasured) {
        settle(entering, &app.catalogue);
    }
    let before = entering.article.clone();
    entering.told = None;
    let label = label(&enter);
    match enter {
        Enter::Type(spot, text) => {
            entering.drafts.insert(spot, text);
            return;
        }
        Enter::GiveUp(spot) => {
            entering.drafts.remove(&spot);
            return;
        }
        Enter::Leave(spot) => leave(entering, &app.catalogue, spot),
        Enter::RestNotPublished => {
            let rest = entering.article.rest_is_not_published();
            let told = format!("Not published: {}. Is one of them on the page? Type it, and it counts.", words(&rest));
            entering.told = Some(if rest.is_empty() { "No figure is blank.".to_owned() } else { told });
        }
        Enter::AllMeasured => {
            let [measured, makers] = entering.article.all_is_measured();
            entering.told = Some(measured_words(&measured, &makers));
        }
        Enter::Choose(spot, value) => {
            entering.touched.insert(spot);
            entering.article.set(spot, value);
        }
        Enter::Vouch(spot, basis) => {
            if basis == Some(Basis::Unpublished) {
                entering.drafts.remove(&spot);
            }
            entering.article.vouch(spot, basis);
        }
        Enter::Add(spot) => {
            entering.article.add(spot);
        }
        Enter::Remove(spot, item) => {
            entering.article.remove(spot, item);
            entering.drafts.retain(|draft, _| (draft.role, draft.field) != (spot.role, spot.field));
        }
        Enter::Role(kind) => add_role(entering, kind),
        Enter::NoRole(at) => take_role_away(entering, at),
        _ => {}
    }
    if entering.article != before {
        entering.past.push((label, before));
        entering.future.clear();
        entering.changes += 1;
    }
}

/// What undo calls a step.
fn label(enter: &Enter) -> String {
    match enter {
        Enter::Add(spot) => format!("add to {}", field_words(spot.field)),
        Enter::Remove(spot, _) => format!("take out of {}", field_words(spot.field)),
        Enter::Role(kind) => format!("add {kind}"),
        Enter::NoRole(_) => "take a kind away".to_owned(),
        Enter::RestNotPublished => "the rest is not published".to_owned(),
        Enter::AllMeasured => "all measured".to_owned(),
        Enter::Vouch(spot, _) => format!("who vouches for {}", field_words(spot.field)),
        Enter::Choose(spot, _) | Enter::Leave(spot) => field_words(spot.field),
        _ => String::new(),
    }
}

fn add_role(entering: &mut Entering, kind: &str) {
    if let (Article::Part(part), Some(role)) = (&mut entering.article, Role::of_kind(kind)) {
        part.fills.push(role);
    }
}

fn take_role_away(entering: &mut Entering, at: usize) {
    if let Article::Part(part) = &mut entering.article
        && at < part.fills.len()
        && part.fills.len() > 1
    {
        part.fills.remove(at);
        entering.drafts.retain(|draft, _| draft.role.is_none_or(|role| role < at));
    }
}

fn words(spots: &[Spot]) -> String {
    spots.iter().map(|spot| field_words(spot.field)).collect::<Vec<_>>().join(", ")
}

/// What became of the figures that were called measured.
fn measured_words(measured: &[Spot], makers: &[Spot]) -> String {
    let stays = match makers {
        [] => String::new(),
        makers => format!(" The maker's stay: {}.", words(makers)),
    };
    if measured.is_empty() {
        format!("No figure is there that can be measured.{stays}")
    } else {
        format!("Measured by you: {}.{stays}", words(measured))
    }
}

fn leave(entering: &mut Entering, all: &Catalogue, spot: Spot) {
    entering.touched.insert(spot);
    let Some(text) = entering.drafts.get(&spot).cloned() else { return };
    if entering.article.shown(spot) == text.trim() {
        entering.drafts.remove(&spot);
        return;
    }
    let before = entering.article.clone();
    if !entering.article.take(spot, &text) {
        return;
    }
    entering.drafts.remove(&spot);
    match (spot.role, spot.field) {
        (None, "id") => entering.id_follows = entering.article.id().is_empty(),
        (None, "name") => follow_name(&mut entering.article, &before, all),
        (None, "price") => date_price(entering, &before),
        _ => {}
    }
    if entering.id_follows {
        let usual = entering.article.usual_id();
        entering.article.call(usual);
    }
}

/// Takes from a name what it says: a known maker before it, and the figures by which the trade names a part. What was typed stays.
fn follow_name(article: &mut Article, before: &Article, all: &Catalogue) {
    let name = article.name().to_owned();
    let maker = Spot::of(None, "maker");
    let begins = |known: &&str| name.to_lowercase().starts_with(&format!("{} ", known.to_lowercase()));
    if article.get(maker).is_none()
        && let Some(known) = all.parts().filter_map(|part| part.maker.as_deref()).find(begins)
    {
        article.take(maker, known);
    }
    for at in 0..article.roles().len() {
        let kind = article.roles()[at].word();
        let earlier = typed::said_by_name(kind, before.name());
        for (field, text) in typed::said_by_name(kind, &name) {
            let spot = Spot::of(Some(at), field);
            let now = article.shown(spot);
            let said_before = earlier.iter().any(|(known, text)| *known == field && *text == now);
            if now.is_empty() && article.basis(spot).is_none() || said_before {
                article.take(spot, &text);
            }
        }
    }
}

/// A new price is of today until another day is said.
fn date_price(entering: &mut Entering, before: &Article) {
    let (price, day) = (Spot::of(None, "price"), Spot::of(None, "priced_on"));
    let article = &mut entering.article;
    let untouched = article.get(day).is_none() || article.get(day) == entering.from.get(day);
    if article.get(price).is_some() && article.get(price) != before.get(price) && untouched {
        let today = files::today().map(|today| today.value());
        article.set(day, today);
    }
}

/// What stands ready in a field counts before anything is done with the whole.
pub(super) fn settle(entering: &mut Entering, all: &Catalogue) {
    let before = entering.article.clone();
    let spots: Vec<Spot> = entering.drafts.keys().copied().collect();
    for spot in spots {
        leave(entering, all, spot);
    }
    if entering.article != before {
        entering.past.push(("what was typed".to_owned(), before));
        entering.future.clear();
        entering.changes += 1;
    }
}
