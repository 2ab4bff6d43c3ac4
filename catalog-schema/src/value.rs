//! A figure or word of a record, whatever its type: what rules, forms and reasons read.

use jiff::civil::Date;

use crate::quantity::{Money, Quantity, Unit, UnitInfo};

/// The value of one field.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A figure in whole steps of its unit.
    Number {
        /// Steps.
        steps: i64,
        /// The unit in which the field is written.
        unit: &'static UnitInfo,
    },
    /// A count of things.
    Count(i64),
    /// Yes or no.
    Flag(bool),
    /// A word of the trade: a family, a connector, a pattern.
    Word(String),
    /// Several values of one kind.
    List(Vec<Value>),
    /// A record within the record: one serial port, one rail.
    Record(Vec<(&'static str, Value)>),
}

impl Value {
    /// The value of a field of an inner record.
    pub fn field(&self, name: &str) -> Option<&Self> {
        match self {
            Self::Record(fields) => fields.iter().find(|(key, _)| *key == name).map(|(_, value)| value),
            _ => None,
        }
    }

    /// The items of a list; one value counts as a list of itself.
    pub fn items(&self) -> &[Self] {
        match self {
            Self::List(items) => items,
            single => std::slice::from_ref(single),
        }
    }

    /// The word, if it is one.
    pub fn word(&self) -> Option<&str> {
        match self {
            Self::Word(word) => Some(word),
            _ => None,
        }
    }

    /// The steps of a number or the count.
    pub fn steps(&self) -> Option<i64> {
        match self {
            Self::Number { steps, .. } => Some(*steps),
            Self::Count(count) => Some(*count),
            _ => None,
        }
    }

    /// The number in SI units, or the count.
    pub fn si(&self) -> Option<f64> {
        match self {
            Self::Number { steps, unit } => Some(*steps as f64 * unit.si_per_step),
            Self::Count(count) => Some(*count as f64),
            _ => None,
        }
    }

    /// Yes or no, if it is one.
    pub fn flag(&self) -> Option<bool> {
        match self {
            Self::Flag(flag) => Some(*flag),
            _ => None,
        }
    }
}

/// What kind of value a type holds, for forms and checks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// A number in a unit.
    Number(&'static UnitInfo),
    /// A count.
    Count,
    /// Yes or no.
    Flag,
    /// A free word.
    Word,
    /// An amount with its currency.
    Money,
    /// A day.
    Day,
    /// One of a closed list of words.
    Choice(&'static [&'static str]),
    /// Several of one kind.
    List(&'static Kind),
    /// A record of its own fields.
    Record(&'static [Field]),
}

/// One field of a record, described once: forms, checks, import and help read this.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Field {
    /// Name as written in a file.
    pub name: &'static str,
    /// What it means, and where to find or how to measure it.
    pub about: &'static str,
    /// What it holds.
    pub kind: Kind,
    /// Plausible range in the unit of the name; beyond it a figure is refused as a slip.
    pub plausible: Option<(f64, f64)>,
}

/// A type that can stand in a record.
pub trait Describe: Sized {
    /// What it holds.
    const KIND: Kind;
    /// The value itself.
    fn value(&self) -> Value;
    /// The type's own form of a value; `None` when the value is of another kind.
    fn from_value(value: &Value) -> Option<Self>;
}

/// A record whose every field may be unpublished.
pub trait Record {
    /// The fields in the order of the file.
    const FIELDS: &'static [Field];
    /// The value of a field, `None` when nobody published it (or there is no such field).
    fn get(&self, field: &str) -> Option<Value>;
    /// Gives a field a value, or takes it out. Says whether the field exists and can hold the value; if not, nothing changes.
    fn set(&mut self, field: &str, value: Option<&Value>) -> bool;
}

impl<U: Unit> Describe for Quantity<U> {
    const KIND: Kind = Kind::Number(&U::INFO);
    fn value(&self) -> Value {
        Value::Number { steps: self.steps(), unit: &U::INFO }
    }
    fn from_value(value: &Value) -> Option<Self> {
        match value {
            Value::Number { steps, unit } if unit.dimension == U::INFO.dimension => Some(Self::from_steps(*steps)),
            _ => None,
        }
    }
}

impl Describe for u32 {
    const KIND: Kind = Kind::Count;
    fn value(&self) -> Value {
        Value::Count(i64::from(*self))
    }
    fn from_value(value: &Value) -> Option<Self> {
        match value {
            Value::Count(count) => Self::try_from(*count).ok(),
            _ => None,
        }
    }
}

impl Describe for bool {
    const KIND: Kind = Kind::Flag;
    fn value(&self) -> Value {
        Value::Flag(*self)
    }
    fn from_value(value: &Value) -> Option<Self> {
        value.flag()
    }
}

impl Describe for String {
    const KIND: Kind = Kind::Word;
    fn value(&self) -> Value {
        Value::Word(self.clone())
    }
    fn from_value(value: &Value) -> Option<Self> {
        value.word().map(str::to_owned)
    }
}

impl Describe for Date {
    const KIND: Kind = Kind::Day;
    fn value(&self) -> Value {
        Value::Word(self.to_string())
    }
    fn from_value(value: &Value) -> Option<Self> {
        value.word()?.parse().ok()
    }
}

impl Describe for Money {
    const KIND: Kind = Kind::Money;
    fn value(&self) -> Value {
        Value::Word(self.to_string())
    }
    fn from_value(value: &Value) -> Option<Self> {
        value.word()?.parse().ok()
    }
}

impl<T: Describe> Describe for Vec<T> {
    const KIND: Kind = Kind::List(&T::KIND);
    fn value(&self) -> Value {
        Value::List(self.iter().map(Describe::value).collect())
    }
    fn from_value(value: &Value) -> Option<Self> {
        match value {
            Value::List(items) => items.iter().map(T::from_value).collect(),
            _ => None,
        }
    }
}

/// Defines a record: a plain struct in which every field may be absent (not published), its description, and the look-up
/// of a field by name. The doc comment of a field is its help text; `= low..high` is its plausible range.
macro_rules! record {
    ($(#[doc = $about:literal])+ $name:ident {
        $($(#[doc = $doc:literal])+ $field:ident: $ty:ty $(= $low:literal .. $high:literal)?),+ $(,)?
    }) => {
        $(#[doc = $about])+
        #[derive(Debug, Clone, PartialEq, Default, serde::Serialize, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        pub struct $name {$(
            $(#[doc = $doc])+
            #[serde(default, skip_serializing_if = "Option::is_none")]
            pub $field: Option<$ty>,
        )+}

        impl $crate::value::Record for $name {
            const FIELDS: &'static [$crate::value::Field] = &[$(
                $crate::value::Field {
                    name: stringify!($field),
                    about: concat!($($doc),+),
                    kind: <$ty as $crate::value::Describe>::KIND,
                    plausible: record!(@range $($low, $high)?),
                },
            )+];

            fn get(&self, field: &str) -> Option<$crate::value::Value> {
                match field {
                    $(stringify!($field) => self.$field.as_ref().map($crate::value::Describe::value),)+
                    _ => None,
                }
            }

            fn set(&mut self, field: &str, value: Option<&$crate::value::Value>) -> bool {
                match field {
                    $(stringify!($field) => match value.map($crate::value::Describe::from_value) {
                        Some(None) => false,
                        held => {
                            self.$field = held.flatten();
                            true
                        }
                    },)+
                    _ => false,
                }
            }
        }

        impl $crate::value::Describe for $name {
            const KIND: $crate::value::Kind = $crate::value::Kind::Record(<Self as $crate::value::Record>::FIELDS);

            fn value(&self) -> $crate::value::Value {
                let fields = <Self as $crate::value::Record>::FIELDS.iter();
                let published = fields.filter_map(|field| Some((field.name, $crate::value::Record::get(self, field.name)?)));
                $crate::value::Value::Record(published.collect())
            }

            fn from_value(value: &$crate::value::Value) -> Option<Self> {
                let $crate::value::Value::Record(fields) = value else { return None };
                let mut record = Self::default();
                let held = fields.iter().all(|(name, value)| $crate::value::Record::set(&mut record, name, Some(value)));
                held.then_some(record)
            }
        }
    };
    (@range $low:literal, $high:literal) => { Some(($low, $high)) };
    (@range) => { None };
}

/// Defines a closed list of words: an enum written by its variant's name in files and shown by its word.
macro_rules! words {
    ($(#[doc = $about:literal])+ $name:ident { $($(#[doc = $doc:literal])+ $variant:ident $word:literal),+ $(,)? }) => {
        $(#[doc = $about])+
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize)]
        pub enum $name {$( $(#[doc = $doc])+ $variant, )+}

        impl $name {
            /// All of them, in order.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The word shown.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word,)+ }
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.pad(self.word())
            }
        }

        impl $crate::value::Describe for $name {
            const KIND: $crate::value::Kind = $crate::value::Kind::Choice(&[$($word),+]);
            fn value(&self) -> $crate::value::Value {
                $crate::value::Value::Word(self.word().to_owned())
            }
            fn from_value(value: &$crate::value::Value) -> Option<Self> {
                let word = value.word()?;
                Self::ALL.iter().copied().find(|known| known.word() == word)
            }
        }
    };
}

pub(crate) use {record, words};
