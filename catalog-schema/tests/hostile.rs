//! Texts that are wrong in one place or in every place: each problem has its place, its part, its field and a hint.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use propwright_schema::{
    diagnostic::Diagnostic,
    load::{decode, load_build, load_catalogue, load_rates, load_stock},
};

/// A catalogue whose third line holds `fields` of a motor besides its id.
fn motor(fields: &str) -> String {
    format!("(\n  version: 1, parts: [\n    (id: \"m\", {fields}),\n  ],\n)\n")
}

fn problems(text: &str) -> Vec<Diagnostic> {
    let found = load_catalogue("my.ron", text).unwrap_err();
    for problem in &found {
        assert!(problem.hint.as_ref().is_some_and(|hint| !hint.is_empty()), "no hint: {problem}");
        assert_eq!(problem.file, "my.ron");
    }
    found
}

/// The one problem of a text: line and column, part, field, and words of its reason and hint.
#[track_caller]
fn expect(text: &str, place: (u32, u32), part: Option<&str>, field: Option<&str>, reason: &str, hint: &str) {
    let found = problems(text);
    let shown: Vec<String> = found.iter().map(ToString::to_string).collect();
    assert_eq!(found.len(), 1, "{shown:#?}");
    let problem = &found[0];
    assert_eq!((problem.line, problem.column), place, "{problem}");
    assert_eq!(problem.part.as_deref(), part, "{problem}");
    assert_eq!(problem.field.as_deref(), field, "{problem}");
    assert!(problem.reason.contains(reason), "{problem}");
    assert!(problem.hint.as_ref().unwrap().contains(hint), "{problem}");
}

/// As [`expect`] for the motor `m`, with the place of `mark` in its line.
#[track_caller]
fn expect_motor(fields: &str, mark: &str, field: &str, reason: &str, hint: &str) {
    let text = motor(fields);
    let line = text.lines().nth(2).unwrap();
    let column = u32::try_from(line.find(mark).unwrap()).unwrap() + 1;
    expect(&text, (3, column), Some("m"), Some(field), reason, hint);
}

const SOUND: &str =
    "name: \"M\", mass_g: 31.9, price: \"17.90 EUR\", fills: [Motor(kv_rpm_per_v: 1950, cells_min: 4, cells_max: 6)]";

#[test]
fn a_sound_catalogue_is_read() {
    let text = motor(SOUND);
    for text in [text.clone(), text.replace('\n', "\r\n"), text.replace('\n', " ")] {
        assert_eq!(load_catalogue("my.ron", &text).unwrap().parts.len(), 1);
    }
    let bytes = [b"\xEF\xBB\xBF", text.as_bytes()].concat();
    assert!(load_catalogue("my.ron", &decode("my.ron", &bytes).unwrap()).is_ok());
}

#[test]
fn wrong_types() {
    let kv = |value: &str| format!("name: \"M\", fills: [Motor(kv_rpm_per_v: {value}, poles: 14)]");
    expect_motor(&kv("\"1950\""), "\"1950\"", "kv_rpm_per_v", "expected a number, found \"1950\"", "kv_rpm_per_v: 1950");
    expect_motor(&kv("high"), "high", "kv_rpm_per_v", "found high", "from 20 to 40000");
    expect_motor("name: M, fills: [Motor()]", "M, ", "name", "expected a text in quotes, found M", "name: \"M\"");
    expect_motor("name: \"M\", retired: yes, fills: [Motor()]", "yes", "retired", "true or false", "retired: true");
    expect_motor("name: \"M\", pieces: -1, fills: [Motor()]", "-1", "pieces", "whole number", "pieces: 1");
    expect_motor("name: \"M\", fills: Motor()", "Motor", "fills", "expected a list", "fills: [Motor(");
    expect_motor("name: \"M\", fills: [Motor(pattern: \"16\")]", "\"16\"", "pattern", "hole centres", "\"16x16\"");
    expect_motor(
        "name: \"M\", priced_on: \"14.8.2026\", fills: [Motor()]",
        "\"14",
        "priced_on",
        "found \"14.8.2026\"",
        "2026-08-14",
    );
}

#[test]
fn misspelt_names() {
    expect_motor("name: \"M\", mas_g: 31.9, fills: [Motor()]", "mas_g", "mas_g", "no field \"mas_g\"", "mean \"mass_g\"");
    expect_motor("name: \"M\", fills: [Moter(poles: 14)]", "Moter", "fills", "\"Moter\"", "mean Motor");
    expect_motor("name: \"M\", fills: [Motor(fixing: Nutt)]", "Nutt", "fixing", "\"Nutt\"", "mean Nut");
    expect_motor("name: \"M\", fills: [Motor(mass_g: 31)]", "mass_g", "mass_g", "no field", "in the part itself");
    expect_motor("name: \"M\", poles: 14, fills: [Motor()]", "poles", "poles", "no field", "fills: [Motor(poles: …)]");
    expect_motor(
        "name: \"M\", basis: {\"mas_g\": Estimate}, fills: [Motor()]",
        "Estimate",
        "basis.mas_g",
        "no field",
        "\"mass_g\"",
    );
    expect_motor("name: \"M\", id: \"n\", fills: [Motor()]", "id: \"n\"", "id", "second time", "keep one");
    let text = "(version: 1, part: [])";
    expect(text, (1, 14), None, Some("part"), "no field \"part\"", "mean \"parts\"");
}

#[test]
fn numbers_that_are_none() {
    let mass = |value: &str| format!("name: \"M\", mass_g: {value}, fills: [Motor()]");
    for value in ["NaN", "inf", "-inf", "1e400"] {
        expect_motor(&mass(value), value, "mass_g", "finite", "plain number of g");
    }
    expect_motor(&mass("31,9"), "9, ", "mass_g", "31,9 is no number", "mass_g: 31.9");
    expect_motor(&mass("0.0319"), "0.0319", "mass_g", "finer than the smallest step", "did you mean 31.9 g?");
}

#[test]
fn figures_that_are_not_plausible() {
    let mass = |value: &str| format!("name: \"M\", mass_g: {value}, fills: [Motor()]");
    expect_motor(&mass("-31.9"), "-31.9", "mass_g", "-31.9 g is not plausible; expected 0.005 to 30000 g", "mean 31.9 g?");
    expect_motor(&mass("0"), "0,", "mass_g", "0 g is not plausible", "leave the field out");
    expect_motor(&mass("1e9"), "1e9", "mass_g", "1000000000 g", "check the figure");
    expect_motor(&mass("31900"), "31900", "mass_g", "31900 g", "mean 31.9 g?");
    let rail = "name: \"M\", fills: [Esc(rails: [(name: \"5V\", volts_v: 5), (name: \"9V\", volts_v: 9000)])]";
    expect_motor(rail, "9000", "rails.volts_v", "9000 V is not plausible; expected 1 to 60 V", "mean 9 V?");
    let cells = "name: \"M\", fills: [Motor(cells_min: 6, cells_max: 4)]";
    expect_motor(cells, "6, ", "cells_min", "6 is above cells_max, 4", "exchanged");
    expect_motor(
        "name: \"M\", fills: [Motor(cells_min: 25)]",
        "25",
        "cells_min",
        "25 is not plausible; expected 1 to 24",
        "check",
    );
    expect_motor("name: \"M\", fills: []", "[]", "fills", "fills no role", "Motor");
    expect_motor("name: \" \", fills: [Motor()]", "\" \"", "name", "blank", "write");
    expect_motor("name: \"M\\u{7}\", fills: [Motor()]", "\"M", "name", "control character", "take it out");
    expect_motor("name: \"M\", pieces: 0, fills: [Motor()]", "0, ", "pieces", "expected 1 to 10000", "write");
}

#[test]
fn money_is_quoted_with_its_currency() {
    let price = |value: &str| format!("name: \"M\", price: {value}, fills: [Motor()]");
    expect_motor(&price("389.5"), "389.5", "price", "389.5", "price: \"389.5 EUR\"");
    expect_motor(&price("\"389,50 EUR\""), "\"389", "price", "389,50", "price: \"389.50 EUR\"");
    expect_motor(&price("\"-5.00 EUR\""), "\"-5", "price", "below nothing", "leave");
    expect_motor(&price("\"10000000000.01 EUR\""), "\"100", "price", "at most 10000000000.00 EUR", "check");
    assert!(load_catalogue("my.ron", &motor(&price("\"10000000000.00 EUR\""))).is_ok());
}

#[test]
fn ids() {
    let text = "(version: 1, parts: [\n (id: \"My Motor\", name: \"M\", fills: [Motor()]),\n])";
    expect(text, (2, 7), Some("My Motor"), Some("id"), "'M'", "\"my-motor\"");
    let text =
        "(version: 1, parts: [\n (id: \"a\", name: \"M\", fills: [Motor()]),\n\n (id: \"a\", name: \"N\", fills: [Motor()])])";
    let found = problems(text);
    assert_eq!((found.len(), found[0].line, found[0].column), (1, 4, 7));
    assert!(found[0].reason.contains("second time") && found[0].hint.as_ref().unwrap().contains("line 2"));
    let text = "(version: 1, parts: [(name: \"M\", fills: [Motor()])])";
    expect(text, (1, 22), None, Some("id"), "\"id\" is missing", "id: ");
}

#[test]
fn versions() {
    expect("(version: 2, pars: 7, motors: {})", (1, 11), None, Some("version"), "version 2 is later than 1", "later version");
    expect("(version: 0)", (1, 11), None, Some("version"), "no version 0", "version: 1");
    expect("(parts: [])", (1, 1), None, Some("version"), "missing", "version: 1");
    expect("(version: \"1\")", (1, 11), None, Some("version"), "found \"1\"", "version: 1");
    expect("(version: 99999999999999999999)", (1, 11), None, Some("version"), "whole number", "version: 1");
}

#[test]
fn torn_texts() {
    let sound = motor(SOUND);
    let cut = &sound[..sound.find(", cells_max").unwrap()];
    expect(
        cut,
        (3, u32::try_from(cut.lines().last().unwrap().len()).unwrap() + 1),
        Some("m"),
        Some("cells_min"),
        "ends here",
        "cut off",
    );
    for text in ["", " \n ", "// nothing\n"] {
        let found = problems(text);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(text.starts_with("//") || found[0].reason.contains("empty"), "{found:?}");
    }
    let missing = "name: \"M\" mass_g: 3, fills: [Motor()]";
    expect_motor(missing, "mass_g", "name", "expected a comma", "comma");
    expect("{\"a\": 1}", (1, 1), None, None, "expected a record in ( )", "round brackets");
    let text = motor(SOUND) + "x";
    expect(&text, (6, 1), None, None, "expected the end", "one pair of brackets");
}

#[test]
fn every_faulty_record_reports() {
    let text = "(version: 1, nme: 2, parts: [
        (id: \"a\", name: \"A\", mass_g: \"x\", fills: [Motor(poles: 14)]),
        (id: \"b\", name: \"B\", fills: [Motor(poles: 14)]), // sound
        (id: \"c\", name: \"C\", price: 5, fills: [Motor(poles: 14.5, kv: 3, fixing: Nut), Esc(current_a: -5)]),
        (id: \"d\", name: \"D\", fills: [Motor(poles: 14),
        (id: \"e\", name: 5, fills: [Motor(poles: 1400)]),
        (id: \"f\", name: \"F\" fills: []),
        (id: \"g\", name: \"G\", fills: [Screw(length_mm: 0.2)]),
    ], kits: [(id: \"k\", name: \"K\", contents: [(part: \"a\")])])";
    let found = problems(text);
    let seen: Vec<(u32, Option<&str>, Option<&str>)> =
        found.iter().map(|problem| (problem.line, problem.part.as_deref(), problem.field.as_deref())).collect();
    for expected in [
        (1, None, Some("nme")),
        (2, Some("a"), Some("mass_g")),
        (4, Some("c"), Some("price")),
        (4, Some("c"), Some("poles")),
        (4, Some("c"), Some("kv")),
        (4, Some("c"), Some("current_a")),
    ] {
        assert!(seen.contains(&expected), "{expected:?} not in {seen:#?}");
    }
    assert!(seen.iter().any(|(_, part, _)| *part == Some("d")), "{seen:#?}");
    let rest = text.replace("Motor(poles: 14),\n", "Motor(poles: 14)]),\n");
    let seen: Vec<String> = problems(&rest).iter().map(ToString::to_string).collect();
    for expected in [
        "my.ron:6:25: part \"e\", field name",
        "part \"e\", field poles",
        "my.ron:7:29: part \"f\"",
        "part \"g\", field length_mm",
        "part \"k\", field contents.count",
    ] {
        assert!(seen.iter().any(|line| line.contains(expected)), "{expected} not in {seen:#?}");
    }
    assert!(!seen.iter().any(|line| line.contains("\"b\"")), "{seen:#?}");
}

#[test]
fn deep_and_large_nesting_ends_cleanly() {
    for bracket in ["[", "(", "{", "(a:", "[(", "/*", "\""] {
        let deep = bracket.repeat(if bracket == "[" { 10_000_000 } else { 500_000 });
        assert!(!problems(&deep).is_empty());
        let inside = format!("(version: 1, parts: [(id: \"x\", name: {deep}");
        assert_eq!(problems(&inside)[0].part.as_deref(), Some("x"), "{bracket}");
    }
    let closed = format!("(version: 1, parts: [(id: \"x\", name: \"X\", fills: {}{})])", "[".repeat(5000), "]".repeat(5000));
    expect(&closed, (1, 51), Some("x"), Some("fills"), "", "");
}

#[test]
fn bytes_that_are_no_utf_8() {
    let text = motor(SOUND);
    let utf_16: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let marked: Vec<u8> = [&b"\xFF\xFE"[..], &utf_16].concat();
    let zero = text.replace("31.9", "31\0.9").into_bytes();
    for (bytes, place) in [(utf_16, (1, 2)), (marked, (1, 1)), (zero, (3, 36))] {
        let found = decode("my.ron", &bytes).unwrap_err();
        assert_eq!((found[0].line, found[0].column), place, "{}", found[0]);
        assert!(found[0].hint.as_ref().unwrap().contains("UTF-8"));
    }
    assert!(!problems(&text.replace("31.9", "31\0.9")).is_empty());
}

#[test]
fn build_lists() {
    let build = |text: &str| load_build("b.ron", text).unwrap_err();
    let text = "(version: 1, name: \"B\", purpose: (path_km: 900), output_limit_percent: 0.8, parts: [
        (slot: Motr, part: \"a\"),
        (slot: Motor, part: \"a\", count: 0),
        (slot: Esc, part: \"b\", feed: Rail(\"\"), outputs: [1, 40], between_mm: -1),
    ])";
    let found: Vec<String> = build(text).iter().map(ToString::to_string).collect();
    for (at, expected) in [
        "b.ron:1:44: field purpose.path_km: 900 km is not plausible; expected 0.01 to 200 km\n    hint: did you mean 0.9 km?",
        "b.ron:1:72: field output_limit_percent: 0.8 % is not plausible; expected 20 to 100 %\n    hint: did you mean 80 %?",
        "b.ron:2:16: part \"a\", field slot: \"Motr\" is none of the words here\n    hint: did you mean Motor?",
        "b.ron:3:41: part \"a\", field count: 0 is no number of pieces; expected 1 to 200\n    hint:",
        "b.ron:4:38: part \"b\", field feed: the text is blank",
        "b.ron:4:61: part \"b\", field outputs: 40 is no motor output; expected 1 to 32",
        "b.ron:4:78: part \"b\", field between_mm: -1 mm is not plausible; expected 0 to 50 mm",
    ]
    .iter()
    .enumerate()
    {
        assert!(found[at].starts_with(expected), "{} is not {expected}", found[at]);
    }
    assert_eq!(found.len(), 7);
    let missing: Vec<String> = build("(version: 1)").iter().map(ToString::to_string).collect();
    assert!(missing[0].contains("field name: the field \"name\" is missing"), "{missing:?}");
}

/// The problems of a text: each stands at the place of a mark in it and begins with the words behind it.
#[track_caller]
fn problems_at(text: &str, found: &[Diagnostic], expected: &[(&str, &str)]) {
    let found: Vec<String> = found.iter().map(ToString::to_string).collect();
    assert_eq!(found.len(), expected.len(), "{found:#?}");
    for (mark, words) in expected {
        let before = &text[..text.find(mark).unwrap()];
        let (line, column) = (before.matches('\n').count() + 1, before.lines().last().map_or(0, |line| line.chars().count()) + 1);
        let column = if before.ends_with('\n') { 1 } else { column };
        let wanted = format!("f.ron:{line}:{column}: {words}");
        assert!(found.iter().any(|found| found.starts_with(&wanted)), "{wanted} is none of {found:#?}");
    }
}

#[test]
fn spares_and_charges() {
    let text = "(version: 1, name: \"B\", parts: [], spares: [
  (part: \"a b\", count: 0), (count: 2), (part: \"f\", arm: yes),
], shipping: [(name: \" \", price: \"-1.00 EUR\"), (name: \"Q\", price: 6.90)],
 tax: [(name: \"duty\")])";
    let expected = [
        ("\"a b\"", "part \"a b\", field part: the id \"a b\" holds"),
        ("0)", "part \"a b\", field count: 0 is no number of pieces; expected 1 to 200"),
        ("(count: 2)", "field part: the field \"part\" is missing\n    hint: add the short name"),
        ("yes", "part \"f\", field arm: expected true or false, found yes\n    hint: write arm: true or leave it out"),
        ("\" \"", "field name: the text is blank"),
        ("\"-1.00", "field price: -1.00 EUR is below nothing"),
        (
            "6.90)",
            "field price: expected an amount with its currency in quotes, such as \"389.50 EUR\", found 6.90\n    hint: write it in quotes with its currency: price: \"6.90 EUR\"",
        ),
        (
            "\"duty\"",
            "field name: the tax has neither an amount nor a share\n    hint: write price: \"3.30 EUR\" for a fixed amount",
        ),
    ];
    problems_at(text, &load_build("f.ron", text).unwrap_err(), &expected);
}

#[test]
fn shelves() {
    let text = "(version: 1, items: [(part: \"a\", cycles: 4000, mass_g: 0, resistance_mohm: 0.1),
  (part: \"b\", count: 10001, condition: Burnt, resistance_mohm: \"18 mohm\"), (part: \"c\", count: 10000)], shelf: 1)";
    let expected = [
        ("4000", "part \"a\", field cycles: 4000 is not plausible; expected 0 to 3000"),
        ("0, res", "part \"a\", field mass_g: 0 g is not plausible"),
        ("0.1)", "part \"a\", field resistance_mohm: 0.1 mΩ is not plausible; expected 0.5 to 5000 mΩ"),
        ("10001", "part \"b\", field count: 10001 is no number of pieces; expected 1 to 10000"),
        ("Burnt", "part \"b\", field condition: \"Burnt\" is none of the words here\n    hint: one of New, Used, Worn, Broken"),
        (
            "\"18 mohm\"",
            "part \"b\", field resistance_mohm: expected a number, found \"18 mohm\"\n    hint: write a plain number of mΩ: resistance_mohm: 18",
        ),
        ("shelf", "field shelf: there is no field \"shelf\" here"),
    ];
    problems_at(text, &load_stock("f.ron", text).unwrap_err(), &expected);
    for (count, fine) in [(0, false), (1, true), (10_000, true), (10_001, false)] {
        let text = format!("(version: 1, items: [(part: \"c\", count: {count})])");
        assert_eq!(load_stock("f.ron", &text).is_ok(), fine, "{count}");
    }
    assert!(load_stock("f.ron", "(version: 1)").unwrap().items.is_empty());
}

#[test]
fn exchange_rates() {
    let text = "(version: 1, rates: [(from: \"GBP\", to: \"eur\", rate: 1.17, on: \"20.11.2026\"),
 (from: \"ISK\", to: \"ISK\", rate: \"1\", on: \"2026-11-20\"), (from: \"USD\", to: \"EUR\", rate: \"0\", on: \"2026-11-20\"), (rate: \"2\")])";
    let expected = [
        (
            "\"eur\"",
            "field to: expected a currency by its three capital letters in quotes, such as \"EUR\", found \"eur\"\n    hint: write the three letters",
        ),
        (
            "1.17",
            "field rate: expected a decimal above 0 in quotes with at most 15 digits, such as \"1.17\", found 1.17\n    hint: write it in quotes with a point: rate: \"1.17\"",
        ),
        ("\"20.11", "field on: "),
        ("\"ISK\", rate", "field to: the rate leads from ISK to itself"),
        ("\"0\"", "field rate: expected a decimal above 0"),
        ("(rate: \"2\")", "field from: the field \"from\" is missing"),
        ("(rate: \"2\")", "field to: the field \"to\" is missing"),
        ("(rate: \"2\")", "field on: the field \"on\" is missing"),
    ];
    problems_at(text, &load_rates("f.ron", text).unwrap_err(), &expected);
    let rate = "(from: \"GBP\", to: \"EUR\", rate: \"1.17\", on: \"2026-11-20\")";
    let later = rate.replace("11-20", "11-21");
    assert!(load_rates("f.ron", &format!("(version: 1, rates: [{rate}, {later}])")).is_ok());
    let twice = format!("(version: 1, rates: [{rate},\n {later}, {}])", rate.replace("1.17", "1.2"));
    let expected =
        [("\"GBP\", to: \"EUR\", rate: \"1.2\"", "field from: a rate from GBP to EUR on 2026-11-20 stands here a second time")];
    problems_at(&twice, &load_rates("f.ron", &twice).unwrap_err(), &expected);
}
