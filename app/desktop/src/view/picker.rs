//! The parts that could stand in a place.

use std::sync::Arc;

use propwright_engine::{
    explain,
    finding::Status,
    fit::{Change, Delta, Replacement, Way},
};
use propwright_paper::fits;
use propwright_schema::{catalogue::Catalogue, part::Part, slot::Slot, value::Kind};

use super::parts::grams;
use crate::{
    fitting::Fit,
    state::{Document, Picker, Work},
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
    /// How it goes with the rest; absent while that is not known.
    pub status: Option<Status>,
    /// Why it does not fit; else what it would change, or what tells it from others.
    pub words: String,
    /// All that is known of it, a line each.
    pub more: String,
    /// Is it the one that is fitted?
    pub fitted: bool,
    /// Is it set beside others?
    pub beside: bool,
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
        let mismatch = || picker.found.get(&part.id).is_some_and(|fit| fit.status == Status::Mismatch);
        !picker.only_fitting || fitted == Some(&*part.id) || !mismatch()
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

/// One row of a picker.
pub fn candidate(part: &Part, document: &Document, picker: &Picker) -> Candidate {
    let fit = picker.found.get(&part.id);
    let fitted = fitted(document, picker) == Some(&*part.id);
    let facts = facts(part, picker.place.slot).join(" · ");
    let why = fit.iter().flat_map(|fit| &fit.why).map(|(status, why)| format!("{}: {why}", status.word()));
    let change = fit.filter(|_| !fitted).map(|fit| minus(&fits::change(&fit.change)));
    let more = [part.name.clone(), facts.clone()].into_iter().chain(change).chain(why);
    Candidate {
        name: part.name.clone(),
        mass: part.mass_g.map_or_else(|| "? g".to_owned(), |mass| grams(mass.decimal())),
        price: part.price.map_or_else(|| "unpriced".to_owned(), |price| price.to_string()),
        status: fit.map(|fit| fit.status),
        words: words_of(part, fitted, fit, &facts, picker.work),
        more: more.filter(|line| !line.is_empty()).collect::<Vec<_>>().join("\n"),
        fitted,
        beside: picker.beside.iter().any(|beside| beside.part.id == part.id),
    }
}

/// Does a part's name, maker or id hold all the words? They are in lower case.
fn holds(part: &Part, words: &[String]) -> bool {
    if words.is_empty() {
        return true;
    }
    let text = format!("{} {} {}", part.name, part.maker.as_deref().unwrap_or_default(), part.id).to_lowercase();
    words.iter().all(|word| text.contains(word))
}

fn words_of(part: &Part, fitted: bool, fit: Option<&Fit>, facts: &str, work: Work) -> String {
    let mut words = Vec::new();
    if fitted {
        words.push("fitted".to_owned());
    }
    if part.retired {
        words.push("no longer sold".to_owned());
    }
    match fit {
        None => {
            let working = matches!(work, Work::Idle | Work::Going { .. });
            words.push(if working { "working…".to_owned() } else { "not judged".to_owned() });
            words.push(facts.to_owned());
        }
        Some(fit) if fit.status == Status::Mismatch => {
            words.extend(fit.why.first().map(|(_, why)| without_name(why, &part.name)));
        }
        Some(_) if fitted => words.push(facts.to_owned()),
        Some(fit) => {
            words.push(Some(change_words(&fit.change)).filter(|words| !words.is_empty()).unwrap_or_else(|| facts.to_owned()));
        }
    }
    words.retain(|word| !word.is_empty());
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

/// The figures of a change that a row has room for, in a word each.
const SHORT: [(&str, &str); 3] = [("calm_min", "calm"), ("thrust_to_weight", "T/W"), ("top_speed_kmh", "top")];

/// What the choice would change: mass and flight with their bands, "none" for what is smaller than its band.
pub fn change_words(change: &Change) -> String {
    let told = |word: &str, delta: Option<Delta>| {
        let delta = delta?;
        Some(if delta.none {
            (true, format!("{word} none"))
        } else {
            (false, format!("{word} {}", minus(&fits::delta_words(&delta.by))))
        })
    };
    let figure = |(key, word): (&str, &str)| told(word, change.each().find(|(figure, _)| figure.key == key)?.1);
    let all: Vec<(bool, String)> = told("mass", change.mass).into_iter().chain(SHORT.into_iter().filter_map(figure)).collect();
    if !all.is_empty() && all.iter().all(|(none, _)| *none) {
        return "no change beyond the bands".to_owned();
    }
    all.into_iter().map(|(_, words)| words).collect::<Vec<_>>().join(" · ")
}

/// All that a choice would change, with bands; what is smaller than its band is left out.
pub fn all_change_words(change: &Change) -> String {
    minus(&fits::change(change))
}

/// A way to put a part in, by a name: "4 × Quernby 2207 1750 KV".
pub fn way_name(found: &Replacement, way: &Way) -> String {
    let is_one = found.one.as_ref().is_some_and(|one| std::ptr::eq(one, way));
    match way.buy.count {
        _ if is_one => format!("one {}", found.part.name),
        1 => found.part.name.clone(),
        count => format!("{count} × {}", found.part.name),
    }
}

/// The minus sign of a printed figure in place of the hyphen of plain text.
pub(super) fn minus(text: &str) -> String {
    text.replace(" -", " −").replace("(-", "(−")
}
