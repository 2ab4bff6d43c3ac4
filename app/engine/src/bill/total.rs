//! Sums of money: exact within a currency, converted only by the user's rates.

use propwright_schema::{
    quantity::Money,
    rates::{Rate, Rates},
};

/// A sum that was told in another currency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Converted {
    /// The exact sum.
    pub from: Money,
    /// The rate that the user gave.
    pub rate: Rate,
    /// The sum in the other currency, rounded once to its smallest unit, half a unit away from zero.
    pub to: Money,
}

/// A sum of several currencies.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Total {
    /// The exact sum of each currency, in the order of their letters.
    pub sums: Vec<Money>,
    /// Those that were told in another currency.
    pub converted: Vec<Converted>,
    /// What is to pay: one amount, or several where no rate joins them.
    pub amounts: Vec<Money>,
}

impl Total {
    /// The sum of amounts, by the rates where there are any. The order of the amounts makes no difference.
    pub fn of(amounts: impl IntoIterator<Item = Money>, rates: Option<&Rates>) -> Self {
        let mut total = Self::default();
        for amount in amounts.into_iter().filter(|amount| amount.minor() != 0) {
            add(&mut total.sums, amount);
        }
        for sum in &total.sums {
            let rate = rates.and_then(|rates| rates.latest(sum.unit(), rates.home()?));
            let converted = rate.and_then(|rate| Some(Converted { from: *sum, rate: *rate, to: rate.convert(*sum)? }));
            add(&mut total.amounts, converted.map_or(*sum, |converted| converted.to));
            total.converted.extend(converted);
        }
        total
    }
}

/// Adds an amount to the sum of its currency; a sum that has no room left stays apart.
fn add(sums: &mut Vec<Money>, amount: Money) {
    for sum in sums.iter_mut() {
        if let Some(both) = sum.plus(amount) {
            *sum = both;
            return;
        }
    }
    sums.push(amount);
    sums.sort_by_key(|sum| (sum.unit(), sum.minor()));
}

/// What the first of two sums is above the second, where that is one amount: `None` when they differ in two currencies.
pub fn difference(one: &Total, other: &Total) -> Option<Money> {
    match differences(one, other)?.as_slice() {
        [] => one.amounts.iter().chain(&other.amounts).next().map(|amount| Money::of(0, amount.unit())),
        [only] => Some(*only),
        _ => None,
    }
}

/// What the first of two sums is above the second in each currency in which they differ; `None` for amounts beyond counting.
pub fn differences(one: &Total, other: &Total) -> Option<Vec<Money>> {
    let mut left = one.amounts.clone();
    for amount in &other.amounts {
        add(&mut left, Money::of(0, amount.unit()).minus(*amount)?);
    }
    left.retain(|amount| amount.minor() != 0);
    Some(left)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn total(amounts: &[&str], rates: Option<&Rates>) -> Total {
        Total::of(amounts.iter().map(|amount| amount.parse().unwrap()), rates)
    }

    fn pounds() -> Rates {
        let text = r#"(version: 1, rates: [(from: "GBP", to: "EUR", rate: "1.17", on: "2026-11-20")])"#;
        propwright_schema::load::load_rates("r", text).unwrap()
    }

    fn told(amounts: &[Money]) -> Vec<String> {
        amounts.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn currencies_stay_apart_without_a_rate() {
        let parts = ["10.00 EUR", "0.50 GBP", "2.00 USD", "0.05 EUR", "0.00 CHF"];
        assert_eq!(told(&total(&parts, None).amounts), ["10.05 EUR", "0.50 GBP", "2.00 USD"]);
        let with = total(&parts, Some(&pounds()));
        assert_eq!(told(&with.amounts), ["10.64 EUR", "2.00 USD"]); // 0.50 · 1.17 = 0.585
        assert_eq!((with.converted.len(), told(&with.sums).len()), (1, 3));
    }

    #[test]
    fn each_currency_is_rounded_once() {
        assert_eq!(told(&total(&["0.01 GBP"; 3], Some(&pounds())).amounts), ["0.04 EUR"]); // 0.0351, not 3 · 0.01
    }

    #[test]
    fn differences_of_one_currency_only() {
        let differ =
            |one: &[&str], other: &[&str]| difference(&total(one, None), &total(other, None)).map(|money| money.to_string());
        assert_eq!(differ(&["5.00 EUR", "1.00 GBP"], &["7.00 EUR", "1.00 GBP"]).as_deref(), Some("-2.00 EUR"));
        assert_eq!(differ(&["5.00 EUR"], &["5.00 EUR"]).as_deref(), Some("0.00 EUR"));
        assert_eq!(differ(&["5.00 EUR"], &["5.00 GBP"]), None);
        assert_eq!(differ(&[], &["5.00 GBP"]).as_deref(), Some("-5.00 GBP"));
    }
}
