//! What fits in a place, as JSON and as plain text.

use std::collections::BTreeMap;

use propwright_engine::{
    explain,
    finding::{Finding, Status},
    fit::{Candidate, Change, Delta},
    interval::Interval,
};
use serde::Serialize;

use crate::{
    json::{Price, SCHEMA},
    page::Page,
};

/// A change with its band, in the unit that its key names.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct DeltaJson {
    /// P5.
    pub low: f64,
    /// The change itself.
    pub nominal: f64,
    /// P95.
    pub high: f64,
    /// Smaller than its band: it may be none.
    pub none: bool,
}

impl From<Delta> for DeltaJson {
    fn from(delta: Delta) -> Self {
        let [low, nominal, high] = delta.by.decimals();
        Self { low, nominal, high, none: delta.none }
    }
}

/// What a part or a build changes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChangeJson {
    /// Mass at take-off; null while it is not known.
    pub mass_g: Option<DeltaJson>,
    /// What is more or less to pay, one amount a currency; null while a price is not known.
    pub cost: Option<Vec<Price>>,
    /// The other figures by their keys.
    #[serde(flatten)]
    pub figures: BTreeMap<&'static str, Option<DeltaJson>>,
}

impl From<&Change> for ChangeJson {
    fn from(change: &Change) -> Self {
        Self {
            mass_g: change.mass.map(Into::into),
            cost: change.cost.as_ref().map(|cost| cost.iter().copied().map(Price::from).collect()),
            figures: change.each().map(|(figure, delta)| (figure.key, delta.map(Into::into))).collect(),
        }
    }
}

/// A finding that counts against a part.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reason {
    /// The rule's id.
    pub rule: &'static str,
    /// `mismatch`, `tight` or `unstated`.
    pub status: &'static str,
    /// The sentence.
    pub message: String,
}

/// A part of the catalogue in the place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PartJson {
    /// Its id.
    pub part: String,
    /// Its name.
    pub name: String,
    /// `fits`, `tight`, `unstated` or `mismatch`.
    pub status: &'static str,
    /// Is it fitted now?
    pub fitted: bool,
    /// The rules that forbid it.
    pub blocking: Vec<&'static str>,
    /// All that counts against it, gravest first.
    pub reasons: Vec<Reason>,
    /// What it changes against the part that is fitted now.
    pub change: ChangeJson,
}

/// Every part for a place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FitsJson {
    /// [`SCHEMA`].
    pub schema: u32,
    /// The place, such as `motor` or `motor[1]`.
    pub slot: String,
    /// The parts, those that fit first.
    pub parts: Vec<PartJson>,
    /// What is to be known about the files read.
    pub notes: Vec<String>,
}

/// The candidates of a place as JSON.
pub fn json(slot: &str, candidates: &[Candidate], notes: &[String]) -> FitsJson {
    FitsJson { schema: SCHEMA, slot: slot.to_owned(), parts: candidates.iter().map(part).collect(), notes: notes.to_vec() }
}

fn part(candidate: &Candidate) -> PartJson {
    PartJson {
        part: candidate.part.id.clone(),
        name: candidate.part.name.clone(),
        status: candidate.status.word(),
        fitted: candidate.fitted,
        blocking: candidate.blocking(),
        reasons: reasons(&candidate.findings),
        change: (&candidate.change).into(),
    }
}

/// Findings as reasons.
pub(crate) fn reasons(findings: &[Finding]) -> Vec<Reason> {
    let reason =
        |finding: &Finding| Reason { rule: finding.rule, status: finding.status().word(), message: explain::message(finding) };
    findings.iter().map(reason).collect()
}

/// The candidates of a place as plain text.
pub fn text(slot: &str, candidates: &[Candidate], notes: &[String]) -> String {
    let mut page = Page::default();
    let count = |status| candidates.iter().filter(|candidate| candidate.status == status).count();
    let [fit, tight, unstated, mismatch] = [Status::Fits, Status::Tight, Status::Unstated, Status::Mismatch].map(count);
    page.heading(&format!("What fits as {slot}"));
    page.paragraph("", &format!("{fit} fit · {tight} tight · {unstated} unstated · {mismatch} do not fit"));
    for (status, title) in
        [(Status::Fits, "Fits"), (Status::Tight, "Tight"), (Status::Unstated, "Not known"), (Status::Mismatch, "Does not fit")]
    {
        let mut of = candidates.iter().filter(|candidate| candidate.status == status).peekable();
        if of.peek().is_some() {
            page.heading(title);
        }
        for candidate in of {
            row(&mut page, candidate);
        }
    }
    for note in notes {
        page.paragraph("Note: ", note);
    }
    page.finish()
}

fn row(page: &mut Page, candidate: &Candidate) {
    let part = &candidate.part;
    let now = if candidate.fitted { " (fitted now)" } else { "" };
    let price = part.price.map_or_else(|| "price ?".to_owned(), |price| price.to_string());
    page.row(&[2, 70], &[&format!("{}{now}", part.name), &price]);
    if !candidate.fitted {
        page.paragraph("      ", &change(&candidate.change));
    }
    for finding in candidate.findings.iter().filter(|finding| finding.status() == candidate.status) {
        page.paragraph("      - ", &explain::message(finding));
    }
}

/// What changes, in words; a change smaller than its band is left out.
pub fn change(change: &Change) -> String {
    let mass = change.mass.filter(|delta| !delta.none).map(|delta| format!("mass {}", delta_words(&delta.by)));
    let sure = change.each().filter_map(|(figure, delta)| Some((figure.title, delta.filter(|delta| !delta.none)?)));
    let figures = sure.map(|(title, delta)| format!("{title} {}", delta_words(&delta.by)));
    let cost = match &change.cost {
        None => Some("price not known".to_owned()),
        Some(cost) if cost.is_empty() => None,
        Some(cost) => Some(cost.iter().map(|sum| format!("price {}{sum}", plus(sum.minor()))).collect::<Vec<_>>().join(", ")),
    };
    let all: Vec<String> = mass.into_iter().chain(cost).chain(figures).collect();
    if all.is_empty() { "no change beyond the bands".to_owned() } else { all.join(" · ") }
}

const fn plus(steps: i64) -> &'static str {
    if steps > 0 { "+" } else { "" }
}

/// `+0.3 min (0.1 to 0.5)`, with the digits that its band leaves.
pub fn delta_words(by: &Interval) -> String {
    let by = by.said();
    let [low, nominal, high] = by.decimals();
    let digits = match (high - low) / 2.0 {
        half if half >= 10.0 => 0,
        half if half >= 0.5 => 1,
        half if half >= 0.05 => 2,
        _ => 3,
    };
    let said = |figure: f64| {
        let text = format!("{figure:.digits$}");
        let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text };
        if text == "-0" { "0".to_owned() } else { text }
    };
    let unit = if by.unit.symbol.is_empty() { String::new() } else { format!(" {}", by.unit.symbol) };
    format!("{}{}{unit} ({} to {})", plus(by.nominal), said(nominal), said(low), said(high))
}
