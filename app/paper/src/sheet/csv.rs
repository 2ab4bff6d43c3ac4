//! Parts with the shopping list, and the curves of a flight, as CSV (RFC 4180) for a spreadsheet.

use propwright_engine::{Report, bill::Line, sweep::Sweep};

use super::{pdf::PaperError, wiring};
use crate::plot::{self, Plot, Span, reading};

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
    let head = HEAD.map(str::to_owned).to_vec();
    written(std::iter::once(head).chain(report.bill.lines.iter().map(|line| row(report, line))))
}

fn written(rows: impl Iterator<Item = Vec<String>>) -> Result<String, PaperError> {
    let refused = |error: &dyn std::fmt::Display| PaperError::Writer(error.to_string());
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    for row in rows {
        writer.write_record(row).map_err(|error| refused(&error))?;
    }
    let bytes = writer.into_inner().map_err(|error| refused(&error))?;
    String::from_utf8(bytes).map_err(|error| refused(&error))
}

/// The curves of a flight: one row a place of a chart, with low (P5), nominal and high (P95) of each curve there. Units stand in
/// the head; what a chart does not know, and a place where the craft cannot be, is an empty cell.
///
/// # Errors
/// [`PaperError`] when the writer refuses.
pub fn curves(sweep: &Sweep) -> Result<String, PaperError> {
    let drawn = sweep.charts.iter().filter_map(|(topic, chart)| Some(plot::plot(*topic, chart.as_ref().ok()?)));
    let plots: Vec<Plot> = drawn.collect();
    let (mut places, mut figures): (Vec<String>, Vec<(&str, &str)>) = (Vec::new(), Vec::new());
    for plot in &plots {
        let place = place(plot);
        if !places.contains(&place) {
            places.push(place);
        }
        for line in &plot.lines {
            let figure = (line.name.as_str(), line.unit);
            if !figures.contains(&figure) {
                figures.push(figure);
            }
        }
    }
    let mut head = vec!["chart".to_owned(), "operating point".to_owned()];
    head.extend(places.iter().cloned());
    head.extend(
        figures.iter().flat_map(|(name, unit)| ["low", "nominal", "high"].map(|which| format!("{name} {which} [{unit}]"))),
    );
    let rows = plots.iter().flat_map(|plot| each_place(plot).into_iter().map(|x| point(plot, x, &places, &figures)));
    written(std::iter::once(head).chain(rows))
}

/// What is varied, as the head of its column.
fn place(plot: &Plot) -> String {
    format!("{} [{}]", plot.x.title, plot.x.unit)
}

/// The places of all curves of a chart, from left to right.
fn each_place(plot: &Plot) -> Vec<f64> {
    let mut places: Vec<f64> = plot.lines.iter().flat_map(|line| line.points.iter().map(|(x, _)| *x)).collect();
    places.sort_by(f64::total_cmp);
    places.dedup();
    places
}

fn point(plot: &Plot, x: f64, places: &[String], figures: &[(&str, &str)]) -> Vec<String> {
    let marked: Vec<&str> = reading::marked(plot, x).collect();
    let mut cells = vec![plot.name.to_owned(), marked.join("; ")];
    let own = place(plot);
    cells.extend(places.iter().map(|place| if *place == own { exact(x) } else { String::new() }));
    for (name, unit) in figures {
        let line = plot.lines.iter().find(|line| line.name == *name && line.unit == *unit);
        let span: Option<Span> = line.and_then(|line| reading::at(line, x));
        let told = span.map_or_else(Default::default, |span| [span.low, span.nominal, span.high].map(exact));
        cells.extend(told);
    }
    cells
}

/// A figure to six digits, with a point whatever the country.
fn exact(figure: f64) -> String {
    if figure == 0.0 {
        return "0".to_owned();
    }
    let whole = figure.abs().log10().floor().clamp(-9.0, 5.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and 14")]
    let digits = (5.0 - whole) as usize;
    let text = format!("{figure:.digits$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_keep_six_digits() {
        assert_eq!([0.0, 0.05, 1_234.567_89, -12.5, 123_456_789.0].map(exact), ["0", "0.05", "1234.57", "-12.5", "123456789"]);
    }
}
