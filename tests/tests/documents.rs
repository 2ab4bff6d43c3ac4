//! The generated parts of the documents are up to date, and the documents speak of no file that is not there.
#![expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]

use std::{fs, path::Path};

fn read(name: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(name)).unwrap()
}

#[test]
fn generated_tables_are_up_to_date() {
    for name in ["DEVELOPERS.md", "README.md"] {
        let text = read(name);
        let refreshed = propwright_tests::documents::refreshed(name, &text).unwrap();
        assert!(text == refreshed, "{name}: run `cargo run -p propwright-tests --bin documents`");
    }
}

#[test]
fn pictures_and_files_exist() {
    for document in ["README.md", "DEVELOPERS.md"] {
        let text = read(document);
        for link in text.split("](").skip(1).filter_map(|rest| rest.split(')').next()) {
            if link.contains("://") || link.starts_with('#') {
                continue;
            }
            let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(link.split('#').next().unwrap());
            assert!(path.is_file() || path.is_dir(), "{document}: {link}");
        }
    }
}
