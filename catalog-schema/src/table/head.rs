//! The head of a table: which column holds which field, guessed from its words.

use super::{ARTICLE, CONTENTS, KIND, KIT};
use crate::{diagnostic::did_you_mean, part::Role, quantity::UNITS};

/// Which field each column holds, and the unit that its head names.
#[derive(Debug, Clone, PartialEq, Eq, Default, serde::Serialize, serde::Deserialize)]
pub struct Mapping {
    /// Field of each column; `None` leaves the column out.
    pub fields: Vec<Option<String>>,
    /// Unit that stands behind the bare numbers of each column.
    pub units: Vec<Option<String>>,
    /// Kind of the rows where no column says it.
    pub kind: Option<String>,
}

impl Mapping {
    /// Gives the column with this head another field; `false` when there is no such column or field.
    pub fn set(&mut self, head: &[String], column: &str, field: &str) -> bool {
        let Some(at) = head.iter().position(|known| known.trim() == column.trim()) else { return false };
        let known = fields().any(|known| known == field);
        if (known || field.is_empty()) && at < self.fields.len() {
            self.fields[at] = (!field.is_empty()).then(|| field.to_owned());
        }
        known || field.is_empty()
    }

    /// The first field that two columns claim.
    pub fn twice(&self) -> Option<&str> {
        let named: Vec<&String> = self.fields.iter().flatten().collect();
        let again = |(at, field): &(usize, &&String)| named[..*at].contains(field);
        named.iter().enumerate().find(again).map(|(_, field)| field.as_str())
    }

    /// Place of the column that holds a field.
    pub(super) fn column(&self, field: &str) -> Option<usize> {
        self.fields.iter().position(|known| known.as_deref() == Some(field))
    }
}

/// Every field that a column can hold.
pub(super) fn fields() -> impl Iterator<Item = &'static str> {
    let roles = Role::KINDS.iter().flat_map(|(_, fields)| fields.iter().map(|field| field.name));
    std::iter::once(KIND).chain(ARTICLE).chain(roles)
}

/// The fields that a column can hold, each once: those of rows of one kind, or of all.
///
/// ```
/// use propwright_schema::table::columns;
/// let motor = columns(Some("motor"));
/// assert!(motor.contains(&"kv_rpm_per_v") && !motor.contains(&"capacity_mah"));
/// ```
pub fn columns(kind: Option<&str>) -> Vec<&'static str> {
    let of_kind = |role: Role| role.fields().iter().map(|field| field.name).collect::<Vec<_>>();
    let roles = match kind {
        Some(KIT) => Vec::new(),
        Some(kind) => Role::of_kind(kind).map(of_kind).unwrap_or_default(),
        None => fields().collect(),
    };
    let article = ARTICLE.into_iter().filter(|field| *field != CONTENTS || kind.is_none_or(|kind| kind == KIT));
    let mut known = Vec::new();
    for field in std::iter::once(KIND).chain(article).chain(roles) {
        if !known.contains(&field) {
            known.push(field);
        }
    }
    known
}

/// What shops and builders call a field; in letters and figures alone.
const SAID: [(&str, &str); 33] = [
    ("weight", "mass_g"),
    ("mass", "mass_g"),
    ("title", "name"),
    ("item", "name"),
    ("product", "name"),
    ("model", "name"),
    ("sku", "id"),
    ("article", "id"),
    ("code", "id"),
    ("brand", "maker"),
    ("manufacturer", "maker"),
    ("type", KIND),
    ("category", KIND),
    ("cost", "price"),
    ("vendor", "supplier"),
    ("shop", "supplier"),
    ("store", "supplier"),
    ("url", "link"),
    ("address", "link"),
    ("date", "priced_on"),
    ("pack", "pieces"),
    ("packsize", "pieces"),
    ("remark", "note"),
    ("comment", "note"),
    ("kv", "kv_rpm_per_v"),
    ("idlecurrent", "no_load_current_a"),
    ("maxcurrent", "current_burst_a"),
    ("peakcurrent", "current_burst_a"),
    ("internalresistance", "resistance_mohm"),
    ("capacity", "capacity_mah"),
    ("magnets", "poles"),
    ("shaft", "shaft_mm"),
    ("lipo", "cells"),
];

/// Guesses the mapping of a head.
///
/// ```
/// use propwright_schema::table::guess;
/// let head = ["Weight (oz)", "KV", "stator diameter", "Colour"].map(str::to_owned);
/// let mapping = guess(&head);
/// let fields: Vec<_> = mapping.fields.iter().map(Option::as_deref).collect();
/// assert_eq!(fields, [Some("mass_g"), Some("kv_rpm_per_v"), Some("stator_diameter_mm"), None]);
/// assert_eq!(mapping.units[0].as_deref(), Some("oz"));
/// ```
pub fn guess(head: &[String]) -> Mapping {
    let all: Vec<&'static str> = fields().collect();
    guess_among(head, &all, &SAID)
}

/// The same where columns hold these fields, or what people call them.
pub(super) fn guess_among(head: &[String], fields: &[&'static str], said: &[(&str, &'static str)]) -> Mapping {
    let mut mapping = Mapping::default();
    for column in head {
        let (words, unit) = with_unit(column.trim().trim_start_matches('\u{feff}'));
        let field = field_of(words, fields, said).filter(|field| !mapping.fields.iter().flatten().any(|known| known == field));
        mapping.fields.push(field.map(str::to_owned));
        mapping.units.push(unit.map(str::to_owned));
    }
    mapping
}

/// `Weight (oz)` and `Weight [oz]` name a unit.
fn with_unit(head: &str) -> (&str, Option<&str>) {
    for [open, close] in [['(', ')'], ['[', ']']] {
        if let Some((words, unit)) = head.strip_suffix(close).and_then(|rest| rest.rsplit_once(open)) {
            return (words.trim(), Some(unit.trim()).filter(|unit| !unit.is_empty()));
        }
    }
    (head, None)
}

fn plain(words: &str) -> String {
    words.chars().filter(|letter| letter.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

/// A field's name without the unit at its end.
fn without_unit(field: &str) -> &str {
    let endings = UNITS.iter().map(|unit| unit.suffix).filter(|ending| field.ends_with(ending));
    endings.max_by_key(|ending| ending.len()).map_or(field, |ending| &field[..field.len() - ending.len()])
}

fn field_of(words: &str, fields: &[&'static str], said: &[(&str, &'static str)]) -> Option<&'static str> {
    let wanted = plain(words);
    if wanted.is_empty() {
        return None;
    }
    let find = |same: &dyn Fn(&str) -> bool| fields.iter().copied().find(|field| same(field));
    let exact = find(&|field| plain(field) == wanted);
    let said = || said.iter().find(|(said, _)| *said == wanted).map(|(_, field)| *field);
    let bare = || find(&|field| plain(without_unit(field)) == wanted);
    let near = || {
        let spoken: Vec<(String, &'static str)> =
            fields.iter().map(|field| (without_unit(field).replace('_', " "), *field)).collect();
        let meant = did_you_mean(&words.to_lowercase(), spoken.iter().map(|(words, _)| words.as_str()))?.to_owned();
        spoken.iter().find(|(words, _)| *words == meant).map(|(_, field)| *field)
    };
    exact.or_else(said).or_else(bare).or_else(|| if wanted.len() > 4 { near() } else { None })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn field_of(words: &str) -> Option<&'static str> {
        super::field_of(words, &fields().collect::<Vec<_>>(), &SAID)
    }

    #[test]
    fn a_written_head_is_read_as_it_is() {
        let head: Vec<String> = fields().map(str::to_owned).collect();
        for (column, field) in head.iter().zip(guess(&head).fields) {
            // A name that several kinds share is one column.
            assert!(field.is_none_or(|field| field == *column), "{column}");
        }
    }

    #[test]
    fn what_people_call_a_field_is_known() {
        for (said, field) in SAID {
            assert!(fields().any(|known| known == field), "{said} leads to {field}");
            assert_eq!(field_of(said), Some(field));
        }
        assert_eq!(field_of("Stator heigth"), Some("stator_height_mm"));
        assert_eq!(field_of("Colour"), None);
        assert_eq!(field_of(""), None);
    }

    #[test]
    fn two_columns_for_one_field_are_noticed() {
        let head = ["Weight", "Mass"].map(str::to_owned);
        let mut mapping = guess(&head);
        assert_eq!(mapping.fields, [Some("mass_g".to_owned()), None]);
        assert!(mapping.set(&head, "Mass", "mass_g"));
        assert_eq!(mapping.twice(), Some("mass_g"));
        assert!(!mapping.set(&head, "Mass", "weight"));
        assert!(!mapping.set(&head, "Colour", "name"));
    }
}
