//! Draws what the window holds and says what was done with it: panels read and push commands, nothing else.

mod asking;
mod bar;
mod beginning;
mod beside;
mod cost;
mod cover;
mod details;
mod entering;
mod field;
mod finding;
mod findings;
mod flight;
mod graph;
mod help;
mod importing;
mod list;
mod paper;
mod picker;
mod purpose;
mod row;
mod scene;
mod sources;
mod stand_ins;
mod tried;
mod ways;
mod whole;

use egui::{
    Button, CentralPanel, CursorIcon, Frame, Id, LayerId, Margin, Order, Panel, Rect, Response, RichText, Role, ScrollArea,
    Stroke, StrokeKind, TextWrapMode, Ui, Vec2, WidgetInfo, WidgetText,
};

use crate::{
    command::{Action, Command},
    demo,
    state::{App, Document, Look, Page},
    theme::{self, GRID, Tokens},
    view,
    widget::ledger,
};

/// Is a field typed in that keeps Escape and its own undo?
pub(crate) fn is_typing(ctx: &egui::Context) -> bool {
    field::is_typing(ctx) || entering::is_typing(ctx)
}

/// What was done in one frame, in order.
pub type Commands = Vec<Command>;

/// Height of the bar along the top, in points.
const BAR: f32 = 11.5 * GRID;
/// Width of the list of parts in a window of the usual width, in points.
const LIST: f32 = 79.0 * GRID;
/// Width of what stands beside the drawing on each page, likewise.
const BESIDE: f32 = 99.0 * GRID;
const PICKER: f32 = 115.0 * GRID;
/// Plots and bills want more room than lists.
const BROAD: f32 = 150.0 * GRID;
/// The usual width of a window, and the shares of its columns in narrower and wider ones.
const USUAL: f32 = 320.0 * GRID;
const SHARES: std::ops::RangeInclusive<f32> = 0.8..=1.2;

/// The drawing gives way where less than this would be left for it.
const SCENE: f32 = 44.0 * GRID;
/// The ledger takes at most this share of a low window; the rest of it is scrolled to.
const LEDGER: f32 = 0.25;
/// Below this height of the window the ledger is drawn low.
const LOW: f32 = 150.0 * GRID;

/// Width of the list of parts in a window of `width`.
fn list_width(width: f32) -> f32 {
    LIST * (width / USUAL).clamp(*SHARES.start(), *SHARES.end())
}

/// Draws the whole window.
pub fn show(ui: &mut Ui, app: &App, commands: &mut Commands) {
    let tokens = theme::tokens(ui);
    let Some(document) = app.shown() else { return };
    finding::forget_lit(ui);
    if document.followed.is_none() {
        finding::forget_followed(ui);
    }
    Panel::top("bar").exact_size(BAR).frame(Frame::NONE.fill(tokens.paper)).show(ui, |ui| bar::show(ui, app, document, commands));
    let form = if ui.available_height() < LOW { &ledger::LOW } else { &ledger::WIDE };
    let whole = ledger::height(ui.available_width(), document.bench.cells.len(), form);
    let height = whole.min((LEDGER * ui.available_height()).max(form.row));
    Panel::bottom("ledger").exact_size(height).frame(Frame::NONE.fill(tokens.panel)).show(ui, |ui| {
        ScrollArea::vertical().id_salt("ledger").show(ui, |ui| figures(ui, document, form, commands));
    });
    let width = ui.available_width();
    let share = list_width(width) / LIST;
    Panel::left("parts")
        .exact_size(LIST * share)
        .frame(Frame::NONE.fill(tokens.paper))
        .show(ui, |ui| list::show(ui, document, commands));
    let beside = share * beside_width(app.page, app, document);
    let drawn = document.graph.zip(document.bench.graph.as_ref()).filter(|_| app.page == Page::Together);
    if has_scene(width, beside) {
        let frame = Frame::NONE.fill(tokens.paper);
        Panel::right("beside").exact_size(beside).frame(frame).show(ui, |ui| page(ui, app, document, commands));
        CentralPanel::default().frame(scene_frame(&tokens)).show(ui, |ui| match drawn {
            Some((look, drawn)) => graph::show(ui, document, look, drawn, commands),
            None => scene::show(ui, app, document, commands),
        });
    } else {
        CentralPanel::default().frame(Frame::NONE.fill(tokens.paper)).show(ui, |ui| match drawn {
            Some((look, drawn)) => graph::show(ui, document, look, drawn, commands),
            None => page(ui, app, document, commands),
        });
    }
    cover::show(ui, app, commands);
    if ui.input(|input| !input.raw.hovered_files.is_empty()) {
        landing(ui);
    }
}

/// Is there room for the drawing between the list and what stands beside it?
fn has_scene(width: f32, beside: f32) -> bool {
    width - list_width(width) - beside >= SCENE
}

/// Width of what stands beside the drawing in a window of the usual width.
fn beside_width(page: Page, app: &App, document: &Document) -> f32 {
    match page {
        Page::Parts if app.entering.is_some() || app.importing.is_some() => BROAD,
        Page::Parts if document.picker.as_ref().is_some_and(|picker| picker.look != Look::All) => BROAD,
        Page::Purpose | Page::Parts => PICKER,
        Page::Together => BESIDE,
        Page::Flight | Page::Cost | Page::Paper => BROAD,
    }
}

fn page(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    match app.page {
        Page::Purpose => purpose::show(ui, app, document, commands),
        Page::Parts => picker::show(ui, app, document, commands),
        Page::Together => findings::show(ui, document, commands),
        Page::Flight => flight::show(ui, document, commands),
        Page::Cost => cost::show(ui, app, document, commands),
        Page::Paper => paper::show(ui, document, commands),
    }
}

/// Says what happens to files that are held over the window.
fn landing(ui: &Ui) {
    let tokens = theme::tokens(ui);
    let painter = ui.ctx().layer_painter(LayerId::new(Order::Foreground, Id::unique("landing")));
    let window = ui.ctx().content_rect();
    painter.rect_filled(window, 0.0, Tokens::veil());
    let edge = Stroke::new(2.0, tokens.accent);
    painter.rect_stroke(window.shrink(2.0 * GRID), 4.0, edge, StrokeKind::Inside);
    let words = painter.layout_no_wrap(
        "Let go to read it: a build list, a catalogue or a table".to_owned(),
        theme::bold(theme::TITLE),
        tokens.ink,
    );
    let ground = Rect::from_center_size(window.center(), words.size() + Vec2::splat(8.0 * GRID));
    painter.rect_filled(ground, 4.0, tokens.panel);
    painter.galley(ground.center() - words.size() / 2.0, words, tokens.ink);
}

fn scene_frame(tokens: &Tokens) -> Frame {
    Frame::NONE.fill(tokens.paper).inner_margin(Margin { left: 12, right: 12, top: 12, bottom: 8 })
}

/// A figure leads to its working, the count of what is open to the page that tells it.
fn figures(ui: &mut Ui, document: &Document, form: &ledger::Form, commands: &mut Commands) {
    let responses = ledger::ledger(ui, &document.bench.cells, form);
    if let Some(cell) = responses.iter().position(Response::clicked).and_then(|at| document.bench.cells.get(at)) {
        commands.push(match view::behind(&cell.caption) {
            Some(figure) => Command::Follow(document.id, Some(figure)),
            None => Command::Do(document.id, Action::Page(Page::Together)),
        });
    }
}

/// The builds of the demo catalogue, to begin from one.
fn demos(ui: &mut Ui, commands: &mut Commands) {
    ui.label(theme::caption("Or begin from a build of the demo catalogue"));
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0 * GRID;
        for (file, build) in demo::builds() {
            if word(ui, &build.name).clicked() {
                commands.push(Command::Demo(file));
            }
        }
    });
}

/// A word in the accent that can be pressed.
fn word(ui: &mut Ui, text: &str) -> Response {
    let accent = theme::tokens(ui).accent;
    let words = RichText::new(text).color(accent).font(theme::regular(theme::TEXT));
    bare(ui, Button::new(words).wrap_mode(TextWrapMode::Extend), text)
}

/// The same at the size of a caption.
fn caption_word(ui: &mut Ui, text: &str) -> Response {
    let accent = theme::tokens(ui).accent;
    let words = RichText::new(text).color(accent).font(theme::regular(theme::CAPTION));
    bare(ui, Button::new(words).wrap_mode(TextWrapMode::Extend), text)
}

/// A figure that leads to its working, or away from it again; the figure itself is its value.
fn followed(ui: &mut Ui, document: &Document, id: &'static str, words: &str, commands: &mut Commands) {
    followed_as(ui, document, id, RichText::new(words), commands);
}

/// The same at the size of a title.
fn followed_title(ui: &mut Ui, document: &Document, id: &'static str, words: &str, commands: &mut Commands) {
    followed_as(ui, document, id, theme::title(words), commands);
}

fn followed_as(ui: &mut Ui, document: &Document, id: &'static str, words: RichText, commands: &mut Commands) {
    let name = view::comes_about(id);
    let said = words.text().to_owned();
    let figure = words.color(theme::tokens(ui).accent);
    let response = bare(ui, Button::new(figure).wrap_mode(TextWrapMode::Extend), &name);
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(Role::Button, true, &name);
        info.current_text_value = Some(said.clone());
        info
    });
    if response.on_hover_text(name).clicked() {
        commands.push(Command::Follow(document.id, Some(id).filter(|id| !is_followed(document, id))));
    }
}

/// A figure that opens and closes its working below it; `name` is read out before it. Says whether it is open.
fn opening(ui: &mut Ui, id: Id, words: impl Into<RichText>, name: &str) -> bool {
    let open = ui.data_mut(|data| *data.get_temp_mut_or(id, false));
    let words = words.into();
    let figure = words.text().to_owned();
    let response = bare(ui, Button::new(words.color(theme::tokens(ui).accent)).wrap_mode(TextWrapMode::Extend), name);
    response.widget_info(|| {
        let mut info = WidgetInfo::selected(Role::DisclosureTriangle, true, open, name);
        info.current_text_value = Some(figure.clone());
        info
    });
    if response.on_hover_text(name).clicked() {
        ui.data_mut(|data| data.insert_temp(id, !open));
    }
    open
}

fn is_followed(document: &Document, id: &str) -> bool {
    document.followed == Some(id)
}

/// A small word in the accent that can be pressed; `name` is read out.
fn small_word(ui: &mut Ui, text: &str, name: &str) -> Response {
    let accent = theme::tokens(ui).accent;
    let words = RichText::new(text).color(accent).font(theme::regular(theme::CAPTION));
    bare(ui, Button::new(words).wrap_mode(TextWrapMode::Extend), name)
}

/// Words over one or more lines that can be pressed, in the bold face where they are the usual next step.
fn wrapped_word(ui: &mut Ui, text: &str, usual: bool) -> Response {
    let accent = theme::tokens(ui).accent;
    let words = if usual { theme::strong(text) } else { RichText::new(text).font(theme::regular(theme::TEXT)) };
    bare(ui, Button::new(words.color(accent)).wrap(), text)
}

/// The same in the bold face, for what is the usual next step.
fn strong_word(ui: &mut Ui, text: &str) -> Response {
    let accent = theme::tokens(ui).accent;
    bare(ui, Button::new(theme::strong(text).color(accent)).wrap_mode(TextWrapMode::Extend), text)
}

/// Words over one or more lines that open and close what is below them.
fn opener(ui: &mut Ui, words: impl Into<WidgetText>, name: &str, open: bool) -> Response {
    let response = bare(ui, Button::new(words.into()).wrap(), name);
    response.widget_info(|| WidgetInfo::selected(Role::DisclosureTriangle, true, open, name));
    response
}

/// A button without a ground; `name` is read out.
fn bare(ui: &mut Ui, button: Button<'_>, name: &str) -> Response {
    // A scope of its own would not break lines where these stand side by side.
    let padding = std::mem::replace(&mut ui.spacing_mut().button_padding, Vec2::ZERO);
    let response = ui.add(button.frame(false).min_size(Vec2::ZERO));
    ui.spacing_mut().button_padding = padding;
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
    ring(ui, &response);
    response.on_hover_cursor(CursorIcon::PointingHand)
}

/// Shows where the keys are, for controls without a ground of their own.
fn ring(ui: &Ui, response: &Response) {
    if response.has_focus() {
        let edge = Stroke::new(2.0, theme::tokens(ui).accent);
        ui.painter().rect_stroke(response.rect.expand(2.0), 4.0, edge, StrokeKind::Outside);
    }
}
