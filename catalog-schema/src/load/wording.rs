//! A parser's error in the words of a builder, with a hint.

use ron::Error;

use super::{fault::Fault, salvage::Spot};
use crate::{
    description,
    diagnostic::did_you_mean,
    part::Role,
    quantity::UnitInfo,
    rates::Factor,
    validate,
    value::{Field, Kind},
};

/// The fault that an error at a spot is.
pub(super) fn fault(text: &str, spot: &Spot, error: &Error) -> Fault {
    let value = spot.child.as_ref().map_or("", |child| &text[child.value.clone()]);
    let start = spot.child.as_ref().map_or(spot.at, |child| child.value.start);
    let key = spot.child.as_ref().map_or(spot.at, crate::outline::Child::start);
    let (at, reason, hint) = match error {
        Error::NoSuchStructField { expected, found, .. } => {
            (key, format!("there is no field \"{found}\" here"), no_field(found, expected))
        }
        Error::NoSuchEnumVariant { expected, found, .. } => {
            (start, format!("\"{found}\" is none of the words here"), one_of(found, expected))
        }
        Error::MissingStructField { field, .. } => {
            let reason = format!("the field \"{field}\" is missing");
            return Fault { field: Some(with(spot, field)), ..Fault::new(spot.around, reason, Some(missing_hint(field))) };
        }
        Error::DuplicateStructField { field, .. } => {
            (key, format!("the field \"{field}\" stands here a second time"), "keep one of the two".to_owned())
        }
        Error::ExceededRecursionLimit => {
            (start, "brackets are nested too deep".to_owned(), "no record needs more than six levels".to_owned())
        }
        Error::ExpectedDifferentLength { expected, found } => {
            (start, format!("expected {expected}, found {found} items"), expectation(spot, value))
        }
        Error::InvalidValueForType { .. } | Error::Message(_) => {
            let reason = format!("{}, found {}", plain(error), shown(value));
            (start, reason, expectation(spot, value))
        }
        Error::ExpectedComma if value.parse::<f64>().is_ok() && (start + 1..start + value.len()).contains(&spot.at) => {
            let reason = format!("{}, found {value}", plain(&Error::ExpectedInteger));
            (start, reason, expectation(spot, value))
        }
        _ if is_value(error) && !value.is_empty() => {
            (start, format!("{}, found {}", plain(error), shown(value)), expectation(spot, value))
        }
        _ => return torn(text, spot, error),
    };
    Fault { field: spot.field(), ..Fault::new(at, reason, Some(hint)) }
}

/// An error of brackets, commas and quotes: what follows may be misread.
fn torn(text: &str, spot: &Spot, error: &Error) -> Fault {
    let mut field = spot.field();
    let rest = text[spot.at..].trim_start_matches(crate::outline::is_space);
    let (reason, hint) = if text.trim().is_empty() {
        let hint = "a catalogue starts with (version: 1, parts: [ and a build list with (version: 1, name: \"…\", parts: [";
        ("the file is empty".to_owned(), hint.to_owned())
    } else if rest.is_empty() {
        let reason = "the text ends here, before its brackets and quotes are closed".to_owned();
        (reason, "the file may be cut off; close every ( [ { and \"".to_owned())
    } else if let Some((key, whole, rest)) = comma_figure(text, spot) {
        field = Some(key.clone());
        (format!("{whole},{rest} is no number"), format!("write decimals with a point: {key}: {whole}.{rest}"))
    } else {
        let found: String = rest.chars().take(1).flat_map(char::escape_default).collect();
        (format!("{}, found `{found}`", plain(error)), torn_hint(error))
    };
    Fault { field, torn: true, ..Fault::new(spot.at, reason, Some(hint)) }
}

/// The two halves of a number that was written with a decimal comma, with its field.
fn comma_figure<'t>(text: &'t str, spot: &Spot) -> Option<(String, &'t str, &'t str)> {
    let (child, before) = (spot.child.as_ref()?, spot.before.as_ref()?);
    let (whole, rest) = (&text[before.value.clone()], &text[child.value.clone()]);
    let digits = |text: &str| !text.is_empty() && text.trim_start_matches('-').bytes().all(|byte| byte.is_ascii_digit());
    let key = before.key_text(text)?.to_owned();
    (child.key.is_none() && digits(whole) && digits(rest)).then_some((key, whole, rest))
}

fn torn_hint(error: &Error) -> String {
    let hint = match error {
        Error::ExpectedComma => "put a comma between two fields or items, and close every bracket",
        Error::ExpectedMapColon => "a field is written name: value",
        Error::TrailingCharacters => "one pair of brackets holds the whole file; nothing but comments stands behind it",
        Error::ExpectedIdentifier | Error::SuggestRawIdentifier(_) | Error::InvalidIdentifier(_) => {
            "a field is written name: value, the name in lower case with _ and without quotes"
        }
        Error::InvalidEscape(_) => "write \\\\ for a backslash and \\\" for a quote within a text",
        Error::ExpectedNamedStructLike(_) | Error::ExpectedStructLike => {
            "a record stands in round brackets, such as (id: \"…\", name: \"…\")"
        }
        Error::NoSuchExtension(_) => "leave the line with #![enable(…)] out",
        _ => "compare with a record that is read, and close every bracket and quote",
    };
    hint.to_owned()
}

/// Is it an error of one value, the text around it being sound?
const fn is_value(error: &Error) -> bool {
    use Error as E;
    matches!(
        error,
        E::ExpectedArray
            | E::ExpectedBoolean
            | E::ExpectedFloat
            | E::FloatUnderscore
            | E::ExpectedInteger
            | E::ExpectedMap
            | E::ExpectedString
            | E::IntegerOutOfBounds
            | E::InvalidIntegerDigit { .. }
            | E::UnderscoreAtBeginning
            | E::ExpectedStructLike
            | E::ExpectedNamedStructLike(_)
            | E::ExpectedDifferentStructName { .. }
    )
}

fn plain(error: &Error) -> String {
    match error {
        Error::ExpectedArray => "expected a list in [ ]".to_owned(),
        Error::ExpectedBoolean => "expected true or false".to_owned(),
        Error::ExpectedFloat => "expected a number".to_owned(),
        Error::ExpectedInteger | Error::IntegerOutOfBounds | Error::InvalidIntegerDigit { .. } => {
            "expected a whole number from 0 on".to_owned()
        }
        Error::ExpectedMap => "expected pairs in { }".to_owned(),
        Error::ExpectedString => "expected a text in quotes".to_owned(),
        Error::ExpectedComma => "expected a comma or a closing bracket".to_owned(),
        Error::ExpectedMapColon => "expected a colon".to_owned(),
        Error::ExpectedIdentifier | Error::SuggestRawIdentifier(_) | Error::InvalidIdentifier(_) => {
            "expected the name of a field".to_owned()
        }
        Error::ExpectedStructLike | Error::ExpectedNamedStructLike(_) | Error::ExpectedDifferentStructName { .. } => {
            "expected a record in ( )".to_owned()
        }
        Error::TrailingCharacters => "expected the end of the text".to_owned(),
        Error::InvalidValueForType { expected, .. } => format!("expected {expected}"),
        other => other.to_string(),
    }
}

/// A value as it is shown in a reason: its start, on one line.
fn shown(value: &str) -> String {
    let flat: Vec<&str> = value.split_whitespace().collect();
    let flat = flat.join(" ");
    if flat.is_empty() {
        return "nothing".to_owned();
    }
    let mut short: String = flat.chars().take(40).filter(|c| !c.is_control()).collect();
    if short.len() < flat.len() {
        short.push('…');
    }
    short
}

fn no_field(found: &str, expected: &[&str]) -> String {
    if let Some(meant) = did_you_mean(found, expected.iter().copied()) {
        return format!("did you mean \"{meant}\"?");
    }
    if let Some(meant) = expected.iter().find(|field| field.strip_prefix(found).is_some_and(|unit| unit.starts_with('_'))) {
        return format!("did you mean \"{meant}\"?");
    }
    if description::PART.contains(&found) {
        return format!("\"{found}\" stands in the part itself, beside \"fills\"");
    }
    let kind = Role::KINDS.iter().find(|(_, fields)| fields.iter().any(|field| field.name == found));
    if let (Some((kind, _)), true) = (kind, expected == description::PART) {
        return format!("\"{found}\" stands within a role: fills: [{kind}({found}: …)]");
    }
    format!("the fields here are {}", expected.join(", "))
}

fn one_of(found: &str, expected: &[&str]) -> String {
    match did_you_mean(found, expected.iter().copied()) {
        Some(meant) => format!("did you mean {meant}?"),
        None => format!("one of {}", expected.join(", ")),
    }
}

fn missing_hint(field: &str) -> String {
    match field {
        "version" => format!("start the file with (version: {}, …", crate::version::CURRENT),
        "fills" => "say what the part is, such as fills: [Motor(kv_rpm_per_v: 1950)]".to_owned(),
        "parts" => "add the list, such as parts: [(slot: Frame, part: \"…\")]".to_owned(),
        "contents" => "say what is in the box, such as contents: [(part: \"…\", count: 4)]".to_owned(),
        "count" => "add how many, such as count: 4".to_owned(),
        "slot" => "add the place that it fills, such as slot: Motor".to_owned(),
        "price" => "add the amount, such as price: \"6.90 EUR\"".to_owned(),
        "from" | "to" => format!("add the currency, such as {field}: \"EUR\""),
        "rate" => "add what one unit costs, such as rate: \"1.17\"".to_owned(),
        "on" => "add the day of the rate, such as on: \"2026-11-20\"".to_owned(),
        "id" | "part" => format!("add the short name, such as {field}: \"vellacre-2207-1950\""),
        _ => format!("add {field}: \"…\""),
    }
}

fn with(spot: &Spot, field: &str) -> String {
    spot.field().map_or_else(|| field.to_owned(), |outer| format!("{outer}.{field}"))
}

/// What would be right in the place of a value.
fn expectation(spot: &Spot, value: &str) -> String {
    let Some(key) = spot.keys.last() else {
        return "a record stands in round brackets, such as (id: \"…\", name: \"…\")".to_owned();
    };
    let bare = value.trim_matches('"').trim();
    if key == "price" || key == "arm_price" {
        let amount = bare.trim_end_matches(|c: char| !c.is_ascii_digit()).replace(',', ".");
        let amount = if amount.parse::<f64>().is_ok() { amount } else { "389.50".to_owned() };
        return format!("write it in quotes with its currency: {key}: \"{amount} EUR\"");
    }
    let field = description::field(spot.head.as_deref(), &spot.keys);
    match field.map(|field| (field.kind, field)) {
        Some((Kind::Number(unit) | Kind::List(&Kind::Number(unit)), field)) => number(key, bare, field, unit),
        Some((Kind::Count, field)) => {
            let (low, high) = field.plausible.unwrap_or((0.0, 1000.0));
            format!("write a whole number without quotes, from {low} to {high}: {key}: {low}")
        }
        Some((Kind::Flag, _)) => format!("write {key}: true or {key}: false"),
        Some((Kind::List(Kind::Record(_)), _)) => format!("write a list of records: {key}: [(…), (…)]"),
        Some((Kind::List(_), _)) => format!("write a list: {key}: [\"…\", \"…\"]"),
        Some((Kind::Record(fields), _)) => {
            format!("write a record: {key}: ({}: …)", fields.first().map_or("", |field| field.name))
        }
        Some((Kind::Choice(_), _)) => format!("write the word without quotes: {key}: {bare}"),
        Some((Kind::Word, _)) if description::is_pattern(key) => {
            format!("write the distances between hole centres: {key}: \"16x16\"")
        }
        _ => text_hint(key, bare),
    }
}

fn text_hint(key: &str, bare: &str) -> String {
    match key {
        "priced_on" | "on" => format!("write the day as year-month-day: {key}: \"2026-08-14\""),
        "rate" => {
            let decimal = bare.replace(',', ".");
            let decimal = if decimal.parse::<Factor>().is_ok() { &decimal } else { "1.17" };
            format!("write it in quotes with a point: rate: \"{decimal}\"")
        }
        "from" | "to" => format!("write the three letters of the currency: {key}: \"EUR\""),
        "retired" | "owned" | "arm" => format!("write {key}: true or leave it out"),
        "version" => format!("write version: {}", crate::version::CURRENT),
        "pieces" | "count" | "uart" => format!("write a whole number without quotes: {key}: 1"),
        "outputs" => "write a list of whole numbers: outputs: [1, 2, 3, 4]".to_owned(),
        "parts" | "kits" | "contents" | "spares" | "shipping" | "tax" | "items" | "rates" => {
            format!("write a list of records: {key}: [(…), (…)]")
        }
        "fills" => "write a list of roles: fills: [Motor(…)]".to_owned(),
        "purpose" | "pilot" | "conditions" | "training" => format!("write a record: {key}: (…)"),
        "basis" => "write pairs: basis: {\"mass_g\": Measured}".to_owned(),
        "sources" => "write pairs: sources: {\"mass_g\": \"weighed\"}".to_owned(),
        "feed" => "write feed: Pack, Partner, Own or Rail(\"5V\")".to_owned(),
        _ if bare.is_empty() => format!("write {key}: \"…\" or leave the field out"),
        _ => format!("write it in quotes: {key}: \"{}\"", shown(bare)),
    }
}

/// What would be right in the place of a number.
fn number(key: &str, bare: &str, field: &Field, unit: &UnitInfo) -> String {
    let figure = bare.trim_end_matches(|c: char| !c.is_ascii_digit()).replace(',', ".");
    match (figure.parse::<f64>(), field.plausible) {
        (Ok(figure), Some(range)) if figure.is_finite() => match validate::slip(figure, unit, range) {
            Some(meant) => format!("did you mean {}? Write {key}: {}", meant.said, meant.figure),
            None => format!("write a plain number of {}: {key}: {figure}", unit.symbol),
        },
        (_, Some((low, high))) => format!("write a plain number of {}, from {low} to {high}, or leave it out", unit.symbol),
        _ => format!("write a plain number of {}, or leave it out", unit.symbol),
    }
}
