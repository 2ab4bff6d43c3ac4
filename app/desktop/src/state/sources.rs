//! Files of the user's own beside the demo parts and the program's thresholds: catalogues, laid over one another, and a
//! policy.

use std::{
    path::{Path, PathBuf},
    sync::Arc,
};

use propwright_engine::policy::Policy;
use propwright_schema::catalogue::{Catalogue, CatalogueFile};

use crate::files::Stamp;

/// What came of reading a file.
pub struct Reading<T> {
    /// The state of the file; absent where it could not be read at all.
    pub stamp: Option<Stamp>,
    /// What it holds, or one line for each problem.
    pub content: Result<T, Vec<String>>,
}

/// A file that is read again when it changes; while it has problems, what it held before stays in force.
pub struct Kept<T> {
    /// The file.
    pub path: PathBuf,
    /// What is in force; absent while it was never read without problems.
    pub content: Option<Arc<T>>,
    /// The state of the file when it was read last.
    pub stamp: Option<Stamp>,
    /// The problems of the last reading.
    pub problems: Vec<String>,
}

impl<T> Kept<T> {
    /// A file that was read for the first time.
    pub fn new(path: PathBuf, reading: Reading<T>) -> Self {
        let mut kept = Self { path, content: None, stamp: None, problems: Vec::new() };
        kept.take(reading);
        kept
    }

    /// Takes a new reading.
    pub fn take(&mut self, reading: Reading<T>) {
        self.stamp = reading.stamp;
        match reading.content {
            Ok(content) => {
                self.content = Some(Arc::new(content));
                self.problems.clear();
            }
            Err(problems) => self.problems = problems,
        }
    }
}

/// The user's own files in force.
pub struct Sources {
    /// The parts without any file of the user's.
    pub base: Arc<Catalogue>,
    /// Catalogues, later ones over earlier ones.
    pub catalogues: Vec<Kept<CatalogueFile>>,
    /// The ids of earlier parts and kits that each of them shadows.
    pub shadowed: Vec<Vec<String>>,
    /// The thresholds of the user's own.
    pub policy: Option<Kept<Policy>>,
}

impl Sources {
    /// No file of the user's.
    pub const fn new(base: Arc<Catalogue>) -> Self {
        Self { base, catalogues: Vec::new(), shadowed: Vec::new(), policy: None }
    }

    /// A catalogue file, to change it.
    pub fn catalogue_mut(&mut self, path: &Path) -> Option<&mut Kept<CatalogueFile>> {
        self.catalogues.iter_mut().find(|kept| kept.path == path)
    }

    /// Lays the catalogues over one another, and notes what each shadows.
    pub fn laid(&mut self) -> Arc<Catalogue> {
        let mut laid = (*self.base).clone();
        let over = |kept: &Kept<CatalogueFile>| kept.content.as_ref().map(|file| laid.lay_over(file)).unwrap_or_default();
        self.shadowed = self.catalogues.iter().map(over).collect();
        Arc::new(laid)
    }

    /// The thresholds in force.
    pub fn thresholds(&self) -> Arc<Policy> {
        self.policy.as_ref().and_then(|kept| kept.content.clone()).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use propwright_schema::load::load_catalogue;

    fn file(name: &str) -> Reading<CatalogueFile> {
        let text = format!("(version: 1, parts: [(id: \"f\", name: \"{name}\", fills: [Frame()])])");
        Reading { stamp: None, content: Ok(load_catalogue("own.ron", &text).unwrap()) }
    }

    #[test]
    fn the_later_file_shadows_and_a_broken_one_leaves_what_was() {
        let mut sources = Sources::new(Arc::default());
        sources.catalogues = vec![Kept::new("a.ron".into(), file("Early")), Kept::new("b.ron".into(), file("Late"))];
        assert_eq!(sources.laid().part("f").unwrap().name, "Late");
        assert_eq!(sources.shadowed, [Vec::new(), vec!["f".to_owned()]]);
        let broken = Reading { stamp: None, content: Err(vec!["b.ron:1:1: torn".to_owned()]) };
        sources.catalogue_mut(Path::new("b.ron")).unwrap().take(broken);
        assert_eq!(sources.laid().part("f").unwrap().name, "Late", "the earlier state stays in force");
        assert_eq!(sources.catalogues[1].problems.len(), 1);
    }
}
