//! Builds side by side, as JSON and as plain text.

use propwright_engine::{
    Report, explain,
    finding::Status,
    fit::compare::{Comparison, Listed},
    rules,
};
use serde::Serialize;

use crate::{
    fits::{self, ChangeJson},
    json::{Band, Price, SCHEMA},
    page::Page,
};

/// One of the builds.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BuildJson {
    /// Its name.
    pub build: String,
    /// The file's name as it was handed in.
    pub file: String,
    /// Left to pay, one amount a currency.
    pub cost: Vec<Price>,
    /// Mass at take-off; null while a mass is not known.
    pub takeoff_mass_g: Option<Band>,
    /// How many findings are a mismatch, tight, unstated.
    pub open: [usize; 3],
    /// What it changes against the first build.
    pub change: ChangeJson,
}

/// A part of one of the builds.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ListedJson {
    /// Its id.
    pub part: String,
    /// How many.
    pub count: u32,
}

/// What differs in each build, in the order of the builds.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Row<T> {
    /// The slot, the figure's key or the rule.
    pub of: String,
    /// In each build.
    pub each: Vec<T>,
}

/// Builds side by side.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CompareJson {
    /// [`SCHEMA`].
    pub schema: u32,
    /// The builds.
    pub builds: Vec<BuildJson>,
    /// The slots whose parts differ.
    pub parts: Vec<Row<Vec<ListedJson>>>,
    /// The figures.
    pub figures: Vec<Row<Option<Band>>>,
    /// The rules that did not find plain fit everywhere; null where one does not apply.
    pub findings: Vec<Row<Option<&'static str>>>,
    /// What is to be known about the files read.
    pub notes: Vec<String>,
}

/// The comparison as JSON; `files` are the names of the builds' files.
pub fn json(reports: &[&Report], files: &[String], compared: &Comparison, notes: &[String]) -> CompareJson {
    let build = |((report, file), change): ((&&Report, &String), _)| BuildJson {
        build: report.craft.build.name.clone(),
        file: file.clone(),
        cost: report.totals.cost.iter().copied().map(Price::from).collect(),
        takeoff_mass_g: report.totals.takeoff_mass.map(Band::from),
        open: [Status::Mismatch, Status::Tight, Status::Unstated].map(|status| report.count(status)),
        change: ChangeJson::from(change),
    };
    let listed = |parts: &Vec<Listed>| {
        parts.iter().map(|listed| ListedJson { part: listed.part.id.clone(), count: listed.count }).collect()
    };
    let parts = compared.parts.iter();
    let figures = compared.figures.iter();
    let found = compared.found.iter();
    CompareJson {
        schema: SCHEMA,
        builds: reports.iter().zip(files).zip(&compared.changes).map(build).collect(),
        parts: parts.map(|row| Row { of: row.slot.to_string(), each: row.each.iter().map(listed).collect() }).collect(),
        figures: figures
            .map(|row| Row {
                of: row.figure.key.to_owned(),
                each: row.each.iter().map(|figure| figure.map(Band::from)).collect(),
            })
            .collect(),
        findings: found
            .map(|row| Row { of: row.rule.to_owned(), each: row.each.iter().map(|status| status.map(Status::word)).collect() })
            .collect(),
        notes: notes.to_vec(),
    }
}

/// What each build is called: its name, with the name of its file where another build is called the same.
fn names(reports: &[&Report], files: &[String]) -> Vec<String> {
    let name = |report: &Report| report.craft.build.name.clone();
    let several = |wanted: &str| reports.iter().filter(|report| report.craft.build.name == wanted).count() > 1;
    let each = reports.iter().zip(files).map(|(report, file)| (name(report), file));
    each.map(|(name, file)| if several(&name) { format!("{name} ({file})") } else { name }).collect()
}

/// The comparison as plain text: one paragraph a build under each heading; `files` are the names of the builds' files.
pub fn text(reports: &[&Report], files: &[String], compared: &Comparison, notes: &[String]) -> String {
    let mut page = Page::default();
    let names = names(reports, files);
    let mut block = |title: &str, each: &[String]| {
        page.heading(title);
        for (name, said) in names.iter().zip(each) {
            page.row(&[2, 34], &[name, said]);
        }
    };
    let price = |report: &&Report| report.totals.cost.iter().map(ToString::to_string).collect::<Vec<_>>().join(" + ");
    block("Left to pay", &reports.iter().map(price).collect::<Vec<_>>());
    let mass = compared.mass.iter().map(|mass| mass.map_or_else(|| "not known".to_owned(), |mass| explain::figure(&mass)));
    block("Take-off mass", &mass.collect::<Vec<_>>());
    for row in &compared.figures {
        let each = row.each.iter().map(|one| one.map_or_else(|| "not known".to_owned(), |one| explain::figure(&one)));
        block(row.figure.title, &each.collect::<Vec<_>>());
    }
    block("Against the first", &compared.changes.iter().map(fits::change).collect::<Vec<_>>());
    for row in &compared.parts {
        let said = |parts: &Vec<Listed>| {
            let each = parts.iter().map(|listed| format!("{} × {}", listed.count, listed.part.name));
            each.collect::<Vec<_>>().join(", ")
        };
        block(row.slot.title(), &row.each.iter().map(said).collect::<Vec<_>>());
    }
    for row in &compared.found {
        let title = rules::by_id(row.rule).map_or(row.rule, |rule| rule.title);
        let each = row.each.iter().map(|status| status.map_or("does not apply", Status::word).to_owned());
        block(title, &each.collect::<Vec<_>>());
    }
    for note in notes {
        page.paragraph("Note: ", note);
    }
    page.finish()
}
