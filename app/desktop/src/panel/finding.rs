//! One finding: mark and word, sentence, margin, the reason step by step, the ways out.

use std::{collections::BTreeSet, sync::Arc};

use egui::{Align, Frame, Grid, Id, InnerResponse, Label, Margin, RichText, Stroke, TextFormat, Ui, text::LayoutJob};
use propwright_engine::{
    explain::Pins,
    finding::{Because, Status},
};
use propwright_schema::slot::Slot;

use super::{Commands, caption_word, opener, strong_word, ways, word};
use crate::{
    command::{Action, Command},
    state::{Document, GraphLook, Help, Page},
    theme::{self, CAPTION, GRID},
    view::{Card, Working, lower_first, meaning, reason, slots_told},
    widget::{margin_bar::margin_bar, mark},
};

/// How deep reasons are opened; a chain of derivations is shorter.
const DEEPEST: usize = 24;
/// What stands below a mark's word begins where the word does, in points.
const INDENT: i8 = 20;

pub(super) fn show(ui: &mut Ui, document: &Document, card: &Card, commands: &mut Commands) {
    let tokens = theme::tokens(ui);
    let grave = card.status == Status::Mismatch;
    let frame = Frame::NONE.inner_margin(Margin::symmetric(14, 10)).corner_radius(4.0);
    let frame = if grave {
        frame.fill(tokens.panel).stroke(Stroke::new(1.0, tokens.line))
    } else {
        frame.inner_margin(Margin::symmetric(14, 4))
    };
    ui.push_id(&card.key, |ui| {
        ui.set_max_width(ui.available_width() - 2.0 * GRID);
        frame.show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 6.0;
            if card.vacant {
                ui.label(theme::caption("still to be chosen"));
            } else {
                mark::mark_with_word(ui, card.status, &card.about).on_hover_text(meaning(card.status));
            }
            let indent = if grave { 0 } else { INDENT };
            Frame::NONE
                .inner_margin(Margin { left: indent, ..Margin::ZERO })
                .show(ui, |ui| body(ui, document, card, grave, commands));
        });
    });
    ui.add_space(if grave { 3.0 * GRID } else { GRID });
}

/// What is grave stands open; of the rest the argument opens on demand.
fn body(ui: &mut Ui, document: &Document, card: &Card, grave: bool, commands: &mut Commands) {
    let sentence = if grave { theme::sentence(&card.sentence) } else { RichText::new(&card.sentence) };
    ui.add(Label::new(sentence).wrap());
    if let Some(margin) = &card.margin {
        margin_bar(ui, margin);
    }
    for own in &card.own {
        ui.add(Label::new(theme::caption(own)).wrap());
    }
    if grave {
        argument(ui, document, card, commands);
        ways::show(ui, document, card, commands);
        if let Some(pins) = &card.pins {
            self::pins(ui, pins);
        }
        ui.horizontal_wrapped(|ui| changes(ui, document, card, grave, commands));
        return;
    }
    let opened = ui.horizontal_wrapped(|ui| {
        let mut open = false;
        if !card.because.is_empty() {
            open = toggle(ui, ui.scope_id().with("because"), "Because");
            ui.add_space(GRID);
        }
        if card.status != Status::Fits {
            changes(ui, document, card, grave, commands);
        }
        open
    });
    if opened.inner {
        argument(ui, document, card, commands);
        if let Some(pins) = &card.pins {
            self::pins(ui, pins);
        }
        if card.status != Status::Fits {
            ways::hints(ui, card);
        }
    }
}

/// Two plugs pin by pin; what does not meet is set in bold.
fn pins(ui: &mut Ui, pins: &Pins) {
    let said = |text: &str| if text.is_empty() { "no such pin".to_owned() } else { text.to_owned() };
    ui.separator();
    ui.label(theme::caption("Pin by pin, counted from the mark"));
    Grid::new("pins").num_columns(3).min_col_width(0.0).min_row_height(4.0 * GRID).spacing([5.0 * GRID, GRID]).show(ui, |ui| {
        ui.label(theme::caption("Pin"));
        for (slot, name) in [&pins.board, &pins.partner] {
            // Names of boards are long: the slot heads the column.
            ui.label(theme::caption(slot.title())).on_hover_text(name);
        }
        ui.end_row();
        for pin in &pins.pins {
            let words = [pin.number.to_string(), said(&pin.board), said(&pin.partner)];
            for text in words {
                ui.label(if pin.meets() { theme::caption(text) } else { theme::strong(text) });
            }
            ui.end_row();
        }
    });
}

/// How a figure comes about; `elsewhere`: another page than that of costs is shown.
pub(super) fn working(ui: &mut Ui, document: &Document, working: &Working, elsewhere: bool, commands: &mut Commands) {
    let tokens = theme::tokens(ui);
    let frame = Frame::NONE.inner_margin(Margin::symmetric(14, 10)).corner_radius(4.0);
    ui.push_id(("working", document.followed), |ui| {
        ui.set_max_width(ui.available_width() - 2.0 * GRID);
        let shown = frame.fill(tokens.panel).stroke(Stroke::new(1.0, tokens.line)).show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 6.0;
            ui.label(theme::strong(&working.title));
            ui.horizontal(|ui| {
                if caption_word(ui, "Close the working").clicked() {
                    commands.push(Command::Follow(document.id, None));
                }
                if elsewhere && working.is_cost {
                    ui.add_space(2.0 * GRID);
                    if caption_word(ui, "To page Cost").on_hover_text("Shows the bill line by line.").clicked() {
                        commands.push(Command::Do(document.id, Action::Page(Page::Cost)));
                    }
                }
            });
            steps(ui, &working.because);
            if working.because.is_empty() {
                ui.add(Label::new(theme::caption("Not known: nothing is chosen yet from which it follows.")).wrap());
            }
        });
        // What was just asked for comes into view.
        let known = ui.data_mut(|data| data.get_temp_mut_or_default::<Option<&'static str>>(followed_id()).take());
        if known != document.followed {
            shown.response.scroll_to_me(Some(Align::Min));
        }
        ui.data_mut(|data| data.insert_temp(followed_id(), document.followed));
    });
    ui.add_space(3.0 * GRID);
}

/// Steps below one another; what one of them has told already is not told again.
pub(super) fn steps(ui: &mut Ui, reasons: &[Arc<Because>]) {
    let mut told = Vec::new();
    for (at, step) in reasons.iter().enumerate() {
        because(ui, step, ui.scope_id().with(at), 0, &mut told);
    }
}

/// What the pilot notices, and what the finding rests on, step by step.
fn argument(ui: &mut Ui, document: &Document, card: &Card, commands: &mut Commands) {
    if !card.costs.is_empty() {
        ui.add(Label::new(theme::caption(card.costs)).wrap());
    }
    steps(ui, &card.because);
    ui.horizontal_wrapped(|ui| {
        if caption_word(ui, &format!("Rule {}", card.rule)).on_hover_text("Shows the rule in the help.").clicked() {
            commands.push(Command::Help(Help::on(card.rule)));
        }
        if caption_word(ui, "Graph").on_hover_text("Shows the graph with the path of this rule lit.").clicked() {
            commands.push(Command::Graph(document.id, Some(GraphLook::on(card.rule))));
        }
        if !card.source.is_empty() && !card.because.is_empty() {
            ui.add(Label::new(theme::caption(card.source)).wrap());
        }
    });
}

/// A sentence behind its mark; what it rests on opens on demand.
pub(super) fn line(ui: &mut Ui, document: &Document, card: &Card, commands: &mut Commands) {
    ui.push_id(&card.key, |ui| {
        ui.horizontal_top(|ui| {
            mark::mark(ui, card.status);
            ui.vertical(|ui| {
                ui.spacing_mut().item_spacing.y = 2.0;
                ui.add(Label::new(&card.sentence).wrap());
                let opened = ui.horizontal_wrapped(|ui| {
                    let open = !card.because.is_empty() && toggle(ui, ui.scope_id().with("why"), "Why");
                    if card.status != Status::Fits {
                        ui.add_space(GRID);
                        changes(ui, document, card, false, commands);
                    }
                    open
                });
                if opened.inner {
                    argument(ui, document, card, commands);
                }
            });
        });
    });
    ui.add_space(2.0 * GRID);
}

/// A sentence without a mark; what it rests on opens on demand.
pub(super) fn remark(ui: &mut Ui, document: &Document, card: &Card, commands: &mut Commands) {
    ui.push_id(&card.key, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        ui.add(Label::new(&card.sentence).wrap());
        for own in &card.own {
            ui.add(Label::new(theme::caption(own)).wrap());
        }
        if toggle(ui, ui.scope_id().with("why"), "Why") {
            argument(ui, document, card, commands);
        }
    });
    ui.add_space(2.0 * GRID);
}

/// A line that opens and closes what is below it. Says whether it is open.
pub(super) fn toggle(ui: &mut Ui, id: Id, text: &str) -> bool {
    toggle_from(ui, id, text, false)
}

/// The same, open or closed at first.
pub(super) fn toggle_from(ui: &mut Ui, id: Id, text: &str, at_first: bool) -> bool {
    let open = ui.data_mut(|data| *data.get_temp_mut_or(id, at_first));
    let sign = if open { "▾" } else { "›" };
    let accent = theme::tokens(ui).accent;
    let words = RichText::new(format!("{text} {sign}")).color(accent).font(theme::regular(CAPTION));
    if opener(ui, words, text, open).clicked() {
        ui.data_mut(|data| data.insert_temp(id, !open));
    }
    open
}

/// One step; its working and the steps below it open on demand.
///
/// `told` holds what stands open above: a derivation that is there already is referred to.
fn because(ui: &mut Ui, step: &Arc<Because>, id: Id, depth: usize, told: &mut Vec<Arc<Because>>) {
    let reason = reason(step);
    if !step.from.is_empty() && told.iter().any(|known| Arc::ptr_eq(known, step)) {
        below(ui, |ui| {
            ui.add(Label::new(theme::caption(format!("{}, as told above", reason.text))).wrap());
        });
        return;
    }
    let opens = depth < DEEPEST && !(step.from.is_empty() && reason.working.is_empty());
    let open = opens && ui.data_mut(|data| *data.get_temp_mut_or_default::<bool>(id));
    let response = if opens {
        let response = step_line(ui, &reason.text, open);
        if response.clicked() {
            ui.data_mut(|data| data.insert_temp(id, !open));
        }
        response
    } else {
        below(ui, |ui| ui.add(Label::new(theme::caption(&reason.text)).wrap())).inner
    };
    if response.hovered() || response.has_focus() {
        ui.data_mut(|data| data.insert_temp(lit_id(), Arc::clone(step)));
    }
    if open {
        told.push(Arc::clone(step));
        below(ui, |ui| {
            if !reason.working.is_empty() {
                ui.add(Label::new(theme::caption(&reason.working)).wrap());
            }
            for (at, step) in step.from.iter().enumerate() {
                because(ui, step, id.with(at), depth + 1, told);
            }
        });
    }
}

/// What stands one step in.
fn below<R>(ui: &mut Ui, content: impl FnOnce(&mut Ui) -> R) -> InnerResponse<R> {
    Frame::NONE.inner_margin(Margin { left: 12, ..Margin::ZERO }).show(ui, content)
}

fn followed_id() -> Id {
    Id::unique("figure followed")
}

/// Forgets which figure was in view, while none is followed.
pub(super) fn forget_followed(ui: &Ui) {
    ui.data_mut(|data| data.remove::<Option<&'static str>>(followed_id()));
}

fn lit_id() -> Id {
    Id::unique("step told of")
}

/// The step under the mouse or in focus, for the graph.
pub(super) fn lit_step(ui: &Ui) -> Option<Arc<Because>> {
    ui.data(|data| data.get_temp(lit_id()))
}

/// The slots of the parts that this step rests on, for the drawing.
pub(super) fn lit(ui: &Ui) -> BTreeSet<Slot> {
    lit_step(ui).as_ref().map(slots_told).unwrap_or_default()
}

/// Lights nothing, before a frame is drawn.
pub(super) fn forget_lit(ui: &Ui) {
    ui.data_mut(|data| data.remove::<Arc<Because>>(lit_id()));
}

/// A line that can be opened: the sign in the accent, the words as captions are.
fn step_line(ui: &mut Ui, text: &str, open: bool) -> egui::Response {
    let tokens = theme::tokens(ui);
    let mut job = LayoutJob::default();
    let format = |tone| TextFormat::simple(theme::regular(CAPTION), tone);
    job.append(if open { "▾ " } else { "› " }, 0.0, format(tokens.accent));
    job.append(text, 0.0, format(tokens.soft));
    opener(ui, job, text, open)
}

/// The slots in which a change helps, the part in the way first.
fn changes(ui: &mut Ui, document: &Document, card: &Card, grave: bool, commands: &mut Commands) {
    for (at, slot) in card.slots.iter().enumerate() {
        let verb = if card.vacant { "Choose" } else { "Change" };
        let text = format!("{verb} {}", lower_first(slot.title()));
        let response = if grave && at == 0 && !card.vacant { strong_word(ui, &text) } else { word(ui, &text) };
        if response.clicked() {
            commands.push(Command::Pick(document.id, Some(document.first_place(*slot))));
        }
        ui.add_space(GRID);
    }
}
