//! Parts and shopping list as CSV (RFC 4180) for a spreadsheet.

use propwright_engine::{Report, bill::Line};

use super::{pdf::PaperError, wiring};

/// A cell that a spreadsheet takes as words: one that it would take for a formula stands behind an apostrophe.
///
/// ```
/// use propwright_paper::sheet::csv::harmless;
/// assert_eq!(harmless("=1+1"), "'=1+1");
/// assert_eq!(harmless("-5 V"), "'-5 V");
/// assert_eq!(harmless("5.1 in"), "5.1 in");
/// ```
pub fn harmless(text: &str) -> String {
    let text = crate::page::escaped(text);
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{text}") } else { text }
}

const HEAD: [&str; 14] = [
    "slot",
    "part",
    "name",
    "maker",
    "count",
    "owned",
    "packs",
    "pieces",
    "unit_price",
    "line_price",
    "supplier",
    "priced_on",
    "link",
    "wiring",
];

/// One row a line of the bill.
///
/// # Errors
/// [`PaperError`] when the writer refuses.
pub fn parts(report: &Report) -> Result<String, PaperError> {
    let refused = |error: &dyn std::fmt::Display| PaperError::Writer(error.to_string());
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    writer.write_record(HEAD).map_err(|error| refused(&error))?;
    for line in &report.bill.lines {
        writer.write_record(row(report, line)).map_err(|error| refused(&error))?;
    }
    let bytes = writer.into_inner().map_err(|error| refused(&error))?;
    String::from_utf8(bytes).map_err(|error| refused(&error))
}

fn row(report: &Report, line: &Line) -> Vec<String> {
    let part = &line.part;
    let text = |word: Option<&String>| word.map_or_else(String::new, |word| harmless(word));
    let fitted = report.craft.listed().find(|placed| report.bill.of_part(placed.line) == Some(line));
    let wired = fitted.map(|placed| wiring::of(placed, &report.craft.build).join("; ")).unwrap_or_default();
    vec![
        line.slot.word().to_owned(),
        harmless(&part.id),
        harmless(&part.name),
        text(part.maker.as_ref()),
        line.count.to_string(),
        if line.is_bought() { "no" } else { "yes" }.to_owned(),
        line.packs.to_string(),
        line.pieces.to_string(),
        line.unit_price.map(|price| price.to_string()).unwrap_or_default(),
        line.price.map(|price| price.to_string()).unwrap_or_default(),
        text(part.supplier.as_ref()),
        part.priced_on.map(|day| day.to_string()).unwrap_or_default(),
        text(part.link.as_ref()),
        harmless(&wired),
    ]
}
