//! A table on its way into a catalogue: what its columns hold, what comes of every row, and what is there already.

use egui::{ComboBox, Label, Margin, ScrollArea, TextEdit, Ui};
use propwright_schema::{
    part::Role,
    table::{Imported, Same, columns},
};

use super::{Commands, field, strong_word, word};
use crate::{
    command::Command,
    entering::KIT,
    files,
    run_command::{
        deeds::Deed,
        importing::{RowsOf, Table},
    },
    state::{App, Importing, Taking},
    theme::{self, GRID},
};

/// Height of a row, in points.
const ROW: f32 = 5.0 * GRID;
/// Height of the list of columns, in points.
const COLUMNS: f32 = 60.0 * GRID;

pub(super) fn show(ui: &mut Ui, app: &App, importing: &Importing, commands: &mut Commands) {
    let name = importing.path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    ui.label(theme::title(format!("The table {name}")));
    ui.add_space(GRID);
    deeds(ui, app, importing, commands);
    if let Some(taking) = &app.taking {
        progress(ui, taking, commands);
    }
    for line in &importing.told {
        ui.add(Label::new(line).wrap());
    }
    ui.add_space(GRID);
    field::row(ui, "Catalogue", "The file of yours that takes the rows.", |ui, label| {
        let mut path = importing.into.clone();
        let entry = TextEdit::singleline(&mut path).desired_width(ui.available_width() - 4.0 * GRID).hint_text("parts.ron");
        if ui.add(entry.margin(Margin::symmetric(8, 3))).labelled_by(label).changed() {
            push(commands, Table::Into(path));
        }
    });
    head(ui, importing, commands);
    ui.add_space(2.0 * GRID);
    match (&importing.read, &importing.going) {
        (Some(read), _) => rows(ui, importing, read, commands),
        (None, Some(going)) => {
            let (rows, of) = (going.rows(), importing.sheet.rows());
            ui.horizontal(|ui| {
                ui.add(egui::ProgressBar::new(rows as f32 / of.max(1) as f32).desired_width(60.0 * GRID).desired_height(GRID));
                ui.label(theme::caption(format!("{rows} of {of} rows read")));
                if word(ui, "Stop").clicked() {
                    push(commands, Table::Stop);
                }
            });
            ui.ctx().request_repaint_after(std::time::Duration::from_millis(50));
        }
        (None, None) => {
            ui.horizontal(|ui| {
                ui.label("The rows are not read.");
                if word(ui, "Read them").clicked() {
                    push(commands, Table::Again);
                }
            });
        }
    }
}

fn push(commands: &mut Commands, table: Table) {
    commands.push(Command::Table(table));
}

fn deeds(ui: &mut Ui, app: &App, importing: &Importing, commands: &mut Commands) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0 * GRID;
        let is_in = |deed: &&Deed| Some(deed.at) == importing.taken;
        if app.deeds_past.iter().any(|deed| is_in(&deed)) {
            let last = app.deeds_past.last().is_some_and(|deed| is_in(&deed));
            if last && word(ui, "Take it back").on_hover_text("The catalogue becomes as it was before (Ctrl Z).").clicked() {
                commands.push(Command::TakeBack);
                push(commands, Table::Again);
            }
        } else if importing.read.is_some() && app.taking.is_none() {
            let about =
                "Writes the rows that can be used into the catalogue; the others are kept aside in a file beside the table.";
            if strong_word(ui, "Take the rows").on_hover_text(about).clicked() {
                push(commands, Table::Take);
            }
        }
        if word(ui, "Close").on_hover_text("Closes the table (Escape).").clicked() {
            push(commands, Table::Close);
        }
    });
}

/// How far the rows are on their way into the catalogue.
fn progress(ui: &mut Ui, taking: &Taking, commands: &mut Commands) {
    let done = taking.done();
    ui.horizontal(|ui| {
        let share = done as f32 / Taking::STEPS.len() as f32;
        ui.add(egui::ProgressBar::new(share).desired_width(60.0 * GRID).desired_height(GRID));
        ui.label(theme::caption(Taking::STEPS[done]));
        if done < 2 && word(ui, "Stop writing").on_hover_text("Nothing is written; the rows stay here.").clicked() {
            push(commands, Table::StopTaking);
        }
    });
    ui.ctx().request_repaint_after(std::time::Duration::from_millis(50));
}

/// What each column holds.
fn head(ui: &mut Ui, importing: &Importing, commands: &mut Commands) {
    let mapping = &importing.mapping;
    if !mapping.fields.iter().flatten().any(|field| field == "kind") {
        field::row(ui, "Rows are", "What the rows are, where no column says it.", |ui, label| {
            let now = mapping.kind.as_deref().unwrap_or("not said");
            let mut chosen = None;
            let combo = ComboBox::from_id_salt("kind of rows").selected_text(now).width(40.0 * GRID);
            let response = combo.show_ui(ui, |ui| {
                for kind in Role::WORDS.iter().chain(std::iter::once(&KIT)) {
                    if ui.selectable_label(now == *kind, *kind).clicked() {
                        chosen = Some((*kind).to_owned());
                    }
                }
            });
            response.response.labelled_by(label);
            if chosen.is_some() {
                push(commands, Table::Kind(chosen));
            }
        });
    }
    ui.add_space(GRID);
    ui.label(theme::strong("What the columns hold"));
    let fields = columns(mapping.kind.as_deref());
    ScrollArea::vertical().id_salt("columns").max_height(COLUMNS).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 3.0;
        for (at, title) in importing.sheet.head().iter().enumerate() {
            column(ui, importing, at, title, &fields, commands);
        }
    });
}

fn column(ui: &mut Ui, importing: &Importing, at: usize, title: &str, fields: &[&'static str], commands: &mut Commands) {
    const OUT: &str = "left out";
    let mapping = &importing.mapping;
    let now = mapping.fields.get(at).and_then(Option::as_deref);
    field::row(ui, title, title, |ui, label| {
        let mut chosen = None;
        let combo = ComboBox::from_id_salt(("column", at)).selected_text(now.unwrap_or(OUT)).width(44.0 * GRID);
        let response = combo.show_ui(ui, |ui| {
            if ui.selectable_label(now.is_none(), OUT).clicked() {
                chosen = Some(None);
            }
            for field in fields {
                if ui.selectable_label(now == Some(*field), *field).clicked() {
                    chosen = Some(Some((*field).to_owned()));
                }
            }
        });
        response.response.labelled_by(label);
        if let Some(field) = chosen {
            push(commands, Table::Column(at, field));
        }
        let mut unit = mapping.units.get(at).cloned().flatten().unwrap_or_default();
        let entry = TextEdit::singleline(&mut unit).desired_width(10.0 * GRID).hint_text("unit");
        let response = ui.add(entry.margin(Margin::symmetric(6, 3)));
        ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(format!("Unit of {title}")));
        if response.changed() {
            push(commands, Table::Unit(at, unit));
        }
        if let Some(sample) = importing.sheet.sample(at) {
            ui.add(Label::new(theme::caption(format!("such as {sample}"))).truncate());
        }
    });
}

fn rows(ui: &mut Ui, importing: &Importing, read: &Imported, commands: &mut Commands) {
    let (parts, kits) = (read.catalogue.parts.len(), read.catalogue.kits.len());
    ui.label(theme::strong(format!(
        "{parts} parts and {kits} kits · {} there already · {} rows refused",
        importing.same.len(),
        read.refused.len()
    )));
    ui.horizontal(|ui| {
        let mut only = importing.only_doubtful;
        if ui.checkbox(&mut only, "only what is refused or there already").changed() {
            push(commands, Table::OnlyDoubtful(only));
        }
        if !importing.same.is_empty() {
            let label = ui.label(theme::caption("What is there already:"));
            if let Some(same) = same(ui, "all", importing.choice, label.id) {
                push(commands, Table::Same(same));
            }
        }
    });
    let all = &importing.rows;
    ScrollArea::both().auto_shrink([false, false]).id_salt("rows").show_rows(ui, ROW, all.len(), |ui, range| {
        for row in all.get(range).unwrap_or_default() {
            ui.horizontal(|ui| {
                ui.set_min_height(ROW);
                ui.label(theme::caption(format!("line {}", row.line)));
                let id = if row.refused { theme::strong(&row.id) } else { egui::RichText::new(&row.id) };
                ui.label(id);
                if row.known {
                    let label = ui.label("");
                    if let Some(same) = same(ui, &row.id, importing.choice_of(&row.id), label.id) {
                        push(commands, Table::SameOf(row.id.clone(), same));
                    }
                }
                ui.label(theme::caption(&row.words)).on_hover_text(&row.words);
            });
        }
    });
}

/// What becomes of what is there already. Says what was chosen.
fn same(ui: &mut Ui, of: &str, now: Same, label: egui::Id) -> Option<Same> {
    let words = |same: Same| match same {
        Same::Mine => "mine stays",
        Same::Theirs => "the row takes its place",
        Same::Both => "both side by side",
    };
    let mut chosen = None;
    let response = ComboBox::from_id_salt(("same", of)).selected_text(words(now)).show_ui(ui, |ui| {
        for same in [Same::Mine, Same::Theirs, Same::Both] {
            if ui.selectable_label(now == same, words(same)).clicked() {
                chosen = Some(same);
            }
        }
    });
    let response = response.response.labelled_by(label);
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(format!("What becomes of {of}")));
    chosen
}

/// Where a table is named: the words beside the invitation to enter parts.
pub(super) fn invitation(ui: &mut Ui, app: &App, commands: &mut Commands) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0 * GRID;
        let about = "Reads parts from a spreadsheet (CSV): columns are guessed and can be changed, bad rows are kept aside.";
        if word(ui, "Read a table…").on_hover_text(about).clicked() {
            push(commands, Table::Browse);
        }
        let mut write = |words: &str, what: &str, file: &str, rows: RowsOf| {
            let about = format!("Writes {what} as {} for a spreadsheet.", files::name(&files::whole(file.as_ref())));
            if word(ui, words).on_hover_text(about).clicked() {
                push(commands, Table::Write(rows, file.into()));
            }
        };
        write("Write a table", "all parts in force", "parts.csv", RowsOf::Articles);
        if app.purse.stock.as_ref().is_some_and(|own| !own.content.items.is_empty()) {
            write("Write the shelf", "what lies on the shelf", "shelf.csv", RowsOf::Shelf);
        }
        if app.shown().is_some_and(|document| !document.build.stand.is_empty()) {
            write("Write the thrust stand", "the thrust stand of this list", "stand.csv", RowsOf::Stand);
        }
    });
    let name = "Path of a table";
    let id = egui::Id::unique("table path");
    let mut path = ui.data(|data| data.get_temp::<String>(id)).unwrap_or_default();
    let entry = TextEdit::singleline(&mut path).hint_text("/home/me/parts.csv").desired_width(70.0 * GRID);
    let response = ui.add(entry.margin(Margin::symmetric(8, 3)));
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(name));
    if response.changed() {
        ui.data_mut(|data| data.insert_temp(id, path.clone()));
    }
    let entered = response.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Enter));
    if entered && !path.trim().is_empty() {
        push(commands, Table::Read(path.trim().into()));
    }
    response.on_hover_text("A table dropped on the window is read as well.");
}
