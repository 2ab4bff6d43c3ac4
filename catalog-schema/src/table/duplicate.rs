//! Rows that are in the catalogue already, under the same id or under another.

use std::collections::BTreeMap;

use crate::catalogue::{Catalogue, CatalogueFile};

/// A part or kit that is there already.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Duplicate {
    /// Id of the part that was read.
    pub part: String,
    /// Id of the one that is there; the same id means that it would be replaced.
    pub known: String,
    /// Is it a kit?
    pub kit: bool,
}

/// Parts and kits of `read` that `known` has already: by id, or else by maker and name in letters and figures alone.
pub fn duplicates(read: &CatalogueFile, known: &Catalogue) -> Vec<Duplicate> {
    let parts = known.parts().map(|part| (named(part.maker.as_deref(), &part.name), part.id.as_str())).collect();
    let kits = known.kits().map(|kit| (named(kit.maker.as_deref(), &kit.name), kit.id.as_str())).collect();
    let known_parts = known.parts().map(|part| part.id.as_str()).collect();
    let known_kits = known.kits().map(|kit| kit.id.as_str()).collect();
    let read_parts = read.parts.iter().map(|part| (part.id.as_str(), part.maker.as_deref(), part.name.as_str()));
    let read_kits = read.kits.iter().map(|kit| (kit.id.as_str(), kit.maker.as_deref(), kit.name.as_str()));
    let mut found = same(read_parts, &known_parts, &parts, false);
    found.extend(same(read_kits, &known_kits, &kits, true));
    found
}

/// Maker and name in letters and figures alone; a name that begins with the maker's is told without it.
fn named(maker: Option<&str>, name: &str) -> (String, String) {
    let maker = maker.unwrap_or_default();
    let name = name.strip_prefix(maker).unwrap_or(name);
    let plain = |words: &str| -> String {
        words.chars().filter(|letter| letter.is_alphanumeric()).flat_map(char::to_lowercase).collect()
    };
    (plain(maker), plain(name))
}

fn same<'r>(
    read: impl Iterator<Item = (&'r str, Option<&'r str>, &'r str)>,
    ids: &std::collections::BTreeSet<&str>,
    names: &BTreeMap<(String, String), &str>,
    kit: bool,
) -> Vec<Duplicate> {
    let found = read.filter_map(|(id, maker, name)| {
        let known = ids.get(id).or_else(|| names.get(&named(maker, name)))?;
        Some(Duplicate { part: id.to_owned(), known: (*known).to_owned(), kit })
    });
    found.collect()
}
