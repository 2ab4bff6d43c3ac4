//! Who may know whom, and what may be touched where.

#![expect(clippy::unwrap_used, reason = "a test that cannot read its sources has failed")]

use std::{
    collections::BTreeMap,
    fs,
    path::{Path, PathBuf},
    process::Command,
};

/// Each crate and the crates of this workspace that it may know.
const LAYERS: [(&str, &[&str]); 6] = [
    ("propwright-schema", &[]),
    ("propwright-sample", &["propwright-schema"]),
    ("propwright-engine", &["propwright-schema"]),
    ("propwright-paper", &["propwright-schema", "propwright-engine"]),
    ("propwright", &["propwright-schema", "propwright-sample", "propwright-engine", "propwright-paper"]),
    ("propwright-tests", &["propwright-schema", "propwright-sample", "propwright-engine", "propwright-paper", "propwright"]),
];

/// Crates of others that only some layers may know.
const OUTSIDE: [(&str, &[&str]); 6] = [
    ("eframe", &["propwright"]),
    ("egui", &["propwright", "propwright-tests"]),
    ("rfd", &["propwright"]),
    ("clap", &["propwright"]),
    ("petgraph", &["propwright-engine"]),
    ("uom", &["propwright-schema"]),
];

/// A word that stands only in some files: the word, where it is looked for, and the files and folders in which it may stand.
const WORDS: [(&str, &str, &[&str]); 16] = [
    ("fs", "", &["app/desktop/src/files.rs"]),
    (".exists()", "", &[]),
    ("Color32", "", &["app/desktop/src/theme.rs", "app/desktop/src/widget/"]),
    ("Instant", "", &["app/desktop/src/window.rs"]),
    ("SystemTime", "", &["app/desktop/src/files.rs"]),
    ("thread::", "", &["app/desktop/src/browse.rs", "app/desktop/src/worker.rs"]),
    ("HashMap", "", &[]),
    ("println!", "", &[]),
    ("format!", "app/engine/src/rules/", &["app/engine/src/rules/trial.rs"]),
    ("f64", "app/engine/src/bill/", &[]),
    ("f32", "app/engine/src/bill/", &[]),
    (".decimal(", "app/engine/src/bill/", &[]),
    ("f64", "catalog-schema/src/quantity/money.rs", &[]),
    ("f64", "catalog-schema/src/quantity/currency.rs", &[]),
    ("f64", "catalog-schema/src/rates.rs", &[]),
    ("evaluate(", "app/desktop/src/panel/", &[]),
];

fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

/// The crates of the workspace, each with the names that it depends on outside its own tests.
fn dependencies() -> BTreeMap<String, Vec<String>> {
    let arguments = ["metadata", "--format-version", "1", "--no-deps", "--offline"];
    let answer = Command::new(env!("CARGO")).args(arguments).current_dir(top()).output().unwrap();
    assert!(answer.status.success(), "{}", String::from_utf8_lossy(&answer.stderr));
    let metadata: serde_json::Value = serde_json::from_slice(&answer.stdout).unwrap();
    let packages = metadata["packages"].as_array().unwrap();
    let name = |value: &serde_json::Value| value["name"].as_str().unwrap().to_owned();
    let of = |package: &serde_json::Value| {
        let tests = name(package) == "propwright-tests";
        let all = package["dependencies"].as_array().unwrap().iter();
        all.filter(|dependency| tests || dependency["kind"] != "dev").map(name).collect()
    };
    packages.iter().map(|package| (name(package), of(package))).collect()
}

#[test]
fn each_layer_knows_only_those_below() {
    let found = dependencies();
    let listed: BTreeMap<&str, &[&str]> = LAYERS.into_iter().collect();
    assert_eq!(found.keys().map(String::as_str).collect::<Vec<_>>(), listed.keys().copied().collect::<Vec<_>>());
    for (layer, known) in &found {
        for other in known.iter().filter(|other| listed.contains_key(other.as_str())) {
            assert!(listed[layer.as_str()].contains(&other.as_str()), "{layer} must not know {other}");
        }
    }
}

#[test]
fn each_outside_crate_stays_in_its_layer() {
    for (layer, known) in dependencies() {
        for (outside, layers) in OUTSIDE {
            let held = !known.iter().any(|other| other == outside) || layers.contains(&layer.as_str());
            assert!(held, "{layer} must not know {outside}");
        }
    }
}

/// Every source file of the program, by its path from the top.
fn sources() -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    for place in ["app/engine/src", "app/paper/src", "app/desktop/src", "catalog-schema/src", "sample-catalog/src"] {
        collect(&top().join(place), &mut found);
    }
    assert!(found.len() > 50, "the sources were found");
    found
}

fn collect(folder: &Path, found: &mut BTreeMap<String, String>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            collect(&path, found);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            let name = path.strip_prefix(top()).unwrap().to_str().unwrap().replace('\\', "/");
            found.insert(name, program_text(&fs::read_to_string(&path).unwrap()));
        }
    }
}

/// A source without comments and without its tests at the end.
fn program_text(source: &str) -> String {
    let program = source.split("#[cfg(test)]\nmod ").next().unwrap_or_default();
    let code = |line: &str| line.split("//").next().unwrap_or_default().to_owned();
    program.lines().map(code).collect::<Vec<_>>().join("\n")
}

/// Does a word stand in the text, and not only as a piece of a longer one?
fn says(text: &str, word: &str) -> bool {
    let letter = |character: Option<char>| character.is_some_and(|character| character.is_alphanumeric() || character == '_');
    text.match_indices(word).any(|(at, _)| {
        let inner = |edge: Option<char>, neighbour: Option<char>| letter(edge) && letter(neighbour);
        let before = inner(word.chars().next(), text[..at].chars().next_back());
        let after = inner(word.chars().next_back(), text[at + word.len()..].chars().next());
        !before && !after
    })
}

#[test]
fn each_word_stays_in_its_files() {
    let mut slips = Vec::new();
    for (file, text) in sources() {
        for (word, place, allowed) in WORDS {
            let looked_for = file.starts_with(place) && !allowed.iter().any(|allowed| file.starts_with(allowed));
            if looked_for && says(&text, word) {
                slips.push(format!("{file}: {word}"));
            }
        }
    }
    assert_eq!(slips, Vec::<String>::new());
}

#[test]
fn each_allowed_place_is_there() {
    for (word, _, allowed) in WORDS {
        for place in allowed {
            assert!(top().join(place).exists(), "{place}, allowed for {word}, is gone");
        }
    }
}

#[test]
fn the_scan_sees_words() {
    let text = program_text("use std::fs; // HashMap\nlet instants = 1;\n#[cfg(test)]\nmod tests { thread::spawn }");
    assert!(says(&text, "fs"));
    for word in ["HashMap", "Instant", "thread::"] {
        assert!(!says(&text, word), "{word}");
    }
    assert!(says("a.exists()", ".exists()") && !says("offs", "fs") && !says("fs_path", "fs"));
}
