//! What parts cost in whole packs.

use propwright_schema::{part::Part, quantity::Money};

use crate::craft::Craft;

/// What so many pieces of a part cost in whole packs.
pub(super) fn price_of(part: &Part, count: u32) -> Option<Money> {
    part.price?.times(count.div_ceil(part.pieces.unwrap_or(1).max(1)))
}

/// What is left to pay for a craft, one amount a currency; parts on the shelf and parts without a price are left out.
pub(super) fn to_pay(craft: &Craft) -> Vec<Money> {
    let mut sums = Vec::new();
    for placed in craft.listed().filter(|placed| !placed.fitted.owned) {
        if let Some(price) = price_of(&placed.subject.part, placed.fitted.count) {
            add(&mut sums, price);
        }
    }
    sums
}

/// Adds an amount to the sum of its currency.
pub(super) fn add(sums: &mut Vec<Money>, price: Money) {
    for sum in sums.iter_mut() {
        if let Some(both) = sum.plus(price) {
            *sum = both;
            return;
        }
    }
    sums.push(price);
    sums.sort_by(|one, other| one.currency().cmp(other.currency()));
}
