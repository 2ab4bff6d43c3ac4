//! What else fits in a slot: the fast search answers as the plain evaluation of each exchange does, and what stands in for a
//! part does what it says.

#![expect(clippy::unwrap_used, reason = "what is not there fails the test")]

use std::sync::Arc;

use propwright_engine::{
    Report,
    bill::Given,
    evaluate_with,
    finding::{Finding, Status},
    fit::{self, Following, Means, Place, Replacement, Replacing, Search, Way},
    policy::Policy,
};
use propwright_schema::{
    catalogue::Catalogue,
    load::{load_catalogue, load_stock},
    part::{Motor, Role},
    slot::Slot,
};
use propwright_tests::sample;

/// Runs `look` on every sound build with its report.
fn each_build(given: &Given, mut look: impl FnMut(&str, Means, &Report)) {
    let (catalogue, policy) = (sample::catalogue(), Policy::default());
    let means = Means { catalogue: &catalogue, policy: &policy, given };
    for (name, build) in sample::reference() {
        look(name, means, &evaluate_with(&catalogue, &Arc::new(build), &policy, given));
    }
}

/// Every place of a build: each line, and each slot that may get one.
fn places(base: &Report) -> Vec<Place> {
    let lines = base.craft.build.parts.iter().enumerate().map(|(line, fitted)| Place { slot: fitted.slot, line: Some(line) });
    let empty = Slot::ALL.iter().filter(|slot| base.craft.build.fitted(**slot).next().is_none());
    lines.chain(empty.map(|slot| Place { slot: *slot, line: None })).collect()
}

#[test]
fn the_search_answers_as_the_plain_evaluation() {
    each_build(&Given::default(), |name, means, base| {
        for place in places(base) {
            for candidate in Search::new(means, base, place).finish() {
                let plain = fit::candidate(means, base, place, &candidate.part);
                assert_eq!(candidate, plain, "{name}: {} in {}", candidate.part.id, place.slot);
            }
        }
    });
}

#[test]
fn a_shelf_with_measured_figures_changes_nothing_about_that() {
    let measured = r#"(version: 1, items: [
        (part: "vellacre-2207-1750", count: 4, mass_g: 33.1), (part: "duskmarl-anvil-7", count: 1, mass_g: 9.9)])"#;
    let stock = load_stock("shelf.ron", measured).unwrap();
    let given = Given { stock, ..Given::default() };
    let (catalogue, policy) = (sample::catalogue(), Policy::default());
    let means = Means { catalogue: &catalogue, policy: &policy, given: &given };
    let base = evaluate_with(&catalogue, &Arc::new(sample::demo()), &policy, &given);
    for slot in [Slot::Motor, Slot::FlightController, Slot::AntennaVideo] {
        for candidate in Search::new(means, &base, Place::nth(&base.craft, slot, 0)).finish() {
            let plain = fit::candidate(means, &base, Place::nth(&base.craft, slot, 0), &candidate.part);
            assert_eq!(candidate, plain, "{} in {slot}", candidate.part.id);
        }
    }
}

/// What `check` finds on the swapped build is what `fits` says of the part: a mismatch of the build that was not there before
/// blocks the part, and what blocks the part is a mismatch of the build.
#[test]
fn what_blocks_a_part_is_what_check_finds_on_the_swapped_build() {
    each_build(&Given::default(), |name, means, base| {
        assert_eq!(base.count(Status::Mismatch), 0, "{name} is sound");
        for place in places(base) {
            for candidate in Search::new(means, base, place).finish() {
                let swapped = place.with(&base.craft, &candidate.part.id);
                let report = evaluate_with(means.catalogue, &Arc::new(swapped), means.policy, means.given);
                let forbidding = report.findings.iter().filter(|finding| finding.forbids());
                let mut found: Vec<&str> = forbidding.map(|finding| finding.rule).collect();
                found.sort_unstable();
                found.dedup();
                assert_eq!(candidate.blocking(), found, "{name}: {} in {}", candidate.part.id, place.slot);
                assert_eq!(candidate.status == Status::Mismatch, !found.is_empty());
            }
        }
    });
}

#[test]
fn the_fitted_part_goes_with_its_sound_craft() {
    each_build(&Given::default(), |name, means, base| {
        for place in places(base) {
            let all = Search::new(means, base, place).finish();
            for fitted in all.iter().filter(|candidate| candidate.fitted) {
                let sound = matches!(fitted.status, Status::Fits | Status::Tight);
                assert!(sound, "{name}: {} is {}", place.slot, fitted.status.word());
                assert!(fitted.change.mass.is_none_or(|mass| mass.none) && fitted.change.cost.as_ref().unwrap().is_empty());
            }
            assert_eq!(all.iter().filter(|candidate| candidate.fitted).count(), usize::from(place.fitted(&base.craft).is_some()));
        }
    });
}

#[test]
fn rows_on_the_screen_come_first() {
    let (catalogue, policy, given) = (sample::catalogue(), Policy::default(), Given::default());
    let means = Means { catalogue: &catalogue, policy: &policy, given: &given };
    let base = evaluate_with(&catalogue, &Arc::new(sample::demo()), &policy, &given);
    let mut search = Search::new(means, &base, Place::nth(&base.craft, Slot::Motor, 0));
    let all = search.left();
    let mut last: Vec<String> = catalogue.for_slot(Slot::Motor).map(|part| part.id.clone()).collect();
    last = last.split_off(all - 3);
    last.reverse();
    search.first(&last);
    let found: Vec<String> = search.next_chunk(3).iter().map(|candidate| candidate.part.id.clone()).collect();
    assert_eq!(found, last);
    assert_eq!(search.left(), all - 3);
}

/// A change of a motor.
type Changed = fn(&mut Motor);

/// The demo craft with more motors to choose from: copies of its own that differ in one field.
fn with_motors(changes: &[(&str, Changed)]) -> Catalogue {
    let mut catalogue = sample::catalogue();
    let fitted = sample::demo().fitted(Slot::Motor).next().unwrap().1.part.clone();
    let original = catalogue.part(&fitted).unwrap().clone();
    for (id, change) in changes {
        let mut part = (*original).clone();
        (*id).clone_into(&mut part.id);
        (*id).clone_into(&mut part.name);
        for role in &mut part.fills {
            if let Role::Motor(motor) = role {
                change(motor);
            }
        }
        let mut file = load_catalogue("none.ron", "(version: 1, parts: [])").unwrap();
        file.parts.push(Arc::new(part));
        catalogue.lay_over(&file);
    }
    catalogue
}

fn replacements(catalogue: &Catalogue, slot: Slot) -> Vec<Replacement> {
    let (policy, given) = (Policy::default(), Given::default());
    let means = Means { catalogue, policy: &policy, given: &given };
    let base = evaluate_with(catalogue, &Arc::new(sample::demo()), &policy, &given);
    Replacing::new(means, &base, Place::nth(&base.craft, slot, 0), 60).finish()
}

fn scaled_kv(motor: &mut Motor, thousandths: i64) {
    let kv = motor.kv_rpm_per_v.unwrap();
    motor.kv_rpm_per_v = Some(propwright_schema::quantity::Kv::from_steps(kv.steps() * thousandths / 1000));
}

/// The bench's rule for one motor beside the others (common practice, no source): stator, poles, winding, KV within 3 %, shaft,
/// lead end and length.
#[test]
fn one_motor_beside_the_others_must_match_them() {
    let catalogue = with_motors(&[
        ("kv-near", |motor| scaled_kv(motor, 1029)),
        ("kv-far", |motor| scaled_kv(motor, 1031)),
        ("stator", |motor| motor.stator_height_mm = Some(propwright_schema::quantity::Millimetres::parse("8").unwrap())),
        ("poles", |motor| motor.poles = Some(12)),
        ("winding", |motor| {
            motor.winding = Some(match motor.winding.unwrap() {
                propwright_schema::part::Winding::Delta => propwright_schema::part::Winding::Star,
                propwright_schema::part::Winding::Star => propwright_schema::part::Winding::Delta,
            });
        }),
        ("shaft", |motor| motor.shaft_mm = Some(propwright_schema::quantity::Millimetres::parse("4").unwrap())),
        ("lead-short", |motor| motor.lead_length_mm = Some(propwright_schema::quantity::Millimetres::parse("40").unwrap())),
        ("lead-plug", |motor| motor.lead_end = Some(propwright_schema::part::LeadEnd::Plug)),
        ("alike", |_| {}),
    ]);
    let all = replacements(&catalogue, Slot::Motor);
    let one = |id: &str| all.iter().find(|found| found.part.id == id).unwrap().one.as_ref().unwrap();
    let matches = |way: &Way| way.findings.iter().filter(|finding| finding.rule == "motor-match").map(Finding::status).max();
    for (id, status) in [
        ("alike", None),
        ("kv-near", Some(Status::Tight)),
        ("kv-far", Some(Status::Mismatch)),
        ("stator", Some(Status::Mismatch)),
        ("poles", Some(Status::Mismatch)),
        ("winding", Some(Status::Mismatch)),
        ("shaft", Some(Status::Mismatch)),
        ("lead-short", Some(Status::Tight)),
        ("lead-plug", Some(Status::Tight)),
    ] {
        assert_eq!(matches(one(id)), status, "{id}");
        assert_eq!(one(id).goes(), status != Some(Status::Mismatch), "{id}: nothing else can mend it");
    }
    // All of them changed, they match one another.
    for found in &all {
        assert_eq!(matches(&found.all), None, "{}", found.part.id);
    }
}

#[test]
fn one_and_all_are_priced_in_whole_packs() {
    let catalogue = sample::catalogue();
    for found in replacements(&catalogue, Slot::Motor) {
        let one = found.one.as_ref().unwrap();
        assert_eq!((one.buy.count, found.all.buy.count), (1, 4), "{}", found.part.id);
        assert_eq!(one.buy.price, found.part.price, "{}", found.part.id);
        assert_eq!(found.all.buy.price, found.part.price.and_then(|price| price.times(4)), "{}", found.part.id);
    }
    // Propellers come in packs; one of four alone makes no sense and is not offered.
    for found in replacements(&catalogue, Slot::Propeller) {
        let packs = 4_u32.div_ceil(found.part.pieces.unwrap_or(1));
        assert_eq!(found.all.buy.price, found.part.price.and_then(|price| price.times(packs)), "{}", found.part.id);
        assert!(found.one.is_none());
    }
}

#[test]
fn with_what_follows_nothing_is_newly_forbidden() {
    let (catalogue, policy, given) = (sample::catalogue(), Policy::default(), Given::default());
    let mut sets = 0;
    for slot in [Slot::Motor, Slot::Battery, Slot::Frame] {
        for found in replacements(&catalogue, slot) {
            for way in found.ways().filter(|way| way.goes()) {
                let report = evaluate_with(&catalogue, way.list(), &policy, &given);
                assert_eq!(report.count(Status::Mismatch), 0, "{slot}: {}", found.part.id);
                if let Following::Set(set) = &way.following {
                    sets += 1;
                    let bought = [way.buy.price].into_iter().chain(set.swaps.iter().map(|swap| swap.price));
                    let sum = bought.map(|price| Some(price?.minor())).sum::<Option<i64>>();
                    let paid = way.price().map(|paid| paid.iter().map(|sum| sum.minor()).sum());
                    assert_eq!(paid, sum, "{slot}: {}", found.part.id);
                    // No proper part of the set is enough: with any of its swaps taken back something is forbidden.
                    for left_out in &set.swaps {
                        let mut build = (*set.build).clone();
                        left_out.from.id.clone_into(&mut build.parts[left_out.place.line.unwrap()].part);
                        let report = evaluate_with(&catalogue, &Arc::new(build), &policy, &given);
                        assert!(report.count(Status::Mismatch) > 0, "{}: {} is idle", found.part.id, left_out.to.id);
                    }
                }
            }
        }
    }
    assert!(sets > 0, "some part needs others to follow");
}

#[test]
fn the_closest_comes_first_and_is_the_same_part() {
    let all = replacements(&sample::catalogue(), Slot::Motor);
    assert!(all[0].same && all[0].distance == 0.0);
    let going = all.iter().filter(|found| found.ways().any(Way::goes) && !found.part.retired);
    assert!(going.map(|found| found.distance).is_sorted());
}
