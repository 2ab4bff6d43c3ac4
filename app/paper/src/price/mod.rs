//! The bill of a build as JSON: the keys that outside programs rely on, with amounts as decimal strings.

pub mod text;

use propwright_engine::{
    Report,
    bill::{
        ChargeKind, Charged, Drawn, Line, Need,
        kit::{Cheaper, Comparison},
        path::Course,
        spare,
    },
    explain::money,
};
use propwright_schema::{part::Part, slot::Slot, stock::Condition};
use serde::Serialize;

use crate::json::{Band, Price, SCHEMA};

/// Pieces drawn from the shelf.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DrawnJson {
    /// How many.
    pub count: u32,
    /// `new`, `used` or `worn`; null when the shelf does not say.
    pub condition: Option<&'static str>,
    /// Measured mass of one.
    pub mass_g: Option<f64>,
    /// Measured resistance.
    pub resistance_mohm: Option<f64>,
}

/// A line of the bill.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LineJson {
    /// Slot.
    pub slot: &'static str,
    /// Id of the part.
    pub part: String,
    /// Its name.
    pub name: String,
    /// `craft`, `spare` or `arm`.
    pub need: &'static str,
    /// Pieces needed.
    pub quantity: u32,
    /// Nothing is bought for it: it lies on the shelf.
    pub owned: bool,
    /// Drawn from the shelf.
    pub drawn: Vec<DrawnJson>,
    /// Pieces left over from the packs of an earlier line.
    pub from_rest: u32,
    /// Packs bought.
    pub packs: u32,
    /// Pieces in a pack.
    pub pieces: u32,
    /// Price of a pack; null when nobody states it.
    pub unit_price: Option<Price>,
    /// Price of the packs bought; null when nobody states the price of one.
    pub line_price: Option<Price>,
    /// Supplier.
    pub supplier: Option<String>,
    /// Where to find it again.
    pub link: Option<String>,
    /// Day of the price.
    pub priced_on: Option<String>,
    /// Days since.
    pub age_days: Option<i32>,
    /// No longer sold.
    pub retired: bool,
}

/// Shipping or a tax.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChargeJson {
    /// `shipping` or `tax`.
    pub kind: &'static str,
    /// Supplier, or what the tax is for.
    pub name: String,
    /// Amount.
    pub price: Price,
    /// The share that a tax takes of its base; null where the amount is fixed.
    pub percent: Option<f64>,
    /// What that share is taken of; null where the amount is fixed.
    pub base: Option<Price>,
    /// Is it part of the sum?
    pub counts: bool,
}

/// A sum told in another currency.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ConvertedJson {
    /// The exact sum.
    pub from: Price,
    /// The sum in the other currency.
    pub to: Price,
    /// Units of the other currency for one.
    pub rate: String,
    /// Day of the rate.
    pub on: String,
}

/// Some pieces of a part.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CountJson {
    /// Id of the part.
    pub part: String,
    /// How many.
    pub count: u32,
}

/// A figure of two crafts.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CapabilityJson {
    /// What it is.
    pub title: &'static str,
    /// Of the craft as listed.
    pub listed: Option<Band>,
    /// Of the craft with the kit's parts.
    pub kit: Option<Band>,
    /// Is the difference beyond the bands?
    pub differs: bool,
}

/// A kit against the same parts one by one.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct KitJson {
    /// Id of the kit.
    pub kit: String,
    /// Its price.
    pub price: Option<Price>,
    /// Slots that it serves.
    pub covers: Vec<&'static str>,
    /// Slots that something must be bought for besides, or that are empty.
    pub lacks: Vec<&'static str>,
    /// Parts of it that double with what is owned.
    pub already_owned: Vec<String>,
    /// What it leaves for the next craft.
    pub left_over: Vec<CountJson>,
    /// What its share of the craft costs one by one: the price at which it breaks even.
    pub separate_price: Option<Price>,
    /// `kit`, `separate` or `equal`; null while that cannot be told.
    pub cheaper: Option<&'static str>,
    /// Left to pay with the kit and all else.
    pub total_with_kit: Vec<Price>,
    /// Left to pay for the same craft, all bought one by one.
    pub total_separate: Vec<Price>,
    /// Left to pay for the craft as it is listed.
    pub total_listed: Vec<Price>,
    /// Rules that the craft with the kit's parts breaks and the listed one does not.
    pub mismatches: Vec<&'static str>,
    /// Figures of both crafts.
    pub capability: Vec<CapabilityJson>,
    /// The answer in words.
    pub answer: String,
}

/// One craft of a training path.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StepJson {
    /// Name of the craft.
    pub build: String,
    /// Hours flown with it.
    pub flown_h: u32,
    /// Flights in these hours.
    pub flights: Option<u32>,
    /// Carried over.
    pub carried: Vec<CountJson>,
    /// Broken and worn, bought with it.
    pub worn: Vec<CountJson>,
    /// Left to pay.
    pub totals: Vec<Price>,
    /// Parts without a price.
    pub unpriced: Vec<String>,
}

/// A training path.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CourseJson {
    /// What is assumed.
    pub assumed: String,
    /// The craft in order.
    pub steps: Vec<StepJson>,
    /// All together.
    pub totals: Vec<Price>,
}

/// The bill.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PriceJson {
    /// Version of the meaning of the keys.
    pub schema: u32,
    /// Name of the build.
    pub build: String,
    /// The lines.
    pub lines: Vec<LineJson>,
    /// Shipping and taxes.
    pub charges: Vec<ChargeJson>,
    /// Suppliers whose shipping the list does not say.
    pub shipping_unsaid: Vec<String>,
    /// What is to pay: one amount, or several where no rate joins them.
    pub totals: Vec<Price>,
    /// The exact sum of each currency.
    pub sums: Vec<Price>,
    /// Sums told in another currency.
    pub converted: Vec<ConvertedJson>,
    /// Parts that must be bought and have no price.
    pub unpriced: Vec<String>,
    /// What whole packs leave over.
    pub to_stock: Vec<CountJson>,
    /// The usual spares of the purpose; not counted.
    pub usual_spares: Vec<CountJson>,
    /// Kits.
    pub kits: Vec<KitJson>,
    /// The training path; null unless asked for.
    pub path: Option<CourseJson>,
    /// What is to be known about the files read.
    pub notes: Vec<String>,
}

/// The bill of a report as JSON, with kits, a training path and notes about the files read.
pub fn json(report: &Report, kits: &[Comparison], course: Option<&Course>, notes: &[String]) -> PriceJson {
    let bill = &report.bill;
    let prices = |amounts: &[propwright_schema::quantity::Money]| amounts.iter().copied().map(Price::from).collect();
    PriceJson {
        schema: SCHEMA,
        build: report.craft.build.name.clone(),
        lines: bill.lines.iter().map(line).collect(),
        charges: bill.charges.iter().map(charge).collect(),
        shipping_unsaid: bill.shipping_unsaid.clone(),
        totals: prices(&bill.total.amounts),
        sums: prices(&bill.total.sums),
        converted: bill.total.converted.iter().map(converted).collect(),
        unpriced: bill.unpriced().map(|line| line.part.id.clone()).collect(),
        to_stock: bill.rest.iter().map(|(part, count)| counted(part, *count)).collect(),
        usual_spares: spare::usual(&report.craft)
            .into_iter()
            .map(|spare| CountJson {
                part: if spare.arm { format!("{} arm", spare.part) } else { spare.part },
                count: spare.count,
            })
            .collect(),
        kits: kits.iter().map(kit).collect(),
        path: course.map(path),
        notes: notes.to_vec(),
    }
}

fn counted(part: &Part, count: u32) -> CountJson {
    CountJson { part: part.id.clone(), count }
}

fn converted(converted: &propwright_engine::bill::Converted) -> ConvertedJson {
    let rate = converted.rate;
    ConvertedJson { from: converted.from.into(), to: converted.to.into(), rate: rate.rate.to_string(), on: rate.on.to_string() }
}

fn charge(charged: &Charged) -> ChargeJson {
    ChargeJson {
        kind: match charged.kind {
            ChargeKind::Shipping => "shipping",
            ChargeKind::Tax => "tax",
        },
        name: charged.name.clone(),
        price: charged.amount.into(),
        percent: charged.share.as_ref().map(|share| share.percent.decimal()),
        base: charged.share.as_ref().map(|share| share.base.into()),
        counts: charged.counts,
    }
}

fn drawn(drawn: &Drawn) -> DrawnJson {
    let item = &drawn.item;
    DrawnJson {
        count: drawn.count,
        condition: item.condition.map(Condition::word),
        mass_g: item.mass_g.map(propwright_schema::quantity::Quantity::decimal),
        resistance_mohm: item.resistance_mohm.map(propwright_schema::quantity::Quantity::decimal),
    }
}

fn line(line: &Line) -> LineJson {
    let part = &line.part;
    LineJson {
        slot: line.slot.word(),
        part: part.id.clone(),
        name: part.name.clone(),
        need: match line.need {
            Need::Fitted(_) => "craft",
            Need::Spare(_) => "spare",
            Need::Arm(_) => "arm",
        },
        quantity: line.count,
        owned: line.is_owned(),
        drawn: line.drawn.iter().map(drawn).collect(),
        from_rest: line.from_rest,
        packs: line.packs,
        pieces: line.pieces,
        unit_price: line.unit_price.map(Price::from),
        line_price: line.price.map(Price::from),
        supplier: part.supplier.clone(),
        link: part.link.clone(),
        priced_on: part.priced_on.filter(|_| line.unit_price.is_some()).map(|day| day.to_string()),
        age_days: line.age_days,
        retired: part.retired,
    }
}

fn kit(comparison: &Comparison) -> KitJson {
    let prices = |total: &propwright_engine::bill::Total| total.amounts.iter().copied().map(Price::from).collect();
    let capability = comparison.capabilities.iter().map(|one| CapabilityJson {
        title: one.title,
        listed: one.listed.map(Band::from),
        kit: one.kit.map(Band::from),
        differs: one.differs,
    });
    KitJson {
        kit: comparison.kit.id.clone(),
        price: comparison.kit.price.map(Price::from),
        covers: comparison.covers.iter().map(|(slot, _)| slot.word()).collect(),
        lacks: comparison.lacks.iter().copied().map(Slot::word).collect(),
        already_owned: comparison.already_owned.iter().map(|part| part.id.clone()).collect(),
        left_over: comparison.left_over.iter().map(|(part, count)| counted(part, *count)).collect(),
        separate_price: comparison.breaks_even_at.map(Price::from),
        cheaper: comparison.cheaper().map(Cheaper::word),
        total_with_kit: prices(&comparison.with_kit),
        total_separate: prices(&comparison.separate),
        total_listed: prices(&comparison.listed),
        mismatches: comparison.mismatches.iter().map(|finding| finding.rule).collect(),
        capability: capability.collect(),
        answer: money::kit_answer(comparison),
    }
}

fn path(course: &Course) -> CourseJson {
    let prices = |total: &propwright_engine::bill::Total| total.amounts.iter().copied().map(Price::from).collect();
    let steps = course.steps.iter().map(|step| StepJson {
        build: step.name.clone(),
        flown_h: step.flown_h,
        flights: step.flights,
        carried: step.carried.iter().map(|(part, count)| counted(part, *count)).collect(),
        worn: step.worn.iter().map(|spare| CountJson { part: spare.part.clone(), count: spare.count }).collect(),
        totals: prices(&step.bill.total),
        unpriced: step.bill.unpriced().map(|line| line.part.id.clone()).collect(),
    });
    CourseJson { assumed: money::wear(course), steps: steps.collect(), totals: prices(&course.total) }
}
