//! The words by which parts are found, prepared once for each catalogue: it may hold tens of thousands of parts.

use std::sync::Arc;

use propwright_schema::{catalogue::Catalogue, part::Part};

use super::finder::PART;

/// All parts of a catalogue with what is looked at when they are searched, in lower case.
#[derive(Debug, Clone, Default)]
pub struct Words {
    parts: Vec<(String, Arc<Part>)>,
}

impl Words {
    /// The words of a catalogue.
    pub fn of(catalogue: &Catalogue) -> Self {
        let text = |part: &Part| format!("{} {PART}", part.name).to_lowercase();
        Self { parts: catalogue.parts().map(|part| (text(part), Arc::clone(part))).collect() }
    }

    /// The parts that hold all of these words, which are in lower case.
    pub fn parts<'a>(&'a self, words: &'a [String]) -> impl Iterator<Item = &'a Arc<Part>> {
        let holds = |text: &str| words.iter().all(|word| text.contains(word.as_str()));
        self.parts.iter().filter(move |(text, _)| holds(text)).map(|(_, part)| part)
    }
}
