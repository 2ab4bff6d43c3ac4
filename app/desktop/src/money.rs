//! What can be done with money besides editing the list: the shelf, the rates, and what is worked out for the page of costs.

use std::path::PathBuf;

use propwright_schema::rates::Rate;

use crate::{
    browse::Wish,
    state::{DocumentId, Section},
};

/// A change of shelf, rates or the page of costs.
#[derive(Debug, Clone)]
pub enum Money {
    /// Shows a section of the page.
    Section(Section),
    /// Works out what the section shows.
    Ask(DocumentId),
    /// Opens the system's file dialog.
    Browse(Wish),
    /// Reads the shelf from a file.
    OpenStock(PathBuf),
    /// Writes the shelf into a file, which is its own from then on.
    SaveStock(PathBuf),
    /// Takes the invented shelf and rates of the demo.
    Demo,
    /// Does without a shelf.
    CloseStock,
    /// Reads exchange rates from a file.
    OpenRates(PathBuf),
    /// Writes the rates into a file, which is theirs from then on.
    SaveRates(PathBuf),
    /// Gives a rate, in place of one of the same currencies and day.
    Rate(Rate),
    /// Takes a rate out, by its place.
    RemoveRate(usize),
    /// The parts of a build go into the craft; what packs leave over goes on the shelf.
    Build(DocumentId),
    /// Puts all that lies in a kit's box on the shelf, by its id.
    Bought(String),
    /// Puts a piece of a part on the shelf, by its id.
    Own(String),
    /// The parts of a craft come back to the shelf.
    TakeApart(DocumentId),
    /// Sets a build beside the one that is shown, or not.
    Beside(DocumentId, bool),
    /// Flies a build after the one that is shown, or not.
    Then(DocumentId, bool),
    /// Opens a build of the demo, by its name, without showing it.
    Example(&'static str),
}
