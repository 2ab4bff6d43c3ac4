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
