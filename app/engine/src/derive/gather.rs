//! Collects what a model needs, with the reason of each figure, and stops at the first that nobody published.

use std::sync::Arc;

use crate::{
    craft::Subject,
    finding::{Because, Datum, Missing, Unknown},
    graph::{Derived, Property, Reading, Site},
    interval::Interval,
};

/// What was read so far.
pub(super) struct Gather<'a, 'b> {
    site: &'a Site<'b>,
    /// The part whose own figures are read; of other slots the first part counts.
    subject: Option<Subject>,
    /// Reasons of all that was read.
    pub(super) from: Vec<Arc<Because>>,
}

impl<'a, 'b> Gather<'a, 'b> {
    pub(super) const fn new(site: &'a Site<'b>) -> Self {
        Self { site, subject: None, from: Vec::new() }
    }

    /// Reads the figures of one part where its slot is asked for.
    pub(super) const fn of(site: &'a Site<'b>, subject: Option<Subject>) -> Self {
        Self { site, subject, from: Vec::new() }
    }

    fn read(&self, property: Property) -> Result<Reading, Missing> {
        match &self.subject {
            Some(subject) if property.slot() == Some(subject.slot) => self.site.of(subject, property),
            _ => self.site.one(property),
        }
    }

    /// A figure in SI units that the model cannot do without.
    pub(super) fn need(&mut self, property: Property) -> Result<f64, Missing> {
        let reading = self.read(property)?;
        let figure = reading.si()?;
        self.from.push(reading.because);
        Ok(figure)
    }

    /// A figure in SI units, if somebody published it; whether it was measured is told beside it.
    pub(super) fn maybe(&mut self, property: Property) -> Option<f64> {
        let reading = self.read(property).ok()?;
        let figure = reading.si().ok()?;
        self.from.push(reading.because);
        Some(figure)
    }

    /// Is the figure of a part's record only estimated?
    pub(super) fn is_estimated(&self, property: Property) -> bool {
        self.read(property).is_ok_and(|reading| reading.known.is_ok() && reading.is_estimated())
    }

    /// A word that the model cannot do without.
    pub(super) fn word(&mut self, property: Property) -> Result<String, Missing> {
        let reading = self.read(property)?;
        let word = reading.word()?.to_owned();
        self.from.push(reading.because);
        Ok(word)
    }

    /// A word, if somebody said it.
    pub(super) fn maybe_word(&mut self, property: Property) -> Option<String> {
        self.word(property).ok()
    }

    /// A whole reading, whether its value is known or not; nothing when the slot is empty.
    pub(super) fn reading(&mut self, property: Property) -> Option<Reading> {
        let reading = self.read(property).ok()?;
        if reading.known.is_ok() {
            self.from.push(reading.because.clone());
        }
        Some(reading)
    }

    /// Something taken as usual, said so.
    pub(super) fn assume(&mut self, text: &'static str, datum: Option<Interval>) {
        self.from.push(Because::assumption(text, datum.map(Datum::Figure)));
    }

    /// The result as one value of the craft; an empty slot gives none.
    pub(super) fn one(self, known: Result<Datum, Missing>) -> Vec<Derived> {
        match known {
            Err(Missing { what: Unknown::Empty(_), .. }) => Vec::new(),
            known => vec![Derived { subject: None, known, from: self.from, count: 1 }],
        }
    }
}
