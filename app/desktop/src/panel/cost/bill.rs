//! The bill: what is bought and drawn from the shelf, spares, shipping and taxes, what is left to pay.

use egui::{Align, Label, Layout, RichText, Ui};
use propwright_engine::working;

use super::{apart, charges, spares, sum, told};
use crate::{
    command::Command,
    input::Input,
    panel::{Commands, field, finding, followed_title, opening, word},
    state::Document,
    theme::{self, GRID},
    view::{BillRow, Mark},
};

const BUDGET: Input = Input::Purpose("budget");

pub(super) fn show(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let bill = &document.bench.bill;
    head(ui, document, commands);
    for group in &bill.groups {
        ui.add_space(2.0 * GRID);
        ui.label(theme::caption(group.title));
        for row in &group.rows {
            line(ui, document, row, commands);
        }
    }
    if !bill.rest.is_empty() {
        ui.add_space(2.0 * GRID);
        told(ui, "Left in the packs, for the shelf", &bill.rest);
    }
    apart(ui);
    spares::show(ui, document, commands);
    apart(ui);
    charges::show(ui, document, commands);
    apart(ui);
    sum(ui, theme::title("Left to pay"), theme::title(&bill.total));
}

fn head(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let bill = &document.bench.bill;
    ui.horizontal(|ui| {
        ui.label(theme::title("Left to pay"));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            followed_title(ui, document, working::COST, &bill.total, commands);
        });
    });
    for said in &bill.rates {
        ui.add(Label::new(theme::caption(said)).wrap());
    }
    if !bill.unpriced.is_empty() {
        ui.add(Label::new(format!("Without a price, and not in the sum: {}.", bill.unpriced)).wrap());
    }
    ui.horizontal(|ui| {
        ui.label(theme::caption("Budget"));
        let shape = field::Shape { width: 24.0 * GRID, rows: 1, hint: "not said" };
        let response = field::text(ui, document, &BUDGET, shape, commands);
        ui.ctx().accesskit_node_builder(response.id, |node| node.set_label("Budget"));
        let _ = response.on_hover_text("The most that you want to pay for all of it, such as 300 EUR.");
    });
    if let Some(budget) = &bill.budget {
        ui.add(Label::new(budget).wrap());
    }
    field::problem(ui, document, &BUDGET);
}

fn line(ui: &mut Ui, document: &Document, row: &BillRow, commands: &mut Commands) {
    ui.add_space(GRID);
    let id = ui.scope_id().with(("price", row.place.map(|place| place.line), row.spare));
    let opened = ui.horizontal(|ui| {
        match row.place {
            Some(place) => {
                if word(ui, &row.name).on_hover_text("Shows what could take its place.").clicked() {
                    commands.push(Command::Pick(document.id, Some(place)));
                }
            }
            None => {
                ui.label(&row.name);
            }
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if row.because.is_some() {
                return opening(ui, id, &row.price, &format!("How the price of {} comes about", row.name));
            }
            let price = RichText::new(&row.price);
            ui.label(if row.mark == Mark::Owned { price.weak() } else { price });
            false
        })
        .inner
    });
    ui.spacing_mut().item_spacing.y = 2.0;
    if !row.how.is_empty() {
        ui.add(Label::new(theme::caption(&row.how)).wrap());
    }
    if let Some(because) = row.because.as_ref().filter(|_| opened.inner) {
        finding::steps(ui, std::slice::from_ref(because));
    }
    if let Some(link) = &row.link {
        ui.add(Label::new(theme::caption(link)).wrap().selectable(true));
    }
}
