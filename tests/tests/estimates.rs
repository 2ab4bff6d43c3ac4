//! What the user estimates: it can warn and never forbid, it widens and never narrows, it goes without a trace, and it comes
//! back from its file.

#![expect(clippy::unwrap_used, reason = "a build that cannot be judged fails the test")]

use std::collections::BTreeSet;

use propwright::cli::Exit;
use propwright_engine::{Report, derive, estimated::estimates, finding::Status, fit::repair::Fault, graph::Of, rules};
use propwright_paper::{
    json,
    sheet::{Format, Mark, Setting, Sheet, build_sheet, flight_card},
};
use propwright_schema::{
    build_list::BuildList,
    catalogue::Catalogue,
    estimate::{self, can_be_estimated},
    load::load_build,
    save::write_build,
    slot::Slot,
    validate::check_references,
    value::{Describe as _, Field, Kind, Value},
};
use propwright_tests::{
    command_line::{path, propwright},
    sample,
    scratch::Scratch,
    unpublished,
};

/// A published figure of a part of a build.
#[derive(Debug)]
struct Published {
    part: String,
    role: Option<&'static str>,
    field: &'static Field,
    value: Value,
}

impl Published {
    /// The catalogue in which nobody published it.
    fn gone(&self) -> Catalogue {
        let name = self.role.map_or_else(|| self.field.name.to_owned(), |role| format!("{role}.{}", self.field.name));
        unpublished::catalogue(&[(&self.part, &[name.as_str()])])
    }

    /// The list with a value estimated for it; none for a value that the field cannot hold.
    fn guessed(&self, build: &BuildList, value: &Value) -> Option<BuildList> {
        let mut build = build.clone();
        build.estimate(&self.part, self.role, self.field.name, Some(value)).then_some(build)
    }

    /// Values that are far off.
    fn far_off(&self) -> Vec<Value> {
        let (low, high) = self.field.plausible.unwrap_or_default();
        let text = |figure: f64| estimate::read(&figure.to_string(), self.field).ok().flatten();
        match self.field.kind {
            Kind::Number(_) | Kind::Count => [low, high].into_iter().filter_map(text).collect(),
            Kind::Choice(words) => words.iter().map(|word| Value::Word((*word).to_owned())).collect(),
            Kind::Flag => vec![Value::Flag(self.value != Value::Flag(true))],
            Kind::List(_) => {
                let others = ["9x9", "of another kind"].map(|word| Value::Word(word.to_owned())).to_vec();
                vec![Value::List(Vec::new()), Value::List(others)]
            }
            _ => vec![Value::Word("9x9".to_owned()), Value::Word("of another kind".to_owned())],
        }
    }
}

/// Every figure of the build's parts that a rule or a derivation reads and that can be estimated.
fn published(catalogue: &Catalogue, build: &BuildList) -> Vec<Published> {
    let reads = rules::ALL.iter().flat_map(|rule| rule.reads);
    let reads = reads.chain(derive::ALL.iter().flat_map(|derivation| derivation.reads));
    let of_part = |property: &propwright_engine::graph::Property| match property.of {
        Of::Part(slot) => Some((slot, property.field)),
        _ => None,
    };
    let read: BTreeSet<(Slot, &str)> = reads.filter_map(of_part).collect();
    let parts: BTreeSet<&str> = build.parts.iter().map(|fitted| fitted.part.as_str()).collect();
    let mut found = Vec::new();
    for part in parts.into_iter().map(|id| catalogue.part(id).unwrap()) {
        if let (Some((role, field)), Some(mass)) = (estimate::field_of(part, "mass_g"), part.mass_g) {
            found.push(Published { part: part.id.clone(), role, field, value: mass.value() });
        }
        for role in &part.fills {
            let is_read = |field: &&Field| role.slots().iter().any(|slot| read.contains(&(*slot, field.name)));
            for field in role.fields().iter().filter(is_read).filter(|field| can_be_estimated(field)) {
                let value = role.get(field.name);
                found.extend(value.map(|value| Published { part: part.id.clone(), role: Some(role.word()), field, value }));
            }
        }
    }
    found
}

fn mismatches(report: &Report) -> BTreeSet<Fault> {
    report.findings.iter().filter(|finding| finding.forbids()).map(Fault::of).collect()
}

/// The figures of every so many-th figure of each reference build, so that all builds and kinds come in.
fn each(stride: usize, mut look: impl FnMut(&str, &BuildList, &Published)) {
    let catalogue = sample::catalogue();
    let mut looked = 0;
    for (at, (name, build)) in sample::reference().iter().enumerate() {
        for published in published(&catalogue, build).iter().skip(at % stride).step_by(stride) {
            look(name, build, published);
            looked += 1;
        }
    }
    assert!(looked > 100, "{looked}");
}

#[test]
fn an_estimate_never_forbids() {
    let mut warned = 0;
    each(4, |name, build, published| {
        let catalogue = published.gone();
        let before = mismatches(&sample::report(&catalogue, build));
        for value in published.far_off() {
            let Some(guessed) = published.guessed(build, &value) else { continue };
            let report = sample::report(&catalogue, &guessed);
            let new: Vec<Fault> = mismatches(&report).difference(&before).cloned().collect();
            assert_eq!(new, [], "{name}: {published:?} guessed as {value:?}");
            warned += report.findings.iter().filter(|finding| !finding.own_estimates().is_empty()).count();
        }
    });
    assert!(warned > 100, "estimates are read: {warned}");
}

#[test]
fn an_estimate_widens_every_band_that_rests_on_it() {
    let whole = sample::catalogue();
    let mut wider = BTreeSet::new();
    each(4, |name, build, published| {
        let guessed = published.guessed(build, &published.value).unwrap();
        let (before, after) = (sample::report(&whole, build), sample::report(&published.gone(), &guessed));
        // The limit of the outputs is no figure with a band: it is chosen so that the currents' bands stay below the ratings.
        for derivation in derive::ALL.iter().filter(|derivation| derivation.id != "output-limit") {
            let figures = |report: &Report| -> Vec<_> {
                report.derived(derivation.id).iter().map(|reading| reading.figure().ok()).collect()
            };
            let (known, guess) = (figures(&before), figures(&after));
            assert_eq!(known.len(), guess.len(), "{name}: {published:?}, {}", derivation.id);
            for (known, guess) in known.iter().zip(&guess).filter_map(|(known, guess)| Some((known.as_ref()?, guess.as_ref()?))) {
                let within = guess.low <= known.low && known.high <= guess.high;
                assert!(within, "{name}: {published:?}, {}: {known:?} {guess:?}", derivation.id);
                if guess.low < known.low {
                    wider.insert(published.field.name);
                }
            }
        }
    });
    for field in ["mass_g", "diameter_in", "kv_rpm_per_v", "capacity_mah"] {
        assert!(wider.contains(field), "{field}: {wider:?}");
    }
}

fn told(report: &Report) -> serde_json::Value {
    let mut told = serde_json::to_value(json::report(report, &[])).unwrap();
    told.as_object_mut().unwrap().remove("estimates");
    told
}

#[test]
fn an_estimate_goes_without_a_trace_and_yields_to_what_is_published() {
    let whole = sample::catalogue();
    each(8, |name, build, published| {
        let catalogue = published.gone();
        let mut guessed = published.guessed(build, &published.value).unwrap();
        let used = sample::report(&catalogue, &guessed);
        assert!(estimates(&used.craft).iter().all(|estimated| estimated.instead.is_none()), "{name}: {published:?}");
        let unused = sample::report(&whole, &guessed);
        assert_eq!(told(&unused), told(&sample::report(&whole, build)), "{name}: {published:?}");
        let [estimated] = &estimates(&unused.craft)[..] else { unreachable!("{name}: {published:?}") };
        let basis = whole.part(&published.part).unwrap().basis_of(published.field.name);
        assert_eq!(estimated.instead, Some((published.value.clone(), basis)), "{name}: {published:?}");
        assert!(guessed.estimate(&published.part, published.role, published.field.name, None));
        assert_eq!(guessed, *build);
        assert_eq!(told(&sample::report(&catalogue, &guessed)), told(&sample::report(&catalogue, build)));
    });
}

const MOTOR: &str = "vellacre-2207-1750";

fn freestyle() -> (&'static str, BuildList) {
    let text = propwright_sample::REFERENCE.iter().find(|(name, _)| *name == "freestyle-5in").unwrap().1;
    (text, load_build("freestyle-5in", text).unwrap())
}

#[test]
fn estimates_come_back_from_their_file() {
    let (text, build) = freestyle();
    for published in published(&sample::catalogue(), &build) {
        let guessed = published.guessed(&build, &published.value).unwrap();
        let written = write_build(Some(text), &build, &guessed).unwrap();
        assert_eq!(load_build("build", &written).as_ref(), Ok(&guessed), "{published:?}");
        assert_eq!(
            write_build(Some(&written), &guessed, &build).map(|back| load_build("build", &back).unwrap()),
            Ok(build.clone())
        );
    }
}

/// The speed controller's plugs, estimated as one would type them into a table, are judged and called an estimate.
#[test]
fn a_list_is_estimated_as_it_is_typed_into_a_table() {
    let (_, build) = sample::flawed().into_iter().find(|(name, _)| *name == "harness-pin-order").unwrap();
    let esc = build.fitted(Slot::Esc).next().unwrap().1.part.clone();
    let plugs = estimate::field(Some("esc"), "plugs").unwrap();
    let held = sample::catalogue().part(&esc).unwrap().fills.iter().find_map(|role| role.get("plugs")).unwrap();
    let catalogue = unpublished::catalogue(&[(&esc, &["plugs"])]);
    let mut guessed = build.clone();
    let typed = estimate::read(&estimate::shown(&held), plugs).unwrap().unwrap();
    assert_eq!(typed, held);
    assert!(guessed.estimate(&esc, Some("esc"), "plugs", Some(&typed)));
    let report = sample::report(&catalogue, &guessed);
    let pins = report.findings.iter().find(|finding| finding.rule == "harness-pin-order").unwrap();
    assert_eq!(pins.status(), Status::Tight, "it warns, and does not forbid");
    assert!(!pins.own_estimates().is_empty());
    let written = write_build(None, &guessed, &guessed).unwrap();
    assert_eq!(load_build("build", &written).as_ref(), Ok(&guessed));
}

#[test]
fn a_slip_has_its_place_and_a_hint() {
    let (text, _) = freestyle();
    let with = |estimates: &str| {
        text.replacen("    parts: [", &format!("    estimates: [\n        {estimates},\n    ],\n    parts: ["), 1)
    };
    let at = text.lines().position(|line| line.trim() == "parts: [").unwrap() + 2;
    let cases = [
        (r#"(part: "vellacre-2207-1751", mass_g: 31)"#, "part", "did you mean \"vellacre-2207-1750\"?"),
        (r#"(part: "vellacre-2207-1750", fills: [Motor(thread_dept_mm: 3.5)])"#, "thread_dept_mm", "thread_depth_mm"),
        (r#"(part: "vellacre-2207-1750", mass_g: 310000)"#, "mass_g", "310 g"),
        (r#"(part: "vellacre-2207-1750", fills: [Motor(thread_depth_mm: 35)])"#, "thread_depth_mm", "did you mean 3.5 mm?"),
        (r#"(part: "vellacre-2207-1750", fills: [Motor(stand: [])])"#, "stand", "catalogue of your own"),
        (r#"(part: "vellacre-2207-1750")"#, "", "say what is estimated"),
        (r#"(part: "vellacre-2207-1750", fills: [Esc(current_a: 40)])"#, "", "motor"),
    ];
    for (estimates, field, hint) in cases {
        let text = with(estimates);
        let found = load_build("b.ron", &text)
            .map_or_else(|found| found, |build| check_references(&build, &text, "b.ron", &sample::catalogue()));
        assert_eq!(found.len(), 1, "{estimates}: {found:#?}");
        let one = &found[0];
        assert_eq!(one.line as usize, at, "{one}");
        assert!(one.column > 8 || field.is_empty(), "{one}");
        assert!(one.field.as_deref().unwrap_or_default().ends_with(field), "{one}");
        assert!(one.hint.as_deref().unwrap_or_default().contains(hint), "{one}");
    }
}

#[test]
fn the_command_takes_estimates_and_marks_them() {
    let scratch = Scratch::new("the_command_takes_estimates_and_marks_them");
    let gone = unpublished::text(MOTOR, &["thread_depth_mm", "mass_g"]);
    let (catalogue, build) = (scratch.file("parts.ron", gone), scratch.file("build.ron", freestyle().0));
    let check = |estimates: &[&str], options: &[&str]| {
        let mut args = vec!["check".into(), path(&build), "--catalog".into(), path(&catalogue)];
        args.extend(estimates.iter().flat_map(|one| ["--estimate".into(), (*one).into()]));
        args.extend(options.iter().map(Into::into));
        propwright(args)
    };
    let bare = check(&[], &["--json"]).json();
    let asked: Vec<&str> = bare["unstated"].as_array().unwrap().iter().map(|one| one["field"].as_str().unwrap()).collect();
    assert!(asked.contains(&"thread_depth_mm") && asked.contains(&"mass_g"), "{asked:?}");
    let both = [&*format!("{MOTOR}.thread_depth_mm=3.5"), &*format!("{MOTOR}.mass_g=1.1 oz")];
    let answered = check(&both, &["--json"]).json();
    assert_eq!(answered["unstated"], serde_json::json!([]));
    // 1.1 oz = 31.184 g (NIST SP 811, B.8).
    assert_eq!(
        (answered["estimates"][0]["value"].as_f64(), answered["estimates"][0]["unit"].as_str()),
        (Some(31.184), Some("g"))
    );
    assert!(answered["estimates"].as_array().unwrap().iter().all(|one| one["counts"] == true));
    assert_eq!(answered["flight"]["figures"]["hover_duty"]["estimated"], true, "{:#}", answered["flight"]["figures"]);
    let finding = answered["findings"].as_array().unwrap().iter().find(|one| one["rule"] == "motor-screw-length").unwrap();
    assert_eq!(
        (finding["own_estimates"][0]["basis"].as_str(), finding["own_estimates"][0]["field"].as_str()),
        (Some("estimate"), Some("thread_depth_mm"))
    );
    let told = check(&both, &[]);
    assert!(told.out.contains("Vellacre 2207 1750 KV: thread depth 3.5 mm, estimated by you"), "{}", told.out);
    assert!(told.out.contains("rests on your estimates"), "{}", told.out);
    for (said, hint) in [
        ("vellacre-2207-1751.mass_g=3", "did you mean"),
        ("vellacre-2207-1750.thread_dept_mm=3", "thread_depth_mm"),
        ("vellacre-2207-1750.horn_mm=3", "resistance_mohm"),
        ("vellacre-2207-1750.mass_g=3 V", "g"),
        ("mass", "write it as"),
    ] {
        let refused = check(&[said], &[]);
        assert_eq!((refused.exit, refused.out.as_str()), (Exit::Refused, ""), "{said}");
        assert!(refused.err.contains(hint), "{said}: {}", refused.err);
    }
}

#[test]
fn an_estimate_excuses_nothing() {
    for (name, build) in sample::flawed() {
        let catalogue = sample::catalogue();
        let frame = build.fitted(Slot::Frame).next().unwrap().1.part.clone();
        let mass = catalogue.part(&frame).unwrap().mass_g.unwrap();
        let mut guessed = build.clone();
        assert!(guessed.estimate(&frame, None, "mass_g", Some(&mass.value())));
        let report = sample::report(&unpublished::catalogue(&[(&frame, &["mass_g"])]), &guessed);
        assert_eq!(mismatches(&report), mismatches(&sample::report(&catalogue, &build)), "{name}");
    }
}

#[test]
fn paper_marks_estimates() {
    let (_, mut build) = freestyle();
    assert!(build.estimate(
        MOTOR,
        None,
        "mass_g",
        estimate::read("27", estimate::field(None, "mass_g").unwrap()).unwrap().as_ref()
    ));
    let report = sample::report(&unpublished::catalogue(&[(MOTOR, &["mass_g"])]), &build);
    let setting = Setting { format: Format::A4, day: None };
    let words = |sheet: &Sheet| {
        let marks = sheet.leaves.iter().flat_map(|leaf| &leaf.marks);
        let each = marks.filter_map(|mark| if let Mark::Words { text, .. } = mark { Some(text.as_str()) } else { None });
        each.collect::<Vec<_>>().join(" ")
    };
    let sheet = words(&build_sheet(&report, setting));
    for said in
        ["108 g est.", "What you estimated", "Vellacre 2207 1750 KV: mass 27 g, estimated by you.", "Figures that rest on it: "]
    {
        assert!(sheet.contains(said), "{said}: {sheet}");
    }
    let card = words(&flight_card(&report, setting));
    assert!(card.contains("rest on your own estimates"), "{card}");
    let whole = sample::report(&sample::catalogue(), &freestyle().1);
    assert!(!words(&build_sheet(&whole, setting)).contains("estimated"));
}
