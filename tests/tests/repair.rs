//! The ways out: each is tried by plain evaluation, each conflict by brute force, each set by all its parts.

#![expect(clippy::unwrap_used, reason = "what is not there fails the test")]

use std::{collections::BTreeSet, sync::Arc};

use propwright_engine::{
    Report,
    bill::Given,
    evaluate, evaluate_with, explain,
    finding::Status,
    fit::{
        Means,
        repair::{Choice, Repair, Repairs, Step, applied},
    },
    policy::Policy,
};
use propwright_schema::{
    build_list::{BuildList, Feed},
    catalogue::Catalogue,
    load::load_stock,
    quantity::{Millimetres, Money, Quantity},
    slot::Slot,
};
use propwright_tests::{
    command_line::{path, propwright},
    near_builds::{Checked, check, near_build},
    sample,
    scratch::Scratch,
};

/// Builds near the reference builds that are proven in each run of the tests; the development command `near_builds` proves
/// ten thousand.
const SAMPLED: usize = 48;

fn repaired(catalogue: &Catalogue, build: &BuildList) -> (Report, Repairs) {
    let policy = Policy::default();
    let base = evaluate(catalogue, &Arc::new(build.clone()), &policy);
    let means = Means { catalogue, policy: &policy, given: &Given::default() };
    let found = Repair::new(means, &base).finish();
    (base, found)
}

#[test]
fn ways_conflicts_and_sets_hold_near_the_reference_builds() {
    let (catalogue, reference) = (sample::catalogue(), sample::reference());
    let mut sum = Checked::default();
    for number in 0..SAMPLED {
        sum +=
            check(&catalogue, &near_build(&catalogue, &reference, number)).map_err(|slip| format!("{number}: {slip}")).unwrap();
    }
    assert!(sum.ways > SAMPLED && sum.conflicts == sum.mismatches && sum.sets > 0, "{sum:?}");
}

fn choices(found: &Repairs, rule: &str) -> Vec<Choice> {
    let of_rule = found.mismatches.iter().find(|mismatch| mismatch.finding.rule == rule);
    of_rule.unwrap().conflict.clone().unwrap().choices
}

/// A part that no catalogue holds is a choice like any other.
#[test]
fn an_unknown_part_is_in_the_way_by_itself() {
    let mut build = sample::demo();
    let line = build.parts.iter().position(|fitted| fitted.slot == Slot::Receiver).unwrap();
    build.parts[line].part = "nowhere".to_owned();
    let (_, found) = repaired(&sample::catalogue(), &build);
    let told = choices(&found, "part-known");
    assert_eq!(told, [Choice::Unplaced { line, slot: Slot::Receiver, id: "nowhere".to_owned() }]);
    let conflict = found.mismatches.iter().find_map(|mismatch| mismatch.conflict.as_ref().ok()).unwrap();
    assert!(explain::repair::conflict(conflict).starts_with("“nowhere” as receiver alone breaks"));
}

/// What the purpose says is a choice too: without the rate that it names the receiver breaks nothing.
#[test]
fn what_the_list_says_as_a_whole_is_a_choice() {
    let mut build = sample::demo();
    build.purpose.packet_rate_hz = Quantity::parse("51").ok();
    let (_, found) = repaired(&sample::catalogue(), &build);
    let told = choices(&found, "packet-rate");
    assert!(
        matches!(&told[..], [Choice::Line(at), Choice::Said("purpose.packet_rate_hz")] if at.slot == Slot::Receiver),
        "{told:?}"
    );
}

#[test]
fn a_sound_build_needs_nothing() {
    let catalogue = sample::catalogue();
    for (name, build) in sample::reference() {
        assert_eq!(repaired(&catalogue, &build).1, Repairs::default(), "{name}");
    }
}

#[test]
fn every_flawed_build_is_mended_in_two_actions() {
    let catalogue = sample::catalogue();
    for (name, build) in sample::flawed() {
        let mut now = build.clone();
        let mut actions = 0;
        loop {
            let (report, found) = repaired(&catalogue, &now);
            if report.count(Status::Mismatch) == 0 {
                break;
            }
            let ways = found.ways();
            let Some(way) = found.sets.first().or(ways.first().copied()) else { break };
            now = (*way.build).clone();
            actions += 1;
            assert!(actions <= 2, "{name}: {actions} actions were not enough");
        }
        assert_eq!(repaired(&catalogue, &now).0.count(Status::Mismatch), 0, "{name}: no way out");
        assert!(check(&catalogue, &build).is_ok(), "{name}");
    }
}

/// The demo build with four faults of as many kinds.
fn four_faults() -> BuildList {
    let mut build = sample::demo();
    for fitted in &mut build.parts {
        match fitted.slot {
            Slot::MotorScrew => "screw-m3x10".clone_into(&mut fitted.part),
            Slot::Esc => "duskmarl-billhook-55-b".clone_into(&mut fitted.part),
            Slot::AntennaVideo => "mirrowick-clover-rpsma".clone_into(&mut fitted.part),
            Slot::VideoTransmitter => fitted.feed = Some(Feed::Pack),
            _ => {}
        }
    }
    build
}

#[test]
fn four_faults_are_mended_by_the_smallest_sets() {
    let catalogue = sample::catalogue();
    let build = four_faults();
    let (report, found) = repaired(&catalogue, &build);
    let rules: BTreeSet<&str> = found.mismatches.iter().map(|mismatch| mismatch.finding.rule).collect();
    assert_eq!(rules, BTreeSet::from(["motor-screw-length", "harness-pin-order", "antenna-connector", "video-supply"]));
    assert_eq!(report.count(Status::Mismatch), 4);
    assert_eq!(found.sets.first().unwrap().steps.len(), 4, "the faults have nothing in common");
    let checked = check(&catalogue, &build).unwrap();
    assert_eq!((checked.with_way, checked.conflicts), (4, 4));
}

#[test]
fn what_costs_nothing_is_told_first() {
    let catalogue = sample::catalogue();
    let (_, build) = sample::flawed().into_iter().find(|(name, _)| *name == "video-supply").unwrap();
    let (_, found) = repaired(&catalogue, &build);
    let first = found.ways()[0];
    assert!(matches!(&first.steps[..], [Step::Feed { to: Feed::Rail(rail), .. }] if rail == "9V"), "{first:?}");
    assert!(found.ways().is_sorted_by_key(|way| way.cost));
}

#[test]
fn a_part_with_several_roles_leaves_no_second_one_idle() {
    let catalogue = sample::catalogue();
    for (name, build) in sample::flawed() {
        for way in repaired(&catalogue, &build).1.ways() {
            let boards = evaluate(&catalogue, &way.build, &Policy::default()).craft.in_slot(Slot::FlightController).len();
            assert_eq!(boards, 1, "{name}: {}", explain::repair::steps(&way.steps));
        }
    }
}

#[test]
fn chunks_come_to_the_same_end() {
    let (catalogue, policy) = (sample::catalogue(), Policy::default());
    let base = evaluate(&catalogue, &Arc::new(four_faults()), &policy);
    let given = Given::default();
    let means = Means { catalogue: &catalogue, policy: &policy, given: &given };
    let mut repair = Repair::new(means, &base);
    let mut chunks = 0;
    while !repair.is_done() {
        repair.next_chunk(7);
        chunks += 1;
    }
    assert!(chunks > 3);
    assert_eq!(*repair.found(), Repair::new(means, &base).finish());
}

#[test]
fn the_command_answers_with_the_agreed_keys() {
    let scratch = Scratch::new("the_command_answers_with_the_agreed_keys");
    let (name, text) = propwright_sample::FLAWED.iter().find(|(name, _)| *name == "rail-load").unwrap();
    let file = scratch.file("build.ron", text);
    let answer = propwright(["repair".into(), path(&file), "--json".into()]);
    assert_eq!(answer.exit, propwright::cli::Exit::Done, "{}", answer.err);
    let json = answer.json();
    assert_eq!(json["schema"], 1);
    assert_eq!(json["mismatches"], serde_json::json!([name]));
    for repair in json["repairs"].as_array().unwrap() {
        assert!(repair["removes"].as_array().unwrap().contains(&serde_json::json!(name)));
        assert!(repair["change"].is_object() && repair["leaves"].is_array());
        let swaps = repair["swaps"].as_array().unwrap();
        assert!(swaps.iter().all(|swap| swap["slot"].is_string() && (swap["from"].is_string() || swap["to"].is_string())));
        assert!(swaps.len() + repair["settings"].as_array().unwrap().len() == repair["steps"].as_array().unwrap().len());
    }
    let conflict = &json["conflicts"][0];
    assert_eq!(conflict["minimal"].as_array().unwrap().len(), 2);
    assert_eq!(conflict["ways_out"].as_array().unwrap().len(), json["repairs"].as_array().unwrap().len());
    let text = propwright(["repair".into(), path(&file)]).out;
    assert!(
        text.contains("Ways out for Freestyle 5 in")
            && text.contains(conflict["sentence"].as_str().unwrap().split(' ').next().unwrap())
    );
}

/// The ways out of a demo build with screws that are too long, beside a shelf: its steps, and what they change in price.
fn ways_beside(shelf: &str) -> Vec<(Vec<Step>, Option<Vec<String>>)> {
    let (catalogue, policy) = (sample::catalogue(), Policy::default());
    let given = Given { stock: load_stock("shelf.ron", shelf).unwrap(), ..Given::default() };
    let means = Means { catalogue: &catalogue, policy: &policy, given: &given };
    let (_, build) = sample::flawed().into_iter().find(|(name, _)| *name == "motor-screw-length").unwrap();
    let base = evaluate_with(&catalogue, &Arc::new(build), &policy, &given);
    let found = Repair::new(means, &base).finish();
    for way in found.ways() {
        let after = evaluate_with(&catalogue, &way.build, &policy, &given);
        assert_eq!(after.count(Status::Mismatch), 0, "{}", explain::repair::steps(&way.steps));
    }
    let price = |cost: &Vec<Money>| cost.iter().map(ToString::to_string).collect();
    found.ways().into_iter().map(|way| (way.steps.clone(), way.change.cost.as_ref().map(price))).collect()
}

/// Screws of 8 mm in place of 10 mm: from the shelf they save the whole bag of the long ones, bought they save the difference.
#[test]
fn a_part_on_the_shelf_is_not_paid_for_in_a_way_out() {
    let shelf = r#"(version: 1, items: [(part: "screw-m3x8", count: 20)])"#;
    let (bare, owned) = (ways_beside("(version: 1, items: [])"), ways_beside(shelf));
    let eight = |ways: &[(Vec<Step>, Option<Vec<String>>)]| {
        let way = ways.iter().find(|(steps, _)| explain::repair::steps(steps).contains("M3 x 8"));
        way.unwrap().1.clone().unwrap()
    };
    assert_eq!(eight(&bare), ["-0.10 EUR"]);
    assert_eq!(eight(&owned), ["-2.50 EUR"]);
}

/// Nobody prices washers, so that the shorter screw comes first; the thinnest that keep the screws off the winding are told.
#[test]
fn washers_keep_long_screws_off_the_winding() {
    let ways = ways_beside("(version: 1, items: [])");
    let told = |(steps, _): &(Vec<Step>, Option<Vec<String>>)| match steps.as_slice() {
        [Step::Washers { to, .. }] => Some(*to),
        _ => None,
    };
    let at = ways.iter().position(|way| told(way).is_some()).unwrap();
    assert!(ways[..at].iter().any(|(steps, _)| explain::repair::steps(steps).contains("M3 x 8")), "the shorter screw first");
    assert_eq!(ways.iter().filter(|way| told(way).is_some()).count(), 1);
    let thickness = told(&ways[at]).unwrap();
    assert!(explain::repair::steps(&ways[at].0).contains(&format!("{} mm of washers", thickness.decimal())));
    // A washer thinner than that by the thinnest there is does not do.
    let thinner = Millimetres::from_decimal(thickness.decimal() - 0.3).unwrap();
    let (_, build) = sample::flawed().into_iter().find(|(name, _)| *name == "motor-screw-length").unwrap();
    let Step::Washers { at, .. } = &ways[at].0[0] else { return };
    let step = Step::Washers { at: at.clone(), to: thinner };
    let found = sample::report(&sample::catalogue(), &applied(&[step], &build));
    assert!(found.findings.iter().any(|finding| finding.rule == "motor-screw-length" && finding.forbids()));
}

#[test]
fn a_sound_build_is_answered_in_words_and_with_status_0() {
    let scratch = Scratch::new("a_sound_build_is_answered_in_words_and_with_status_0");
    let file = scratch.file("build.ron", sample::demo_text());
    let answer = propwright(["repair".into(), path(&file)]);
    assert_eq!(answer.exit, propwright::cli::Exit::Done);
    assert!(answer.out.contains("there is nothing to mend"), "{}", answer.out);
}
