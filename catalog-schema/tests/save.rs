//! Saving: what is read again is what was saved, and what was not edited keeps its bytes.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::sync::Arc;

use proptest::prelude::*;
use propwright_schema::{
    build_list::{Arrangement, BuildList, Charge, Feed, Fitted, Spare},
    catalogue::CatalogueFile,
    load::{load_build, load_catalogue, load_stock},
    part::{Part, Role, Uart},
    quantity::{Grams, Kilometres, Kv},
    save::{write_build, write_catalogue, write_stock},
    slot::Slot,
    stock::{Condition, Stock, StockItem},
};

const CATALOGUE: &str = r#"// My parts.
(
    version: 1, // the form
    parts: [
        // Motors from the first order.
        (id: "a", name: "A", mass_g: 31.90, // weighed twice
         fills: [Motor(kv_rpm_per_v: 1950.0, /* printed */ poles: 14)]),
        (id: "b", name: "B", retired: false, fills: [Esc(current_a: 45, rails: [(name: "5V", volts_v: 5)])]), // spare
        /* two
           lines */
        (
            id: "c",
            name: r"C",
            // the price is old
            price: "17.90 EUR",
            fills: [FlightController(uarts: [(number: 1, rx: true), (number: 2)])],
            basis: {"mass_g": Measured},
        ),

        (id: "d", name: "D", fills: [Screw(length_mm: 8.0)]), (id: "e", name: "E", fills: [Strap(width_mm: 20)])
        // nothing more
    ],
    // kits follow
    kits: [(id: "k", name: "K", contents: [(part: "a", count: 4), (part: "b", count: 1)])],
) // end
"#;

const BUILD: &str = r#"(version: 1,
  name: "Five inch",   // as flown
  purpose: (usage: Freestyle, /* a park */ path_km: 4.0, calm_min: 5),
  parts: [
    (slot: Frame, part: "frame"),
    // four of them
    (slot: Motor, part: "a", count: 4),
    (slot: Esc, part: "b", feed: Pack),

    (slot: Battery, part: "p", note: "old", count: 2), // from last year
  ],
  // weighed_g: 600
)
"#;

fn catalogue(text: &str) -> CatalogueFile {
    load_catalogue("my.ron", text).unwrap()
}

fn saved(text: &str, edit: impl FnOnce(&mut CatalogueFile)) -> String {
    let before = catalogue(text);
    let mut after = before.clone();
    edit(&mut after);
    let written = write_catalogue(Some(text), &before, &after).unwrap();
    assert_eq!(catalogue(&written), after, "{written}");
    written
}

fn part(file: &mut CatalogueFile, id: &str, edit: impl FnOnce(&mut Part)) {
    let part = file.parts.iter_mut().find(|part| part.id == id).unwrap();
    edit(Arc::make_mut(part));
}

/// A text with one stretch replaced.
fn replaced(text: &str, old: &str, new: &str) -> String {
    assert_eq!(text.matches(old).count(), 1, "{old}");
    text.replace(old, new)
}

#[test]
fn nothing_edited_changes_no_byte() {
    for text in
        [CATALOGUE.to_owned(), CATALOGUE.replace('\n', "\r\n"), "(version: 1)".to_owned(), "(version:1,parts:[ ])".to_owned()]
    {
        assert_eq!(saved(&text, |_| {}), text);
    }
    let build = load_build("b.ron", BUILD).unwrap();
    assert_eq!(write_build(Some(BUILD), &build, &build).unwrap(), BUILD);
}

#[test]
fn an_edit_touches_its_field_only() {
    let mass = saved(CATALOGUE, |file| part(file, "a", |part| part.mass_g = Some(Grams::parse("32").unwrap())));
    assert_eq!(mass, replaced(CATALOGUE, "31.90", "32"));
    let inner = saved(CATALOGUE, |file| {
        part(file, "a", |part| {
            if let Some(Role::Motor(motor)) = part.fills.first_mut() {
                motor.kv_rpm_per_v = Some(Kv::parse("1850.5").unwrap());
                motor.cells_max = Some(6);
            }
        });
    });
    assert_eq!(inner, replaced(CATALOGUE, "1950.0, /* printed */ poles: 14", "1850.5, cells_max: 6, /* printed */ poles: 14"));
    let gone = saved(CATALOGUE, |file| part(file, "c", |part| part.price = None));
    assert_eq!(gone, replaced(CATALOGUE, "\n            // the price is old\n            price: \"17.90 EUR\",", ""));
    let retired = saved(CATALOGUE, |file| part(file, "b", |part| part.retired = true));
    assert_eq!(retired, replaced(CATALOGUE, "retired: false", "retired: true"));
    let added = saved(CATALOGUE, |file| part(file, "c", |part| part.note = Some("n".to_owned())));
    assert_eq!(added, replaced(CATALOGUE, "Measured},", "Measured},\n            note: \"n\","));
    let renamed = saved(CATALOGUE, |file| part(file, "d", |part| part.id = "d2".to_owned()));
    assert_eq!(renamed, replaced(CATALOGUE, "\"d\"", "\"d2\""));
    let uart = saved(CATALOGUE, |file| {
        part(file, "c", |part| {
            if let Some(Role::FlightController(board)) = part.fills.first_mut() {
                board.uarts.as_mut().unwrap().push(Uart { number: Some(3), ..Uart::default() });
            }
        });
    });
    assert_eq!(uart, replaced(CATALOGUE, "(number: 2)", "(number: 2), (number: 3)"));
}

#[test]
fn records_come_and_go_with_their_lines() {
    let removed = saved(CATALOGUE, |file| drop(file.parts.remove(1)));
    let line = CATALOGUE.lines().find(|line| line.contains("\"B\"")).unwrap();
    assert_eq!(removed, replaced(CATALOGUE, &format!("{line}\n"), ""));
    let mut new = (*catalogue(CATALOGUE).parts[3]).clone();
    new.id = "new".to_owned();
    let appended = saved(CATALOGUE, |file| file.parts.push(Arc::new(new)));
    let line = "\n        (id: \"new\", name: \"D\", fills: [Screw(length_mm: 8)])\n        // nothing more";
    assert_eq!(appended, replaced(CATALOGUE, "20)])\n        // nothing more", &format!("20)]),{line}")));
    let none = saved(CATALOGUE, |file| file.parts.clear());
    assert!(none.contains("// kits follow") && !none.contains("id: \"a\""), "{none}");
    let first = saved("(version: 1, parts: [])\n", |file| file.parts = catalogue(CATALOGUE).parts);
    assert!(
        first.starts_with(
            "(version: 1, parts: [\n    (id: \"a\", name: \"A\", mass_g: 31.9, fills: [Motor(kv_rpm_per_v: 1950, poles: 14)]),\n"
        ),
        "{first}"
    );
    let windows = saved(&CATALOGUE.replace('\n', "\r\n"), |file| file.parts.reverse());
    assert!(!windows.replace("\r\n", "").contains('\n'), "{windows:?}");
}

#[test]
fn a_new_file_is_laid_out() {
    let all = catalogue(CATALOGUE);
    let text = write_catalogue(None, &all, &all).unwrap();
    assert_eq!(catalogue(&text), all);
    assert!(text.lines().all(|line| line.chars().count() <= 130), "{text}");
    assert!(
        text.starts_with("(\n    version: 1,\n    parts: [\n        (id: \"a\", name: \"A\", mass_g: 31.9, fills: ["),
        "{text}"
    );
    let build = BuildList::empty("New");
    let text = write_build(None, &build, &build).unwrap();
    assert_eq!(load_build("b.ron", &text).unwrap(), build);
}

#[test]
fn another_text_than_was_loaded_is_written_anew() {
    let all = catalogue(CATALOGUE);
    for other in ["(version: 1, parts: [(id: \"z\", name: \"Z\", fills: [Screw()])])", "", "garbage ((", "(version: 1"] {
        let text = write_catalogue(Some(other), &all, &all).unwrap();
        assert_eq!(catalogue(&text), all);
    }
}

#[test]
fn build_lists_span_by_span() {
    let before = load_build("b.ron", BUILD).unwrap();
    let mut after = before.clone();
    after.purpose.path_km = Some(Kilometres::parse("4.5").unwrap());
    after.packs = Some(Arrangement::Parallel);
    after.parts[1].part = "a2".to_owned();
    after.parts.remove(2);
    after.parts.push(Fitted { feed: Some(Feed::Rail("5V".to_owned())), ..Fitted::new(Slot::Camera, "cam") });
    let text = write_build(Some(BUILD), &before, &after).unwrap();
    assert_eq!(load_build("b.ron", &text).unwrap(), after);
    let expected = replaced(BUILD, "4.0", "4.5");
    let expected = replaced(&expected, "calm_min: 5),", "calm_min: 5),\n  packs: Parallel,");
    let expected = replaced(&expected, "\"a\"", "\"a2\"");
    let expected = replaced(&expected, "    (slot: Esc, part: \"b\", feed: Pack),\n", "");
    let expected = replaced(&expected, "last year\n", "last year\n    (slot: Camera, part: \"cam\", feed: Rail(\"5V\")),\n");
    assert_eq!(text, expected);
}

/// One edit of a catalogue, by random numbers.
fn edit(file: &mut CatalogueFile, touched: &mut Vec<String>, (kind, at, figure): (u8, usize, u32)) {
    let count = file.parts.len();
    if count == 0 {
        return;
    }
    let at = at % count;
    if matches!(kind, 0..=4) {
        touched.push(file.parts[at].id.clone());
    }
    let fresh = format!("n{figure}");
    match kind {
        0 => Arc::make_mut(&mut file.parts[at]).mass_g = Some(Grams::from_steps(i64::from(figure) + 5)),
        1 => Arc::make_mut(&mut file.parts[at]).note = (figure % 2 == 0).then(|| format!("// \"{figure}\" it's \\' \\ (\n")),
        2 => Arc::make_mut(&mut file.parts[at]).price = None,
        3 => {
            file.parts.remove(at);
        }
        4 => {
            let part = Arc::make_mut(&mut file.parts[at]);
            let number = Uart { number: Some(figure % 20), ..Uart::default() };
            match part.fills.first_mut() {
                Some(Role::FlightController(board)) => board.uarts.get_or_insert_default().push(number),
                Some(Role::Motor(motor)) => motor.poles = None,
                _ => part.fills.push(Role::Screw(Box::default())),
            }
        }
        5 => file.parts.swap(at, 0),
        6 => {
            let part = Part { id: fresh.clone(), ..(*file.parts[at]).clone() };
            if file.parts.iter().all(|part| part.id != fresh) {
                touched.push(fresh);
                file.parts.insert(figure as usize % (count + 1), Arc::new(part));
            }
        }
        _ => file.kits.clear(),
    }
}

#[test]
fn spares_and_charges_are_added_and_edited() {
    let before = load_build("b.ron", BUILD).unwrap();
    let mut after = before.clone();
    after.spares.push(Spare { part: "a".to_owned(), arm: false, count: 2, note: None });
    after.shipping.push(Charge { name: "Quay Depot".to_owned(), price: "6.90 EUR".parse().unwrap(), note: None });
    let written = write_build(Some(BUILD), &before, &after).unwrap();
    assert_eq!(load_build("b.ron", &written).unwrap(), after, "{written}");
    let added = "(part: \"a\", count: 2)";
    assert!(written.contains(added) && written.contains("(name: \"Quay Depot\", price: \"6.90 EUR\")"), "{written}");
    assert!(BUILD.lines().all(|line| written.contains(line.trim_end_matches([',', ')', '\n']))), "{written}");
    let mut more = after.clone();
    more.spares[0].count = 1;
    assert_eq!(write_build(Some(&written), &after, &more).unwrap(), replaced(&written, ", count: 2)],", ")],"));
    assert_eq!(write_build(Some(&written), &after, &before).map(|text| load_build("b.ron", &text).unwrap()).unwrap(), before);
}

#[test]
fn a_shelf_keeps_its_comments() {
    let text = "// My shelf.\n(version: 1, items: [\n    (part: \"p\", count: 3, resistance_mohm: 18.50), // bought used\n    (part: \"m\"),\n])\n";
    let before = load_stock("s.ron", text).unwrap();
    let mut after = before.clone();
    after.items[0].count = 2;
    after.items.push(StockItem { condition: Some(Condition::Used), ..StockItem::new("q", 8) });
    let expected = text
        .replace("count: 3", "count: 2")
        .replace("(part: \"m\"),\n", "(part: \"m\"),\n    (part: \"q\", count: 8, condition: Used),\n");
    assert_eq!(write_stock(Some(text), &before, &after).unwrap(), expected);
    let new = write_stock(None, &Stock::default(), &Stock::default()).unwrap();
    assert_eq!(load_stock("s.ron", &new).unwrap(), Stock::default(), "{new}");
}

proptest! {
    #[test]
    fn random_edits_read_back_and_keep_the_rest(
        edits in prop::collection::vec((0_u8..8, 0_usize..9, 0_u32..3000), 0..7),
        windows in any::<bool>(),
    ) {
        let text = if windows { CATALOGUE.replace('\n', "\r\n") } else { CATALOGUE.to_owned() };
        let before = catalogue(&text);
        let (mut after, mut touched) = (before.clone(), Vec::new());
        for one in edits {
            edit(&mut after, &mut touched, one);
        }
        let written = write_catalogue(Some(&text), &before, &after).unwrap();
        prop_assert_eq!(&catalogue(&written), &after, "{}", written);
        for part in after.parts.iter().filter(|part| !touched.contains(&part.id)) {
            let start = text.find(&format!("id: \"{}\"", part.id)).unwrap();
            let end = start + text[start..].find(")]").unwrap();
            prop_assert!(written.contains(&text[start..end]), "{} in {}", part.id, written);
        }
        prop_assert!(written.starts_with("// My parts.") && written.trim_end().ends_with(") // end"), "{}", written);
        let again = write_catalogue(Some(&written), &after, &before).unwrap();
        prop_assert_eq!(catalogue(&again), before);
    }
}
