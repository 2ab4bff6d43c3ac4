//! The page about flight as hands, keys and a screen reader find it: by role and label, without a screen.

#![expect(clippy::unwrap_used, reason = "a test that does not find its control has failed")]

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::{
    Harness,
    kittest::{NodeT as _, Queryable as _},
};
use propwright::{
    state::{Document, Page},
    view,
    window::{Window, demo_build, sample_catalogue},
    worker::Worker,
};
use propwright_engine::explain;
use propwright_schema::{
    build_list::BuildList,
    quantity::{Grams, MetresPerSecond, Minutes},
    slot::Slot,
};

/// The page about flight of a build.
fn flight_of(build: BuildList) -> Harness<'static, Window> {
    let mut harness = Harness::builder().with_size(vec2(1280.0, 800.0)).with_max_steps(20).build_eframe(|cc| {
        let mut window = Window::new(cc, sample_catalogue().unwrap(), Worker::Inline(Vec::new())).unwrap();
        window.open(build);
        window
    });
    harness.run();
    assert!(document(&harness).curves.sweep.is_none(), "no curve is drawn for a page that nobody sees");
    press(&mut harness, Modifiers::COMMAND, Key::Num4);
    assert_eq!(harness.state().app().page, Page::Flight);
    harness
}

fn document<'h>(harness: &'h Harness<'_, Window>) -> &'h Document {
    harness.state().app().shown().unwrap()
}

fn press(harness: &mut Harness<'_, Window>, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

fn read_out(harness: &Harness<'_, Window>, plot: &str) -> String {
    harness.get_by_role_and_label(Role::Image, plot).accesskit_node().value().unwrap()
}

const PLOTS: [&str; 5] =
    ["Thrust and current", "Power and reach", "Calm time by payload", "Calm time by pack", "Signal to spare"];

#[test]
fn times_and_curves_stand_on_the_page() {
    let harness = flight_of(demo_build());
    let report = document(&harness).report().unwrap();
    let times = report.flight.as_ref().unwrap().times;
    for (name, time) in [("Hover", times.hover), ("Calm", times.calm), ("Hard", times.hard), ("Flat out", times.flat_out)] {
        harness.get_by_role_and_label(Role::Image, &format!("{name} flight time: {}", explain::figure(&time)));
    }
    for plot in PLOTS {
        assert!(!read_out(&harness, plot).is_empty());
    }
    let speeds = read_out(&harness, "Power and reach");
    for point in ["best endurance: airspeed", "best range: airspeed", "top speed: airspeed"] {
        assert!(speeds.contains(point), "{point} in {speeds}");
    }
    assert!(document(&harness).curves.are_of(report));
}

#[test]
fn arrow_keys_read_the_operating_points() {
    let mut harness = flight_of(demo_build());
    let flight = document(&harness).report().unwrap().flight.clone().unwrap();
    harness.get_by_role_and_label(Role::Image, "Thrust and current").focus();
    harness.run();
    let duty = explain::number(flight.hover_duty.si() * 100.0);
    let said = read_out(&harness, "Thrust and current");
    assert!(said.starts_with(&format!("hover, fresh: duty {duty} %; thrust ")), "{said}");
    for _ in 0..2 {
        press(&mut harness, Modifiers::NONE, Key::ArrowUp);
    }
    let said = read_out(&harness, "Thrust and current");
    let current = explain::figure(&flight.full_throttle_current);
    assert!(said.starts_with("full throttle: duty 100 %") && said.contains(&format!("pack current {current}")), "{said}");
    press(&mut harness, Modifiers::NONE, Key::ArrowLeft);
    let before = read_out(&harness, "Thrust and current");
    assert!(before.starts_with("duty 9"), "{before}");
    press(&mut harness, Modifiers::NONE, Key::Home);
    assert!(read_out(&harness, "Thrust and current").starts_with("duty 5 %"));
}

#[test]
fn wind_is_changed_on_the_page_and_taken_back() {
    let mut harness = flight_of(demo_build());
    let before = (document(&harness).build.conditions.wind_ms, read_out(&harness, "Power and reach"));
    harness.get_by_role_and_label(Role::Slider, "Wind").focus();
    harness.run();
    press(&mut harness, Modifiers::NONE, Key::ArrowRight);
    let wind = document(&harness).build.conditions.wind_ms.unwrap();
    assert!(wind > before.0.unwrap_or(MetresPerSecond::from_steps(0)));
    assert_ne!(read_out(&harness, "Power and reach"), before.1, "the reach follows");
    assert!(document(&harness).curves.are_of(document(&harness).report().unwrap()));
    assert_eq!(document(&harness).past.last().unwrap().label, "wind");
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(document(&harness).build.conditions.wind_ms, before.0);
    assert_eq!(read_out(&harness, "Power and reach"), before.1);
}

#[test]
fn a_harder_mix_shortens_hard_flight() {
    let mut harness = flight_of(demo_build());
    let hard = |harness: &Harness<'_, Window>| document(harness).report().unwrap().flight.as_ref().unwrap().times.hard;
    let before = hard(&harness);
    harness.get_by_role_and_label(Role::SpinButton, "Hard flight, full throttle").focus();
    harness.run();
    press(&mut harness, Modifiers::NONE, Key::ArrowUp);
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert!(document(&harness).build.conditions.hard_full_percent.is_some());
    assert!(hard(&harness).nominal < before.nominal);
    assert_eq!(document(&harness).past.last().unwrap().label, "hard full");
}

#[test]
fn each_figure_tells_what_to_measure() {
    let mut harness = flight_of(demo_build());
    let told = document(&harness).report().unwrap().flight.as_ref().unwrap().told.clone();
    let calm = told.iter().find(|told| told.key == "time_calm_min").unwrap();
    assert!(!calm.deciding.is_empty() && calm.deciding.len() <= 3);
    let lines = |harness: &Harness<'_, Window>| harness.root().query_all_by_label(calm.deciding[0].measure).count();
    let closed = lines(&harness);
    harness.get_by_role_and_label(Role::DisclosureTriangle, "Calm flight").click_accesskit();
    harness.run();
    assert_eq!(lines(&harness), closed + 1);
}

#[test]
fn a_drag_is_one_step_back() {
    let mut harness = flight_of(demo_build());
    let slider = harness.get_by_role_and_label(Role::Slider, "Payload").rect();
    let at = |share: f32| egui::pos2(egui::lerp(slider.x_range().min..=slider.x_range().max, share), slider.center().y);
    harness.hover_at(at(0.05));
    harness.run();
    harness.drag_at(at(0.05));
    for share in [0.2, 0.4, 0.6, 0.8] {
        harness.hover_at(at(share));
        harness.run();
    }
    harness.drop_at(at(0.8));
    harness.run();
    assert!(document(&harness).build.purpose.payload_g.is_some());
    assert_eq!(document(&harness).past.len(), 1, "one drag, one step");
    assert!(!document(&harness).dragged);
    press(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(*document(&harness).build, demo_build());
}

#[test]
fn a_weighed_craft_says_that_the_payload_is_aboard() {
    let weighed = BuildList { weighed_g: Grams::parse("745").ok(), ..demo_build() };
    let harness = flight_of(weighed);
    harness.get_by_label("weighed aboard");
    let slider = harness.get_by_role_and_label(Role::Slider, "Payload");
    assert!(slider.accesskit_node().is_disabled());
    let free = flight_of(demo_build());
    assert!(!free.get_by_role_and_label(Role::Slider, "Payload").accesskit_node().is_disabled());
}

#[test]
fn figures_are_said_in_one_way_and_without_idle_digits() {
    let harness = flight_of(demo_build());
    let view = &document(&harness).bench.flight;
    let duty = view.sure.iter().find(|sure| sure.title.starts_with("Duty")).unwrap();
    assert!(duty.words.contains(" % ("), "{}", duty.words);
    let longest = view.times.iter().find(|time| time.name == "Longest").unwrap();
    let propwright::view::Made::Speed(words) = &longest.made else { panic!("{longest:?}") };
    let digits = words.trim_start_matches("at ").split(' ').next().unwrap();
    assert!(digits.chars().filter(char::is_ascii_digit).count() <= 3, "{words}");
    for (_, stated) in &view.plots {
        assert!(stated.split(' ').all(|word| word.chars().filter(char::is_ascii_digit).count() <= 4), "{stated}");
    }
}

#[test]
fn a_time_that_no_pack_flies_is_said_to_be_out_of_reach() {
    let mut build = demo_build();
    let under_the_pack = |build: &BuildList| {
        let harness = flight_of(build.clone());
        let plots = &document(&harness).bench.flight.plots;
        plots.iter().find(|(plot, _)| plot.name == "Calm time by pack").unwrap().1.clone()
    };
    build.purpose.calm_min = Minutes::parse("60").ok();
    let said = under_the_pack(&build);
    assert!(said.starts_with("no pack of this kind flies the 60 min asked: "), "{said}");
    build.purpose.calm_min = Minutes::parse("3").ok();
    let said = under_the_pack(&build);
    assert!(said.starts_with("3 min as asked from about "), "{said}");
}

#[test]
fn a_craft_without_a_pack_says_what_is_missing() {
    let parts = demo_build().parts.into_iter().filter(|line| line.slot != Slot::Battery).collect();
    let harness = flight_of(BuildList { parts, ..demo_build() });
    assert!(harness.query_by_role_and_label(Role::Image, "Thrust and current").is_none());
    let says = |beginning: &str| {
        let begins = |words: Option<String>| words.is_some_and(|words| words.starts_with(beginning));
        harness.root().query_all_by(|node| begins(node.label()) || begins(node.value())).next().is_some()
    };
    assert!(says("Nothing flies before these are chosen: pack."));
}

#[test]
fn every_control_of_the_page_has_a_name() {
    let harness = flight_of(demo_build());
    let used = [Role::Button, Role::TextInput, Role::Slider, Role::SpinButton, Role::DisclosureTriangle, Role::Image];
    let mut seen = 0;
    for control in harness.root().query_all_by(|node| used.contains(&node.role())) {
        let node = control.accesskit_node();
        let named = node.label().is_some_and(|label| !label.is_empty()) || node.labelled_by().next().is_some();
        assert!(named, "{:?} at {:?}", node.role(), control.rect());
        seen += 1;
    }
    assert!(seen > 40, "the controls were found: {seen}");
}

#[test]
fn every_figure_is_followed_down_on_the_page_and_closed_again() {
    let mut harness = flight_of(demo_build());
    let (times, told) = {
        let bench = &document(&harness).bench.flight;
        let ids = bench.times.iter().map(|time| time.id).chain(["wind-held", "longest-speed", "radius-energy", "radius-horizon"]);
        (ids.collect::<Vec<_>>(), bench.sure.iter().map(|sure| sure.id).collect::<Vec<_>>())
    };
    for id in times.into_iter().chain(told) {
        let name = view::comes_about(id);
        let value = harness.query_all_by_role_and_label(Role::Button, &name).next().unwrap().accesskit_node().value();
        assert!(value.is_some_and(|value| value.chars().any(|digit| digit.is_ascii_digit())), "{name} is a figure");
        harness.query_all_by_role_and_label(Role::Button, &name).next().unwrap().focus();
        harness.run();
        press(&mut harness, Modifiers::NONE, Key::Enter);
        assert_eq!(harness.state().app().page, Page::Flight, "it stays on the page");
        assert_eq!(document(&harness).followed, Some(id));
        let working = document(&harness).bench.working.as_ref().unwrap();
        assert_eq!(working.title, name);
        let top = explain::headline(&working.because[0]);
        harness.get_by_role_and_label(Role::DisclosureTriangle, &top);
    }
    harness.get_by_role_and_label(Role::Button, "Close the working").click();
    harness.run();
    assert_eq!(document(&harness).followed, None);
}

#[test]
fn a_figure_is_followed_by_keys_down_to_a_fact() {
    let mut harness = flight_of(demo_build());
    harness.get_by_role_and_label(Role::Button, &view::comes_about("longest-speed")).focus();
    harness.run();
    press(&mut harness, Modifiers::NONE, Key::Enter);
    assert_eq!(document(&harness).followed, Some("longest-speed"));
    let mut step = document(&harness).bench.working.as_ref().unwrap().because[0].clone();
    while !step.from.is_empty() {
        harness.get_by_role_and_label(Role::DisclosureTriangle, &explain::headline(&step)).focus();
        harness.run();
        press(&mut harness, Modifiers::NONE, Key::Enter);
        step = step.from.last().unwrap().clone();
    }
    let fact = explain::headline(&step);
    let told = harness.root().query_all_by(|node| node.value().or(node.label()).is_some_and(|said| said == fact)).count();
    assert!(told > 0, "{fact}");
}
