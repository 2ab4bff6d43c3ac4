//! Rows of a table laid into a catalogue file off the window's thread.
//!
//! Rows that cannot be used are kept aside first; then the file holds the old state or the whole of the new one, never a part.

use std::{collections::BTreeMap, path::PathBuf, sync::Arc};

use propwright_schema::{
    catalogue::CatalogueFile,
    table::{self, Duplicate, Imported, Same},
};

use crate::{
    files::Disk,
    state::{Reading, Taking},
    stored,
};

/// What shall be laid into which file.
#[derive(Clone)]
pub struct Take {
    /// The table; what it refused is kept aside beside it.
    pub source: PathBuf,
    /// What came of its rows.
    pub read: Arc<Imported>,
    /// Rows that are in a catalogue already.
    pub same: Vec<Duplicate>,
    /// What becomes of those.
    pub choice: Same,
    /// What becomes of single ones.
    pub choices: BTreeMap<String, Same>,
    /// Where files are written.
    pub disk: Disk,
    /// The catalogue file, how far it is, and the way to stop it before anything is written.
    pub taking: Taking,
}

/// What became of the rows.
pub struct Taken {
    /// Rows that are new, that took the place of one, and that were left out.
    pub counts: [usize; 3],
    /// How many rows were kept aside, and where.
    pub aside: Option<(usize, String)>,
    /// What the file held before.
    pub before: CatalogueFile,
    /// What it holds since, read back from the disk.
    pub reading: Reading<CatalogueFile>,
}

/// Lays the rows into the file.
///
/// # Errors
/// Why nothing was written; the file then holds what it held.
pub(super) fn take(take: &Take) -> Result<Taken, String> {
    let (read, taking) = (&take.read, &take.taking);
    let (mut counts, mut aside) = ([0; 3], None);
    let before = stored::change_catalogue(take.disk, &taking.into, |file| {
        taking.step(1);
        let choose = |one: &Duplicate| take.choices.get(&one.part).copied().unwrap_or(take.choice);
        let merged = table::merge(file, &read.catalogue, &take.same, choose);
        counts = [merged.added, merged.replaced, merged.left];
        *file = merged.catalogue;
        if taking.stop.is_stopped() {
            return Err("Stopped; nothing was written.".to_owned());
        }
        if !read.refused.is_empty() {
            aside = Some((read.refused.len(), stored::kept_aside(take.disk, &take.source, read.set_aside())?));
        }
        taking.step(2);
        Ok(())
    })?;
    taking.step(3);
    Ok(Taken { counts, aside, before, reading: stored::read_catalogue(&taking.into) })
}
