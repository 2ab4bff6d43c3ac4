//! What a part is: an article with a price and a mass that fills one or several roles.

mod airframe;
mod article;
mod board;
mod ground;
mod link;
mod motor;
mod pack;
mod power;
mod price;
mod propeller;
mod video;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

pub use airframe::*;
pub use article::slug;
pub use board::*;
pub use ground::*;
pub use link::*;
pub use motor::*;
pub use pack::*;
pub use power::*;
pub use price::PastPrice;
pub use propeller::*;
pub use video::*;

use crate::{
    quantity::{Grams, Money},
    slot::Slot,
    value::{Field, Record, Value, words},
};

words! {
    /// Where a figure comes from when it is not the maker's, or that there is none.
    Basis {
        /// Weighed, metered or timed by the user.
        Measured "measured",
        /// Somebody's estimate: it may warn, never forbid.
        Estimate "estimate",
        /// Nobody's: it was looked for, and the maker does not say. The field itself is absent.
        Unpublished "not published",
    }
}

/// A part of a catalogue.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// Short name in lower case by which build lists call it; one of a kind in a catalogue.
    pub id: String,
    /// Name as the maker prints it.
    pub name: String,
    /// Maker.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub maker: Option<String>,
    /// Mass of one piece.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass_g: Option<Grams>,
    /// Price of one pack of [`Part::pieces`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<Money>,
    /// Day of the price, such as `2026-08-14`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub priced_on: Option<jiff::civil::Date>,
    /// Who sells it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supplier: Option<String>,
    /// Where to find it again: an address or a shelf.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub link: Option<String>,
    /// Pieces in the pack that is bought; absent means one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pieces: Option<u32>,
    /// No longer sold.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub retired: bool,
    /// What the roles hold: one for most parts, several for boards that are controller, receiver and transmitter at once.
    pub fills: Vec<Role>,
    /// Where the figures come from, such as "listing of 2026-08".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
    /// Fields whose source is another one.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub sources: BTreeMap<String, String>,
    /// Fields that are not the maker's figures.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub basis: BTreeMap<String, Basis>,
    /// Figures as they were typed, where that was in another unit than the field's, such as `"mass_g": "1.13 oz"`.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub typed: BTreeMap<String, String>,
    /// Prices of earlier days, the latest first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub earlier_prices: Vec<PastPrice>,
    /// Anything else worth knowing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

impl Part {
    /// Plausible range of the mass of any part, in grams.
    pub const PLAUSIBLE_MASS_G: (f64, f64) = (0.005, 30_000.0);

    /// Who vouches for a field; `None` means the maker.
    pub fn basis_of(&self, field: &str) -> Option<Basis> {
        self.basis.get(field).copied()
    }

    /// The role by which it can fill a slot.
    pub fn role(&self, slot: Slot) -> Option<&Role> {
        self.fills.iter().find(|role| role.slots().contains(&slot))
    }

    /// The slots that it fills when it is fitted in `slot`: that one and the first slot of each other role.
    pub fn filled_from(&self, slot: Slot) -> Vec<(Slot, &Role)> {
        let main = self.fills.iter().position(|role| role.slots().contains(&slot));
        let each = self.fills.iter().enumerate();
        each.filter_map(|(at, role)| Some((if Some(at) == main { slot } else { *role.slots().first()? }, role))).collect()
    }
}

/// The roles, one line each: the variant, its record's type, its word and the slots that it can fill.
macro_rules! roles {
    ($($(#[doc = $doc:literal])+ $variant:ident($record:ty), $word:literal, [$($slot:ident),+];)+) => {
        /// What a part does in a craft, with the figures of that role.
        #[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
        pub enum Role {$( $(#[doc = $doc])+ $variant(Box<$record>), )+}

        impl Role {
            /// Every kind of role with its fields, for forms, import and checks.
            pub const KINDS: &'static [(&'static str, &'static [Field])] = &[$((stringify!($variant), <$record>::FIELDS)),+];

            /// The word of the kind.
            pub const fn word(&self) -> &'static str {
                match self { $(Self::$variant(_) => $word,)+ }
            }

            /// The slots that it can fill.
            pub const fn slots(&self) -> &'static [Slot] {
                match self { $(Self::$variant(_) => &[$(Slot::$slot),+],)+ }
            }

            /// Description of its fields.
            pub const fn fields(&self) -> &'static [Field] {
                match self { $(Self::$variant(_) => <$record>::FIELDS,)+ }
            }

            /// A role of a kind of which nothing is published yet, by the kind's word or its name in files.
            pub fn of_kind(kind: &str) -> Option<Self> {
                let same = |word: &str| word.eq_ignore_ascii_case(kind);
                $( if same($word) || same(stringify!($variant)) { return Some(Self::$variant(Box::default())); } )+
                None
            }

            /// The words of all kinds.
            pub const WORDS: &'static [&'static str] = &[$($word),+];

            /// Gives a field a value, or takes it out. Says whether the kind has the field and it can hold the value.
            pub fn set(&mut self, field: &str, value: Option<&Value>) -> bool {
                match self { $(Self::$variant(record) => record.set(field, value),)+ }
            }

            /// The value of a field, `None` when nobody published it.
            pub fn get(&self, field: &str) -> Option<Value> {
                match self { $(Self::$variant(record) => record.get(field),)+ }
            }

            /// The fields that a part in `slot` can have; empty for a slot that no kind fills.
            pub fn fields_of(slot: Slot) -> &'static [Field] {
                $( if [$(Slot::$slot),+].contains(&slot) { return <$record>::FIELDS; } )+
                &[]
            }
        }
    };
}

roles! {
    /// A frame.
    Frame(Frame), "frame", [Frame];
    /// A motor.
    Motor(Motor), "motor", [Motor];
    /// Screws.
    Screw(Screw), "screw", [MotorScrew];
    /// A propeller.
    Propeller(Propeller), "propeller", [Propeller];
    /// A speed controller.
    Esc(Esc), "speed controller", [Esc];
    /// A capacitor.
    Capacitor(Capacitor), "capacitor", [Capacitor];
    /// A flight controller.
    FlightController(FlightController), "flight controller", [FlightController];
    /// A regulator.
    Regulator(Regulator), "regulator", [Regulator];
    /// A power board.
    PowerBoard(PowerBoard), "power board", [PowerBoard];
    /// An anti-spark plug.
    AntiSpark(AntiSpark), "anti-spark plug", [AntiSpark];
    /// A pack.
    Battery(Battery), "pack", [Battery];
    /// A pack selector.
    PackSelector(PackSelector), "pack selector", [PackSelector];
    /// A strap.
    Strap(Strap), "strap", [Strap];
    /// A control receiver.
    Receiver(Receiver), "receiver", [Receiver];
    /// An antenna.
    Antenna(Antenna), "antenna", [AntennaVideo, AntennaControl, AntennaGoggles];
    /// A camera.
    Camera(Camera), "camera", [Camera];
    /// A video transmitter.
    VideoTransmitter(VideoTransmitter), "video transmitter", [VideoTransmitter];
    /// A satellite receiver.
    Gps(Gps), "GPS", [Gps];
    /// A remote-identification module.
    RemoteId(RemoteId), "remote identification", [RemoteId];
    /// A finder.
    Finder(Finder), "finder", [Finder];
    /// A payload.
    Payload(Payload), "payload", [Payload];
    /// A radio.
    Radio(Radio), "radio", [Radio];
    /// A radio module.
    RadioModule(RadioModule), "radio module", [RadioModule];
    /// Goggles.
    Goggles(Goggles), "goggles", [Goggles];
    /// A goggles module.
    GogglesModule(GogglesModule), "goggles module", [GogglesModule];
    /// A charger.
    Charger(Charger), "charger", [Charger];
    /// A fire-safe bag.
    FireSafeBag(FireSafeBag), "fire-safe bag", [FireSafeBag];
}
