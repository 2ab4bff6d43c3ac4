//! Flight times of the stated mixes on one scale.

use egui::{Align, Layout, Ui, vec2};

use super::super::Commands;
use crate::{
    state::Document,
    theme::{self, GRID},
    view::Time,
    widget::{Span, band_bar::band_bar},
};

/// Widths of the name, of the mix, and of the figure.
const COLUMNS: [f32; 3] = [16.0 * GRID, 46.0 * GRID, 40.0 * GRID];
const ROW: f32 = 5.5 * GRID;

pub(super) fn show(ui: &mut Ui, document: &Document, _commands: &mut Commands) {
    let times = &document.bench.flight.times;
    if times.is_empty() {
        return;
    }
    ui.add_space(3.0 * GRID);
    let longest = times.iter().map(|time| time.span.high).fold(1.0, f64::max);
    for time in times {
        row(ui, time, longest);
    }
}

fn row(ui: &mut Ui, time: &Time, longest: f64) {
    let [name, mix, figure] = COLUMNS;
    let between = 3.0 * ui.spacing().item_spacing.x;
    let bar = (ui.available_width() - name - mix - figure - between).max(8.0 * GRID);
    ui.horizontal(|ui| {
        cell(ui, name, |ui| {
            ui.label(theme::strong(time.name));
        });
        cell(ui, mix, |ui| {
            ui.label(theme::caption(""));
        });
        let span = Span { ..time.span };
        band_bar(ui, span, Some((0.0, longest)), bar, &format!("{} flight time: {}", time.name, time.words));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| ui.label(&time.words));
    });
}

fn cell(ui: &mut Ui, width: f32, add: impl FnOnce(&mut Ui)) {
    ui.allocate_ui_with_layout(vec2(width, ROW), Layout::left_to_right(Align::Center), |ui| {
        ui.set_min_width(width);
        add(ui);
    });
}
