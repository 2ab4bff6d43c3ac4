//! The system's file dialog, on a thread of its own.
//!
//! The system answers "cancelled" and "there is no dialog" alike; hence the covers that ask for a file always have a field
//! for its path as well.

use std::{
    path::{Path, PathBuf},
    sync::mpsc,
    thread,
};

/// What a dialog is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wish {
    /// A file to read.
    Open,
    /// A name to save under.
    Save,
    /// A catalogue to read.
    Catalogue,
    /// A policy to read.
    Policy,
    /// A table of parts to read.
    Table,
    /// A shelf to read.
    Stock,
    /// A name under which to save the shelf.
    SaveStock,
    /// Exchange rates to read.
    Rates,
    /// A name under which to save the rates.
    SaveRates,
}

/// The answer of a dialog.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Browsed {
    /// What it was for.
    pub wish: Wish,
    /// The file; absent when the dialog was cancelled or the system has none.
    pub path: Option<PathBuf>,
}

/// The dialogs that are open.
pub struct Dialogs {
    answers: mpsc::Receiver<Browsed>,
    answer: mpsc::Sender<Browsed>,
}

impl Default for Dialogs {
    fn default() -> Self {
        let (answer, answers) = mpsc::channel();
        Self { answers, answer }
    }
}

impl Dialogs {
    /// Opens a dialog beside `near`; calls `wake` when it is answered.
    pub fn open(&self, wish: Wish, near: &Path, wake: impl FnOnce() + Send + 'static) {
        let answer = self.answer.clone();
        let near = near.to_owned();
        let ask = move || {
            let path = asked(wish, &near);
            // The window may be gone by now; then nobody waits.
            drop(answer.send(Browsed { wish, path }));
            wake();
        };
        let started = thread::Builder::new().name("file dialog".to_owned()).spawn(ask);
        if started.is_err() {
            drop(self.answer.send(Browsed { wish, path: None }));
        }
    }

    /// All answers since the last call.
    pub fn answers(&self) -> Vec<Browsed> {
        self.answers.try_iter().collect()
    }
}

fn asked(wish: Wish, near: &Path) -> Option<PathBuf> {
    let kind = match wish {
        Wish::Open | Wish::Save => "Build list",
        Wish::Catalogue => "Catalogue",
        Wish::Policy => "Policy",
        Wish::Table => "Table",
        Wish::Stock | Wish::SaveStock => "Shelf",
        Wish::Rates | Wish::SaveRates => "Exchange rates",
    };
    let endings: &[&str] = if wish == Wish::Table { &["csv", "tsv", "txt"] } else { &["ron"] };
    let mut dialog = rfd::FileDialog::new().add_filter(kind, endings);
    if let Some(folder) = near.parent().filter(|folder| !folder.as_os_str().is_empty()) {
        dialog = dialog.set_directory(folder);
    }
    match wish {
        Wish::Open | Wish::Catalogue | Wish::Policy | Wish::Table | Wish::Stock | Wish::Rates => dialog.pick_file(),
        Wish::Save | Wish::SaveStock | Wish::SaveRates => {
            let name = near.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
            dialog.set_file_name(name).save_file()
        }
    }
}
