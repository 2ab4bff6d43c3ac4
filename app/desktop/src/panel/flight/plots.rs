//! The curves in two columns, and beside the last what ends the way out.

use egui::{Align, Layout, Ui, vec2};
use propwright_paper::plot::Plot;

use super::super::{Commands, followed};
use crate::{
    state::Document,
    theme::{self, GRID},
    view::Barrier,
    widget::{
        band_bar::band_bar,
        flight_plot::{flight_plot, height},
    },
};

/// Least width of a column, and the space between two.
const NARROWEST: f32 = 64.0 * GRID;
const BETWEEN: f32 = 6.0 * GRID;
/// Height of a chart's field.
const FIELD: f32 = 30.0 * GRID;

/// What stands in one place of the columns.
enum Cell<'a> {
    Plot(&'a Plot, &'a str),
    Barriers,
}

impl Cell<'_> {
    fn height(&self) -> f32 {
        match self {
            Self::Plot(plot, _) => height(plot.lines.len(), FIELD),
            Self::Barriers => 0.0,
        }
    }
}

pub(super) fn show(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let flight = &document.bench.flight;
    let mut cells: Vec<Cell> = flight.plots.iter().map(|(plot, stated)| Cell::Plot(plot, stated)).collect();
    if !flight.barriers.is_empty() {
        cells.push(Cell::Barriers);
    }
    let whole = ui.available_width();
    let columns = if whole >= 2.0 * NARROWEST + BETWEEN { 2 } else { 1 };
    let width = if columns == 2 { (whole - BETWEEN) / 2.0 } else { whole };
    for row in cells.chunks(columns) {
        ui.add_space(5.0 * GRID);
        let height = row.iter().map(Cell::height).fold(0.0, f32::max);
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = BETWEEN;
            for cell in row {
                ui.allocate_ui_with_layout(vec2(width, height), Layout::top_down(Align::Min), |ui| {
                    ui.set_width(width);
                    one(ui, cell, document, vec2(width, height), commands);
                });
            }
        });
    }
    for words in &flight.lacking {
        ui.add_space(2.0 * GRID);
        ui.label(theme::caption(words));
    }
    if !flight.unmeasured.is_empty() {
        ui.add_space(4.0 * GRID);
        ui.label(&flight.unmeasured);
        ui.label(theme::caption(
            "The duty is what the controllers give, not the place of the stick: curve, idle and limit lie between.",
        ));
    }
}

fn one(ui: &mut Ui, cell: &Cell, document: &Document, size: egui::Vec2, commands: &mut Commands) {
    match cell {
        Cell::Plot(plot, stated) => {
            flight_plot(ui, size, plot);
            if !stated.is_empty() {
                ui.label(theme::caption(*stated));
            }
        }
        Cell::Barriers => barriers(ui, document, commands),
    }
}

/// What ends the way out, on one scale, and the wind in words.
fn barriers(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let flight = &document.bench.flight;
    ui.spacing_mut().item_spacing.x = 2.0 * GRID;
    ui.label(theme::strong("What ends the way out"));
    let spans = flight.barriers.iter().filter_map(|barrier| barrier.span);
    let farthest = spans.map(|span| span.high).fold(0.0, f64::max);
    for barrier in &flight.barriers {
        row(ui, document, barrier, farthest, commands);
    }
    ui.add_space(2.0 * GRID);
    ui.horizontal(|ui| {
        ui.label(theme::strong("Wind"));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            followed(ui, document, "wind-held", &flight.wind_held, commands);
        });
    });
    ui.label(&flight.wind);
}

fn row(ui: &mut Ui, document: &Document, barrier: &Barrier, farthest: f64, commands: &mut Commands) {
    let name = if barrier.first { theme::strong(barrier.name) } else { egui::RichText::new(barrier.name) };
    let remark = if barrier.first { ", comes first" } else { "" };
    ui.horizontal(|ui| {
        ui.label(name);
        if barrier.first {
            ui.label(theme::caption("first"));
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if barrier.worked {
                followed(ui, document, barrier.id, &barrier.words, commands);
            } else {
                ui.label(&barrier.words);
            }
        });
    });
    if let Some(span) = barrier.span {
        let spoken = format!("{}: {}{remark}", barrier.name, barrier.words);
        band_bar(ui, span, Some((0.0, farthest)), ui.available_width(), &spoken);
    }
}
