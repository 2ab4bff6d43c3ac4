//! Keeping what was entered in a catalogue file, and taking a record out of one.

use std::{path::PathBuf, sync::Arc};

use propwright_schema::catalogue::CatalogueFile;

use super::{
    super::{Outside, deeds},
    filling::settle,
    redraw,
};
use crate::{entering::Article, files, state::App, stored};

/// Writes what was entered into its catalogue.
pub(super) fn keep(app: &mut App, outside: &mut Outside) {
    let Some(entering) = &mut app.entering else { return };
    settle(entering, &app.catalogue);
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
pub(super) fn take_out(app: &mut App, outside: &mut Outside) {
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
pub(super) fn put(file: &mut CatalogueFile, article: Article, was: Option<&str>) {
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
