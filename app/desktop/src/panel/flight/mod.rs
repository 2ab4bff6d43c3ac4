//! How the craft flies: conditions, times, curves, what ends the way out, and how sure all that is.

mod conditions;
mod plots;
mod sure;
mod times;

use egui::{Align, Layout, Margin, ScrollArea, Ui};

use super::{Commands, field, finding};
use crate::{
    state::Document,
    theme::{self, GRID},
};

pub(super) fn show(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let flight = &document.bench.flight;
    egui::Frame::NONE.inner_margin(Margin { left: 20, right: 4, top: 12, bottom: 8 }).show(ui, |ui| {
        head(ui, document);
        ui.add_space(2.0 * GRID);
        working(ui, document, commands);
        ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
            egui::Frame::NONE.inner_margin(Margin { left: 0, right: 16, top: 0, bottom: 0 }).show(ui, |ui| {
                conditions::show(ui, document, commands);
                if let Some(reason) = &flight.grounded {
                    ui.add_space(3.0 * GRID);
                    ui.label(theme::sentence(reason));
                }
                times::show(ui, document, commands);
                plots::show(ui, document, commands);
                sure::show(ui, document, commands);
            });
        });
    });
}

/// Share of the page that the working of a figure takes at most; the rest of it is scrolled to.
const WORKING: f32 = 0.5;

/// How the followed figure comes about, above what is scrolled.
fn working(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let Some(working) = &document.bench.working else { return };
    let most = WORKING * ui.available_height();
    ScrollArea::vertical().id_salt("working").max_height(most).auto_shrink([false, true]).show(ui, |ui| {
        finding::working(ui, document, working, true, commands);
        field::follow_focus(ui);
    });
}

fn head(ui: &mut Ui, document: &Document) {
    ui.horizontal(|ui| {
        ui.label(theme::title("How it flies"));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.add_space(4.0 * GRID);
            let settled = document.report().is_some_and(|report| document.is_current() && document.curves.are_of(report));
            let words = if settled || document.bench.failure.is_some() {
                "hover or arrow keys: the curves · press a figure: how it comes about"
            } else {
                "computing…"
            };
            ui.label(theme::caption(words));
        });
    });
}
