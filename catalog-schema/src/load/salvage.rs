//! Reading one record alone: each fault is noted, its field blanked, and the record read again, so that all faults show.

use std::{collections::BTreeMap, ops::Range};

use ron::error::SpannedError;
use serde::de::DeserializeOwned;

use super::{
    fault::Fault,
    place::{Places, offset},
    wording,
};
use crate::{
    outline::{self, Child},
    ron_options,
    validate::{Issue, Step},
};

/// Faults told of one record; a record with more is told these first.
const MOST_FAULTS: usize = 32;
/// Brackets within brackets that are followed to a field; the records need five.
const DEEPEST: usize = 8;

/// Adds the faults of each record in the list `list`; `id` is the field that names a record, `check` finds what is wrong with
/// one that was read.
pub(super) fn records<T: DeserializeOwned>(
    text: &str,
    list: &str,
    id: &str,
    check: fn(&T) -> Vec<Issue>,
    faults: &mut Vec<Fault>,
) {
    for span in spans(text, list) {
        let name = id_of(text, span.clone(), id).map(|(name, _)| name.to_owned());
        let found = salvage(text[span.clone()].to_owned(), check).into_iter();
        faults.extend(found.map(|fault| Fault { at: fault.at + span.start, part: name.clone(), in_record: true, ..fault }));
    }
}

/// The faults of the fields around the records: of the whole text with the insides of `lists` blanked.
pub(super) fn header<T: DeserializeOwned>(text: &str, lists: &[&str], check: fn(&T) -> Vec<Issue>) -> Vec<Fault> {
    let mut masked = text.to_owned();
    for list in lists {
        let list = outline::field(text, outline::root(text), list);
        if let Some(mut inside) = list.and_then(|list| outline::children(text, list.value)) {
            let open = inside.open;
            blank(&mut masked, open..inside.finish());
        }
    }
    salvage(masked, check)
}

/// The records of the list `list` whose id stands in the list before.
pub(super) fn repeated(text: &str, list: &str, places: &Places<'_>) -> Vec<Fault> {
    let mut first: BTreeMap<&str, usize> = BTreeMap::new();
    let mut faults = Vec::new();
    for span in spans(text, list) {
        let Some((id, at)) = id_of(text, span, "id") else { continue };
        let Some(before) = first.get(id) else {
            first.insert(id, at);
            continue;
        };
        let line = places.line_and_column(*before).0;
        let hint = format!("it stands in line {line} too; give one of the two another id, or remove it");
        let fault = Fault::new(at, format!("the id \"{id}\" stands here a second time"), Some(hint));
        faults.push(Fault { part: Some(id.to_owned()), field: Some("id".to_owned()), in_record: true, ..fault });
    }
    faults
}

/// The places of the records in the list `list`.
fn spans(text: &str, list: &str) -> Vec<Range<usize>> {
    let Some(list) = outline::field(text, outline::root(text), list) else { return Vec::new() };
    let items = outline::items(text, list.value).into_iter();
    items.map(|item| item.start()..item.value.end).collect()
}

/// The fault that an issue of the value at `span` is.
pub(super) fn of_issue(text: &str, span: Range<usize>, issue: &Issue) -> Fault {
    let (mut span, mut keys) = (span, Vec::new());
    for step in &issue.path {
        let mut children = outline::children(text, span.clone()).into_iter().flatten();
        let child = match step {
            Step::Key(key) => {
                keys.push(key.clone());
                children.find(|child| child.key_text(text) == Some(key))
            }
            Step::Item(at) => children.nth(*at),
        };
        span = child.map_or(span, |child| child.value);
    }
    let fault = Fault::new(span.start, issue.reason.clone(), Some(issue.hint.clone()));
    Fault { field: field_of(&keys), ..fault }
}

/// The fault of a text that could not be read as a whole, although each of its records could.
pub(super) fn whole(text: &str, error: &SpannedError) -> Fault {
    wording::fault(text, &Spot::find(text, error), &error.code)
}

/// The id of the record at `span` and its place, where it has one that can be read.
fn id_of<'t>(text: &'t str, span: Range<usize>, id: &str) -> Option<(&'t str, usize)> {
    let value = outline::field(text, span, id)?.value;
    let inner = text[value.clone()].strip_prefix('"')?.strip_suffix('"')?;
    (!inner.is_empty() && inner.len() <= 200).then_some((inner, value.start))
}

fn salvage<T: DeserializeOwned>(text: String, check: fn(&T) -> Vec<Issue>) -> Vec<Fault> {
    let mut masked = text;
    let mut faults: Vec<Fault> = Vec::new();
    let mut blanked: Vec<String> = Vec::new();
    for _ in 0..MOST_FAULTS {
        let error = match ron_options().from_str(&masked) {
            Ok(value) => {
                faults.extend(issues(&masked, check(&value), &blanked));
                break;
            }
            Err(error) => error,
        };
        let spot = Spot::find(&masked, &error);
        let absent = missing(&error);
        let torn = faults.iter().any(|fault| fault.torn);
        if !absent.is_some_and(|field| torn || blanked.iter().any(|key| key == field)) {
            faults.push(wording::fault(&masked, &spot, &error.code));
        }
        let cut_off = spot.at >= masked.trim_end().len();
        let went_on = match (spot.child, absent) {
            (Some(child), _) if !cut_off => {
                blanked.extend(spot.keys);
                blank(&mut masked, child.start()..child.comma.map_or(child.value.end, |comma| comma + 1))
            }
            (None, Some(field)) => {
                blanked.push(field.to_owned());
                fill(&mut masked, field)
            }
            _ => false,
        };
        if !went_on {
            break;
        }
    }
    faults
}

/// Puts a sound value for a field that is missing, or was blanked, behind all others; tells whether that was possible.
fn fill(text: &mut String, field: &str) -> bool {
    let value = match field {
        "id" | "name" | "part" => "\"x\"",
        "fills" | "contents" | "parts" => "[]",
        "slot" => "Frame",
        "version" | "count" => "1",
        "price" => "\"1 EUR\"",
        "from" | "to" => "\"AAA\"",
        "rate" => "\"1\"",
        "on" => "\"2000-01-01\"",
        _ => return false,
    };
    let Some(mut inside) = outline::children(text, outline::root(text)) else { return false };
    let comma = if inside.by_ref().last().is_none_or(|last| last.comma.is_some()) { "" } else { "," };
    let close = inside.finish();
    text.insert_str(close, &format!("{comma}{field}:{value}"));
    true
}

const fn missing(error: &SpannedError) -> Option<&'static str> {
    match error.code {
        ron::Error::MissingStructField { field, .. } => Some(field),
        _ => None,
    }
}

/// The faults that the issues of a record are, but for those of a list that lost an item to the blanks.
fn issues(text: &str, issues: Vec<Issue>, blanked: &[String]) -> Vec<Fault> {
    let lost = |issue: &Issue| matches!(issue.path.as_slice(), [Step::Key(key)] if blanked.contains(key));
    let kept = issues.into_iter().filter(|issue| !lost(issue));
    kept.map(|issue| of_issue(text, outline::root(text), &issue)).collect()
}

/// Puts spaces in place of a stretch, line ends kept; tells whether anything was there.
fn blank(text: &mut String, stretch: Range<usize>) -> bool {
    let kept: String = text[stretch.clone()].bytes().map(|byte| if byte == b'\n' { '\n' } else { ' ' }).collect();
    let something = kept != text[stretch.clone()];
    text.replace_range(stretch, &kept);
    something
}

/// Where an error stands: the fields on the way to it and the innermost field or item.
pub(super) struct Spot {
    /// Place of the parser.
    pub(super) at: usize,
    /// Start of the bracket around.
    pub(super) around: usize,
    /// Keys from the outermost bracket on.
    pub(super) keys: Vec<String>,
    /// Word before the innermost bracket that has one, such as `Motor`.
    pub(super) head: Option<String>,
    /// The innermost field or item.
    pub(super) child: Option<Child>,
    /// The item before it, for a figure torn apart by a comma.
    pub(super) before: Option<Child>,
}

impl Spot {
    /// The way to the place of an error. A missing field belongs to the bracket that ends there, all else to what stands there.
    fn find(text: &str, error: &SpannedError) -> Self {
        let at = offset(text, error.span.end);
        let reach = if missing(error).is_some() { at + 1 } else { at };
        let mut span = outline::root(text);
        let mut spot = Self { at, around: span.start, keys: Vec::new(), head: None, child: None, before: None };
        for _ in 0..DEEPEST {
            let Some(children) = outline::children(text, span.clone()).filter(|children| children.open <= at) else { break };
            if !children.head.is_empty() {
                spot.head = Some(text[children.head.clone()].to_owned());
            }
            let mut before = None;
            let mut reached = None;
            for child in children {
                if reach <= child.value.end {
                    reached = Some(child).filter(|child| child.start() <= at);
                    break;
                }
                before = Some(child);
            }
            let Some(child) = reached else { break };
            spot.keys.extend(child.key_text(text).map(str::to_owned));
            span = child.value.clone();
            spot.around = span.start;
            (spot.child, spot.before) = (Some(child), before);
        }
        spot
    }

    /// The field by its name, inner records behind a dot.
    pub(super) fn field(&self) -> Option<String> {
        field_of(&self.keys)
    }
}

fn field_of(keys: &[String]) -> Option<String> {
    let inner =
        |key: &&str| keys.len() == 1 || !matches!(*key, "estimates" | "fills" | "parts" | "kits" | "spares" | "items" | "rates");
    let keys: Vec<&str> = keys.iter().map(String::as_str).filter(inner).collect();
    (!keys.is_empty()).then(|| keys.join("."))
}
