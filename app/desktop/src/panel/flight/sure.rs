//! What makes each figure unsure, and what to measure.

use egui::{Align, Layout, Ui};

use super::super::{Commands, finding, followed};
use crate::{
    state::Document,
    theme::{self, GRID},
    view::Sure,
};

pub(super) fn show(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let flight = &document.bench.flight;
    if flight.sure.is_empty() {
        return;
    }
    ui.add_space(6.0 * GRID);
    ui.label(theme::title("What would narrow the figures"));
    ui.add_space(GRID);
    inputs(ui, &flight.deciding);
    if !flight.calibrated.is_empty() {
        ui.add_space(GRID);
        ui.label(&flight.calibrated);
    }
    ui.add_space(2.0 * GRID);
    for one in &flight.sure {
        row(ui, document, one, commands);
    }
    ui.add_space(4.0 * GRID);
}

/// A figure; opened, its inputs with what to measure.
fn row(ui: &mut Ui, document: &Document, sure: &Sure, commands: &mut Commands) {
    let id = ui.scope_id().with(("sure", &sure.title));
    let open = ui
        .horizontal(|ui| {
            let open = finding::toggle(ui, id, &sure.title);
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                followed(ui, document, sure.id, &sure.words, commands);
            });
            open
        })
        .inner;
    if open {
        ui.indent(id, |ui| {
            if !sure.modelled.is_empty() {
                ui.label(theme::caption(format!("without what was measured {}", sure.modelled)));
            }
            inputs(ui, &sure.inputs);
            if sure.inputs.is_empty() {
                ui.label(theme::caption("known as it stands"));
            }
        });
        ui.add_space(GRID);
    }
}

/// Inputs, the one that decides most first, each with its way to be known better.
fn inputs(ui: &mut Ui, inputs: &[(String, &'static str)]) {
    for (input, measure) in inputs {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 1.5 * GRID;
            ui.label(theme::caption(input));
            ui.label(*measure);
        });
    }
}
