//! Kit or separate: an answer, bars on one scale, a table.

use egui::{Label, RichText, Ui};

use super::{apart, told};
use crate::{
    command::Command,
    money::Money,
    panel::{Commands, opener, word},
    theme::{self, GRID},
    view::{Costing, KitView},
    widget::stacked_bar::{Share, stacked_bar},
};

pub(super) fn show(ui: &mut Ui, costing: &Costing, commands: &mut Commands) {
    let Costing::Kits(kits) = costing else { return };
    if kits.is_empty() {
        ui.label("The catalogue holds no kit.");
        return;
    }
    ui.label(theme::caption(
        "Each box of the catalogue against the same parts one by one, with all else that is needed to fly. Hours \
         of assembly and warranties are not counted.",
    ));
    for (at, kit) in kits.iter().enumerate() {
        if at > 0 {
            apart(ui);
        } else {
            ui.add_space(2.0 * GRID);
        }
        one(ui, kit, at == 0 && kit.goes, commands);
    }
}

fn one(ui: &mut Ui, kit: &KitView, first: bool, commands: &mut Commands) {
    let id = ui.scope_id().with(("kit", &kit.name));
    let mut open = ui.data(|data| data.get_temp(id)).unwrap_or(first);
    let words = RichText::new(&kit.name).font(theme::bold(theme::TITLE)).color(theme::tokens(ui).accent);
    if opener(ui, words, &kit.name, open).clicked() {
        open = !open;
        ui.data_mut(|data| data.insert_temp(id, open));
    }
    ui.label(theme::caption(&kit.price));
    ui.add(Label::new(theme::sentence(&kit.answer)).wrap());
    if !open {
        return;
    }
    ui.add_space(2.0 * GRID);
    let whole = kit.bars.iter().map(|bar| bar.segments.iter().map(|segment| segment.length).sum()).fold(0.0, f64::max);
    for bar in &kit.bars {
        let shares = bar.segments.iter().map(|segment| Share {
            words: format!("{} {}", segment.words, segment.amount),
            length: segment.length,
            solid: segment.of_kit,
        });
        stacked_bar(ui, bar.title, &bar.total, &shares.collect::<Vec<_>>(), whole);
    }
    if kit.goes && kit.bars.is_empty() {
        ui.label(theme::caption("Not drawn: the amounts are of several currencies. Give a rate under Shelf and rates."));
    }
    if let Some(said) = &kit.break_even {
        ui.add(Label::new(said).wrap());
    }
    if kit.goes {
        ui.add_space(2.0 * GRID);
        table(ui, kit);
        ui.add_space(GRID);
        ui.add(Label::new(&kit.capability).wrap());
    }
    let about = "All that lies in the box goes on your shelf as new, and bills draw from it. Ctrl Z takes it back.";
    if word(ui, "I have bought it").on_hover_text(about).clicked() {
        commands.push(Command::Money(Money::Bought(kit.id.clone())));
    }
}

fn table(ui: &mut Ui, kit: &KitView) {
    for (caption, words) in &kit.holds {
        told(ui, caption, words);
    }
    ui.add_space(2.0 * GRID);
    egui::Grid::new(("figures", &kit.name)).num_columns(4).spacing([3.0 * GRID, GRID]).show(ui, |ui| {
        for head in ["", "With the kit's parts", "The list as it stands", ""] {
            ui.label(theme::caption(head));
        }
        ui.end_row();
        for (title, with, listed, against) in &kit.rows {
            ui.label(title);
            ui.label(with);
            ui.label(listed);
            ui.label(theme::caption(*against));
            ui.end_row();
        }
    });
}
