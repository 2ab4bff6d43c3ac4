//! One field of the form.

use egui::{ComboBox, EventFilter, Id, Key, Label, Margin, Response, Stroke, StrokeKind, TextEdit, Ui};
use propwright_schema::{part::Basis, value::Value};

use super::{
    super::{Commands, field},
    spot_id,
};
use crate::{
    command::Command,
    run_command::entering::Enter,
    state::Entering,
    theme::{self, GRID},
    view::{Control, Line},
};

/// Width of a field for words, and of the word that vouches, in points.
const WORDS: f32 = 60.0 * GRID;
const VOUCHED: f32 = 36.0 * GRID;
/// What stands where nothing was said.
const NOT_SAID: &str = "not said";

/// A name, its field, unit and range, and who vouches.
pub(super) fn row(ui: &mut Ui, entering: &Entering, line: &Line, commands: &mut Commands) {
    let figure = !line.behind.is_empty() && line.vouched.is_some();
    let focused = field::row(ui, &line.name, &line.help, |ui, label| {
        let width = if figure { field::FIGURE } else { WORDS.min(ui.available_width() - 2.0 * GRID) };
        let response = control(ui, entering, line, width, &line.name, commands).labelled_by(label);
        let focused = response.has_focus();
        response.on_hover_text(&line.help);
        if let Some(basis) = line.vouched {
            let room = (ui.available_width() - VOUCHED - 4.0 * GRID).max(0.0);
            let layout = egui::Layout::left_to_right(egui::Align::Center);
            ui.allocate_ui_with_layout(egui::vec2(room, 5.0 * GRID), layout, |ui| {
                ui.set_min_width(room);
                ui.add(Label::new(theme::caption(&line.behind)).truncate());
            });
            vouched(ui, line, basis, commands);
        } else if !line.behind.is_empty() {
            ui.add(Label::new(theme::caption(&line.behind)).truncate());
        }
        focused
    });
    if let Some(remark) = &line.remark {
        field::below(ui, remark.as_str());
    }
    if focused {
        field::below(ui, theme::caption(&line.help));
    }
}

/// The field itself; `name` is read out.
pub(super) fn control(
    ui: &mut Ui,
    entering: &Entering,
    line: &Line,
    width: f32,
    name: &str,
    commands: &mut Commands,
) -> Response {
    match &line.control {
        Control::Text(text) => self::text(ui, entering, line, text, width, commands),
        Control::Choice(words, now) => {
            let shown = now.as_deref().unwrap_or(NOT_SAID);
            let mut chosen = None;
            let combo = ComboBox::from_id_salt(spot_id(&line.spot)).selected_text(shown).width(width - 2.0 * GRID).truncate();
            let response = combo.show_ui(ui, |ui| {
                if ui.selectable_label(now.is_none(), NOT_SAID).clicked() {
                    chosen = Some(None);
                }
                for word in *words {
                    if ui.selectable_label(now.as_deref() == Some(*word), *word).clicked() {
                        chosen = Some(Some(Value::Word((*word).to_owned())));
                    }
                }
            });
            commands.extend(chosen.map(|value| Command::Enter(Enter::Choose(line.spot, value))));
            named(ui, response.response, name)
        }
        Control::Flag(now) => {
            let words = |flag: Option<bool>| flag.map_or(NOT_SAID, |flag| if flag { "yes" } else { "no" });
            let mut chosen = None;
            let combo = ComboBox::from_id_salt(spot_id(&line.spot)).selected_text(words(*now)).width(field::FIGURE - 2.0 * GRID);
            let response = combo.show_ui(ui, |ui| {
                for flag in [None, Some(true), Some(false)] {
                    if ui.selectable_label(*now == flag, words(flag)).clicked() {
                        chosen = Some(flag.map(Value::Flag));
                    }
                }
            });
            commands.extend(chosen.map(|value| Command::Enter(Enter::Choose(line.spot, value))));
            named(ui, response.response, name)
        }
        Control::Records(_) | Control::Record(_) => ui.label(""),
    }
}

fn named(ui: &Ui, response: Response, name: &str) -> Response {
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(name));
    response
}

fn text(ui: &mut Ui, entering: &Entering, line: &Line, held: &str, width: f32, commands: &mut Commands) -> Response {
    let mut now = held.to_owned();
    let filter = EventFilter { escape: true, horizontal_arrows: true, ..EventFilter::default() };
    let long = line.spot.field == "note";
    let field = if long { TextEdit::multiline(&mut now).desired_rows(2) } else { TextEdit::singleline(&mut now) };
    let hint = match line.spot.field {
        "id" => "made of maker and name",
        _ if line.vouched == Some(Some(Basis::Unpublished)) => "not published",
        _ => "",
    };
    let field = field.id(spot_id(&line.spot)).hint_text(hint).desired_width(width - 4.0 * GRID).margin(Margin::symmetric(8, 3));
    let response = ui.add(field.event_filter(filter));
    if response.changed() {
        commands.push(Command::Enter(Enter::Type(line.spot, now)));
    }
    let drafted = entering.drafts.contains_key(&line.spot);
    if response.has_focus() {
        ui.data_mut(|data| data.insert_temp(typing_id(), response.id));
        if ui.input(|input| input.key_pressed(Key::Escape)) {
            commands.push(Command::Enter(Enter::GiveUp(line.spot)));
            response.surrender_focus();
        }
    } else if response.lost_focus() || drafted && line.remark.is_none() {
        commands.push(Command::Enter(Enter::Leave(line.spot)));
    }
    if line.remark.is_some() {
        let edge = Stroke::new(2.0, theme::tokens(ui).mismatch);
        ui.painter().rect_stroke(response.rect.expand(1.0), 4.0, edge, StrokeKind::Outside);
    }
    response
}

fn typing_id() -> Id {
    Id::unique("typing in a form")
}

/// Is a field of the form typed in? It keeps Escape and its own undo.
pub(in crate::panel) fn is_typing(ctx: &egui::Context) -> bool {
    let focused = ctx.memory(egui::Memory::focused);
    focused.is_some() && ctx.data(|data| data.get_temp::<Id>(typing_id())) == focused
}

/// Who vouches for a figure.
fn vouched(ui: &mut Ui, line: &Line, basis: Option<Basis>, commands: &mut Commands) {
    let empty = matches!(&line.control, Control::Text(text) if text.trim().is_empty());
    let words = |basis: Option<Basis>| basis.map_or("maker's figure", Basis::word);
    let shown = if empty && basis.is_none() { "no figure yet" } else { words(basis) };
    let mut chosen = None;
    let combo = ComboBox::from_id_salt((spot_id(&line.spot), "vouched"));
    let combo = combo.selected_text(theme::caption(shown)).width(VOUCHED - 6.0 * GRID);
    let response = combo.show_ui(ui, |ui| {
        for other in std::iter::once(None).chain(Basis::ALL.iter().copied().map(Some)) {
            if ui.selectable_label(basis == other, words(other)).clicked() {
                chosen = Some(other);
            }
        }
    });
    let name = format!("{}: whose figure", line.name);
    let about =
        "Whose figure it is. An estimate can warn, never forbid, and widens bands; what is not published asks to be measured.";
    named(ui, response.response, &name).on_hover_text(about);
    commands.extend(chosen.map(|basis| Command::Enter(Enter::Vouch(line.spot, basis))));
}
