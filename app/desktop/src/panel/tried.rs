//! Says over the drawing that what is shown is on trial, and how to keep it or take it off.

use egui::{Align, Frame, Layout, Margin, Ui};

use super::{Commands, strong_word, word};
use crate::{
    command::{Choosing, Command},
    state::{Document, Tried},
    theme::{self, GRID},
};

pub(super) fn show(ui: &mut Ui, document: &Document, tried: &Tried, commands: &mut Commands) {
    let tokens = theme::tokens(ui);
    let margin = Margin { left: 12, right: 12, top: 8, bottom: 8 };
    Frame::NONE.fill(tokens.fill).inner_margin(margin).corner_radius(4.0).show(ui, |ui| {
        ui.with_layout(Layout::top_down(Align::Min), |ui| {
            let waiting = if tried.report.is_none() { ", working…" } else { "" };
            ui.label(theme::strong(format!("On trial: {}{waiting}", tried.name)));
            ui.horizontal_wrapped(|ui| {
                ui.label(theme::caption("Drawing, list and ledger show the craft with it."));
                if strong_word(ui, "Keep it").on_hover_text("Makes it the list; one step of undo takes it back.").clicked() {
                    commands.push(Command::Choosing(document.id, Choosing::Keep));
                }
                ui.add_space(2.0 * GRID);
                if word(ui, "Take it off").on_hover_text("Shows the list as it is (Ctrl T).").clicked() {
                    commands.push(Command::Choosing(document.id, Choosing::TakeOff));
                }
            });
        });
    });
    ui.add_space(2.0 * GRID);
}
