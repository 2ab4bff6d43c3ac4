//! Money: what a build costs, what of it lies on the shelf already, and whether a kit is the better buy.
//!
//! All amounts are whole smallest units of their currency. Two things are rounded, each once and half a unit away from zero: a tax
//! in per cent of a currency's goods, and a currency's whole sum that is told in another one by a rate that the user gave.

mod charge;
pub mod kit;
pub mod path;
mod purchase;
pub mod spare;
pub mod stock;
mod total;
mod working;

use std::sync::Arc;

use propwright_schema::{build_list::BuildList, catalogue::Catalogue, part::Part, rates::Rates, stock::Stock};

pub use charge::{ChargeKind, Charged, Share};
pub use purchase::{Drawn, Line, Need, price_of};
pub use total::{Converted, Total, difference, differences};
pub use working::{of_charge, of_line};

use crate::craft::Craft;
use charge::Goods;

/// What the user gives beside the build: the shelf, exchange rates, and the day from which the age of a price counts.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Given {
    /// What lies on the shelf.
    pub stock: Stock,
    /// Exchange rates; without them currencies stay apart.
    pub rates: Option<Rates>,
    /// Today; without it prices have a date and no age.
    pub today: Option<jiff::civil::Date>,
}

/// The bill of materials of a build.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bill {
    /// A line for each part of the craft in the order of assembly, then for each spare.
    pub lines: Vec<Line>,
    /// Shipping and taxes.
    pub charges: Vec<Charged>,
    /// The sum of all lines and of the charges that count.
    pub total: Total,
    /// What whole packs leave over for the shelf.
    pub rest: Vec<(Arc<Part>, u32)>,
    /// Suppliers from whom something is bought and whose shipping the list does not say.
    pub shipping_unsaid: Vec<String>,
}

impl Bill {
    /// Lines that must be bought and have no price.
    pub fn unpriced(&self) -> impl Iterator<Item = &Line> {
        self.lines.iter().filter(|line| line.is_bought() && line.price.is_none())
    }

    /// The line of the bill for a line of the build list.
    pub fn of_part(&self, at: usize) -> Option<&Line> {
        self.lines.iter().find(|line| line.need == Need::Fitted(at))
    }
}

/// The bill of a craft: what the shelf holds is drawn first, whole packs are bought, the rest goes to the shelf.
///
/// ```
/// use std::sync::Arc;
/// use propwright_engine::{bill, craft::Craft};
/// use propwright_schema::{catalogue::Catalogue, load::{load_build, load_catalogue}};
/// let mut catalogue = Catalogue::default();
/// catalogue.lay_over(&load_catalogue("c", r#"(version: 1, parts: [
///     (id: "p", name: "P", pieces: 8, price: "2.20 EUR", fills: [Propeller()])])"#).unwrap());
/// let list = r#"(version: 1, name: "B", parts: [(slot: Propeller, part: "p", count: 4)], spares: [(part: "p", count: 8)])"#;
/// let craft = Craft::new(&catalogue, &Arc::new(load_build("b", list).unwrap()));
/// let bill = bill::bill(&catalogue, &craft, &bill::Given::default());
/// assert_eq!(bill.total.amounts, ["4.40 EUR".parse().unwrap()]); // 12 pieces are two packs of 8
/// assert_eq!(bill.rest[0].1, 4);
/// ```
pub fn bill(catalogue: &Catalogue, craft: &Craft, given: &Given) -> Bill {
    bill_with_box(catalogue, craft, given, 0)
}

/// The same where the last `boxed` items of the shelf lie in a kit's box.
fn bill_with_box(catalogue: &Catalogue, craft: &Craft, given: &Given, boxed: usize) -> Bill {
    let (lines, rest) = purchase::buy(catalogue, craft, given, boxed);
    let build = &craft.build;
    let goods: Vec<Goods> = charge::goods(&lines).collect();
    let charges = charge::charges(build, &goods);
    let total = charge::total(&goods, &charges, given);
    let said = |name: &str| build.shipping.iter().any(|charge| charge.name == name);
    let mut shipping_unsaid: Vec<String> = lines
        .iter()
        .filter(|line| line.is_bought())
        .filter_map(|line| line.part.supplier.clone())
        .filter(|name| !said(name))
        .collect();
    shipping_unsaid.sort();
    shipping_unsaid.dedup();
    Bill { lines, charges, total, rest, shipping_unsaid }
}

/// The craft of a list with its bill; what was measured of parts on the shelf stands for the maker's figures.
pub(crate) fn crafted(catalogue: &Catalogue, build: &Arc<BuildList>, given: &Given) -> (Craft, Bill) {
    let mut craft = Craft::new(catalogue, build);
    let bill = bill(catalogue, &craft, given);
    stock::measure(&mut craft, &bill);
    (craft, bill)
}
