//! Files that nobody should write: each is refused with its place, a reason and a hint; nothing is answered, nothing written.

#![expect(clippy::unwrap_used, reason = "a test that cannot write its files has failed")]

use std::{ffi::OsString, fs, path::Path};

use propwright::cli::Exit;
use propwright_tests::{
    command_line::{Answered, path, propwright},
    sample,
    scratch::Scratch,
};

const PART: &str = r#"(id: "m", name: "M", mass_g: 31.9, price: "17.50 EUR", fills: [Motor(kv_rpm_per_v: 1950)])"#;

fn catalogue(part: &str) -> Vec<u8> {
    format!("(\n    version: 1,\n    parts: [\n        {part},\n    ],\n)\n").into_bytes()
}

fn with(old: &str, new: &str) -> Vec<u8> {
    assert!(PART.contains(old));
    catalogue(&PART.replace(old, new))
}

fn utf_16(text: &str) -> Vec<u8> {
    [0xFF, 0xFE].into_iter().chain(text.encode_utf16().flat_map(u16::to_le_bytes)).collect()
}

/// Broken catalogues: the bytes, and words of which the message must hold each.
fn catalogues() -> Vec<(&'static str, Vec<u8>, &'static [&'static str])> {
    let sound = catalogue(PART);
    vec![
        ("truncated", sound[..sound.len() / 2].to_vec(), &[]),
        ("wrong type", with("31.9", "\"heavy\""), &["mass_g", "\"m\""]),
        ("unknown field", with("mass_g", "mas_g"), &["mas_g", "mass_g"]),
        ("unknown field of a role", with("kv_rpm_per_v", "kv_rpm_per_volt"), &["kv_rpm_per_volt", "kv_rpm_per_v", "\"m\""]),
        ("unknown role", with("Motor", "Moter"), &["Moter", "Motor", "\"m\""]),
        ("not a number", with("31.9", "NaN"), &["mass_g", "\"m\""]),
        ("infinite", with("31.9", "inf"), &["mass_g", "\"m\""]),
        ("beyond any number", with("31.9", "1e400"), &["mass_g", "\"m\""]),
        ("negative mass", with("31.9", "-31.9"), &["mass_g", "\"m\"", "-31.9"]),
        ("no mass at all", with("31.9", "0"), &["mass_g", "\"m\""]),
        ("bare price", with("\"17.50 EUR\"", "17.50"), &["price", "EUR"]),
        ("same id twice", catalogue(&format!("{PART},\n        {PART}")), &["\"m\"", "5:"]),
        ("no name", with("id: \"m\"", "id: \"\""), &["id"]),
        ("brackets", vec![b'('; 10 * 1024 * 1024], &[]),
        ("brackets in a part", catalogue(&"[".repeat(1024 * 1024)), &[]),
        ("UTF-16", utf_16("(version: 1, parts: [])"), &["UTF-16", "UTF-8"]),
        ("no UTF-8", b"(version: 1, parts: [\xFF])".to_vec(), &["UTF-8"]),
        ("zero bytes", vec![0; 4096], &[]),
        ("empty", Vec::new(), &[]),
        ("a later version", b"(version: 2, parts: [], wings: [])".to_vec(), &["version", "2", "1"]),
        ("no version", b"(parts: [])".to_vec(), &["version"]),
        ("something else", b"<html><body>404</body></html>".to_vec(), &[]),
    ]
}

/// Broken build lists.
fn builds() -> Vec<(&'static str, Vec<u8>, &'static [&'static str])> {
    let sound = sample::demo_text();
    let first = sample::demo().parts.remove(0).part;
    let with = |old: &str, new: &str| {
        assert!(sound.contains(old), "{old}");
        sound.replacen(old, new, 1).into_bytes()
    };
    vec![
        ("truncated", sound.as_bytes()[..sound.len() / 2].to_vec(), &[]),
        ("wrong type", with("version: 1", "version: \"one\""), &["version"]),
        ("unknown field", with("name:", "nam:"), &["nam", "name"]),
        ("unknown slot", with("slot: Frame", "slot: Frime"), &["Frime", "Frame"]),
        ("unknown part", with(&first, "nobodys-frame"), &["nobodys-frame"]),
        ("part of another slot", with("slot: Frame", "slot: Motor"), &["Motor"]),
        ("not a number", with("purpose: (", "purpose: (payload_g: NaN, "), &["payload_g"]),
        ("beyond any number", with("purpose: (", "purpose: (payload_g: 1e400, "), &["payload_g"]),
        ("negative", with("purpose: (", "purpose: (payload_g: -1, "), &["payload_g"]),
        ("negative count", with("count: 4", "count: -4"), &["count"]),
        ("no count", with("count: 4", "count: 0"), &["count"]),
        ("too many", with("count: 4", "count: 4000000000"), &["count"]),
        ("brackets", vec![b'['; 10 * 1024 * 1024], &[]),
        ("UTF-16", utf_16(sound), &["UTF-16", "UTF-8"]),
        ("a later version", with("version: 1", "version: 2"), &["version", "2", "1"]),
        ("a catalogue", catalogue(PART), &[]),
    ]
}

/// Place, reason and hint in `text`.
fn explains(name: &str, text: &str, file: &Path, words: &[&str]) {
    let named = format!("{}:", file.display());
    assert!(text.starts_with(&named), "{name}: {text}");
    let mut place = text[named.len()..].splitn(3, ':');
    for number in ["line", "column"] {
        let figure = place.next().unwrap();
        assert!(figure.parse::<u32>().is_ok_and(|figure| figure > 0), "{name}: {number} is {figure:?}: {text}");
    }
    assert!(text.contains("hint: "), "{name}: {text}");
    assert!(text.len() < 20_000, "{name}: a message of {} bytes", text.len());
    for word in words {
        assert!(text.contains(word), "{name}: {word} is missing of {text}");
    }
}

fn refused(name: &str, answered: &Answered, file: &Path, words: &[&str]) {
    assert_eq!((answered.exit, answered.out.as_str()), (Exit::Refused, ""), "{name}");
    explains(name, &answered.err, file, words);
}

fn arguments(words: &[&str], last: &Path) -> Vec<OsString> {
    words.iter().map(Into::into).chain([path(last)]).collect()
}

#[test]
fn a_broken_build_is_refused() {
    let scratch = Scratch::new("a_broken_build_is_refused");
    for (name, bytes, words) in builds() {
        let file = scratch.file("build.ron", &bytes);
        let before = scratch.holds();
        for form in [&["check"][..], &["check", "--json"]] {
            refused(name, &propwright(arguments(form, &file)), &file, words);
        }
        assert_eq!(scratch.holds(), before, "{name}: nothing is written");
    }
}

#[test]
fn a_broken_catalogue_is_refused() {
    let scratch = Scratch::new("a_broken_catalogue_is_refused");
    let build = scratch.file("build.ron", sample::demo_text());
    for (name, bytes, words) in catalogues() {
        let file = scratch.file("catalogue.ron", &bytes);
        let before = scratch.holds();
        let args = arguments(&["check", build.to_str().unwrap(), "--catalog"], &file);
        refused(name, &propwright(args), &file, words);
        assert_eq!(scratch.holds(), before, "{name}: nothing is written");
    }
}

#[test]
fn a_broken_catalogue_is_the_answer_of_catalog_check() {
    let scratch = Scratch::new("a_broken_catalogue_is_the_answer_of_catalog_check");
    for (name, bytes, words) in catalogues() {
        let file = scratch.file("catalogue.ron", &bytes);
        let before = scratch.holds();
        let answered = propwright(arguments(&["catalog", "check"], &file));
        assert_eq!((answered.exit, answered.err.as_str()), (Exit::Found, ""), "{name}");
        explains(name, &answered.out, &file, words);
        let json = propwright(arguments(&["catalog", "check", "--json"], &file)).json();
        let problem = &json["problems"][0];
        assert!(problem["line"].as_u64().unwrap() > 0 && problem["column"].as_u64().unwrap() > 0, "{name}: {problem}");
        assert!(problem["hint"].is_string(), "{name}: {problem}");
        assert_eq!(scratch.holds(), before, "{name}: nothing is written");
    }
}

#[test]
fn a_folder_or_nothing_is_refused() {
    let scratch = Scratch::new("a_folder_or_nothing_is_refused");
    let folder = scratch.folder().join("folder.ron");
    fs::create_dir(&folder).unwrap();
    let absent = scratch.folder().join("absent.ron");
    let build = scratch.file("build.ron", sample::demo_text());
    for (file, words) in [(&folder, &["folder"][..]), (&absent, &["no such file"])] {
        refused("build", &propwright(arguments(&["check"], file)), file, words);
        let args = arguments(&["check", build.to_str().unwrap(), "--catalog"], file);
        refused("catalogue", &propwright(args), file, words);
        let answered = propwright(arguments(&["catalog", "check"], file));
        assert_eq!((answered.exit, answered.err.as_str()), (Exit::Found, ""));
        explains("catalog check", &answered.out, file, words);
    }
}

#[test]
fn the_largest_file_that_is_read() {
    let scratch = Scratch::new("the_largest_file_that_is_read");
    let file = scratch.folder().join("large.ron");
    fs::File::create(&file).unwrap().set_len(propwright_schema::load::MOST_BYTES as u64 + 1).unwrap();
    refused("large", &propwright(arguments(&["check"], &file)), &file, &["larger"]);
}

#[test]
fn names_from_files_cannot_steer_a_terminal() {
    let scratch = Scratch::new("names_from_files_cannot_steer_a_terminal");
    let texts = [
        sample::demo_text().replacen("name: \"", "name: \"\\u{1b}]0;x\\u{7}\\u{9b}31m\\u{202e}", 1),
        sample::demo_text().replacen("part: \"", "part: \"\\u{1b}[2J", 1),
        sample::demo_text().replacen("version", "\u{1b}[31mversion", 1),
    ];
    for text in texts {
        let file = scratch.file("build.ron", text);
        let answered = propwright(arguments(&["check"], &file));
        for said in [&answered.out, &answered.err] {
            let steering =
                said.chars().find(|character| (character.is_control() && *character != '\n') || *character == '\u{202e}');
            assert_eq!(steering, None, "{said}");
        }
    }
}
