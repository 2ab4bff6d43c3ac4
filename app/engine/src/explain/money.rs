//! Sentences about money: a sum, a kit against the same parts one by one, the cost of a training path.

use std::sync::Arc;

use propwright_schema::{build_list::Spare, part::Part, quantity::Money, slot::Slot};

use crate::{
    bill::{
        Bill, ChargeKind, Charged, Line, Need, Total,
        kit::{Cheaper, Comparison, Ways},
        path::Course,
    },
    finding::Finding,
};

/// A sum: its amounts, or `nothing`.
pub fn total(total: &Total) -> String {
    if total.amounts.is_empty() { "nothing".to_owned() } else { amounts(&total.amounts) }
}

fn amounts(amounts: &[Money]) -> String {
    amounts.iter().map(ToString::to_string).collect::<Vec<_>>().join(" + ")
}

fn without_sign(money: Money) -> Money {
    Money::of(money.minor().saturating_abs(), money.unit())
}

/// What a charge is: its name, what a share is taken of, or why it does not count.
pub fn charge(charged: &Charged) -> String {
    let Charged { name, share, counts, .. } = charged;
    match share {
        _ if !counts => format!("{name} (not counted: nothing is bought there)"),
        None => name.clone(),
        Some(share) => {
            let from = share.supplier.as_ref().map_or_else(String::new, |supplier| format!(" from {supplier}"));
            format!("{name}: {} of {}{from}, {}", share.percent, share.of, share.base)
        }
    }
}

/// Names of parts behind one another.
pub fn names<'p>(parts: impl IntoIterator<Item = &'p Part>) -> String {
    parts.into_iter().map(|part| part.name.as_str()).collect::<Vec<_>>().join(", ")
}

/// Counts and names of parts behind one another.
pub fn counts(parts: &[(Arc<Part>, u32)]) -> String {
    parts.iter().map(|(part, count)| format!("{count} × {}", part.name)).collect::<Vec<_>>().join(", ")
}

/// Titles of slots behind one another, each once.
pub fn titles(slots: &[Slot]) -> String {
    let mut titles: Vec<String> = Vec::new();
    for title in slots.iter().map(|slot| slot.title().to_lowercase()) {
        if !titles.contains(&title) {
            titles.push(title);
        }
    }
    titles.join(", ")
}

/// Which way is cheaper and by how much.
fn cheaper(above: Money) -> String {
    match above.minor() {
        0 => "the kit and the same parts one by one cost the same".to_owned(),
        minor if minor > 0 => format!("separate parts are {} cheaper", without_sign(above)),
        _ => format!("the kit is {} cheaper", without_sign(above)),
    }
}

/// The answer to "kit or separate", in one or two sentences: with what is owned, and for somebody who owns nothing.
pub fn kit_answer(comparison: &Comparison) -> String {
    if comparison.covers.is_empty() {
        return "It holds nothing that this craft still needs.".to_owned();
    }
    if !comparison.mismatches.is_empty() {
        return capability(comparison);
    }
    let Some(above) = comparison.above else { return undecided(comparison) };
    let with = format!("With {} owned", owned(&comparison.already_owned));
    match comparison.above_owning_nothing {
        Some(nothing) if nothing != above => {
            format!("{with}, {}; owning nothing, {}.{}", cheaper(above), cheaper(nothing), against_list(comparison, above))
        }
        _ => super::capital(&format!("{}.{}", cheaper(above), against_list(comparison, above))),
    }
}

/// The kit against the list's own parts, where that is another sum.
fn against_list(comparison: &Comparison, above: Money) -> String {
    match comparison.above_listed {
        // A list without parts is no other way to fly.
        Some(listed) if listed != above && !comparison.listed.amounts.is_empty() => match listed.minor() {
            0 => " With the list's own parts both cost the same.".to_owned(),
            minor if minor > 0 => format!(" The list's own parts are {} cheaper than the kit.", without_sign(listed)),
            _ => format!(" Against the list's own parts the kit is {} cheaper.", without_sign(listed)),
        },
        _ => String::new(),
    }
}

/// What is bought where all of the kit's craft is bought one by one, each with its price; shipping and taxes are not among it.
pub fn singly(comparison: &Comparison) -> String {
    priced(&comparison.singly).join(", ")
}

/// Lines of a bill with their prices: "4 × Vellacre 0802 22000 KV 35.60 EUR".
fn priced(lines: &[Line]) -> Vec<String> {
    let price = |price: Option<Money>| price.map_or_else(|| "no price".to_owned(), |price| price.to_string());
    let words = |line: &Line| {
        let spare = if matches!(line.need, Need::Fitted(_)) { "" } else { "spare " };
        let arm = if matches!(line.need, Need::Arm(_)) { "arm of " } else { "" };
        format!("{spare}{} × {arm}{} {}", line.count, line.part.name, price(line.price))
    };
    lines.iter().map(words).collect()
}

/// What is bought beside the kit, with shipping and taxes, each with its price.
pub fn besides(comparison: &Comparison) -> String {
    let lines = priced(&comparison.besides);
    let charges = comparison.charges.iter().filter(|charged| charged.counts && charged.amount.minor() != 0);
    let charges = charges.map(|charged| match charged.kind {
        ChargeKind::Shipping => format!("shipping of {} {}", charge(charged), charged.amount),
        ChargeKind::Tax => format!("{} {}", charge(charged), charged.amount),
    });
    let empty = titles(
        &comparison
            .lacks
            .iter()
            .copied()
            .filter(|slot| comparison.besides.iter().all(|line| line.slot != *slot))
            .collect::<Vec<_>>(),
    );
    let empty = (!empty.is_empty()).then(|| format!("still to choose: {empty}"));
    lines.into_iter().chain(charges).chain(empty).collect::<Vec<_>>().join(", ")
}

/// What of a kit doubles with the shelf, by the slots that its parts would fill: "goggles and charger already".
fn owned(doubles: &[Arc<Part>]) -> String {
    let mut slots: Vec<String> = Vec::new();
    for slot in doubles.iter().filter_map(|part| part.fills.first()?.slots().first()) {
        let title = slot.title().to_lowercase();
        if !slots.contains(&title) {
            slots.push(title);
        }
    }
    match slots.split_last() {
        None => "what is already".to_owned(),
        Some((last, [])) => format!("{last} already"),
        Some((last, others)) => format!("{} and {last} already", others.join(", ")),
    }
}

/// At most this many conflicts are told of a kit that does not go with a craft.
const TOLD: usize = 3;

fn conflicts(found: &[Finding]) -> String {
    let mut said: Vec<String> = found.iter().take(TOLD).map(super::message).collect();
    if found.len() > TOLD {
        said.push(format!("And {} more.", found.len() - TOLD));
    }
    said.join(" ")
}

/// The ways to pay for a craft, each with its sum and of what it is made up.
pub fn ways(comparison: &Comparison) -> Vec<(&'static str, String)> {
    let [kit, singly] = comparison.ways().map_or_else(Default::default, |ways| {
        let Ways { kit, rest, singly, .. } = ways;
        [
            format!(": {kit} for the kit, {rest} for all else"),
            format!(": {singly} for its parts bought singly, {rest} for all else"),
        ]
    });
    vec![
        ("With the kit", format!("{}{kit}", total(&comparison.with_kit))),
        ("The same craft without it", format!("{}{singly}", total(&comparison.separate))),
        ("The list as it stands", format!("{}: its own parts, also where the kit would put others", total(&comparison.listed))),
    ]
}

/// What doubles with the shelf; it brings nothing in these sums.
pub fn doubles(comparison: &Comparison) -> String {
    if comparison.already_owned.is_empty() {
        return String::new();
    }
    let parts = names(comparison.already_owned.iter().map(AsRef::as_ref));
    let turns = comparison.above.filter(|above| above.minor() > 0);
    let turns = turns.map_or_else(String::new, |above| format!(": sold for more than {above}, the kit would be the cheaper way"));
    format!("{parts}; what it would bring if you sold it is not counted{turns}")
}

/// Spares with the price of each where they are bought whole: "8 × Plimsedge 31 (2.20 EUR for 4)"; names are those of the bill.
pub fn spares(spares: &[Spare], bill: &Bill) -> String {
    let each = spares.iter().map(|spare| {
        let part = bill.lines.iter().map(|line| &line.part).find(|part| part.id == spare.part);
        let name = part.map_or(spare.part.as_str(), |part| &part.name);
        let price = part.and_then(|part| Some((part.price.filter(|_| !spare.arm)?, part.pieces.unwrap_or(1))));
        let price = price.map_or_else(String::new, |(price, pieces)| match pieces {
            0 | 1 => format!(" ({price} each)"),
            pieces => format!(" ({price} for {pieces})"),
        });
        format!("{} × {}{name}{price}", spare.count, if spare.arm { "arm of " } else { "" })
    });
    each.collect::<Vec<_>>().join(", ")
}

fn undecided(comparison: &Comparison) -> String {
    if comparison.kit.price.is_none() {
        return "The kit has no price.".to_owned();
    }
    if comparison.unpriced.is_empty() {
        return "The two differ in several currencies, and no rate between them was given.".to_owned();
    }
    let parts = names(comparison.unpriced.iter().map(AsRef::as_ref));
    format!("Cannot be told: nobody states the price of {parts}.")
}

/// At which price of the kit both ways cost the same.
pub fn break_even(comparison: &Comparison) -> Option<String> {
    let at = comparison.breaks_even_at?;
    Some(match comparison.cheaper()? {
        Cheaper::Equal => format!("The kit breaks even at its price, {at}."),
        _ if at.minor() <= 0 => "No price of the kit would pay: nothing in it is still needed.".to_owned(),
        _ => format!("The kit breaks even at a price of {at}."),
    })
}

/// Does the craft with the kit's parts do what the listed one does?
pub fn capability(comparison: &Comparison) -> String {
    if !comparison.mismatches.is_empty() {
        return format!("Its parts do not go with this craft. {}", conflicts(&comparison.mismatches));
    }
    let figure = |figure: Option<crate::interval::Interval>| {
        figure.map_or_else(|| "not known".to_owned(), |figure| super::figure(&figure))
    };
    let differing = comparison.capabilities.iter().filter(|one| one.differs);
    let said = differing.map(|one| format!("{} {} in place of {}", one.title, figure(one.kit), figure(one.listed)));
    let said: Vec<String> = said.collect();
    if said.is_empty() {
        "By the figures the craft with the kit's parts does what the listed one does.".to_owned()
    } else {
        format!("The craft with the kit's parts is another one: {}.", said.join(", "))
    }
}

/// What a training path assumes.
pub fn wear(course: &Course) -> String {
    let wear = course.wear;
    let simulator = wear.simulator_price.map_or_else(|| "not priced".to_owned(), |price| format!("for {price}"));
    format!(
        "Assumed (common practice, no source): {} h in a simulator first, {simulator}, which break nothing; in ten hours {} sets \
         of propellers with ducts or guards, {} without, and {} arm of an open frame; a pack is worn after {} flights.",
        wear.simulator_h, wear.sets_guarded, wear.sets_open, wear.arms, wear.pack_flights
    )
}
