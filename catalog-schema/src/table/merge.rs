//! What was read, laid into a catalogue file: new parts behind, what is there already as the user chose.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};

use super::duplicate::Duplicate;
use crate::{catalogue::CatalogueFile, kit::Kit, part::Part};

/// What becomes of a part or kit that is there already.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Same {
    /// The one that is there stays; the row is left out.
    #[default]
    Mine,
    /// The row takes its place, under the id that is there: builds that use it then use the row's.
    Theirs,
    /// Both stand side by side, where their ids differ.
    Both,
}

/// A catalogue file with what was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Merged {
    /// Its content.
    pub catalogue: CatalogueFile,
    /// Parts and kits that are new.
    pub added: usize,
    /// Those that took the place of one that was there.
    pub replaced: usize,
    /// Those that were left out, because the one that is there stays.
    pub left: usize,
}

/// Lays parts and kits that were read into a catalogue file; `same` are those that are there already, here or in another
/// catalogue, and `choose` says for each what becomes of it. The order of what was there stays.
pub fn merge(mine: &CatalogueFile, read: &CatalogueFile, same: &[Duplicate], choose: impl Fn(&Duplicate) -> Same) -> Merged {
    let part: Kept<Part> = Kept { id: |part| &part.id, called: |part, id| Part { id, ..part.clone() }, kit: false };
    let kit: Kept<Kit> = Kept { id: |kit| &kit.id, called: |kit, id| Kit { id, ..kit.clone() }, kit: true };
    let (mut catalogue, mut counts) = (mine.clone(), [0; 3]);
    part.lay(&mut catalogue.parts, &read.parts, same, &choose, &mut counts);
    kit.lay(&mut catalogue.kits, &read.kits, same, &choose, &mut counts);
    let [added, replaced, left] = counts;
    Merged { catalogue, added, replaced, left }
}

/// How parts, or kits, are kept.
struct Kept<T> {
    id: fn(&T) -> &String,
    /// The same under another id.
    called: fn(&T, String) -> T,
    kit: bool,
}

impl<T> Kept<T> {
    fn lay(
        &self,
        all: &mut Vec<Arc<T>>,
        read: &[Arc<T>],
        same: &[Duplicate],
        choose: &impl Fn(&Duplicate) -> Same,
        [added, replaced, left]: &mut [usize; 3],
    ) {
        let same: BTreeMap<&str, &Duplicate> =
            same.iter().filter(|one| one.kit == self.kit).map(|one| (one.part.as_str(), one)).collect();
        let mut places: BTreeMap<String, usize> = all.iter().enumerate().map(|(at, one)| ((self.id)(one).clone(), at)).collect();
        let mut taken: BTreeSet<String> = BTreeSet::new();
        for one in read {
            let id = (self.id)(one);
            let itself = Duplicate { part: id.clone(), known: id.clone(), kit: self.kit };
            let known = same.get(id.as_str()).copied().or_else(|| places.contains_key(id).then_some(&itself));
            let (id, count) = match known.map(|known| (known, choose(known))) {
                None => (Some(id), &mut *added),
                // Two rows cannot both take the place of one: the second stands beside.
                Some((known, Same::Theirs)) if !taken.contains(&known.known) => (Some(&known.known), &mut *replaced),
                Some((known, Same::Theirs | Same::Both)) if known.known != known.part => (Some(id), &mut *added),
                Some(_) => (None, &mut *left),
            };
            *count += 1;
            let Some(id) = id else { continue };
            taken.insert(id.clone());
            let one = if id == (self.id)(one) { Arc::clone(one) } else { Arc::new((self.called)(one, id.clone())) };
            if let Some(at) = places.get(id) {
                all[*at] = one;
            } else {
                places.insert(id.clone(), all.len());
                all.push(one);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{load::load_catalogue, table::duplicates};

    fn file(parts: &[(&str, &str)]) -> CatalogueFile {
        let each: Vec<String> =
            parts.iter().map(|(id, name)| format!("(id: {id:?}, name: {name:?}, fills: [Frame()])")).collect();
        load_catalogue("t.ron", &format!("(version: 1, parts: [{}])", each.join(","))).unwrap()
    }

    fn merged(choice: Same) -> (Vec<(String, String)>, [usize; 3]) {
        let mine = file(&[("one", "Own one"), ("two", "Flat Two")]);
        let read = file(&[("three", "Three"), ("one", "Their one"), ("other", "flat two")]);
        let mut all = crate::catalogue::Catalogue::default();
        all.lay_over(&mine);
        let merged = merge(&mine, &read, &duplicates(&read, &all), |_| choice);
        let parts = merged.catalogue.parts.iter().map(|part| (part.id.clone(), part.name.clone())).collect();
        (parts, [merged.added, merged.replaced, merged.left])
    }

    fn pairs(pairs: &[(&str, &str)]) -> Vec<(String, String)> {
        pairs.iter().map(|(id, name)| ((*id).to_owned(), (*name).to_owned())).collect()
    }

    #[test]
    fn mine_stay_theirs_take_the_place_and_both_stand_beside() {
        let mine = pairs(&[("one", "Own one"), ("two", "Flat Two"), ("three", "Three")]);
        assert_eq!(merged(Same::Mine), (mine.clone(), [1, 0, 2]));
        let theirs = pairs(&[("one", "Their one"), ("two", "flat two"), ("three", "Three")]);
        assert_eq!(merged(Same::Theirs), (theirs, [1, 2, 0]));
        let both = [mine, pairs(&[("other", "flat two")])].concat();
        assert_eq!(merged(Same::Both), (both, [2, 0, 1]), "two parts of one id cannot stand side by side");
    }

    #[test]
    fn a_part_of_another_catalogue_is_shadowed_under_its_id() {
        let read = file(&[("x", "Known")]);
        let same = [Duplicate { part: "x".to_owned(), known: "demo".to_owned(), kit: false }];
        let merged = merge(&file(&[]), &read, &same, |_| Same::Theirs);
        assert_eq!((merged.catalogue.parts[0].id.as_str(), merged.replaced), ("demo", 1));
    }

    #[test]
    fn of_two_rows_for_one_part_the_second_stands_beside() {
        let read = file(&[("x", "Known"), ("y", "known")]);
        let one = |part: &str| Duplicate { part: part.to_owned(), known: "a".to_owned(), kit: false };
        let merged = merge(&file(&[("a", "KNOWN")]), &read, &[one("x"), one("y")], |_| Same::Theirs);
        let ids: Vec<&str> = merged.catalogue.parts.iter().map(|part| part.id.as_str()).collect();
        assert_eq!(ids, ["a", "y"]);
    }
}
