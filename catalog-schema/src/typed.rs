//! What is typed into a field of a record, and how its value is shown there.
//!
//! A figure may stand in any unit that measures the same; a list parts its items by commas; a backslash before a comma makes it
//! part of a word.

mod name;
mod printed;

pub use crate::description::inner;
pub use name::{is_said_by_name, said_by_name};
pub use printed::{Several, range_shown, read_several, upper_end};

use crate::{
    description,
    part::Part,
    pattern::Pattern,
    quantity::read_figure,
    table::cell,
    validate::{Remark, field_remark, name_remark, note_remark},
    value::{Describe as _, Field, Kind, Value},
};

/// The value of a text for a field; `None` for a blank one.
///
/// ```
/// use propwright_schema::{part::Role, typed::{read, shown}, value::Field};
/// let motor = Role::of_kind("motor").unwrap();
/// let field = |name: &str| *motor.fields().iter().find(|field| field.name == name).unwrap();
/// let value = read("0.87 in", &field("stator_diameter_mm")).unwrap().unwrap();
/// assert_eq!(shown(&value), "22.098");
/// assert!(read("220 in", &field("stator_diameter_mm")).is_err()); // not plausible
/// assert_eq!(read(" ", &field("poles")), Ok(None));
/// ```
///
/// # Errors
/// What is wrong with the text, and what to do about it.
pub fn read(text: &str, field: &Field) -> Result<Option<Value>, Remark> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let value = value(text, field)?;
    let remark = match (&value, field.kind) {
        (Value::Word(word), Kind::Word) if field.name == "note" => note_remark(word),
        (Value::Word(word), Kind::Word) => name_remark(word),
        _ => field_remark(field, &value),
    };
    remark.map_or(Ok(Some(value)), Err)
}

fn value(text: &str, field: &Field) -> Result<Value, Remark> {
    let told = |fault: cell::Fault| Remark { reason: fault.reason, hint: fault.hint };
    let bare = matches!(field.kind, Kind::Number(_) | Kind::Count).then(|| printed::bare(text, field));
    let text = bare.as_deref().unwrap_or(text);
    match field.kind {
        Kind::Word if description::is_pattern(field.name) => pattern(text),
        Kind::Word if field.name == "note" => Ok(Value::Word(text.trim_end().to_owned())),
        Kind::Word => Ok(Value::Word(text.trim().to_owned())),
        // The error of a figure says by itself what would do.
        Kind::Number(unit) => read_figure(text, unit)
            .map(|steps| Value::Number { steps, unit })
            .map_err(|error| Remark { reason: error.to_string(), hint: NOT_KNOWN.to_owned() }),
        Kind::List(_) if description::is_pattern(field.name) => {
            text.split(',').filter(|word| !word.trim().is_empty()).map(pattern).collect::<Result<_, _>>().map(Value::List)
        }
        Kind::List(item) => {
            let words = cell::parted(text, ',').into_iter().filter(|word| !word.trim().is_empty());
            let items = words.map(|word| cell::one(&word, *item, None)).collect::<Result<_, _>>();
            items.map(Value::List).map_err(told)
        }
        kind => cell::one(text, kind, None).map_err(told),
    }
}

/// `16x16`, `30.5 × 30.5 mm`, or `16` for a square.
fn pattern(text: &str) -> Result<Value, Remark> {
    let plain: String = text.to_lowercase().replace("mm", "").replace(['×', '*'], "x").split_whitespace().collect();
    let square = if plain.contains('x') { plain } else { format!("{plain}x{plain}") };
    let read: Result<Pattern, _> = square.parse();
    read.map(|pattern| pattern.value()).map_err(|_| Remark {
        reason: format!("{:?} is no hole pattern", text.trim()),
        hint: "write the distances between hole centres in mm, such as 16x16 or 30.5x30.5".to_owned(),
    })
}

const NOT_KNOWN: &str = "leave it blank while it is not known";

/// The text of a value, in the unit of its field.
pub fn shown(value: &Value) -> String {
    match value {
        Value::Word(word) => word.clone(),
        Value::List(items) => items.iter().map(item).collect::<Vec<_>>().join(", "),
        other => cell::written(other),
    }
}

fn item(value: &Value) -> String {
    match value {
        Value::Word(word) => word.replace('\\', "\\\\").replace(',', "\\,"),
        other => shown(other),
    }
}

/// A figure that was typed in another unit than the field's own, as it is worth keeping; `None` for any other text.
///
/// ```
/// use propwright_schema::{part::Role, typed::in_other_unit};
/// let motor = Role::of_kind("motor").unwrap();
/// let shaft = motor.fields().iter().find(|field| field.name == "shaft_mm").unwrap();
/// assert_eq!(in_other_unit("Ø 0.2 in", shaft).as_deref(), Some("0.2 in"));
/// assert_eq!(in_other_unit("5 mm", shaft), None);
/// ```
pub fn in_other_unit(text: &str, field: &Field) -> Option<String> {
    let Kind::Number(unit) = field.kind else { return None };
    let text = printed::bare(text, field);
    let symbol = text.trim_start_matches(|letter: char| letter.is_ascii_digit() || "+-−., ".contains(letter));
    let steps = read_figure(&text, unit).ok()?;
    // Another word for the same unit is none.
    let same = read_figure(&text[..text.len() - symbol.len()], unit) == Ok(steps);
    (!symbol.is_empty() && !same).then(|| text.into_owned())
}

impl Part {
    /// The figure of a field as it was typed, if that was in another unit and still comes to the same.
    ///
    /// ```
    /// use propwright_schema::{load::load_catalogue, value::Record as _};
    /// let text = r#"(version: 1, parts: [(id: "f", name: "F", mass_g: 31.978, fills: [Frame()], typed: {"mass_g": "1.128 oz"})])"#;
    /// let part = &load_catalogue("own.ron", text).unwrap().parts[0];
    /// let mass = part.get("mass_g").unwrap();
    /// assert_eq!(part.as_typed("mass_g", &mass), Some("1.128 oz"));
    /// ```
    pub fn as_typed(&self, key: &str, value: &Value) -> Option<&str> {
        let Value::Number { steps, unit } = value else { return None };
        let text = self.typed.get(key)?;
        (read_figure(text, unit).ok()? == *steps).then_some(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::part::Role;

    fn field(kind: &str, name: &str) -> Field {
        *Role::of_kind(kind).unwrap().fields().iter().find(|field| field.name == name).unwrap()
    }

    #[test]
    fn lists_come_back_whatever_their_words_hold() {
        let hardware = field("frame", "hardware");
        let value = read("motor screws, straps,, 2 pads\\, thick", &hardware).unwrap().unwrap();
        assert_eq!(value.items().len(), 3);
        assert_eq!(read(&shown(&value), &hardware), Ok(Some(value)));
        let channels = field("video transmitter", "channels_mhz");
        assert_eq!(shown(&read("5658, 5695,5.8 GHz", &channels).unwrap().unwrap()), "5658, 5695, 5800");
    }

    #[test]
    fn a_slip_is_said_with_what_was_meant() {
        let stator = field("motor", "stator_diameter_mm");
        let remark = read("0.87", &stator).unwrap_err();
        assert_eq!(remark.reason, "0.87 mm is not plausible; expected 5 to 120 mm");
        assert_eq!(remark.hint, "did you mean 0.87 in (22.098 mm)?");
        assert!(read("22 V", &stator).unwrap_err().reason.contains("expected mm"));
        assert!(read("wide", &stator).is_err());
        assert!(read("two screwz", &field("motor", "fixing")).unwrap_err().hint.contains("two screws"));
        assert!(read("16 by 16", &field("motor", "pattern")).is_err(), "a pattern is more than a word");
        for text in ["16x16", "16 × 16 mm", "16"] {
            assert_eq!(read(text, &field("motor", "pattern")), Ok(Some(Value::Word("16x16".to_owned()))), "{text}");
        }
    }

    #[test]
    fn only_what_stands_in_another_unit_is_worth_keeping() {
        let mass = crate::description::MASS;
        for (text, other) in
            [("32", false), ("32 g", false), ("1.13 oz", true), ("0,032kg", true), ("heavy", false), ("3 V", false)]
        {
            assert_eq!(in_other_unit(text, &mass).is_some(), other, "{text}");
        }
    }
}
