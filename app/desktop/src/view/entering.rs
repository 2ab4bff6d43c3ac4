//! The form of a part or kit that is being entered: made from the description of its record.

mod groups;
mod names;

use propwright_schema::{
    catalogue::{Catalogue, CatalogueFile},
    diagnostic::did_you_mean,
    look_up::how_to_find,
    part::{Basis, Role},
    quantity::{In, Unit as _},
    typed::{self, inner},
    validate::Remark,
    value::{Field, Kind, Value},
};

use crate::{
    entering::{Article, Spot, is_vouched},
    state::Entering,
};
use groups::grouped;
use names::title_of;

/// What is drawn of an article that is being entered.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Form {
    /// "A new motor", "Change Duskmarl 50".
    pub title: String,
    /// Fields that belong together.
    pub groups: Vec<Group>,
    /// Those that pages seldom print, and what they hold; absent where a page prints all.
    pub folded: Vec<Group>,
    /// What the folded ones hold.
    pub fold: Option<Fold>,
    /// What hinders keeping it, a line each.
    pub hindered: Vec<String>,
    /// What is worth knowing before it is kept.
    pub notes: Vec<String>,
    /// Prices of earlier days.
    pub earlier: Vec<String>,
}

/// What the fields hold that pages seldom print.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fold {
    /// How many there are.
    pub fields: usize,
    /// How many of them hold something.
    pub filled: usize,
    /// Is something wrong in one of them?
    pub wrong: bool,
}

impl Fold {
    /// What its heading says.
    pub fn words(&self) -> String {
        let filled = match self.filled {
            0 => "all empty".to_owned(),
            filled => format!("{filled} filled in"),
        };
        format!("Seldom published: {} fields, {filled}", self.fields)
    }
}

/// Fields under one title.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// The title.
    pub title: String,
    /// The role that they describe.
    pub role: Option<usize>,
    /// The fields.
    pub lines: Vec<Line>,
}

/// One field.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its place in the record.
    pub spot: Spot,
    /// Its name in words.
    pub name: String,
    /// What it means, and where to find it or how to measure it.
    pub help: String,
    /// How it is entered.
    pub control: Control,
    /// Unit and plausible range; while a figure in another unit is typed, what it comes to.
    pub behind: String,
    /// What is wrong there.
    pub remark: Option<String>,
    /// Who vouches for it; absent for what needs nobody to.
    pub vouched: Option<Option<Basis>>,
}

impl Line {
    /// Does it hold something?
    fn holds(&self) -> bool {
        match &self.control {
            // An id is there always.
            Control::Text(text) => !text.trim().is_empty() && self.spot.field != "id",
            Control::Choice(_, now) => now.is_some(),
            Control::Flag(now) => *now == Some(true),
            Control::Records(items) => !items.is_empty(),
            Control::Record(lines) => lines.iter().any(Self::holds),
        }
    }

    /// Is something wrong there, or in a record within?
    fn is_wrong(&self) -> bool {
        let within = match &self.control {
            Control::Records(items) => items.iter().flatten().any(Self::is_wrong),
            Control::Record(lines) => lines.iter().any(Self::is_wrong),
            _ => false,
        };
        self.remark.is_some() || within
    }
}

/// How a field is entered.
#[derive(Debug, Clone, PartialEq)]
pub enum Control {
    /// As text, with what stands there now.
    Text(String),
    /// As one of these words.
    Choice(&'static [&'static str], Option<String>),
    /// As yes, no, or not said.
    Flag(Option<bool>),
    /// As records of their own.
    Records(Vec<Vec<Line>>),
    /// As one record of its own.
    Record(Vec<Line>),
}

/// The form; `mine` is the catalogue file that the article goes into, `all` what is in force.
pub fn form(entering: &Entering, mine: Option<&CatalogueFile>, all: &Catalogue) -> Form {
    let article = &entering.article;
    let maker = Maker { entering, remarks: remarks(entering, mine, all) };
    let (groups, folded) = grouped(article, &|spot, field| maker.line(spot, field));
    let lines = || folded.iter().flat_map(|group| &group.lines);
    let fold = (!folded.is_empty()).then(|| Fold {
        fields: lines().count(),
        filled: lines().filter(|line| line.holds()).count(),
        wrong: lines().any(Line::is_wrong),
    });
    Form {
        title: title(entering),
        groups,
        folded,
        fold,
        hindered: maker.hindered(),
        notes: notes(entering, all),
        earlier: earlier(article),
    }
}

fn title(entering: &Entering) -> String {
    let noun = entering.article.noun();
    match (&entering.was, entering.article.name()) {
        (None, "") => format!("A new {noun}"),
        (None, name) => format!("A new {noun}: {name}"),
        (Some(_), name) => format!("Change {name}"),
    }
}

fn earlier(article: &Article) -> Vec<String> {
    let prices = match article {
        Article::Part(part) => &part.earlier_prices,
        Article::Kit(kit) => &kit.earlier_prices,
    };
    let words = |day: Option<jiff::civil::Date>| day.map_or_else(|| "day not said".to_owned(), |day| day.to_string());
    let each = prices.iter().map(|past| {
        let shop = past.supplier.as_ref().map_or_else(String::new, |shop| format!(", {shop}"));
        format!("{} · {}{shop}", past.price, words(past.priced_on))
    });
    each.collect()
}

/// What is wrong in a place.
type Remarks = Vec<(Spot, Remark)>;

/// All that is wrong: what the record's own checks find, what cannot be read, and what other records make of it.
fn remarks(entering: &Entering, mine: Option<&CatalogueFile>, all: &Catalogue) -> Remarks {
    let article = &entering.article;
    let placed = article.remarks().into_iter().map(|found| {
        let fields = article.fields(found.role);
        let field = fields.iter().find(|field| field.name == found.field);
        let within = |name: &String| field.and_then(|field| inner(field).iter().find(|inner| inner.name == name));
        let name = field.map_or("name", |field| field.name);
        let inner = found.inner.as_ref().and_then(within).map(|inner| inner.name);
        (Spot { role: found.role, field: name, item: found.item, inner }, found.remark)
    });
    let mut all_of = placed.collect::<Remarks>();
    all_of.extend(taken(entering, mine).map(|remark| (Spot::of(None, "id"), remark)));
    if let Article::Kit(kit) = article {
        let unknown = |part: &str| !part.is_empty() && all.part(part).is_none();
        let contents = Spot::of(None, "contents");
        let of = |(at, part): (usize, &str)| {
            let reason = if part.is_empty() { "which part is it".to_owned() } else { format!("no catalogue holds {part:?}") };
            let meant = did_you_mean(part, all.parts().map(|known| known.id.as_str()));
            let hint = meant.map_or_else(
                || "give the id of a part, as its form shows it".to_owned(),
                |meant| format!("did you mean {meant}?"),
            );
            (contents.within(Some(at), "part"), Remark { reason, hint })
        };
        let parts = kit.contents.iter().map(|item| item.part.as_str()).enumerate();
        all_of.extend(parts.filter(|(_, part)| part.is_empty() || unknown(part)).map(of));
    }
    all_of
}

/// An id that another record of the file has.
fn taken(entering: &Entering, mine: Option<&CatalogueFile>) -> Option<Remark> {
    let id = entering.article.id();
    let holds = |file: &CatalogueFile| match entering.article {
        Article::Part(_) => file.parts.iter().any(|part| part.id == id),
        Article::Kit(_) => file.kits.iter().any(|kit| kit.id == id),
    };
    let other = entering.was.as_deref() != Some(id) && mine.is_some_and(holds);
    let hint = "give it another one, or change the record that is there".to_owned();
    other.then(|| Remark { reason: format!("the id {id:?} stands in this catalogue already"), hint })
}

fn notes(entering: &Entering, all: &Catalogue) -> Vec<String> {
    let id = entering.article.id();
    let mut notes = Vec::new();
    let known = match entering.article {
        Article::Part(_) => all.part(id).is_some(),
        Article::Kit(_) => all.kits().any(|kit| kit.id == id),
    };
    if known && entering.was.is_none() {
        notes.push("Another catalogue has a record of this id: yours takes its place in every build that lists it.".to_owned());
    }
    if let Some(was) = entering.was.as_deref().filter(|was| *was != id) {
        notes.push(format!("Builds that list it by the id {was} will not find it under the new one."));
    }
    notes
}

/// Makes lines of one article.
struct Maker<'a> {
    entering: &'a Entering,
    remarks: Remarks,
}

impl Maker<'_> {
    fn line(&self, spot: Spot, field: &'static Field) -> Line {
        let article = &self.entering.article;
        let within = |item: Option<usize>| -> Vec<Line> {
            inner(field).iter().map(|inner| self.line(spot.within(item, inner.name), inner)).collect()
        };
        let value = article.get(spot);
        let control = match field.kind {
            Kind::List(Kind::Record(_)) => Control::Records((0..article.len(spot)).map(|item| within(Some(item))).collect()),
            Kind::Record(_) => Control::Record(within(None)),
            Kind::Choice(words) => Control::Choice(words, value.as_ref().and_then(Value::word).map(str::to_owned)),
            Kind::Flag => Control::Flag(value.as_ref().and_then(Value::flag)),
            _ => Control::Text(self.entering.drafts.get(&spot).cloned().unwrap_or_else(|| article.shown(spot))),
        };
        let help = self.help(field);
        let behind = self.behind(spot, field);
        let draws = field.name == "current_a" && field.about.to_lowercase().contains("draw");
        let name = if draws { "Current drawn".to_owned() } else { title_of(field.name) };
        let vouched = (spot.inner.is_none() && is_vouched(field)).then(|| article.basis(spot));
        Line { spot, name, help, control, behind, remark: self.remark(spot), vouched }
    }

    /// What a field means, and where to find it or how to measure it.
    fn help(&self, field: &Field) -> String {
        let about = field.about.trim();
        let find = how_to_find(field);
        let mut help = if about.contains(find) { about.to_owned() } else { format!("{about} {find}") };
        if field.name == "chord_75_mm"
            && let Some(steps) = self.entering.article.get(Spot::of(Some(0), "diameter_in")).and_then(|value| value.steps())
        {
            // Three quarters of half the diameter.
            let from_middle = 0.375 * In::INFO.decimal(steps) * MM_PER_INCH;
            help = format!("{help} Here that is {from_middle:.0} mm from the middle.");
        }
        help
    }

    /// Unit and range; what a figure that is typed in another unit comes to; what the name or the day of typing says.
    fn behind(&self, spot: Spot, field: &Field) -> String {
        let article = &self.entering.article;
        let text = self.entering.drafts.get(&spot).cloned().unwrap_or_else(|| article.shown(spot));
        let role = spot.role.and_then(|role| article.roles().get(role));
        let named = role.is_some_and(|role| typed::is_said_by_name(role.word(), article.name(), field, &text));
        if (spot.role, spot.field) == (None, "price") {
            let day = article.get(Spot::of(None, "priced_on"));
            return day.as_ref().and_then(Value::word).map_or_else(|| "with its currency".to_owned(), |day| format!("of {day}"));
        }
        if let Some(beside) = self.beside(spot) {
            return beside;
        }
        let Kind::Number(unit) = field.kind else {
            return match field.kind {
                _ if named => NAMED.to_owned(),
                Kind::List(_) => "parted by commas".to_owned(),
                Kind::Count if spot.field == "poles" => "such as 12N14P, or 14".to_owned(),
                Kind::Count => field.plausible.map_or_else(String::new, |(low, high)| format!("{low} to {high}")),
                _ => String::new(),
            };
        };
        if named {
            return format!("{}   {NAMED}", unit.symbol);
        }
        if let (Some(_), Ok(Some(value))) = (typed::in_other_unit(&text, field), typed::read(&text, field)) {
            return format!("= {} {}", (unit.decimal(value.steps().unwrap_or_default()) * 1e4).round() / 1e4, unit.symbol);
        }
        field.plausible.map_or_else(|| unit.symbol.to_owned(), |(low, high)| format!("{}   {low} to {high}", unit.symbol))
    }

    /// What is typed together with a field: how, or what stands there by now.
    fn beside(&self, spot: Spot) -> Option<String> {
        let article = &self.entering.article;
        let (other, says, way) = match spot.field {
            "cells_min" => return article.upper_end(spot).map(|_| "such as 4-6S, or 6S".to_owned()),
            "pattern" => ("thread", "thread: ", "such as 16x16 M3"),
            "current_burst_a" => ("burst_s", "A   seconds: ", "A   such as 41 A/10 s"),
            "lead_awg" => ("lead_length_mm", "AWG   length in mm: ", "AWG   such as 20, 150 mm"),
            _ => return None,
        };
        let other = spot.beside(other);
        article.field(other)?;
        let held = article.shown(other);
        Some(if held.is_empty() { way.to_owned() } else { format!("{says}{held}") })
    }

    /// What is wrong, once somebody has been there.
    fn remark(&self, spot: Spot) -> Option<String> {
        let entering = self.entering;
        if let Some(text) = entering.drafts.get(&spot) {
            return entering.article.read(spot, text).err().map(|remark| said(&remark));
        }
        let seen = entering.tried || entering.was.is_some() || entering.touched.contains(&spot);
        let found = self.remarks.iter().find(|(place, _)| *place == spot).filter(|_| seen);
        found.map(|(_, remark)| said(remark))
    }

    fn hindered(&self) -> Vec<String> {
        let entering = self.entering;
        let role = |spot: &Spot| spot.role.and_then(|role| entering.article.roles().get(role)).map(Role::word);
        let told = |(spot, remark): &(Spot, Remark)| {
            let field = title_of(spot.inner.unwrap_or(spot.field));
            match role(spot) {
                Some(role) if entering.article.roles().len() > 1 => format!("{field} of the {role}: {}", said(remark)),
                _ => format!("{field}: {}", said(remark)),
            }
        };
        let unread = entering.drafts.iter().filter_map(|(spot, text)| {
            let remark = entering.article.read(*spot, text).err()?;
            Some((*spot, remark))
        });
        let drafted: Remarks = unread.collect();
        let of_record = self.remarks.iter().filter(|(spot, _)| !entering.drafts.contains_key(spot));
        drafted.iter().chain(of_record).map(told).collect()
    }
}

fn said(remark: &Remark) -> String {
    if remark.hint.is_empty() { format!("{}.", remark.reason) } else { format!("{}; {}.", remark.reason, remark.hint) }
}

/// Said of a figure that stands in the name.
const NAMED: &str = "from the name";
/// International inch.
const MM_PER_INCH: f64 = 25.4;
