//! The user's shelf and exchange rates, and what the page of costs shows.

use std::{path::PathBuf, sync::Arc};

use propwright_engine::bill::Given;
use propwright_schema::{rates::Rates, stock::Stock};

use super::DocumentId;
use crate::files::Stamp;

/// A section of the page of costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Section {
    /// What is bought.
    #[default]
    Bill,
    /// A kit, or the same parts one by one.
    Kit,
    /// What learning to fly costs.
    Learning,
    /// Builds side by side.
    Compare,
    /// What lies on the shelf, and exchange rates.
    Shelf,
}

impl Section {
    /// The sections in the order of their tabs.
    pub const ALL: [Self; 5] = [Self::Bill, Self::Kit, Self::Learning, Self::Compare, Self::Shelf];

    /// The words on its tab.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Bill => "Bill",
            Self::Kit => "Kit or separate",
            Self::Learning => "Learning",
            Self::Compare => "Compare",
            Self::Shelf => "Shelf and rates",
        }
    }
}

/// A file with its content as it stands now.
#[derive(Debug, Clone)]
pub struct Own<T> {
    /// The content.
    pub content: Arc<T>,
    /// Its file; absent while it was in none.
    pub path: Option<PathBuf>,
    /// The state of the file when it was read or written.
    pub stamp: Option<Stamp>,
}

impl<T> Own<T> {
    /// A content that is in no file.
    pub fn loose(content: T) -> Self {
        Self { content: Arc::new(content), path: None, stamp: None }
    }
}

/// The user's shelf and rates, and the choices of the page of costs.
#[derive(Debug, Default)]
pub struct Purse {
    /// What lies on the shelf; absent while there is no shelf.
    pub stock: Option<Own<Stock>>,
    /// Exchange rates; absent while there are none.
    pub rates: Option<Own<Rates>>,
    /// Why the last file could not be read or written.
    pub problems: Vec<String>,
    /// Both as bills take them, with today's date.
    pub given: Arc<Given>,
    /// The section that is shown.
    pub section: Section,
    /// Builds that are left out of the comparison.
    pub left_out: Vec<DocumentId>,
    /// Builds flown after the one that is shown, in their order.
    pub then: Vec<DocumentId>,
}
