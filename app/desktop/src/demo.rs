//! The builds of the demo catalogue, read once, and what each asks of somebody who begins from it.

use std::sync::{Arc, LazyLock};

use propwright_engine::{
    bill::{self, Given, Total, kit},
    craft::Craft,
    policy::Policy,
    purpose,
};
use propwright_schema::{
    build_list::{BuildList, Purpose},
    catalogue::Catalogue,
    kit::Kit,
    load::load_build,
    slot::Slot,
    value::Record,
};

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
        // How long it shall fly is the pilot's wish, not the demo's.
        purpose: said_first(&said.purpose, &Purpose { calm_min: None, ..demo.purpose.clone() }),
        pilot: said_first(&said.pilot, &demo.pilot),
        conditions: said_first(&said.conditions, &demo.conditions),
        ..owning_nothing(demo)
    })
}

/// The list with all of it still to be bought.
fn owning_nothing(mut build: BuildList) -> BuildList {
    build.parts.iter_mut().for_each(|line| line.owned = false);
    build
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
    /// A kit around its frame, with what the kit and all else cost.
    pub kit: Option<(String, Total)>,
}

/// All demo builds with the parts and prices of a catalogue.
pub fn beginnings(catalogue: &Catalogue) -> Vec<Beginning> {
    let given = Given::default();
    let each = builds().iter().map(|(file, build)| {
        let build = Arc::new(owning_nothing(BuildList::clone(build)));
        let craft = Craft::new(catalogue, &build);
        let bill = bill::bill(catalogue, &craft, &given);
        let kind = purpose::kind_of(&craft).unwrap_or_default();
        let priced = bill.unpriced().next().is_none();
        let frames = || build.fitted(Slot::Frame).map(|(_, line)| line.part.as_str());
        let around = |kit: &&Arc<Kit>| kit.contents.iter().any(|item| frames().any(|frame| item.part == frame));
        let kits = catalogue.kits().filter(|kit| !kit.retired && kit.price.is_some()).filter(around);
        let kits = kits.map(|kit| (kit.name.clone(), kit::price_with(catalogue, &build, kit, &Policy::default(), &given)));
        let kit = kits.min_by_key(|(_, total)| total.amounts.first().map(|amount| amount.minor()));
        Beginning { file, build, kind, cost: bill.total, priced, kit }
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
        assert_eq!((&begun.name, begun.parts.len()), (&demo.name, demo.parts.len()));
        assert!(
            demo.parts.iter().any(|line| line.owned) && begun.parts.iter().all(|line| !line.owned),
            "all is still to be bought"
        );
        assert_eq!((begun.purpose.indoors, begun.purpose.budget), (Some(true), said.purpose.budget));
        assert_eq!(begun.purpose.usage, demo.purpose.usage, "what was not said comes with it");
        said.name = "My first".to_owned();
        assert_eq!(super::begun(&said, propwright_sample::DEMO).unwrap().name, "My first");
    }
}
