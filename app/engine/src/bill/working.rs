//! How what is left to pay comes about: what is bought, what is charged, and what was told in another currency.
//!
//! Formula: Σ packs · price of a pack + shipping + taxes, within a currency exactly. Source: arithmetic.

use std::sync::Arc;

use propwright_schema::{quantity::Money, value::Describe as _, value::Value};

use super::{Bill, Charged, Converted, Line, Need};
use crate::{
    craft::{Craft, Subject},
    finding::{Because, Claim, Datum, Missing, Origin, Unknown},
};

const ARITHMETIC: &str = "arithmetic";

impl Bill {
    /// The steps that lead to one of the amounts of the total; the figure is the topmost.
    pub fn working(&self, craft: &Craft, amount: Money) -> Arc<Because> {
        let mut from = self.within(craft, amount);
        let told = self.total.converted.iter().filter(|converted| converted.to.unit() == amount.unit());
        from.extend(told.map(|converted| self.told(craft, converted)));
        from.extend(self.unpriced().map(|line| unpriced(&subject(craft, line))));
        derived(None, "left to pay", amount, "Σ packs · price of a pack + shipping + taxes, without what is on the shelf", from)
    }

    /// All amounts of one currency: lines, then charges.
    fn within(&self, craft: &Craft, amount: Money) -> Vec<Arc<Because>> {
        let same = |price: &Money| price.unit() == amount.unit() && price.minor() != 0;
        let lines = self.lines.iter().filter(|line| line.is_bought());
        let bought = lines.filter(|line| line.price.as_ref().is_some_and(same)).filter_map(|line| of_line(craft, line));
        let charges = self.charges.iter().filter(|charged| charged.counts && same(&charged.amount));
        bought.chain(charges.map(of_charge)).collect()
    }

    /// A sum that was told in another currency.
    fn told(&self, craft: &Craft, converted: &Converted) -> Arc<Because> {
        let mut from = self.within(craft, converted.from);
        let [rate, on] = [converted.rate.rate.to_string(), converted.rate.on.to_string()].map(Value::Word);
        let given = Datum::Value(Value::Record(vec![("of", rate), ("on", on)]));
        from.push(Because::assumption("the rate as it was given", Some(given)));
        derived(None, "sum told in another currency", converted.to, "sum · rate, rounded once", from)
    }
}

/// The steps that lead to the price of a line; nothing where nothing is bought, or where no price is known.
pub fn of_line(craft: &Craft, line: &Line) -> Option<Arc<Because>> {
    let price = line.price.filter(|_| line.is_bought())?;
    let subject = subject(craft, line);
    let field = if matches!(line.need, Need::Arm(_)) { "arm_price" } else { "price" };
    let mut from: Vec<Arc<Because>> =
        line.unit_price.iter().map(|unit| fact(Some(subject.clone()), field, unit.value(), Origin::Part)).collect();
    from.push(fact(Some(subject.clone()), "count", Value::Count(i64::from(line.count)), Origin::Line));
    if line.pieces > 1 {
        from.push(fact(Some(subject.clone()), "pieces", Value::Count(i64::from(line.pieces)), Origin::Part));
    }
    let there = i64::from(line.drawn_count()) + i64::from(line.from_rest);
    if there > 0 {
        let datum = Some(Datum::Value(Value::Count(there)));
        from.push(Because::assumption("so many are drawn from the shelf or left over from other packs", datum));
    }
    Some(derived(Some(subject), "price of what is bought", price, "whole packs for what the shelf lacks · price of a pack", from))
}

/// The steps that lead to shipping or a tax.
pub fn of_charge(charged: &Charged) -> Arc<Because> {
    let mut record = vec![("for", Value::Word(charged.name.clone()))];
    let Some(share) = &charged.share else {
        record.push(("price", charged.amount.value()));
        return fact(None, "charge", Value::Record(record), Origin::Build);
    };
    record.push(("share", share.percent.value()));
    record.push(("base", share.base.value()));
    let from = vec![fact(None, "charge", Value::Record(record), Origin::Build)];
    derived(None, "tax or duty", charged.amount, "base · percent / 100", from)
}

fn unpriced(subject: &Subject) -> Arc<Because> {
    Because::plain(Claim::Missing(Missing { subject: Some(subject.clone()), what: Unknown::Field("price") }))
}

/// The part of a line; of a spare the part alone.
fn subject(craft: &Craft, line: &Line) -> Subject {
    let placed = craft.listed().find(|placed| line.need == Need::Fitted(placed.line));
    let alone = || Subject { slot: line.slot, index: 0, of: 1, part: Arc::clone(&line.part), detail: Some("spare".to_owned()) };
    placed.map_or_else(alone, |placed| Subject { part: Arc::clone(&line.part), ..placed.subject.clone() })
}

fn fact(subject: Option<Subject>, field: &'static str, value: Value, origin: Origin) -> Arc<Because> {
    Because::plain(Claim::Fact { subject, field, datum: Datum::Value(value), basis: None, origin })
}

fn derived(
    subject: Option<Subject>,
    title: &'static str,
    amount: Money,
    formula: &'static str,
    from: Vec<Arc<Because>>,
) -> Arc<Because> {
    let claim = Claim::Derived { subject, title, datum: Datum::Value(amount.value()), formula, source: ARITHMETIC };
    Arc::new(Because { claim, from })
}

#[cfg(test)]
mod tests {
    use super::super::{Given, bill};
    use super::*;
    use crate::rules::trial::craft;
    use propwright_schema::{catalogue::Catalogue, load::load_rates, quantity::Currency};

    fn priced() -> Craft {
        craft(
            r#"(id: "p", name: "P", pieces: 8, price: "2.20 EUR", fills: [Propeller()]),
               (id: "g", name: "G", price: "2.00 GBP", fills: [Gps()])"#,
            r#"parts: [(slot: Propeller, part: "p", count: 12), (slot: Gps, part: "g")],
               tax: [(name: "duty", percent: 10)]"#,
        )
    }

    /// The amounts of the steps right below a sum, told in its currency.
    fn below(because: &Because, currency: Currency) -> i64 {
        let money = |step: &Arc<Because>| match step.datum() {
            Some(Datum::Value(Value::Word(word))) => word.parse::<Money>().ok(),
            _ => None,
        };
        because.from.iter().filter_map(money).filter(|money| money.unit() == currency).map(Money::minor).sum()
    }

    #[test]
    fn steps_add_up_to_each_sum() {
        let craft = priced();
        let bill = bill(&Catalogue::default(), &craft, &Given::default());
        assert_eq!(bill.total.amounts.iter().map(ToString::to_string).collect::<Vec<_>>(), ["4.84 EUR", "2.20 GBP"]);
        for amount in &bill.total.amounts {
            assert_eq!(below(&bill.working(&craft, *amount), amount.unit()), amount.minor());
        }
    }

    #[test]
    fn a_sum_told_in_another_currency_rests_on_its_rate() {
        let text = r#"(version: 1, rates: [(from: "GBP", to: "EUR", rate: "1.17", on: "2026-11-20")])"#;
        let given = Given { rates: load_rates("r", text).ok(), ..Given::default() };
        let craft = priced();
        let bill = bill(&Catalogue::default(), &craft, &given);
        assert_eq!(bill.total.amounts.len(), 1);
        let amount = bill.total.amounts[0];
        let working = bill.working(&craft, amount);
        assert_eq!(below(&working, amount.unit()), amount.minor());
        let told = working.from.last().unwrap();
        assert!(matches!(told.from.last().unwrap().claim, Claim::Assumption { datum: Some(_), .. }));
    }
}
