//! The builds of the demo catalogue, read once, and what each asks of somebody who begins from it.

use std::sync::{Arc, LazyLock};

use propwright_engine::{
    bill::{self, Given, Total},
    craft::Craft,
    purpose,
};
use propwright_schema::{build_list::BuildList, catalogue::Catalogue, load::load_build, value::Record};

/// A demo build with the name of its file.
pub type Demo = (&'static str, Arc<BuildList>);

static BUILDS: LazyLock<Vec<Demo>> = LazyLock::new(|| {
    let read = |(file, text): &(&'static str, &str)| Some((*file, Arc::new(load_build(file, text).ok()?)));
    propwright_sample::REFERENCE.iter().filter_map(read).collect()
});

/// All that can be read; a test holds that these are all of them.
pub fn builds() -> &'static [Demo] {
    &BUILDS
}

/// A build by the name of its file.
pub fn build(file: &str) -> Option<BuildList> {
    builds().iter().find(|(name, _)| *name == file).map(|(_, build)| BuildList::clone(build))
}

/// Name of a build that has none yet.
pub const NEW: &str = "New build";

/// The parts of a demo build; of name, note, purpose, pilot and day what a list says already stays. `None` where there is no such
/// build.
pub fn begun(said: &BuildList, file: &str) -> Option<BuildList> {
    let demo = build(file)?;
    Some(BuildList {
        name: if said.name == NEW { demo.name.clone() } else { said.name.clone() },
        note: said.note.clone().or_else(|| demo.note.clone()),
        purpose: said_first(&said.purpose, &demo.purpose),
        pilot: said_first(&said.pilot, &demo.pilot),
        conditions: said_first(&said.conditions, &demo.conditions),
        ..demo
    })
}

fn said_first<R: Record + Clone>(said: &R, other: &R) -> R {
    let mut both = other.clone();
    for field in R::FIELDS {
        if let Some(value) = said.get(field.name) {
            both.set(field.name, Some(&value));
        }
    }
    both
}

/// A demo build with what it asks of somebody who owns nothing.
#[derive(Debug, Clone)]
pub struct Beginning {
    /// Name of its file.
    pub file: &'static str,
    /// The list.
    pub build: Arc<BuildList>,
    /// What kind of craft it is.
    pub kind: String,
    /// What all of it costs, what stays on the ground included.
    pub cost: Total,
    /// Has every part a price?
    pub priced: bool,
}

/// All demo builds with the parts and prices of a catalogue.
pub fn beginnings(catalogue: &Catalogue) -> Vec<Beginning> {
    let each = builds().iter().map(|(file, build)| {
        let craft = Craft::new(catalogue, build);
        let bill = bill::bill(catalogue, &craft, &Given::default());
        let kind = purpose::kind_of(&craft).unwrap_or_default();
        let priced = bill.unpriced().next().is_none();
        Beginning { file, build: Arc::clone(build), kind, cost: bill.total, priced }
    });
    each.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_demo_build_is_read() {
        assert_eq!(super::builds().len(), propwright_sample::REFERENCE.len());
        assert!(super::build(propwright_sample::DEMO).is_some_and(|build| !build.parts.is_empty()));
    }

    #[test]
    fn what_was_said_stays_when_a_build_is_begun_from() {
        let mut said = BuildList::empty(NEW);
        said.purpose.indoors = Some(true);
        said.purpose.budget = "300.00 EUR".parse().ok();
        let begun = begun(&said, propwright_sample::DEMO).unwrap();
        let demo = build(propwright_sample::DEMO).unwrap();
        assert_eq!((&begun.name, &begun.parts), (&demo.name, &demo.parts));
        assert_eq!((begun.purpose.indoors, begun.purpose.budget), (Some(true), said.purpose.budget));
        assert_eq!(begun.purpose.usage, demo.purpose.usage, "what was not said comes with it");
        said.name = "My first".to_owned();
        assert_eq!(super::begun(&said, propwright_sample::DEMO).unwrap().name, "My first");
    }
}
