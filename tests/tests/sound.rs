//! Sound builds beyond the reference ones: every rule lets them fly, and what little is tight a builder would call tight, too.
//!
//! The head of each file in `tests/sound` lists its tight findings, each with the reason why a builder agrees:
//! `// tight: rule - why`.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::{collections::BTreeMap, fs, path::PathBuf};

use propwright_engine::{explain, finding::Status};
use propwright_schema::{build_list::BuildList, load::load_build, validate::check_references};
use propwright_tests::sample;

/// Fewest builds in all, fewest of a class, most tight findings of one, fewest lines that differ from every reference build.
const BUILDS: usize = 20;
const A_CLASS: usize = 3;
const TIGHT: usize = 3;
const OTHER_LINES: usize = 4;

struct Sound {
    name: String,
    text: String,
    build: BuildList,
}

fn all() -> Vec<Sound> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("sound");
    let mut paths: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    let read = |path: PathBuf| {
        let (name, text) = (path.file_stem().unwrap().to_string_lossy().into_owned(), fs::read_to_string(&path).unwrap());
        let build = load_build(&name, &text).unwrap();
        Sound { name, text, build }
    };
    paths.into_iter().map(read).collect()
}

/// The rules that the head of a file calls tight, each with a reason.
fn called_tight(text: &str) -> Vec<&str> {
    let each = text.lines().filter_map(|line| line.strip_prefix("// tight: "));
    let mut rules: Vec<&str> = each
        .map(|line| {
            let (rule, why) = line.split_once(" - ").unwrap();
            assert!(why.len() > 15, "{line}");
            rule
        })
        .collect();
    rules.sort_unstable();
    rules
}

#[test]
fn nothing_stands_in_the_way_of_a_sound_build() {
    let catalogue = sample::catalogue();
    for Sound { name, text, build } in all() {
        assert_eq!(check_references(&build, &text, &name, &catalogue), [], "{name}");
        let report = sample::report(&catalogue, &build);
        let of = |status: Status| report.findings.iter().filter(move |finding| finding.status() == status);
        let mismatches: Vec<String> = of(Status::Mismatch).map(explain::message).collect();
        assert_eq!(mismatches, Vec::<String>::new(), "{name}");
        let mut tight: Vec<&str> = of(Status::Tight).map(|finding| finding.rule).collect();
        tight.sort_unstable();
        let said: Vec<String> = of(Status::Tight).map(explain::message).collect();
        assert_eq!(tight, called_tight(&text), "{name}: {said:#?}");
        assert!(tight.len() <= TIGHT, "{name}: {said:#?}");
    }
}

#[test]
fn there_are_enough_and_each_is_one_of_its_own() {
    let (all, reference) = (all(), sample::reference());
    assert!(all.len() >= BUILDS, "{}", all.len());
    let mut classes: BTreeMap<&str, usize> = BTreeMap::new();
    for Sound { name, build, .. } in &all {
        *classes.entry(build.purpose.usage.unwrap().word()).or_default() += 1;
        for (other, other_build) in &reference {
            let same = |fitted: &&propwright_schema::build_list::Fitted| {
                other_build.parts.iter().any(|other| other.slot == fitted.slot && other.part == fitted.part)
            };
            let differ = build.parts.iter().filter(|fitted| !same(fitted)).count();
            assert!(differ >= OTHER_LINES, "{name} is {other} but for {differ} lines");
        }
    }
    assert_eq!(classes.len(), 6);
    assert!(classes.values().all(|count| *count >= A_CLASS), "{classes:?}");
}

#[test]
fn reference_builds_are_little_tight() {
    let catalogue = sample::catalogue();
    for (name, build) in sample::reference() {
        let report = sample::report(&catalogue, &build);
        let tight: Vec<String> =
            report.findings.iter().filter(|finding| finding.status() == Status::Tight).map(explain::message).collect();
        assert!(tight.len() <= TIGHT, "{name}: {tight:#?}");
    }
}
