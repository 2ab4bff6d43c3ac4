//! The demo catalogue and builds, read.

use std::{fs, path::PathBuf, sync::Arc};

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

/// More sound builds, with their names, beside those that the program carries.
pub fn sound() -> Vec<(String, BuildList)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("sound");
    let mut paths: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|extension| extension == "ron"));
    paths.sort();
    let build = |path: &PathBuf| {
        let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
        let build = load_build(&name, &fs::read_to_string(path).unwrap()).unwrap();
        (name, build)
    };
    paths.iter().map(build).collect()
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
