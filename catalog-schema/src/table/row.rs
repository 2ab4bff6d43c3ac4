//! One row: its cells by field, and the part or kit that they make.

use std::{collections::BTreeMap, str::FromStr};

use csv::StringRecord;
use jiff::civil::Date;

use super::{
    KIND, KIT,
    aside::RefusedRow,
    cell::{self, Fault},
    head::Mapping,
    sheet::Record,
    write::word,
};
use crate::{
    description,
    diagnostic::{Diagnostic, did_you_mean},
    kit::{Kit, KitItem},
    part::{Basis, Part, PastPrice, Role, slug},
    quantity::{Grams, Money},
    validate::{self, Issue, Step},
    value::{Describe as _, Field, Kind, Value},
};

/// The fields of a kit's item.
const ITEM: &[Field] = &[
    Field { name: "part", about: "The part's id.", kind: Kind::Word, plausible: None },
    Field { name: "count", about: "How many pieces.", kind: Kind::Count, plausible: None },
    Field { name: "state", about: "Its state in the box.", kind: Kind::Word, plausible: None },
];
const CONTENTS: Field =
    Field { name: "contents", about: "What is in the box.", kind: Kind::List(&Kind::Record(ITEM)), plausible: None };
/// The fields of an earlier price.
const PAST: &[Field] = &[
    Field { name: "price", about: "Amount with its currency.", kind: Kind::Money, plausible: None },
    Field { name: "priced_on", about: "Day of the price.", kind: Kind::Day, plausible: None },
    Field { name: "supplier", about: "Who asked it.", kind: Kind::Word, plausible: None },
];
const EARLIER: Field =
    Field { name: "earlier_prices", about: "Earlier prices.", kind: Kind::List(&Kind::Record(PAST)), plausible: None };
const PIECES: Field = Field { name: "pieces", about: "Pieces in a pack.", kind: Kind::Count, plausible: None };
const RETIRED: Field = Field { name: "retired", about: "No longer sold.", kind: Kind::Flag, plausible: None };

/// What a row is.
pub(super) enum Made {
    Part(Part),
    /// A further role of the part of this id.
    Role(String, Role),
    Kit(Kit),
}

/// A row in the making, with all that is wrong with it.
pub(super) struct Row<'r> {
    file: &'r str,
    line: u32,
    mapping: &'r Mapping,
    record: &'r StringRecord,
    pub(super) problems: Vec<Diagnostic>,
    /// Is something in it wrong, beside what it does not say?
    is_wrong: bool,
}

impl<'r> Row<'r> {
    pub(super) fn of(file: &'r str, record: &'r Record, mapping: &'r Mapping) -> Self {
        let mut row = Self { file, line: record.line, mapping, record: &record.cells, problems: Vec::new(), is_wrong: false };
        if record.torn {
            let fault = Fault::new(
                "a quotation mark opens here and nothing closes it: the row holds all that follows",
                "close it, or write inch or in for an inch sign at the beginning of a cell",
            );
            let last = mapping.fields.get(record.cells.len().saturating_sub(1)).cloned().flatten();
            row.fault(last.as_deref().unwrap_or(KIND), fault);
        } else if record.cells.len() > mapping.fields.len() {
            let more = record.cells.len() - mapping.fields.len();
            let hint = "put cells with the sign between columns in quotation marks, or name the column in the head";
            row.fault(KIND, Fault::new(format!("{more} more cells than columns"), hint));
        }
        row
    }

    /// The row to be kept aside, if anything is wrong with it.
    pub(super) fn refused(self) -> Option<RefusedRow> {
        let cells = self.record.iter().map(str::to_owned).collect();
        let refused = || RefusedRow { line: self.line, cells, problems: self.problems.clone(), unsaid: !self.is_wrong };
        (!self.problems.is_empty()).then(refused)
    }

    /// Notes that the part's id, made of its name where no column holds it, cannot be.
    pub(super) fn wrong_id(&mut self, id: &str, reason: String) {
        let field = if self.mapping.column("id").is_some() { "id" } else { "name" };
        self.fault(field, Fault::new(reason, "give the part an id of its own, and its first row a name"));
        if let Some(problem) = self.problems.last_mut() {
            problem.part = Some(id.to_owned());
        }
    }

    /// Line of the table.
    pub(super) const fn line(&self) -> u32 {
        self.line
    }

    /// The cell of a field, unless it is empty.
    fn cell(&self, field: &str) -> Option<&str> {
        let cell = self.record.get(self.mapping.column(field)?)?.trim();
        (!cell.is_empty()).then(|| word(cell))
    }

    fn unit(&self, field: &str) -> Option<&str> {
        self.mapping.units.get(self.mapping.column(field)?)?.as_deref()
    }

    fn fault(&mut self, field: &str, fault: Fault) {
        self.unsaid(field, fault);
        self.is_wrong = true;
    }

    /// Notes that the row does not say what is needed.
    pub(super) fn unsaid(&mut self, field: &str, fault: Fault) {
        let at = self.mapping.column(field).unwrap_or(0);
        self.problems.push(Diagnostic {
            file: self.file.to_owned(),
            line: self.line,
            column: u32::try_from(at + 1).unwrap_or(u32::MAX),
            part: self.cell("id").map(str::to_owned),
            field: Some(field.to_owned()),
            reason: fault.reason,
            hint: Some(fault.hint),
        });
    }

    /// A cell read for a field; a fault is kept.
    pub(super) fn value(&mut self, field: &Field) -> Option<Value> {
        let cell = self.cell(field.name)?;
        match cell::read(cell, field, self.unit(field.name)) {
            Ok(value) => Some(value),
            Err(fault) => {
                self.fault(field.name, fault);
                None
            }
        }
    }

    pub(super) fn text(&self, field: &str) -> Option<String> {
        self.cell(field).map(str::to_owned)
    }

    /// What the row makes; whoever takes it looks at the problems first.
    pub(super) fn made(&mut self) -> Option<Made> {
        let kind = self.text(KIND).or_else(|| self.mapping.kind.clone());
        let Some(kind) = kind else {
            self.unsaid(KIND, Fault::new("the row does not say what it is", format!("write one of: {}", Role::WORDS.join(", "))));
            return None;
        };
        if kind.eq_ignore_ascii_case(KIT) {
            return Some(Made::Kit(self.kit()));
        }
        let Some(mut role) = Role::of_kind(kind.trim()).or_else(|| Role::of_kind(&kind.replace(['-', '_'], " "))) else {
            let hint = did_you_mean(&kind.to_lowercase(), Role::WORDS.iter().copied())
                .map_or_else(|| format!("write one of: {}", Role::WORDS.join(", ")), |meant| format!("did you mean {meant}?"));
            self.fault(KIND, Fault::new(format!("there is no kind {kind:?}"), hint));
            return None;
        };
        self.fill(&mut role);
        match (self.text("id"), self.cell("name")) {
            (Some(id), None) => Some(Made::Role(id, role)),
            _ => Some(Made::Part(self.part(role))),
        }
    }

    /// Gives a role what its cells say; cells of other kinds are faults.
    fn fill(&mut self, role: &mut Role) {
        for field in role.fields() {
            let Some(value) = self.value(field) else { continue };
            if !role.set(field.name, Some(&value)) {
                let reason = format!("{:?} is none that the field can hold", self.cell(field.name).unwrap_or_default());
                self.fault(field.name, Fault::new(reason, field.about.trim()));
            }
        }
        let strange: Vec<String> = self
            .mapping
            .fields
            .iter()
            .flatten()
            .filter(|name| !description::PART.contains(&name.as_str()) && *name != KIND && *name != CONTENTS.name)
            .filter(|name| role.fields().iter().all(|field| field.name != name.as_str()) && self.cell(name).is_some())
            .cloned()
            .collect();
        for name in strange {
            let fault = Fault::new(
                format!("a {} has no field {name}", role.word()),
                "leave the cell empty, or give the row another kind",
            );
            self.fault(&name, fault);
        }
    }

    fn part(&mut self, role: Role) -> Part {
        let name = self.text("name").unwrap_or_default();
        if name.is_empty() {
            self.unsaid("name", Fault::new("the part has no name", "write its name as the maker prints it"));
        }
        let maker = self.text("maker");
        let id = self.text("id").unwrap_or_else(|| slug(maker.as_deref(), &name));
        let mass = self.value(&description::MASS).and_then(|mass| Grams::from_value(&mass));
        let part = Part {
            id,
            name,
            maker,
            mass_g: mass,
            price: self.price(),
            priced_on: self.day(),
            supplier: self.text("supplier"),
            link: self.text("link"),
            pieces: self.pieces(),
            retired: self.retired(),
            fills: vec![role],
            source: self.text("source"),
            sources: self.pairs("sources").into_iter().collect(),
            basis: self.basis(),
            typed: self.pairs("typed").into_iter().collect(),
            earlier_prices: self.earlier_prices(),
            note: self.text("note"),
        };
        self.check(&part, 0);
        part
    }

    fn kit(&mut self) -> Kit {
        let contents = self.value(&CONTENTS).map_or_else(Vec::new, |value| value.items().iter().map(item).collect());
        let name = self.text("name").unwrap_or_default();
        let maker = self.text("maker");
        let kit = Kit {
            id: self.text("id").unwrap_or_else(|| slug(maker.as_deref(), &name)),
            name,
            maker,
            price: self.price(),
            priced_on: self.day(),
            supplier: self.text("supplier"),
            retired: self.retired(),
            contents,
            earlier_prices: self.earlier_prices(),
            note: self.text("note"),
        };
        self.issues(validate::kit(&kit));
        kit
    }

    /// What the checks of a catalogue say about a part, from its role `from` on.
    pub(super) fn check(&mut self, part: &Part, from: usize) {
        let mut issues = validate::part(part);
        let of_earlier = |issue: &Issue| matches!(issue.path.as_slice(), [_, Step::Item(at), ..] if *at < from);
        issues.retain(|issue| !of_earlier(issue) && (from == 0 || matches!(issue.path.get(1), Some(Step::Item(_)))));
        self.issues(issues);
    }

    pub(super) fn issues(&mut self, issues: Vec<Issue>) {
        for issue in issues {
            let keys = issue.path.iter().filter_map(|step| if let Step::Key(key) = step { Some(key.as_str()) } else { None });
            let known: Vec<&str> = keys.filter(|key| *key != "fills").collect();
            let field = known.iter().find(|key| self.mapping.column(key).is_some()).or(known.first()).copied().unwrap_or(KIND);
            // A cell that could not be read is told once.
            if !self.problems.iter().any(|problem| problem.field.as_deref() == Some(field)) {
                self.fault(field, Fault::new(issue.reason, issue.hint));
            }
        }
    }

    fn pieces(&mut self) -> Option<u32> {
        self.value(&PIECES).and_then(|value| u32::from_value(&value))
    }

    fn retired(&mut self) -> bool {
        self.value(&RETIRED).and_then(|value| value.flag()).unwrap_or(false)
    }

    /// `17.90 EUR`, `17,90 EUR`, or a bare amount under a head that names the currency.
    fn price(&mut self) -> Option<Money> {
        let cell = self.cell("price")?;
        let unit = self.unit("price").map(str::to_uppercase);
        let (amount, currency) = match cell.rsplit_once([' ', '\u{a0}']) {
            Some((amount, currency)) => (amount, Some(currency.to_uppercase())),
            None => (cell, unit),
        };
        let currency = currency.map(|currency| if currency == "€" { "EUR".to_owned() } else { currency });
        let amount = if amount.contains('.') { amount.to_owned() } else { amount.replace(',', ".") };
        let read = currency.and_then(|currency| Money::from_str(&format!("{} {currency}", amount.trim())).ok());
        if read.is_none() {
            let reason = format!("{cell:?} is no price");
            self.fault(
                "price",
                Fault::new(reason, "write amount and currency, such as 17.90 EUR, or name the currency in the head: price (EUR)"),
            );
        }
        read
    }

    /// `2026-08-14`, or `14.8.2026`; what could be two days is refused.
    fn day(&mut self) -> Option<Date> {
        let cell = self.cell("priced_on")?;
        let dotted = || {
            let mut numbers = cell.split('.').map(|number| number.trim().parse::<i16>().ok());
            let (day, month, year) = (numbers.next()??, numbers.next()??, numbers.next()??);
            // A year of two figures may be one of another century, or the day.
            (1000..).contains(&year).then_some(())?;
            Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()
        };
        let read = cell.parse::<Date>().ok().or_else(dotted);
        if read.is_none() {
            let reason = format!("{cell:?} is no day that can be read in one way only");
            self.fault("priced_on", Fault::new(reason, "write year, month, day, such as 2026-08-14"));
        }
        read
    }

    fn earlier_prices(&mut self) -> Vec<PastPrice> {
        self.value(&EARLIER).map_or_else(Vec::new, |value| value.items().iter().filter_map(past).collect())
    }

    fn basis(&mut self) -> BTreeMap<String, Basis> {
        let mut basis = BTreeMap::new();
        for (field, said) in self.pairs("basis") {
            match Basis::ALL.iter().find(|known| known.word().eq_ignore_ascii_case(&said)) {
                Some(known) => drop(basis.insert(field, *known)),
                None => {
                    self.fault("basis", Fault::new(format!("{said:?} is no basis"), "write field: measured, or field: estimate"));
                }
            }
        }
        basis
    }

    /// `field: words; field: words`.
    fn pairs(&mut self, of: &str) -> Vec<(String, String)> {
        let Some(cell) = self.text(of) else { return Vec::new() };
        let (mut pairs, mut faults) = (Vec::new(), Vec::new());
        for part in cell::parted(&cell, ';').iter().filter(|part| !part.trim().is_empty()) {
            match part.split_once(':') {
                Some((field, said)) => pairs.push((field.trim().to_owned(), cell::unguarded(said))),
                None => faults.push(Fault::new(format!("{:?} names no field", part.trim()), "write field: words; field: words")),
            }
        }
        for fault in faults {
            self.fault(of, fault);
        }
        pairs
    }
}

fn past(value: &Value) -> Option<PastPrice> {
    Some(PastPrice {
        price: value.field("price").and_then(Money::from_value)?,
        priced_on: value.field("priced_on").and_then(Date::from_value),
        supplier: value.field("supplier").and_then(Value::word).map(str::to_owned),
    })
}

fn item(value: &Value) -> KitItem {
    let field = |name: &str| value.field(name);
    KitItem {
        part: field("part").and_then(Value::word).unwrap_or_default().to_owned(),
        count: field("count").and_then(u32::from_value).unwrap_or(1),
        state: field("state").and_then(Value::word).map(str::to_owned),
    }
}
