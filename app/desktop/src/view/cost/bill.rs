//! The bill of a build, line by line.

use std::sync::Arc;

use propwright_engine::{
    Report,
    bill::{Bill, ChargeKind, Line, Need, of_charge, of_line, spare},
    explain::money,
    finding::Because,
};
use propwright_schema::{
    build_list::{Charge, Spare, Tax},
    quantity::Money,
};

use crate::{state::Place, view::ledger::NO_PARTS};

/// Where a line comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// All of it must be bought.
    Bought,
    /// All of it lies on the shelf.
    Owned,
    /// Some of it is drawn from the shelf or from packs of other lines.
    Partly,
}

/// A line of the bill.
#[derive(Debug, Clone, PartialEq)]
pub struct BillRow {
    /// Its place in the list; absent for spares.
    pub place: Option<Place>,
    /// Its place among the spares.
    pub spare: Option<usize>,
    /// "4 × Vellacre 2207 1750".
    pub name: String,
    /// How it is bought, from whom and when that price was seen; what is drawn.
    pub how: String,
    /// Where to find it again, as text.
    pub link: Option<String>,
    /// The price of the line, "on the shelf", or "no price".
    pub price: String,
    /// The steps that lead to that price; nothing where none is paid or known.
    pub because: Option<Arc<Because>>,
    /// Where it comes from.
    pub mark: Mark,
}

/// Lines under one heading.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// The heading.
    pub title: &'static str,
    /// The lines.
    pub rows: Vec<BillRow>,
}

/// Shipping or a tax as it came out.
#[derive(Debug, Clone, PartialEq)]
pub struct Charged {
    /// Shipping, or else a tax.
    pub shipping: bool,
    /// Its place in the list's shipping or taxes.
    pub at: usize,
    /// What it is, of what it is taken, or why it does not count.
    pub words: String,
    /// The amount.
    pub amount: String,
    /// The steps that lead to it.
    pub because: Arc<Because>,
}

/// The bill of a build.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BillView {
    /// Left to pay.
    pub total: String,
    /// Sums told in another currency, and why some stay apart.
    pub rates: Vec<String>,
    /// Against the budget.
    pub budget: Option<String>,
    /// Parts without a price, in words; empty where each has one.
    pub unpriced: String,
    /// The lines.
    pub groups: Vec<Group>,
    /// Shipping and taxes as they came out.
    pub charged: Vec<Charged>,
    /// Suppliers whose shipping the list does not say.
    pub shipping_unsaid: Vec<String>,
    /// What packs leave over for the shelf, in words.
    pub rest: String,
    /// The usual spares of the purpose.
    pub usual: Vec<Spare>,
    /// Those in words.
    pub usual_words: String,
    /// The list's own shipping.
    pub shipping: Vec<Charge>,
    /// The list's own taxes.
    pub tax: Vec<Tax>,
    /// Suppliers of what is bought.
    pub suppliers: Vec<String>,
    /// Parts of the craft that could be spares: id, name, and whether arms of a frame.
    pub could_be_spare: Vec<(Spare, String)>,
}

/// The bill of a report.
pub fn bill_view(report: &Report) -> BillView {
    let (bill, build) = (&report.bill, &report.craft.build);
    let (craft, spares): (Vec<&Line>, Vec<&Line>) = bill.lines.iter().partition(|line| matches!(line.need, Need::Fitted(_)));
    let (aboard, ground): (Vec<&Line>, Vec<&Line>) = craft.into_iter().partition(|line| !line.slot.on_ground());
    let group = |title, lines: Vec<&Line>| Group { title, rows: lines.into_iter().map(|line| row(report, line)).collect() };
    let groups = [group("In the craft", aboard), group("On the ground", ground), group("Spares", spares)];
    let mut suppliers: Vec<String> =
        bill.lines.iter().filter(|line| line.is_bought()).filter_map(|line| line.part.supplier.clone()).collect();
    suppliers.sort();
    suppliers.dedup();
    let usual = spare::usual(&report.craft);
    BillView {
        total: if bill.lines.is_empty() { NO_PARTS.to_owned() } else { money::total(&bill.total) },
        rates: rates(bill),
        budget: build
            .purpose
            .budget
            .filter(|_| !bill.lines.is_empty())
            .and_then(|budget| against(budget, &bill.total.amounts, bill.unpriced().count() > 0)),
        unpriced: money::names(bill.unpriced().map(|line| line.part.as_ref())),
        groups: groups.into_iter().filter(|group| !group.rows.is_empty()).collect(),
        charged: bill.charges.iter().map(charged).collect(),
        shipping_unsaid: bill.shipping_unsaid.clone(),
        rest: money::counts(&bill.rest),
        usual_words: money::spares(&usual, bill),
        usual,
        shipping: build.shipping.clone(),
        tax: build.tax.clone(),
        suppliers,
        could_be_spare: could_be_spare(report),
    }
}

fn could_be_spare(report: &Report) -> Vec<(Spare, String)> {
    let mut found = Vec::new();
    for placed in report.craft.listed().filter(|placed| !placed.subject.slot.on_ground()) {
        let part = &placed.subject.part;
        let spare = |arm| Spare { part: part.id.clone(), arm, count: 1, note: None };
        if spare::has_arms(part) {
            found.push((spare(true), format!("an arm of {}", part.name)));
        }
        found.push((spare(false), part.name.clone()));
    }
    found
}

fn rates(bill: &Bill) -> Vec<String> {
    let converted = bill.total.converted.iter().map(|converted| {
        let rate = converted.rate;
        format!("{} at {} of {} are {}, rounded to the smallest unit", converted.from, rate.rate, rate.on, converted.to)
    });
    let mut said: Vec<String> = converted.collect();
    if bill.total.amounts.len() > 1 {
        said.push("No rate joins these currencies: they stay apart until you give one under Shelf and rates.".to_owned());
    }
    said
}

/// How the sum stands against the budget; nothing where the two are of different currencies.
fn against(budget: Money, amounts: &[Money], unpriced: bool) -> Option<String> {
    let spent = match amounts {
        [] => Money::of(0, budget.unit()),
        [only] => *only,
        _ => return None,
    };
    let left = budget.minus(spent)?;
    let besides = if unpriced { ", and some parts have no price" } else { "" };
    Some(match left.minor() {
        minor if minor < 0 => {
            format!("{} over the budget of {budget}{besides}: see whether a kit costs less", Money::of(-minor, left.unit()))
        }
        _ => format!("{left} under the budget of {budget}{besides}"),
    })
}

fn charged(charged: &propwright_engine::bill::Charged) -> Charged {
    let amount = if charged.counts { charged.amount.to_string() } else { format!("({})", charged.amount) };
    Charged {
        shipping: charged.kind == ChargeKind::Shipping,
        at: charged.at,
        words: money::charge(charged),
        amount,
        because: of_charge(charged),
    }
}

fn row(report: &Report, line: &Line) -> BillRow {
    let (place, spare) = match line.need {
        Need::Fitted(at) => (Some(Place { slot: line.slot, line: Some(at) }), None),
        Need::Spare(at) | Need::Arm(at) => (None, Some(at)),
    };
    let arm = if matches!(line.need, Need::Arm(_)) { "arm of " } else { "" };
    let mark = match line.is_bought() {
        false => Mark::Owned,
        true if line.drawn.is_empty() && line.from_rest == 0 => Mark::Bought,
        true => Mark::Partly,
    };
    let price = match line.price {
        _ if line.is_owned() => "on the shelf".to_owned(),
        _ if !line.is_bought() => "from packs above".to_owned(),
        Some(price) => price.to_string(),
        None => "no price".to_owned(),
    };
    BillRow {
        place,
        spare,
        name: format!("{} × {arm}{}", line.count, line.part.name),
        how: how(line).join(" · "),
        link: line.part.link.clone().filter(|_| line.is_bought()),
        price,
        because: of_line(&report.craft, line),
        mark,
    }
}

fn how(line: &Line) -> Vec<String> {
    let mut said = Vec::new();
    for drawn in &line.drawn {
        let item = &drawn.item;
        let condition = item.condition.map_or(String::new(), |condition| format!(" {condition}"));
        let measured: String = [item.mass_g.map(|mass| format!(", {mass}")), item.resistance_mohm.map(|ohm| format!(", {ohm}"))]
            .into_iter()
            .flatten()
            .collect();
        let from = if item.fitted_in.is_some() { "in this craft" } else { "from the shelf" };
        said.push(format!("{}{condition} {from}{measured}", drawn.count));
    }
    if line.from_rest > 0 {
        said.push(format!("{} from packs above", line.from_rest));
    }
    if !line.is_bought() {
        return said;
    }
    let unit = line.unit_price.map_or_else(|| "no price".to_owned(), |price| price.to_string());
    let pack = match (line.packs, line.pieces) {
        (_, 1) => "",
        (1, _) => " pack of",
        _ => " packs of",
    };
    let pieces = if line.pieces > 1 { format!(" {}", line.pieces) } else { String::new() };
    said.push(format!("{}{pack}{pieces} at {unit}", line.packs));
    said.extend(line.part.supplier.clone());
    let day = line.part.priced_on.filter(|_| line.unit_price.is_some());
    said.extend(day.map(|day| match line.age_days {
        Some(age) => format!("{day}, {age} days ago"),
        None => day.to_string(),
    }));
    said.extend(line.part.retired.then(|| "no longer sold".to_owned()));
    said
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_budget_is_compared_in_its_own_currency_only() {
        let money = |text: &str| text.parse::<Money>().unwrap();
        let told = |amounts: &[&str]| {
            let amounts: Vec<Money> = amounts.iter().map(|amount| money(amount)).collect();
            against(money("300.00 EUR"), &amounts, false)
        };
        assert_eq!(told(&["267.90 EUR"]).as_deref(), Some("32.10 EUR under the budget of 300.00 EUR"));
        assert_eq!(
            told(&["312.00 EUR"]).as_deref(),
            Some("12.00 EUR over the budget of 300.00 EUR: see whether a kit costs less")
        );
        assert_eq!(told(&["200.00 GBP"]), None);
        assert_eq!(told(&["200.00 EUR", "5.00 GBP"]), None);
    }
}
