//! Tables: what is wrong with a row is told with row, column, reason and hint, and no row is lost.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use propwright_schema::{
    catalogue::{Catalogue, CatalogueFile},
    quantity::{G, Unit, read_figure},
    table::{Import, Imported, duplicates, write_catalogue},
};

fn read(text: &str) -> Imported {
    Import::new("t.csv", text).unwrap().finish()
}

const HEAD: &str = "kind,id,name,maker,mass_g,price,priced_on,supplier,link,pieces,retired,source,sources,basis,note,contents,\
                    kv_rpm_per_v,poles,pattern,thread,fixing,winding,lead_end,uarts,rails,protocols,i2c,cells,capacity_mah,chemistry";

/// A row of that head: `kind`, `id` and `name` as given, then the named cells.
fn row(kind: &str, id: &str, name: &str, cells: &[(&str, &str)]) -> String {
    let quoted = |cell: &str| format!("\"{}\"", cell.replace('"', "\"\""));
    let cell = |column: &str| match column {
        "kind" => kind.to_owned(),
        "id" => id.to_owned(),
        "name" => name.to_owned(),
        _ => cells.iter().find(|(known, _)| *known == column).map_or_else(String::new, |(_, cell)| (*cell).to_owned()),
    };
    HEAD.split(',').map(|column| quoted(&cell(column))).collect::<Vec<_>>().join(",")
}

/// Kind, id, name, cells; and the field that is named.
type Bad = (&'static str, &'static str, &'static str, &'static [(&'static str, &'static str)], &'static str);

/// Forty-two kinds of bad row.
const BAD: [Bad; 42] = [
    ("", "a", "A", &[], "kind"),
    ("moter", "a", "A", &[], "kind"),
    ("gyro", "a", "A", &[], "kind"),
    ("motor", "A b", "A", &[], "id"),
    ("motor", "", "", &[("maker", "M")], "name"),
    ("motor", "unknown", "", &[("kv_rpm_per_v", "1950")], "id"),
    ("motor", "a", "A", &[("mass_g", "heavy")], "mass_g"),
    ("motor", "a", "A", &[("mass_g", "-3")], "mass_g"),
    ("motor", "a", "A", &[("mass_g", "0")], "mass_g"),
    ("motor", "a", "A", &[("mass_g", "3 V")], "mass_g"),
    ("motor", "a", "A", &[("mass_g", "1.2.3")], "mass_g"),
    ("motor", "a", "A", &[("mass_g", "1,000,5")], "mass_g"),
    ("motor", "a", "A", &[("mass_g", "NaN")], "mass_g"),
    ("motor", "a", "A", &[("mass_g", "99999999")], "mass_g"),
    ("motor", "a", "A", &[("price", "17.90")], "price"),
    ("motor", "a", "A", &[("price", "cheap EUR")], "price"),
    ("motor", "a", "A", &[("price", "17.905 EUR")], "price"),
    ("motor", "a", "A", &[("price", "17.90 Taler")], "price"),
    ("motor", "a", "A", &[("priced_on", "03/04/2026")], "priced_on"),
    ("motor", "a", "A", &[("priced_on", "2026-02-30")], "priced_on"),
    ("motor", "a", "A", &[("priced_on", "yesterday")], "priced_on"),
    ("motor", "a", "A", &[("pieces", "two")], "pieces"),
    ("motor", "a", "A", &[("pieces", "2.5")], "pieces"),
    ("motor", "a", "A", &[("pieces", "0")], "pieces"),
    ("motor", "a", "A", &[("retired", "perhaps")], "retired"),
    ("motor", "a", "A", &[("basis", "mass_g: guessed")], "basis"),
    ("motor", "a", "A", &[("basis", "estimate")], "basis"),
    ("motor", "a", "A", &[("sources", "a shop page")], "sources"),
    ("motor", "a", "A", &[("kv_rpm_per_v", "fast")], "kv_rpm_per_v"),
    ("motor", "a", "A", &[("kv_rpm_per_v", "1950000")], "kv_rpm_per_v"),
    ("motor", "a", "A", &[("poles", "14.5")], "poles"),
    ("motor", "a", "A", &[("poles", "1")], "poles"),
    ("motor", "a", "A", &[("pattern", "square")], "pattern"),
    ("motor", "a", "A", &[("fixing", "glue")], "fixing"),
    ("motor", "a", "A", &[("cells", "4")], "cells"),
    ("pack", "a", "A", &[("capacity_mah", "1300 W")], "capacity_mah"),
    ("pack", "a", "A", &[("chemistry", "lead")], "chemistry"),
    ("flight controller", "a", "A", &[("uarts", "1")], "uarts"),
    ("flight controller", "a", "A", &[("uarts", "numbr: 1")], "uarts"),
    ("flight controller", "a", "A", &[("rails", "volts_v: many")], "rails"),
    ("flight controller", "a", "A", &[("i2c", "maybe")], "i2c"),
    ("kit", "k", "K", &[("contents", "")], "contents"),
];

#[test]
fn each_kind_of_bad_row_is_told_with_row_column_reason_and_hint() {
    for (kind, id, name, cells, field) in BAD {
        let text = format!("{HEAD}\n{}\n{}\n", row("motor", "sound", "Sound", &[("mass_g", "31,9")]), row(kind, id, name, cells));
        let read = read(&text);
        assert_eq!(read.catalogue.parts.len(), 1, "{kind} {id} {cells:?}: the sound row stands");
        let [refused] = read.refused.as_slice() else { panic!("{kind} {id} {cells:?}: {:?}", read.refused) };
        assert_eq!(refused.line, 3);
        let of_field: Vec<_> = refused.problems.iter().filter(|problem| problem.field.as_deref() == Some(field)).collect();
        let [problem] = of_field.as_slice() else { panic!("{kind} {id} {cells:?}: {:?}", refused.problems) };
        let column = HEAD.split(',').position(|column| column == field).unwrap() + 1;
        assert!(problem.column as usize == column || field == "id", "{field}: column {}", problem.column);
        assert!(!problem.reason.is_empty() && problem.hint.as_ref().is_some_and(|hint| !hint.is_empty()), "{problem:?}");
    }
}

#[test]
fn bad_rows_are_kept_aside_and_can_be_mended_and_read_again() {
    let text =
        format!("{HEAD}\n{}\n{}\n", row("motor", "a", "A, \"the first\"", &[("mass_g", "heavy")]), row("motor", "b", "B", &[]));
    let first = read(&text);
    let aside = first.set_aside().unwrap();
    assert!(aside.contains("heavy") && aside.lines().next().unwrap().ends_with("problem"));
    let again = read(&aside.replace("heavy", "31.9"));
    assert_eq!(again.refused, []);
    assert_eq!(again.catalogue.parts[0].name, "A, \"the first\"");
    assert_eq!(again.catalogue.parts[0].mass_g.unwrap().steps(), read_figure("31.9", &G::INFO).unwrap());
}

#[test]
fn a_table_of_a_shop_is_read_by_its_own_words() {
    let text = "\u{feff}Brand;Item;Weight (oz);KV;Cost (EUR);Date;Colour\nVellacre;2306 motor;1,1;1750;17,90;14.8.2026;red\n";
    let mut import = Import::new("shop.csv", text).unwrap();
    let mut mapping = import.mapping().clone();
    mapping.kind = Some("motor".to_owned());
    import.map(mapping);
    let read = import.finish();
    assert_eq!(read.refused, []);
    let part = &read.catalogue.parts[0];
    // 1.1 oz = 31.184 g (NIST SP 811, B.8).
    assert_eq!((part.id.as_str(), part.mass_g.unwrap().steps()), ("vellacre-2306-motor", 31_184));
    assert_eq!(part.price.unwrap().to_string(), "17.90 EUR");
    assert_eq!(part.priced_on.unwrap().to_string(), "2026-08-14");
    let mut known = Catalogue::default();
    known.lay_over(&read.catalogue);
    let renamed = CatalogueFile {
        parts: vec![std::sync::Arc::new(propwright_schema::part::Part { id: "other".to_owned(), ..(**part).clone() })],
        ..read.catalogue.clone()
    };
    assert_eq!(duplicates(&renamed, &known)[0].known, "vellacre-2306-motor");
}

#[test]
fn reading_goes_on_row_by_row_and_starts_anew_with_another_mapping() {
    let rows: Vec<String> = (0..10).map(|at| format!("motor,m{at},M{at}")).collect();
    let mut import = Import::new("t.csv", &format!("kind,id,name\n{}\n", rows.join("\n"))).unwrap();
    import.next_chunk(4);
    assert_eq!((import.rows(), import.left()), (10, 6));
    let mapping = import.mapping().clone();
    import.map(mapping);
    assert_eq!(import.left(), 10);
    assert_eq!(import.finish().catalogue.parts.len(), 10);
}

#[test]
fn what_a_spreadsheet_would_calculate_is_written_as_words() {
    let name = "=cmd|' /c calc'!A1";
    let text = format!("kind,id,name,note\nmotor,m,\"'{name}\",\"'@SUM(1)\"\n");
    let read = read(&text);
    assert_eq!(read.catalogue.parts[0].name, name);
    let written = write_catalogue(&read.catalogue).unwrap();
    assert!(written.contains("'=cmd") && written.contains("'@SUM"), "{written}");
    assert_eq!(Import::new("again", &written).unwrap().finish().catalogue, read.catalogue);
}
