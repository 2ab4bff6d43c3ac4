//! The build sheet: the craft to scale, its parts with their wiring, figures with bands, what is open, and the list for the
//! first power-up.

use std::collections::BTreeSet;

use propwright_engine::{
    Report,
    craft::{Craft, Placed},
    drawing::{side_view, top_view},
    estimated::estimates,
    explain,
    finding::{Finding, Status},
};

use propwright_schema::part::Basis;

use super::{
    Setting, Sheet, figures,
    flow::{Cell, Flow},
    plan, power_up, said, setting_up, wiring,
};
use crate::air;

/// Share of a leaf's height that the two views may take.
const VIEWS: f32 = 0.52;

/// The build sheet of a report.
pub fn build_sheet(report: &Report, setting: Setting) -> Sheet {
    let build = &report.craft.build;
    let mut flow = Flow::new(setting.format, &build.name, &setting.foot("Build sheet", &build.name));
    flow.title(&subtitle(report, setting));
    if let Some(note) = &build.note {
        flow.paragraph(note, 0.0);
    }
    drawings(&mut flow, &report.craft);
    numbers(&mut flow, report);
    parts(&mut flow, report);
    open(&mut flow, report);
    estimated(&mut flow, report);
    remarks(&mut flow, "Cautions", &report.cautions);
    remarks(&mut flow, "Advice", &report.advice);
    list(&mut flow, "To be set in the firmware", &setting_up::reminders(report));
    list(&mut flow, "First power-up", &power_up::steps(report));
    flow.space(6.0);
    flow.paragraph("Done on ____________ by ______________________", 0.0);
    flow.finish()
}

fn subtitle(report: &Report, setting: Setting) -> String {
    let counts = [Status::Mismatch, Status::Tight, Status::Unstated].map(|status| report.count(status));
    let usage = report.craft.build.purpose.usage.map_or_else(|| "no use stated".to_owned(), |usage| usage.word().to_owned());
    let first = if counts[0] == 0 { "no mismatch".to_owned() } else { format!("{} in the way", counts[0]) };
    format!("Build sheet · {usage} · {} · {first}, {} tight, {} unstated", setting.date(), counts[1], counts[2])
}

/// Both views to one scale, with a bar to measure by.
fn drawings(flow: &mut Flow, craft: &Craft) {
    let views = [top_view(craft), side_view(craft)];
    let (room, high) = (flow.room(), flow.height() * VIEWS);
    let fields = [(&views[0], [room, high * 0.72]), (&views[1], [room, high * 0.28])];
    if views[0].shapes.is_empty() {
        flow.small("No drawing: no frame is chosen.", 0.0);
        return;
    }
    let scale = plan::scale(&fields);
    for view in views.iter().filter(|view| !view.shapes.is_empty()) {
        flow.field(plan::height(view, scale), plan::marks(view, scale, room));
    }
    flow.field(14.0, plan::bar(scale));
    let mut notes: Vec<&String> = views.iter().flat_map(|view| &view.notes).collect();
    notes.dedup();
    for note in notes {
        flow.small(note, 0.0);
    }
}

/// Shares of the columns of figures: what, the figure in words, the band as a bar.
const FIGURES: [f32; 3] = [34.0, 40.0, 26.0];

fn numbers(flow: &mut Flow, report: &Report) {
    flow.heading("Figures");
    for (what, figure) in figures(report) {
        let bar = figure.as_ref().map_or_else(|| Cell::of(""), Cell::band);
        flow.row(&FIGURES, &[Cell::of(what), Cell::of(said(figure.as_ref())).bold(), bar]);
    }
    let cost: Vec<String> = report.totals.cost.iter().map(ToString::to_string).collect();
    let cost = if cost.is_empty() { "nothing, or not known".to_owned() } else { cost.join(" + ") };
    flow.row(&FIGURES, &[Cell::of("Left to pay"), Cell::of(cost).bold(), Cell::of("")]);
    if let Some(flight) = &report.flight {
        flow.paragraph(&air::turn_back(flight), 0.0);
        flow.small(&format!("What ends the reach first: {}. Bands are P5 to P95.", flight.radius.limited_by), 0.0);
        for deciding in &flight.deciding {
            flow.small(&format!("To narrow them: {} – {}.", deciding.name, deciding.measure), 0.0);
        }
    }
}

/// Shares of the columns of parts: slot, part, mass, wiring.
const PARTS: [f32; 4] = [19.0, 33.0, 10.0, 38.0];

fn parts(flow: &mut Flow, report: &Report) {
    let craft: Vec<&Placed> = report.craft.listed().collect();
    let (ground, flown): (Vec<&Placed>, Vec<&Placed>) = craft.into_iter().partition(|placed| placed.subject.slot.on_ground());
    for (title, placed) in [("Parts", flown), ("Ground kit", ground)].into_iter().filter(|(_, placed)| !placed.is_empty()) {
        flow.heading(title);
        flow.columns(&PARTS, &["slot", "part", "mass", "wiring"], &[2]);
        for placed in placed {
            part(flow, report, placed);
        }
    }
    for unplaced in &report.craft.unplaced {
        flow.paragraph(&crate::text::unplaced(unplaced), 0.0);
    }
}

fn part(flow: &mut Flow, report: &Report, placed: &Placed) {
    let count = placed.fitted.count;
    let name = format!("{count} × {}", placed.subject.part.name);
    let mass = placed.subject.part.mass_g.map(|mass| mass.decimal() * f64::from(count));
    let guessed = if placed.subject.part.basis_of("mass_g") == Some(Basis::Estimate) { " est." } else { "" };
    let mass = mass.map_or_else(|| "?".to_owned(), |mass| format!("{} g{guessed}", explain::number(mass)));
    let mut wired = wiring::of(placed, &report.craft.build);
    wired.extend(placed.fitted.note.iter().map(|note| format!("note: {note}")));
    let cells =
        [Cell::of(placed.subject.slot.title()), Cell::of(name).bold(), Cell::of(mass).right(), Cell::of(wired.join("; ")).soft()];
    flow.row(&PARTS, &cells);
}

/// What the user estimates; all that rests on it is no better.
fn estimated(flow: &mut Flow, report: &Report) {
    let estimates = estimates(&report.craft);
    if estimates.is_empty() {
        return;
    }
    flow.heading("What you estimated");
    for estimated in &estimates {
        flow.paragraph(&format!("{}.", explain::estimated::line(estimated)), 0.0);
    }
    let told = report.flight.iter().flat_map(|flight| &flight.told).filter(|told| told.estimated);
    let rest: Vec<&str> = told.map(|told| told.title).collect();
    if !rest.is_empty() {
        flow.small(&format!("Figures that rest on it: {}.", rest.join(", ")), 0.0);
    }
}

fn open(flow: &mut Flow, report: &Report) {
    let titles = [
        (Status::Mismatch, "What stands in the way"),
        (Status::Tight, "What is tight"),
        (Status::Unstated, "What nobody stated"),
    ];
    for (status, title) in titles {
        let found: Vec<&Finding> = report.findings.iter().filter(|finding| finding.status() == status).collect();
        if !found.is_empty() {
            flow.heading(title);
        }
        for finding in found {
            remark(flow, finding);
        }
    }
}

fn remarks(flow: &mut Flow, title: &str, remarks: &[Finding]) {
    if !remarks.is_empty() {
        flow.heading(title);
    }
    let mut said = BTreeSet::new();
    for finding in remarks {
        // Two packs of one kind call for one caution.
        if said.insert(explain::message(finding)) {
            remark(flow, finding);
        }
    }
}

fn remark(flow: &mut Flow, finding: &Finding) {
    flow.paragraph(&format!("– {}", explain::message(finding)), 0.0);
    if finding.status() == Status::Unstated {
        return;
    }
    let hints = explain::hints(finding);
    let mut more: Vec<&str> = explain::cost(finding).into_iter().collect();
    more.extend(hints.iter().map(String::as_str));
    if !more.is_empty() {
        let more: Vec<&str> = more.iter().map(|text| text.trim_end_matches('.')).collect();
        flow.small(&format!("{}.", more.join(". ")), 10.0);
    }
}

fn list(flow: &mut Flow, title: &str, steps: &[String]) {
    flow.heading(title);
    for step in steps {
        flow.tick(step);
    }
}
