//! The parts that could stand in a place: filtered as one types, tried as they come into view.

use egui::{Align, Key, Layout, Margin, Modifiers, ScrollArea, TextEdit, Ui};

use super::{
    Commands,
    row::{Look, row},
    settings, word,
};
use crate::{
    command::Command,
    edit::Edit,
    state::{App, Document, Picker, Place},
    theme::{self, GRID},
    view::{Candidate, candidates},
};

/// Height of a row, in points.
const ROW: f32 = 12.0 * GRID;

pub(super) fn show(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    let line = ui.visuals().widgets.noninteractive.bg_stroke;
    ui.painter().vline(ui.max_rect().left() + 0.5, ui.max_rect().y_range(), line);
    egui::Frame::NONE.inner_margin(Margin { left: 12, right: 8, top: 16, bottom: 8 }).show(ui, |ui| match &document.picker {
        None => invitation(ui, document, commands),
        Some(picker) => choice(ui, app, document, picker, commands),
    });
}

fn invitation(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let missing: Vec<_> = document.bench.parts.aboard.iter().filter(|row| !row.filled).collect();
    ui.label(theme::title("Choosing parts"));
    ui.add_space(2.0 * GRID);
    ui.label(
        "Choose a row at the left or a part in the drawing: here stands what could take its place, and why it would not fit.",
    );
    if missing.is_empty() {
        return;
    }
    ui.add_space(3.0 * GRID);
    ui.label(theme::caption("Still to be chosen"));
    for row in missing {
        if word(ui, &row.title).clicked() {
            commands.push(Command::Pick(document.id, Some(row.place)));
        }
    }
}

fn choice(ui: &mut Ui, app: &App, document: &Document, picker: &Picker, commands: &mut Commands) {
    let rows = candidates(&app.catalogue, document, picker);
    head(ui, document, picker, &rows, commands);
    settings::show(ui, app, document, picker.place, commands);
    let moved = keys(ui, document, picker, &rows, commands);
    let typed = filter(ui, document, picker, commands);
    ui.add_space(GRID);
    list(ui, document, picker, &rows, moved || typed, commands);
}

fn head(ui: &mut Ui, document: &Document, picker: &Picker, rows: &[Candidate], commands: &mut Commands) {
    ui.horizontal(|ui| {
        ui.add_space(2.0 * GRID);
        ui.label(theme::title(picker.place.slot.title()));
        ui.label(theme::caption(format!("{} to choose from", rows.len())));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.add_space(2.0 * GRID);
            if word(ui, "Done").on_hover_text("Ends the choice (Escape).").clicked() {
                commands.push(Command::Pick(document.id, None));
            }
        });
    });
    ui.add_space(GRID);
}

/// Arrows move, Enter takes, Escape ends; while the field for the filter has the focus. Says whether the row moved.
fn keys(ui: &Ui, document: &Document, picker: &Picker, rows: &[Candidate], commands: &mut Commands) -> bool {
    if !ui.memory(|memory| memory.has_focus(filter_id())) {
        return false;
    }
    let pressed = |key| ui.input_mut(|input| input.count_and_consume_key(Modifiers::NONE, key));
    let (down, up) = (pressed(Key::ArrowDown), pressed(Key::ArrowUp));
    let last = rows.len().saturating_sub(1);
    if down + up > 0 {
        commands.push(Command::Row(document.id, (picker.row + down).min(last).saturating_sub(up)));
    }
    if pressed(Key::Enter) > 0
        && let Some(candidate) = rows.get(picker.row.min(last))
    {
        commands.push(take(document, picker.place, candidate));
    }
    if pressed(Key::Escape) > 0 {
        commands.push(Command::Pick(document.id, None));
    }
    down + up > 0
}

fn take(document: &Document, place: Place, candidate: &Candidate) -> Command {
    Command::Edit(document.id, Edit::Choose { place, part: candidate.id.clone() })
}

fn filter_id() -> egui::Id {
    egui::Id::unique("filter")
}

fn filter(ui: &mut Ui, document: &Document, picker: &Picker, commands: &mut Commands) -> bool {
    let mut words = picker.filter.clone();
    let mut only = picker.only_fitting;
    ui.horizontal(|ui| {
        ui.add_space(2.0 * GRID);
        let label = ui.label("Filter");
        let field = TextEdit::singleline(&mut words).id(filter_id()).hint_text("name or maker").desired_width(45.0 * GRID);
        let response = ui.add(field).labelled_by(label.id);
        // A choice that has just begun takes the keys.
        let begun = ui.data(|data| data.get_temp::<Place>(response.id)) != Some(picker.place);
        if begun {
            ui.data_mut(|data| data.insert_temp(response.id, picker.place));
            response.request_focus();
        }
        if response.changed() {
            commands.push(Command::Filter(document.id, words.clone()));
        }
        ui.add_space(GRID);
        if ui.checkbox(&mut only, "only what fits").on_hover_text("Leaves out parts that would be a mismatch.").changed() {
            commands.push(Command::OnlyFitting(document.id, only));
        }
    });
    words != picker.filter
}

fn list(ui: &mut Ui, document: &Document, picker: &Picker, rows: &[Candidate], moved: bool, commands: &mut Commands) {
    if rows.is_empty() {
        ui.add_space(2.0 * GRID);
        ui.label("No part of the catalogue is left. Shorten the filter.");
        return;
    }
    ui.spacing_mut().item_spacing.y = 1.0;
    let mut area = ScrollArea::vertical().auto_shrink([false, false]).id_salt(("choice", picker.place.slot));
    if moved {
        let row = picker.row.min(rows.len().saturating_sub(1)) as f32;
        area = area.vertical_scroll_offset((row * (ROW + 1.0) - ui.available_height() / 2.0).max(0.0));
    }
    let mut wanted = Vec::new();
    area.show_rows(ui, ROW, rows.len(), |ui, range| {
        for at in range {
            let Some(candidate) = rows.get(at) else { continue };
            wanted.push(candidate.id.clone());
            if line(ui, candidate, at == picker.row).clicked() {
                commands.push(Command::Row(document.id, at));
                commands.push(take(document, picker.place, candidate));
            }
        }
    });
    if picker.only_fitting {
        wanted.extend(rows.iter().map(|row| row.id.clone()));
    }
    wanted.retain(|part| !picker.trials.contains_key(part));
    if !wanted.is_empty() && document.is_current() {
        commands.push(Command::Try(document.id, wanted));
    }
}

fn line(ui: &mut Ui, candidate: &Candidate, chosen: bool) -> egui::Response {
    let name = if candidate.fitted { format!("{} · fitted", candidate.name) } else { candidate.name.clone() };
    let look = Look {
        status: candidate.status,
        caption: &candidate.words,
        name: &name,
        caption_below: true,
        figures: &[(&candidate.mass, 14.0 * GRID), (&candidate.price, 22.0 * GRID)],
        chosen,
        filled: true,
        spoken: candidate.spoken(),
    };
    row(ui, ROW, &look).on_hover_text(&candidate.words)
}
