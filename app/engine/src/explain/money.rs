//! Sentences about money: a sum, a kit against the same parts one by one, the cost of a training path.

use std::sync::Arc;

use propwright_schema::{part::Part, quantity::Money, slot::Slot};

use crate::bill::{
    Charged, Total,
    kit::{Cheaper, Comparison},
    path::Course,
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

/// Titles of slots behind one another.
pub fn titles(slots: &[Slot]) -> String {
    slots.iter().map(|slot| slot.title().to_lowercase()).collect::<Vec<_>>().join(", ")
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
    let owned = names(comparison.already_owned.iter().map(AsRef::as_ref));
    let with =
        if owned.is_empty() { "With what is owned already".to_owned() } else { format!("With a part for {owned} already owned") };
    match comparison.above_owning_nothing {
        Some(nothing) if nothing != above => format!("{with}, {}; owning nothing, {}.", cheaper(above), cheaper(nothing)),
        _ => capital(&format!("{}.", cheaper(above))),
    }
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
        return format!("Its parts do not go with this craft: {}.", comparison.mismatches.join(", "));
    }
    let figure = |figure: Option<crate::interval::Interval>| {
        figure.map_or_else(|| "not known".to_owned(), |figure| super::figure(&figure))
    };
    let differing = comparison.capabilities.iter().filter(|one| one.differs());
    let said = differing.map(|one| format!("{} {} in place of {}", one.title, figure(one.kit), figure(one.listed)));
    let said: Vec<String> = said.collect();
    if said.is_empty() {
        "By the figures the craft with the kit's parts does what the listed one does.".to_owned()
    } else {
        format!("The craft with the kit's parts is another one: {}.", said.join(", "))
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
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
