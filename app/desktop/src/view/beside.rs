//! Parts side by side: what is fitted now and up to four others, row by row, with what differs set apart.

use std::sync::Arc;

use propwright_engine::{
    drawing::{Drawing, top_view},
    explain,
    finding::Status,
    fit::{Delta, FIGURES},
};
use propwright_paper::fits;
use propwright_schema::part::Part;

use super::{parts::grams, picker::minus};
use crate::{
    fitting::Fit,
    state::{Document, Picker},
};

/// One of the parts.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// The part.
    pub part: Arc<Part>,
    /// How it goes with the rest; absent while that is not known.
    pub status: Option<Status>,
    /// Is it the one that is fitted?
    pub fitted: bool,
    /// The craft with it, from above.
    pub drawing: Drawing,
    /// What counts against it, gravest first.
    pub why: Vec<String>,
}

/// One value of a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cell {
    /// The value.
    pub text: String,
    /// Does it differ from that of the first column?
    pub differs: bool,
}

/// A row of values, one a column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// What it is about.
    pub title: String,
    /// The values.
    pub cells: Vec<Cell>,
}

/// Parts side by side.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// The parts, the fitted one first.
    pub columns: Vec<Column>,
    /// What they change, mass and price.
    pub figures: Vec<Line>,
    /// The fields of their records in which they differ.
    pub record: Vec<Line>,
    /// How many published fields are the same in all.
    pub same: usize,
}

/// The parts of a picker that were set side by side, after the one that is fitted.
pub fn table(document: &Document, picker: &Picker) -> Table {
    let placed = picker.place.line.and_then(|line| document.craft.of_line(line).find(|placed| placed.listed_here));
    let fitted = placed.map(|placed| {
        let found = picker.found.get(&placed.subject.part.id);
        let drawing = top_view(&document.craft);
        Column {
            part: Arc::clone(&placed.subject.part),
            status: found.map(|fit| fit.status),
            fitted: true,
            drawing,
            why: why(found),
        }
    });
    let others = picker.beside.iter().filter(|beside| placed.is_none_or(|placed| placed.subject.part.id != beside.part.id));
    let others = others.map(|beside| {
        let found = picker.found.get(&beside.part.id);
        Column {
            part: Arc::clone(&beside.part),
            status: found.map(|fit| fit.status),
            fitted: false,
            drawing: beside.drawing.clone(),
            why: why(found),
        }
    });
    let columns: Vec<Column> = fitted.into_iter().chain(others).collect();
    let (record, same) = record(&columns, picker);
    Table { figures: figures(&columns, picker), record, same, columns }
}

fn why(found: Option<&Fit>) -> Vec<String> {
    found.into_iter().flat_map(|fit| &fit.why).map(|(_, why)| why.clone()).collect()
}

/// A row of texts; what is not as in the first column differs.
fn line(title: &str, texts: Vec<String>) -> Line {
    let first = texts.first().cloned().unwrap_or_default();
    Line { title: title.to_owned(), cells: texts.into_iter().map(|text| Cell { differs: text != first, text }).collect() }
}

fn figures(columns: &[Column], picker: &Picker) -> Vec<Line> {
    let each = |of: &dyn Fn(&Column) -> String| columns.iter().map(of).collect::<Vec<_>>();
    let price = |column: &Column| column.part.price.map_or_else(|| "unpriced".to_owned(), |price| price.to_string());
    let mass = |column: &Column| column.part.mass_g.map_or_else(|| "not published".to_owned(), |mass| grams(mass.decimal()));
    let mut lines = vec![line("price", each(&price)), line("mass of one", each(&mass))];
    let delta = |column: &Column, of: &dyn Fn(&Fit) -> Option<Delta>| match (column.fitted, picker.found.get(&column.part.id)) {
        (true, _) => ("now".to_owned(), false),
        (_, None) => ("working…".to_owned(), false),
        (_, Some(fit)) => match of(fit) {
            None => ("not known".to_owned(), false),
            Some(delta) if delta.none => ("none".to_owned(), false),
            Some(delta) => (minus(&format!(" {}", fits::delta_words(&delta.by))).trim_start().to_owned(), true),
        },
    };
    let mut changes = |title: &str, of: &dyn Fn(&Fit) -> Option<Delta>| {
        let cells = columns.iter().map(|column| delta(column, of)).map(|(text, differs)| Cell { text, differs });
        lines.push(Line { title: title.to_owned(), cells: cells.collect() });
    };
    changes("take-off mass", &|fit| fit.change.mass);
    for (at, figure) in FIGURES.iter().enumerate() {
        changes(figure.title, &|fit| fit.change.figures[at]);
    }
    lines
}

/// The published fields in which the records differ, and how many are the same.
fn record(columns: &[Column], picker: &Picker) -> (Vec<Line>, usize) {
    let slot = picker.place.slot;
    let Some(role) = columns.first().and_then(|column| column.part.role(slot)) else { return (Vec::new(), 0) };
    let value = |column: &Column, field: &str| column.part.role(slot).and_then(|role| role.get(field));
    let (mut lines, mut same) = (Vec::new(), 0);
    for field in role.fields() {
        let values: Vec<_> = columns.iter().map(|column| value(column, field.name)).collect();
        if values.iter().all(Option::is_none) {
            continue;
        }
        if values.windows(2).all(|pair| pair[0] == pair[1]) {
            same += 1;
            continue;
        }
        let text = |value: Option<_>| value.as_ref().map_or_else(|| "not published".to_owned(), explain::value);
        lines.push(line(&explain::field_words(field.name), values.into_iter().map(text).collect()));
    }
    (lines, same)
}
