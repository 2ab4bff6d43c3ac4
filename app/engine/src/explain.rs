//! The only place where prose is made: findings, reasons and figures as sentences.

pub mod estimated;
mod hint;
pub mod money;
mod pins;
pub mod repair;
pub mod telling;

pub use hint::hints;
pub use pins::{Pin, Pins, pins};

use propwright_schema::{
    build_list::{Conditions, Pilot, Purpose},
    part::{Basis, Role},
    slot::Slot,
    value::{Field, Kind, Record, Value},
};

use crate::{
    craft::Subject,
    finding::{Because, Changed, Claim, Datum, Finding, Missing, Origin, Status, Unknown},
    interval::{Interval, RATIO},
    policy,
    rules::{self, Weight},
};

/// A figure to three digits, as it is said: `35`, `7.4`, `0.85`, `1290`.
pub fn number(figure: f64) -> String {
    if figure == 0.0 {
        return "0".to_owned();
    }
    let digits = if figure.abs() >= 100.0 {
        0
    } else if figure.abs() >= 10.0 {
        1
    } else {
        2
    };
    let text = format!("{figure:.digits$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text };
    if text == "-0" { "0".to_owned() } else { text }
}

fn with_unit(text: &str, symbol: &str) -> String {
    match symbol {
        "" => text.to_owned(),
        "%" | "°" => format!("{text}{}{symbol}", if symbol == "%" { " " } else { "" }),
        _ => format!("{text} {symbol}"),
    }
}

/// A figure with its unit, and its band where it has one: `41 A (38–45)`.
pub fn figure(interval: &Interval) -> String {
    let interval = interval.said();
    let [low, nominal, high] = interval.decimals();
    if interval.is_exact() {
        let exact = format!("{nominal}");
        let shown = if exact.len() > 7 { number(nominal) } else { exact };
        return with_unit(&shown, interval.unit.symbol);
    }
    let [low, nominal, high] = [low, nominal, high].map(number);
    let said = with_unit(&nominal, interval.unit.symbol);
    // A band too narrow for three digits is none.
    if low == high { said } else { format!("{said} ({low}–{high})") }
}

/// A figure that was chosen by a model and has no band, without digits that say nothing: `35.9 km/h`.
pub fn rounded(interval: &Interval) -> String {
    let said = interval.said();
    with_unit(&number(said.decimals()[1]), said.unit.symbol)
}

/// A value as it is said.
pub fn value(value: &Value) -> String {
    match value {
        Value::Word(word) => word.clone(),
        Value::Flag(true) => "yes".to_owned(),
        Value::Flag(false) => "no".to_owned(),
        Value::List(items) if items.is_empty() => "nothing".to_owned(),
        Value::List(items) => {
            let between = if items.iter().any(|item| matches!(item, Value::Record(_))) { "; " } else { ", " };
            items.iter().map(self::value).collect::<Vec<_>>().join(between)
        }
        Value::Record(fields) => {
            let each = fields.iter().map(|(name, inner)| format!("{} {}", field_words(name), self::value(inner)));
            each.collect::<Vec<_>>().join(", ")
        }
        Value::Number { .. } | Value::Count(_) => Interval::of(value).map_or_else(String::new, |interval| figure(&interval)),
    }
}

/// A datum as it is said.
pub fn datum(datum: &Datum) -> String {
    match datum {
        Datum::Value(inner) => value(inner),
        Datum::Figure(interval) => figure(interval),
        Datum::Model(_) => "a solved state".to_owned(),
    }
}

/// Words that begin with a capital.
///
/// ```
/// assert_eq!(propwright_engine::explain::capital("speed controller"), "Speed controller");
/// ```
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A field's name in words: `current_burst_a` is said `current burst`. A flag has no unit: `two_way_rpm` is said `two way rpm`.
pub fn field_words(field: &str) -> String {
    let is_flag = |described: &Field| described.name == field && matches!(described.kind, Kind::Flag);
    if Role::KINDS.iter().any(|(_, fields)| fields.iter().any(is_flag)) {
        return spelled(&field.replace('_', " "));
    }
    let bare = propwright_schema::quantity::UNITS
        .iter()
        .map(|unit| unit.suffix)
        .filter(|suffix| field.ends_with(suffix))
        .max_by_key(|suffix| suffix.len())
        .map_or(field, |suffix| &field[..field.len() - suffix.len()]);
    spelled(&bare.replace(['_', '.'], " "))
}

/// Words that the trade writes in capitals.
const CAPITALS: [(&str, &str); 5] = [("kv", "KV"), ("uart", "UART"), ("uarts", "UARTs"), ("awg", "AWG"), ("i2c", "I2C")];

fn spelled(words: &str) -> String {
    let capitals = |word: &str| {
        CAPITALS.iter().find(|(small, _)| *small == word).map_or_else(|| word.to_owned(), |(_, large)| (*large).to_owned())
    };
    words.split(' ').map(capitals).collect::<Vec<_>>().join(" ")
}

/// A slot's name within a sentence: `motor`, `flight controller`, `GPS`.
pub fn slot_words(slot: Slot) -> String {
    let title = slot.title();
    let mut letters = title.chars();
    match (letters.next(), letters.clone().next()) {
        (Some(first), Some(second)) if second.is_lowercase() => first.to_lowercase().chain(letters).collect(),
        _ => title.to_owned(),
    }
}

/// How a part is called: its name, with the detail that is meant.
pub fn part_name(subject: &Subject) -> String {
    match &subject.detail {
        Some(detail) => format!("{} ({detail})", subject.part.name),
        None => subject.part.name.clone(),
    }
}

/// The sentence of a finding: the part in the way, then what is to do when something is not known.
pub fn message(finding: &Finding) -> String {
    let Some(rule) = rules::by_id(finding.rule) else { return String::new() };
    if finding.status() == Status::Unstated {
        return finding.missing().map_or_else(|| format!("{}: not known.", rule.title), missing);
    }
    let template = match finding.status() {
        Status::Mismatch => rule.says.mismatch,
        // An estimate only warns, also where a rule can only forbid.
        Status::Tight if rule.says.tight.is_empty() => rule.says.mismatch,
        Status::Tight => rule.says.tight,
        _ => rule.says.fits,
    };
    sentence(&fill(template, finding))
}

fn sentence(text: &str) -> String {
    if text.is_empty() || text.ends_with(['.', '?']) { text.to_owned() } else { format!("{text}.") }
}

/// Puts facts into a sentence: `{name}` the value, `{name.part}` the part's name, `{name.slot}` its slot.
fn fill(template: &str, finding: &Finding) -> String {
    let mut out = String::new();
    let mut rest = template;
    while let Some((before, after)) = rest.split_once('{') {
        out.push_str(before);
        let Some((key, remainder)) = after.split_once('}') else { break };
        out.push_str(&placeholder(key, finding));
        rest = remainder;
    }
    out.push_str(rest);
    out
}

fn placeholder(key: &str, finding: &Finding) -> String {
    let (name, aspect) = key.split_once('.').unwrap_or((key, "value"));
    let verdict = &finding.outcome.verdict;
    let fact = finding.outcome.facts.iter().find(|(fact, _)| *fact == name).map(|(_, because)| because);
    let said = match (name, aspect, fact) {
        ("required", ..) => verdict.required.as_ref().map(datum),
        ("available", ..) => verdict.available.as_ref().map(datum),
        (_, "part", Some(because)) => because.subject().map(part_name),
        (_, "title", Some(because)) => title(because),
        (_, "slot", Some(because)) => because.subject().map(|subject| subject.slot.title().to_lowercase()),
        (_, _, Some(because)) => because.datum().map(datum),
        _ => None,
    };
    said.unwrap_or_else(|| "?".to_owned())
}

/// What a derived value is, in the trade's words.
fn title(because: &Because) -> Option<String> {
    match &because.claim {
        Claim::Derived { title, .. } => Some((*title).to_owned()),
        Claim::Fact { field, .. } => Some(field_words(field)),
        _ => None,
    }
}

/// What is not known, and how to learn it.
pub fn missing(missing: &Missing) -> String {
    match &missing.what {
        Unknown::Field(field) => {
            let who = missing.subject.as_ref().map_or_else(|| "The build list".to_owned(), part_name);
            let help = missing.subject.as_ref().and_then(|subject| about(subject.slot, field)).unwrap_or_default();
            let help = if help.is_empty() { String::new() } else { format!(" Look up or measure:{help}") };
            format!("{who}: {} is not published.{help}", field_words(field))
        }
        Unknown::Line(field) => {
            let whose = missing.subject.as_ref().map_or_else(String::new, |subject| format!(" of the {}", part_name(subject)));
            format!("The build list does not say{whose}: {}", asked_of_list(field))
        }
        Unknown::Empty(slot) => format!("No {} is chosen.", slot.title().to_lowercase()),
        Unknown::Infeasible(reason) | Unknown::Outside(reason) => match &missing.subject {
            Some(subject) => format!("{}: {reason}.", part_name(subject)),
            None => format!("The flight is not known: {reason}."),
        },
    }
}

/// What a field of the list holds, as the end of a sentence: `hours in the air.`, `does it fly under a roof?`
fn asked_of_list(field: &str) -> String {
    let name = field.rsplit('.').next().unwrap_or(field);
    let groups = [Purpose::FIELDS, Pilot::FIELDS, Conditions::FIELDS];
    let described = groups.into_iter().flatten().find(|described| described.name == name);
    let about = match (described, name) {
        (Some(described), _) => described.about.trim().split(';').next().unwrap_or_default(),
        (None, "feed") => "What it is fed from.",
        (None, "uart") => "Its serial port of the flight controller.",
        (None, "packs") => "How several packs are connected.",
        (None, _) => "",
    };
    let about = if about.is_empty() { field_words(name) } else { about.to_owned() };
    let first = about.chars().next().map(|first| first.to_lowercase().to_string());
    sentence(&format!("{}{}", first.unwrap_or_default(), about.chars().skip(1).collect::<String>()))
}

/// The help text of a field.
pub fn about(slot: Slot, field: &str) -> Option<&'static str> {
    let outer = field.split('.').next().unwrap_or(field);
    Role::fields_of(slot).iter().find(|described| described.name == outer).map(|described| described.about)
}

/// One step of a reason as a line, with its formula where it has one.
pub fn because(step: &Because) -> String {
    let joint = |formula: &str| match &step.claim {
        Claim::Derived { datum: Datum::Model(_), .. } => ": ",
        _ if formula.starts_with("as ") => ", ",
        _ => ", by ",
    };
    working(step).map_or_else(|| headline(step), |formula| format!("{}{}{formula}", headline(step), joint(formula)))
}

/// The formula of a step that was computed.
pub fn working(step: &Because) -> Option<&'static str> {
    match &step.claim {
        Claim::Derived { formula, .. } => Some(*formula).filter(|formula| !formula.is_empty()),
        _ => None,
    }
}

/// The figures right below a computed step, each with its name: what is put into its formula.
pub fn put_in(step: &Because) -> Vec<(String, Interval)> {
    if !matches!(step.claim, Claim::Derived { .. }) {
        return Vec::new();
    }
    step.from.iter().flat_map(|below| named(below)).collect()
}

/// The figures that a step has to give, each with its name.
fn named(step: &Because) -> Vec<(String, Interval)> {
    let name = match &step.claim {
        Claim::Derived { datum: Datum::Model(model), .. } => {
            return model.figures().into_iter().map(|(name, found)| (name.to_owned(), found)).collect();
        }
        Claim::Fact { subject: Some(subject), field, .. } => {
            format!("{} of the {}", field_words(field), subject.slot.title().to_lowercase())
        }
        Claim::Fact { subject: None, field, .. } => field_words(field),
        Claim::Derived { title, .. } => (*title).to_owned(),
        Claim::Threshold { name, .. } => name.replace('-', " "),
        Claim::Assumption { text, .. } => (*text).to_owned(),
        Claim::Missing(_) => return Vec::new(),
    };
    step.datum().and_then(Datum::figure).map(|found| (name, found)).into_iter().collect()
}

/// More figures than this are read more easily in the steps below.
const MOST_PUT_IN: usize = 9;

/// The formula of a computed step with what is put into it: `dry + packs, with dry mass 452 g, mass of the packs 187 g`.
pub fn formula_with_numbers(step: &Because) -> Option<String> {
    let formula = working(step)?;
    // What a model returned says its figures in a line of its own.
    let plain = step.from.iter().filter(|below| !matches!(below.datum(), Some(Datum::Model(_))));
    let put_in: Vec<(String, Interval)> = plain.flat_map(|below| named(below)).collect();
    if put_in.is_empty() || put_in.len() > MOST_PUT_IN {
        return Some(formula.to_owned());
    }
    let each = put_in.iter().map(|(name, found)| format!("{name} {}", figure(found)));
    Some(format!("{formula}, with {}", each.collect::<Vec<_>>().join(", ")))
}

/// One step of a reason without its formula.
pub fn headline(step: &Because) -> String {
    match &step.claim {
        Claim::Fact { subject, field, datum: fact, basis, origin } => {
            let whose = subject.as_ref().map_or_else(|| "the build list".to_owned(), part_name);
            let basis = match (basis, origin) {
                (Some(Basis::Measured), _) => ", measured",
                (Some(Basis::Estimate), Origin::Part) => ", an estimate",
                (Some(Basis::Estimate), _) => ", estimated by you",
                (None | Some(Basis::Unpublished), Origin::Part) => "",
                (None | Some(Basis::Unpublished), Origin::Line | Origin::Build) => ", as listed",
            };
            format!("{whose}: {} {}{basis}", field_words(field), datum(fact))
        }
        Claim::Derived { title, datum: Datum::Model(model), .. } => {
            let each = model.figures().into_iter().map(|(name, found)| format!("{name} {}", figure(&found)));
            let said = each.collect::<Vec<_>>().join(", ");
            if said.is_empty() { (*title).to_owned() } else { format!("{title} ({said})") }
        }
        Claim::Derived { subject: Some(subject), title, datum: found, .. } => {
            format!("{}: {title} {}", part_name(subject), datum(found))
        }
        Claim::Derived { subject: None, title, datum: found, .. } => format!("{title}: {}", datum(found)),
        Claim::Threshold { name, datum: limit, source, changed } => {
            let edited = if changed.is_empty() { "" } else { "; changed in your policy file" };
            let about = policy::ALL.iter().find(|limit| limit.name == *name).map_or(*name, |limit| limit.about.trim());
            let said = match limit.figure() {
                Some(share) if share.unit.dimension == RATIO.dimension => format!("{} ×", number(share.decimals()[1])),
                _ => datum(limit),
            };
            format!("threshold {said}: {} ({source}{edited})", about.trim_end_matches('.'))
        }
        Claim::Assumption { text, datum: Some(taken) } => format!("assumed: {text}, {}", datum(taken)),
        Claim::Assumption { text, datum: None } => format!("assumed: {text}"),
        Claim::Missing(unknown) => missing(unknown),
    }
}

/// The user's own thresholds on which a finding rests, a line each: `your own threshold: 1.1 instead of 1.2 (capacitor-spare, tight)`.
pub fn own_thresholds(finding: &Finding) -> Vec<String> {
    let own = finding.own_thresholds();
    own.iter().map(changed).collect()
}

/// A changed threshold as a line.
pub fn changed(changed: &Changed) -> String {
    let (now, usual) = (figure(&changed.now), figure(&changed.usual));
    format!("your own threshold: {now} instead of {usual} ({}, {})", changed.name, changed.which)
}

/// The source of a step, where it has one of its own.
pub const fn source(step: &Because) -> Option<&'static str> {
    match &step.claim {
        Claim::Derived { source, .. } | Claim::Threshold { source, .. } => Some(source),
        _ => None,
    }
}

/// What the pilot notices, for a finding that is not plain fit.
pub fn cost(finding: &Finding) -> Option<&'static str> {
    let rule = rules::by_id(finding.rule)?;
    matches!(finding.status(), Status::Mismatch | Status::Tight).then_some(rule.says.costs).filter(|cost| !cost.is_empty())
}

/// How a rule's findings weigh, for lists apart.
pub fn weight(finding: &Finding) -> Weight {
    rules::by_id(finding.rule).map_or(Weight::Finding, |rule| rule.weight)
}

#[cfg(test)]
mod tests {
    use super::*;
    use propwright_schema::quantity::{A, Mm, Unit};

    #[test]
    fn a_band_too_narrow_to_be_seen_is_not_said() {
        let millimetres = |low, nominal, high| Interval { low, nominal, high, unit: &Mm::INFO };
        assert_eq!(figure(&millimetres(-89_901, -89_900, -89_900)), "-8.99 mm");
        assert_eq!(figure(&Interval::outward(38.0, 41.0, 45.0, &A::INFO)), "41 A (38–45)");
    }

    #[test]
    fn a_flag_keeps_its_whole_name() {
        assert_eq!(field_words("two_way_rpm"), "two way rpm");
        assert_eq!(field_words("antenna_built_in"), "antenna built in");
        assert_eq!(field_words("kv_rpm_per_v"), "KV");
        assert_eq!(field_words("limit_rpm"), "limit");
        assert_eq!(field_words("diameter_in"), "diameter");
    }

    #[test]
    fn what_the_list_does_not_say() {
        let unsaid = |field| missing(&Missing { subject: None, what: Unknown::Line(field) });
        assert_eq!(
            unsaid("purpose.returns_home"),
            "The build list does not say: shall it fly home by itself when the link is lost?"
        );
        assert_eq!(unsaid("pilot.flown_h"), "The build list does not say: hours in the air.");
        assert_eq!(unsaid("feed"), "The build list does not say: what it is fed from.");
    }
}
