//! A folder for one test.

use std::{
    collections::BTreeMap,
    fs,
    path::{Path, PathBuf},
};

/// A folder that goes with its test, unless the test fails.
#[derive(Debug)]
pub struct Scratch(PathBuf);

impl Scratch {
    /// The empty folder of a test, by the test's name.
    pub fn new(test: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("propwright-tests-{}", std::process::id())).join(test);
        if folder.is_dir() {
            fs::remove_dir_all(&folder).unwrap();
        }
        fs::create_dir_all(&folder).unwrap();
        Self(folder)
    }

    /// The folder.
    pub fn folder(&self) -> &Path {
        &self.0
    }

    /// Writes a file in it.
    pub fn file(&self, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
        let path = self.0.join(name);
        fs::write(&path, bytes).unwrap();
        path
    }

    /// What it holds: each name with its bytes; a folder within with none.
    pub fn holds(&self) -> BTreeMap<String, Vec<u8>> {
        let entries = fs::read_dir(&self.0).unwrap().map(|entry| entry.unwrap());
        entries
            .map(|entry| (entry.file_name().to_str().unwrap().to_owned(), fs::read(entry.path()).unwrap_or_default()))
            .collect()
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        if !std::thread::panicking() {
            let _ = fs::remove_dir_all(&self.0);
        }
    }
}
