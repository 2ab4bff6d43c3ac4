//! A build list: the parts chosen for a craft, how they are wired, and what it is for.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use crate::{
    description,
    estimate::Estimate,
    measured::{Logged, StandRow},
    quantity::{
        Celsius, Grams, Hertz, Hours, Kilometres, Metres, MetresPerSecond, Millimetres, Minutes, Money, Percent, Seconds,
    },
    slot::Slot,
    value::{Field, record, words},
};

words! {
    /// What the craft is for; thresholds of thrust and bursts go by it.
    Use {
        /// Small ducted craft for learning, indoors first.
        DuctedMicro "ducted micro",
        /// Ducted craft that carries a camera near people and walls.
        DuctedCamera "ducted camera craft",
        /// Open craft for figures and general flying.
        Freestyle "freestyle",
        /// Open craft for speed.
        Speed "speed",
        /// Heavy lifter.
        Lifter "lifter",
        /// Long range.
        LongRange "long range",
    }
}

words! {
    /// Where it flies; the radio margin goes by it.
    Place {
        /// Open ground in sight.
        Open "open ground",
        /// Trees between pilot and craft.
        Trees "trees",
        /// Walls between pilot and craft.
        Walls "walls",
    }
}

words! {
    /// How several packs are connected.
    Arrangement {
        /// Side by side at the same volts.
        Parallel "parallel",
        /// One behind the other: the volts add.
        Series "series",
        /// One after the other, through a selector.
        InTurn "in turn",
    }
}

record! {
    /// What the craft shall do.
    Purpose {
        /// Its use.
        usage: Use,
        /// Where it flies.
        place: Place,
        /// Does it fly under a roof?
        indoors: bool,
        /// Mass that it shall carry besides the parts listed.
        payload_g: Grams = 0.0..30_000.0,
        /// Path that it shall fly.
        path_km: Kilometres = 0.01..200.0,
        /// Calm minutes that it shall fly.
        calm_min: Minutes = 0.5..240.0,
        /// Seconds of full throttle in one go; absent: as usual for the use.
        burst_s: Seconds = 0.5..300.0,
        /// Battery figures wanted in the picture.
        overlay_wanted: bool,
        /// Shall it fly home by itself when the link is lost?
        returns_home: bool,
        /// Most that is left to pay for it, with all that is needed to fly.
        budget: Money,
        /// Shall it turn itself over after a crash?
        rights_itself: bool,
        /// Packets in a second at which the control link is flown; absent: the receiver's fastest.
        packet_rate_hz: Hertz = 1.0..2000.0,
    }
}

record! {
    /// Who flies it.
    Pilot {
        /// Hours in a simulator.
        simulator_h: Hours = 0.0..20_000.0,
        /// Hours in the air.
        flown_h: Hours = 0.0..20_000.0,
    }
}

record! {
    /// The day's conditions, and how its flights are mixed of hover and full throttle.
    Conditions {
        /// Height of the place above the sea; absent: sea level.
        altitude_m: Metres = -450.0..6000.0,
        /// Temperature; absent: that of the standard atmosphere at the altitude.
        temperature_c: Celsius = -40.0..55.0,
        /// Mean wind; absent: calm.
        wind_ms: MetresPerSecond = 0.0..30.0,
        /// Power of calm flight against that of hover; absent: 115 %, ducted micro 130 %.
        calm_power_percent: Percent = 80.0..400.0,
        /// Share of hard flight at full throttle; absent: 25 %, ducted micro 50 %.
        hard_full_percent: Percent = 0.0..100.0,
        /// Power of the rest of hard flight against that of hover; absent: 130 %.
        hard_power_percent: Percent = 80.0..400.0,
    }
}

record! {
    /// What is assumed of learning to fly with the craft, for its cost; what is absent is as usual.
    Training {
        /// Hours in a simulator before the first flight; they break nothing.
        simulator_hours: u32 = 0.0..2000.0,
        /// Price of the simulator.
        simulator_price: Money,
        /// Hours flown with each craft of the way.
        hours: u32 = 0.0..2000.0,
        /// Sets of propellers broken in ten hours on a craft with ducts or guards.
        sets_guarded: u32 = 0.0..200.0,
        /// The same on an open craft.
        sets_open: u32 = 0.0..200.0,
        /// Arms broken in ten hours on an open craft, where an arm can be replaced alone.
        arms: u32 = 0.0..100.0,
        /// Flights after which a pack is worn.
        pack_flights: u32 = 1.0..5000.0,
    }
}

words! {
    /// What a tax in per cent is taken of.
    TaxBase {
        /// The prices of what is bought.
        Goods "goods",
        /// The prices of what is bought and its shipping.
        GoodsAndShipping "goods and shipping",
    }
}

/// What a part is fed from.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Feed {
    /// The pack's own volts.
    Pack,
    /// A rail of a board, by its printed name.
    Rail(String),
    /// Fed through the part it belongs to, such as a digital camera by its transmitter.
    Partner,
    /// Its own battery.
    Own,
}

/// One line of the build list.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fitted {
    /// The slot.
    pub slot: Slot,
    /// The part's id.
    pub part: String,
    /// How many.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    pub count: u32,
    /// Already on the shelf: nothing to buy.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub owned: bool,
    /// What it is fed from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub feed: Option<Feed>,
    /// Serial port of the flight controller.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub uart: Option<u32>,
    /// Motor outputs of the flight controller, in order.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub outputs: Option<Vec<u32>>,
    /// Washers and pads between screw head and motor, beside the arm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub between_mm: Option<Millimetres>,
    /// A note of the builder.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

pub(crate) const fn one() -> u32 {
    1
}

fn is_unsaid(logged: &Logged) -> bool {
    *logged == Logged::default()
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde calls it with a reference")]
pub(crate) const fn is_one(count: &u32) -> bool {
    *count == 1
}

impl Fitted {
    /// Plausible range of what lies between screw head and motor, in mm.
    pub const PLAUSIBLE_BETWEEN_MM: (f64, f64) = (0.0, 50.0);
    /// What [`Fitted::between_mm`] holds.
    pub const BETWEEN: Field = description::BETWEEN;
    /// What [`Fitted::count`] holds, and the count of a spare.
    pub const COUNT: Field = description::PIECES;
    /// What [`Fitted::outputs`] holds.
    pub const OUTPUTS: Field = description::OUTPUTS;

    /// One part in a slot, wired to nothing yet.
    pub fn new(slot: Slot, part: &str) -> Self {
        Self {
            slot,
            part: part.to_owned(),
            count: 1,
            owned: false,
            feed: None,
            uart: None,
            outputs: None,
            between_mm: None,
            note: None,
        }
    }
}

/// A spare: bought with the craft, flown after the first crash.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Spare {
    /// The part's id.
    pub part: String,
    /// Arms of that frame instead of whole frames.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub arm: bool,
    /// How many.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    pub count: u32,
    /// A note of the builder.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// A cost that is no part: what a shipment costs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Charge {
    /// The supplier of the shipment.
    pub name: String,
    /// The amount.
    pub price: Money,
    /// A note of the builder.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// A tax or a duty that the prices leave out: an amount, or a share of what is bought.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tax {
    /// What it is.
    pub name: String,
    /// The amount, where it is fixed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<Money>,
    /// The share of the base, where it is not.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub percent: Option<Percent>,
    /// The base of the share; absent: the goods.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<TaxBase>,
    /// The supplier whose goods are taxed; absent: all of them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supplier: Option<String>,
    /// A note of the builder.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

impl Tax {
    /// Plausible range of a share in per cent.
    pub const PLAUSIBLE_PERCENT: (f64, f64) = (0.0, 100.0);

    /// A fixed amount.
    pub fn fixed(name: &str, price: Money) -> Self {
        Self { name: name.to_owned(), price: Some(price), percent: None, of: None, supplier: None, note: None }
    }
}

/// A build list.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BuildList {
    /// Version of the file's form; see [`crate::version`].
    pub version: u32,
    /// What the builder calls it.
    pub name: String,
    /// Notes of the builder.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// What it is for.
    #[serde(default)]
    pub purpose: Purpose,
    /// Who flies it.
    #[serde(default)]
    pub pilot: Pilot,
    /// The day's conditions.
    #[serde(default)]
    pub conditions: Conditions,
    /// How several packs are connected.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub packs: Option<Arrangement>,
    /// Largest motor output set in the flight controller; absent: 100 %.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub output_limit_percent: Option<Percent>,
    /// Mass of the whole craft ready to fly, weighed; it then stands for the sum.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weighed_g: Option<Grams>,
    /// What this craft logged in the air; the models are calibrated by it.
    #[serde(default, skip_serializing_if = "is_unsaid")]
    pub logged: Logged,
    /// Rows of a thrust stand with the motor and propeller of this list.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stand: Vec<StandRow>,
    /// What the user estimates of parts because nobody published it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub estimates: Vec<Estimate>,
    /// The parts.
    pub parts: Vec<Fitted>,
    /// Spares that are bought with them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub spares: Vec<Spare>,
    /// Shipping, a line a supplier.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub shipping: Vec<Charge>,
    /// Taxes and duties that the prices leave out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tax: Vec<Tax>,
    /// What is assumed of learning to fly with it; absent: as usual.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub training: Option<Training>,
}

impl BuildList {
    /// Plausible range of the output limit in per cent.
    pub const PLAUSIBLE_LIMIT_PERCENT: (f64, f64) = (20.0, 100.0);
    /// What [`BuildList::output_limit_percent`] holds.
    pub const OUTPUT_LIMIT: Field = description::OUTPUT_LIMIT;
    /// What [`BuildList::weighed_g`] holds.
    pub const WEIGHED: Field = description::WEIGHED;

    /// An empty list.
    pub fn empty(name: &str) -> Self {
        Self {
            version: crate::version::CURRENT,
            name: name.to_owned(),
            note: None,
            purpose: Purpose::default(),
            pilot: Pilot::default(),
            conditions: Conditions::default(),
            packs: None,
            output_limit_percent: None,
            weighed_g: None,
            logged: Logged::default(),
            stand: Vec::new(),
            estimates: Vec::new(),
            parts: Vec::new(),
            spares: Vec::new(),
            shipping: Vec::new(),
            tax: Vec::new(),
            training: None,
        }
    }

    /// Slots whose parts decide about the figures that a craft logs.
    pub const FLYING: [Slot; 4] = [Slot::Frame, Slot::Motor, Slot::Propeller, Slot::Battery];

    /// Leaves the log with the parts that flew: one that names none is of those that `before` lists, and names them once this list
    /// has others.
    pub fn keep_log_of(&mut self, before: &Self) {
        let logs = self.logged != Logged::default() && self.logged.flown_with.is_none();
        if logs && before.flying() != self.flying() {
            self.logged.flown_with = Some(before.flying().into_iter().map(str::to_owned).collect());
        }
    }

    /// Does the log speak of the parts that are listed? One that names none does.
    pub fn log_counts(&self) -> bool {
        let flew = |aboard: &Vec<String>| self.flying().into_iter().all(|id| aboard.iter().any(|flew| flew == id));
        self.logged.flown_with.as_ref().is_none_or(flew)
    }

    /// Ids of the parts that decide about the figures that are logged.
    fn flying(&self) -> BTreeSet<&str> {
        let listed = |slot| self.fitted(slot).map(|(_, fitted)| fitted.part.as_str());
        Self::FLYING.into_iter().flat_map(listed).collect()
    }

    /// The lines of a slot, with their places in the list.
    pub fn fitted(&self, slot: Slot) -> impl Iterator<Item = (usize, &Fitted)> {
        self.parts.iter().enumerate().filter(move |(_, fitted)| fitted.slot == slot)
    }
}
