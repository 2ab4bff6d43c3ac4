//! What is paid beside the goods: shipping by supplier, and taxes, fixed or a share of what is bought.
//!
//! Formula of a share: `tax = base · percent / 100` for the base of each currency, rounded to its smallest unit, half a unit away
//! from zero. Source: arithmetic; what is taxed is the user's to say.

use std::collections::BTreeMap;

use propwright_schema::{
    build_list::{BuildList, Tax, TaxBase},
    quantity::{Currency, Money, Pct, Percent, Unit},
};

use super::{Given, Line, Total};

/// What a charge is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChargeKind {
    /// Shipping of a supplier.
    Shipping,
    /// A tax or a duty.
    Tax,
}

/// How a tax in per cent came to its amount.
#[derive(Debug, Clone, PartialEq)]
pub struct Share {
    /// The share.
    pub percent: Percent,
    /// What it is taken of.
    pub of: TaxBase,
    /// The supplier whose goods are taxed; absent: all of them.
    pub supplier: Option<String>,
    /// What that comes to in the tax's currency.
    pub base: Money,
}

/// A cost that is no part.
#[derive(Debug, Clone, PartialEq)]
pub struct Charged {
    /// Shipping or a tax.
    pub kind: ChargeKind,
    /// Its place in the list's shipping or taxes; a share of goods in two currencies has two charges.
    pub at: usize,
    /// The supplier, or what the tax is.
    pub name: String,
    /// The amount.
    pub amount: Money,
    /// Of a tax in per cent: what it is taken of.
    pub share: Option<Share>,
    /// Does it count? The shipping of a supplier from whom nothing is bought does not.
    pub counts: bool,
}

/// Something that is bought: its supplier and its price.
#[derive(Debug, Clone, Copy)]
pub(super) struct Goods<'a> {
    pub(super) supplier: Option<&'a str>,
    pub(super) price: Option<Money>,
}

/// What is bought for the lines of a bill.
pub(super) fn goods(lines: &[Line]) -> impl Iterator<Item = Goods<'_>> {
    let bought = lines.iter().filter(|line| line.is_bought());
    bought.map(|line| Goods { supplier: line.part.supplier.as_deref(), price: line.price })
}

/// The charges of a list when `goods` are bought.
pub(super) fn charges(build: &BuildList, goods: &[Goods]) -> Vec<Charged> {
    let bought_from = |name: &str| goods.iter().any(|one| one.supplier == Some(name));
    let shipping = build.shipping.iter().enumerate().map(|(at, charge)| Charged {
        kind: ChargeKind::Shipping,
        at,
        name: charge.name.clone(),
        amount: charge.price,
        share: None,
        counts: bought_from(&charge.name),
    });
    let mut charges: Vec<Charged> = shipping.collect();
    for (at, tax) in build.tax.iter().enumerate() {
        let taxed = taxes(tax, goods, &charges);
        let charged = taxed.into_iter().map(|(amount, share)| Charged {
            kind: ChargeKind::Tax,
            at,
            name: tax.name.clone(),
            amount,
            share,
            counts: true,
        });
        charges.extend(charged.collect::<Vec<_>>());
    }
    charges
}

/// What is to pay for goods and the charges that count.
pub(super) fn total(goods: &[Goods], charges: &[Charged], given: &Given) -> Total {
    let counted = charges.iter().filter(|charged| charged.counts).map(|charged| charged.amount);
    Total::of(goods.iter().filter_map(|one| one.price).chain(counted), given.rates.as_ref())
}

/// The amounts of a tax: the fixed one, or the share of the base of each currency.
fn taxes(tax: &Tax, goods: &[Goods], shipping: &[Charged]) -> Vec<(Money, Option<Share>)> {
    if let Some(price) = tax.price {
        return vec![(price, None)];
    }
    let Some(percent) = tax.percent else { return Vec::new() };
    let of = tax.of.unwrap_or(TaxBase::Goods);
    let taxed = |supplier: Option<&str>| tax.supplier.is_none() || tax.supplier.as_deref() == supplier;
    let goods = goods.iter().filter(|one| taxed(one.supplier)).filter_map(|one| one.price);
    let shipped = shipping.iter().filter(|charged| charged.kind == ChargeKind::Shipping && charged.counts);
    let shipped = shipped.filter(|charged| of == TaxBase::GoodsAndShipping && taxed(Some(&charged.name)));
    let mut bases: BTreeMap<Currency, i64> = BTreeMap::new();
    for amount in goods.chain(shipped.map(|charged| charged.amount)) {
        let base = bases.entry(amount.unit()).or_default();
        *base = base.saturating_add(amount.minor());
    }
    let share = |(currency, minor): (Currency, i64)| {
        let base = Money::of(minor, currency);
        Some((share_of(base, percent)?, Some(Share { percent, of, supplier: tax.supplier.clone(), base })))
    };
    bases.into_iter().filter_map(share).collect()
}

/// A share of an amount; `None` for one too large.
fn share_of(base: Money, percent: Percent) -> Option<Money> {
    let of = 100 * i128::from(Pct::INFO.steps);
    let product = i128::from(base.minor()) * i128::from(percent.steps());
    let rounded = (2 * product.abs() + of) / (2 * of) * product.signum();
    i64::try_from(rounded).ok().map(|minor| Money::of(minor, base.unit()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn euro(text: &str) -> Money {
        format!("{text} EUR").parse().unwrap()
    }

    #[test]
    fn half_a_unit_goes_away_from_zero() {
        let share = |base: &str, percent: &str| share_of(euro(base), Percent::parse(percent).unwrap()).unwrap();
        assert_eq!(share("100.00", "19"), euro("19.00"));
        assert_eq!(share("0.50", "19"), euro("0.10")); // 0.095
        assert_eq!(share("0.50", "18.9"), euro("0.09")); // 0.0945
        assert_eq!(share("99999999.99", "0"), euro("0.00"));
    }

    #[test]
    fn a_share_is_taken_of_what_it_says() {
        let tax = |of: Option<TaxBase>, supplier: Option<&str>| Tax {
            percent: Percent::parse("10").ok(),
            price: None,
            of,
            supplier: supplier.map(str::to_owned),
            ..Tax::fixed("duty", euro("1.00"))
        };
        let goods = [
            Goods { supplier: Some("Quay Depot"), price: Some(euro("50.00")) },
            Goods { supplier: Some("Far Yard"), price: "30.00 GBP".parse().ok() },
            Goods { supplier: Some("Far Yard"), price: None },
        ];
        let mut build = BuildList::empty("trial");
        let charge =
            |name: &str, price: Money| propwright_schema::build_list::Charge { name: name.to_owned(), price, note: None };
        build.shipping = vec![charge("Quay Depot", euro("6.90")), charge("Shelf", euro("5.00"))];
        let mut told = |tax: Tax| {
            build.tax = vec![tax];
            let charges = charges(&build, &goods);
            charges[2..].iter().map(|charged| charged.amount.to_string()).collect::<Vec<_>>()
        };
        assert_eq!(told(tax(None, None)), ["5.00 EUR", "3.00 GBP"]);
        assert_eq!(told(tax(Some(TaxBase::GoodsAndShipping), None)), ["5.69 EUR", "3.00 GBP"]);
        assert_eq!(told(tax(None, Some("Far Yard"))), ["3.00 GBP"]);
        assert_eq!(told(tax(None, Some("Shelf"))), Vec::<String>::new());
    }
}
