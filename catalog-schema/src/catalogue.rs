//! A catalogue: parts and kits by their ids.

use std::{collections::BTreeMap, sync::Arc};

use serde::{Deserialize, Serialize};

use crate::{kit::Kit, part::Part, slot::Slot};

/// The content of one catalogue file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CatalogueFile {
    /// Version of the file's form; see [`crate::version`].
    pub version: u32,
    /// Parts.
    #[serde(default)]
    pub parts: Vec<Arc<Part>>,
    /// Kits.
    #[serde(default)]
    pub kits: Vec<Arc<Kit>>,
}

/// Parts and kits of all files that were laid over one another.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Catalogue {
    parts: BTreeMap<String, Arc<Part>>,
    kits: BTreeMap<String, Arc<Kit>>,
}

impl Catalogue {
    /// Lays a file over what is there; returns the ids that it shadows.
    pub fn lay_over(&mut self, file: &CatalogueFile) -> Vec<String> {
        let parts =
            file.parts.iter().filter_map(|part| self.parts.insert(part.id.clone(), Arc::clone(part)).map(|old| old.id.clone()));
        let mut shadowed: Vec<String> = parts.collect();
        let kits = file.kits.iter().filter_map(|kit| self.kits.insert(kit.id.clone(), Arc::clone(kit)).map(|old| old.id.clone()));
        shadowed.extend(kits);
        shadowed
    }

    /// The part of an id.
    pub fn part(&self, id: &str) -> Option<&Arc<Part>> {
        self.parts.get(id)
    }

    /// All parts in the order of their ids.
    pub fn parts(&self) -> impl Iterator<Item = &Arc<Part>> {
        self.parts.values()
    }

    /// The parts that can fill a slot.
    pub fn for_slot(&self, slot: Slot) -> impl Iterator<Item = &Arc<Part>> {
        self.parts.values().filter(move |part| part.role(slot).is_some())
    }

    /// All kits in the order of their ids.
    pub fn kits(&self) -> impl Iterator<Item = &Arc<Kit>> {
        self.kits.values()
    }
}

impl FromIterator<Arc<Part>> for Catalogue {
    fn from_iter<I: IntoIterator<Item = Arc<Part>>>(parts: I) -> Self {
        Self { parts: parts.into_iter().map(|part| (part.id.clone(), part)).collect(), kits: BTreeMap::new() }
    }
}
