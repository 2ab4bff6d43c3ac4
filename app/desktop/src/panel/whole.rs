//! What is said of the craft as a whole, while no part is being chosen: mass, limit, packs, spares.

use egui::{Label, Ui};
use propwright_schema::{build_list::Spare, slot::Slot};

use super::{
    Commands, details,
    field::{self, FIGURE, Shape},
    word,
};
use crate::{
    command::Command,
    edit::Edit,
    input::Input,
    state::{App, Document},
    theme::{self, GRID},
};

pub(super) fn show(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    field::section(ui, "The craft as a whole", |ui| {
        ui.spacing_mut().item_spacing.y = 3.0;
        field::figure(ui, document, "Weighed", &Input::Weighed, commands);
        field::figure(ui, document, "Output limit", &Input::OutputLimit, commands);
        if document.build.fitted(Slot::Battery).map(|(_, fitted)| fitted.count).sum::<u32>() > 1 || document.build.packs.is_some()
        {
            details::packs(ui, document, commands);
        }
    });
    field::section(ui, "Spares", |ui| {
        if document.build.spares.is_empty() {
            let said = "None. How many of a part are bought as spares is said where the part is chosen.";
            ui.add(Label::new(theme::caption(said)).wrap());
        }
        for spare in &document.build.spares {
            line(ui, app, document, spare, commands);
        }
    });
}

fn line(ui: &mut Ui, app: &App, document: &Document, spare: &Spare, commands: &mut Commands) {
    let part = app.catalogue.part(&spare.part).map_or(spare.part.as_str(), |part| &part.name);
    let name = if spare.arm { format!("Arms of {part}") } else { part.to_owned() };
    let input = Input::Spare { part: spare.part.clone(), arm: spare.arm };
    ui.horizontal(|ui| {
        let shape = Shape { width: FIGURE * 0.7, rows: 1, hint: "0" };
        let field = field::text(ui, document, &input, shape, commands);
        let label = ui.add(Label::new(&name).truncate()).on_hover_text(&name);
        field.labelled_by(label.id);
        ui.add_space(2.0 * GRID);
        if word(ui, "No spare").on_hover_text(format!("Buys no spare {name}.")).clicked() {
            let edit = Edit::Spare { part: spare.part.clone(), arm: spare.arm, count: 0 };
            commands.push(Command::Edit(document.id, edit));
        }
    });
    field::problem(ui, document, &input);
}
