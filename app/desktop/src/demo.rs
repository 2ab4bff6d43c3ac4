//! The builds of the demo catalogue, read once.

use std::sync::{Arc, LazyLock};

use propwright_schema::{build_list::BuildList, load::load_build};

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

#[cfg(test)]
mod tests {
    #[test]
    fn every_demo_build_is_read() {
        assert_eq!(super::builds().len(), propwright_sample::REFERENCE.len());
        assert!(super::build(propwright_sample::DEMO).is_some_and(|build| !build.parts.is_empty()));
    }
}
