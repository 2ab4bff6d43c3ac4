//! What the craft is for: purpose, pilot, the day, and what that asks of the craft.

use egui::{Grid, Label, Margin, ScrollArea, Ui};
use propwright_schema::{
    build_list::{Place, Purpose, Use},
    value::{Describe, Record, Value},
};

use super::{Commands, field, finding};
use crate::{
    command::Command,
    edit::Edit,
    input::Input,
    state::{App, Document},
    theme::{self, GRID},
    view,
};

/// Width of a choice, in points.
const CHOICE: f32 = 50.0 * GRID;

pub(super) fn show(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    egui::Frame::NONE.inner_margin(Margin { left: 20, right: 4, top: 12, bottom: 8 }).show(ui, |ui| {
        ui.label(theme::title("What it is for"));
        if let Some(kind) = &document.bench.asked.kind {
            ui.add(Label::new(theme::caption(kind)).wrap());
        }
        ui.add_space(2.0 * GRID);
        ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
            ui.set_max_width(ui.available_width() - 4.0 * GRID);
            ui.spacing_mut().item_spacing.y = 3.0;
            purpose(ui, document, commands);
            people(ui, document, commands);
            asked(ui, app, document, commands);
            field::follow_focus(ui);
        });
    });
}

fn purpose(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    field::words(ui, document, "Name", &Input::Name, 1, commands);
    words::<Use>(ui, document, ("Use", "usage"), |usage| (usage.word(), view::made_for(usage)), Use::ALL, commands);
    words::<Place>(ui, document, ("Place", "place"), |place| (place.word(), between(place)), Place::ALL, commands);
    flag(ui, document, "indoors", "Indoors", commands);
    flag(ui, document, "overlay_wanted", "Battery figures in the picture", commands);
    flag(ui, document, "returns_home", "Flies home by itself when the link is lost", commands);
    for (name, field) in [
        ("Budget", "budget"),
        ("Payload", "payload_g"),
        ("Distance to fly", "path_km"),
        ("Calm flight", "calm_min"),
        ("Full throttle", "burst_s"),
    ] {
        field::figure(ui, document, name, &Input::Purpose(field), commands);
    }
    field::words(ui, document, "Notes", &Input::Note, 3, commands);
}

fn people(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    field::section(ui, "Pilot", |ui| {
        for (name, field) in [("In a simulator", "simulator_h"), ("In the air", "flown_h")] {
            field::figure(ui, document, name, &Input::Pilot(field), commands);
        }
    });
    field::section(ui, "The day", |ui| {
        for (name, field) in [("Altitude", "altitude_m"), ("Temperature", "temperature_c"), ("Mean wind", "wind_ms")] {
            field::figure(ui, document, name, &Input::Conditions(field), commands);
        }
    });
}

/// What a place means for the radio.
const fn between(place: Place) -> &'static str {
    match place {
        Place::Open => "nothing stands between you and the craft",
        Place::Trees => "trees stand between",
        Place::Walls => "walls stand between: a hall, a house, among houses",
    }
}

/// The help text of a field of the purpose.
fn about(field: &str) -> &'static str {
    Purpose::FIELDS.iter().find(|known| known.name == field).map_or("", |known| known.about.trim())
}

/// Gives a field of the purpose a value.
fn set(document: &Document, field: &str, value: Option<&Value>, commands: &mut Commands) {
    let mut purpose = document.build.purpose.clone();
    if purpose.set(field, value) {
        commands.push(Command::Edit(document.id, Edit::Purpose(Box::new(purpose))));
    }
}

/// A choice of one word of a closed list.
fn words<W: Copy + Describe>(
    ui: &mut Ui,
    document: &Document,
    (name, field): (&str, &'static str),
    told: fn(W) -> (&'static str, &'static str),
    all: &[W],
    commands: &mut Commands,
) {
    let held = document.build.purpose.get(field);
    let now = held.as_ref().and_then(Value::word).unwrap_or("not said");
    let offers = std::iter::once(("not said", "")).chain(all.iter().map(|one| told(*one)));
    let chosen = field::row(ui, name, about(field), |ui, label| field::choice(ui, field, label, CHOICE, now, offers));
    if let Some(chosen) = chosen {
        let value = chosen.checked_sub(1).and_then(|at| all.get(at)).map(Describe::value);
        set(document, field, value.as_ref(), commands);
    }
}

fn flag(ui: &mut Ui, document: &Document, field: &'static str, name: &str, commands: &mut Commands) {
    let mut now = document.build.purpose.get(field).and_then(|value| value.flag()).unwrap_or_default();
    field::indented(ui, |ui| {
        if ui.checkbox(&mut now, name).on_hover_text(about(field)).changed() {
            set(document, field, Some(&Value::Flag(now)), commands);
        }
    });
}

/// What hangs on all this, and what of it the craft meets.
fn asked(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    let asked = &document.bench.asked;
    field::section(ui, "What that asks for", |ui| {
        let [mismatch, tight, unstated, fits] = asked.counts;
        let open = [(mismatch, "not met"), (tight, "tight or against advice"), (unstated, "not known"), (fits, "met")];
        let said = open.iter().filter(|(count, _)| *count > 0).map(|(count, word)| format!("{count} {word}"));
        let said = said.collect::<Vec<_>>().join(", ");
        let said = if said.is_empty() { "Nothing that the parts chosen so far could meet or miss.".to_owned() } else { said };
        ui.add(Label::new(theme::caption(said)).wrap());
        ui.add_space(GRID);
        for card in &asked.cards {
            finding::line(ui, document, card, commands);
        }
        thresholds(ui, app, document);
    });
}

fn thresholds(ui: &mut Ui, app: &App, document: &Document) {
    let thresholds = view::thresholds(document, &app.policy);
    if thresholds.is_empty() {
        ui.add(Label::new(theme::caption("Say use and place: thresholds of thrust, duty, bursts and radio go by them.")).wrap());
        return;
    }
    if !finding::toggle_from(ui, ui.scope_id().with("thresholds"), "Thresholds of this use and place", true) {
        return;
    }
    Grid::new("thresholds").num_columns(3).spacing([3.0 * GRID, GRID]).show(ui, |ui| {
        for head in ["", "tight from", "mismatch from"] {
            ui.label(theme::caption(head));
        }
        ui.end_row();
        for threshold in thresholds {
            let width = ui.available_width() - 40.0 * GRID;
            ui.scope(|ui| {
                ui.set_max_width(width.max(30.0 * GRID));
                ui.add(Label::new(&threshold.about).wrap()).on_hover_text(&threshold.source);
            });
            ui.label(&threshold.tight);
            ui.label(&threshold.mismatch);
            ui.end_row();
        }
    });
}
