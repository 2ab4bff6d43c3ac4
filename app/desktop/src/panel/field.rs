//! Fields that are edited in place: a name, what is held, its unit, its plausible range; and what is wrong as one types.

use egui::{
    Align, ComboBox, EventFilter, Frame, Id, Key, Label, Layout, Margin, Response, Stroke, StrokeKind, TextEdit, Ui, vec2,
};
use propwright_schema::{quantity::spoken_units, validate::Remark, value::Kind};

use super::Commands;
use crate::{
    command::Command,
    input::Input,
    state::Document,
    theme::{self, GRID},
};

/// Width of the names before the fields, in points.
const NAME: f32 = 26.0 * GRID;
/// Height of a row, in points.
const ROW: f32 = 6.5 * GRID;
/// Width of a field for a figure, in points.
pub(super) const FIGURE: f32 = 20.0 * GRID;

/// A row: a name, and behind it what it names, which gets the name's id to be called by.
pub(super) fn row<R>(ui: &mut Ui, name: &str, about: &str, content: impl FnOnce(&mut Ui, Id) -> R) -> R {
    ui.horizontal(|ui| {
        let width = name_width(ui);
        let label = ui.allocate_ui_with_layout(vec2(width, ROW), Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_width(width);
            ui.add(Label::new(name).truncate())
        });
        let label = if about.is_empty() { label.inner } else { label.inner.on_hover_text(about.trim()) };
        content(ui, label.id)
    })
    .inner
}

/// A row with a field for a figure: its unit behind it, and the plausible range or what is wrong.
pub(super) fn figure(ui: &mut Ui, document: &Document, name: &str, input: &Input, commands: &mut Commands) {
    let about = input.field().map_or("", |field| field.about);
    row(ui, name, about, |ui, label| {
        let width = if input.field().is_some_and(|field| field.kind == Kind::Money) { 26.0 * GRID } else { FIGURE };
        let field = text(ui, document, input, Shape { width, rows: 1, hint: "not said" }, commands).labelled_by(label);
        let units = units(input);
        let typed = if units.is_empty() { String::new() } else { format!(" Typed in {units}.") };
        field.on_hover_text(format!("{}{typed}", about.trim()));
        let behind = behind(document, input);
        ui.add(Label::new(theme::caption(&behind)).truncate());
    });
    problem(ui, document, input);
}

/// A row with a field for words.
pub(super) fn words(ui: &mut Ui, document: &Document, name: &str, input: &Input, rows: usize, commands: &mut Commands) {
    row(ui, name, "", |ui, label| {
        let width = ui.available_width() - 2.0 * GRID;
        text(ui, document, input, Shape { width, rows, hint: "none" }, commands).labelled_by(label);
    });
    problem(ui, document, input);
}

/// How a field looks.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shape {
    /// Width in points.
    pub(super) width: f32,
    /// Lines of text.
    pub(super) rows: usize,
    /// What an empty one shows.
    pub(super) hint: &'static str,
}

/// The field alone. What is typed becomes an edit when it is left; Escape gives it up.
pub(super) fn text(ui: &mut Ui, document: &Document, input: &Input, shape: Shape, commands: &mut Commands) -> Response {
    let held = input.shown(&document.build);
    let draft = document.drafts.get(input);
    let mut now = draft.cloned().unwrap_or(held);
    let id = Id::unique(("field", document.id.0, input));
    let filter = EventFilter { escape: true, horizontal_arrows: true, vertical_arrows: shape.rows > 1, ..EventFilter::default() };
    let field =
        if shape.rows > 1 { TextEdit::multiline(&mut now).desired_rows(shape.rows) } else { TextEdit::singleline(&mut now) };
    let field = field.id(id).hint_text(shape.hint).desired_width(shape.width).margin(Margin::symmetric(8, 3));
    let response = ui.add(field.event_filter(filter));
    if response.changed() {
        commands.push(Command::Type(document.id, input.clone(), now));
    }
    if response.has_focus() {
        ui.data_mut(|data| data.insert_temp(typing_id(), id));
        if ui.input(|input| input.key_pressed(Key::Escape)) {
            commands.push(Command::GiveUp(document.id, input.clone()));
            response.surrender_focus();
        }
    } else if draft.is_some() && (response.lost_focus() || reading(document, input).is_ok()) {
        commands.push(Command::Leave(document.id, input.clone()));
    }
    if draft.is_some() && reading(document, input).is_err() {
        let edge = Stroke::new(2.0, theme::tokens(ui).mismatch);
        ui.painter().rect_stroke(response.rect.expand(1.0), 4.0, edge, StrokeKind::Outside);
    }
    response
}

fn typing_id() -> Id {
    Id::unique("typing in a field")
}

/// Is a field of the list typed in? It keeps Escape and its own undo.
pub(crate) fn is_typing(ctx: &egui::Context) -> bool {
    let focused = ctx.memory(egui::Memory::focused);
    focused.is_some() && ctx.data(|data| data.get_temp::<Id>(typing_id())) == focused
}

fn reading(document: &Document, input: &Input) -> Result<(), Remark> {
    let draft = document.drafts.get(input);
    draft.map_or(Ok(()), |text| input.read(text, &document.build).map(|_| ()))
}

/// What is wrong with what was typed, below its field.
pub(super) fn problem(ui: &mut Ui, document: &Document, input: &Input) {
    if let Some(said) = wrong(document, input) {
        below(ui, said);
    }
}

/// What is wrong with what was typed, in words.
pub(super) fn wrong(document: &Document, input: &Input) -> Option<String> {
    let Remark { reason, hint } = reading(document, input).err()?;
    Some(if hint.is_empty() { format!("{reason}.") } else { format!("{reason}; {hint}") })
}

/// Words below a field, beginning where it does.
pub(super) fn below(ui: &mut Ui, words: impl Into<egui::WidgetText>) {
    indented(ui, |ui| ui.add(Label::new(words).wrap()));
}

/// What has no name before it begins where the fields do.
pub(super) fn indented<R>(ui: &mut Ui, content: impl FnOnce(&mut Ui) -> R) -> R {
    ui.horizontal_top(|ui| {
        ui.add_space(name_width(ui) + ui.spacing().item_spacing.x);
        ui.vertical(content).inner
    })
    .inner
}

/// Names leave most of a narrow panel to the fields.
fn name_width(ui: &Ui) -> f32 {
    NAME.min(ui.available_width() * 0.3)
}

/// Unit and range of a field; while a figure in another unit is typed, what it comes to.
pub(super) fn behind(document: &Document, input: &Input) -> String {
    let Some(field) = input.field() else { return String::new() };
    let Kind::Number(unit) = field.kind else {
        return if field.kind == Kind::Money { "such as 300 EUR".to_owned() } else { String::new() };
    };
    let typed = document.drafts.get(input).filter(|text| text.contains(char::is_alphabetic));
    if let Some(edit) = typed.and_then(|text| input.read(text, &document.build).ok()) {
        let after = edit.applied(&document.build, &propwright_schema::catalogue::Catalogue::default());
        return format!("= {} {}", input.shown(&after), unit.symbol);
    }
    let (low, high) = field.plausible.unwrap_or_default();
    let range = format!("{} to {}", thin(low), thin(high));
    format!("{}   {range}", unit.symbol)
}

/// A number with a thin gap before its last three digits.
fn thin(figure: f64) -> String {
    let text = figure.to_string().replace('-', "−");
    match text.len().checked_sub(3) {
        Some(at) if figure.abs() >= 10_000.0 && figure.fract() == 0.0 => format!("{}\u{2009}{}", &text[..at], &text[at..]),
        _ => text,
    }
}

/// In which units a field may be typed.
fn units(input: &Input) -> String {
    match input.field().map(|field| field.kind) {
        Some(Kind::Number(unit)) => spoken_units(unit).join(", "),
        _ => String::new(),
    }
}

/// A choice of one of several, each with what there is to know about it. Says which was chosen.
pub(super) fn choice<'o>(
    ui: &mut Ui,
    salt: &str,
    label: Id,
    width: f32,
    now: &str,
    offers: impl IntoIterator<Item = (&'o str, &'o str)>,
) -> Option<usize> {
    let mut chosen = None;
    let width = width.min(ui.available_width() - 2.0 * GRID);
    let response = ComboBox::from_id_salt(salt).selected_text(now).width(width).truncate().show_ui(ui, |ui| {
        for (at, (words, aside)) in offers.into_iter().enumerate() {
            let text = if aside.is_empty() { words.to_owned() } else { format!("{words} · {aside}") };
            if ui.selectable_label(words == now, text).clicked() {
                chosen = Some(at);
            }
        }
    });
    response.response.labelled_by(label).on_hover_text(now);
    chosen
}

/// A part of a page under a title.
pub(super) fn section(ui: &mut Ui, title: &str, content: impl FnOnce(&mut Ui)) {
    ui.add_space(4.0 * GRID);
    ui.label(theme::title(title));
    ui.add_space(GRID);
    Frame::NONE.show(ui, content);
}

/// Brings the control that has just got the keys into view; to be called at the end of what scrolls.
pub(super) fn follow_focus(ui: &Ui) {
    let Some(focused) = ui.memory(egui::Memory::focused) else { return };
    let key = ui.scope_id().with("followed");
    if ui.data(|data| data.get_temp::<Id>(key)) == Some(focused) {
        return;
    }
    ui.data_mut(|data| data.insert_temp(key, focused));
    if let Some(response) = ui.ctx().read_response(focused)
        && response.layer_id == ui.layer_id()
        && ui.min_rect().contains_rect(response.rect)
        && !ui.clip_rect().contains_rect(response.rect)
    {
        ui.scroll_to_rect(response.rect.expand(2.0 * GRID), None);
    }
}
