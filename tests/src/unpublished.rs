//! The demo catalogue with figures taken out of some of its parts, as if nobody had published them.

use propwright_schema::catalogue::{Catalogue, CatalogueFile};

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
            let mut held = part.fills.iter_mut().filter(|role| role.get(field).is_some());
            assert!(held.next().is_some_and(|role| role.set(field, None)), "{id} holds no {field}");
        }
        part.into()
    });
    let file = CatalogueFile { version: 1, parts: parts.collect(), kits: Vec::new() };
    catalogue.lay_over(&file);
    catalogue
}
