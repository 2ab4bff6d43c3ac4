//! Records within a record: serial ports, rails, motor places, rows of a thrust stand; a row each.

use egui::{Grid, ScrollArea, Ui};

use super::{
    super::{Commands, caption_word, field as fields},
    field::control,
};
use crate::{
    command::Command,
    run_command::entering::Enter,
    state::Entering,
    theme::{self, GRID},
    view::{Control, Line},
};

/// Width of a field in a table, in points.
const CELL: f32 = 24.0 * GRID;

/// A list of records as a table: a column a field, a row a record.
pub(super) fn list(ui: &mut Ui, entering: &Entering, line: &Line, items: &[Vec<Line>], commands: &mut Commands) {
    ui.add_space(GRID);
    ui.horizontal(|ui| {
        ui.label(&line.name).on_hover_text(&line.help);
        let name = format!("Add one: {}", line.name);
        if caption_word(ui, &name).on_hover_text(&line.help).clicked() {
            commands.push(Command::Enter(Enter::Add(line.spot)));
        }
    });
    if let Some(remark) = &line.remark {
        fields::below(ui, remark.as_str());
    }
    let Some(first) = items.first() else { return };
    ScrollArea::horizontal().id_salt(("records", line.spot)).show(ui, |ui| {
        Grid::new(("records", line.spot)).num_columns(first.len() + 1).spacing([6.0, 3.0]).show(ui, |ui| {
            for column in first {
                let unit = column.behind.split("   ").next().unwrap_or_default();
                let unit = if unit.is_empty() || unit.contains(' ') { String::new() } else { format!(", {unit}") };
                ui.label(theme::caption(format!("{}{unit}", column.name))).on_hover_text(&column.help);
            }
            ui.end_row();
            for (at, cells) in items.iter().enumerate() {
                for cell in cells {
                    self::cell(ui, entering, cell, &format!("{} {}: {}", line.name, at + 1, cell.name), commands);
                }
                let name = format!("Take out: {} {}", line.name, at + 1);
                if super::super::small_word(ui, "take out", &name).clicked() {
                    commands.push(Command::Enter(Enter::Remove(line.spot, at)));
                }
                ui.end_row();
            }
        });
    });
    for remark in items.iter().flatten().filter_map(|cell| cell.remark.as_ref()) {
        fields::below(ui, remark.as_str());
    }
}

/// A cell; what is a table itself is entered as text parted by commas where that is possible.
fn cell(ui: &mut Ui, entering: &Entering, cell: &Line, name: &str, commands: &mut Commands) {
    match cell.control {
        Control::Records(_) | Control::Record(_) => {
            ui.label(theme::caption("in the file"));
        }
        _ => {
            let response = control(ui, entering, cell, CELL, name, commands);
            ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(name));
            response.on_hover_text(&cell.help);
        }
    }
}

/// One record: its fields in rows under its name.
pub(super) fn one(ui: &mut Ui, entering: &Entering, line: &Line, lines: &[Line], commands: &mut Commands) {
    ui.add_space(GRID);
    ui.label(&line.name).on_hover_text(&line.help);
    ui.indent(("record", line.spot), |ui| {
        for inner in lines {
            super::field::row(ui, entering, inner, commands);
        }
    });
}
