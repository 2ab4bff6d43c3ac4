//! The demo catalogue and builds, read.

use std::sync::Arc;

use propwright_engine::{Report, evaluate, policy::Policy};
use propwright_sample::{CATALOGUE, DEMO, FLAWED, REFERENCE};
use propwright_schema::{
    build_list::BuildList,
    catalogue::Catalogue,
    load::{load_build, load_catalogue},
};

/// The demo catalogue.
pub fn catalogue() -> Catalogue {
    let mut catalogue = Catalogue::default();
    for (file, text) in CATALOGUE {
        let shadowed = catalogue.lay_over(&load_catalogue(file, text).unwrap());
        assert!(shadowed.is_empty(), "{file} holds {shadowed:?} again");
    }
    catalogue
}

/// The sound builds with their names.
pub fn reference() -> Vec<(&'static str, BuildList)> {
    read(REFERENCE)
}

/// The builds with one fault, each with the rule that finds it.
pub fn flawed() -> Vec<(&'static str, BuildList)> {
    read(FLAWED)
}

/// The demo build.
pub fn demo() -> BuildList {
    reference().into_iter().find(|(name, _)| *name == DEMO).unwrap().1
}

/// The text of the demo build.
pub fn demo_text() -> &'static str {
    REFERENCE.iter().find(|(name, _)| *name == DEMO).unwrap().1
}

fn read(builds: &'static [(&'static str, &'static str)]) -> Vec<(&'static str, BuildList)> {
    builds.iter().map(|(name, text)| (*name, load_build(name, text).unwrap())).collect()
}

/// The report by the program's own thresholds.
pub fn report(catalogue: &Catalogue, build: &BuildList) -> Report {
    evaluate(catalogue, &Arc::new(build.clone()), &Policy::default())
}
