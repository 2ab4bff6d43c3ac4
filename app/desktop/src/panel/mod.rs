//! Draws what the window holds and says what was done with it: panels read and push commands, nothing else.

mod bar;
mod cover;
mod finding;
mod findings;
mod list;
mod picker;
mod row;
mod scene;
mod settings;

use egui::{CentralPanel, Frame, Margin, Panel, Ui};

use crate::{
    command::{Action, Command},
    state::{App, Document, Page},
    theme::{self, GRID, Tokens},
    widget::ledger,
};

/// What was done in one frame, in order.
pub type Commands = Vec<Command>;

/// Height of the bar along the top, in points.
const BAR: f32 = 11.5 * GRID;
/// Width of the list of parts, in points.
const LIST: f32 = 79.0 * GRID;
/// Width of what stands beside the drawing on each page, in points.
const BESIDE: f32 = 99.0 * GRID;
const PICKER: f32 = 115.0 * GRID;

/// Draws the whole window.
pub fn show(ui: &mut Ui, app: &App, commands: &mut Commands) {
    let tokens = theme::tokens(ui);
    let Some(document) = app.shown() else { return };
    Panel::top("bar").exact_size(BAR).frame(Frame::NONE.fill(tokens.paper)).show(ui, |ui| bar::show(ui, app, document, commands));
    let height = ledger::height(ui.available_width(), document.bench.cells.len());
    Panel::bottom("ledger")
        .exact_size(height)
        .frame(Frame::NONE.fill(tokens.panel))
        .show(ui, |ui| figures(ui, document, commands));
    let narrow = ui.available_width() < LIST + BESIDE + 80.0 * GRID;
    let share = if narrow { 0.8 } else { 1.0 };
    Panel::left("parts")
        .exact_size(LIST * share)
        .frame(Frame::NONE.fill(tokens.paper))
        .show(ui, |ui| list::show(ui, document, commands));
    let beside = if app.page == Page::Parts { PICKER } else { BESIDE };
    Panel::right("beside").exact_size(beside * share).frame(Frame::NONE.fill(tokens.paper)).show(ui, |ui| match app.page {
        Page::Parts => picker::show(ui, app, document, commands),
        Page::Together => findings::show(ui, document, commands),
    });
    CentralPanel::default().frame(scene_frame(&tokens)).show(ui, |ui| scene::show(ui, document, commands));
    cover::show(ui, app, commands);
}

fn scene_frame(tokens: &Tokens) -> Frame {
    Frame::NONE.fill(tokens.paper).inner_margin(Margin { left: 12, right: 12, top: 12, bottom: 8 })
}

/// A figure leads to the page that explains it.
fn figures(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let responses = ledger::ledger(ui, &document.bench.cells);
    if responses.iter().any(egui::Response::clicked) {
        commands.push(Command::Do(document.id, Action::Together));
    }
}

/// A word in the accent that can be pressed.
fn word(ui: &mut Ui, text: &str) -> egui::Response {
    let accent = theme::tokens(ui).accent;
    let text = egui::RichText::new(text).color(accent).font(theme::regular(theme::TEXT));
    let button = egui::Button::new(text).frame(false).min_size(egui::Vec2::ZERO);
    ui.scope(|ui| {
        ui.spacing_mut().button_padding = egui::Vec2::ZERO;
        ui.add(button).on_hover_cursor(egui::CursorIcon::PointingHand)
    })
    .inner
}

/// The same in the bold face, for what is the usual next step.
fn strong_word(ui: &mut Ui, text: &str) -> egui::Response {
    let accent = theme::tokens(ui).accent;
    let text = theme::strong(text).color(accent);
    ui.scope(|ui| {
        ui.spacing_mut().button_padding = egui::Vec2::ZERO;
        let button = egui::Button::new(text).frame(false).min_size(egui::Vec2::ZERO);
        ui.add(button).on_hover_cursor(egui::CursorIcon::PointingHand)
    })
    .inner
}
