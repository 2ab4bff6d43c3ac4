//! Checks of what a record says, after it could be read: plausible figures, names, ids, pairs, and references.
//!
//! The ranges come from the records' own descriptions. A check says what is wrong and on which way through the record; the
//! caller adds the place in the text.

mod cost;
mod estimate;
mod figures;
mod form;
mod names;
mod references;
mod remark;
mod thresholds;

use crate::{
    build_list::{BuildList, Feed, Fitted},
    description,
    kit::Kit,
    measured::StandRow,
    part::{Basis, Part, PastPrice, Role},
    quantity::{Money, Quantity, Unit},
    value::{Describe, Field, Record},
};

pub(crate) use cost::{charge, rate, repeated_rates, spare, stock_item, tax};
pub(crate) use estimate::{estimate, estimates_elsewhere};
use figures::{described, value_issues};
pub(crate) use figures::{highest_of, slip};
pub use form::{FieldRemark, kit_remarks, part_remarks};
use names::{id_issue, text_issue};
pub use references::{check_kits, check_references};
pub use remark::{Remark, build_remarks, field_remark, name_remark, note_remark};
pub use thresholds::check_thresholds;
pub(crate) use thresholds::threshold;

/// One step of the way to a value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Step {
    /// A field, or the key of a pair.
    Key(String),
    /// An item of a list, from 0.
    Item(usize),
}

/// What is wrong with a value, and the way to it from the record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Issue {
    pub(crate) path: Vec<Step>,
    pub(crate) reason: String,
    pub(crate) hint: String,
}

impl Issue {
    fn new(reason: String, hint: impl Into<String>) -> Self {
        Self { path: Vec::new(), reason, hint: hint.into() }
    }

    /// The same issue, seen from the record around.
    fn within(mut self, step: Step) -> Self {
        self.path.insert(0, step);
        self
    }

    fn key(self, key: &str) -> Self {
        self.within(Step::Key(key.to_owned()))
    }
}

/// Longest note, in characters.
const LONGEST_NOTE: usize = 4000;
/// Longest name, address or word, in characters.
const LONGEST_NAME: usize = 200;
/// Most pieces of one part in a build or a kit.
pub(crate) const MOST_PIECES: u32 = 200;
/// Most smallest units of a price: a build's sum then has room whatever it holds.
const MOST_MINOR: i64 = 1_000_000_000_000;

/// What is wrong with a part.
pub(crate) fn part(part: &Part) -> Vec<Issue> {
    let mut issues = Vec::new();
    issues.extend(id_issue(&part.id).map(|issue| issue.key("id")));
    issues.extend(text("name", Some(&part.name), LONGEST_NAME));
    for (key, value) in [("maker", &part.maker), ("supplier", &part.supplier), ("link", &part.link), ("source", &part.source)] {
        issues.extend(text(key, value.as_ref(), LONGEST_NAME));
    }
    issues.extend(text("note", part.note.as_ref(), LONGEST_NOTE));
    issues.extend(number(&description::MASS, part.mass_g));
    issues.extend(money(part.price));
    issues.extend(part.pieces.and_then(|pieces| count("pieces", pieces, 10_000)));
    if part.fills.is_empty() {
        let hint = "say what the part is, such as fills: [Motor(kv_rpm_per_v: 1950)]";
        issues.push(Issue::new("the part fills no role".to_owned(), hint).key("fills"));
    }
    for (at, role) in part.fills.iter().enumerate() {
        let found = described(role.fields(), |name| role.get(name));
        issues.extend(found.into_iter().map(|issue| issue.within(Step::Item(at)).key("fills")));
    }
    issues.extend(part.basis.keys().filter_map(|key| key_issue(part, key).map(|issue| issue.key(key).key("basis"))));
    for (key, value) in &part.sources {
        let found = key_issue(part, key).or_else(|| text_issue(value, LONGEST_NAME));
        issues.extend(found.map(|issue| issue.key(key).key("sources")));
    }
    for (key, value) in &part.typed {
        let found = key_issue(part, key).or_else(|| text_issue(value, LONGEST_NAME));
        issues.extend(found.map(|issue| issue.key(key).key("typed")));
    }
    issues.extend(part.basis.iter().filter_map(|(key, basis)| unpublished_issue(part, key, *basis)));
    issues.extend(earlier_prices(&part.earlier_prices));
    issues
}

/// A field that nobody published and that has a figure all the same.
fn unpublished_issue(part: &Part, key: &str, basis: Basis) -> Option<Issue> {
    let held = part.fills.iter().any(|role| role.get(key).is_some()) || part.get(key).is_some();
    let reason = format!("\"{key}\" is said to be not published, and has a value");
    let hint = "leave the value out, or say whose it is: Measured, Estimate, or nothing for the maker's";
    (basis == Basis::Unpublished && held).then(|| Issue::new(reason, hint).key(key).key("basis"))
}

fn earlier_prices(prices: &[PastPrice]) -> Vec<Issue> {
    let each = prices.iter().enumerate().flat_map(|(at, past)| {
        let found = [money(Some(past.price)), text("supplier", past.supplier.as_ref(), LONGEST_NAME)];
        found.into_iter().flatten().map(move |issue| issue.within(Step::Item(at)).key("earlier_prices"))
    });
    each.collect()
}

/// What is wrong with a kit.
pub(crate) fn kit(kit: &Kit) -> Vec<Issue> {
    let mut issues = Vec::new();
    issues.extend(id_issue(&kit.id).map(|issue| issue.key("id")));
    issues.extend(text("name", Some(&kit.name), LONGEST_NAME));
    for (key, value) in [("maker", &kit.maker), ("supplier", &kit.supplier)] {
        issues.extend(text(key, value.as_ref(), LONGEST_NAME));
    }
    issues.extend(text("note", kit.note.as_ref(), LONGEST_NOTE));
    issues.extend(money(kit.price));
    if kit.contents.is_empty() {
        let hint = "say what is in the box, such as contents: [(part: \"…\", count: 4)]";
        issues.push(Issue::new("the kit holds nothing".to_owned(), hint).key("contents"));
    }
    issues.extend(earlier_prices(&kit.earlier_prices));
    for (at, item) in kit.contents.iter().enumerate() {
        let found = [
            id_issue(&item.part).map(|issue| issue.key("part")),
            count("count", item.count, MOST_PIECES),
            text("state", item.state.as_ref(), LONGEST_NAME),
        ];
        issues.extend(found.into_iter().flatten().map(|issue| issue.within(Step::Item(at)).key("contents")));
    }
    issues
}

/// What is wrong with one line of a build list.
pub(crate) fn fitted(fitted: &Fitted) -> Vec<Issue> {
    let mut issues = Vec::new();
    issues.extend(id_issue(&fitted.part).map(|issue| issue.key("part")));
    issues.extend(count("count", fitted.count, MOST_PIECES));
    if let Some(Feed::Rail(rail)) = &fitted.feed {
        issues.extend(text("feed", Some(rail), LONGEST_NAME));
    }
    if let Some(uart) = fitted.uart.filter(|uart| *uart > 20) {
        let issue = Issue::new(format!("{uart} is no serial port; expected 0 to 20"), "write the number that the board prints");
        issues.push(issue.key("uart"));
    }
    for (at, output) in fitted.outputs.iter().flatten().enumerate() {
        let hint = "write the numbers that the board prints, such as outputs: [1, 2, 3, 4]";
        let reason = format!("{output} is no motor output; expected 1 to 32");
        let found = (!(1..=32).contains(output)).then(|| Issue::new(reason, hint));
        issues.extend(found.map(|issue| issue.within(Step::Item(at)).key("outputs")));
    }
    issues.extend(number(&description::BETWEEN, fitted.between_mm));
    issues.extend(text("note", fitted.note.as_ref(), LONGEST_NOTE));
    issues
}

/// What is wrong with a build list around its parts.
pub(crate) fn build_header(build: &BuildList) -> Vec<Issue> {
    let mut issues = Vec::new();
    issues.extend(text("name", Some(&build.name), LONGEST_NAME));
    issues.extend(text("note", build.note.as_ref(), LONGEST_NOTE));
    issues.extend(inner("purpose", &build.purpose));
    issues.extend(inner("pilot", &build.pilot));
    issues.extend(money(build.purpose.budget).map(|issue| Issue { path: Vec::new(), ..issue }.key("budget").key("purpose")));
    issues.extend(inner("conditions", &build.conditions));
    if let Some(training) = &build.training {
        issues.extend(inner("training", training));
        let price = money(training.simulator_price);
        issues.extend(price.map(|issue| Issue { path: Vec::new(), ..issue }.key("simulator_price").key("training")));
    }
    issues.extend(number(&description::OUTPUT_LIMIT, build.output_limit_percent));
    issues.extend(number(&description::WEIGHED, build.weighed_g));
    issues.extend(inner("logged", &build.logged));
    for (at, row) in build.stand.iter().enumerate() {
        issues.extend(stand_row(row).into_iter().map(|issue| issue.within(Step::Item(at)).key("stand")));
    }
    issues
}

/// What is wrong with a row of a thrust stand.
pub(crate) fn stand_row(row: &StandRow) -> Vec<Issue> {
    described(StandRow::FIELDS, |name| row.get(name))
}

fn inner<R: Record>(key: &str, record: &R) -> Vec<Issue> {
    described(R::FIELDS, |name| record.get(name)).into_iter().map(|issue| issue.key(key)).collect()
}

fn text(key: &str, value: Option<&String>, longest: usize) -> Option<Issue> {
    text_issue(value?, longest).map(|issue| issue.key(key))
}

fn number<U: Unit>(field: &Field, value: Option<Quantity<U>>) -> Vec<Issue> {
    value.map(|value| value_issues(field.name, field.kind, field.plausible, &value.value())).unwrap_or_default()
}

fn count(key: &str, value: u32, most: u32) -> Option<Issue> {
    let reason = format!("{value} is no number of pieces; expected 1 to {most}");
    (!(1..=most).contains(&value)).then(|| Issue::new(reason, "write how many there are, or remove the line").key(key))
}

fn money(price: Option<Money>) -> Option<Issue> {
    let price = price.filter(|price| !(0..=MOST_MINOR).contains(&price.minor()))?;
    let issue = if price.minor() < 0 {
        let reason = format!("{price} is below nothing; expected a price from 0 on");
        Issue::new(reason, "leave the field out when the price is not known")
    } else {
        let most = Money::of(MOST_MINOR, price.unit());
        Issue::new(format!("{price} is no price of a part; expected at most {most}"), "check the amount and its currency")
    };
    Some(issue.key("price"))
}

/// A key of `basis` or `sources` that names no field of the part.
fn key_issue(part: &Part, key: &str) -> Option<Issue> {
    let named = |fields: &[Field], name: &str| fields.iter().any(|field| field.name == name);
    let known = |role: &Role| match key.split_once('.') {
        Some((outer, rest)) => role.fields().iter().any(|field| field.name == outer && named(description::inner(field), rest)),
        None => named(role.fields(), key),
    };
    if description::PART.contains(&key) || part.fills.iter().any(known) {
        return None;
    }
    let names = part.fills.iter().flat_map(|role| role.fields().iter().map(|field| field.name));
    let hint = match crate::diagnostic::did_you_mean(key, names.chain(description::PART.iter().copied())) {
        Some(meant) => format!("did you mean \"{meant}\"?"),
        None => "name a field of this part, such as \"mass_g\"".to_owned(),
    };
    Some(Issue::new(format!("the part has no field \"{key}\""), hint))
}
