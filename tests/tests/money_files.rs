//! The demo shelf and rates, kits against the catalogue, taxes and the way to fly, at the command line.

#![expect(clippy::unwrap_used, reason = "a key that is not there fails the test")]

use std::ffi::OsString;

use propwright::cli::Exit;
use propwright_sample::{RATES, REFERENCE, SHELF};
use propwright_schema::{
    load::{load_rates, load_stock},
    stock::Condition,
};
use propwright_tests::{
    command_line::{path, propwright},
    sample,
    scratch::Scratch,
};
use serde_json::Value;

fn reference(name: &str) -> &'static str {
    REFERENCE.iter().find(|(known, _)| *known == name).unwrap().1
}

fn words(options: &[&str]) -> Vec<OsString> {
    options.iter().map(Into::into).collect()
}

#[test]
fn the_demo_shelf_is_what_the_workshop_says() {
    let stock = load_stock("shelf.ron", SHELF).unwrap();
    let catalogue = sample::catalogue();
    let slot_of = |part: &str| catalogue.part(part).unwrap_or_else(|| panic!("{part}")).fills[0].word();
    let count = |kind: &str, usable: bool| -> u32 {
        let items = stock.items.iter().filter(|item| slot_of(&item.part) == kind && item.is_usable() == usable);
        items.map(|item| item.count).sum()
    };
    assert_eq!((count("pack", true), count("radio", true), count("goggles", true), count("motor", false)), (11, 1, 2, 1));
    let packs = stock.items.iter().filter(|item| slot_of(&item.part) == "pack");
    assert!(packs.clone().all(|item| item.resistance_mohm.is_some() && item.mass_g.is_some()), "measured");
    assert!(packs.clone().any(|item| item.condition == Some(Condition::Worn)));
    let mut craft: Vec<&str> = stock.items.iter().filter_map(|item| item.fitted_in.as_deref()).collect();
    craft.sort_unstable();
    craft.dedup();
    assert_eq!(craft.len(), 3, "{craft:?}");
    assert_eq!(load_rates("rates.ron", RATES).unwrap().rates.len(), 1);
}

#[test]
fn the_shelf_answers_the_kit_question_otherwise() {
    let scratch = Scratch::new("the_shelf_answers_the_kit_question_otherwise");
    let build = scratch.file("trainer.ron", reference("micro-trainer-1in6"));
    let shelf = scratch.file("shelf.ron", SHELF);
    let ask = |options: &[OsString]| {
        let args = ["price".into(), path(&build), "--json".into()].into_iter().chain(options.iter().cloned());
        propwright(args).json()
    };
    let kit = |price: &Value| {
        let kits = price["kits"].as_array().unwrap();
        kits.iter().find(|kit| kit["kit"] == "tarnholt-hallmoth-75-ready").unwrap().clone()
    };
    let (nothing, owned) = (kit(&ask(&[])), kit(&ask(&["--owned".into(), path(&shelf)])));
    assert_eq!((nothing["cheaper"].as_str(), owned["cheaper"].as_str()), (Some("kit"), Some("separate")), "{nothing} {owned}");
    let doubles = owned["already_owned"].as_array().unwrap();
    assert!(doubles.iter().any(|part| part == "otterquay-snug"), "{owned}");
    assert_eq!(nothing["already_owned"], Value::Array(Vec::new()));
}

#[test]
fn a_kit_of_unknown_parts_is_found() {
    let scratch = Scratch::new("a_kit_of_unknown_parts_is_found");
    let text = "(version: 1, kits: [\n(id: \"k\", name: \"K\", contents: [(part: \"screw-m3x8\", count: 4),\n(part: \"screw-m3x88\", count: 4)]),\n])";
    let file = scratch.file("kits.ron", text);
    let answered = propwright(["catalog".into(), "check".into(), path(&file), "--json".into()]);
    assert_eq!(answered.exit, Exit::Found);
    let problems = answered.json()["problems"].as_array().unwrap().clone();
    assert_eq!(problems.len(), 1, "{problems:?}");
    assert_eq!((&problems[0]["line"], &problems[0]["part"]), (&3.into(), &"k".into()));
    assert!(problems[0]["hint"].as_str().unwrap().contains("screw-m3x8"), "{problems:?}");
    for (name, text) in propwright_sample::CATALOGUE {
        let file = scratch.file(name, text);
        assert_eq!(propwright(["catalog".into(), "check".into(), path(&file)]).exit, Exit::Done, "{name}");
    }
}

#[test]
fn a_tax_in_per_cent_says_its_base() {
    let scratch = Scratch::new("a_tax_in_per_cent_says_its_base");
    let text = r#"(version: 1, name: "Bag", parts: [(slot: FireSafeBag, part: "copperwhin-bag-120-gbp")],
        shipping: [(name: "Far Yard", price: "9.00 GBP")], tax: [(name: "import", percent: 19, of: GoodsAndShipping, supplier: "Far Yard")])"#;
    let build = scratch.file("bag.ron", text);
    let price = propwright(["price".into(), path(&build), "--json".into()]).json();
    // 19 % of 11.00 + 9.00.
    assert_eq!(price["totals"][0]["amount"], "23.80", "{}", price["charges"]);
    let tax = &price["charges"][1];
    assert_eq!((&tax["kind"], &tax["base"]["amount"], &tax["percent"]), (&"tax".into(), &"20.00".into(), &19.0.into()));
    let told = propwright(["price".into(), path(&build)]).out;
    assert!(told.contains("import: 19 % of goods and shipping from Far Yard, 20.00 GBP"), "{told}");
    for wrong in ["percent: 19, price: \"1.00 EUR\"", "of: Goods", "percent: 190"] {
        let text = text.replace("percent: 19, of: GoodsAndShipping", wrong);
        let build = scratch.file("wrong.ron", text);
        assert_eq!(propwright(["price".into(), path(&build)]).exit, Exit::Refused, "{wrong}");
    }
}

#[test]
fn the_way_to_fly_follows_its_assumptions() {
    let scratch = Scratch::new("the_way_to_fly_follows_its_assumptions");
    let ask = |training: &str| {
        let text = reference("micro-trainer-1in6").replacen("parts: [", &format!("{training} parts: ["), 1);
        let build = scratch.file("trainer.ron", text);
        propwright(["price".into(), path(&build), "--path".into(), "--json".into()]).json()["path"].clone()
    };
    let minor = |path: &Value| path["totals"][0]["amount"].as_str().unwrap().replace('.', "").parse::<i64>().unwrap();
    let (usual, priced) = (ask(""), ask("training: (simulator_price: \"25.00 EUR\"),"));
    assert_eq!(minor(&priced) - minor(&usual), 2500);
    assert_eq!(usual["steps"].as_array().unwrap().len(), 1);
    let hard = ask("training: (sets_guarded: 20),");
    assert!(minor(&hard) > minor(&usual), "more propellers broken");
    assert!(hard["assumed"].as_str().unwrap().contains("20 sets"), "{}", hard["assumed"]);
}

#[test]
fn builds_are_compared_with_the_shelf_and_no_more_than_four() {
    let scratch = Scratch::new("builds_are_compared_with_the_shelf_and_no_more_than_four");
    let (one, other) = (
        scratch.file("one.ron", reference("micro-trainer-1in2").replace(", owned: true", "")),
        scratch.file("other.ron", reference("micro-trainer-1in6")),
    );
    let shelf = scratch.file("shelf.ron", SHELF);
    let compare = |options: Vec<OsString>| {
        let args = ["compare".into(), path(&one), path(&other), "--json".into()];
        propwright(args.into_iter().chain(options)).json()
    };
    let bought = |json: &Value, at: usize| json["builds"][at]["cost"][0]["amount"].as_str().unwrap().parse::<f64>().unwrap();
    let (without, with) = (compare(Vec::new()), compare(vec!["--owned".into(), path(&shelf)]));
    for at in 0..2 {
        assert!(bought(&with, at) < bought(&without, at), "{}", with["builds"][at]);
    }
    let price = propwright(["price".into(), path(&other), "--json".into(), "--owned".into(), path(&shelf)]).json();
    assert_eq!(with["builds"][1]["cost"], price["totals"]);
    let five = words(&["compare", "a", "b", "c", "d", "e"]);
    assert_eq!(propwright(five).exit, Exit::Refused);
}
