//! The builds read, call parts that exist and fill their slots, and a flawed build is one line away from a sound one.
#![expect(clippy::panic, reason = "a test fails by panicking")]

use std::collections::BTreeSet;

use propwright_schema::{
    build_list::{BuildList, Feed, Fitted},
    catalogue::Catalogue,
    part::{Part, Role},
    ron_options,
    slot::Slot,
    value::Value,
};

fn catalogue() -> Catalogue {
    let mut catalogue = Catalogue::default();
    for (name, text) in propwright_sample::CATALOGUE {
        match ron_options().from_str(text) {
            Ok(file) => catalogue.lay_over(&file),
            Err(error) => panic!("{name}: {error}"),
        };
    }
    catalogue
}

fn build(name: &str, text: &str) -> BuildList {
    match ron_options().from_str(text) {
        Ok(build) => build,
        Err(error) => panic!("{name}: {error}"),
    }
}

fn reference() -> Vec<(&'static str, BuildList)> {
    propwright_sample::REFERENCE.iter().map(|&(name, text)| (name, build(name, text))).collect()
}

fn part<'a>(catalogue: &'a Catalogue, name: &str, fitted: &Fitted) -> &'a Part {
    let found = catalogue.part(&fitted.part);
    found.unwrap_or_else(|| panic!("{name}: no part {}", fitted.part))
}

#[test]
fn every_part_exists_and_fills_its_slot() {
    let catalogue = catalogue();
    for (name, text) in propwright_sample::REFERENCE.iter().chain(propwright_sample::FLAWED) {
        for fitted in &build(name, text).parts {
            let part = part(&catalogue, name, fitted);
            assert!(fitted.count > 0 && part.role(fitted.slot).is_some(), "{name}: {} in {}", fitted.part, fitted.slot);
        }
    }
}

#[test]
fn a_flawed_build_is_one_line_away() {
    for (name, flawed) in propwright_sample::FLAWED {
        let differing = |reference: &str| {
            let same_length = reference.lines().count() == flawed.lines().count();
            same_length.then(|| reference.lines().zip(flawed.lines()).filter(|(a, b)| a != b).count())
        };
        let nearest = propwright_sample::REFERENCE.iter().filter_map(|(_, text)| differing(text)).min();
        assert_eq!(nearest, Some(1), "{name}");
    }
}

#[test]
fn the_demo_is_a_reference_build() {
    assert!(propwright_sample::REFERENCE.iter().any(|(name, _)| *name == propwright_sample::DEMO));
}

/// The slots that a build fills, by whatever line.
fn filled(catalogue: &Catalogue, name: &str, build: &BuildList) -> BTreeSet<Slot> {
    let of_line = |fitted: &Fitted| part(catalogue, name, fitted).filled_from(fitted.slot).into_iter().map(|(slot, _)| slot);
    build.parts.iter().flat_map(of_line).collect()
}

#[test]
fn a_reference_build_is_whole() {
    let always = [
        Slot::Frame,
        Slot::Motor,
        Slot::MotorScrew,
        Slot::Propeller,
        Slot::Esc,
        Slot::FlightController,
        Slot::Battery,
        Slot::Strap,
        Slot::Receiver,
        Slot::Camera,
        Slot::VideoTransmitter,
        Slot::AntennaVideo,
        Slot::Radio,
        Slot::Goggles,
        Slot::Charger,
        Slot::FireSafeBag,
    ];
    let catalogue = catalogue();
    for (name, build) in reference() {
        let filled = filled(&catalogue, name, &build);
        for slot in always {
            assert!(filled.contains(&slot), "{name} lacks {slot}");
        }
        let built_in = build
            .parts
            .iter()
            .flat_map(|fitted| &part(&catalogue, name, fitted).fills)
            .any(|role| matches!(role, Role::Receiver(_)) && role.get("antenna_built_in") == Some(Value::Flag(true)));
        assert!(built_in || filled.contains(&Slot::AntennaControl), "{name} lacks a control antenna");
        assert!(build.purpose.usage.is_some() && build.purpose.place.is_some(), "{name} has no purpose");
    }
}

#[test]
fn what_is_fed_says_from_where() {
    let catalogue = catalogue();
    for (name, build) in reference() {
        let roles = |fitted: &Fitted| part(&catalogue, name, fitted).fills.clone();
        let rails: BTreeSet<String> = build.parts.iter().flat_map(roles).flat_map(|role| rail_names(&role)).collect();
        for fitted in &build.parts {
            let fed = part(&catalogue, name, fitted).fills.iter().any(|role| role.get("supply_max_v").is_some());
            let bare = matches!(fitted.slot, Slot::PowerBoard | Slot::AntiSpark);
            assert!(!fed || bare || fitted.feed.is_some(), "{name}: {} has no feed", fitted.part);
            if let Some(Feed::Rail(rail)) = &fitted.feed {
                assert!(rails.contains(rail), "{name}: no rail {rail}");
            }
        }
    }
}

fn rail_names(role: &Role) -> Vec<String> {
    let rails = role.get("rails");
    let items = rails.iter().flat_map(Value::items);
    items.filter_map(|rail| Some(rail.field("name")?.word()?.to_owned())).collect()
}

#[test]
fn serial_ports_are_free_and_taken_once() {
    let catalogue = catalogue();
    for (name, build) in reference() {
        let roles: Vec<Role> = build.parts.iter().flat_map(|fitted| part(&catalogue, name, fitted).fills.clone()).collect();
        let free = roles.iter().find_map(|role| match role {
            Role::FlightController(board) => board.uarts.clone(),
            _ => None,
        });
        let free: BTreeSet<u32> =
            free.unwrap_or_default().iter().filter(|uart| uart.taken != Some(true)).filter_map(|uart| uart.number).collect();
        let asked: Vec<u32> = build.parts.iter().filter_map(|fitted| fitted.uart).collect();
        let distinct: BTreeSet<u32> = asked.iter().copied().collect();
        assert_eq!(distinct.len(), asked.len(), "{name}: a port taken twice");
        assert!(distinct.is_subset(&free), "{name}: {distinct:?} of {free:?}");
    }
}

#[test]
fn each_motor_has_its_output_and_its_propeller() {
    for (name, build) in reference() {
        let count = |slot| build.fitted(slot).map(|(_, fitted)| fitted.count).sum::<u32>();
        let outputs: Vec<u32> =
            build.fitted(Slot::Motor).flat_map(|(_, fitted)| fitted.outputs.clone().unwrap_or_default()).collect();
        let distinct: BTreeSet<&u32> = outputs.iter().collect();
        assert!(
            u32::try_from(distinct.len()) == Ok(count(Slot::Motor)) && distinct.len() == outputs.len(),
            "{name}: {outputs:?}"
        );
        assert_eq!(count(Slot::Motor), count(Slot::Propeller), "{name}");
    }
}
