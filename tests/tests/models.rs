//! Every model says where it comes from and where it holds, shows a figure that runs, and is tested.

use std::{fs, path::Path};

/// Files that hold no model of their own: what all share, laws over several, and a part of the blade elements.
const NO_MODEL: [&str; 5] = ["mod.rs", "error.rs", "laws.rs", "printed.rs", "blade.rs"];

/// The public functions whose documentation asserts nothing.
fn without_example(text: &str) -> Vec<&str> {
    let code = text.split("#[cfg(test)]").next().unwrap_or_default();
    let (mut shown, mut bare) = (false, Vec::new());
    for line in code.lines().map(str::trim_start) {
        if line.starts_with("///") {
            shown |= line.contains("/// assert");
        } else if !line.starts_with("#[") {
            let name =
                line.strip_prefix("pub ").map(|line| line.trim_start_matches("const ")).and_then(|line| line.strip_prefix("fn "));
            bare.extend(name.filter(|_| !shown));
            shown = false;
        }
    }
    bare
}

#[test]
fn every_model_says_its_source_its_range_and_an_example() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../app/engine/src/models");
    let mut seen = 0;
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|ending| ending != "rs") {
            continue;
        }
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        if NO_MODEL.contains(&name.as_str()) {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap();
        let head: Vec<&str> = text.lines().take_while(|line| line.starts_with("//!")).collect();
        let head = head.join("\n").to_lowercase();
        assert!(head.contains("source"), "{name} names no source");
        assert!(head.contains("valid"), "{name} does not say where it holds");
        let bare = without_example(&text);
        assert!(bare.is_empty(), "{name} shows no figure that runs at {bare:?}");
        assert!(text.contains("#[test]"), "{name} is not tested");
        seen += 1;
    }
    assert!(seen >= 20, "the models were found: {seen}");
}
