//! Parts side by side: what is fitted now and up to four others, row by row.

use egui::{Grid, RichText, ScrollArea, Ui, vec2};

use super::{Commands, small_word, strong_word};
use crate::{
    command::{Choosing, Command},
    edit::Edit,
    state::{Document, Picker},
    theme::{self, CAPTION, GRID},
    view::{BesideCell, BesideColumn, BesideLine, table},
    widget::{
        drawing::{Emphasis, drawing},
        mark::mark_with_word,
    },
};

/// Width of the column of titles, in points.
const TITLES: f32 = 30.0 * GRID;
/// Height of a small drawing, in points.
const DRAWN: f32 = 44.0 * GRID;
/// Room for the bar that scrolls.
const BAR: f32 = 5.0 * GRID;

pub(super) fn show(ui: &mut Ui, document: &Document, picker: &Picker, commands: &mut Commands) {
    let table = table(document, picker);
    if picker.beside.is_empty() {
        ui.horizontal_wrapped(|ui| {
            ui.add_space(2.0 * GRID);
            ui.label("Nothing stands here yet. Under “All parts”, “beside” at the end of a row, or Ctrl B, sets its part here.");
        });
        return;
    }
    let width = ((ui.available_width() - BAR - TITLES) / table.columns.len().max(1) as f32 - 3.0 * GRID).max(20.0 * GRID);
    ScrollArea::both().auto_shrink([false, false]).id_salt("beside").show(ui, |ui| {
        Grid::new("side by side").spacing(vec2(3.0 * GRID, 1.5 * GRID)).min_col_width(0.0).show(ui, |ui| {
            ui.set_min_width(TITLES);
            ui.label("");
            for column in &table.columns {
                head(ui, document, picker, column, width, commands);
            }
            ui.end_row();
            for shown in &table.figures {
                line(ui, shown, width);
            }
            section(ui, "its record");
            for shown in &table.record {
                line(ui, shown, width);
            }
        });
        ui.add_space(2.0 * GRID);
        ui.label(theme::caption(format!(
            "What differs from the first column is set in bold. {} published figures are the same in all.",
            table.same
        )));
    });
}

fn section(ui: &mut Ui, title: &str) {
    ui.label(theme::caption(title));
    ui.end_row();
}

/// Drawing, name and status of a part, with what can be done.
fn head(ui: &mut Ui, document: &Document, picker: &Picker, column: &BesideColumn, width: f32, commands: &mut Commands) {
    ui.vertical(|ui| {
        ui.set_width(width);
        let emphasis = Emphasis { chosen: Some(picker.place.slot), second: true, ..Emphasis::default() };
        drawing(ui, vec2(width, DRAWN), None, &column.drawing, &emphasis);
        ui.add(egui::Label::new(theme::strong(&column.part.name)).wrap());
        let why = column.why.join("\n");
        match column.status {
            Some(status) => drop(mark_with_word(ui, status, "").on_hover_text(why)),
            None => drop(ui.label(theme::caption("working…"))),
        }
        if column.fitted {
            ui.label(theme::caption("fitted now"));
            return;
        }
        let id = &column.part.id;
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 2.0 * GRID;
            let tried = document.tried.as_ref().is_some_and(|tried| tried.name == column.part.name);
            let (text, done) = if tried { ("take off", Choosing::TakeOff) } else { ("try on", Choosing::Try(id.clone())) };
            if small_word(ui, text, &format!("{text}: {}", column.part.name)).clicked() {
                commands.push(Command::Choosing(document.id, done));
            }
            if small_word(ui, "put away", &format!("put away: {}", column.part.name)).clicked() {
                commands.push(Command::Choosing(document.id, Choosing::Beside(id.clone())));
            }
        });
        if strong_word(ui, "Pick it").on_hover_text(format!("Puts the {} in.", column.part.name)).clicked() {
            commands.push(Command::Edit(document.id, Edit::Choose { place: picker.place, part: id.clone() }));
        }
    });
}

fn line(ui: &mut Ui, shown: &BesideLine, width: f32) {
    ui.vertical(|ui| {
        ui.set_width(TITLES);
        ui.add(egui::Label::new(theme::caption(&shown.title)).wrap());
    });
    for BesideCell { text, differs } in &shown.cells {
        let font = if *differs { theme::bold(CAPTION) } else { theme::regular(CAPTION) };
        ui.vertical(|ui| {
            ui.set_width(width);
            ui.add(egui::Label::new(RichText::new(text).font(font)).wrap());
        });
    }
    ui.end_row();
}
