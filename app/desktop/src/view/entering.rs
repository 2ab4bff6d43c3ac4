//! The form of a part or kit that is being entered: made from the description of its record.

use propwright_engine::explain::field_words;
use propwright_schema::{
    catalogue::{Catalogue, CatalogueFile},
    look_up::how_to_find,
    part::{Basis, Role},
    typed::{self, inner},
    validate::Remark,
    value::{Field, Kind, Value},
};

use crate::{
    entering::{Article, Spot, has_basis},
    state::Entering,
};

/// What is drawn of an article that is being entered.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Form {
    /// "A new motor", "Change Duskmarl 50".
    pub title: String,
    /// Fields that belong together.
    pub groups: Vec<Group>,
    /// What hinders keeping it, a line each.
    pub hindered: Vec<String>,
    /// What is worth knowing before it is kept.
    pub notes: Vec<String>,
    /// Prices of earlier days.
    pub earlier: Vec<String>,
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

/// What stands first, and what is said by the shop.
const FIRST: [&str; 4] = ["name", "maker", "id", "mass_g"];
const SHOP: [&str; 6] = ["price", "priced_on", "supplier", "link", "pieces", "retired"];

/// The form; `mine` is the catalogue file that the article goes into, `all` what is in force.
pub fn form(entering: &Entering, mine: Option<&CatalogueFile>, all: &Catalogue) -> Form {
    let article = &entering.article;
    let maker = Maker { entering, remarks: remarks(entering, mine, all) };
    let around = |names: &dyn Fn(&str) -> bool| -> Vec<Line> {
        let fields = article.fields(None).iter().filter(|field| names(field.name));
        fields.map(|field| maker.line(Spot::of(None, field.name), field)).collect()
    };
    let mut groups = vec![Group { title: "What it is".to_owned(), role: None, lines: around(&|name| FIRST.contains(&name)) }];
    groups.extend(article.roles().iter().enumerate().map(|(at, role)| Group {
        title: capital(role.word()),
        role: Some(at),
        lines: role.fields().iter().map(|field| maker.line(Spot::of(Some(at), field.name), field)).collect(),
    }));
    let rest = around(&|name| !FIRST.contains(&name) && !SHOP.contains(&name));
    let shop = Group { title: "Where it is sold".to_owned(), role: None, lines: around(&|name| SHOP.contains(&name)) };
    if matches!(article, Article::Kit(_)) {
        groups.push(Group { title: "The box, and notes".to_owned(), role: None, lines: rest });
        groups.push(shop);
    } else {
        groups.push(shop);
        groups.push(Group { title: "Source and notes".to_owned(), role: None, lines: rest });
    }
    Form { title: title(entering), groups, hindered: maker.hindered(), notes: notes(entering, all), earlier: earlier(article) }
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
            let hint = "give the id of a part, as its form shows it".to_owned();
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
        let about = field.about.trim();
        let find = how_to_find(field);
        let help = if about.contains(find) { about.to_owned() } else { format!("{about} {find}") };
        let behind = self.behind(spot, field);
        let name = title_of(field.name);
        let vouched = (spot.inner.is_none() && spot.field != "pieces" && has_basis(field)).then(|| article.basis(spot));
        Line { spot, name, help, control, behind, remark: self.remark(spot), vouched }
    }

    /// Unit and range; what a figure that is typed in another unit comes to.
    fn behind(&self, spot: Spot, field: &Field) -> String {
        let Kind::Number(unit) = field.kind else {
            return if matches!(field.kind, Kind::List(_)) { "parted by commas".to_owned() } else { String::new() };
        };
        let text = self.entering.drafts.get(&spot).cloned().unwrap_or_else(|| self.entering.article.shown(spot));
        if typed::is_of_other_unit(&text, field)
            && let Ok(Some(value)) = typed::read(&text, field)
        {
            return format!("= {} {}", typed::shown(&value), unit.symbol);
        }
        field.plausible.map_or_else(|| unit.symbol.to_owned(), |(low, high)| format!("{}   {low} to {high}", unit.symbol))
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

/// The name of a field in words. Without their units some fields would be called alike: a voltage, a time and a burst are told.
fn title_of(field: &str) -> String {
    let words = match field {
        "current_a" => return "Lasting current".to_owned(),
        "current_burst_a" => return "Burst current".to_owned(),
        _ => capital(&field_words(field)).replace("Kv", "KV"),
    };
    let told =
        MEANT.iter().filter(|_| !field.contains("_per_")).find(|(ending, _)| field.ends_with(ending)).map(|(_, meant)| *meant);
    told.filter(|meant| !words.to_lowercase().ends_with(meant)).map_or_else(|| words.clone(), |meant| format!("{words}, {meant}"))
}

/// What the unit at the end of a field's name stands for.
const MEANT: [(&str, &str); 8] = [
    ("_burst_a", "burst"),
    ("_a", "current"),
    ("_v", "volts"),
    ("_s", "time"),
    ("_mohm", "resistance"),
    ("_w", "power"),
    ("_mw", "power"),
    ("_mhz", "frequency"),
];

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use propwright_schema::{kit::Kit, part::Part, value::Record as _};

    #[test]
    fn no_two_fields_of_a_form_are_called_alike() {
        for (kind, fields) in Role::KINDS.iter().copied().chain([("part", Part::FIELDS), ("kit", Kit::FIELDS)]) {
            let names: Vec<String> = fields.iter().map(|field| title_of(field.name)).collect();
            let again: Vec<_> = names.iter().enumerate().filter(|(at, name)| names[..*at].contains(name)).collect();
            assert!(again.is_empty(), "{kind}: {again:?}");
        }
    }
}
