//! The parts that could stand in a place: filtered as one types, tried as they come into view.

use egui::{Align, Key, Layout, Margin, Modifiers, ScrollArea, TextEdit, Ui};
use propwright_schema::part::Part;

use super::{
    Commands, details, field,
    row::{Look, row},
    whole, word,
};
use crate::{
    command::Command,
    edit::Edit,
    state::{App, Document, Picker, Place},
    theme::{self, GRID},
    view::{Candidate, Figures, candidate},
};

/// Height of a row, in points.
const ROW: f32 = 12.0 * GRID;

pub(super) fn show(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    egui::Frame::NONE.inner_margin(Margin { left: 12, right: 8, top: 12, bottom: 8 }).show(ui, |ui| match &document.picker {
        None => invitation(ui, app, document, commands),
        Some(picker) => choice(ui, app, document, picker, commands),
    });
}

fn invitation(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    let inner = Margin { left: 8, right: 12, top: 0, bottom: 0 };
    ScrollArea::vertical().auto_shrink([false, false]).id_salt("invitation").show(ui, |ui| {
        egui::Frame::NONE.inner_margin(inner).show(ui, |ui| {
            missing(ui, document, commands);
            whole::show(ui, app, document, commands);
        });
        field::follow_focus(ui);
    });
}

fn missing(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let parts = &document.bench.parts;
    let missing: Vec<_> = parts.aboard.iter().chain(&parts.ground).filter(|row| !row.filled).collect();
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
    head(ui, document, picker, commands);
    details::show(ui, document, picker.place, commands);
    let moved = keys(ui, document, picker, commands);
    let begun = filter(ui, document, picker, commands);
    ui.add_space(GRID);
    list(ui, app, document, picker, moved || begun, commands);
}

fn head(ui: &mut Ui, document: &Document, picker: &Picker, commands: &mut Commands) {
    ui.horizontal(|ui| {
        ui.add_space(2.0 * GRID);
        ui.label(theme::title(picker.place.slot.title()));
        ui.label(theme::caption(format!("{} to choose from", picker.parts.len())));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.add_space(2.0 * GRID);
            if word(ui, "Done").on_hover_text("Ends the choice (Escape).").clicked() {
                commands.push(Command::Pick(document.id, None));
            }
        });
    });
    ui.add_space(GRID);
}

/// Arrows move, Enter takes; while the field for the filter has the focus. Says whether the row moved.
fn keys(ui: &Ui, document: &Document, picker: &Picker, commands: &mut Commands) -> bool {
    if !ui.memory(|memory| memory.has_focus(filter_id())) {
        return false;
    }
    let pressed = |key| ui.input_mut(|input| input.count_and_consume_key(Modifiers::NONE, key));
    let (down, up) = (pressed(Key::ArrowDown), pressed(Key::ArrowUp));
    let last = picker.parts.len().saturating_sub(1);
    if down + up > 0 {
        commands.push(Command::Row(document.id, (picker.row + down).min(last).saturating_sub(up)));
    }
    if pressed(Key::Enter) > 0
        && let Some(part) = picker.parts.get(picker.row.min(last))
    {
        commands.push(take(document, picker.place, part));
    }
    down + up > 0
}

fn take(document: &Document, place: Place, part: &Part) -> Command {
    Command::Edit(document.id, Edit::Choose { place, part: part.id.clone() })
}

fn filter_id() -> egui::Id {
    egui::Id::unique("filter")
}

/// The field for the filter. Says whether the choice has just begun, or its filter just changed.
fn filter(ui: &mut Ui, document: &Document, picker: &Picker, commands: &mut Commands) -> bool {
    let mut words = picker.filter.clone();
    let mut only = picker.only_fitting;
    let mut begun = false;
    ui.horizontal(|ui| {
        ui.add_space(2.0 * GRID);
        let label = ui.label("Filter");
        let field = TextEdit::singleline(&mut words).id(filter_id()).hint_text("name or maker").desired_width(45.0 * GRID);
        let response = ui.add(field).labelled_by(label.id);
        let state = (document.id, picker.place, picker.filter.clone());
        begun = ui.data(|data| data.get_temp(response.id)).as_ref() != Some(&state);
        if begun {
            // A choice that has just begun takes the keys.
            ui.data_mut(|data| data.insert_temp(response.id, state));
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
    begun
}

fn list(ui: &mut Ui, app: &App, document: &Document, picker: &Picker, moved: bool, commands: &mut Commands) {
    if picker.parts.is_empty() {
        let none = app.catalogue.for_slot(picker.place.slot).next().is_none();
        ui.add_space(2.0 * GRID);
        let said = if none { "The catalogue holds no such part." } else { "No part is left. Shorten the filter." };
        ui.horizontal(|ui| {
            ui.add_space(2.0 * GRID);
            ui.label(said);
        });
        return;
    }
    ui.spacing_mut().item_spacing.y = 1.0;
    let mut area = ScrollArea::vertical().auto_shrink([false, false]).id_salt(("choice", picker.place.slot));
    if moved {
        let row = picker.row.min(picker.parts.len().saturating_sub(1)) as f32;
        area = area.vertical_scroll_offset((row * (ROW + 1.0) - ui.available_height() / 2.0).max(0.0));
    }
    let before = document.report().map(|report| Figures::of(report));
    let mut wanted = Vec::new();
    area.show_rows(ui, ROW, picker.parts.len(), |ui, range| {
        for at in range {
            let Some(part) = picker.parts.get(at) else { continue };
            wanted.push(part.id.clone());
            let candidate = candidate(part, document, picker, before.as_ref());
            if line(ui, &candidate, at == picker.row).clicked() {
                commands.push(Command::Row(document.id, at));
                commands.push(take(document, picker.place, part));
            }
        }
    });
    if picker.only_fitting {
        wanted.extend(picker.parts.iter().map(|part| part.id.clone()));
    }
    wanted.retain(|part| !picker.trials.contains_key(part));
    if !wanted.is_empty() && document.is_current() {
        commands.push(Command::Try(document.id, wanted));
    }
}

fn line(ui: &mut Ui, candidate: &Candidate, chosen: bool) -> egui::Response {
    let look = Look {
        status: candidate.status,
        caption: &candidate.words,
        name: &candidate.name,
        caption_below: true,
        figures: &[(&candidate.mass, 14.0 * GRID), (&candidate.price, 22.0 * GRID)],
        chosen,
        filled: true,
        spoken: candidate.spoken(),
        wraps: false,
    };
    row(ui, ROW, &look).on_hover_text(format!("{}\n{}", candidate.name, candidate.words))
}
