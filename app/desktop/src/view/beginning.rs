//! Demo builds to begin from, those that go with what was said first.

use propwright_engine::{bill::Total, explain::money};
use propwright_schema::{
    build_list::{BuildList, Pilot, Purpose, Use},
    quantity::{Money, Quantity},
};

use crate::{demo, state::App};

/// A demo build as it is offered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Beginning {
    /// Name of its file.
    pub file: &'static str,
    /// Its name.
    pub name: String,
    /// What all of it costs to somebody who owns nothing.
    pub price: String,
    /// What it is for, what kind of craft it is, who flies it.
    pub words: String,
    /// What it costs with a kit around its frame; empty where there is none.
    pub kit: String,
    /// What speaks against it by what was said; empty where nothing does.
    pub against: Vec<String>,
}

/// The demo builds, those that least speaks against first, the cheapest of them first.
pub fn beginnings(app: &App, said: &BuildList) -> Vec<Beginning> {
    let mut offered: Vec<(usize, i64, Beginning)> = app
        .beginnings
        .iter()
        .map(|demo| {
            let against = against(demo, said);
            let cents = cheapest(demo).first().map_or(0, |amount| amount.minor());
            let besides = if demo.priced { "" } else { " and more" };
            let price = format!("{}{besides}", money::total(&demo.cost));
            let name = demo.build.name.clone();
            (against.len(), cents, Beginning { file: demo.file, name, price, words: words(demo), kit: boxed(demo), against })
        })
        .collect();
    offered.sort_by_key(|(against, cents, _)| (*against, *cents));
    offered.into_iter().map(|(.., beginning)| beginning).collect()
}

/// What a use means to somebody who does not know the word.
pub const fn made_for(usage: Use) -> &'static str {
    match usage {
        Use::DuctedMicro => "first flights, indoors and out",
        Use::DuctedCamera => "filming near people and walls",
        Use::Freestyle => "figures in open places",
        Use::Speed => "as fast as it goes",
        Use::Lifter => "carries a heavy camera",
        Use::LongRange => "far out and back",
    }
}

/// The sums of the cheaper way: part by part, or with a kit.
fn cheapest(demo: &demo::Beginning) -> &[Money] {
    let (cost, kit) = (&demo.cost.amounts, demo.kit.as_ref().map(|(_, total)| &total.amounts));
    kit.filter(
        |kit| matches!((kit.as_slice(), cost.as_slice()), ([kit], [cost]) if kit.minus(*cost).is_some_and(|by| by.minor() < 0)),
    )
    .unwrap_or(cost)
}

fn boxed(demo: &demo::Beginning) -> String {
    let said = |(name, total): &(String, Total)| format!("{} with the kit {name}, see page Cost", money::total(total));
    demo.kit.as_ref().map(said).unwrap_or_default()
}

fn words(demo: &demo::Beginning) -> String {
    let purpose = &demo.build.purpose;
    let mut words: Vec<String> =
        purpose.usage.map(|usage| format!("{}: {}", usage.word(), made_for(usage))).into_iter().collect();
    words.push(demo.kind.clone());
    words.push(level(&demo.build.pilot));
    words.into_iter().filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" · ")
}

fn level(pilot: &Pilot) -> String {
    match pilot.flown_h.map_or(0.0, Quantity::decimal) {
        0.0 => "a first craft, after some hours in a simulator".to_owned(),
        flown => format!("for somebody with {flown} h in the air"),
    }
}

/// What of that which was said the build does not meet.
fn against(demo: &demo::Beginning, said: &BuildList) -> Vec<String> {
    let (wanted, made): (&Purpose, &Purpose) = (&said.purpose, &demo.build.purpose);
    let mut against = Vec::new();
    if let (Some(wanted), Some(made)) = (wanted.usage, made.usage)
        && wanted != made
    {
        against.push(format!("not for {}", wanted.word()));
    }
    if wanted.indoors == Some(true) && made.indoors != Some(true) {
        against.push("not for indoors".to_owned());
    }
    if let Some(budget) = wanted.budget
        && let Some(over) = cheapest(demo).iter().find_map(|cost| cost.minus(budget)).filter(|over| over.minor() > 0)
    {
        against.push(format!("{over} over the budget"));
    }
    if let (Some(flown), Some(asked)) = (said.pilot.flown_h, demo.build.pilot.flown_h)
        && flown.decimal() < asked.decimal()
    {
        against.push("asks for more hours in the air".to_owned());
    }
    against
}
