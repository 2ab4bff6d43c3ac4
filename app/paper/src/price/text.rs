//! The bill of a build as plain text.

use crate::page::Page;
use propwright_engine::{
    Report,
    bill::{Bill, ChargeKind, Line, Need, kit::Comparison, path::Course, spare},
    explain::{self, money},
};

/// The bill, kits against separate parts, a training path, and notes about the files read.
pub fn price(report: &Report, kits: &[Comparison], course: Option<&Course>, notes: &[String]) -> String {
    let mut page = Page::default();
    let bill = &report.bill;
    page.heading(&report.craft.build.name);
    page.paragraph("Left to pay    ", &money::total(&bill.total));
    for converted in &bill.total.converted {
        let rate = converted.rate;
        let said = format!("{} at {} of {} = {}, rounded to the smallest unit", converted.from, rate.rate, rate.on, converted.to);
        page.paragraph("               ", &said);
    }
    let unpriced = money::names(bill.unpriced().map(|line| line.part.as_ref()));
    if !unpriced.is_empty() {
        page.paragraph("Without price  ", &unpriced);
    }
    lines(&mut page, bill);
    usual(&mut page, report);
    for comparison in kits {
        kit(&mut page, comparison);
    }
    if let Some(course) = course {
        path(&mut page, course);
    }
    if !notes.is_empty() {
        page.heading("Notes");
        for note in notes {
            page.paragraph("  - ", note);
        }
    }
    page.finish()
}

/// Where the columns begin: slot, count and name, price.
const COLUMNS: [usize; 3] = [2, 26, 84];

fn lines(page: &mut Page, bill: &Bill) {
    let (craft, spares): (Vec<&Line>, Vec<&Line>) = bill.lines.iter().partition(|line| matches!(line.need, Need::Fitted(_)));
    for (title, lines) in [("Bill of materials", craft), ("Spares", spares)].into_iter().filter(|(_, lines)| !lines.is_empty()) {
        page.heading(title);
        for line in lines {
            let arm = if matches!(line.need, Need::Arm(_)) { "arm of " } else { "" };
            let name = format!("{} × {arm}{}", line.count, line.part.name);
            page.row(&COLUMNS, &[line.slot.title(), &name, &line_price(line)]);
            let more = purchase(line);
            if !more.is_empty() {
                page.paragraph(&" ".repeat(COLUMNS[1]), &more.join(" · "));
            }
        }
    }
    if !bill.charges.is_empty() || !bill.shipping_unsaid.is_empty() {
        page.heading("Shipping and taxes");
        for charged in &bill.charges {
            let kind = if charged.kind == ChargeKind::Shipping { "Shipping" } else { "Tax" };
            page.row(&COLUMNS, &[kind, &money::charge(charged), &charged.amount.to_string()]);
        }
        if !bill.shipping_unsaid.is_empty() {
            page.paragraph("  ", &format!("Shipping is not stated of: {}.", bill.shipping_unsaid.join(", ")));
        }
    }
    if !bill.rest.is_empty() {
        page.heading("Left over for the shelf");
        page.paragraph("  ", &money::counts(&bill.rest));
    }
}

fn line_price(line: &Line) -> String {
    match line.price {
        _ if line.is_owned() => "on the shelf".to_owned(),
        _ if !line.is_bought() => "from packs above".to_owned(),
        Some(price) => price.to_string(),
        None => "price ?".to_owned(),
    }
}

/// What is drawn and how the rest is bought.
fn purchase(line: &Line) -> Vec<String> {
    let mut said = Vec::new();
    for drawn in &line.drawn {
        let item = &drawn.item;
        let condition = item.condition.map_or(String::new(), |condition| format!(" {condition}"));
        let mass = item.mass_g.map_or(String::new(), |mass| format!(", {mass} each"));
        let resistance = item.resistance_mohm.map_or(String::new(), |resistance| format!(", {resistance}"));
        said.push(format!("{}{condition} from the shelf{mass}{resistance}", drawn.count));
    }
    if line.from_rest > 0 {
        said.push(format!("{} from packs above", line.from_rest));
    }
    if line.is_bought() {
        let unit = line.unit_price.map_or_else(|| "price ?".to_owned(), |price| price.to_string());
        let pack = if line.pieces > 1 { format!(" pack of {}", line.pieces) } else { String::new() };
        said.push(format!("{} ×{pack} at {unit}", line.packs));
        said.extend(line.part.supplier.as_ref().map(|supplier| format!("from {supplier}")));
        said.extend(line.part.priced_on.filter(|_| line.unit_price.is_some()).map(|day| match line.age_days {
            Some(age) => format!("price of {day}, {age} days ago"),
            None => format!("price of {day}"),
        }));
        said.extend(line.part.retired.then(|| "no longer sold".to_owned()));
        said.extend(line.part.link.clone());
    }
    said
}

fn usual(page: &mut Page, report: &Report) {
    let spares = spare::usual(&report.craft);
    if spares.is_empty() || !report.craft.build.spares.is_empty() {
        return;
    }
    page.heading("Usual spares, not listed and not counted");
    page.paragraph("  ", &money::spares(&spares, &report.bill));
}

fn kit(page: &mut Page, comparison: &Comparison) {
    let kit = &comparison.kit;
    page.heading(&format!("Kit or separate: {}", kit.name));
    page.paragraph("  ", &money::kit_answer(comparison));
    if comparison.covers.is_empty() || !comparison.mismatches.is_empty() {
        return;
    }
    page.paragraph("  ", &money::capability(comparison));
    for (way, sum) in money::ways(comparison) {
        page.paragraph(&format!("  {way:<26}"), &sum);
    }
    if let Some(said) = money::break_even(comparison) {
        page.paragraph("  ", &said);
    }
    let slots: Vec<_> = comparison.covers.iter().map(|(slot, _)| *slot).collect();
    page.paragraph("  It serves                 ", &money::titles(&slots));
    for (lead, said) in [
        ("  To buy besides            ", money::besides(comparison)),
        ("  Without the kit one buys  ", money::singly(comparison)),
        ("  Doubles with the shelf    ", money::doubles(comparison)),
        ("  Left for the next craft   ", money::counts(&comparison.left_over)),
    ] {
        if !said.is_empty() {
            page.paragraph(lead, &said);
        }
    }
}

/// What a training path costs.
pub fn path(page: &mut Page, course: &Course) {
    page.heading("Learning to fly, craft after craft");
    page.paragraph("  ", &money::wear(course));
    for step in &course.steps {
        page.gap();
        let flights = step.flights.map_or_else(
            || "flights not known, so no pack wears".to_owned(),
            |flights| format!("about {} flights", explain::number(f64::from(flights))),
        );
        page.paragraph("  ", &format!("{}: {} h, {flights}", step.name, step.flown_h));
        page.paragraph("    Left to pay   ", &money::total(&step.bill.total));
        for (lead, said) in [
            ("    Carried over  ", money::counts(&step.carried)),
            ("    Breaks, wears ", money::spares(&step.worn, &step.bill)),
            ("    Without price ", money::names(step.bill.unpriced().map(|line| line.part.as_ref()))),
        ] {
            if !said.is_empty() {
                page.paragraph(lead, &said);
            }
        }
    }
    page.gap();
    page.paragraph("  All together    ", &money::total(&course.total));
}
