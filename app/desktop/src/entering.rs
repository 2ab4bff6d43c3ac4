//! A part or a kit as it is entered: every place of its record, what stands there, and what is typed there.

mod places;

use propwright_schema::{
    kit::Kit,
    part::{Part, Role, slug},
    validate::{FieldRemark, kit_remarks, part_remarks},
    value::{Field, Kind, Record as _},
};
use serde::{Deserialize, Serialize};

/// What a catalogue holds: a part, or a kit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Article {
    /// A part.
    Part(Box<Part>),
    /// A kit.
    Kit(Box<Kit>),
}

/// A place of a record: a field, or a field of a record within it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Spot {
    /// The role whose field it is; absent for what stands around the roles.
    pub role: Option<usize>,
    /// The field.
    pub field: &'static str,
    /// The item of a list of records.
    pub item: Option<usize>,
    /// The field of the record within.
    pub inner: Option<&'static str>,
}

impl Spot {
    /// A field as a whole.
    pub const fn of(role: Option<usize>, field: &'static str) -> Self {
        Self { role, field, item: None, inner: None }
    }

    /// Another field of the same record.
    #[must_use]
    pub const fn beside(self, name: &'static str) -> Self {
        match self.inner {
            Some(_) => Self { inner: Some(name), ..self },
            None => Self { field: name, ..self },
        }
    }

    /// A field of a record within.
    #[must_use]
    pub const fn within(self, item: Option<usize>, inner: &'static str) -> Self {
        Self { item, inner: Some(inner), ..self }
    }
}

/// The word by which a kit is begun; parts are begun by the words of [`Role::WORDS`].
pub const KIT: &str = "kit";

impl Article {
    /// An article of a kind of which nothing is known yet; `None` for a kind that there is not.
    pub fn of_kind(kind: &str) -> Option<Self> {
        if kind == KIT {
            let kit = Kit {
                id: String::new(),
                name: String::new(),
                maker: None,
                price: None,
                priced_on: None,
                supplier: None,
                retired: false,
                contents: Vec::new(),
                earlier_prices: Vec::new(),
                note: None,
            };
            return Some(Self::Kit(Box::new(kit)));
        }
        Some(Self::Part(Box::new(Part { fills: vec![Role::of_kind(kind)?], ..bare() })))
    }

    /// Its id.
    pub fn id(&self) -> &str {
        match self {
            Self::Part(part) => &part.id,
            Self::Kit(kit) => &kit.id,
        }
    }

    /// Its name.
    pub fn name(&self) -> &str {
        match self {
            Self::Part(part) => &part.name,
            Self::Kit(kit) => &kit.name,
        }
    }

    /// What it is: "motor", "flight controller and speed controller", "kit".
    pub fn noun(&self) -> String {
        match self {
            Self::Part(part) => part.fills.iter().map(Role::word).collect::<Vec<_>>().join(" and "),
            Self::Kit(_) => KIT.to_owned(),
        }
    }

    /// The id that goes with its maker and name.
    pub fn usual_id(&self) -> String {
        let (maker, name) = match self {
            Self::Part(part) => (part.maker.as_deref(), &part.name),
            Self::Kit(kit) => (kit.maker.as_deref(), &kit.name),
        };
        slug(maker, name)
    }

    /// Calls it by another id.
    pub fn call(&mut self, id: String) {
        match self {
            Self::Part(part) => part.id = id,
            Self::Kit(kit) => kit.id = id,
        }
    }

    /// Becomes a copy: with a name and an id of its own, without the prices of earlier days.
    pub fn make_copy(&mut self) {
        let (name, earlier) = match self {
            Self::Part(part) => (&mut part.name, &mut part.earlier_prices),
            Self::Kit(kit) => (&mut kit.name, &mut kit.earlier_prices),
        };
        *name = format!("{name} copy");
        earlier.clear();
        let usual = self.usual_id();
        self.call(usual);
    }

    /// The roles of a part.
    pub fn roles(&self) -> &[Role] {
        match self {
            Self::Part(part) => &part.fills,
            Self::Kit(_) => &[],
        }
    }

    /// The fields of a role, or those around the roles.
    pub fn fields(&self, role: Option<usize>) -> &'static [Field] {
        match (self, role) {
            (Self::Part(part), Some(role)) => part.fills.get(role).map_or(&[], Role::fields),
            (Self::Part(_), None) => Part::FIELDS,
            (Self::Kit(_), None) => Kit::FIELDS,
            (Self::Kit(_), Some(_)) => &[],
        }
    }

    /// All for which it would be refused if it were written and read again.
    pub fn remarks(&self) -> Vec<FieldRemark> {
        match self {
            Self::Part(part) => part_remarks(part),
            Self::Kit(kit) => kit_remarks(kit),
        }
    }

    /// Keeps the price of an earlier state among the earlier ones.
    pub fn keep_price_of(&mut self, before: &Self) {
        match (self, before) {
            (Self::Part(part), Self::Part(before)) => part.keep_price_of(before),
            (Self::Kit(kit), Self::Kit(before)) => kit.keep_price_of(before),
            _ => {}
        }
    }
}

/// Is it a figure for which somebody vouches: the maker, the user's own measuring, or nobody yet?
pub fn is_vouched(field: &Field) -> bool {
    field.name != "pieces" && matches!(field.kind, Kind::Number(_) | Kind::Count | Kind::List(Kind::Number(_)))
}

fn bare() -> Part {
    Part {
        id: String::new(),
        name: String::new(),
        maker: None,
        mass_g: None,
        price: None,
        priced_on: None,
        supplier: None,
        link: None,
        pieces: None,
        retired: false,
        fills: Vec::new(),
        source: None,
        sources: std::collections::BTreeMap::new(),
        basis: std::collections::BTreeMap::new(),
        typed: std::collections::BTreeMap::new(),
        earlier_prices: Vec::new(),
        note: None,
    }
}
