//! The parts in the order of assembly, along the left edge.

use egui::{Margin, ScrollArea, Ui};

use super::{
    Commands, caption_word, field,
    row::{Look, row},
    word,
};
use crate::{
    command::{Action, Command},
    state::{Document, Place},
    theme::{self, GRID},
    view::Row,
};

/// Height of a row, in points.
const ROW: f32 = 10.0 * GRID;

pub(super) fn show(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let parts = &document.bench.parts;
    egui::Frame::NONE.inner_margin(Margin { left: 8, right: 8, top: 16, bottom: 8 }).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 1.0;
        indented(ui, |ui| {
            ui.label(theme::caption("In the order one assembles it"));
        });
        if document.is_a_demo() {
            indented(ui, |ui| {
                ui.horizontal_wrapped(|ui| {
                    ui.label(theme::caption("A build of the demo, to look at."));
                    if caption_word(ui, "Begin your own").clicked() {
                        commands.push(Command::Do(document.id, Action::New));
                    }
                });
            });
        }
        ui.add_space(2.0 * GRID);
        ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
            for stranger in &parts.strangers {
                indented(ui, |ui| ui.label(stranger));
            }
            for shown in &parts.aboard {
                line(ui, document, shown, commands);
            }
            if let Some(allowance) = &parts.allowance {
                still(ui, "Wire, solder, print: an estimate", allowance);
            }
            if !parts.ground.is_empty() {
                ui.add_space(3.0 * GRID);
                indented(ui, |ui| {
                    ui.label(theme::caption("On the ground"));
                });
                ui.add_space(GRID);
            }
            for shown in &parts.ground {
                line(ui, document, shown, commands);
            }
            ui.add_space(2.0 * GRID);
            add(ui, document, commands);
            ui.add_space(2.0 * GRID);
            field::follow_focus(ui);
        });
    });
}

fn line(ui: &mut Ui, document: &Document, shown: &Row, commands: &mut Commands) {
    let look = Look {
        status: shown.status,
        caption: &shown.title,
        name: &shown.name,
        caption_below: false,
        figures: &[(&shown.mass, 0.0)],
        spare: 0.0,
        chosen: document.chosen == Some(shown.place),
        filled: shown.filled,
        spoken: shown.spoken(),
        wraps: true,
    };
    if row(ui, ROW, &look).on_hover_text(&shown.name).clicked() {
        commands.push(Command::Pick(document.id, Some(shown.place)));
    }
}

/// A row that stands for no part.
fn still(ui: &mut Ui, title: &str, mass: &str) {
    ui.add_space(GRID);
    egui::Frame::NONE.inner_margin(Margin { left: 34, right: 12, top: 2, bottom: 2 }).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.label(theme::caption(title));
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| ui.weak(mass));
        });
    });
}

fn add(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    egui::Frame::NONE.inner_margin(Margin { left: 34, right: 8, top: 0, bottom: 0 }).show(ui, |ui| {
        let response = word(ui, "Add a part…").on_hover_text("Fills a slot that is not in the list yet.");
        egui::Popup::menu(&response).accessible_name("Slots to add").show(|ui| {
            ScrollArea::vertical().max_height(90.0 * GRID).show(ui, |ui| {
                for slot in &document.bench.parts.more {
                    if ui.button(slot.title()).clicked() {
                        commands.push(Command::Pick(document.id, Some(Place { slot: *slot, line: None })));
                        ui.close();
                    }
                }
            });
        });
    });
}

fn indented<R>(ui: &mut Ui, content: impl FnOnce(&mut Ui) -> R) -> R {
    egui::Frame::NONE.inner_margin(Margin { left: 12, right: 8, top: 0, bottom: 0 }).show(ui, content).inner
}
