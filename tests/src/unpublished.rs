//! The demo catalogue with figures taken out of some of its parts, as if nobody had published them.

use propwright_schema::{
    catalogue::{Catalogue, CatalogueFile},
    save::write_catalogue,
};

use crate::sample;

/// The demo catalogue without these figures: a part's id, and its fields.
pub fn catalogue(gone: &[(&str, &[&str])]) -> Catalogue {
    let mut catalogue = sample::catalogue();
    let parts = gone.iter().map(|(id, fields)| {
        let mut part = (**catalogue.part(id).unwrap()).clone();
        for field in *fields {
            if *field == "mass_g" {
                part.mass_g = None;
                continue;
            }
            // A part of several roles may have a field of this name in each: `flight controller.height_mm`.
            let (word, name) = field.split_once('.').map_or((None, *field), |(word, name)| (Some(word), name));
            let mut roles = part.fills.iter_mut().filter(|role| word.is_none_or(|word| role.word() == word));
            let held = roles.find(|role| role.get(name).is_some());
            assert!(held.is_some_and(|role| role.set(name, None)), "{id} holds no {field}");
        }
        part.into()
    });
    let file = CatalogueFile { version: 1, parts: parts.collect(), kits: Vec::new() };
    catalogue.lay_over(&file);
    catalogue
}

/// A catalogue file with one part of the demo without these figures.
pub fn text(id: &str, fields: &[&str]) -> String {
    let catalogue = catalogue(&[(id, fields)]);
    let file = CatalogueFile { version: 1, parts: vec![catalogue.part(id).unwrap().clone()], kits: Vec::new() };
    write_catalogue(None, &file, &file).unwrap()
}
