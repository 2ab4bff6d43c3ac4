//! The choice of a part for a place: what the rows show, what was found of them, and what stands side by side.

use std::{collections::BTreeMap, sync::Arc};

use propwright_engine::{Report, craft::Craft, drawing::Drawing, fit::Replacement};
use propwright_schema::{build_list::BuildList, part::Part};

use super::Place;
use crate::fitting::Fit;

/// What of a choice is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Look {
    /// Every part, and whether it goes with the rest.
    #[default]
    All,
    /// What stands in for the part that is fitted, the closest first.
    StandIns,
    /// The parts that were set side by side.
    Beside,
}

/// What the worker does for a choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Work {
    /// Nothing was asked yet.
    #[default]
    Idle,
    /// So many of so many parts are left.
    Going {
        /// Still to come.
        left: usize,
        /// All.
        of: usize,
    },
    /// Every part has its status.
    Done,
    /// It was stopped.
    Stopped,
}

impl Work {
    /// The state after an answer that says how many are left.
    pub const fn with_left(left: usize, of: usize) -> Self {
        if left == 0 { Self::Done } else { Self::Going { left, of } }
    }
}

/// A part set beside others, with the craft as it would be.
#[derive(Debug, Clone, PartialEq)]
pub struct Beside {
    /// The part.
    pub part: Arc<Part>,
    /// The craft with it, from above.
    pub drawing: Drawing,
}

/// How many parts stand side by side at most.
pub const MOST_BESIDE: usize = 4;

/// The choice of a part for a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Picker {
    /// For which place.
    pub place: Place,
    /// Words that a part's name, maker or kind must hold.
    pub filter: String,
    /// Only parts that go together with the rest.
    pub only_fitting: bool,
    /// What is shown.
    pub look: Look,
    /// What the filter leaves, in the order of the rows.
    pub parts: Vec<Arc<Part>>,
    /// The row that Enter takes.
    pub row: usize,
    /// What was found of the parts so far, by id.
    pub found: BTreeMap<String, Fit>,
    /// What the worker does for that.
    pub work: Work,
    /// The rows that it was asked to take first.
    pub wanted: Vec<String>,
    /// What stands in for the part that is fitted, as far as it was found.
    pub stand_ins: Vec<Replacement>,
    /// What the worker does for that.
    pub stand_in_work: Work,
    /// What stands side by side.
    pub beside: Vec<Beside>,
}

impl Picker {
    /// A choice that has just begun.
    pub const fn new(place: Place) -> Self {
        Self {
            place,
            filter: String::new(),
            only_fitting: false,
            look: Look::All,
            parts: Vec::new(),
            row: 0,
            found: BTreeMap::new(),
            work: Work::Idle,
            wanted: Vec::new(),
            stand_ins: Vec::new(),
            stand_in_work: Work::Idle,
            beside: Vec::new(),
        }
    }

    /// Forgets what was found of the list before it changed.
    pub fn forget(&mut self) {
        self.found.clear();
        self.stand_ins.clear();
        self.wanted.clear();
        (self.work, self.stand_in_work) = (Work::Idle, Work::Idle);
    }
}

/// A list that is shown on trial: the document's own stays as it is until it is kept.
#[derive(Debug, Clone)]
pub struct Tried {
    /// What is on trial, as the window says it.
    pub name: String,
    /// The list with it.
    pub build: Arc<BuildList>,
    /// Its parts, looked up.
    pub craft: Craft,
    /// What is found about it; absent while that is awaited.
    pub report: Option<Arc<Report>>,
}
