//! Rows that are in the catalogue already, under the same id or under another.

use crate::{
    catalogue::{Catalogue, CatalogueFile},
    part::Part,
};

/// A part that is there already.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Duplicate {
    /// Id of the part that was read.
    pub part: String,
    /// Id of the one that is there; the same id means that it would be replaced.
    pub known: String,
}

/// Parts of `read` that `known` has already: by id, or else by maker and name in letters and figures alone.
pub fn duplicates(read: &CatalogueFile, known: &Catalogue) -> Vec<Duplicate> {
    let named = |part: &Part| {
        let maker = part.maker.as_deref().unwrap_or_default();
        let name = part.name.strip_prefix(maker).unwrap_or(&part.name);
        let plain = |words: &str| -> String {
            words.chars().filter(|letter| letter.is_alphanumeric()).flat_map(char::to_lowercase).collect()
        };
        (plain(maker), plain(name))
    };
    let names: std::collections::BTreeMap<_, _> = known.parts().map(|part| (named(part), part.id.as_str())).collect();
    let same = |part: &Part| {
        let by_id = known.part(&part.id).map(|known| known.id.as_str());
        by_id.or_else(|| names.get(&named(part)).copied()).map(str::to_owned)
    };
    let found = read.parts.iter().filter_map(|part| Some(Duplicate { part: part.id.clone(), known: same(part)? }));
    found.collect()
}
