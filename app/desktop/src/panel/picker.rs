//! The parts that could stand in a place: filtered as one types, those in view judged first; what stands in for the fitted one;
//! and parts side by side.

use egui::{Align, Key, Layout, Margin, Modifiers, ScrollArea, TextEdit, Ui};
use propwright_schema::{
    part::{Part, Role},
    slot::Slot,
};

use super::{
    Commands, LIST, PICKER, beginning, beside, details, entering, field, has_scene, importing, list_width,
    row::{Look, row},
    small_word, stand_ins, whole, word,
};
use crate::{
    command::{Choosing, Command},
    edit::Edit,
    run_command::entering::Enter,
    state::{App, Document, Look as PickerLook, Picker, Place, Work},
    theme::{self, GRID},
    view::{Candidate, candidate},
};

/// Height of a row, in points.
const ROW: f32 = 12.0 * GRID;

pub(super) fn show(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    if app.entering.is_none() {
        entering::gone(ui);
    }
    if let Some(importing) = app.importing.as_ref().filter(|_| app.entering.is_none()) {
        return entering::framed(ui, |ui| importing::show(ui, app, importing, commands));
    }
    if let Some(entering) = &app.entering {
        return entering::framed(ui, |ui| entering::show(ui, app, entering, commands));
    }
    egui::Frame::NONE.inner_margin(Margin { left: 12, right: 8, top: 12, bottom: 8 }).show(ui, |ui| match &document.picker {
        None => invitation(ui, app, document, commands),
        Some(picker) => choice(ui, app, document, picker, commands),
    });
}

fn invitation(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    let inner = Margin { left: 8, right: 12, top: 0, bottom: 0 };
    ScrollArea::vertical().auto_shrink([false, false]).id_salt("invitation").show(ui, |ui| {
        egui::Frame::NONE.inner_margin(inner).show(ui, |ui| {
            missing(ui, app, document, commands);
            entering::invitation(ui, app, commands);
            importing::invitation(ui, app, commands);
            whole::show(ui, app, document, commands);
        });
        field::follow_focus(ui);
    });
}

fn missing(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    let parts = &document.bench.parts;
    let missing: Vec<_> = parts.aboard.iter().chain(&parts.ground).filter(|row| !row.filled).collect();
    ui.label(theme::title("Choosing parts"));
    ui.add_space(2.0 * GRID);
    ui.label(
        "Choose a row at the left or a part in the drawing: here stands what could take its place, and why it would not fit.",
    );
    let width = ui.ctx().content_rect().width();
    if document.build.parts.is_empty() && !has_scene(width, PICKER * list_width(width) / LIST) {
        ui.add_space(3.0 * GRID);
        beginning::offers(ui, app, document, commands);
    }
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
    looks(ui, document, picker, commands);
    match picker.look {
        PickerLook::All => {
            let moved = keys(ui, document, picker, commands);
            let begun = filter(ui, document, picker, commands);
            progress(ui, document, picker.work, commands);
            list(ui, app, document, picker, moved || begun, commands);
        }
        PickerLook::StandIns => stand_ins::show(ui, document, picker, commands),
        PickerLook::Beside => beside::show(ui, document, picker, commands),
    }
}

/// What of the choice is shown, as words to choose from.
fn looks(ui: &mut Ui, document: &Document, picker: &Picker, commands: &mut Commands) {
    let beside = format!("Side by side ({})", picker.beside.len());
    let all = [(PickerLook::All, "All parts"), (PickerLook::StandIns, "In its place"), (PickerLook::Beside, beside.as_str())];
    ui.horizontal(|ui| {
        ui.add_space(2.0 * GRID);
        for (look, title) in all {
            let about = match look {
                PickerLook::All => "Every part of the catalogue, and whether it goes with the rest.",
                PickerLook::StandIns => "What stands in for the part that is fitted, the closest first, with what must follow.",
                PickerLook::Beside => "Up to four parts beside the fitted one; Ctrl B sets the part of a row here.",
            };
            let open = look != PickerLook::StandIns || picker.place.line.is_some();
            let label = egui::Button::selectable(picker.look == look, title);
            if ui.add_enabled(open, label).on_hover_text(about).clicked() {
                commands.push(Command::Choosing(document.id, Choosing::Look(look)));
            }
        }
    });
    ui.add_space(GRID);
}

/// How far the search is, while it goes on; it can be stopped.
pub(super) fn progress(ui: &mut Ui, document: &Document, work: Work, commands: &mut Commands) {
    ui.horizontal(|ui| {
        ui.set_min_height(5.0 * GRID);
        ui.add_space(2.0 * GRID);
        match work {
            Work::Going { left, of } if left > of => {
                ui.label(theme::caption("working…"));
            }
            Work::Going { left, of } => {
                let done = of - left;
                let bar = egui::ProgressBar::new(done as f32 / of.max(1) as f32).desired_width(40.0 * GRID).desired_height(GRID);
                ui.add(bar);
                ui.label(theme::caption(format!("{done} of {of} judged")));
            }
            Work::Stopped => {
                ui.label(theme::caption("Stopped before all were judged."));
            }
            Work::Idle | Work::Done => {}
        }
        if matches!(work, Work::Going { .. })
            && word(ui, "Stop").on_hover_text("Ends the search; what was found stays.").clicked()
        {
            commands.push(Command::Choosing(document.id, Choosing::Stop));
        }
    });
}

fn head(ui: &mut Ui, document: &Document, picker: &Picker, commands: &mut Commands) {
    ui.horizontal(|ui| {
        ui.add_space(2.0 * GRID);
        ui.label(theme::title(picker.place.slot.title()));
        ui.label(theme::caption(format!("{} to choose from", picker.parts.len())));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.add_space(2.0 * GRID);
            if let Some(kind) = kind_of(picker.place.slot)
                && word(ui, "Enter a new one…").on_hover_text(format!("A form for a {kind} of your own catalogue.")).clicked()
            {
                commands.push(Command::Enter(Enter::New(kind)));
            }
            ui.add_space(2.0 * GRID);
            if word(ui, "Done").on_hover_text("Ends the choice (Escape).").clicked() {
                commands.push(Command::Pick(document.id, None));
            }
        });
    });
    ui.add_space(GRID);
}

/// The kind of part that fills a slot.
fn kind_of(slot: Slot) -> Option<&'static str> {
    Role::WORDS.iter().find(|kind| Role::of_kind(kind).is_some_and(|role| role.slots().contains(&slot))).copied()
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
        let field = TextEdit::singleline(&mut words)
            .id(filter_id())
            .hint_text("name or maker")
            .desired_width((ui.available_width() - 34.0 * GRID).clamp(20.0 * GRID, 45.0 * GRID));
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
    let mut wanted = Vec::new();
    area.show_rows(ui, ROW, picker.parts.len(), |ui, range| {
        for at in range {
            let Some(part) = picker.parts.get(at) else { continue };
            wanted.push(part.id.clone());
            let candidate = candidate(part, document, picker);
            let response = line(ui, &candidate, at == picker.row);
            let pointed = at == picker.row || candidate.beside || ui.rect_contains_pointer(response.rect);
            let tool = pointed.then(|| tools(ui, response.rect, part, &candidate, commands)).flatten();
            if let Some(tool) = tool {
                commands.push(Command::Row(document.id, at));
                commands.push(Command::Choosing(document.id, tool));
            } else if response.clicked() {
                commands.push(Command::Row(document.id, at));
                commands.push(take(document, picker.place, part));
            }
        }
    });
    wanted.retain(|part| !picker.found.contains_key(part));
    let asked = picker.work == Work::Idle || picker.wanted != wanted && matches!(picker.work, Work::Going { .. });
    if asked && !wanted.is_empty() && document.is_current() {
        commands.push(Command::Try(document.id, wanted));
    }
}

/// Width of the words at the right end of a row, in points.
const TOOLS: f32 = 44.0 * GRID;

/// The words at the right end of a row's second line: tries the part on, or sets it beside others.
fn tools(ui: &mut Ui, row: egui::Rect, part: &Part, candidate: &Candidate, commands: &mut Commands) -> Option<Choosing> {
    let place = egui::Rect::from_min_max(egui::pos2(row.right() - TOOLS, row.center().y), row.right_bottom());
    let (mut done, mut changes) = (None, false);
    let layout = Layout::right_to_left(Align::Center);
    ui.scope_builder(egui::UiBuilder::new().max_rect(place.shrink2(egui::vec2(3.0 * GRID, 0.0))).layout(layout), |ui| {
        ui.spacing_mut().item_spacing.x = 3.0 * GRID;
        let (text, about) = if candidate.beside {
            ("put away", "Takes it away from the others.")
        } else {
            ("beside", "Sets it beside others (Ctrl B).")
        };
        if small_word(ui, text, &format!("Side by side: {}", part.name)).on_hover_text(about).clicked() {
            done = Some(Choosing::Beside(part.id.clone()));
        }
        if small_word(ui, "record", &format!("Change the record of {}", part.name))
            .on_hover_text("Opens its form in your own catalogue.")
            .clicked()
        {
            changes = true;
        }
        let about = "Shows the craft with it; the list stays as it is (Ctrl T).";
        if !candidate.fitted && small_word(ui, "try on", &format!("Try on: {}", part.name)).on_hover_text(about).clicked() {
            done = Some(Choosing::Try(part.id.clone()));
        }
    });
    if changes {
        commands.push(Command::Enter(Enter::Part(part.id.clone())));
    }
    done
}

fn line(ui: &mut Ui, candidate: &Candidate, chosen: bool) -> egui::Response {
    let look = Look {
        status: candidate.status,
        caption: &candidate.words,
        name: &candidate.name,
        caption_below: true,
        figures: &[(&candidate.mass, 14.0 * GRID), (&candidate.price, 22.0 * GRID)],
        chosen,
        spare: TOOLS,
        filled: true,
        spoken: candidate.spoken(),
        wraps: false,
    };
    row(ui, ROW, &look).on_hover_text(&candidate.more)
}
