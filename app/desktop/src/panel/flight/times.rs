//! Flight times of the stated mixes on one scale; calm and hard flight are mixed here.

use egui::{Align, Layout, Ui, vec2};
use propwright_schema::{build_list::Conditions, quantity::Percent};

use super::{
    super::{Commands, followed},
    conditions::{Dragged, tell},
};
use crate::{
    edit::Edit,
    state::Document,
    theme::{self, GRID},
    view::{Made, Time},
    widget::band_bar::band_bar,
};

/// Widths of the name, of the mix, and of the figure.
const COLUMNS: [f32; 3] = [16.0 * GRID, 54.0 * GRID, 36.0 * GRID];
const ROW: f32 = 6.0 * GRID;
/// A band's bar is not drawn shorter; then the mix stands below.
const BAR: f32 = 8.0 * GRID;
/// What can be typed as a power, in per cent of that of hover.
const POWER: [f64; 2] = [80.0, 400.0];

pub(super) fn show(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let times = &document.bench.flight.times;
    if times.is_empty() {
        return;
    }
    ui.add_space(3.0 * GRID);
    ui.spacing_mut().item_spacing.y = 0.5 * GRID;
    let longest = times.iter().map(|time| time.span.high).fold(1.0, f64::max);
    for time in times {
        row(ui, document, time, longest, commands);
    }
    ui.spacing_mut().item_spacing.y = GRID;
}

fn row(ui: &mut Ui, document: &Document, time: &Time, longest: f64, commands: &mut Commands) {
    let [name, made, figure] = COLUMNS;
    let between = 3.0 * ui.spacing().item_spacing.x;
    let room = ui.available_width();
    let spoken = format!("{} flight time: {}", time.name, time.words);
    let broad = room >= name + made + figure + between + BAR;
    let taken = if broad { name + made } else { name };
    ui.horizontal(|ui| {
        cell(ui, name, |ui| {
            ui.label(theme::strong(time.name));
        });
        if broad {
            cell(ui, made, |ui| mixed(ui, document, &time.made, commands));
        }
        let bar = (room - taken - figure - between).max(BAR);
        band_bar(ui, time.span, Some((0.0, longest)), bar, &spoken);
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            followed(ui, document, time.id, &time.words, commands);
        });
    });
    if !broad {
        ui.horizontal(|ui| mixed(ui, document, &time.made, commands));
    }
}

fn cell(ui: &mut Ui, width: f32, add: impl FnOnce(&mut Ui)) {
    ui.allocate_ui_with_layout(vec2(width, ROW), Layout::left_to_right(Align::Center), |ui| {
        ui.set_min_width(width);
        add(ui);
    });
}

/// What a time is made of, with figures that can be dragged.
fn mixed(ui: &mut Ui, document: &Document, made: &Made, commands: &mut Commands) {
    ui.spacing_mut().item_spacing.x = GRID;
    ui.spacing_mut().interact_size = vec2(9.0 * GRID, 5.0 * GRID);
    ui.spacing_mut().button_padding = vec2(GRID, 0.0);
    match made {
        Made::Words(words) => {
            ui.label(theme::caption(words));
        }
        Made::Speed(words) => followed(ui, document, "longest-speed", words, commands),
        Made::Calm(power) => {
            let set = |next: &mut Conditions, percent| next.calm_power_percent = percent;
            share(ui, document, ("Calm flight, power", *power, POWER), set, commands);
            ui.label(theme::caption("of hover power"));
        }
        Made::Hard(full, rest) => {
            let set = |next: &mut Conditions, percent| next.hard_full_percent = percent;
            share(ui, document, ("Hard flight, full throttle", *full, [0.0, 100.0]), set, commands);
            ui.label(theme::caption("full, rest"));
            let set = |next: &mut Conditions, percent| next.hard_power_percent = percent;
            share(ui, document, ("Hard flight, power of the rest", *rest, POWER), set, commands);
            ui.label(theme::caption("of hover"));
        }
    }
}

fn share(
    ui: &mut Ui,
    document: &Document,
    (name, now, ends): (&'static str, f64, [f64; 2]),
    set: fn(&mut Conditions, Option<Percent>),
    commands: &mut Commands,
) {
    let dragged = Dragged { name, unit: " %", now, ends, plausible: ends, step: 1.0 };
    let (figure, let_go) = dragged.named_figure(ui);
    let edit = figure.map(|figure| {
        let mut next = document.build.conditions.clone();
        set(&mut next, Percent::from_decimal(figure).ok());
        Edit::Conditions(Box::new(next))
    });
    tell(commands, document.id, edit, let_go);
}
