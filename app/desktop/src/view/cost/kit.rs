//! A kit against the same parts one by one: an answer, bars of one scale, a table.

use propwright_engine::{
    bill::{
        Total,
        kit::{Capability, Comparison, Ways},
    },
    explain::{self, money},
};
use propwright_schema::quantity::Money;

/// A part of a bar.
#[derive(Debug, Clone, PartialEq)]
pub struct Segment {
    /// What it is.
    pub words: &'static str,
    /// Its amount in words.
    pub amount: String,
    /// Its length in smallest units of the currency.
    pub length: f64,
    /// Is it the kit, or what stands for it?
    pub of_kit: bool,
}

/// A way to pay for a craft.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// What way it is.
    pub title: &'static str,
    /// What it costs.
    pub total: String,
    /// Its parts.
    pub segments: Vec<Segment>,
}

/// A kit against separate parts.
#[derive(Debug, Clone, PartialEq)]
pub struct KitView {
    /// Id of the kit.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Price of the box, and when and where it was seen.
    pub price: String,
    /// The answer in one or two sentences.
    pub answer: String,
    /// Does it go with the craft, and serve it?
    pub goes: bool,
    /// The break-even.
    pub break_even: Option<String>,
    /// The ways to pay on one scale; empty where they are not of one currency.
    pub bars: Vec<Bar>,
    /// Rows of the table: what, with the kit's parts, as listed, and whether they differ beyond their bands.
    pub rows: Vec<(String, String, String, &'static str)>,
    /// What it holds, lacks, doubles and leaves, each in words.
    pub holds: Vec<(&'static str, String)>,
    /// Whether the two craft do the same.
    pub capability: String,
}

/// A comparison as it is drawn.
pub(super) fn kit_view(comparison: &Comparison) -> KitView {
    let kit = &comparison.kit;
    let seen = [kit.supplier.clone(), kit.priced_on.map(|day| day.to_string())].into_iter().flatten();
    let price = kit.price.map_or_else(|| "no price".to_owned(), |price| price.to_string());
    let goes = !comparison.covers.is_empty() && comparison.mismatches.is_empty();
    KitView {
        id: kit.id.clone(),
        name: kit.name.clone(),
        price: [price].into_iter().chain(seen).collect::<Vec<_>>().join(" · "),
        answer: money::kit_answer(comparison),
        goes,
        break_even: money::break_even(comparison).filter(|_| goes),
        bars: bars(comparison).filter(|_| goes).unwrap_or_default(),
        rows: rows(comparison),
        holds: holds(comparison),
        capability: money::capability(comparison),
    }
}

fn rows(comparison: &Comparison) -> Vec<(String, String, String, &'static str)> {
    let figure = |figure: Option<propwright_engine::interval::Interval>| {
        figure.map_or_else(|| "not known".to_owned(), |figure| explain::figure(&figure))
    };
    let against = |one: &Capability| match (one.kit.and(one.listed), one.differs) {
        (None, _) => "",
        (Some(_), true) => "beyond the bands",
        (Some(_), false) => "within the bands",
    };
    let each =
        comparison.capabilities.iter().map(|one| (one.title.to_owned(), figure(one.kit), figure(one.listed), against(one)));
    each.collect()
}

fn holds(comparison: &Comparison) -> Vec<(&'static str, String)> {
    let mut slots: Vec<_> = comparison.covers.iter().map(|(slot, _)| *slot).collect();
    slots.dedup();
    let told = [
        ("It serves", money::titles(&slots)),
        ("To buy besides", money::besides(comparison)),
        ("Doubles with the shelf", money::doubles(comparison)),
        ("Left for the next craft", money::counts(&comparison.left_over)),
        ("Without the kit", money::singly(comparison)),
    ];
    told.into_iter().filter(|(_, words)| !words.is_empty()).collect()
}

/// The ways to pay, where all amounts are of the kit's currency.
fn bars(comparison: &Comparison) -> Option<Vec<Bar>> {
    let Ways { kit, rest, singly, listed } = comparison.ways()?;
    let segment = |words, amount: Money, of_kit| Segment {
        words,
        amount: amount.to_string(),
        length: amount.minor().max(0) as f64,
        of_kit,
    };
    let bar = |title, total: &Total, segments: Vec<Segment>| Bar {
        title,
        total: money::total(total),
        segments: segments.into_iter().filter(|segment| segment.length > 0.0).collect(),
    };
    let rest = || segment("all else", rest, false);
    Some(vec![
        bar("With the kit", &comparison.with_kit, vec![segment("the kit", kit, true), rest()]),
        bar("The same craft without it", &comparison.separate, vec![segment("its parts bought singly", singly, true), rest()]),
        bar("The list as it stands", &comparison.listed, vec![segment("its own parts", listed, false)]),
    ])
}
