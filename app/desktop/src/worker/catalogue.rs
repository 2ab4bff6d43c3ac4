//! What the user's own catalogue asks for: the rows of a table, and what an article changes in the builds that list it.

use std::{path::PathBuf, sync::Arc};

use propwright_engine::{evaluate_with, finding::Status, fit::compare};
use propwright_schema::{
    build_list::BuildList,
    catalogue::Catalogue,
    table::{Duplicate, Import, Imported, Mapping, Sheet, duplicates},
};

use super::Job;
use crate::{
    state::{Going, Use, UseKey},
    stored,
};

/// A table to read.
#[derive(Clone)]
pub struct Rows {
    /// Which mapping of which table it is.
    pub serial: u64,
    /// The cells.
    pub sheet: Arc<Sheet>,
    /// What the columns hold.
    pub mapping: Mapping,
    /// How far it is, and the way to stop it.
    pub going: Going,
}

/// An article that is being entered, and where builds that list it are looked for.
#[derive(Clone)]
pub struct Used {
    /// The state of the form.
    pub key: UseKey,
    /// The ids that it had and has.
    pub ids: Vec<String>,
    /// The open builds.
    pub open: Vec<Arc<BuildList>>,
    /// Files used last that are not open.
    pub recent: Vec<PathBuf>,
    /// The catalogue with the article as it is entered.
    pub after: Arc<Catalogue>,
}

/// Rows between two looks at whether to stop.
const CHUNK: usize = 100;
/// How many builds are looked at.
const MOST_USES: usize = 12;

/// Reads the rows, and finds those that the job's catalogue has already; `None` as soon as it is told to stop.
pub(super) fn imported(job: &Job, rows: &Rows) -> Option<(Imported, Vec<Duplicate>)> {
    let mut import = Import::of(Arc::clone(&rows.sheet), rows.mapping.clone());
    while import.left() > 0 {
        if rows.going.stop.is_stopped() {
            return None;
        }
        import.next_chunk(CHUNK);
        rows.going.tell(import.rows() - import.left());
    }
    let read = import.finish();
    let same = duplicates(&read.catalogue, &job.catalogue);
    Some((read, same))
}

/// What the article changes in the builds that list it.
pub(super) fn uses(job: &Job, used: &Used) -> Vec<Use> {
    let recent = used.recent.iter().filter_map(|path| stored::read(path).ok()).map(|stored| Arc::new(stored.build));
    let lists = |build: &Arc<BuildList>| build.parts.iter().any(|line| used.ids.contains(&line.part));
    let builds = used.open.iter().cloned().chain(recent).filter(lists);
    let each = builds.take(MOST_USES).map(|build| {
        let [before, after] =
            [&job.catalogue, &used.after].map(|catalogue| evaluate_with(catalogue, &build, &job.policy, &job.given));
        let mismatches = [&before, &after].map(|report| report.count(Status::Mismatch));
        Use { build: build.name.clone(), change: compare::between(&before, &after), mismatches }
    });
    each.collect()
}
