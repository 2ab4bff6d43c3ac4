//! Prices by day: the latest counts, earlier ones are kept.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use crate::{kit::Kit, part::Part, quantity::Money};

/// A price with its day and who asked it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PastPrice {
    /// Price of one pack of pieces, or of the box.
    pub price: Money,
    /// Day of the price.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub priced_on: Option<Date>,
    /// Who asked it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supplier: Option<String>,
}

/// The price that counts among `now` and `new`; the other is put among the earlier ones, the latest first. A price of the same day
/// and supplier is a correction: it takes the place of the one before. A price without a day counts as the oldest.
fn latest(now: Option<PastPrice>, new: PastPrice, earlier: &mut Vec<PastPrice>) -> PastPrice {
    let same = |other: &PastPrice| other.priced_on == new.priced_on && other.supplier == new.supplier;
    let Some(now) = now.filter(|now| !same(now)) else { return new };
    earlier.retain(|other| !same(other));
    let (counts, other) = if new.priced_on >= now.priced_on { (new, now) } else { (now, new) };
    let at = earlier.iter().position(|known| known.priced_on <= other.priced_on).unwrap_or(earlier.len());
    earlier.insert(at, other);
    counts
}

/// The price that counts when a record said `was` before and says `now`; the other one is put among the earlier ones.
fn kept(was: Option<PastPrice>, now: Option<PastPrice>, earlier: &mut Vec<PastPrice>) -> Option<PastPrice> {
    match (was, now) {
        (Some(was), Some(now)) if was != now => Some(latest(Some(was), now, earlier)),
        (_, now) => now,
    }
}

/// Prices of a record that says one now and holds earlier ones.
macro_rules! priced {
    ($record:ty) => {
        impl $record {
            /// Keeps the price of an earlier state of the record: among the earlier ones, or as the one that counts when it is
            /// younger.
            pub fn keep_price_of(&mut self, before: &Self) {
                if let Some(counts) = kept(before.says(), self.says(), &mut self.earlier_prices) {
                    (self.price, self.priced_on, self.supplier) = (Some(counts.price), counts.priced_on, counts.supplier);
                }
            }

            fn says(&self) -> Option<PastPrice> {
                self.price.map(|price| PastPrice { price, priced_on: self.priced_on, supplier: self.supplier.clone() })
            }
        }
    };
}

priced!(Part);
priced!(Kit);

#[cfg(test)]
mod tests {
    use super::*;

    fn price(amount: &str, day: &str, supplier: &str) -> PastPrice {
        let priced_on = (!day.is_empty()).then(|| day.parse().unwrap());
        PastPrice { price: amount.parse().unwrap(), priced_on, supplier: Some(supplier.to_owned()) }
    }

    fn after(prices: &[PastPrice]) -> (String, Vec<String>) {
        let mut earlier = Vec::new();
        let mut now = None;
        for new in prices {
            now = Some(latest(now, new.clone(), &mut earlier));
        }
        (now.unwrap().price.to_string(), earlier.iter().map(|past| past.price.to_string()).collect())
    }

    #[test]
    fn the_latest_day_counts_in_whatever_order_prices_are_entered() {
        let all = [
            price("19.00 EUR", "2026-08-14", "Quay Depot"),
            price("17.90 EUR", "2026-11-02", "Quay Depot"),
            price("21.00 EUR", "", "Far Yard"),
            price("18.40 EUR", "2026-09-30", "Far Yard"),
        ];
        let told = ("17.90 EUR".to_owned(), ["18.40 EUR", "19.00 EUR", "21.00 EUR"].map(str::to_owned).to_vec());
        assert_eq!(after(&all), told);
        let turned: Vec<PastPrice> = all.iter().rev().cloned().collect();
        assert_eq!(after(&turned), told);
    }

    #[test]
    fn a_price_of_the_same_day_and_supplier_is_a_correction() {
        let slip = [price("1790 EUR", "2026-11-02", "Quay Depot"), price("17.90 EUR", "2026-11-02", "Quay Depot")];
        assert_eq!(after(&slip), ("17.90 EUR".to_owned(), Vec::new()));
        let elsewhere = [price("17.90 EUR", "2026-11-02", "Quay Depot"), price("16.50 EUR", "2026-11-02", "Far Yard")];
        assert_eq!(after(&elsewhere), ("16.50 EUR".to_owned(), vec!["17.90 EUR".to_owned()]));
    }
}
