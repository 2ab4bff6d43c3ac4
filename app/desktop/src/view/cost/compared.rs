//! Builds side by side.

use std::sync::Arc;

use propwright_engine::{
    Report,
    explain::{self, money},
    finding::Status,
    fit::{
        change::Delta,
        compare::{Comparison, Listed},
    },
    interval::Interval,
    rules,
    working::COST,
};

/// What stands in one build's column of a row.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Column {
    /// What it is.
    pub words: String,
    /// Against the first build.
    pub against: String,
    /// The status of a finding.
    pub status: Option<Status>,
}

/// A row.
#[derive(Debug, Clone, PartialEq)]
pub struct ComparedRow {
    /// What is compared.
    pub title: String,
    /// In each build.
    pub each: Vec<Column>,
    /// The derivation by which it is followed down in each build.
    pub figure: Option<&'static str>,
}

/// Builds side by side; lists go in the order of the builds.
#[derive(Debug, Clone, PartialEq)]
pub struct ComparedView {
    /// The builds.
    pub names: Vec<String>,
    /// Price, mass and figures.
    pub figures: Vec<ComparedRow>,
    /// Slots whose parts differ.
    pub parts: Vec<ComparedRow>,
    /// Rules that do not find plain fit everywhere.
    pub found: Vec<ComparedRow>,
}

/// A comparison as it is drawn.
pub(super) fn compared_view(reports: &[Arc<Report>], compared: &Comparison) -> ComparedView {
    let row = |title: &str, each: Vec<Column>| ComparedRow { title: title.to_owned(), each, figure: None };
    let of = |figure, row| ComparedRow { figure: Some(figure), ..row };
    let price = reports.iter().zip(&compared.changes).enumerate().map(|(at, (report, change))| {
        let against = match &change.cost {
            _ if at == 0 => String::new(),
            None => "not known: a part has no price".to_owned(),
            Some(by) if by.is_empty() => "the same".to_owned(),
            Some(by) => by.iter().map(|by| signed(&by.to_string())).collect::<Vec<_>>().join(", "),
        };
        Column { words: money::total(&report.bill.total), against, status: None }
    });
    let mass = compared.mass.iter().zip(&compared.changes).enumerate();
    let mass = mass.map(|(at, (mass, change))| figure(at, *mass, change.mass));
    let mut figures =
        vec![of(COST, row("left to pay", price.collect())), of("takeoff-mass", row("take-off mass", mass.collect()))];
    for (which, of_all) in compared.figures.iter().enumerate() {
        let each = of_all.each.iter().zip(&compared.changes).enumerate();
        let each = each.map(|(at, (value, change))| figure(at, *value, change.figures.get(which).copied().flatten()));
        figures.push(of(of_all.figure.id, row(of_all.figure.title, each.collect())));
    }
    let parts = compared
        .parts
        .iter()
        .map(|differing| row(differing.slot.title(), differing.each.iter().map(|parts| listed(parts)).collect()));
    let found = compared.found.iter().map(|found| {
        let title = rules::by_id(found.rule).map_or(found.rule, |rule| rule.title);
        row(title, found.each.iter().map(|status| status_column(*status)).collect())
    });
    ComparedView {
        names: reports.iter().map(|report| report.craft.build.name.clone()).collect(),
        figures,
        parts: parts.collect(),
        found: found.collect(),
    }
}

fn signed(text: &str) -> String {
    text.strip_prefix('-').map_or_else(|| format!("+{text}"), |rest| format!("−{rest}"))
}

/// A figure of the build at a place; against the first one it says whether the difference exceeds its band.
fn figure(at: usize, value: Option<Interval>, change: Option<Delta>) -> Column {
    let words = value.map_or_else(|| "not known".to_owned(), |value| explain::figure(&value));
    let against = match change {
        _ if at == 0 => String::new(),
        None => "not known".to_owned(),
        Some(delta) if delta.none => "within the bands".to_owned(),
        Some(delta) => {
            let sign = if delta.by.nominal > 0 { "+" } else { "" };
            format!("{sign}{}", explain::figure(&delta.by)).replace('-', "−")
        }
    };
    Column { words, against, status: None }
}

fn listed(parts: &[Listed]) -> Column {
    let each = parts.iter().map(|listed| match listed.count {
        1 => listed.part.name.clone(),
        count => format!("{count} × {}", listed.part.name),
    });
    let words = each.collect::<Vec<_>>().join(", ");
    Column { words: if words.is_empty() { "none".to_owned() } else { words }, ..Column::default() }
}

fn status_column(status: Option<Status>) -> Column {
    Column { words: status.map_or("does not apply", Status::word).to_owned(), against: String::new(), status }
}
