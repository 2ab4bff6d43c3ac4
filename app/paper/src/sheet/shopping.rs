//! The shopping list: what is to be bought, by supplier; what is owned is struck.

use std::collections::BTreeMap;

use propwright_engine::{
    Report,
    bill::{ChargeKind, Line, Need},
    explain::money,
};

use super::{
    Setting, Sheet,
    flow::{Cell, Flow},
};

/// Shares of the columns: box, how many, part, price of one pack, price of the line.
const COLUMNS: [f32; 5] = [4.0, 14.0, 52.0, 15.0, 15.0];
/// Stands for a part whose record names no supplier.
const ANYWHERE: &str = "No supplier stated";

/// The shopping list of a report.
pub fn shopping_list(report: &Report, setting: Setting) -> Sheet {
    let name = &report.craft.build.name;
    let mut flow = Flow::new(setting.format, name, &setting.foot("Shopping list", name));
    flow.title(&format!("Shopping list · {}", setting.date()));
    let mut suppliers: BTreeMap<&str, Vec<&Line>> = BTreeMap::new();
    for line in report.bill.lines.iter().filter(|line| line.is_bought()) {
        suppliers.entry(line.part.supplier.as_deref().unwrap_or(ANYWHERE)).or_default().push(line);
    }
    for (supplier, lines) in &suppliers {
        flow.heading(supplier);
        flow.columns(&COLUMNS, &["", "packs", "part", "a pack", "price"], &[3, 4]);
        for line in lines {
            bought(&mut flow, line);
        }
    }
    let owned: Vec<&Line> = report.bill.lines.iter().filter(|line| !line.is_bought()).collect();
    if !owned.is_empty() {
        flow.heading("Nothing to buy for");
    }
    for line in owned {
        let from = if line.from_rest > 0 { " (left over from packs above)" } else { "" };
        let name = format!("{} × {}{from}", line.count, line.part.name);
        flow.row(&COLUMNS, &[Cell::of(""), Cell::of(""), Cell::of(name).soft().struck(true), Cell::of(""), Cell::of("")]);
    }
    sum(&mut flow, report);
    flow.finish()
}

fn bought(flow: &mut Flow, line: &Line) {
    let pieces = if line.pieces > 1 { format!("{} × {} pcs", line.packs, line.pieces) } else { line.packs.to_string() };
    let price =
        |price: Option<propwright_schema::quantity::Money>| price.map_or_else(|| "?".to_owned(), |price| price.to_string());
    let part = &line.part;
    let maker = part.maker.as_ref().filter(|maker| !part.name.starts_with(maker.as_str()));
    let spare = if matches!(line.need, Need::Fitted(_)) { "" } else { " (spare)" };
    let name = format!("{}{}{spare}", maker.map_or_else(String::new, |maker| format!("{maker} ")), part.name);
    flow.row(
        &COLUMNS,
        &[
            Cell::to_tick(),
            Cell::of(pieces),
            Cell::of(name).bold(),
            Cell::of(price(line.unit_price)).right(),
            Cell::of(price(line.price)).right(),
        ],
    );
    let mut more = Vec::new();
    more.extend(part.link.clone());
    more.extend(part.priced_on.map(|day| format!("price of {day}")));
    more.extend(line.age_days.map(|days| format!("{days} days old")));
    more.extend((!line.drawn.is_empty()).then(|| format!("{} more from the shelf", line.drawn_count())));
    more.extend(part.retired.then(|| "no longer sold".to_owned()));
    if !more.is_empty() {
        let share = (COLUMNS[0] + COLUMNS[1]) / COLUMNS.iter().sum::<f32>();
        let inward = flow.room() * share;
        flow.small(&more.join(" · "), inward);
    }
}

fn sum(flow: &mut Flow, report: &Report) {
    let bill = &report.bill;
    flow.heading("Sum");
    for charged in &bill.charges {
        let kind = if charged.kind == ChargeKind::Shipping { "Shipping from" } else { "Tax:" };
        let name = format!("{kind} {}", money::charge(charged));
        flow.row(&[70.0, 30.0], &[Cell::of(name), Cell::of(charged.amount.to_string()).right()]);
    }
    for amount in &bill.total.amounts {
        flow.row(&[70.0, 30.0], &[Cell::of("Left to pay").bold(), Cell::of(amount.to_string()).bold().right()]);
    }
    let unpriced: Vec<&str> = bill.unpriced().map(|line| line.part.name.as_str()).collect();
    if !unpriced.is_empty() {
        flow.paragraph(&format!("Without a price, and not in the sum: {}.", unpriced.join(", ")), 0.0);
    }
    if !bill.shipping_unsaid.is_empty() {
        flow.paragraph(&format!("The list does not say what shipping costs from {}.", bill.shipping_unsaid.join(", ")), 0.0);
    }
    for (part, count) in &bill.rest {
        flow.small(&format!("Left over for the shelf: {count} × {}.", part.name), 0.0);
    }
}
