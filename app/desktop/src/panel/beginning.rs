//! Where an empty build leads to: what it is for, and demo builds to begin from.

use egui::{Align, Label, Layout, Margin, RichText, ScrollArea, Ui};

use super::{Commands, field, word};
use crate::{
    command::Command,
    edit::Edit,
    state::{App, Document, Page},
    theme::{self, GRID},
    view::{self, Beginning},
};

pub(super) fn show(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    egui::Frame::NONE.inner_margin(Margin::symmetric(16, 8)).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 3.0;
        ui.label(theme::title("Where to begin"));
        ui.add_space(GRID);
        let place = if app.page == Page::Purpose { "at the right" } else { "on page Purpose" };
        let said = format!(
            "Say {place} what it is for, who flies it and what it may cost. Then take one of these as a start, or choose each part on \
             page Parts."
        );
        ui.add(Label::new(said).wrap());
        ui.add_space(2.0 * GRID);
        ScrollArea::vertical().auto_shrink([false, false]).id_salt("beginnings").show(ui, |ui| {
            offers(ui, app, document, commands);
            ui.add_space(2.0 * GRID);
            field::follow_focus(ui);
        });
    });
}

/// The demo builds, those that go with what was said first.
pub(super) fn offers(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    let said = "Builds of the demo catalogue; its parts and prices are invented. The price is that of all one needs to fly, radio, \
                goggles and charger too, bought part by part by somebody who owns nothing.";
    ui.add(Label::new(theme::caption(said)).wrap());
    for offered in view::beginnings(app, &document.build) {
        ui.add_space(2.0 * GRID);
        one(ui, document, &offered, commands);
    }
}

fn one(ui: &mut Ui, document: &Document, offered: &Beginning, commands: &mut Commands) {
    ui.horizontal(|ui| {
        if word(ui, &offered.name)
            .on_hover_text("Takes its parts; what you said of purpose, pilot and day is kept. Undo takes it back.")
            .clicked()
        {
            commands.push(Command::Edit(document.id, Edit::Begin(offered.file)));
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.add_space(3.0 * GRID);
            ui.label(RichText::new(&offered.price));
        });
    });
    ui.add(Label::new(theme::caption(&offered.words)).wrap());
    if !offered.kit.is_empty() {
        ui.add(Label::new(theme::caption(&offered.kit)).wrap());
    }
    if !offered.against.is_empty() {
        ui.add(Label::new(theme::caption(format!("Against it: {}.", offered.against.join(", ")))).wrap());
    }
}
