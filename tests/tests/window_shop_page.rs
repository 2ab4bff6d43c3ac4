//! A motor of a shop's page and a propeller of a bench note are entered by a typist, by keys alone, within two minutes each.
//!
//! Time is reckoned by the keystroke-level model of Card, Moran and Newell, "The keystroke-level model for user performance time
//! with interactive systems", Communications of the ACM 23(7), 1980: 0.28 s a key for an average typist who is not trained to the
//! task (40 words a minute), 1.35 s for each act of thinking. Two such acts are reckoned for each field, one to find the figure on
//! the page and one to look at what stands in the field; a key held with another counts as two.

#![expect(clippy::unwrap_used, reason = "a test that does not find its control has failed")]

use std::{fs, path::Path};

use egui::{Key, Modifiers, accesskit::Role, vec2};
use egui_kittest::{Harness, kittest::Queryable as _};
use propwright::{
    command::Command,
    window::{Window, demo_build, sample_catalogue},
    worker::Worker,
};
use propwright_schema::{
    load::load_catalogue,
    part::{Basis, Part, Role as Kind},
};
use propwright_tests::scratch::Scratch;

/// Seconds for a key, and for an act of thinking.
const KEY: f64 = 0.28;
const THOUGHT: f64 = 1.35;
/// Two minutes.
const BOUND: f64 = 120.0;

/// A page as shops have it.
const PAGE: &str = "\
Quernby Moorhen 2306 1820KV
Brushless motor for 5 inch freestyle craft
18,90 €, in stock, ready to ship
KV: 1820
Configuration: 12N14P
Stator: 23 x 6 mm
Mounting holes: 16x16 mm, M3
Shaft: 5 mm
Input: 4-6S
Weight: 33.4 g
Rated current: 28 A
Max current: 41 A (10 s)
Price: 18,90 €
Wire: 20AWG, 150 mm
In the box: one motor, four screws, one nut
";

/// A note from the bench.
const NOTE: &str = "\
Name: Harrowmint Skerry 5.1x4.3x3
Diameter: 129.4 mm
Chord: 11.3 mm
Bore: 5.0 mm
Hub: 6.5 mm
Weight: 4.2 g
Pieces: 4
Price: 3.40 EUR
";

/// Who types, and what that took.
struct Typist {
    window: Harness<'static, Window>,
    keys: usize,
    thoughts: usize,
}

impl Typist {
    fn new(into: &Path) -> Self {
        let window = Harness::builder().with_size(vec2(1280.0, 800.0)).with_max_steps(20).build_eframe(|cc| {
            let mut window = Window::new(cc, sample_catalogue().unwrap(), Worker::Inline(Vec::new())).unwrap();
            window.open(demo_build());
            window
        });
        let mut typist = Self { window, keys: 0, thoughts: 0 };
        fs::write(into, "(version: 1, parts: [])").unwrap();
        typist.window.state_mut().command(Command::LayOver(into.to_owned()));
        typist.window.run();
        typist
    }

    fn press(&mut self, modifiers: Modifiers, key: Key) {
        self.keys += if modifiers.is_none() { 1 } else { 2 };
        self.window.key_press_modifiers(modifiers, key);
        self.window.run();
    }

    /// Types into the field that has the keys, which is the one of this name.
    fn write(&mut self, field: &str, text: &str) {
        let node = self.window.get_by_role_and_label(Role::TextInput, field);
        assert!(node.is_focused(), "{field} has the keys");
        node.type_text(text);
        self.keys += text.chars().count();
        self.window.run();
    }

    /// A field on the way: it is filled in, or looked at and passed by.
    fn field(&mut self, field: &str, text: Option<&str>) {
        self.thoughts += 2;
        self.write(field, text.unwrap_or_default());
        self.press(Modifiers::NONE, Key::Enter);
    }

    fn begin(&mut self, kind: &str) {
        self.thoughts += 2;
        self.press(Modifiers::COMMAND, Key::K);
        self.write("Find anything", &format!("enter new {kind}"));
        self.press(Modifiers::NONE, Key::Enter);
        self.window.run();
    }

    fn word(&mut self, word: &str) {
        self.thoughts += 1;
        assert!(self.window.get_by_role_and_label(Role::Button, word).is_focused(), "{word} has the keys");
        self.press(Modifiers::NONE, Key::Enter);
    }

    fn seconds(&self) -> f64 {
        self.keys as f64 * KEY + self.thoughts as f64 * THOUGHT
    }
}

fn of<'p>(page: &'p str, line: &str) -> &'p str {
    page.lines().find_map(|known| known.strip_prefix(line)?.strip_prefix(": ")).unwrap()
}

fn kept(file: &Path) -> Part {
    let held = load_catalogue("parts.ron", &fs::read_to_string(file).unwrap()).unwrap();
    (*held.parts[0]).clone()
}

#[test]
fn a_motor_of_a_shops_page_is_entered_within_two_minutes() {
    let scratch = Scratch::new("typed motor");
    let file = scratch.folder().join("parts.ron");
    let mut typist = Typist::new(&file);
    typist.begin("motor");
    typist.field("Name", PAGE.lines().next());
    for said_by_name in ["Maker", "KV", "Stator diameter", "Stator height"] {
        typist.field(said_by_name, None);
    }
    for (field, line) in [
        ("Hole pattern", "Mounting holes"),
        ("Shaft diameter", "Shaft"),
        ("Cells", "Input"),
        ("Mass", "Weight"),
        ("Rated current", "Rated current"),
        ("Peak current", "Max current"),
        ("Poles", "Configuration"),
        ("Leads", "Wire"),
        ("Price", "Price"),
    ] {
        typist.field(field, Some(of(PAGE, line)));
    }
    typist.word("The rest is not published");
    typist.press(Modifiers::COMMAND, Key::S);
    assert!(typist.window.state().app().entering.is_none(), "kept");

    let part = kept(&file);
    let shown = |name: &str| match &part.fills[0] {
        Kind::Motor(_) => part.fills[0].get(name).map(|value| propwright_schema::typed::shown(&value)).unwrap_or_default(),
        other => unreachable!("a {}", other.word()),
    };
    assert_eq!((part.maker.as_deref(), part.mass_g.unwrap().to_string().as_str()), (Some("Quernby"), "33.4 g"));
    assert_eq!(part.price.unwrap().to_string(), "18.90 EUR");
    assert!(part.priced_on.is_some(), "of the day on which it was typed");
    for (field, value) in [
        ("kv_rpm_per_v", "1820"),
        ("stator_diameter_mm", "23"),
        ("stator_height_mm", "6"),
        ("pattern", "16x16"),
        ("thread", "M3"),
        ("shaft_mm", "5"),
        ("cells_min", "4"),
        ("cells_max", "6"),
        ("current_a", "28"),
        ("current_burst_a", "41"),
        ("burst_s", "10"),
        ("poles", "14"),
        ("lead_awg", "20"),
        ("lead_length_mm", "150"),
    ] {
        assert_eq!(shown(field), value, "{field}");
    }
    assert_eq!(part.basis_of("resistance_mohm"), Some(Basis::Unpublished));
    assert!(typist.seconds() < BOUND, "{} keys, {} thoughts: {} s", typist.keys, typist.thoughts, typist.seconds());
}

#[test]
fn a_measured_propeller_is_entered_within_two_minutes() {
    let scratch = Scratch::new("typed propeller");
    let file = scratch.folder().join("parts.ron");
    let mut typist = Typist::new(&file);
    typist.begin("propeller");
    typist.field("Name", Some(of(NOTE, "Name")));
    typist.field("Maker", None);
    typist.field("Diameter", Some(of(NOTE, "Diameter")));
    for said_by_name in ["Pitch", "Blades"] {
        typist.field(said_by_name, None);
    }
    for (field, line) in [
        ("Chord at 75 %", "Chord"),
        ("Bore diameter", "Bore"),
        ("Hub thickness", "Hub"),
        ("Mass", "Weight"),
        ("Pieces", "Pieces"),
        ("Price", "Price"),
    ] {
        typist.field(field, Some(of(NOTE, line)));
    }
    typist.press(Modifiers::NONE, Key::Tab);
    typist.word("All measured by me");
    typist.press(Modifiers::COMMAND, Key::S);
    assert!(typist.window.state().app().entering.is_none(), "kept");

    let part = kept(&file);
    let Kind::Propeller(propeller) = &part.fills[0] else { unreachable!("it is a propeller") };
    // 129.4 mm are 5.0945 in (international inch).
    assert!((propeller.diameter_in.unwrap().decimal() - 5.0945).abs() < 1e-4);
    let told = [propeller.pitch_in.unwrap().to_string(), propeller.chord_75_mm.unwrap().to_string()];
    assert_eq!((told, propeller.blades), (["4.3 in", "11.3 mm"].map(str::to_owned), Some(3)));
    for measured in ["diameter_in", "chord_75_mm", "bore_mm", "hub_mm", "mass_g"] {
        assert_eq!(part.basis_of(measured), Some(Basis::Measured), "{measured}");
    }
    assert_eq!(part.basis_of("pitch_in"), None, "printed, not measured");
    assert!(typist.seconds() < BOUND, "{} keys, {} thoughts: {} s", typist.keys, typist.thoughts, typist.seconds());
}

#[test]
fn shift_enter_says_whose_figure_and_a_letter_chooses() {
    let scratch = Scratch::new("keys in a field");
    let mut typist = Typist::new(&scratch.folder().join("parts.ron"));
    typist.begin("pack");
    typist.field("Name", Some("Ebbquist Pike 6S 1300mAh 100C"));
    typist.field("Maker", None);
    assert!(typist.window.get_by_role_and_label(Role::ComboBox, "Chemistry").is_focused());
    typist.window.event(egui::Event::Text("l".to_owned()));
    typist.window.run();
    let chosen = |typist: &Typist| {
        let article = &typist.window.state().app().entering.as_ref().unwrap().article;
        article.shown(propwright::entering::Spot::of(Some(0), "chemistry"))
    };
    assert_eq!(chosen(&typist), "LiPo");
    typist.window.event(egui::Event::Text("l".to_owned()));
    typist.window.run();
    assert_eq!(chosen(&typist), "LiHV");
    typist.press(Modifiers::NONE, Key::Tab);
    typist.write("Cells", "");
    typist.press(Modifiers::NONE, Key::Tab);
    typist.write("Capacity", "1250");
    typist.press(Modifiers::SHIFT, Key::Enter);
    let entering = typist.window.state().app().entering.as_ref().unwrap();
    let capacity = propwright::entering::Spot::of(Some(0), "capacity_mah");
    assert_eq!((entering.article.shown(capacity).as_str(), entering.article.basis(capacity)), ("1250", Some(Basis::Measured)));
    typist.write("Capacity", "");
}

#[test]
fn what_is_seldom_published_says_how_much_it_is_and_opens_by_key() {
    let scratch = Scratch::new("folded fields");
    let mut typist = Typist::new(&scratch.folder().join("parts.ron"));
    typist.begin("motor");
    typist.field("Name", PAGE.lines().next());
    let depth = |typist: &Typist| typist.window.query_by_role_and_label(Role::TextInput, "Thread depth").is_some();
    assert!(!depth(&typist));
    typist.window.get_by_role_and_label(Role::TextInput, "Price").focus();
    typist.window.run();
    for _ in 0..3 {
        typist.press(Modifiers::NONE, Key::Tab);
    }
    let heading = typist.window.get_by_role_and_label(Role::DisclosureTriangle, "Seldom published: 25 fields, all empty");
    assert!(heading.is_focused());
    typist.press(Modifiers::NONE, Key::Enter);
    assert!(depth(&typist));
    typist.press(Modifiers::NONE, Key::Enter);
    assert!(!depth(&typist));
}
