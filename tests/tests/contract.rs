//! What outside programs rely on: keys, types and exit statuses.

#![expect(clippy::unwrap_used, reason = "a key that is not there fails the test")]

use propwright::cli::Exit;
use propwright_engine::rules::{self, Rule, Weight};
use propwright_sample::{FLAWED, REFERENCE};
use propwright_schema::slot::Slot;
use propwright_tests::{
    command_line::{Answered, path, propwright},
    sample,
    scratch::Scratch,
};
use serde_json::Value;

fn check(scratch: &Scratch, text: &str, options: &[&str]) -> Answered {
    let build = scratch.file("build.ron", text);
    propwright([path(&build)].into_iter().fold(vec!["check".into()], |mut args, arg| {
        args.push(arg);
        args.extend(options.iter().map(Into::into));
        args
    }))
}

fn keys(value: &Value) -> Vec<&str> {
    value.as_object().unwrap().keys().map(String::as_str).collect()
}

fn has_keys(value: &Value, wanted: &[&str]) {
    let found = keys(value);
    for key in wanted {
        assert!(found.contains(key), "{key} is missing of {found:?}");
    }
}

fn is_band(value: &Value) {
    has_keys(value, &["low", "nominal", "high"]);
    let [low, nominal, high] = ["low", "nominal", "high"].map(|key| value[key].as_f64().unwrap());
    assert!(low <= nominal && nominal <= high, "{value}");
}

/// `null`, or exactly one of value with unit, band with unit, and name.
fn is_amount(value: &Value) {
    if value.is_null() {
        return;
    }
    let forms = [value["value"].is_number(), value["band"].is_object(), value["name"].is_string()];
    assert_eq!(forms.into_iter().filter(|form| *form).count(), 1, "{value}");
    assert_eq!(value["unit"].is_string(), !value["name"].is_string(), "{value}");
    if value["band"].is_object() {
        is_band(&value["band"]);
    }
}

fn is_reason(value: &Value) {
    for step in value.as_array().unwrap() {
        has_keys(step, &["text", "because"]);
        let kinds = ["fact", "derived", "assumption", "missing"].into_iter().filter(|kind| step[*kind].is_object());
        assert_eq!(kinds.count(), 1, "{step}");
        is_reason(&step["because"]);
    }
}

#[test]
fn check_has_its_keys() {
    let scratch = Scratch::new("check_has_its_keys");
    for (name, text) in REFERENCE.iter().chain(FLAWED) {
        let report = check(&scratch, text, &["--json"]).json();
        has_keys(&report, &["schema", "build", "findings", "unstated", "cautions", "advice", "totals", "flight", "notes"]);
        assert_eq!(report["schema"], 1, "{name}");
        for finding in report["findings"].as_array().unwrap() {
            has_keys(finding, &["rule", "status", "slots", "required", "available", "margin", "message", "because", "source"]);
            assert!(["mismatch", "tight", "unstated", "fits"].contains(&finding["status"].as_str().unwrap()));
            assert!(rules::by_id(finding["rule"].as_str().unwrap()).is_some());
            is_amount(&finding["required"]);
            is_amount(&finding["available"]);
            assert!(finding["margin"].is_null() || finding["margin"].is_number());
            is_reason(&finding["because"]);
        }
        for remark in report["cautions"].as_array().unwrap().iter().chain(report["advice"].as_array().unwrap()) {
            has_keys(remark, &["rule", "message", "source"]);
        }
    }
}

#[test]
fn totals_are_exact_and_banded() {
    let scratch = Scratch::new("totals_are_exact_and_banded");
    let totals = check(&scratch, sample::demo_text(), &["--json"]).json()["totals"].clone();
    has_keys(&totals, &["cost", "unpriced", "dry_mass_g", "takeoff_mass_g"]);
    is_band(&totals["dry_mass_g"]);
    is_band(&totals["takeoff_mass_g"]);
    let cost = &totals["cost"][0];
    assert_eq!(cost["currency"], "EUR");
    let (whole, cents) = cost["amount"].as_str().unwrap().split_once('.').unwrap();
    assert!(cents.len() == 2 && whole.parse::<u32>().is_ok(), "{cost}");
}

#[test]
fn findings_come_gravest_first() {
    let scratch = Scratch::new("findings_come_gravest_first");
    for (name, text) in FLAWED {
        let report = check(&scratch, text, &["--json"]).json();
        let findings = report["findings"].as_array().unwrap();
        let order = ["mismatch", "tight", "unstated", "fits"];
        let places = findings.iter().map(|finding| order.iter().position(|status| finding["status"] == *status).unwrap());
        assert!(places.is_sorted(), "{name}");
    }
}

#[test]
fn exit_tells_a_mismatch() {
    let scratch = Scratch::new("exit_tells_a_mismatch");
    let forbids = |rule: &&&Rule| rule.weight == Weight::Finding && !rule.says.mismatch.is_empty();
    // A part that is in no catalogue is refused with its place before any rule is asked: see the hostile files.
    for rule in rules::ALL.iter().filter(forbids).filter(|rule| rule.id != "part-known") {
        let catalogue = scratch.file("parts.ron", format!("(version: 1, parts: [{}])", rule.fails.parts));
        let text = format!("(version: 1, name: \"trial\", {})", rule.fails.build);
        for form in [&[][..], &["--json"][..]] {
            let mut options = vec!["--catalog", catalogue.to_str().unwrap()];
            options.extend(form);
            let answered = check(&scratch, &text, &options);
            assert_eq!((answered.exit, answered.err.as_str()), (Exit::Found, ""), "{}", rule.id);
            assert!(answered.out.contains(rule.id), "{} is named", rule.id);
        }
    }
    for (name, text) in REFERENCE {
        for form in [&[][..], &["--json"][..]] {
            assert_eq!(check(&scratch, text, form).exit, Exit::Done, "{name}");
        }
    }
}

#[test]
fn wrong_usage_is_refused() {
    let usages: [&[&str]; 9] = [
        &["check"],
        &["check", "--json"],
        &["frobnicate", "x"],
        &["rules", "extra"],
        &["catalog"],
        &["catalog", "check"],
        &["--nonsense"],
        &["check", "x.ron", "--altitude", "high"],
        &["check", "x.ron", "--altitude", "99999"],
    ];
    for usage in usages {
        let answered = propwright(usage.iter().copied());
        assert_eq!((answered.exit, answered.out.as_str()), (Exit::Refused, ""), "{usage:?}");
        assert!(!answered.err.is_empty(), "{usage:?}");
    }
}

#[test]
fn help_and_version_are_answers() {
    for asked in [&["--help"][..], &["--version"], &["check", "--help"], &["catalog", "check", "--help"]] {
        let answered = propwright(asked.iter().copied());
        assert_eq!((answered.exit, answered.err.as_str()), (Exit::Done, ""), "{asked:?}");
        assert!(answered.out.contains("propwright"), "{asked:?}");
    }
}

#[test]
fn conditions_are_taken_over() {
    let scratch = Scratch::new("conditions_are_taken_over");
    let mass = |options: &[&str]| {
        let mut all = vec!["--json"];
        all.extend(options);
        check(&scratch, sample::demo_text(), &all).json()["totals"]["takeoff_mass_g"]["nominal"].as_f64().unwrap()
    };
    assert!((mass(&["--payload", "100g"]) - mass(&[]) - 100.0).abs() < 1e-9);
    for options in [["--altitude", "1200m"], ["--temperature", "-5"], ["--wind", "4.5"]] {
        assert_ne!(check(&scratch, sample::demo_text(), &options).exit, Exit::Refused, "{options:?}");
    }
}

#[test]
fn a_later_catalogue_shadows_with_a_note() {
    let scratch = Scratch::new("a_later_catalogue_shadows_with_a_note");
    let motor = sample::demo().parts.into_iter().find(|fitted| fitted.slot.word() == "motor").unwrap().part;
    let part = format!("(version: 1, parts: [(id: {motor:?}, name: \"Mine\", mass_g: 20, fills: [Motor()])])");
    let catalogue = scratch.file("mine.ron", part);
    let build = scratch.file("build.ron", sample::demo_text());
    let args = ["check".into(), path(&build), "--catalog".into(), path(&catalogue)];
    let text = propwright(args.clone()).out;
    assert!(text.contains("Mine") && text.contains(&motor) && text.contains("mine.ron"), "{text}");
    let json = propwright(args.into_iter().chain(["--json".into()])).json();
    let note = json["notes"][0].as_str().unwrap();
    assert!(note.contains(&motor) && note.contains("mine.ron"), "{note}");
}

#[test]
fn rules_has_its_keys() {
    let table = propwright(["rules", "--json"]).json();
    let rows = table["rules"].as_array().unwrap();
    assert_eq!(rows.len(), rules::ALL.len());
    for row in rows {
        has_keys(row, &["rule", "title", "group", "slots", "formula", "source"]);
        let slots = row["slots"].as_array().unwrap();
        assert!(slots.iter().all(|slot| Slot::from_word(slot.as_str().unwrap()).is_some()), "{row}");
    }
}

#[test]
fn catalog_check_answers_with_every_problem() {
    let scratch = Scratch::new("catalog_check_answers_with_every_problem");
    let sound = scratch.file("sound.ron", propwright_sample::CATALOGUE[0].1);
    let answered = propwright(["catalog".into(), "check".into(), path(&sound)]);
    assert_eq!((answered.exit, answered.err.as_str()), (Exit::Done, ""));
    let broken = "(version: 1, parts: [\n(id: \"a\", name: \"A\", mass_g: -3, fills: [Motor()]),\n(id: \"b\", name: \"B\", fills: [Motor(kv: 3)]),\n])";
    let broken = scratch.file("broken.ron", broken);
    let answered = propwright(["catalog".into(), "check".into(), path(&broken), "--json".into()]);
    assert_eq!((answered.exit, answered.err.as_str()), (Exit::Found, ""));
    let json = answered.json();
    let problems = json["problems"].as_array().unwrap();
    let places: Vec<(u64, &str)> =
        problems.iter().map(|problem| (problem["line"].as_u64().unwrap(), problem["part"].as_str().unwrap())).collect();
    assert_eq!(places, [(2, "a"), (3, "b")]);
    for problem in problems {
        has_keys(problem, &["file", "line", "column", "part", "field", "reason", "hint"]);
    }
}

fn is_change(value: &Value) {
    has_keys(value, &["mass_g", "cost", "calm_min", "thrust_to_weight", "hover_duty", "hover_current_a"]);
    has_keys(value, &["full_throttle_current_a", "motor_full_throttle_current_a", "top_speed_kmh"]);
    for (key, figure) in value.as_object().unwrap() {
        match key.as_str() {
            "cost" => figure.as_array().into_iter().flatten().for_each(|sum| has_keys(sum, &["currency", "amount"])),
            _ if figure.is_null() => {}
            _ => {
                is_band(figure);
                let holds_zero = figure["low"].as_f64().unwrap() <= 0.0 && figure["high"].as_f64().unwrap() >= 0.0;
                assert!(figure["none"] == true || !holds_zero, "{key}: a change within its band is none: {figure}");
            }
        }
    }
}

fn is_status(value: &Value) {
    assert!(["mismatch", "tight", "unstated", "fits"].contains(&value.as_str().unwrap()), "{value}");
}

fn fits(scratch: &Scratch, options: &[&str]) -> Answered {
    let build = scratch.file("build.ron", sample::demo_text());
    let args = ["fits".into(), path(&build)].into_iter().chain(options.iter().map(Into::into));
    propwright(args)
}

#[test]
fn fits_has_its_keys() {
    let scratch = Scratch::new("fits_has_its_keys");
    for slot in ["motor", "frame", "gps"] {
        let answered = fits(&scratch, &["--slot", slot, "--json"]);
        assert_eq!((answered.exit, answered.err.as_str()), (Exit::Done, ""));
        let json = answered.json();
        has_keys(&json, &["schema", "slot", "parts", "notes"]);
        assert_eq!(json["slot"], slot);
        let parts = json["parts"].as_array().unwrap();
        assert_eq!(parts.len(), sample::catalogue().for_slot(Slot::from_word(slot).unwrap()).count());
        for part in parts {
            has_keys(part, &["part", "name", "status", "fitted", "blocking", "reasons", "change"]);
            is_status(&part["status"]);
            let blocking = part["blocking"].as_array().unwrap();
            assert_eq!(part["status"] == "mismatch", !blocking.is_empty(), "{part}");
            assert!(blocking.iter().all(|rule| rules::by_id(rule.as_str().unwrap()).is_some()));
            is_change(&part["change"]);
        }
    }
}

#[test]
fn replacements_have_their_keys() {
    let scratch = Scratch::new("replacements_have_their_keys");
    let answered = fits(&scratch, &["--slot", "motor", "--replace", "--most", "6", "--json"]);
    assert_eq!((answered.exit, answered.err.as_str()), (Exit::Done, ""));
    let json = answered.json();
    has_keys(&json, &["schema", "slot", "gone", "replacements", "notes"]);
    let all = json["replacements"].as_array().unwrap();
    assert_eq!(all.len(), 6);
    for found in all {
        has_keys(found, &["part", "name", "same", "retired", "distance", "one", "all"]);
        for way in [&found["one"], &found["all"]] {
            has_keys(way, &["status", "reasons", "goes", "left", "count", "price", "follows", "total", "change"]);
            is_status(&way["status"]);
            is_status(&way["left"]);
            assert_eq!(way["goes"] == true, way["follows"].is_array(), "{way}");
            for swap in way["follows"].as_array().into_iter().flatten() {
                has_keys(swap, &["slot", "from", "to", "count", "price"]);
            }
            is_change(&way["change"]);
        }
    }
    let text = fits(&scratch, &["--slot", "motor", "--replace", "--most", "6"]).out;
    assert!(text.contains("One beside the others") && text.contains("All 4"), "{text}");
}

#[test]
fn a_line_that_is_not_there_is_refused_with_a_hint() {
    let scratch = Scratch::new("a_line_that_is_not_there_is_refused_with_a_hint");
    let build = sample::demo();
    let empty = Slot::ALL.iter().find(|slot| build.fitted(**slot).next().is_none()).unwrap().to_string();
    let first = format!("{empty}[0]");
    for (slot, more, hint) in
        [("motor[1]", &[][..], "--slot motor"), (empty.as_str(), &["--replace"], "without"), (first.as_str(), &[], "without")]
    {
        let mut options = vec!["--slot", slot];
        options.extend(more);
        let answered = fits(&scratch, &options);
        assert_eq!((answered.exit, answered.out.as_str()), (Exit::Refused, ""), "{slot}");
        assert!(answered.err.contains("hint: ") && answered.err.contains(hint), "{}", answered.err);
    }
    assert_eq!(fits(&scratch, &["--slot", "motor[0]"]).exit, Exit::Done);
    assert_eq!(fits(&scratch, &["--slot", "rotor"]).exit, Exit::Refused);
}

#[test]
fn fits_takes_the_shelf_and_the_day() {
    let scratch = Scratch::new("fits_takes_the_shelf_and_the_day");
    let motors = fits(&scratch, &["--slot", "motor", "--json"]).json();
    let other = |json: &Value| {
        json["parts"]
            .as_array()
            .unwrap()
            .iter()
            .find(|part| part["fitted"] == false && part["status"] != "mismatch" && part["change"]["cost"][0].is_object())
            .unwrap()
            .clone()
    };
    let id = other(&motors)["part"].as_str().unwrap().to_owned();
    let shelf = scratch.file("shelf.ron", format!("(version: 1, items: [(part: {id:?}, count: 4)])"));
    let owned = fits(&scratch, &["--slot", "motor", "--owned", shelf.to_str().unwrap(), "--json"]).json();
    let of = |json: &Value| json["parts"].as_array().unwrap().iter().find(|part| part["part"] == *id).unwrap()["change"].clone();
    let cents = |change: &Value| change["cost"][0]["amount"].as_str().unwrap().replace('.', "").parse::<i64>().unwrap();
    assert!(cents(&of(&owned)) < cents(&of(&motors)), "what lies on the shelf is not paid");
    assert_eq!(of(&owned)["mass_g"], of(&motors)["mass_g"]);
    let high = fits(&scratch, &["--slot", "motor", "--altitude", "3000", "--json"]).json();
    assert_ne!(of(&high)["top_speed_kmh"], of(&motors)["top_speed_kmh"]);
}

#[test]
fn compare_tells_builds_of_one_name_apart() {
    let scratch = Scratch::new("compare_tells_builds_of_one_name_apart");
    let one = scratch.file("before.ron", sample::demo_text());
    let other = scratch.file("after.ron", sample::demo_text());
    let args = ["compare".into(), path(&one), path(&other)];
    let text = propwright(args.clone()).out;
    assert!(text.contains("before.ron") && text.contains("after.ron"), "{text}");
    let json = propwright(args.into_iter().chain(["--json".into()])).json();
    has_keys(&json, &["schema", "builds", "parts", "figures", "findings", "notes"]);
    for (build, file) in json["builds"].as_array().unwrap().iter().zip(["before.ron", "after.ron"]) {
        has_keys(build, &["build", "file", "cost", "takeoff_mass_g", "open", "change"]);
        assert!(build["file"].as_str().unwrap().ends_with(file));
        is_change(&build["change"]);
    }
}

#[test]
fn shares_are_written_as_ratios_and_said_in_per_cent() {
    let scratch = Scratch::new("shares_are_written_and_said");
    let (_, demo) = REFERENCE.iter().find(|(name, _)| *name == propwright_sample::DEMO).unwrap();
    let text = check(&scratch, demo, &[]).out.split_whitespace().collect::<Vec<_>>().join(" ");
    // The usual mixes, as the thresholds mix-calm, mix-hard and mix-between have them: 1.15, 0.25, 1.3.
    let mixes = "Calm flight takes 115 % of the hover power; hard flight is full throttle for 25 % of the time and 130 % of the hover power";
    assert!(text.contains(mixes), "{text}");
    let json: Value = serde_json::from_str(&check(&scratch, demo, &["--json"]).out).unwrap();
    let duty = json["flight"]["hover_duty"]["nominal"].as_f64().unwrap();
    assert!((0.05..1.0).contains(&duty));
    assert!(text.contains(&format!("Duty in hover, fresh pack {} %", (duty * 1000.0).round() / 10.0)), "{duty}: {text}");
}
