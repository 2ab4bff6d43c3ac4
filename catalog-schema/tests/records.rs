//! The records' own description: names, units and ranges agree, and text survives the way there and back.

use propwright_schema::{
    catalogue::CatalogueFile,
    part::Role,
    quantity::UNITS,
    ron_options,
    value::{Field, Kind},
};

fn inner(field: &Field) -> &'static [Field] {
    match field.kind {
        Kind::Record(fields) | Kind::List(&Kind::Record(fields)) => fields,
        _ => &[],
    }
}

#[test]
fn a_field_ends_in_its_unit() {
    let outer = Role::KINDS.iter().flat_map(|(_, fields)| fields.iter());
    for field in outer.flat_map(|field| std::iter::once(field).chain(inner(field))) {
        let (Kind::Number(unit) | Kind::List(&Kind::Number(unit))) = field.kind else { continue };
        let longest = UNITS.iter().filter(|unit| field.name.ends_with(unit.suffix)).max_by_key(|unit| unit.suffix.len());
        let grams_of_force = field.name.ends_with("_gf") && unit.symbol == "g";
        assert!(grams_of_force || longest.is_some_and(|found| found == unit), "{} holds {}", field.name, unit.symbol);
        if let Some((low, high)) = field.plausible {
            assert!(low < high, "{}", field.name);
        }
    }
}

#[test]
fn text_and_back() {
    let text = r#"(
        version: 1,
        parts: [
            (id: "m", name: "M", mass_g: 31.9, price: "17.90 EUR", priced_on: "2026-08-14", fills: [Motor(
                stator_diameter_mm: 22, kv_rpm_per_v: 1950, pattern: "16x16", fixing: Nut)], basis: {"mass_g": Measured}),
            (id: "p", name: "P", pieces: 4, fills: [Propeller(diameter_in: 5.1, pitch_in: 4.3, blades: 3)]),
        ],
    )"#;
    let file: CatalogueFile = ron_options().from_str(text).unwrap();
    let written = ron_options().to_string_pretty(&file, ron::ser::PrettyConfig::default()).unwrap();
    let again: CatalogueFile = ron_options().from_str(&written).unwrap();
    assert_eq!(file, again);
    assert!(written.contains("31.9") && !written.contains("31.900"), "{written}");
}
