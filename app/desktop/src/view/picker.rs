//! The parts that could stand in a place.

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
    /// Its id.
    pub id: String,
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
        let fitted = if self.fitted { "fitted now" } else { "" };
        let words = [self.name.as_str(), fitted, self.status.map_or("", Status::word), &self.mass, &self.price, &self.words];
        words.into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(", ")
    }
}

/// The rows of a picker: what the filter leaves, in the order of the names, parts that are no longer sold last.
pub fn candidates(catalogue: &Catalogue, document: &Document, picker: &Picker) -> Vec<Candidate> {
    let slot = picker.place.slot;
    let fitted = picker.place.line.and_then(|line| document.build.parts.get(line)).map(|fitted| fitted.part.as_str());
    let words: Vec<String> = picker.filter.to_lowercase().split_whitespace().map(str::to_owned).collect();
    let mut parts: Vec<&Part> = catalogue.for_slot(slot).map(|part| &**part).filter(|part| holds(part, &words)).collect();
    parts.sort_by_cached_key(|part| (part.retired, part.name.to_lowercase()));
    let before = document.report().map(|report| Figures::of(report));
    let rows = parts.into_iter().map(|part| {
        let trial = picker.trials.get(&part.id).and_then(Option::as_ref);
        Candidate {
            id: part.id.clone(),
            name: part.name.clone(),
            mass: part.mass_g.map_or_else(|| "? g".to_owned(), |mass| grams(mass.decimal())),
            price: part.price.map_or_else(|| "unpriced".to_owned(), |price| price.to_string()),
            status: trial.map(|trial| trial.status),
            words: words_of(part, slot, trial, before.as_ref()),
            fitted: fitted == Some(&*part.id),
        }
    });
    let stays = |row: &Candidate| !picker.only_fitting || row.fitted || row.status != Some(Status::Mismatch);
    rows.filter(stays).collect()
}

fn holds(part: &Part, words: &[String]) -> bool {
    let text = format!("{} {} {}", part.name, part.maker.as_deref().unwrap_or_default(), part.id).to_lowercase();
    words.iter().all(|word| text.contains(word))
}

fn words_of(part: &Part, slot: Slot, trial: Option<&Trial>, before: Option<&Figures>) -> String {
    let mut words = Vec::new();
    if part.retired {
        words.push("no longer sold".to_owned());
    }
    if let Some(Trial { status: Status::Mismatch, why, .. }) = trial {
        words.extend(why.first().cloned());
    } else {
        words.extend(facts(part, slot));
        words.extend(trial.zip(before).map(|(trial, before)| changes(before, &trial.figures)).unwrap_or_default());
    }
    words.join(" · ")
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

/// What the choice would change in the air, where both are known.
fn changes(before: &Figures, after: &Figures) -> Vec<String> {
    let change = |was: Option<Interval>, is: Option<Interval>, what: &str| {
        let (was, is) = (was?.decimals()[1], is?.decimals()[1]);
        let shown = explain::number((is - was).abs());
        let sign = if is < was { "−" } else { "+" };
        (shown != "0").then(|| format!("{sign}{shown} {what}"))
    };
    let calm = change(before.calm, after.calm, "min calm");
    let thrust = change(before.thrust_to_weight, after.thrust_to_weight, "thrust to weight");
    [calm, thrust].into_iter().flatten().collect()
}
