//! A catalogue as a table.

use std::collections::BTreeMap;

use super::{KIND, KIT, cell, head};
use crate::{
    catalogue::CatalogueFile,
    kit::Kit,
    part::{Part, PastPrice, Role},
    value::Value,
};

/// A word that no spreadsheet takes for a formula: behind an apostrophe where it would.
///
/// ```
/// use propwright_schema::table::harmless;
/// assert_eq!(harmless("=2+3"), "'=2+3");
/// assert_eq!(harmless("five inch"), "five inch");
/// ```
pub fn harmless(word: &str) -> String {
    if word.starts_with(['=', '+', '-', '@', '\t', '\r', '\'']) { format!("'{word}") } else { word.to_owned() }
}

/// The word behind an apostrophe that [`harmless`] wrote.
pub(super) fn word(cell: &str) -> &str {
    cell.strip_prefix('\'').unwrap_or(cell)
}

/// The table of a catalogue: columns that no row fills are left out.
///
/// # Errors
/// When the writer refuses, which it does for nothing that a catalogue can hold.
pub fn write_catalogue(catalogue: &CatalogueFile) -> Result<String, csv::Error> {
    let mut rows: Vec<BTreeMap<&'static str, String>> = Vec::new();
    for part in &catalogue.parts {
        rows.extend(part.fills.iter().enumerate().map(|(at, role)| role_row(part, at, role)));
    }
    rows.extend(catalogue.kits.iter().map(|kit| kit_row(kit)));
    let mut columns: Vec<&'static str> = Vec::new();
    for field in head::fields() {
        if !columns.contains(&field) && rows.iter().any(|row| row.contains_key(field)) {
            columns.push(field);
        }
    }
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(&columns)?;
    for row in &rows {
        writer.write_record(columns.iter().map(|column| row.get(column).map_or("", String::as_str)))?;
    }
    let bytes = writer.into_inner().map_err(|error| std::io::Error::other(error.to_string()))?;
    String::from_utf8(bytes).map_err(|error| std::io::Error::other(error.to_string()).into())
}

/// The first role of a part carries the article; a further one its id alone.
fn role_row(part: &Part, at: usize, role: &Role) -> BTreeMap<&'static str, String> {
    let mut row = if at == 0 { article(part) } else { BTreeMap::from([("id", part.id.clone())]) };
    row.insert(KIND, role.word().to_owned());
    for field in role.fields() {
        let Some(value) = role.get(field.name) else { continue };
        let text = cell::written(&value);
        let harmless = if matches!(value, Value::Number { .. } | Value::Count(_)) { text } else { harmless(&text) };
        row.insert(field.name, harmless);
    }
    row
}

fn article(part: &Part) -> BTreeMap<&'static str, String> {
    let pairs = |pairs: Vec<(&String, &str)>| {
        let each = pairs.into_iter().map(|(field, said)| format!("{field}: {}", said.replace('\\', "\\\\").replace(';', "\\;")));
        each.collect::<Vec<_>>().join("; ")
    };
    let cells = [
        ("id", Some(part.id.clone())),
        ("name", Some(harmless(&part.name))),
        ("maker", part.maker.as_deref().map(harmless)),
        ("mass_g", part.mass_g.map(|mass| mass.decimal().to_string())),
        ("price", part.price.map(|price| price.to_string())),
        ("priced_on", part.priced_on.map(|day| day.to_string())),
        ("supplier", part.supplier.as_deref().map(harmless)),
        ("link", part.link.as_deref().map(harmless)),
        ("pieces", part.pieces.map(|pieces| pieces.to_string())),
        ("retired", part.retired.then(|| "yes".to_owned())),
        ("source", part.source.as_deref().map(harmless)),
        ("sources", Some(pairs(part.sources.iter().map(|(field, source)| (field, source.as_str())).collect()))),
        ("basis", Some(pairs(part.basis.iter().map(|(field, basis)| (field, basis.word())).collect()))),
        ("typed", Some(pairs(part.typed.iter().map(|(field, typed)| (field, typed.as_str())).collect()))),
        ("earlier_prices", earlier(&part.earlier_prices)),
        ("note", part.note.as_deref().map(harmless)),
    ];
    filled(cells)
}

/// `price: 19.00 EUR; priced_on: 2026-08-14| price: …`; nothing where there are none.
fn earlier(prices: &[PastPrice]) -> Option<String> {
    let each = |past: &PastPrice| {
        let mut fields = vec![("price", Value::Word(past.price.to_string()))];
        fields.extend(past.priced_on.map(|day| ("priced_on", Value::Word(day.to_string()))));
        fields.extend(past.supplier.clone().map(|supplier| ("supplier", Value::Word(supplier))));
        Value::Record(fields)
    };
    (!prices.is_empty()).then(|| cell::written(&Value::List(prices.iter().map(each).collect())))
}

fn kit_row(kit: &Kit) -> BTreeMap<&'static str, String> {
    let item = |item: &crate::kit::KitItem| {
        let mut fields = vec![("part", Value::Word(item.part.clone())), ("count", Value::Count(i64::from(item.count)))];
        fields.extend(item.state.clone().map(|state| ("state", Value::Word(state))));
        Value::Record(fields)
    };
    let contents = cell::written(&Value::List(kit.contents.iter().map(item).collect()));
    let cells = [
        (KIND, Some(KIT.to_owned())),
        ("id", Some(kit.id.clone())),
        ("name", Some(harmless(&kit.name))),
        ("maker", kit.maker.as_deref().map(harmless)),
        ("price", kit.price.map(|price| price.to_string())),
        ("priced_on", kit.priced_on.map(|day| day.to_string())),
        ("supplier", kit.supplier.as_deref().map(harmless)),
        ("retired", kit.retired.then(|| "yes".to_owned())),
        ("earlier_prices", earlier(&kit.earlier_prices)),
        ("note", kit.note.as_deref().map(harmless)),
        ("contents", Some(contents)),
    ];
    filled(cells)
}

fn filled(cells: impl IntoIterator<Item = (&'static str, Option<String>)>) -> BTreeMap<&'static str, String> {
    let filled = cells.into_iter().filter_map(|(field, cell)| Some((field, cell.filter(|cell| !cell.is_empty())?)));
    filled.collect()
}

#[cfg(test)]
mod tests {
    use super::super::ARTICLE;
    use super::*;

    #[test]
    fn no_field_of_a_role_bears_the_name_of_an_articles() {
        for (kind, fields) in Role::KINDS {
            for field in *fields {
                assert!(!ARTICLE.contains(&field.name) && field.name != KIND, "{kind}.{}", field.name);
            }
        }
    }
}
