//! A part or a kit as it is entered: every place of its record, what stands there, and what is typed there.

use propwright_schema::{
    kit::Kit,
    part::{Basis, Part, Role, slug},
    typed::{self, inner},
    validate::{FieldRemark, Remark, kit_remarks, part_remarks},
    value::{Field, Kind, Record as _, Value},
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

    /// The description of a place.
    pub fn field(&self, spot: Spot) -> Option<&'static Field> {
        let field = self.fields(spot.role).iter().find(|field| field.name == spot.field)?;
        match spot.inner {
            None => Some(field),
            Some(name) => inner(field).iter().find(|field| field.name == name),
        }
    }

    /// What stands in a place.
    pub fn get(&self, spot: Spot) -> Option<Value> {
        let whole = self.whole(spot)?;
        let Some(name) = spot.inner else { return Some(whole) };
        let record = spot.item.map_or(Some(&whole), |item| whole.items().get(item))?;
        record.field(name).cloned()
    }

    /// Puts a value in a place, or takes it out. Says whether the place can hold it; if not, nothing changes.
    pub fn set(&mut self, spot: Spot, value: Option<Value>) -> bool {
        let Some(name) = spot.inner else { return self.set_whole(spot, value.as_ref()) };
        let mut whole = self.whole(spot);
        let record = match (&mut whole, spot.item) {
            (Some(Value::List(items)), Some(item)) => items.get_mut(item),
            (Some(record), None) => Some(record),
            (None, None) => Some(whole.insert(Value::Record(Vec::new()))),
            _ => None,
        };
        let Some(Value::Record(fields)) = record else { return false };
        fields.retain(|(known, _)| *known != name);
        fields.extend(value.map(|value| (name, value)));
        let nothing = spot.item.is_none() && fields.is_empty();
        self.set_whole(spot, whole.as_ref().filter(|_| !nothing))
    }

    /// Adds an empty record behind the others of a list.
    pub fn add(&mut self, spot: Spot) -> bool {
        let mut items = self.whole(spot).map(|whole| whole.items().to_vec()).unwrap_or_default();
        items.push(Value::Record(Vec::new()));
        self.set_whole(spot, Some(&Value::List(items)))
    }

    /// Takes a record out of a list.
    pub fn remove(&mut self, spot: Spot, item: usize) -> bool {
        let mut items = self.whole(spot).map(|whole| whole.items().to_vec()).unwrap_or_default();
        if item >= items.len() {
            return false;
        }
        items.remove(item);
        let left = (!items.is_empty()).then_some(Value::List(items));
        self.set_whole(spot, left.as_ref())
    }

    /// How many records a list holds.
    pub fn len(&self, spot: Spot) -> usize {
        match self.whole(spot) {
            Some(Value::List(items)) => items.len(),
            _ => 0,
        }
    }

    /// What stands in a place, as it was typed where that is known.
    pub fn shown(&self, spot: Spot) -> String {
        let Some(value) = self.get(spot) else { return String::new() };
        let as_typed = match self {
            Self::Part(part) if spot.inner.is_none() => part.as_typed(spot.field, &value).map(str::to_owned),
            _ => None,
        };
        as_typed.unwrap_or_else(|| typed::shown(&value))
    }

    /// The value of a text for a place; `None` for a blank one.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn read(&self, spot: Spot, text: &str) -> Result<Option<Value>, Remark> {
        self.field(spot).map_or(Ok(None), |field| typed::read(text, field))
    }

    /// Takes a text that can be read; a figure in another unit is kept as it was typed beside what it comes to.
    pub fn take(&mut self, spot: Spot, text: &str) -> bool {
        let Ok(value) = self.read(spot, text) else { return false };
        let other_unit = self.field(spot).is_some_and(|field| typed::is_of_other_unit(text, field));
        let held = value.is_some();
        if !self.set(spot, value) {
            return false;
        }
        if let (Self::Part(part), None) = (self, spot.inner) {
            part.typed.remove(spot.field);
            if other_unit {
                part.typed.insert(spot.field.to_owned(), text.trim().to_owned());
            }
            if held && part.basis_of(spot.field) == Some(Basis::Unpublished) {
                part.basis.remove(spot.field);
            }
        }
        true
    }

    /// Who vouches for a figure; `None` means the maker.
    pub fn basis(&self, spot: Spot) -> Option<Basis> {
        match self {
            Self::Part(part) if spot.inner.is_none() => part.basis_of(spot.field),
            _ => None,
        }
    }

    /// Says who vouches for a figure; what nobody published has none.
    pub fn vouch(&mut self, spot: Spot, basis: Option<Basis>) {
        if basis == Some(Basis::Unpublished) {
            self.set(spot, None);
        }
        if let Self::Part(part) = self {
            part.typed.retain(|field, _| field != spot.field || basis != Some(Basis::Unpublished));
            match basis {
                Some(basis) => part.basis.insert(spot.field.to_owned(), basis),
                None => part.basis.remove(spot.field),
            };
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

    fn whole(&self, spot: Spot) -> Option<Value> {
        match (self, spot.role) {
            (Self::Part(part), None) => part.get(spot.field),
            (Self::Part(part), Some(role)) => part.fills.get(role)?.get(spot.field),
            (Self::Kit(kit), _) => kit.get(spot.field),
        }
    }

    fn set_whole(&mut self, spot: Spot, value: Option<&Value>) -> bool {
        match (self, spot.role) {
            (Self::Part(part), None) => part.set(spot.field, value),
            (Self::Part(part), Some(role)) => part.fills.get_mut(role).is_some_and(|role| role.set(spot.field, value)),
            (Self::Kit(kit), _) => kit.set(spot.field, value),
        }
    }
}

/// Is it a figure for which somebody vouches: the maker, the user's own measuring, or nobody yet?
pub const fn has_basis(field: &Field) -> bool {
    matches!(field.kind, Kind::Number(_) | Kind::Count | Kind::List(Kind::Number(_)))
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_place_of_every_kind_takes_what_it_shows() {
        for kind in Role::WORDS {
            let mut article = Article::of_kind(kind).unwrap();
            let fields: Vec<(Option<usize>, &Field)> = [None, Some(0)]
                .into_iter()
                .flat_map(|role| article.fields(role).iter().map(move |field| (role, field)))
                .collect();
            for (role, field) in fields {
                let spot = Spot::of(role, field.name);
                if inner(field).is_empty() {
                    continue;
                }
                let in_list = matches!(field.kind, Kind::List(_));
                let item = in_list.then(|| {
                    assert!(article.add(spot), "{kind} {}", field.name);
                    article.len(spot) - 1
                });
                for within in inner(field) {
                    let place = spot.within(item, within.name);
                    if let Kind::Choice(words) = within.kind {
                        assert!(article.take(place, words[0]), "{kind} {} {}", field.name, within.name);
                        assert_eq!(article.shown(place), words[0]);
                    }
                }
                assert!(item.is_none_or(|item| article.remove(spot, item)));
                assert_eq!(article.len(spot), 0);
            }
        }
    }

    #[test]
    fn what_is_typed_in_another_unit_is_shown_so_until_it_is_typed_anew() {
        let mut motor = Article::of_kind("motor").unwrap();
        let mass = Spot::of(None, "mass_g");
        assert!(motor.take(mass, "1.13 oz"));
        assert_eq!(motor.shown(mass), "1.13 oz");
        assert!(motor.take(mass, "32"));
        assert_eq!(motor.shown(mass), "32");
        assert!(!motor.take(mass, "heavy"));
        assert_eq!(motor.shown(mass), "32", "what cannot be read changes nothing");
    }

    #[test]
    fn what_is_not_published_has_no_figure_and_a_figure_ends_it() {
        let mut motor = Article::of_kind("motor").unwrap();
        let ohm = Spot::of(Some(0), "resistance_mohm");
        assert!(motor.take(ohm, "48"));
        motor.vouch(ohm, Some(Basis::Unpublished));
        assert_eq!((motor.get(ohm), motor.basis(ohm)), (None, Some(Basis::Unpublished)));
        assert!(motor.take(ohm, "52"));
        motor.vouch(ohm, Some(Basis::Measured));
        assert_eq!((motor.shown(ohm).as_str(), motor.basis(ohm)), ("52", Some(Basis::Measured)));
    }

    #[test]
    fn a_kit_lists_what_is_in_the_box() {
        let mut kit = Article::of_kind(KIT).unwrap();
        let contents = Spot::of(None, "contents");
        assert!(kit.add(contents));
        assert!(kit.take(contents.within(Some(0), "part"), "vellacre-2207-1950-kv"));
        assert!(kit.take(contents.within(Some(0), "count"), "4"));
        let Article::Kit(kit) = kit else { unreachable!("it is a kit") };
        assert_eq!((kit.contents[0].part.as_str(), kit.contents[0].count), ("vellacre-2207-1950-kv", 4));
    }
}
