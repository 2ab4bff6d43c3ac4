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
const MAKER: Field = field("maker", "Who makes it.", Kind::Word);
const PRICE: Field = field("price", "Price with its currency; of one pack where it is sold in packs.", Kind::Money);
const PRICED_ON: Field = field("priced_on", "Day of the price; prices older than some months are told as such.", Kind::Day);
const SUPPLIER: Field = field("supplier", "Who sells it: a shop, or the shelf.", Kind::Word);
const LINK: Field = field("link", "Where to find it again: an address, or a shelf.", Kind::Word);
const RETIRED: Field =
    field("retired", "No longer sold: it stays for builds that have it, and comes last in a choice.", Kind::Flag);
const NOTE: Field = field("note", "Anything else worth knowing.", Kind::Word);

/// Reading and writing the fields of a record by their names: texts that it always has, what may be absent, flags, and lists of
/// which an empty one is none.
macro_rules! named {
    (texts: [$($text:ident),*], held: [$($held:ident),*], flags: [$($flag:ident),*], lists: [$($list:ident),*]) => {
        fn get(&self, field: &str) -> Option<Value> {
            match field {
                $(stringify!($text) => filled(&self.$text),)*
                $(stringify!($held) => self.$held.as_ref().map(Describe::value),)*
                $(stringify!($flag) => Some(self.$flag.value()),)*
                $(stringify!($list) => (!self.$list.is_empty()).then(|| self.$list.value()),)*
                _ => None,
            }
        }

        fn set(&mut self, field: &str, value: Option<&Value>) -> bool {
            match field {
                $(stringify!($text) => always(&mut self.$text, value),)*
                $(stringify!($held) => put(&mut self.$held, value),)*
                $(stringify!($flag) => always(&mut self.$flag, value),)*
                $(stringify!($list) => always(&mut self.$list, value),)*
                _ => false,
            }
        }
    };
}

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

    named!(
        texts: [id, name],
        held: [maker, mass_g, price, priced_on, supplier, link, pieces, source, note],
        flags: [retired],
        lists: []
    );
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

    named!(
        texts: [id, name],
        held: [maker, price, priced_on, supplier, note],
        flags: [retired],
        lists: [contents]
    );
}

fn filled(text: &str) -> Option<Value> {
    (!text.is_empty()).then(|| Value::Word(text.to_owned()))
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

/// What a record always has; without a value it is what nothing is: an empty text, which the checks refuse, "no", no items.
fn always<T: Describe + Default>(place: &mut T, value: Option<&Value>) -> bool {
    let mut held = None;
    let can = put(&mut held, value);
    if can {
        *place = held.unwrap_or_default();
    }
    can
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
