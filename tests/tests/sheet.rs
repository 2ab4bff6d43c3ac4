//! Paper: every part, figure and caution of a build is on its sheet, nothing runs off, and text from a file breaks nothing.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::sync::Arc;

use propwright::cli::Exit;
use propwright_engine::{
    Report, evaluate, explain,
    fit::compare::compare,
    policy::Policy,
    sweep::{Topic, sweep},
};
use propwright_paper::{
    plot,
    sheet::{
        Face, Format, Leaf, Mark, Setting, Sheet, build_sheet, comparison, csv, flight_card, flight_curves, pdf, png,
        shopping_list, svg,
    },
};
use propwright_schema::{build_list::BuildList, catalogue::Catalogue, load::load_catalogue};
use propwright_tests::{
    command_line::{path, propwright},
    sample,
    scratch::Scratch,
};

const SETTING: Setting = Setting { format: Format::A4, day: None };

/// The words of a document without spaces, since lines break between words and long words break anywhere.
fn dense(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_whitespace()).collect()
}

fn laid(sheet: &Sheet) -> String {
    let marks = sheet.leaves.iter().flat_map(|leaf| &leaf.marks);
    marks.map(|mark| if let Mark::Words { text, .. } = mark { dense(text) } else { String::new() }).collect()
}

fn printed(sheet: &Sheet) -> String {
    dense(&pdf_extract::extract_text_from_mem(&pdf(sheet).unwrap()).unwrap())
}

/// Each mark lies on its leaf; words by the widths of the faces themselves.
fn nothing_runs_off(leaf: &Leaf, of: &str) {
    let [wide, high] = leaf.size;
    let on = |[x, y]: [f32; 2]| (0.0..=wide).contains(&x) && (0.0..=high).contains(&y);
    for mark in &leaf.marks {
        match mark {
            Mark::Words { at, size, face, text, .. } => {
                let end = at[0] + width(*face, *size, text);
                assert!(on(*at) && end <= wide, "{of}: {text:?} at {at:?} ends at {end} of {wide}");
            }
            Mark::Line { through, .. } | Mark::Form { corners: through, .. } => {
                assert!(through.iter().all(|spot| on(*spot)), "{of}: {mark:?}");
            }
            Mark::Ribbon { low, high, .. } => {
                assert!(low.len() == high.len() && low.iter().chain(high).all(|spot| on(*spot)), "{of}: {mark:?}");
            }
            Mark::Circle { center: [x, y], radius, .. } => {
                assert!(on([x - radius, y - radius]) && on([x + radius, y + radius]), "{of}: {mark:?}");
            }
        }
    }
}

/// Width of words by the face's own table of advances (ISO/IEC 14496-22, `hmtx`), read anew here.
fn width(face: Face, size: f32, text: &str) -> f32 {
    let file: &[u8] = match face {
        Face::Regular => include_bytes!("../../assets/fonts/B612-Regular.otf"),
        Face::Bold => include_bytes!("../../assets/fonts/B612-Bold.otf"),
        Face::Last => include_bytes!("../../assets/fonts/DejaVuSans.ttf"),
    };
    let face = ttf_parser::Face::parse(file, 0).unwrap();
    let advance = |letter| f32::from(face.glyph_hor_advance(face.glyph_index(letter).unwrap()).unwrap());
    text.chars().map(advance).sum::<f32>() * size / f32::from(face.units_per_em())
}

fn parts_of(report: &Report) -> Vec<String> {
    report.craft.listed().map(|placed| placed.subject.part.name.clone()).collect()
}

#[test]
fn a_build_sheet_holds_every_part_figure_and_caution() {
    let catalogue = sample::catalogue();
    for (name, build) in sample::reference() {
        let report = sample::report(&catalogue, &build);
        for format in [Format::A4, Format::Letter] {
            let sheet = build_sheet(&report, Setting { format, ..SETTING });
            let said = printed(&sheet);
            let has = |text: &str| assert!(said.contains(&dense(text)), "{name}: {text:?} is not in the PDF");
            for part in parts_of(&report) {
                has(&part);
            }
            report.cautions.iter().for_each(|caution| has(&explain::message(caution)));
            has(&explain::figure(&report.totals.takeoff_mass.unwrap()));
            let flight = report.flight.as_ref().unwrap();
            for figure in [flight.times.calm, flight.times.hard, flight.thrust_to_weight, flight.top_speed, flight.path] {
                has(&explain::figure(&figure));
            }
            has("Turn for home at");
            has(&explain::figure(&flight.turn_back.charge));
            sheet.leaves.iter().for_each(|leaf| nothing_runs_off(leaf, name));
        }
    }
}

#[test]
fn a_shopping_list_adds_up_and_strikes_what_is_owned() {
    let report = sample::report(&sample::catalogue(), &sample::demo());
    let sheet = shopping_list(&report, SETTING);
    let said = printed(&sheet);
    for line in &report.bill.lines {
        assert!(said.contains(&dense(&line.part.name)), "{}", line.part.name);
    }
    for amount in &report.bill.total.amounts {
        assert!(said.contains(&dense(&amount.to_string())));
    }
    assert!(report.bill.lines.iter().any(|line| !line.is_bought()), "the demo build owns something");
    sheet.leaves.iter().for_each(|leaf| nothing_runs_off(leaf, "shopping list"));
}

#[test]
fn card_and_comparison_stay_on_their_leaves() {
    let catalogue = sample::catalogue();
    let reports: Vec<Report> = sample::reference().iter().map(|(_, build)| sample::report(&catalogue, build)).collect();
    for report in &reports {
        let card = flight_card(report, SETTING);
        assert!(laid(&card).contains(&dense(&explain::figure(&report.flight.as_ref().unwrap().times.calm))));
        card.leaves.iter().for_each(|leaf| nothing_runs_off(leaf, &report.craft.build.name));
    }
    let four: Vec<&Report> = reports.iter().take(4).collect();
    let sheet = comparison(&four, &compare(&four), SETTING);
    for report in &four {
        assert!(laid(&sheet).contains(&dense(&report.craft.build.name)));
    }
    sheet.leaves.iter().for_each(|leaf| nothing_runs_off(leaf, "comparison"));
}

#[test]
fn flight_curves_hold_every_scale_and_every_operating_point() {
    let catalogue = sample::catalogue();
    for (name, build) in sample::reference() {
        let report = sample::report(&catalogue, &build);
        let swept = sweep(&report, &Policy::default());
        for format in [Format::A4, Format::Letter] {
            let sheet = flight_curves(&report, &swept, Setting { format, ..SETTING });
            let said = printed(&sheet);
            let has = |text: &str| assert!(said.contains(&dense(text)), "{name}: {text:?} is not in the PDF");
            for (topic, chart) in &swept.charts {
                let chart = chart.as_ref().unwrap();
                has(plot::name(*topic));
                has(&format!("{}, {}", chart.x.title, chart.x.unit.symbol));
                for curve in &chart.curves {
                    has(curve.title);
                    has(curve.unit.symbol);
                }
                assert!(!chart.marks.is_empty(), "{name}: {topic:?}");
                chart.marks.iter().for_each(|mark| has(mark.point.word()));
                chart.fences.iter().for_each(|fence| has(fence.title));
                chart.levels.iter().for_each(|level| has(level.title));
                chart.stretches.iter().for_each(|stretch| has(stretch.title));
            }
            let flight = report.flight.as_ref().unwrap();
            has(&format!("duty {} %", explain::number(flight.hover_duty.si() * 100.0)));
            has(&explain::figure(&flight.radius.energy));
            let height =
                build.conditions.altitude_m.map(|height| format!("{} m above the sea", explain::number(height.decimal())));
            has(&format!("Conditions: {}", height.unwrap_or_else(|| "sea level".to_owned())));
            has(&explain::figure(&report.totals.takeoff_mass.unwrap()));
            has(&format!("{0} / {0}", sheet.leaves.len()));
            for leaf in &sheet.leaves {
                nothing_runs_off(leaf, name);
                assert!(roxmltree::Document::parse(&svg(leaf)).is_ok(), "{name}");
            }
        }
    }
}

/// On a copier all is grey: each curve of a chart has a pen of its own, broken or of another breadth.
#[test]
fn curves_are_told_apart_without_colour() {
    let report = sample::report(&sample::catalogue(), &sample::demo());
    let sheet = flight_curves(&report, &sweep(&report, &Policy::default()), SETTING);
    let marks = sheet.leaves.iter().flat_map(|leaf| &leaf.marks);
    let long = marks.filter_map(|mark| match mark {
        // Curves have many places; their bands' edges are the thinnest.
        Mark::Line { through, pen } if through.len() > 9 && pen.width > 0.5 => Some((pen.width.to_bits(), pen.dashed)),
        _ => None,
    });
    let pens: Vec<_> = long.collect();
    // Thrust, current, thrust at landing; power and reach; two times alone; control and video.
    let [full, broken, thin] = [pens[0], pens[1], pens[2]];
    assert!(full != broken && broken != thin && full != thin);
    assert_eq!(pens, [full, broken, thin, full, broken, full, full, full, broken]);
}

#[test]
fn curves_as_csv_have_units_in_the_head_and_bands_in_order() {
    let report = sample::report(&sample::catalogue(), &sample::demo());
    let swept = sweep(&report, &Policy::default());
    let text = csv::curves(&swept).unwrap();
    // The words of two points have a comma and stand in quotes.
    let plain = text.replace("\"hover, fresh\"", "hover fresh").replace("\"hover, landing\"", "hover landing");
    let rows: Vec<Vec<&str>> = plain.lines().map(|line| line.split(',').collect()).collect();
    let column = |name: &str| rows[0].iter().position(|head| *head == name).unwrap();
    for head in ["duty [%]", "airspeed [km/h]", "payload [g]", "capacity [mAh]", "distance [km]", "reach nominal [km]"] {
        column(head);
    }
    let [low, nominal, high] = ["low", "nominal", "high"].map(|which| column(&format!("thrust {which} [gf]")));
    let mut read = 0;
    for row in &rows[1..] {
        assert_eq!(row.len(), rows[0].len());
        let [low, nominal, high] = [low, nominal, high].map(|at| row[at].parse::<f64>().ok());
        if let (Some(low), Some(nominal), Some(high)) = (low, nominal, high) {
            assert!(low <= nominal && nominal <= high, "{row:?}");
            read += 1;
        }
    }
    let thrust = &swept.chart(Topic::Throttle).unwrap().curves[0];
    assert!(read >= thrust.samples.iter().filter(|sample| sample.y.is_some()).count());
    for point in
        ["hover fresh", "hover landing", "full throttle", "best range", "top speed", "as listed", "control ends", "video ends"]
    {
        assert!(rows.iter().any(|row| row[1] == point), "{point}");
    }
}

#[test]
fn curves_of_a_craft_that_cannot_fly_say_why() {
    let empty = evaluate(&sample::catalogue(), &Arc::new(BuildList::empty("Bare")), &Policy::default());
    let sheet = flight_curves(&empty, &sweep(&empty, &Policy::default()), SETTING);
    assert!(laid(&sheet).contains(&dense("Nothing is predicted until frame, motors")), "{}", laid(&sheet));
}

/// Sixty lines with names of 200 characters, some of which would steer a terminal or a spreadsheet.
fn unwieldy() -> (Catalogue, BuildList) {
    let part = |at: usize| {
        let name = format!("{:=<200}", format!("=Fell {at} <&> "));
        format!(r#"(id: "p{at}", name: "{name}", supplier: "{0}", link: "{0}", fills: [Finder()])"#, "s".repeat(180))
    };
    let parts: Vec<String> = (0..60).map(part).collect();
    let mut catalogue = sample::catalogue();
    catalogue.lay_over(&load_catalogue("unwieldy", &format!("(version: 1, parts: [{}])", parts.join(","))).unwrap());
    let mut build = sample::demo();
    build.name = "n".repeat(200);
    build.note = Some("\u{1b}[31m\u{202e}".repeat(20));
    let line = |at: usize| {
        let mut fitted = build.parts[0].clone();
        fitted.slot = propwright_schema::slot::Slot::Finder;
        fitted.part = format!("p{at}");
        fitted.note = Some("note ".repeat(60));
        fitted
    };
    let lines: Vec<_> = (0..60).map(line).collect();
    build.parts.extend(lines);
    (catalogue, build)
}

#[test]
fn sixty_lines_with_names_of_200_characters_still_read() {
    let (catalogue, build) = unwieldy();
    let report = evaluate(&catalogue, &Arc::new(build), &Policy::default());
    for sheet in [build_sheet(&report, SETTING), shopping_list(&report, SETTING), flight_card(&report, SETTING)] {
        let said = laid(&sheet);
        assert!(said.chars().all(|letter| !letter.is_control()), "{}", sheet.title);
        sheet.leaves.iter().for_each(|leaf| nothing_runs_off(leaf, "unwieldy"));
        for leaf in &sheet.leaves {
            let picture = svg(leaf);
            assert!(roxmltree::Document::parse(&picture).is_ok(), "{}", sheet.title);
        }
    }
    let said = laid(&build_sheet(&report, SETTING));
    for at in 0..60 {
        assert!(said.contains(&format!("=Fell{at}<&>")), "{at}");
    }
    let cells = csv::parts(&report).unwrap();
    assert!(!cells.lines().any(|line| line.split(',').any(|cell| cell.starts_with(['=', '@', '+']))), "{cells}");
}

#[test]
fn the_command_writes_what_the_ending_says() {
    let scratch = Scratch::new("sheet-command");
    let build = scratch.file("demo.ron", sample::demo_text());
    for (kind, ending, begins) in [
        ("build", "pdf", &b"%PDF"[..]),
        ("build", "csv", b"slot,part"),
        ("build", "txt", b""),
        ("build", "json", b"{"),
        ("build", "ron", b"("),
        ("flight", "pdf", b"%PDF"),
        ("flight", "csv", b"chart,operating point,duty [%]"),
    ] {
        let out = scratch.folder().join(format!("demo-sheet.{ending}"));
        let answered = propwright(["sheet".into(), path(&build), "--kind".into(), kind.into(), "--out".into(), path(&out)]);
        assert_eq!((answered.exit, answered.err.as_str()), (Exit::Done, ""), "{ending}");
        assert!(std::fs::read(&out).unwrap().starts_with(begins), "{ending}");
    }
    let picture = scratch.folder().join("card.png");
    let answered = propwright([
        "sheet".into(),
        path(&build),
        "--kind".into(),
        "card".into(),
        "--out".into(),
        path(&picture),
        "--json".into(),
    ]);
    let written = answered.json()["written"].as_array().unwrap().clone();
    assert!(!written.is_empty());
    for file in written {
        assert!(std::fs::read(file.as_str().unwrap()).unwrap().starts_with(b"\x89PNG"));
    }
}

#[test]
fn a_wrong_ending_or_the_build_list_itself_is_refused_and_nothing_is_written() {
    let scratch = Scratch::new("sheet-refused");
    let build = scratch.file("demo.ron", sample::demo_text());
    for out in ["sheet.docx", "demo.ron", "no/such/folder.pdf"] {
        let answered = propwright(["sheet".into(), path(&build), "--out".into(), path(&scratch.folder().join(out))]);
        assert_eq!((answered.exit, answered.out.as_str()), (Exit::Refused, ""), "{out}");
        assert!(answered.err.contains("hint:"), "{}", answered.err);
    }
    assert_eq!(scratch.holds().len(), 1);
    assert_eq!(std::fs::read_to_string(&build).unwrap(), sample::demo_text());
}

#[test]
fn a_leaf_becomes_a_picture() {
    let report = sample::report(&sample::catalogue(), &sample::demo());
    let sheet = build_sheet(&report, SETTING);
    let bytes = png(&sheet.leaves[0], 72.0).unwrap();
    // Width and height stand in the header (ISO/IEC 15948): 595 × 842 points at 72 dots to the inch, rounded up.
    assert_eq!((&bytes[16..20], &bytes[20..24]), (&596_u32.to_be_bytes()[..], &842_u32.to_be_bytes()[..]));
}
