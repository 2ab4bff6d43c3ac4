//! Open builds side by side: price and figures, parts that differ, findings.

use egui::{Align, Label, Layout, Ui, vec2};

use super::{apart, worked};
use crate::{
    command::Command,
    money::Money,
    panel::Commands,
    run_command::money::{MOST, beside},
    state::{App, Document},
    theme::{self, GRID},
    view::{Column, ComparedRow, ComparedView, Costing},
    widget::mark,
};

/// Width of the rows' titles, in points.
const TITLE: f32 = 26.0 * GRID;

pub(super) fn show(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    if app.documents.len() < 2 {
        let said = "Open another build (Ctrl O), or begin one (Ctrl N): up to four stand side by side here.";
        ui.add(Label::new(said).wrap());
        return;
    }
    let shown = beside(app, document.id);
    ui.horizontal_wrapped(|ui| {
        ui.label(theme::caption(format!("Beside {}, up to {MOST} in all", document.build.name)));
        for other in app.documents.iter().filter(|other| other.id != document.id) {
            let mut is = shown.contains(&other.id);
            if ui.checkbox(&mut is, &other.build.name).changed() {
                commands.push(Command::Money(Money::Beside(other.id, is)));
            }
        }
    });
    ui.add_space(2.0 * GRID);
    worked(ui, app, document, commands, |ui, costing, _| {
        if let Costing::Compared(compared) = costing {
            table(ui, compared);
        }
    });
}

fn table(ui: &mut Ui, compared: &ComparedView) {
    let heads = compared.names.iter().map(|name| Column { words: name.clone(), ..Column::default() });
    row(ui, "", &heads.collect::<Vec<_>>(), true);
    rows(ui, "Price and figures; below each, what differs from the first", &compared.figures);
    rows(ui, "Parts that differ", &compared.parts);
    rows(ui, "Found", &compared.found);
}

fn rows(ui: &mut Ui, title: &str, rows: &[ComparedRow]) {
    if rows.is_empty() {
        return;
    }
    apart(ui);
    ui.label(theme::caption(title));
    ui.add_space(GRID);
    for one in rows {
        row(ui, &one.title, &one.each, false);
        ui.add_space(GRID);
    }
}

fn row(ui: &mut Ui, title: &str, each: &[Column], strong: bool) {
    let gap = ui.spacing().item_spacing.x;
    let width = (ui.available_width() - TITLE) / each.len().max(1) as f32 - gap;
    ui.horizontal_top(|ui| {
        cell(ui, TITLE, |ui| {
            ui.add(Label::new(theme::caption(title)).wrap());
        });
        for column in each {
            cell(ui, width, |ui| {
                if let Some(status) = column.status {
                    mark::mark_with_word(ui, status, "");
                    return;
                }
                let words = if strong { theme::strong(&column.words) } else { egui::RichText::new(&column.words) };
                ui.add(Label::new(words).wrap());
                if !column.against.is_empty() {
                    ui.add(Label::new(theme::caption(&column.against)).wrap());
                }
            });
        }
    });
}

fn cell(ui: &mut Ui, width: f32, content: impl FnOnce(&mut Ui)) {
    ui.allocate_ui_with_layout(vec2(width, 0.0), Layout::top_down(Align::Min), |ui| {
        ui.set_width(width);
        ui.spacing_mut().item_spacing.y = 1.0;
        content(ui);
    });
}
