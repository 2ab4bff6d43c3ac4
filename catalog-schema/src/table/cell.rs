//! One cell: a value as a person would type it, and back.
//!
//! Lists part their items by `|`, records their fields by `;`, lists within records by `,`; a backslash before one of these
//! signs makes it part of a word. `[]` is a list of nothing.

use crate::{
    diagnostic::did_you_mean,
    quantity::{read_day, read_figure, read_money},
    value::{Describe as _, Field, Kind, Value},
};

/// Signs between items: of a list, of a record, of a list within a record.
const BETWEEN: [char; 3] = ['|', ';', ','];
/// A list of nothing.
const NOTHING: &str = "[]";

/// Why a cell cannot be read, and what to do about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Fault {
    pub(crate) reason: String,
    pub(crate) hint: String,
}

impl Fault {
    pub(super) fn new(reason: impl Into<String>, hint: impl Into<String>) -> Self {
        Self { reason: reason.into(), hint: hint.into() }
    }
}

/// A value as a cell.
pub(crate) fn written(value: &Value) -> String {
    match value {
        Value::Word(word) => word.clone(),
        other => within(other, 0),
    }
}

/// A value within `depth` signs.
fn within(value: &Value, depth: usize) -> String {
    match value {
        Value::Number { steps, unit } => unit.decimal(*steps).to_string(),
        Value::Count(count) => count.to_string(),
        Value::Flag(flag) => if *flag { "yes" } else { "no" }.to_owned(),
        Value::Word(word) => guarded(word),
        Value::List(items) if items.is_empty() => NOTHING.to_owned(),
        Value::List(items) => {
            let (sign, below) = if depth == 0 { (BETWEEN[0], 1) } else { (BETWEEN[2], 3) };
            let each: Vec<String> = items.iter().map(|item| within(item, below)).collect();
            each.join(&format!("{sign} "))
        }
        Value::Record(fields) => {
            let each: Vec<String> = fields.iter().map(|(name, value)| format!("{name}: {}", within(value, 2))).collect();
            each.join(&format!("{} ", BETWEEN[1]))
        }
    }
}

fn guarded(word: &str) -> String {
    let mut guarded = String::with_capacity(word.len());
    for letter in word.chars() {
        if letter == '\\' || BETWEEN.contains(&letter) {
            guarded.push('\\');
        }
        guarded.push(letter);
    }
    guarded
}

/// Parts a text at a sign that no backslash guards; backslashes stay.
pub(crate) fn parted(text: &str, sign: char) -> Vec<String> {
    let mut parts = vec![String::new()];
    let mut letters = text.chars();
    while let Some(letter) = letters.next() {
        if letter == sign {
            parts.push(String::new());
            continue;
        }
        if let Some(part) = parts.last_mut() {
            part.push(letter);
            if letter == '\\' {
                part.extend(letters.next());
            }
        }
    }
    parts
}

pub(super) fn unguarded(text: &str) -> String {
    let mut word = String::with_capacity(text.len());
    let mut letters = text.trim().chars();
    while let Some(letter) = letters.next() {
        word.push(if letter == '\\' { letters.next().unwrap_or('\\') } else { letter });
    }
    word
}

/// The value of a cell for a field; `unit` stands behind a bare number, as the head of the column says.
pub(super) fn read(cell: &str, field: &Field, unit: Option<&str>) -> Result<Value, Fault> {
    match field.kind {
        Kind::Word => Ok(Value::Word(cell.to_owned())),
        Kind::List(item) => list(cell, *item, BETWEEN[0], unit),
        kind => one(cell, kind, unit),
    }
}

fn list(text: &str, item: Kind, sign: char, unit: Option<&str>) -> Result<Value, Fault> {
    if text.trim() == NOTHING {
        return Ok(Value::List(Vec::new()));
    }
    let items: Result<Vec<Value>, Fault> = parted(text, sign).iter().map(|part| one(part, item, unit)).collect();
    Ok(Value::List(items?))
}

/// A value that is no list of its own.
pub(crate) fn one(text: &str, kind: Kind, unit: Option<&str>) -> Result<Value, Fault> {
    let bare = text.trim();
    match kind {
        Kind::Number(own) => {
            let text = match unit {
                Some(unit) if bare.ends_with(|letter: char| letter.is_ascii_digit()) => format!("{bare} {unit}"),
                _ => bare.to_owned(),
            };
            let steps = read_figure(&text, own).map_err(|error| {
                Fault::new(
                    format!("{bare:?} is no figure in {}: {error}", own.symbol),
                    format!("write a number such as 12.5 {}", own.symbol),
                )
            })?;
            Ok(Value::Number { steps, unit: own })
        }
        Kind::Count => {
            let count: Option<u32> = bare.parse().ok().or_else(|| bare.strip_suffix(".0").and_then(|whole| whole.parse().ok()));
            count
                .map(|count| Value::Count(i64::from(count)))
                .ok_or_else(|| Fault::new(format!("{bare:?} is no count"), "write a whole number without a unit, such as 4"))
        }
        Kind::Flag => flag(bare),
        Kind::Word => Ok(Value::Word(unguarded(text))),
        Kind::Money => price(&unguarded(text)),
        Kind::Day => read_day(bare).map(|day| day.value()).ok_or_else(|| {
            Fault::new(
                format!("{bare:?} is no day that can be read in one way only"),
                "write year, month, day, such as 2026-08-14",
            )
        }),
        Kind::Choice(words) => choice(bare, words),
        Kind::List(item) => list(text, *item, BETWEEN[2], unit),
        Kind::Record(fields) => record(text, fields),
    }
}

fn price(text: &str) -> Result<Value, Fault> {
    let read = read_money(text).map(|money| money.value());
    read.ok_or_else(|| Fault::new(format!("{text:?} is no price"), "write amount and currency, such as 17.90 EUR"))
}

fn flag(text: &str) -> Result<Value, Fault> {
    match text.to_lowercase().as_str() {
        "yes" | "y" | "true" | "1" | "x" => Ok(Value::Flag(true)),
        "no" | "n" | "false" | "0" => Ok(Value::Flag(false)),
        _ => Err(Fault::new(format!("{text:?} is neither yes nor no"), "write yes or no; leave it empty when nobody says")),
    }
}

/// Letters and figures in lower case: `TwoScrews` and `two screws` are one word.
fn plain(word: &str) -> String {
    word.chars().filter(|letter| letter.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

fn choice(text: &str, words: &'static [&'static str]) -> Result<Value, Fault> {
    if let Some(word) = words.iter().find(|word| plain(word) == plain(text)) {
        return Ok(Value::Word((*word).to_owned()));
    }
    let hint = did_you_mean(text, words.iter().copied())
        .map_or_else(|| format!("write one of: {}", words.join(", ")), |meant| format!("did you mean {meant}?"));
    Err(Fault::new(format!("{text:?} is none of the words of this field"), hint))
}

fn record(text: &str, fields: &'static [Field]) -> Result<Value, Fault> {
    let mut values = Vec::new();
    for part in parted(text, BETWEEN[1]).iter().filter(|part| !part.trim().is_empty()) {
        let names = || fields.iter().map(|field| field.name);
        let all = || names().collect::<Vec<_>>().join(", ");
        let (name, rest) = part.split_once(':').ok_or_else(|| {
            Fault::new(format!("{:?} says no field", part.trim()), format!("write field: value; the fields are {}", all()))
        })?;
        let name = name.trim();
        let field = fields.iter().find(|field| field.name == name).ok_or_else(|| {
            let hint = did_you_mean(name, names())
                .map_or_else(|| format!("the fields are {}", all()), |meant| format!("did you mean {meant}?"));
            Fault::new(format!("there is no field {name:?} within"), hint)
        })?;
        values.push((field.name, one(rest, field.kind, None)?));
    }
    Ok(Value::Record(values))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        part::Role,
        quantity::{G, Unit},
    };

    const MASS: Field = Field { name: "mass_g", about: "", kind: Kind::Number(&G::INFO), plausible: None };

    #[test]
    fn figures_are_read_as_spreadsheets_write_them() {
        let steps = |cell: &str, unit: Option<&str>| read(cell, &MASS, unit).map(|value| value.steps().unwrap());
        assert_eq!(steps("31.9", None), Ok(31_900));
        assert_eq!(steps(" 31,9 g ", None), Ok(31_900));
        // 1 oz = 28.349523125 g (NIST SP 811, B.8).
        assert_eq!(steps("1", Some("oz")), Ok(28_350));
        assert_eq!(steps("2 g", Some("oz")), Ok(2_000));
        assert!(steps("heavy", None).unwrap_err().reason.contains("heavy"));
    }

    #[test]
    fn every_kind_of_field_comes_back() {
        let role = Role::of_kind("flight controller").unwrap();
        let field = |name: &str| *role.fields().iter().find(|field| field.name == name).unwrap();
        for (name, cell) in [
            ("uarts", "number: 1; rx: yes; tx: no| number: 2; taken: yes"),
            ("plugs", "to: esc; plug: 1 mm, 8 pin; pins: VBAT, GND, a\\,b\\;c\\|d\\\\e| to: gps; pins: []"),
            ("protocols", "digital 300| digital 600"),
            ("i2c", "yes"),
            ("protocols", "[]"),
        ] {
            let cell = if name == "plugs" { cell.replace("1 mm, 8", "1 mm\\, 8") } else { cell.to_owned() };
            let value = read(&cell, &field(name), None).unwrap();
            assert_eq!(written(&value), cell, "{name}");
            assert_eq!(read(&written(&value), &field(name), None).unwrap(), value, "{name}");
        }
    }

    #[test]
    fn a_mistyped_word_is_guessed() {
        let role = Role::of_kind("motor").unwrap();
        let field = role.fields().iter().find(|field| field.name == "fixing").unwrap();
        assert_eq!(read("TwoScrews", field, None), Ok(Value::Word("two screws".to_owned())));
        assert!(read("two screwz", field, None).unwrap_err().hint.contains("two screws"));
        assert!(read("glue", field, None).unwrap_err().hint.contains("press fit"));
    }
}
