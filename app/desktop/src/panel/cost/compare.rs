//! Open builds side by side: price and figures, parts that differ, findings.

use egui::{Align, Label, Layout, Ui, vec2};

use super::{apart, worked};
use crate::{
    command::Command,
    money::Money,
    panel::{Commands, wrapped_word},
    run_command::money::{MOST, beside},
    state::{App, Document, DocumentId},
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
    worked(ui, app, document, commands, |ui, costing, commands| {
        if let Costing::Compared(compared) = costing {
            let ids: Vec<DocumentId> = std::iter::once(document.id).chain(shown.iter().copied()).collect();
            table(ui, compared, &ids, commands);
        }
    });
}

fn table(ui: &mut Ui, compared: &ComparedView, shown: &[DocumentId], commands: &mut Commands) {
    let heads = compared.names.iter().map(|name| Column { words: name.clone(), ..Column::default() });
    row(ui, &ComparedRow { title: String::new(), each: heads.collect(), figure: None }, true, |_| {});
    let follow = |at: usize, figure: &'static str| {
        if let Some(id) = shown.get(at) {
            commands.extend([Command::Show(*id), Command::Follow(*id, Some(figure))]);
        }
    };
    rows(ui, "Price and figures; below each, what differs from the first", &compared.figures, follow);
    rows(ui, "Parts that differ", &compared.parts, |_, _| {});
    rows(ui, "Found", &compared.found, |_, _| {});
}

fn rows(ui: &mut Ui, title: &str, rows: &[ComparedRow], mut follow: impl FnMut(usize, &'static str)) {
    if rows.is_empty() {
        return;
    }
    apart(ui);
    ui.label(theme::caption(title));
    ui.add_space(GRID);
    for one in rows {
        row(ui, one, false, |at| {
            if let Some(figure) = one.figure {
                follow(at, figure);
            }
        });
        ui.add_space(GRID);
    }
}

/// A row; the place of the build whose figure was pressed is told.
fn row(ui: &mut Ui, row: &ComparedRow, strong: bool, mut pressed: impl FnMut(usize)) {
    let gap = ui.spacing().item_spacing.x;
    let width = (ui.available_width() - TITLE) / row.each.len().max(1) as f32 - gap;
    ui.horizontal_top(|ui| {
        cell(ui, TITLE, |ui| {
            ui.add(Label::new(theme::caption(&row.title)).wrap());
        });
        for (at, column) in row.each.iter().enumerate() {
            cell(ui, width, |ui| {
                if let Some(status) = column.status {
                    mark::mark_with_word(ui, status, "");
                    return;
                }
                if row.figure.is_some() {
                    let about = "Shows how it comes about in that build.";
                    if wrapped_word(ui, &column.words, false).on_hover_text(about).clicked() {
                        pressed(at);
                    }
                } else {
                    let words = if strong { theme::strong(&column.words) } else { egui::RichText::new(&column.words) };
                    ui.add(Label::new(words).wrap());
                }
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
