//! Whatever the bytes are: a value that passes the checks, or at least one problem with a place in the text and a hint.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use proptest::prelude::*;
use propwright_schema::{
    diagnostic::Diagnostic,
    load::{decode, load_build, load_catalogue, load_rates, load_stock},
    save::{write_build, write_catalogue, write_stock},
};

const CATALOGUE: &str = r#"(
    version: 1,
    parts: [ // µ
        (id: "a", name: "A", mass_g: 31.9, price: "17.90 EUR", priced_on: "2026-08-14", fills: [Motor(poles: 14, pattern: "16x16")]),
        (id: "b", name: r"B", fills: [Esc(rails: [(name: "5V", volts_v: 5)]), Receiver()], basis: {"rails": Estimate}), /* x */
    ],
    kits: [(id: "k", name: "K", contents: [(part: "a", count: 4)])],
)
"#;
const BUILD: &str = r#"(version: 1, name: "B", purpose: (usage: Speed, path_km: 4), parts: [
    (slot: Motor, part: "a", count: 4, outputs: [1, 2, 3, 4]), (slot: Gps, part: "g", feed: Rail("5V"), uart: 2), // far
], spares: [(part: "a", count: 2), (part: "f", arm: true)], shipping: [(name: "Q", price: "6.90 EUR")])
"#;
const STOCK: &str = r#"(version: 1, items: [ // shelf
    (part: "a", count: 4, condition: Worn, mass_g: 31.9, resistance_mohm: 18.5, cycles: 40), (part: "b", note: "x"),
])
"#;
const RATES: &str = r#"(version: 1, rates: [(from: "GBP", to: "EUR", rate: "1.17", on: "2026-11-20"), /* old */
    (from: "GBP", to: "EUR", rate: "1.2", on: "2026-01-20")])
"#;
const FILES: [&str; 4] = [CATALOGUE, BUILD, STOCK, RATES];
/// Stretches that mean something to the form.
const STRETCHES: [&str; 22] = [
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    ",",
    ":",
    "\"",
    "\\",
    "//",
    "/*",
    "*/",
    "r#\"",
    "'",
    "-",
    "1e400",
    "NaN",
    "Some(",
    "\n",
    "µ",
    "id: \"a\", ",
];

fn check_problems(text: &str, problems: &[Diagnostic]) {
    assert!(!problems.is_empty());
    let lines = text.split('\n').count();
    for problem in problems {
        let line = usize::try_from(problem.line).unwrap();
        assert!((1..=lines).contains(&line), "{problem}");
        let length = text.split('\n').nth(line - 1).unwrap().chars().count();
        assert!((1..=length + 1).contains(&usize::try_from(problem.column).unwrap()), "{problem}");
        assert!(!problem.reason.is_empty() && problem.hint.is_some(), "{problem}");
    }
}

fn check(bytes: &[u8]) {
    let Ok(text) = decode("f", bytes) else { return };
    match load_catalogue("f", &text) {
        Ok(file) => {
            assert_eq!(write_catalogue(Some(&text), &file, &file).unwrap(), text);
            let anew = write_catalogue(None, &file, &file).unwrap();
            assert_eq!(load_catalogue("f", &anew).unwrap(), file);
        }
        Err(problems) => check_problems(&text, &problems),
    }
    match load_build("f", &text) {
        Ok(build) => assert_eq!(write_build(Some(&text), &build, &build).unwrap(), text),
        Err(problems) => check_problems(&text, &problems),
    }
    match load_stock("f", &text) {
        Ok(stock) => assert_eq!(write_stock(Some(&text), &stock, &stock).unwrap(), text),
        Err(problems) => check_problems(&text, &problems),
    }
    if let Err(problems) = load_rates("f", &text) {
        check_problems(&text, &problems);
    }
}

fn nearest_start(text: &str, at: usize) -> usize {
    let at = at % (text.len() + 1);
    (at..=text.len()).find(|at| text.is_char_boundary(*at)).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn arbitrary_bytes(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        check(&bytes);
    }

    #[test]
    fn stretches_in_any_order(order in prop::collection::vec(0..STRETCHES.len(), 0..60)) {
        let text: String = order.into_iter().map(|at| STRETCHES[at]).collect();
        check(text.as_bytes());
        check(format!("(version: 1, parts: [{text}").as_bytes());
    }

    #[test]
    fn sound_files_with_stretches_put_in_or_taken_out(
        file in 0..FILES.len(),
        edits in prop::collection::vec((any::<usize>(), 0..STRETCHES.len() + 3), 1..4),
    ) {
        let mut text = FILES[file].to_owned();
        for (at, what) in edits {
            let start = nearest_start(&text, at);
            match STRETCHES.get(what) {
                Some(stretch) => text.insert_str(start, stretch),
                None => text.truncate(text.len().min(nearest_start(&text, start + what % 3 * 40))),
            }
        }
        check(text.as_bytes());
    }

    #[test]
    fn sound_files_with_bytes_changed(file in 0..FILES.len(), changes in prop::collection::vec((any::<usize>(), any::<u8>()), 1..4)) {
        let mut bytes = FILES[file].as_bytes().to_vec();
        for (at, byte) in changes {
            let length = bytes.len();
            bytes[at % length] = byte;
        }
        check(&bytes);
    }
}
