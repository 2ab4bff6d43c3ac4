//! Spares: the usual ones of the purpose, and the list's own.

use egui::{DragValue, Label, Popup, Ui};
use propwright_schema::build_list::Spare;

use crate::{
    command::Command,
    edit::Edit,
    panel::{Commands, word},
    state::Document,
    theme::{self, GRID},
};

pub(super) fn show(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let bill = &document.bench.bill;
    let spares = &document.build.spares;
    ui.label(theme::strong("Spares"));
    let mut edit = |spares: Vec<Spare>| commands.push(Command::Edit(document.id, Edit::Spares(spares)));
    for (at, spare) in spares.iter().enumerate() {
        let known = bill.could_be_spare.iter().find(|(known, _)| known.part == spare.part && known.arm == spare.arm);
        let name = known.map_or(spare.part.as_str(), |(_, name)| name.as_str());
        ui.horizontal(|ui| {
            let mut count = spare.count;
            let drag = ui.add(DragValue::new(&mut count).range(1..=200).speed(0.05));
            ui.ctx().accesskit_node_builder(drag.id, |node| node.set_label(format!("How many spares: {name}")));
            if count != spare.count {
                edit(with(spares, at, |spare| spare.count = count));
            }
            ui.label(name);
            if word(ui, "Leave out").on_hover_text(format!("Leaves {name} out of the spares.")).clicked() {
                edit(spares.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, spare)| spare.clone()).collect());
            }
        });
    }
    if !bill.usual.is_empty() && bill.usual != *spares {
        ui.add(Label::new(theme::caption(format!("Usual for this purpose: {}", bill.usual_words))).wrap());
    }
    ui.horizontal(|ui| {
        if !bill.usual.is_empty() && bill.usual != *spares && word(ui, "Take the usual spares").clicked() {
            edit(bill.usual.clone());
        }
        ui.add_space(GRID);
        let more = word(ui, "Add a spare…");
        Popup::menu(&more).accessible_name("Parts to have spare").show(|ui| {
            egui::ScrollArea::vertical().max_height(70.0 * GRID).show(ui, |ui| {
                for (spare, name) in &bill.could_be_spare {
                    if ui.button(name).clicked() {
                        edit(spares.iter().cloned().chain([spare.clone()]).collect());
                        ui.close();
                    }
                }
            });
        });
    });
}

fn with(spares: &[Spare], at: usize, change: impl FnOnce(&mut Spare)) -> Vec<Spare> {
    let mut spares = spares.to_vec();
    if let Some(spare) = spares.get_mut(at) {
        change(spare);
    }
    spares
}
