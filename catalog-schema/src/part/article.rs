//! What stands around the roles of a part and around the contents of a kit, as records for forms.

use crate::{
    description,
    kit::{Kit, KitItem},
    part::Part,
    value::{Describe, Field, Kind, Record, Value},
};

const fn field(name: &'static str, about: &'static str, kind: Kind) -> Field {
    Field { name, about, kind, plausible: None }
}

const ID: Field = field(
    "id",
    "Short name by which build lists call it: lower-case letters, digits and dashes. Builds that use it follow no new one.",
    Kind::Word,
);
const NAME: Field = field("name", "Name as the maker prints it.", Kind::Word);
const MAKER: Field = field("maker", "Maker, as on the label.", Kind::Word);
const PRICE: Field = field("price", "Price with its currency; of one pack where it is sold in packs.", Kind::Money);
const PRICED_ON: Field = field("priced_on", "Day of the price; prices older than some months are told as such.", Kind::Day);
const SUPPLIER: Field = field("supplier", "Who sells it: a shop, or the shelf.", Kind::Word);
const LINK: Field = field("link", "Where to find it again: an address, or a shelf.", Kind::Word);
const RETIRED: Field =
    field("retired", "No longer sold: it stays for builds that have it, and comes last in a choice.", Kind::Flag);
const NOTE: Field = field("note", "Anything else worth knowing.", Kind::Word);

impl Record for Part {
    const FIELDS: &'static [Field] = &[
        NAME,
        MAKER,
        ID,
        description::MASS,
        PRICE,
        PRICED_ON,
        SUPPLIER,
        LINK,
        Field {
            name: "pieces",
            about: "Pieces in the pack that is bought; blank means one. Propellers come by four to eight, screws by the bag.",
            kind: Kind::Count,
            plausible: Some((1.0, 10_000.0)),
        },
        RETIRED,
        field("source", "Where the figures come from, such as \"listing of 2026-08\".", Kind::Word),
        NOTE,
    ];

    fn get(&self, field: &str) -> Option<Value> {
        match field {
            "id" => filled(&self.id),
            "name" => filled(&self.name),
            "maker" => held(self.maker.as_ref()),
            "mass_g" => held(self.mass_g.as_ref()),
            "price" => held(self.price.as_ref()),
            "priced_on" => held(self.priced_on.as_ref()),
            "supplier" => held(self.supplier.as_ref()),
            "link" => held(self.link.as_ref()),
            "pieces" => held(self.pieces.as_ref()),
            "retired" => Some(self.retired.value()),
            "source" => held(self.source.as_ref()),
            "note" => held(self.note.as_ref()),
            _ => None,
        }
    }

    fn set(&mut self, field: &str, value: Option<&Value>) -> bool {
        match field {
            "id" => text(&mut self.id, value),
            "name" => text(&mut self.name, value),
            "maker" => put(&mut self.maker, value),
            "mass_g" => put(&mut self.mass_g, value),
            "price" => put(&mut self.price, value),
            "priced_on" => put(&mut self.priced_on, value),
            "supplier" => put(&mut self.supplier, value),
            "link" => put(&mut self.link, value),
            "pieces" => put(&mut self.pieces, value),
            "retired" => flag(&mut self.retired, value),
            "source" => put(&mut self.source, value),
            "note" => put(&mut self.note, value),
            _ => false,
        }
    }
}

/// Fields of one article of a kit.
const IN_THE_BOX: &[Field] = &[
    field("part", "Id of the part, as a catalogue has it.", Kind::Word),
    Field { name: "count", about: "How many pieces are in the box.", kind: Kind::Count, plausible: Some((1.0, 200.0)) },
    field("state", "In what state it is, such as built in or loose.", Kind::Word),
];

impl Describe for KitItem {
    const KIND: Kind = Kind::Record(IN_THE_BOX);

    fn value(&self) -> Value {
        let state = self.state.as_ref().map(|state| ("state", state.value()));
        let count = (self.count > 0).then(|| ("count", self.count.value()));
        Value::Record(filled(&self.part).map(|part| ("part", part)).into_iter().chain(count).chain(state).collect())
    }

    fn from_value(value: &Value) -> Option<Self> {
        let Value::Record(fields) = value else { return None };
        let mut item = Self { part: String::new(), count: 0, state: None };
        for (name, value) in fields {
            match *name {
                "part" => item.part = String::from_value(value)?,
                "count" => item.count = u32::from_value(value)?,
                "state" => item.state = Some(String::from_value(value)?),
                _ => return None,
            }
        }
        Some(item)
    }
}

impl Record for Kit {
    const FIELDS: &'static [Field] = &[
        NAME,
        MAKER,
        ID,
        Field { about: "Price of the box, with its currency.", ..PRICE },
        PRICED_ON,
        SUPPLIER,
        RETIRED,
        field("contents", "What is in the box.", Kind::List(&Kind::Record(IN_THE_BOX))),
        NOTE,
    ];

    fn get(&self, field: &str) -> Option<Value> {
        match field {
            "id" => filled(&self.id),
            "name" => filled(&self.name),
            "maker" => held(self.maker.as_ref()),
            "price" => held(self.price.as_ref()),
            "priced_on" => held(self.priced_on.as_ref()),
            "supplier" => held(self.supplier.as_ref()),
            "retired" => Some(self.retired.value()),
            "contents" => (!self.contents.is_empty()).then(|| self.contents.value()),
            "note" => held(self.note.as_ref()),
            _ => None,
        }
    }

    fn set(&mut self, field: &str, value: Option<&Value>) -> bool {
        match field {
            "id" => text(&mut self.id, value),
            "name" => text(&mut self.name, value),
            "maker" => put(&mut self.maker, value),
            "price" => put(&mut self.price, value),
            "priced_on" => put(&mut self.priced_on, value),
            "supplier" => put(&mut self.supplier, value),
            "retired" => flag(&mut self.retired, value),
            "contents" => {
                let items = value.map(Vec::<KitItem>::from_value);
                let held = !matches!(items, Some(None));
                if held {
                    self.contents = items.flatten().unwrap_or_default();
                }
                held
            }
            "note" => put(&mut self.note, value),
            _ => false,
        }
    }
}

fn filled(text: &str) -> Option<Value> {
    (!text.is_empty()).then(|| Value::Word(text.to_owned()))
}

fn held<T: Describe>(value: Option<&T>) -> Option<Value> {
    value.map(Describe::value)
}

fn put<T: Describe>(place: &mut Option<T>, value: Option<&Value>) -> bool {
    match value.map(T::from_value) {
        Some(None) => false,
        held => {
            *place = held.flatten();
            true
        }
    }
}

/// A text that every record has; without a value it is empty, which the checks refuse.
fn text(place: &mut String, value: Option<&Value>) -> bool {
    let mut held = None;
    let is_text = put(&mut held, value);
    if is_text {
        *place = held.unwrap_or_default();
    }
    is_text
}

fn flag(place: &mut bool, value: Option<&Value>) -> bool {
    let mut held = None;
    let is_flag = put(&mut held, value);
    if is_flag {
        *place = held.unwrap_or(false);
    }
    is_flag
}

/// An id made of maker and name: lower-case letters, digits and dashes.
///
/// ```
/// use propwright_schema::part::slug;
/// assert_eq!(slug(Some("Vellacre"), "2207 1950 KV"), "vellacre-2207-1950-kv");
/// assert_eq!(slug(Some("Vellacre"), "Vellacre 2207"), "vellacre-2207");
/// ```
pub fn slug(maker: Option<&str>, name: &str) -> String {
    let maker = maker.filter(|maker| !name.starts_with(*maker)).unwrap_or_default();
    let lower = format!("{maker} {name}").to_lowercase();
    let plain: String = lower.chars().map(|letter| if letter.is_ascii_alphanumeric() { letter } else { '-' }).collect();
    plain.split('-').filter(|word| !word.is_empty()).collect::<Vec<_>>().join("-")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::load::load_catalogue;

    #[test]
    fn every_field_of_an_article_is_read_and_written_by_its_name() {
        let text = r#"(version: 1, parts: [(id: "m", name: "M", maker: "Vellacre", mass_g: 31.9, price: "17.90 EUR",
            priced_on: "2026-08-14", supplier: "Shelf", link: "box 2", pieces: 2, retired: true, fills: [Frame()],
            source: "listing", note: "used")],
            kits: [(id: "k", name: "K", maker: "Vellacre", price: "90.00 EUR", priced_on: "2026-08-14", supplier: "Shelf",
            retired: true, contents: [(part: "m", count: 1)], note: "boxed")])"#;
        let file = load_catalogue("f", text).unwrap();
        let (part, kit) = ((*file.parts[0]).clone(), (*file.kits[0]).clone());
        let mut bare = part.clone();
        for field in Part::FIELDS {
            assert!(part.get(field.name).is_some(), "{}", field.name);
            assert!(bare.set(field.name, None), "{}", field.name);
            assert!(bare.get(field.name).is_none_or(|value| value.flag() == Some(false)), "{}", field.name);
            assert!(bare.set(field.name, part.get(field.name).as_ref()), "{}", field.name);
        }
        assert_eq!(bare, part);
        let mut bare = kit.clone();
        for field in Kit::FIELDS {
            assert!(kit.get(field.name).is_some(), "{}", field.name);
            assert!(bare.set(field.name, None) && bare.set(field.name, kit.get(field.name).as_ref()), "{}", field.name);
        }
        assert_eq!(bare, kit);
        assert!(!bare.set("mass_g", None) && !bare.set("price", Some(&Value::Flag(true))));
    }
}
