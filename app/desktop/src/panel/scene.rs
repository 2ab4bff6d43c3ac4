//! The craft from above and from the side, to one scale where that leaves room.

use egui::{Ui, vec2};
use propwright_engine::drawing::Drawing;
use propwright_schema::slot::Slot;

use super::{Commands, beginning, finding, tried};
use crate::{
    command::Command,
    state::{App, Document},
    theme::{self, CAPTION, GRID},
    widget::drawing::{Emphasis, drawing},
};

/// Share of the height that the view from the side takes.
const SIDE: f32 = 0.3;
/// Below this height there is no room for two views, in points.
const LOW: f32 = 70.0 * GRID;

pub(super) fn show(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    if document.build.parts.is_empty() {
        return beginning::show(ui, app, document, commands);
    }
    if let Some(on_trial) = &document.tried {
        tried::show(ui, document, on_trial, commands);
    }
    let bench = &document.bench;
    let emphasis = Emphasis {
        chosen: document.chosen.map(|place| place.slot),
        lit: finding::lit(ui),
        status: bench.status.clone(),
        second: false,
    };
    let notes: Vec<&String> = bench.top.notes.iter().chain(&bench.side.notes).collect();
    let words = if notes.is_empty() { 0.0 } else { 6.0 * GRID };
    let room = vec2(ui.available_width(), (ui.available_height() - words).max(0.0));
    // A low window shows the craft from above alone.
    let side = if bench.side.shapes.is_empty() || room.y < LOW { 0.0 } else { (room.y * SIDE).max(32.0 * GRID) };
    if bench.top.shapes.is_empty() {
        empty(ui);
    } else {
        let scale =
            view(ui, vec2(room.x, (room.y - side - 2.0 * GRID).max(0.0)), None, &bench.top, &emphasis, document, commands);
        if side > 0.0 {
            let line = ui.visuals().widgets.noninteractive.bg_stroke;
            let y = ui.cursor().top();
            ui.painter().hline(ui.max_rect().x_range(), y, line);
            ui.add_space(GRID);
            let emphasis = Emphasis { second: true, ..emphasis };
            view(ui, vec2(room.x, side), scale, &bench.side, &emphasis, document, commands);
        }
    }
    if let [first, more @ ..] = notes.as_slice() {
        let more = if more.is_empty() { String::new() } else { format!(" (+{})", more.len()) };
        let all: Vec<&str> = notes.iter().map(|note| note.as_str()).collect();
        ui.add(egui::Label::new(theme::caption(format!("{first}{more}"))).truncate()).on_hover_text(all.join("\n"));
    }
}

fn view(
    ui: &mut Ui,
    size: egui::Vec2,
    at_most: Option<f64>,
    drawn: &Drawing,
    emphasis: &Emphasis,
    document: &Document,
    commands: &mut Commands,
) -> Option<f64> {
    let pointed = drawing(ui, size, at_most, drawn, emphasis);
    if let Some(slot) = pointed.chosen {
        commands.push(choose(document, slot));
    }
    pointed.scale
}

fn choose(document: &Document, slot: Slot) -> Command {
    Command::Pick(document.id, Some(document.first_place(slot)))
}

fn empty(ui: &mut Ui) {
    let tokens = theme::tokens(ui);
    let place = ui.max_rect().center();
    let text = "Choose a frame: the craft is drawn here to scale.";
    ui.painter().text(place, egui::Align2::CENTER_CENTER, text, theme::regular(CAPTION), tokens.soft);
}
