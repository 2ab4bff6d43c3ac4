//! The parts that could stand in a place.

use std::sync::Arc;

use propwright_engine::{explain, finding::Status, interval::Interval};
use propwright_schema::{catalogue::Catalogue, part::Part, slot::Slot, value::Kind};

use super::{ledger::Figures, parts::grams};
use crate::{
    state::{Document, Picker},
    trial::Trial,
};

/// One part that could be chosen.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Its name.
    pub name: String,
    /// Its mass: "14 g".
    pub mass: String,
    /// Its price.
    pub price: String,
    /// What came of trying it; absent while that is not known.
    pub status: Option<Status>,
    /// Why it does not fit; else what tells it from others and what it would change.
    pub words: String,
    /// Is it the one that is fitted?
    pub fitted: bool,
}

impl Candidate {
    /// The row as it is read out.
    pub fn spoken(&self) -> String {
        let words = [self.name.as_str(), self.status.map_or("", Status::word), &self.mass, &self.price, &self.words];
        words.into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(", ")
    }
}

/// The parts of a picker: what the filter leaves, in the order of the names, those that are no longer sold last.
pub fn choices(catalogue: &Catalogue, document: &Document, picker: &Picker) -> Vec<Arc<Part>> {
    let fitted = fitted(document, picker);
    let words: Vec<String> = picker.filter.to_lowercase().split_whitespace().map(str::to_owned).collect();
    let fits = |part: &Part| {
        let known = picker.trials.get(&part.id).and_then(Option::as_ref);
        let mismatch = known.is_some_and(|trial| trial.status == Status::Mismatch);
        !picker.only_fitting || !mismatch || fitted == Some(&*part.id)
    };
    let all = catalogue.for_slot(picker.place.slot);
    let mut parts: Vec<Arc<Part>> = all.filter(|part| holds(part, &words) && fits(part)).cloned().collect();
    parts.sort_by_cached_key(|part| (part.retired, part.name.to_lowercase()));
    parts
}

fn fitted<'d>(document: &'d Document, picker: &Picker) -> Option<&'d str> {
    let line = picker.place.line.and_then(|line| document.build.parts.get(line));
    line.map(|fitted| fitted.part.as_str())
}

/// One row of a picker; `before` holds the figures of the list as it is.
pub fn candidate(part: &Part, document: &Document, picker: &Picker, before: Option<&Figures>) -> Candidate {
    let trial = picker.trials.get(&part.id).and_then(Option::as_ref);
    let fitted = fitted(document, picker) == Some(&*part.id);
    Candidate {
        name: part.name.clone(),
        mass: part.mass_g.map_or_else(|| "? g".to_owned(), |mass| grams(mass.decimal())),
        price: part.price.map_or_else(|| "unpriced".to_owned(), |price| price.to_string()),
        status: trial.map(|trial| trial.status),
        words: words_of(part, picker.place.slot, fitted, trial, before),
        fitted,
    }
}

fn holds(part: &Part, words: &[String]) -> bool {
    let text = format!("{} {} {}", part.name, part.maker.as_deref().unwrap_or_default(), part.id).to_lowercase();
    words.iter().all(|word| text.contains(word))
}

fn words_of(part: &Part, slot: Slot, fitted: bool, trial: Option<&Trial>, before: Option<&Figures>) -> String {
    let mut words = Vec::new();
    if fitted {
        words.push("fitted".to_owned());
    }
    if part.retired {
        words.push("no longer sold".to_owned());
    }
    if let Some(Trial { status: Status::Mismatch, why, .. }) = trial {
        words.extend(why.first().map(|why| without_name(why, &part.name)));
    } else {
        words.extend(facts(part, slot));
        words.extend(trial.zip(before).map(|(trial, before)| changes(before, &trial.figures)).unwrap_or_default());
    }
    words.join(" · ")
}

/// The row says the part's name already: "has its holes at 25.5 mm".
fn without_name(why: &str, name: &str) -> String {
    let short = why.strip_prefix("The ").and_then(|rest| rest.strip_prefix(name)).map(str::trim_start);
    short.filter(|short| short.starts_with(char::is_lowercase)).unwrap_or(why).to_owned()
}

/// How many figures of a record tell a part from others in a row.
const TOLD: usize = 3;

/// The first figures and choices of its record.
fn facts(part: &Part, slot: Slot) -> Vec<String> {
    let Some(role) = part.role(slot) else { return Vec::new() };
    let told = role.fields().iter().filter(|field| matches!(field.kind, Kind::Number(_) | Kind::Count | Kind::Choice(_)));
    let values = told.filter_map(|field| Some((field, role.get(field.name)?)));
    let words = values.take(TOLD).map(|(field, value)| match field.kind {
        Kind::Count => format!("{} {}", explain::value(&value), explain::field_words(field.name)),
        _ => explain::value(&value),
    });
    words.collect()
}

/// What the choice would change in the air, where both are known and the change is worth a word.
fn changes(before: &Figures, after: &Figures) -> Vec<String> {
    let change = |was: Option<Interval>, is: Option<Interval>| {
        let difference = is?.decimals()[1] - was?.decimals()[1];
        let sign = if difference < 0.0 { "−" } else { "+" };
        (difference.abs() >= WORTH_A_WORD).then(|| format!("{sign}{:.1}", difference.abs()))
    };
    let calm = change(before.calm, after.calm).map(|change| format!("{change} min"));
    let thrust = change(before.thrust_to_weight, after.thrust_to_weight).map(|change| format!("T/W {change}"));
    [calm, thrust].into_iter().flatten().collect()
}

/// Below half a tenth a change is shown as none.
const WORTH_A_WORD: f64 = 0.05;
