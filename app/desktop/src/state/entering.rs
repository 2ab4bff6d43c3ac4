//! The part or kit that is being entered into a catalogue of the user's own.

use std::{
    collections::{BTreeMap, BTreeSet},
    path::PathBuf,
};

use propwright_engine::fit::Change;
use serde::{Deserialize, Serialize};

use super::DocumentId;
use crate::{
    entering::{Article, Spot},
    view::Form,
};

/// A part or kit between the first key and the file.
#[derive(Debug, Clone)]
pub struct Entering {
    /// Path of the catalogue that it goes into, as it is typed.
    pub into: String,
    /// Id of the record in that catalogue that it takes the place of; absent for a new one.
    pub was: Option<String>,
    /// Its state when it was opened.
    pub from: Article,
    /// Its state now.
    pub article: Article,
    /// The id follows maker and name until it is typed by hand.
    pub id_follows: bool,
    /// What is being typed, and what was typed and cannot be read.
    pub drafts: BTreeMap<Spot, String>,
    /// Places that were left once: what is wrong there is said.
    pub touched: BTreeSet<Spot>,
    /// States to go back to, each with what was done after it.
    pub past: Vec<(String, Article)>,
    /// States to go forward to.
    pub future: Vec<(String, Article)>,
    /// Counts the changes.
    pub changes: u64,
    /// It was tried to keep it: all that is still missing is said.
    pub tried: bool,
    /// Are the fields open that pages seldom print? Not settled while the form was not drawn yet.
    pub open: Option<bool>,
    /// What was done with many fields at once.
    pub told: Option<String>,
    /// Why it could not be kept.
    pub problems: Vec<String>,
    /// The builds that list it, and what changes there.
    pub uses: Uses,
    /// What is drawn.
    pub form: Form,
}

/// What is known of the builds that list an article.
#[derive(Debug, Clone, Default)]
pub struct Uses {
    /// The state of form and builds for which it was asked last.
    pub asked: Option<UseKey>,
    /// What was found.
    pub found: Vec<Use>,
    /// Is an answer awaited?
    pub waiting: bool,
}

/// A state of the form and of the open builds.
pub type UseKey = (u64, Vec<(DocumentId, u64)>);

/// A build that lists the article.
#[derive(Debug, Clone, PartialEq)]
pub struct Use {
    /// The name of the build.
    pub build: String,
    /// What the article as it is entered changes there.
    pub change: Change,
    /// Mismatches before and after.
    pub mismatches: [usize; 2],
}

impl Entering {
    /// An article that begins from a state.
    pub fn new(article: Article, was: Option<String>, into: String) -> Self {
        Self {
            into,
            id_follows: was.is_none() && article.id().is_empty(),
            was,
            from: article.clone(),
            article,
            drafts: BTreeMap::new(),
            touched: BTreeSet::new(),
            past: Vec::new(),
            future: Vec::new(),
            changes: 0,
            tried: false,
            open: None,
            told: None,
            problems: Vec::new(),
            uses: Uses::default(),
            form: Form::default(),
        }
    }

    /// Was anything entered?
    pub fn is_edited(&self) -> bool {
        self.article != self.from || !self.drafts.is_empty()
    }
}

/// What is remembered of it in case the window ends before it is kept.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Unkept {
    /// The catalogue.
    pub into: PathBuf,
    /// The record that it takes the place of.
    pub was: Option<String>,
    /// The article.
    pub article: Article,
}
