//! Checks of what belongs to the bill: spares, charges, what lies on the shelf, and exchange rates.

use super::{Issue, LONGEST_NAME, LONGEST_NOTE, MOST_PIECES, Step, count, id_issue, money, number, text, value_issues};
use crate::{
    build_list::{Charge, Spare, Tax},
    description::{CYCLES, MASS, RESISTANCE, TAX_PERCENT},
    rates::{Rate, Rates},
    stock::StockItem,
    value::Describe,
};

/// Most pieces of one part on the shelf.
const MOST_IN_STOCK: u32 = 10_000;

/// What is wrong with a spare.
pub(crate) fn spare(spare: &Spare) -> Vec<Issue> {
    let found = [
        id_issue(&spare.part).map(|issue| issue.key("part")),
        count("count", spare.count, MOST_PIECES),
        text("note", spare.note.as_ref(), LONGEST_NOTE),
    ];
    found.into_iter().flatten().collect()
}

/// What is wrong with a charge.
pub(crate) fn charge(charge: &Charge) -> Vec<Issue> {
    let found = [
        text("name", Some(&charge.name), LONGEST_NAME),
        money(Some(charge.price)),
        text("note", charge.note.as_ref(), LONGEST_NOTE),
    ];
    found.into_iter().flatten().collect()
}

/// What is wrong with a tax: it has an amount or a share, and never both.
pub(crate) fn tax(tax: &Tax) -> Vec<Issue> {
    let mut issues: Vec<Issue> = [
        text("name", Some(&tax.name), LONGEST_NAME),
        money(tax.price),
        text("supplier", tax.supplier.as_ref(), LONGEST_NAME),
        text("note", tax.note.as_ref(), LONGEST_NOTE),
    ]
    .into_iter()
    .flatten()
    .collect();
    issues.extend(number(&TAX_PERCENT, tax.percent));
    let hint = "write price: \"3.30 EUR\" for a fixed amount, or percent: 19 for a share of what is bought";
    match (tax.price, tax.percent) {
        (None, None) => issues.push(Issue::new("the tax has neither an amount nor a share".to_owned(), hint).key("name")),
        (Some(_), Some(_)) => issues.push(Issue::new("the tax has an amount and a share".to_owned(), hint).key("percent")),
        _ => {}
    }
    issues
}

/// What is wrong with a line of the shelf.
pub(crate) fn stock_item(item: &StockItem) -> Vec<Issue> {
    let mut issues = Vec::new();
    issues.extend(id_issue(&item.part).map(|issue| issue.key("part")));
    issues.extend(count("count", item.count, MOST_IN_STOCK));
    issues.extend(number(&MASS, item.mass_g));
    issues.extend(number(&RESISTANCE, item.resistance_mohm));
    issues.extend(
        item.cycles.into_iter().flat_map(|cycles| value_issues(CYCLES.name, CYCLES.kind, CYCLES.plausible, &cycles.value())),
    );
    issues.extend(text("fitted_in", item.fitted_in.as_ref(), LONGEST_NAME));
    issues.extend(text("note", item.note.as_ref(), LONGEST_NOTE));
    issues
}

/// What is wrong with an exchange rate.
pub(crate) fn rate(rate: &Rate) -> Vec<Issue> {
    let same = rate.from == rate.to;
    let issue = || Issue::new(format!("the rate leads from {} to itself", rate.from), "name the other currency").key("to");
    same.then(issue).into_iter().collect()
}

/// Rates between the same two currencies on the same day: nobody knows which of them counts.
pub(crate) fn repeated_rates(rates: &Rates) -> Vec<Issue> {
    let key = |rate: &Rate| (rate.from, rate.to, rate.on);
    let again = |at: &usize| rates.rates[..*at].iter().any(|before| key(before) == key(&rates.rates[*at]));
    let issue = |at: usize| {
        let Rate { from, to, on, .. } = rates.rates[at];
        let reason = format!("a rate from {from} to {to} on {on} stands here a second time");
        Issue::new(reason, "keep one of the two").key("from").within(Step::Item(at)).key("rates")
    };
    (0..rates.rates.len()).filter(again).map(issue).collect()
}
