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

use egui::{
    Button, CentralPanel, CursorIcon, Frame, Margin, Panel, Response, RichText, Role, Stroke, StrokeKind, Ui, Vec2, WidgetInfo,
    WidgetText,
};

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
/// Width of the list of parts in a window of the usual width, in points.
const LIST: f32 = 79.0 * GRID;
/// Width of what stands beside the drawing on each page, likewise.
const BESIDE: f32 = 99.0 * GRID;
const PICKER: f32 = 115.0 * GRID;
/// The usual width of a window, and the shares of its columns in narrower and wider ones.
const USUAL: f32 = 320.0 * GRID;
const SHARES: std::ops::RangeInclusive<f32> = 0.8..=1.2;

/// Width of the list of parts in a window of `width`.
fn list_width(width: f32) -> f32 {
    LIST * (width / USUAL).clamp(*SHARES.start(), *SHARES.end())
}

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
    let share = list_width(ui.available_width()) / LIST;
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
    if responses.iter().any(Response::clicked) {
        commands.push(Command::Do(document.id, Action::Together));
    }
}

/// A word in the accent that can be pressed.
fn word(ui: &mut Ui, text: &str) -> Response {
    let accent = theme::tokens(ui).accent;
    bare(ui, RichText::new(text).color(accent).font(theme::regular(theme::TEXT)), text)
}

/// The same in the bold face, for what is the usual next step.
fn strong_word(ui: &mut Ui, text: &str) -> Response {
    let accent = theme::tokens(ui).accent;
    bare(ui, theme::strong(text).color(accent), text)
}

/// Words that can be pressed, without a ground; `name` is read out.
fn bare(ui: &mut Ui, words: impl Into<WidgetText>, name: &str) -> Response {
    let response = ui
        .scope(|ui| {
            ui.spacing_mut().button_padding = Vec2::ZERO;
            ui.add(Button::new(words.into()).frame(false).wrap().min_size(Vec2::ZERO))
        })
        .inner;
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
    ring(ui, &response);
    response.on_hover_cursor(CursorIcon::PointingHand)
}

/// Words that open and close what is below them.
fn opener(ui: &mut Ui, words: impl Into<WidgetText>, name: &str, open: bool) -> Response {
    let response = bare(ui, words, name);
    response.widget_info(|| WidgetInfo::selected(Role::DisclosureTriangle, true, open, name));
    response
}

/// Shows where the keys are, for controls without a ground of their own.
fn ring(ui: &Ui, response: &Response) {
    if response.has_focus() {
        let edge = Stroke::new(2.0, theme::tokens(ui).accent);
        ui.painter().rect_stroke(response.rect.expand(2.0), 4.0, edge, StrokeKind::Outside);
    }
}
