//! The command `price`, and the shelf and the rates that `check` takes too.

#![expect(clippy::unwrap_used, reason = "a key that is not there fails the test")]

use std::ffi::OsString;

use propwright::cli::Exit;
use propwright_sample::REFERENCE;
use propwright_tests::{
    command_line::{Answered, path, propwright},
    sample,
    scratch::Scratch,
};
use serde_json::Value;

const SHELF: &str = r#"(version: 1, items: [
    (part: "ebbquist-6s-1300", condition: Used, mass_g: 219.5, resistance_mohm: 19.5, cycles: 40),
    (part: "otterquay-lantern-one"), (part: "nobodys-part"),
])"#;
const RATES: &str = r#"(version: 1, rates: [(from: "GBP", to: "EUR", rate: "1.17", on: "2026-11-20")])"#;

fn asked(scratch: &Scratch, command: &str, text: &str, options: &[OsString]) -> Answered {
    let build = scratch.file("build.ron", text);
    propwright([command.into(), path(&build), "--json".into()].into_iter().chain(options.iter().cloned()))
}

fn option(scratch: &Scratch, name: &str, text: &str) -> [OsString; 2] {
    [format!("--{name}").into(), path(&scratch.file(&format!("{name}.ron"), text))]
}

fn minor(amounts: &Value) -> i64 {
    amounts
        .as_array()
        .unwrap()
        .iter()
        .map(|price| price["amount"].as_str().unwrap().replace('.', "").parse::<i64>().unwrap())
        .sum()
}

#[test]
fn price_has_its_keys_and_its_lines_sum() {
    let scratch = Scratch::new("price_has_its_keys_and_its_lines_sum");
    for (name, text) in REFERENCE {
        let answered = asked(&scratch, "price", text, &[]);
        assert_eq!((answered.exit, answered.err.as_str()), (Exit::Done, ""), "{name}");
        let price = answered.json();
        let mut sum = 0;
        for line in price["lines"].as_array().unwrap() {
            for key in ["slot", "part", "quantity", "owned", "unit_price", "line_price"] {
                assert!(line.get(key).is_some(), "{name}: {key}");
            }
            sum += if line["line_price"].is_null() { 0 } else { minor(&Value::Array(vec![line["line_price"].clone()])) };
        }
        assert_eq!(sum, minor(&price["totals"]), "{name}");
        let total = asked(&scratch, "check", text, &[]).json()["totals"]["cost"].clone();
        assert_eq!(total, price["totals"], "{name}: check says the same");
        for kit in price["kits"].as_array().unwrap() {
            for key in ["kit", "price", "covers", "lacks", "already_owned", "separate_price", "cheaper"] {
                assert!(kit.get(key).is_some(), "{name}: {key}");
            }
            let cheaper = &kit["cheaper"];
            assert!(cheaper.is_null() || ["kit", "separate", "equal"].contains(&cheaper.as_str().unwrap()), "{kit}");
        }
    }
}

#[test]
fn the_shelf_is_left_out_and_its_figures_count() {
    let scratch = Scratch::new("the_shelf_is_left_out_and_its_figures_count");
    let owned = option(&scratch, "owned", SHELF);
    let (without, with) =
        (asked(&scratch, "price", sample::demo_text(), &[]).json(), asked(&scratch, "price", sample::demo_text(), &owned).json());
    let of =
        |price: &Value, slot: &str| price["lines"].as_array().unwrap().iter().find(|line| line["slot"] == slot).cloned().unwrap();
    let saved = ["battery", "goggles"].map(|slot| minor(&Value::Array(vec![of(&without, slot)["line_price"].clone()])));
    assert_eq!(minor(&without["totals"]) - minor(&with["totals"]), saved.iter().sum::<i64>());
    let pack = of(&with, "battery");
    assert_eq!((pack["owned"].clone(), pack["drawn"][0]["condition"].clone()), (Value::Bool(true), "used".into()));
    assert!(with["notes"][0].as_str().unwrap().contains("nobodys-part"), "{}", with["notes"]);
    let check = asked(&scratch, "check", sample::demo_text(), &owned).json();
    assert_eq!(check["totals"]["cost"], with["totals"]);
    assert!(check.to_string().contains("measured"), "the measured mass is a reason");
}

#[test]
fn currencies_are_added_by_the_users_rate_only() {
    let scratch = Scratch::new("currencies_are_added_by_the_users_rate_only");
    let text = r#"(version: 1, name: "Two currencies", parts: [(slot: Goggles, part: "otterquay-shell"), (slot: Charger, part: "copperwhin-hexcell")])"#;
    let apart = asked(&scratch, "price", text, &[]).json();
    assert_eq!(apart["totals"].as_array().unwrap().len(), 2);
    let joined = asked(&scratch, "price", text, &option(&scratch, "rates", RATES)).json();
    assert_eq!(joined["totals"].as_array().unwrap().len(), 1, "{}", joined["totals"]);
    // 169.00 GBP at 1.17 are 197.73 EUR.
    assert_eq!(
        (&joined["converted"][0]["to"]["amount"], &joined["converted"][0]["on"]),
        (&"197.73".into(), &"2026-11-20".into())
    );
    assert_eq!(joined["sums"], apart["totals"]);
}

#[test]
fn files_with_problems_are_refused() {
    let scratch = Scratch::new("files_with_problems_are_refused");
    for (name, text) in [("rates", RATES.replace("\"1.17\"", "1.17")), ("owned", SHELF.replace("Used", "Burnt"))] {
        for command in ["price", "check"] {
            let answered = asked(&scratch, command, sample::demo_text(), &option(&scratch, name, &text));
            assert_eq!((answered.exit, answered.out.as_str()), (Exit::Refused, ""), "{name}");
            assert!(answered.err.contains(&format!("{name}.ron:")) && answered.err.contains("hint: "), "{}", answered.err);
        }
    }
}

#[test]
fn the_text_says_what_the_keys_say() {
    let scratch = Scratch::new("the_text_says_what_the_keys_say");
    let trainer = REFERENCE.iter().find(|(name, _)| *name == "micro-trainer-1in6").unwrap().1;
    let (trainer, next) = (scratch.file("trainer.ron", trainer), scratch.file("next.ron", sample::demo_text()));
    let args = |form: &[&str]| {
        let fixed = ["price".into(), path(&trainer), "--then".into(), path(&next), "--on".into(), "2026-11-20".into()];
        propwright(fixed.into_iter().chain(form.iter().map(Into::into)))
    };
    let (text, json) = (args(&[]), args(&["--json"]).json());
    assert_eq!(text.exit, Exit::Done, "{}", text.err);
    let flat = text.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for kit in json["kits"].as_array().unwrap() {
        assert!(flat.contains(kit["answer"].as_str().unwrap()), "{kit}");
    }
    assert!(flat.contains(json["path"]["assumed"].as_str().unwrap()), "{flat}");
    assert_eq!(json["path"]["steps"].as_array().unwrap().len(), 2);
    assert!(text.out.lines().all(|line| line.chars().count() <= propwright_paper::page::WIDTH), "{}", text.out);
    assert!(flat.contains("days ago"), "{flat}");
}
