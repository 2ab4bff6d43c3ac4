//! The site: all that a rule or derivation can read, property by property, with the reason of each value.

use std::{cell::RefCell, collections::BTreeMap, collections::BTreeSet, sync::Arc};

use propwright_schema::{
    build_list::{BuildList, Feed, Fitted},
    part::Basis,
    quantity::{Millimetres, Percent},
    value::{Describe, Record, Value},
};

use super::{
    Model,
    property::{Of, Property},
};
use crate::{
    craft::{Craft, Placed, Subject},
    estimated,
    finding::{Because, Claim, Datum, Missing, Origin, Unknown},
    interval::Interval,
    policy::{Limit, Policy},
};

/// One value of a property: of one part, or of the list as a whole.
#[derive(Debug, Clone)]
pub struct Reading {
    /// The part; absent for the list and for values of the whole craft.
    pub subject: Option<Subject>,
    /// The value, or what is not known.
    pub known: Result<Datum, Missing>,
    /// Why.
    pub because: Arc<Because>,
    /// How many of that part the line lists.
    pub count: u32,
}

impl Reading {
    fn of(subject: Option<Subject>, known: Result<Datum, Missing>, count: u32, claim: impl FnOnce(Datum) -> Claim) -> Self {
        let because = match &known {
            Ok(datum) => Because::plain(claim(datum.clone())),
            Err(missing) => Because::plain(Claim::Missing(missing.clone())),
        };
        Self { subject, known, because, count }
    }

    fn datum(&self) -> Result<&Datum, Missing> {
        self.known.as_ref().map_err(Clone::clone)
    }

    /// The value as a figure with its band; an estimate has that of its kind.
    ///
    /// # Errors
    /// When it is not known or not a figure.
    pub fn figure(&self) -> Result<Interval, Missing> {
        let figure = self.datum()?.figure().ok_or_else(|| self.strange())?;
        Ok(match &self.because.claim {
            Claim::Fact { subject: Some(subject), field, basis: Some(Basis::Estimate), .. } => {
                estimated::widened(figure, subject.slot, field)
            }
            _ => figure,
        })
    }

    /// The value as a number in SI units (or a count).
    ///
    /// # Errors
    /// When it is not known or not a figure.
    pub fn si(&self) -> Result<f64, Missing> {
        Ok(self.figure()?.si())
    }

    /// The value as a word.
    ///
    /// # Errors
    /// When it is not known or not a word.
    pub fn word(&self) -> Result<&str, Missing> {
        self.value()?.word().ok_or_else(|| self.strange())
    }

    /// The value as yes or no.
    ///
    /// # Errors
    /// When it is not known or not a flag.
    pub fn flag(&self) -> Result<bool, Missing> {
        self.value()?.flag().ok_or_else(|| self.strange())
    }

    /// The items of a list; a single value counts as a list of itself.
    ///
    /// # Errors
    /// When it is not known.
    pub fn items(&self) -> Result<&[Value], Missing> {
        Ok(self.value()?.items())
    }

    /// A fact out of an inner record of this value: whoever vouches for the whole vouches for it.
    pub fn inner(&self, subject: &Subject, field: &'static str, datum: Datum) -> Arc<Because> {
        let (basis, origin) = match &self.because.claim {
            Claim::Fact { basis, origin, .. } => (*basis, *origin),
            _ => (None, Origin::Part),
        };
        Because::plain(Claim::Fact { subject: Some(subject.clone()), field, datum, basis, origin })
    }

    /// A figure out of an inner record of this value, with the band of an estimate where the whole is one.
    pub fn inner_figure(&self, record: &Value, field: &str) -> Option<Interval> {
        let figure = record.field(field).and_then(Interval::of)?;
        Some(match &self.because.claim {
            Claim::Fact { subject: Some(subject), basis: Some(Basis::Estimate), .. } => {
                estimated::widened(figure, subject.slot, field)
            }
            _ => figure,
        })
    }

    /// The value of a record.
    ///
    /// # Errors
    /// When it is not known or computed.
    pub fn value(&self) -> Result<&Value, Missing> {
        match self.datum()? {
            Datum::Value(value) => Ok(value),
            Datum::Figure(_) | Datum::Model(_) => Err(self.strange()),
        }
    }

    /// What a model returned.
    ///
    /// # Errors
    /// When it is not known or no model's.
    pub fn model(&self) -> Result<&Arc<Model>, Missing> {
        match self.datum()? {
            Datum::Model(model) => Ok(model),
            Datum::Figure(_) | Datum::Value(_) => Err(self.strange()),
        }
    }

    /// Does it rest on an estimate?
    pub fn is_estimated(&self) -> bool {
        self.because.is_estimated()
    }

    /// The parts concerned, as a list for an outcome.
    pub fn subjects(&self) -> Vec<Subject> {
        self.subject.iter().cloned().collect()
    }

    fn strange(&self) -> Missing {
        Missing { subject: self.subject.clone(), what: Unknown::Outside("a value of another kind".to_owned()) }
    }
}

/// The results of the derivations so far, by property.
pub(crate) type Store = BTreeMap<Property, Vec<Reading>>;

/// All that a rule or derivation can read.
pub struct Site<'a> {
    craft: &'a Craft,
    store: &'a Store,
    policy: &'a Policy,
    recorded: Option<&'a RefCell<BTreeSet<Property>>>,
}

impl<'a> Site<'a> {
    pub(crate) const fn new(craft: &'a Craft, store: &'a Store, policy: &'a Policy) -> Self {
        Self { craft, store, policy, recorded: None }
    }

    /// A site that writes down what was read.
    pub(crate) const fn recording(self, recorded: &'a RefCell<BTreeSet<Property>>) -> Self {
        Self { recorded: Some(recorded), ..self }
    }

    /// The thresholds in force.
    pub const fn policy(&self) -> &Policy {
        self.policy
    }

    /// The step of a reason that names a threshold.
    pub fn threshold(&self, limit: &Limit) -> Arc<Because> {
        self.policy.because(limit)
    }

    /// The step of a reason that names the value from which a finding is tight.
    pub fn tight_threshold(&self, limit: &Limit) -> Arc<Because> {
        self.policy.because_tight(limit)
    }

    /// All values of a property, one for each part (or one for the list as a whole).
    pub fn all(&self, property: Property) -> Vec<Reading> {
        if let Some(recorded) = self.recorded {
            recorded.borrow_mut().insert(property);
        }
        match property.of {
            Of::Part(slot) => self.craft.in_slot(slot).iter().map(|placed| of_part(self.craft, placed, property.field)).collect(),
            Of::Line(slot) => self.craft.in_slot(slot).iter().map(|placed| of_line(placed, property.field)).collect(),
            Of::Build => vec![of_build(self.craft, property.field)],
            Of::Derived => self.store.get(&property).cloned().unwrap_or_default(),
        }
    }

    /// The one value of a property; of several the first.
    ///
    /// # Errors
    /// When the slot is empty. A value that nobody published is not an error here, but of the reading's own getters.
    pub fn one(&self, property: Property) -> Result<Reading, Missing> {
        let empty = || Missing {
            subject: None,
            what: property.slot().map_or(Unknown::Outside(property.field.to_owned()), Unknown::Empty),
        };
        self.all(property).into_iter().next().ok_or_else(empty)
    }

    /// The value of a property of one part.
    ///
    /// # Errors
    /// When the part has no such property.
    pub fn of(&self, subject: &Subject, property: Property) -> Result<Reading, Missing> {
        let same = |reading: &Reading| {
            reading.subject.as_ref().is_some_and(|other| other.slot == subject.slot && other.index == subject.index)
        };
        let found = self.all(property).into_iter().find(same);
        found.ok_or_else(|| Missing { subject: Some(subject.clone()), what: Unknown::Field(property.field) })
    }
}

/// A field of a record, or the same field of each inner record for a dotted name.
fn field_of(get: impl Fn(&str) -> Option<Value>, field: &str) -> Option<Value> {
    match field.split_once('.') {
        None => get(field),
        Some((outer, inner)) => {
            let records = get(outer)?;
            Some(Value::List(records.items().iter().filter_map(|record| record.field(inner).cloned()).collect()))
        }
    }
}

fn of_part(craft: &Craft, placed: &Placed, field: &'static str) -> Reading {
    let part = &placed.subject.part;
    let value = match field {
        "id" => Some(Value::Word(part.id.clone())),
        "mass_g" => part.mass_g.map(|mass| mass.value()),
        "price" => part.price.map(|price| price.value()),
        _ => part.role(placed.subject.slot).and_then(|role| field_of(|name| role.get(name), field)),
    };
    let unknown = || Missing { subject: Some(placed.subject.clone()), what: Unknown::Field(field) };
    let subject = Some(placed.subject.clone());
    Reading::of(subject.clone(), value.map(Datum::Value).ok_or_else(unknown), placed.fitted.count, |datum| {
        let outer = field.split('.').next().unwrap_or(field);
        let (basis, own) = craft.basis_of(&placed.subject, outer);
        let origin = if own { Origin::Build } else { Origin::Part };
        Claim::Fact { subject, field, datum, basis, origin }
    })
}

fn of_line(placed: &Placed, field: &'static str) -> Reading {
    let value = line_value(&placed.fitted, field, placed.listed_here);
    let unknown = || Missing { subject: Some(placed.subject.clone()), what: Unknown::Line(field) };
    let subject = Some(placed.subject.clone());
    Reading::of(subject.clone(), value.map(Datum::Value).ok_or_else(unknown), placed.fitted.count, |datum| Claim::Fact {
        subject,
        field,
        datum,
        basis: None,
        origin: Origin::Line,
    })
}

fn line_value(fitted: &Fitted, field: &str, listed_here: bool) -> Option<Value> {
    match field {
        "count" => Some(Value::Count(i64::from(fitted.count))),
        "owned" => Some(Value::Flag(fitted.owned)),
        // A role that came along on another part's board is wired on that board.
        "feed" if !listed_here => Some(Value::Word(ON_BOARD.to_owned())),
        "feed" => fitted.feed.as_ref().map(|feed| Value::Word(feed_word(feed))),
        "uart" => fitted.uart.map(|uart| Value::Count(i64::from(uart))),
        "outputs" => fitted.outputs.as_ref().map(Describe::value),
        "between_mm" => fitted.between_mm.as_ref().map(Millimetres::value),
        "listed" => Some(Value::Flag(listed_here)),
        _ => None,
    }
}

/// The feed of a role that sits on another part's board.
pub const ON_BOARD: &str = "on board";
/// The feed of a part on the pack's own volts.
pub const PACK: &str = "pack";
/// The feed of a part that its partner feeds.
pub const PARTNER: &str = "partner";
/// The feed of a part with a battery of its own.
pub const OWN: &str = "own battery";

fn feed_word(feed: &Feed) -> String {
    match feed {
        Feed::Pack => PACK.to_owned(),
        Feed::Rail(rail) => rail.clone(),
        Feed::Partner => PARTNER.to_owned(),
        Feed::Own => OWN.to_owned(),
    }
}

fn of_build(craft: &Craft, field: &'static str) -> Reading {
    let unknown = || Missing { subject: None, what: Unknown::Line(field) };
    let value = match field {
        "unplaced" => Some(Value::List(craft.unplaced.iter().map(|line| Value::Word(line.to_string())).collect())),
        _ => build_value(&craft.build, field),
    };
    let value = value.map(Datum::Value).ok_or_else(unknown);
    Reading::of(None, value, 1, |datum| Claim::Fact { subject: None, field, datum, basis: None, origin: Origin::Build })
}

fn build_value(build: &BuildList, field: &str) -> Option<Value> {
    match field.split_once('.') {
        Some(("purpose", inner)) => build.purpose.get(inner),
        Some(("conditions", inner)) => build.conditions.get(inner),
        Some(("pilot", inner)) => build.pilot.get(inner),
        Some(("logged", inner)) => build.logged.get(inner),
        _ => match field {
            "packs" => build.packs.as_ref().map(Describe::value),
            "output_limit_percent" => build.output_limit_percent.as_ref().map(Percent::value),
            "weighed_g" => build.weighed_g.as_ref().map(Describe::value),
            "stand" => (!build.stand.is_empty()).then(|| build.stand.value()),
            _ => None,
        },
    }
}
