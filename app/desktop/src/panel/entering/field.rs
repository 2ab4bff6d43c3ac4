//! One field of the form.

use egui::{
    Button, ComboBox, EventFilter, Id, Key, Label, Margin, Popup, Response, Role, Sense, Stroke, StrokeKind, TextEdit, Ui,
    WidgetInfo,
    text::{CCursor, CCursorRange},
};
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

/// Width of a field for a figure with its unit, of one for words, and of the word that vouches, in points.
const FIGURE: f32 = 26.0 * GRID;
const WORDS: f32 = 76.0 * GRID;
const VOUCHED: f32 = 36.0 * GRID;
/// What stands where nothing was said.
const NOT_SAID: &str = "not said";

/// A name, its field, unit and range, and who vouches.
pub(super) fn row(ui: &mut Ui, entering: &Entering, line: &Line, commands: &mut Commands) {
    let figure = line.vouched.is_some() || line.spot.field == "pieces";
    let focused = field::row(ui, &line.name, &line.help, |ui, label| {
        let width = if figure { FIGURE } else { WORDS.min(ui.available_width() - 2.0 * GRID) };
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
        let keys = match line.control {
            Control::Text(_) if line.vouched.is_some() => " Shift Enter: whose figure.",
            Control::Choice(..) => " A letter chooses.",
            _ => "",
        };
        field::below(ui, theme::caption(format!("{}{keys}", line.help)));
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
            if response.response.has_focus() && chosen.is_none() {
                chosen = by_letter(ui, words, now.as_deref()).map(|word| Some(Value::Word(word.to_owned())));
            }
            commands.extend(chosen.map(|value| Command::Enter(Enter::Choose(line.spot, value))));
            arrive(ui, &response.response);
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
            arrive(ui, &response.response);
            named(ui, response.response, name)
        }
        Control::Records(_) | Control::Record(_) => ui.label(""),
    }
}

/// The word that begins with a letter that is typed; of several the next one.
fn by_letter<'w>(ui: &Ui, words: &'w [&'static str], now: Option<&str>) -> Option<&'w str> {
    let typed = ui.input(|input| {
        input.events.iter().find_map(|event| if let egui::Event::Text(text) = event { Some(text.to_lowercase()) } else { None })
    })?;
    let at = words.iter().position(|word| Some(*word) == now).map_or(0, |at| at + 1);
    let around = words[at..].iter().chain(&words[..at]);
    around.copied().find(|word| word.to_lowercase().starts_with(&typed))
}

fn going_on_id() -> Id {
    Id::unique("going on in a form")
}

/// The next control that is drawn takes the keys.
fn go_on(ui: &Ui) {
    ui.data_mut(|data| data.insert_temp(going_on_id(), true));
}

/// Takes the keys, if Enter was pressed in the field before.
pub(super) fn arrive(ui: &Ui, response: &Response) {
    if ui.data_mut(|data| data.remove_temp::<bool>(going_on_id())).is_some() {
        response.request_focus();
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
    arrive(ui, &response);
    if response.gained_focus() && !ui.input(|input| input.pointer.any_down() || input.pointer.any_released()) {
        select_all(ui, response.id);
    }
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
        if response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter)) {
            entered(ui, line, &response, commands);
        }
    }
    if line.remark.is_some() {
        let edge = Stroke::new(2.0, theme::tokens(ui).mismatch);
        ui.painter().rect_stroke(response.rect.expand(1.0), 4.0, edge, StrokeKind::Outside);
    }
    response
}

/// Whoever comes by key types over what is there.
fn select_all(ui: &Ui, id: Id) {
    let mut state = TextEdit::load_state(ui.ctx(), id).unwrap_or_default();
    // What is there may come in this very frame, made of what was left: the end lies behind any text.
    let all = CCursorRange::two(CCursor::new(0), CCursor::new(usize::MAX));
    state.cursor.set_char_range(Some(all));
    state.store(ui.ctx(), id);
}

fn typing_id() -> Id {
    Id::unique("typing in a form")
}

/// Is a field of the form typed in? It keeps Escape and its own undo.
pub(in crate::panel) fn is_typing(ctx: &egui::Context) -> bool {
    let focused = ctx.memory(egui::Memory::focused);
    focused.is_some() && ctx.data(|data| data.get_temp::<Id>(typing_id())) == focused
}

/// Enter goes on to the next field; with Shift it says whose figure this one is, and stays.
fn entered(ui: &Ui, line: &Line, response: &Response, commands: &mut Commands) {
    match line.vouched {
        Some(basis) if ui.input(|input| input.modifiers.shift) => {
            commands.push(Command::Enter(Enter::Vouch(line.spot, next_basis(is_empty(line), basis))));
            response.request_focus();
        }
        _ => go_on(ui),
    }
}

fn is_empty(line: &Line) -> bool {
    matches!(&line.control, Control::Text(text) if text.trim().is_empty())
}

/// What comes after a basis; where no figure is, it is published or not.
fn next_basis(empty: bool, now: Option<Basis>) -> Option<Basis> {
    match now {
        None if empty => Some(Basis::Unpublished),
        None => Some(Basis::Measured),
        Some(Basis::Measured) => Some(Basis::Estimate),
        Some(Basis::Estimate | Basis::Unpublished) => None,
    }
}

/// Who vouches for a figure: no stop on the way from field to field, for Shift Enter in the field does the same.
fn vouched(ui: &mut Ui, line: &Line, basis: Option<Basis>, commands: &mut Commands) {
    let words = |basis: Option<Basis>| basis.map_or("maker's figure", Basis::word);
    let shown = if is_empty(line) && basis.is_none() { "no figure yet" } else { words(basis) };
    let button = Button::new(theme::caption(shown)).frame(false).sense(Sense::CLICK);
    let response = ui.add(button);
    let name = format!("{}: whose figure", line.name);
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(Role::ComboBox, true, &name);
        info.current_text_value = Some(shown.to_owned());
        info
    });
    let about =
        "Whose figure it is. An estimate can warn, never forbid, and widens bands; what is not published asks to be measured.";
    Popup::menu(&response).accessible_name(&name).show(|ui| {
        for other in std::iter::once(None).chain(Basis::ALL.iter().copied().map(Some)) {
            if ui.selectable_label(basis == other, words(other)).clicked() {
                commands.push(Command::Enter(Enter::Vouch(line.spot, other)));
                ui.close();
            }
        }
    });
    response.on_hover_text(about).on_hover_cursor(egui::CursorIcon::PointingHand);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shift_enter_goes_round_all_that_can_be_said() {
        let round = |empty: bool| {
            let next = |now: &Option<Basis>| Some(next_basis(empty, *now));
            let mut all: Vec<_> = std::iter::successors(Some(None), next).take(5).collect();
            all.dedup();
            all
        };
        assert_eq!(round(false)[..4], [None, Some(Basis::Measured), Some(Basis::Estimate), None]);
        assert_eq!(round(true)[..3], [None, Some(Basis::Unpublished), None]);
    }
}
