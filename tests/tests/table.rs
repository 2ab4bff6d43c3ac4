//! The sample catalogue as a table and back: the same.

use propwright::cli::Exit;
use propwright_sample::CATALOGUE;
use propwright_schema::{
    load::load_catalogue,
    table::{Import, write_catalogue},
};
use propwright_tests::{
    command_line::{path, propwright},
    scratch::Scratch,
};

#[test]
fn the_sample_catalogue_comes_back_from_its_table() {
    for (file, text) in CATALOGUE {
        let catalogue = load_catalogue(file, text).unwrap();
        let table = write_catalogue(&catalogue).unwrap();
        let read = Import::new(file, &table).unwrap().finish();
        assert_eq!(read.refused, [], "{file}");
        assert_eq!(read.catalogue.kits, catalogue.kits, "{file}");
        for (one, other) in read.catalogue.parts.iter().zip(&catalogue.parts) {
            assert_eq!(one, other, "{file}");
        }
        assert_eq!(read.catalogue.parts.len(), catalogue.parts.len(), "{file}");
    }
}

#[test]
fn export_and_import_go_round_and_refused_rows_stand_aside() {
    let scratch = Scratch::new("table-command");
    let (table, out) = (scratch.folder().join("all.csv"), scratch.folder().join("all.ron"));
    let written = propwright(["catalog".into(), "export".into(), path(&table)]);
    assert_eq!((written.exit, written.err.as_str()), (Exit::Done, ""));

    let preview = propwright(["catalog".into(), "import".into(), path(&table), "--json".into()]);
    assert_eq!((preview.exit, preview.json()["written"].as_array().unwrap().len()), (Exit::Done, 0));

    let broken = std::fs::read_to_string(&table).unwrap() + "motr,x,X\n";
    std::fs::write(&table, broken).unwrap();
    let read = propwright(["catalog".into(), "import".into(), path(&table), "--out".into(), path(&out)]);
    assert_eq!(read.exit, Exit::Found, "{}", read.err);
    assert!(read.out.contains("did you mean motor?") && read.out.contains("1 rows refused"), "{}", read.out);
    assert!(std::fs::read_to_string(scratch.folder().join("all.refused.csv")).unwrap().contains("motr,x,X"));
    let checked = propwright(["catalog".into(), "check".into(), path(&out)]);
    assert_eq!(checked.exit, Exit::Done, "{}", checked.out);

    let again = propwright(["catalog".into(), "import".into(), path(&table), "--out".into(), path(&out)]);
    assert_eq!((again.exit, again.out.as_str()), (Exit::Refused, ""), "an existing catalogue is never replaced");
}

#[test]
fn a_wrong_mapping_is_refused() {
    let scratch = Scratch::new("table-mapping");
    let table = scratch.file("shop.csv", "Weight,Mass,Name\n3,4,A\n");
    for map in ["Colour=mass_g", "Mass=weight", "Mass=mass_g"] {
        let answered = propwright(["catalog".into(), "import".into(), path(&table), "--map".into(), map.into()]);
        assert_eq!((answered.exit, answered.out.as_str()), (Exit::Refused, ""), "{map}");
        assert!(answered.err.contains("hint:"), "{}", answered.err);
    }
}

/// Runs `catalog` with these words and paths.
fn catalog(words: &[&str]) -> propwright_tests::command_line::Answered {
    propwright(std::iter::once("catalog").chain(words.iter().copied()))
}

#[test]
fn a_catalogue_takes_rows_and_keeps_its_own_bytes() {
    let scratch = Scratch::new("table-into");
    let own = "// by hand\n(version: 1, parts: [\n    // measured twice\n    (id: \"tarn-5\",  name: \"Tarn 5\", fills: [Frame()]),\n])\n";
    let (own_path, table) = (
        scratch.file("own.ron", own),
        scratch
            .file("shop.csv", "kind;id;name;mass_g\nframe;tarn-5;Tarn 5 shop;92,5\nframe;osk-3;Osk 3;48\nframe;bad;Bad;much\n"),
    );
    let [own_path, table] = [&own_path, &table].map(|path| path.to_str().unwrap());
    let read = catalog(&["import", table, "--into", own_path, "--json"]);
    assert_eq!(read.exit, Exit::Found, "{}", read.err);
    assert_eq!(read.json()["merged"], serde_json::json!({"added": 1, "replaced": 0, "left": 1}));
    let text = std::fs::read_to_string(own_path).unwrap();
    assert!(text.starts_with(own.strip_suffix("])\n").unwrap()) && text.ends_with("\n])\n"), "{text}");
    assert!(text.contains("osk-3") && !text.contains("Tarn 5 shop"), "{text}");
    assert!(scratch.holds().contains_key("own.refused.csv"));

    let theirs = catalog(&["import", table, "--into", own_path, "--same", "theirs"]);
    assert!(theirs.out.contains("0 added, 2 replaced, 0 left out"), "{}", theirs.out);
    let text = std::fs::read_to_string(own_path).unwrap();
    assert!(text.contains("Tarn 5 shop") && text.starts_with("// by hand") && text.contains("// measured twice"), "{text}");
    assert!(scratch.holds().contains_key("own.refused-2.csv"), "what was kept aside earlier stays");
}

#[test]
fn a_shelf_goes_round_and_stays_byte_for_byte() {
    let scratch = Scratch::new("table-shelf");
    let shelf = scratch.file("shelf.ron", propwright_sample::SHELF);
    let table = scratch.folder().join("shelf.csv");
    let [shelf, table] = [&shelf, &table].map(|path| path.to_str().unwrap());
    let written = catalog(&["export", table, "--stock", shelf]);
    assert_eq!((written.exit, written.err.as_str()), (Exit::Done, ""));
    let read = catalog(&["import", table, "--stock", "--into", shelf]);
    assert_eq!((read.exit, read.err.as_str()), (Exit::Done, ""), "{}", read.out);
    assert_eq!(std::fs::read_to_string(shelf).unwrap(), propwright_sample::SHELF, "not a byte");

    let edited = std::fs::read_to_string(table).unwrap() + "=formula,two\n";
    std::fs::write(table, edited).unwrap();
    let out = scratch.folder().join("new.ron");
    let read = catalog(&["import", table, "--stock", "--out", out.to_str().unwrap(), "--json"]);
    assert_eq!((read.exit, read.json()["refused"].as_array().unwrap().len()), (Exit::Found, 1));
    assert!(std::fs::read_to_string(scratch.folder().join("new.refused.csv")).unwrap().contains("'=formula"));
    let again = catalog(&["import", table, "--stock", "--out", out.to_str().unwrap()]);
    assert_eq!((again.exit, again.out.as_str()), (Exit::Refused, ""), "a file that is there is not replaced");
}

#[test]
fn a_thrust_stand_goes_round_in_its_build_list() {
    let scratch = Scratch::new("table-stand");
    let build = scratch.file("b.ron", propwright_tests::sample::demo_text());
    let table =
        scratch.file("stand.csv", "# May\nThrottle;Voltage;Amps;RPM;Thrust (gf)\n100;22,2;34,1;24100;1510\n50;23;x;15000;400\n");
    let [build, table] = [&build, &table].map(|path| path.to_str().unwrap());
    let preview = catalog(&["import", table, "--stand"]);
    assert!(preview.out.contains("1 rows read; 1 rows refused.") && preview.out.contains("stand.csv:4:3"), "{}", preview.out);
    assert_eq!(catalog(&["import", table, "--stand", "--into", build]).exit, Exit::Found);
    assert!(scratch.holds().contains_key("b.refused.csv"));
    let with = std::fs::read_to_string(build).unwrap();
    assert_ne!(with, propwright_tests::sample::demo_text());

    let out = scratch.folder().join("out.csv");
    let out = out.to_str().unwrap();
    assert_eq!(catalog(&["export", out, "--stand", build]).exit, Exit::Done);
    assert_eq!(catalog(&["import", out, "--stand", "--into", build]).exit, Exit::Done);
    assert_eq!(std::fs::read_to_string(build).unwrap(), with, "not a byte");
    let nowhere = scratch.folder().join("nowhere.ron");
    let refused = catalog(&["import", out, "--stand", "--into", nowhere.to_str().unwrap()]);
    assert_eq!((refused.exit, refused.out.as_str()), (Exit::Refused, ""));
}

#[test]
fn what_was_typed_earlier_prices_and_what_is_not_published_come_back() {
    let text = r#"(version: 1, parts: [(id: "m", name: "M", mass_g: 32.035, price: "17.90 EUR", priced_on: "2026-11-14",
        fills: [Motor(stator_diameter_mm: 22.098)], basis: {"mass_g": Measured, "resistance_mohm": Unpublished},
        typed: {"mass_g": "1.13 oz", "stator_diameter_mm": "0.87 in"},
        earlier_prices: [(price: "19.00 EUR", priced_on: "2026-08-14", supplier: "Quay Depot, \"north\""), (price: "21.00 GBP")])],
        kits: [(id: "k", name: "K", contents: [(part: "m", count: 4)], earlier_prices: [(price: "90.00 EUR")])])"#;
    let file = propwright_schema::load::load_catalogue("own.ron", text).unwrap();
    let table = propwright_schema::table::write_catalogue(&file).unwrap();
    let read = propwright_schema::table::Import::new("own.csv", &table).unwrap().finish();
    assert!(read.refused.is_empty(), "{:?}\n{table}", read.refused);
    assert_eq!(read.catalogue, file, "{table}");
}
