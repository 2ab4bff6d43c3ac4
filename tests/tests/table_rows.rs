//! Rows of a table that cannot be used: each kind of slip is told with its row, its column, what is wrong and what to do, is kept
//! aside, and takes no sound row with it.

#![expect(clippy::unwrap_used, reason = "a test whose text is no table has failed")]

use propwright_schema::{
    catalogue::CatalogueFile,
    diagnostic::Diagnostic,
    part::Part,
    table::{Import, Imported, Sheet, guess, read_stand, read_stock, write_catalogue},
    version::CURRENT,
};
use propwright_tests::many_parts::{SEED, parts};

/// A slip: what it is, the head, the row, the column in which it stands, and words that reason and hint must hold.
struct Slip {
    what: &'static str,
    head: &'static str,
    row: &'static str,
    column: u32,
    reason: &'static str,
    hint: &'static str,
}

const fn slip(what: &'static str, head: &'static str, row: &'static str, column: u32, [reason, hint]: [&'static str; 2]) -> Slip {
    Slip { what, head, row, column, reason, hint }
}

const SLIPS: [Slip; 44] = [
    slip("no kind", "kind,name", ",A", 1, ["does not say what it is", "motor"]),
    slip("a mistyped kind", "kind,name", "motr,A", 1, ["motr", "motor"]),
    slip("a kind of no sense", "kind,name", "teapot,A", 1, ["teapot", "propeller"]),
    slip("no name", "kind,id,name,kv_rpm_per_v", "frame,,,", 3, ["no name", "maker"]),
    slip("a word for a figure", "kind,name,mass_g", "motor,A,heavy", 3, ["heavy", "number"]),
    slip("a unit of another dimension", "kind,name,mass_g", "motor,A,31 mm", 3, ["31 mm", "g"]),
    slip("a unit that nobody knows", "kind,name,mass_g", "motor,A,31 stones", 3, ["stones", "g"]),
    slip("two points", "kind,name,mass_g", "motor,A,1.234.5", 3, ["1.234.5", "number"]),
    slip("a minus", "kind,name,mass_g", "motor,A,-31", 3, ["-31", ""]),
    slip("nothing for a mass", "kind,name,mass_g", "motor,A,0", 3, ["0 g", ""]),
    slip("a mass of a lorry", "kind,name,mass_g", "motor,A,900000", 3, ["900000", ""]),
    slip("a figure finer than is kept", "kind,name,mass_g", "motor,A,1.2345", 3, ["1.2345", ""]),
    slip("a figure larger than is kept", "kind,name,mass_g", "motor,A,1e99", 3, ["1e99", ""]),
    slip("a fault of the spreadsheet", "kind,name,mass_g", "motor,A,#VALUE!", 3, ["#VALUE!", "number"]),
    slip("a range", "kind,name,mass_g", "motor,A,30-32", 3, ["30-32", "number"]),
    slip("KV in thousands", "kind,name,kv_rpm_per_v", "motor,A,1.75", 3, ["1.75", ""]),
    slip("a resistance in ohms", "kind,name,resistance_mohm", "motor,A,0.05", 3, ["0.05", ""]),
    slip("a count with a unit", "kind,name,poles", "motor,A,14 poles", 3, ["14 poles", "whole number"]),
    slip("half a pole", "kind,name,poles", "motor,A,13.5", 3, ["13.5", "whole number"]),
    slip("a motor of far too many poles", "kind,name,poles", "motor,A,900", 3, ["900", ""]),
    slip("a pack of no pieces", "kind,name,pieces", "propeller,A,0", 3, ["0", ""]),
    slip("a mistyped word of a list", "kind,name,fixing", "motor,A,two screwz", 3, ["two screwz", "two screws"]),
    slip("a word that the list lacks", "kind,name,fixing", "motor,A,glue", 3, ["glue", "press fit"]),
    slip("neither yes nor no", "kind,name,retired", "motor,A,perhaps", 3, ["perhaps", "yes or no"]),
    slip("a price without a currency", "kind,name,price", "motor,A,17.90", 3, ["17.90", "EUR"]),
    slip("a price in words", "kind,name,price", "motor,A,ask us", 3, ["ask us", "17.90 EUR"]),
    slip("a price too fine", "kind,name,price", "motor,A,17.905 EUR", 3, ["17.905", "17.90 EUR"]),
    slip("a day that could be two", "kind,name,priced_on", "motor,A,04/05/2026", 3, ["04/05/2026", "year, month, day"]),
    slip("a day that never was", "kind,name,priced_on", "motor,A,2026-02-30", 3, ["2026-02-30", "year, month, day"]),
    slip("a day of two figures", "kind,name,priced_on", "motor,A,14.8.26", 3, ["14.8.26", "year, month, day"]),
    slip("a field of another kind", "kind,name,capacity_mah", "motor,A,1300", 3, ["no field capacity_mah", "empty"]),
    slip("an id with blanks", "kind,id,name", "motor,my motor,A", 2, ["my motor", ""]),
    slip("an id that stands above", "kind,id,name", "motor,sound,A", 2, ["line 2 already", "id of its own"]),
    slip("the same name again", "kind,name", "motor,Sound", 2, ["line 2 already", "id of its own"]),
    slip("a further role of nothing", "kind,id,name", "receiver,nobody,", 2, ["no row above", "name"]),
    slip("more cells than columns", "kind,name", "motor,A,7,8", 1, ["2 more cells", "quotation marks"]),
    slip("a mark that nothing closes", "kind,name,note", "motor,A,\"5 in", 3, ["quotation mark", "close it"]),
    slip("a record without fields", "kind,name,uarts", "flight controller,A,1", 3, ["says no field", "number"]),
    slip("a record of unknown fields", "kind,name,uarts", "flight controller,A,numbr: 1", 3, ["numbr", "number"]),
    slip("a bad figure within", "kind,name,rails", "flight controller,A,volts_v: much", 3, ["much", "number"]),
    slip("a basis of no kind", "kind,name,basis", "motor,A,mass_g: guessed", 3, ["guessed", "estimate"]),
    slip("a basis of no field", "kind,name,basis", "motor,A,colour: measured", 3, ["colour", ""]),
    slip("a source without its field", "kind,name,sources", "motor,A,leaflet", 3, ["leaflet", "field: words"]),
    slip("a kit of nothing", "kind,name,contents", "kit,A,", 3, ["", ""]),
];

fn read(text: &str) -> Imported {
    Import::new("shop.csv", text).unwrap().finish()
}

/// The row below a sound one.
fn below_a_sound_row(slip: &Slip) -> String {
    let sound = slip.head.split(',').map(|field| match field {
        "kind" => "motor",
        "id" => "sound",
        "name" => "Sound",
        _ => "",
    });
    format!("{}\n{}\n{}\n", slip.head, sound.collect::<Vec<_>>().join(","), slip.row)
}

#[test]
fn every_kind_of_slip_is_told_with_row_column_reason_and_hint() {
    let mut wanting = Vec::new();
    for slip in &SLIPS {
        let imported = read(&below_a_sound_row(slip));
        let [row] = imported.refused.as_slice() else {
            wanting.push(format!("{}: not refused", slip.what));
            continue;
        };
        let told = |problem: &Diagnostic| {
            let hint = problem.hint.as_deref().unwrap_or_default();
            problem.file == "shop.csv"
                && (problem.line, problem.column) == (3, slip.column)
                && problem.field.is_some()
                && !problem.reason.is_empty()
                && problem.reason.contains(slip.reason)
                && !hint.is_empty()
                && hint.contains(slip.hint)
        };
        if !row.problems.iter().any(told) {
            wanting.push(format!("{}: {:#?}", slip.what, row.problems));
        }
        if imported.catalogue.parts.len() != 1 {
            wanting.push(format!("{}: the sound row is lost", slip.what));
        }
    }
    assert!(wanting.is_empty(), "{}", wanting.join("\n"));
}

#[test]
fn all_slips_of_one_row_are_told() {
    let row = &read("kind,name,mass_g,kv_rpm_per_v,poles,priced_on\nmotor,A,heavy,fast,13.5,never\n").refused[0];
    let columns: Vec<u32> = row.problems.iter().map(|problem| problem.column).collect();
    assert_eq!(columns.iter().filter(|column| (3..=6).contains(*column)).count(), 4, "{columns:?}");
}

#[test]
fn what_is_kept_aside_is_the_row_and_can_be_read_again() {
    for slip in SLIPS.iter().filter(|slip| !slip.row.contains('"')) {
        let imported = read(&below_a_sound_row(slip));
        let aside = imported.set_aside().unwrap();
        let again = Sheet::read("aside.csv", &aside).unwrap();
        let cells: Vec<&str> = slip.row.split(',').collect();
        let head: Vec<&str> = slip.head.split(',').collect();
        for (at, cell) in cells.iter().enumerate().take(head.len()).filter(|(_, cell)| !cell.is_empty()) {
            let kept = again.sample(at).unwrap();
            assert_eq!(kept.strip_prefix('\'').unwrap_or(kept), *cell, "{}", slip.what);
        }
        assert_eq!(guess(again.head()).fields.last(), Some(&None), "the column of problems is left out");
    }
}

#[test]
fn slips_of_a_shelf_are_told_the_same_way() {
    let text = "part,count,condition,mass_g,resistance_mohm,cycles,note\n\
        sound,2,used,180,11,30,drawer\n\
        ,1,,,,,\n\
        my pack,1,,,,,\n\
        p,0,,,,,\n\
        p,some,,,,,\n\
        p,1,shiny,,,,\n\
        p,1,,-4,,,\n\
        p,1,,,0.01 V,,\n\
        p,1,,,,many,\n\
        p,1,,,,,,more\n";
    let shelf = read_stock("shelf.csv", text).unwrap();
    assert_eq!(shelf.rows.len(), 1);
    let places: Vec<_> = shelf.refused.iter().map(|row| (row.line, row.problems[0].column)).collect();
    assert_eq!(places, [(3, 1), (4, 1), (5, 2), (6, 2), (7, 3), (8, 4), (9, 5), (10, 6), (11, 1)]);
    assert!(shelf.refused.iter().flat_map(|row| &row.problems).all(|problem| problem.hint.is_some()));
    assert!(shelf.refused[0].unsaid && !shelf.refused[1].unsaid);
}

#[test]
fn slips_of_a_stand_are_told_the_same_way() {
    let text = "# May\noutput_percent;volts_v;current_a;speed_rpm;thrust_gf\n100;22,2;34,1;24100;1510\n100;22,2;much;24100;1510\n\
        100;22,2;34;24,1;1510\n;;;;\n;;;;heavy\n";
    let stand = read_stand("stand.csv", text).unwrap();
    assert_eq!(stand.rows.len(), 1);
    let places: Vec<_> = stand.refused.iter().map(|row| (row.line, row.problems[0].column)).collect();
    assert_eq!(places, [(4, 3), (5, 4), (7, 5)]);
}

/// As many rows as a shop's whole list.
const MANY: usize = 5_000;

#[test]
fn five_thousand_rows_come_back_the_same() {
    let parts: Vec<Part> = parts(MANY, SEED);
    let file = CatalogueFile { version: CURRENT, parts: parts.into_iter().map(Into::into).collect(), kits: Vec::new() };
    let table = write_catalogue(&file).unwrap();
    let mut import = Import::new("many.csv", &table).unwrap();
    assert!(import.rows() >= MANY);
    let mut steps = 0;
    while import.left() > 0 {
        import.next_chunk(500);
        steps += 1;
    }
    assert!(steps >= 10, "progress in steps");
    let read = import.finish();
    assert_eq!(read.refused, []);
    assert!(read.catalogue == file);
}
