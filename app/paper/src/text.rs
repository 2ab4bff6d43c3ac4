//! A report as plain text, from what stands in the way down to what is merely good to know.

use std::sync::Arc;

use propwright_engine::{
    Report,
    bill::Line,
    craft::{Placed, Unplaced},
    estimated::estimates,
    explain::{
        self, Pins,
        telling::{Telling, Told},
    },
    finding::{Because, Claim, Finding, Status},
    rules,
    unknown::{questions, without_question},
    working::Working,
};
use propwright_schema::{part::Basis, slot::Slot};

use crate::{air, page::Page, unstated};

/// The whole report, with notes about the files that were read for it.
pub fn report(report: &Report, notes: &[String]) -> String {
    whole(report, notes, &[])
}

/// The same with the working of each main figure at the end, down to facts.
pub fn report_with_workings(report: &Report, notes: &[String]) -> String {
    whole(report, notes, &report.workings())
}

fn whole(report: &Report, notes: &[String], worked: &[Working]) -> String {
    let mut page = Page::default();
    let mut telling = telling(report, worked);
    head(&mut page, report);
    in_the_way(&mut page, report, &mut telling);
    unstated(&mut page, report);
    estimated(&mut page, report);
    air::section(&mut page, report);
    parts(&mut page, report);
    remarks(&mut page, "Cautions", &report.cautions);
    remarks(&mut page, "Advice", &report.advice);
    rest(&mut page, report);
    if !notes.is_empty() {
        page.heading("Notes");
        for note in notes {
            page.paragraph("  - ", note);
        }
    }
    workings(&mut page, worked, &mut telling);
    page.finish()
}

fn head(page: &mut Page, report: &Report) {
    let (build, totals) = (&report.craft.build, &report.totals);
    page.heading(&build.name);
    if let Some(note) = &build.note {
        page.paragraph("", note);
    }
    page.paragraph("", &counts(report));
    let cost = totals.cost.iter().map(ToString::to_string).collect::<Vec<_>>().join(" + ");
    let cost = match (cost.is_empty(), totals.unpriced.is_empty()) {
        (true, true) => "nothing".to_owned(),
        (true, false) => "not known".to_owned(),
        (false, _) => cost,
    };
    page.paragraph("Left to pay    ", &format!("{cost}{}", without("price", &totals.unpriced)));
    let mass = |mass: Option<_>| match mass {
        Some(mass) => explain::figure(&mass),
        None => format!("not known{}", without("mass", &totals.unweighed)),
    };
    page.paragraph("Dry mass       ", &mass(totals.dry_mass));
    page.paragraph("Take-off mass  ", &mass(totals.takeoff_mass));
}

/// `2 mismatches · 1 tight · 3 unstated · 26 fit`; what is not chosen yet is counted apart.
fn counts(report: &Report) -> String {
    let mismatches = report.count_chosen(Status::Mismatch);
    let to_choose = match report.to_choose() {
        0 => String::new(),
        several => format!(" · {several} to choose"),
    };
    let first = match mismatches {
        0 => "No mismatch".to_owned(),
        1 => "1 mismatch".to_owned(),
        several => format!("{several} mismatches"),
    };
    let [tight, unstated, fit] = [Status::Tight, Status::Unstated, Status::Fits].map(|status| report.count_chosen(status));
    format!("{first}{to_choose} · {tight} tight · {unstated} unstated · {fit} fit")
}

fn without(what: &str, slots: &[Slot]) -> String {
    if slots.is_empty() {
        return String::new();
    }
    let titles = slots.iter().map(|slot| slot.title().to_lowercase()).collect::<Vec<_>>().join(", ");
    format!(", and no {what} is known of: {titles}")
}

/// Each derivation is told once, under the first finding or figure that rests on it.
fn telling(report: &Report, worked: &[Working]) -> Telling {
    let told = [Status::Mismatch, Status::Tight].into_iter().flat_map(|status| of(report, status));
    let reasons = told.flat_map(|finding| finding.outcome.facts.iter().map(|(_, because)| because));
    Telling::of(reasons.chain(worked.iter().map(|working| &working.because)))
}

/// How each figure comes about.
fn workings(page: &mut Page, worked: &[Working], telling: &mut Telling) {
    if worked.is_empty() {
        return;
    }
    page.heading("How each figure comes about");
    for (at, working) in worked.iter().enumerate() {
        if at > 0 {
            page.gap();
        }
        worked_step(page, &working.because, 0, telling);
    }
}

/// A step with its formula, the numbers put in, and its source, then the steps below it.
fn worked_step(page: &mut Page, because: &Arc<Because>, depth: usize, telling: &mut Telling) {
    let indent = "  ".repeat(1 + depth.min(DEEPEST));
    let lead = format!("{indent}- ");
    let headline = explain::headline(because);
    let number = match telling.tell(because) {
        Told::Again(number) => return page.paragraph(&lead, &format!("{headline} [as told at {number}]")),
        Told::Numbered(number) => format!(" [{number}]"),
        Told::Full => String::new(),
    };
    page.paragraph(&lead, &format!("{headline}{number}"));
    if let Some(formula) = explain::formula_with_numbers(because) {
        page.paragraph(&format!("{indent}  = "), &formula);
    }
    if matches!(because.claim, Claim::Derived { .. })
        && let Some(source) = explain::source(because).filter(|source| !source.is_empty())
    {
        page.paragraph(&format!("{indent}  Source: "), source);
    }
    for below in &because.from {
        worked_step(page, below, depth + 1, telling);
    }
}

fn in_the_way(page: &mut Page, report: &Report, telling: &mut Telling) {
    for (status, title) in [(Status::Mismatch, "What stands in the way"), (Status::Tight, "What is tight")] {
        let mut found = of(report, status).peekable();
        if found.peek().is_some() || (status == Status::Mismatch && !report.craft.unplaced.is_empty()) {
            page.heading(title);
        }
        if status == Status::Mismatch {
            for one in &report.craft.unplaced {
                page.paragraph("  - ", &unplaced(one));
            }
        }
        for (at, finding) in found.enumerate() {
            if at > 0 {
                page.gap();
            }
            in_full(page, at + 1, finding, telling);
        }
    }
}

fn of(report: &Report, status: Status) -> impl Iterator<Item = &Finding> {
    report.findings.iter().filter(move |finding| finding.status() == status)
}

pub(crate) fn unplaced(one: &Unplaced) -> String {
    match one {
        Unplaced::Unknown(slot, id) => format!("{}: no catalogue holds a part {id:?}.", slot.title()),
        Unplaced::WrongSlot(slot, part) => format!("{}: the {} does not fill this slot.", slot.title(), part.name),
    }
}

/// The sentence, what the pilot notices, the reason as a tree, and the ways out.
fn in_full(page: &mut Page, number: usize, finding: &Finding, telling: &mut Telling) {
    let Some(rule) = rules::by_id(finding.rule) else { return };
    page.paragraph(&format!("{number:>2}. "), &format!("{} ({})", rule.title, rule.id));
    page.paragraph("    ", &explain::message(finding));
    if let Some(pins) = explain::pins(finding).filter(|_| finding.status() != Status::Fits) {
        self::pins(page, &pins);
    }
    if let Some(cost) = explain::cost(finding) {
        page.paragraph("    If left so: ", cost);
    }
    own_thresholds(page, finding);
    if !finding.outcome.facts.is_empty() {
        page.paragraph("    Because:", "");
        for (_, because) in &finding.outcome.facts {
            reason(page, because, 0, telling);
        }
    }
    page.paragraph("    Source: ", rule.source);
    let hints = explain::hints(finding);
    if !hints.is_empty() {
        page.paragraph("    Ways out:", "");
        bullets(page, &hints);
    }
}

/// Where the columns of two plugs begin: pin, the board, the other end, whether they meet.
const PINS: [usize; 4] = [6, 12, 46, 80];

/// Two plugs pin by pin.
fn pins(page: &mut Page, pins: &Pins) {
    page.row(&PINS, &["Pin", &pins.board.1, &pins.partner.1]);
    let said = |text: &str| if text.is_empty() { "no such pin".to_owned() } else { text.to_owned() };
    for pin in &pins.pins {
        let meets = if pin.meets() { "" } else { "differs" };
        page.row(&PINS, &[&pin.number.to_string(), &said(&pin.board), &said(&pin.partner), meets]);
    }
}

/// The user's own thresholds and estimates on which a finding rests.
fn own_thresholds(page: &mut Page, finding: &Finding) {
    for own in explain::own_thresholds(finding).into_iter().chain(explain::estimated::own(finding)) {
        page.paragraph("    ", &own);
    }
}

fn bullets(page: &mut Page, hints: &[String]) {
    for hint in hints {
        page.paragraph("      - ", hint);
    }
}

/// Deeper steps than this stand side by side with their parents: a narrow column cannot be read.
const DEEPEST: usize = 12;

fn reason(page: &mut Page, because: &Arc<Because>, depth: usize, telling: &mut Telling) {
    let lead = format!("{}- ", "  ".repeat(3 + depth.min(DEEPEST)));
    let told = match telling.tell(because) {
        Told::Again(number) => return page.paragraph(&lead, &format!("{} [as told at {number}]", explain::headline(because))),
        Told::Numbered(number) => format!("{} [{number}]", explain::because(because)),
        Told::Full => explain::because(because),
    };
    page.paragraph(&lead, &told);
    for below in &because.from {
        reason(page, below, depth + 1, telling);
    }
}

/// Each missing figure once, then what waits for none.
fn unstated(page: &mut Page, report: &Report) {
    if report.count(Status::Unstated) == 0 {
        return;
    }
    page.heading("What nobody stated");
    unstated::text(page, &questions(report));
    for finding in without_question(report).into_iter().filter_map(|at| report.findings.get(at)) {
        let title = rules::by_id(finding.rule).map_or(finding.rule, |rule| rule.title);
        page.paragraph("  - ", &format!("{title}: {}", explain::message(finding)));
    }
    for finding in of(report, Status::Unstated) {
        let title = rules::by_id(finding.rule).map_or(finding.rule, |rule| rule.title);
        for own in explain::own_thresholds(finding) {
            page.paragraph("  - ", &format!("{title}: {own}"));
        }
    }
}

/// What the user estimates, and what does not count of it.
fn estimated(page: &mut Page, report: &Report) {
    let estimates = estimates(&report.craft);
    if estimates.is_empty() {
        return;
    }
    page.heading("What you estimated");
    for estimated in &estimates {
        page.paragraph("  - ", &format!("{}.", explain::estimated::line(estimated)));
    }
}

fn rest(page: &mut Page, report: &Report) {
    let fitting = report.count(Status::Fits);
    if fitting == 0 {
        return;
    }
    page.heading(&format!("{fitting} more fit"));
    let mut titles: Vec<(&str, usize)> = Vec::new();
    for finding in of(report, Status::Fits) {
        let title = rules::by_id(finding.rule).map_or(finding.rule, |rule| rule.title);
        match titles.iter_mut().find(|(known, _)| *known == title) {
            Some((_, times)) => *times += 1,
            None => titles.push((title, 1)),
        }
    }
    let said = titles.iter().map(|(title, times)| match times {
        1 => (*title).to_owned(),
        several => format!("{title} ({several} times)"),
    });
    page.paragraph("  ", &said.collect::<Vec<_>>().join(" · "));
    for finding in of(report, Status::Fits) {
        let title = rules::by_id(finding.rule).map_or(finding.rule, |rule| rule.title);
        for own in explain::own_thresholds(finding) {
            page.paragraph("  - ", &format!("{title}: {own}"));
        }
    }
}

/// Where the columns of the parts list begin: slot, count and name, mass, price.
const COLUMNS: [usize; 4] = [2, 26, 70, 82];

fn parts(page: &mut Page, report: &Report) {
    let (ground, craft): (Vec<&Placed>, Vec<&Placed>) = report.craft.listed().partition(|placed| placed.subject.slot.on_ground());
    let supplier = only_supplier(report);
    for (title, list) in [("Parts", craft), ("Ground kit", ground)].into_iter().filter(|(_, list)| !list.is_empty()) {
        page.heading(title);
        for placed in list {
            line(page, placed, report.bill.of_part(placed.line), supplier);
        }
    }
    if let Some(supplier) = supplier {
        page.gap();
        page.paragraph("  ", &format!("All that is to be bought comes from {supplier}."));
    }
}

/// The one supplier of all that is to be bought, when there is but one.
fn only_supplier(report: &Report) -> Option<&str> {
    let mut suppliers: Vec<Option<&str>> = Vec::new();
    for line in report.bill.lines.iter().filter(|line| line.is_bought()) {
        suppliers.push(line.part.supplier.as_deref());
    }
    suppliers.dedup();
    if suppliers.len() == 1 { suppliers.pop().flatten() } else { None }
}

fn line(page: &mut Page, placed: &Placed, bought: Option<&Line>, supplier: Option<&str>) {
    let (part, fitted) = (&placed.subject.part, &placed.fitted);
    // Some makers stand in the names of their parts.
    let maker = part.maker.as_ref().filter(|maker| !part.name.starts_with(maker.as_str()));
    let name = format!("{} × {}{}", fitted.count, maker.map_or_else(String::new, |maker| format!("{maker} ")), part.name);
    let guessed = if part.basis_of("mass_g") == Some(Basis::Estimate) { " est." } else { "" };
    let mass = part.mass_g.map(|mass| format!("{} g{guessed}", explain::number(mass.decimal() * f64::from(fitted.count))));
    let mass = mass.unwrap_or_else(|| "mass ?".to_owned());
    page.row(&COLUMNS, &[placed.subject.slot.title(), &name, &mass, &price(bought)]);
    let more = purchase(placed, bought, supplier);
    if !more.is_empty() {
        page.paragraph(&" ".repeat(COLUMNS[1]), &more.join(" · "));
    }
}

fn price(bought: Option<&Line>) -> String {
    if bought.is_some_and(Line::is_owned) {
        return "on the shelf".to_owned();
    }
    bought.and_then(|line| line.price).map_or_else(|| "price ?".to_owned(), |price| price.to_string())
}

/// How a line is bought: packs of several pieces, who sells it where that is not said once for all, the day of the price.
fn purchase(placed: &Placed, bought: Option<&Line>, supplier: Option<&str>) -> Vec<String> {
    let (part, fitted) = (&placed.subject.part, &placed.fitted);
    let mut said = Vec::new();
    if let Some(line) = bought.filter(|line| line.is_bought()) {
        said.extend((line.pieces > 1).then(|| format!("{} × pack of {}", line.packs, line.pieces)));
        said.extend(part.retired.then(|| "no longer sold".to_owned()));
        said.extend(part.supplier.as_ref().filter(|_| supplier.is_none()).map(|supplier| format!("from {supplier}")));
        said.extend(part.priced_on.filter(|_| part.price.is_some()).map(|day| format!("price of {day}")));
    }
    said.extend(fitted.note.iter().map(|note| format!("note: {note}")));
    said
}

fn remarks(page: &mut Page, title: &str, remarks: &[Finding]) {
    if remarks.is_empty() {
        return;
    }
    page.heading(title);
    for finding in remarks {
        page.paragraph("  - ", &explain::message(finding));
        own_thresholds(page, finding);
        if let Some(cost) = explain::cost(finding) {
            page.paragraph("    ", cost);
        }
        if let Some(rule) = rules::by_id(finding.rule) {
            bullets(page, &explain::hints(finding));
            page.paragraph("    Source: ", rule.source);
        }
    }
}
