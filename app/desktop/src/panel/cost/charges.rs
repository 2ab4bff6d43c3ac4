//! Shipping by supplier, and taxes, fixed or in per cent of what they say.

use egui::{Align, ComboBox, Id, Label, Layout, Ui};
use propwright_schema::{
    build_list::{Charge, Tax, TaxBase},
    quantity::{Money, Percent},
};

use super::entry::{Shape, entry};
use crate::{
    command::Command,
    edit::Edit,
    panel::{Commands, finding, opening, word},
    state::Document,
    theme::{self, GRID},
    view::BillView,
};

pub(super) fn show(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    ui.label(theme::strong("Shipping and taxes"));
    shipping(ui, document, commands);
    taxes(ui, document, commands);
    for charged in &document.bench.bill.charged {
        let id = ui.scope_id().with(("charged", charged.shipping, charged.at));
        let opened = ui.horizontal(|ui| {
            ui.label(theme::caption(&charged.words));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                opening(ui, id, &charged.amount, &format!("How the amount of {} comes about", charged.words))
            })
            .inner
        });
        if opened.inner {
            finding::steps(ui, std::slice::from_ref(&charged.because));
        }
    }
}

/// A field for each supplier from whom something is bought, or whose shipping is listed.
fn shipping(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let bill = &document.bench.bill;
    let listed = bill.shipping.iter().map(|charge| charge.name.as_str());
    let names: Vec<&str> = listed.chain(bill.shipping_unsaid.iter().map(String::as_str)).collect();
    for name in names {
        let now = bill.shipping.iter().find(|charge| charge.name == name).map(|charge| charge.price.to_string());
        ui.horizontal(|ui| {
            named(ui, &format!("Shipping, {name}"));
            let shape = Shape { name: &format!("Shipping of {name}"), hint: "6.90 EUR", width: 32.0 * GRID };
            let reads = |text: &str| text.is_empty() || text.parse::<Money>().is_ok_and(|amount| amount.minor() >= 0);
            let id = Id::unique(("shipping", document.id.0, name));
            if let Some(text) = entry(ui, id, &shape, &now.unwrap_or_default(), reads) {
                let mut shipping: Vec<Charge> = bill.shipping.iter().filter(|charge| charge.name != name).cloned().collect();
                let price = text.parse().ok();
                shipping.extend(price.map(|price| Charge { name: name.to_owned(), price, note: None }));
                commands.push(Command::Edit(document.id, Edit::Shipping(shipping)));
            }
            if bill.shipping_unsaid.iter().any(|unsaid| unsaid == name) {
                ui.label(theme::caption("not stated, not in the sum"));
            }
        });
    }
}

fn named(ui: &mut Ui, name: &str) {
    ui.allocate_ui_with_layout(egui::vec2(super::NAME, 6.0 * GRID), Layout::left_to_right(Align::Center), |ui| {
        ui.set_min_width(super::NAME);
        ui.add(Label::new(name).truncate());
    });
}

fn taxes(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let bill = &document.bench.bill;
    let taxes = &bill.tax;
    let mut edit = |taxes: Vec<Tax>| commands.push(Command::Edit(document.id, Edit::Tax(taxes)));
    for (at, tax) in taxes.iter().enumerate() {
        ui.horizontal(|ui| {
            if let Some(changed) = one(ui, document, at, tax, bill) {
                let mut taxes = taxes.clone();
                taxes[at] = changed;
                edit(taxes);
            }
            if word(ui, "Leave out").on_hover_text(format!("Leaves {} out of the taxes.", tax.name)).clicked() {
                edit(taxes.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, tax)| tax.clone()).collect());
            }
        });
    }
    if word(ui, "Add a tax or duty").on_hover_text("Nothing until its amount or its share is given.").clicked() {
        let none = Tax {
            name: "Tax".to_owned(),
            price: None,
            percent: Some(Percent::from_steps(0)),
            of: None,
            supplier: None,
            note: None,
        };
        edit(taxes.iter().cloned().chain([none]).collect());
    }
}

/// The fields of a tax; the tax as it was changed.
fn one(ui: &mut Ui, document: &Document, at: usize, tax: &Tax, bill: &BillView) -> Option<Tax> {
    let mut changed = None;
    let id = |what: &str| Id::unique(("tax", document.id.0, at, what));
    let shape = Shape { name: &format!("Name of tax {}", at + 1), hint: "import duty", width: 34.0 * GRID };
    if let Some(name) = entry(ui, id("name"), &shape, &tax.name, |text| !text.is_empty()) {
        changed = Some(Tax { name, ..tax.clone() });
    }
    let now = amount_text(tax);
    let shape = Shape { name: &format!("Amount of {}", tax.name), hint: "19 % or 3 EUR", width: 34.0 * GRID };
    if let Some(text) = entry(ui, id("amount"), &shape, &now, |text| read(text, tax).is_some()) {
        changed = read(&text, tax);
    }
    if tax.percent.is_none() {
        return changed;
    }
    let base = tax.of.unwrap_or(TaxBase::Goods);
    let combo = ComboBox::from_id_salt(id("base")).selected_text(format!("of {base}")).width(34.0 * GRID);
    let shown = combo.show_ui(ui, |ui| {
        for of in TaxBase::ALL {
            if ui.selectable_label(*of == base, format!("of {of}")).clicked() {
                changed = Some(Tax { of: Some(*of), ..tax.clone() });
            }
        }
    });
    call(ui, &shown.response, &format!("What {} is taken of", tax.name));
    let from = |supplier: Option<&String>| supplier.map_or_else(|| "from all".to_owned(), |name| format!("from {name}"));
    let combo = ComboBox::from_id_salt(id("supplier")).selected_text(from(tax.supplier.as_ref())).width(24.0 * GRID);
    let shown = combo.show_ui(ui, |ui| {
        for supplier in [None].into_iter().chain(bill.suppliers.iter().map(Some)) {
            if ui.selectable_label(tax.supplier.as_ref() == supplier, from(supplier)).clicked() {
                changed = Some(Tax { supplier: supplier.cloned(), ..tax.clone() });
            }
        }
    });
    call(ui, &shown.response, &format!("Whose goods {} is taken of", tax.name));
    changed
}

fn call(ui: &Ui, response: &egui::Response, name: &str) {
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(name));
}

fn amount_text(tax: &Tax) -> String {
    match (tax.price, tax.percent) {
        (Some(price), _) => price.to_string(),
        (None, Some(percent)) => percent.to_string(),
        (None, None) => String::new(),
    }
}

/// The tax with another amount or share.
fn read(text: &str, tax: &Tax) -> Option<Tax> {
    if let Some(share) = text.strip_suffix('%') {
        let (low, high) = Tax::PLAUSIBLE_PERCENT;
        let percent = Percent::parse(&share.trim().replace(',', ".")).ok()?;
        return (low..=high).contains(&percent.decimal()).then(|| Tax { price: None, percent: Some(percent), ..tax.clone() });
    }
    let price = text.parse::<Money>().ok().filter(|price| price.minor() >= 0)?;
    Some(Tax { price: Some(price), percent: None, of: None, supplier: None, ..tax.clone() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_amount_or_a_share_is_read() {
        let tax = Tax::fixed("duty", "1.00 EUR".parse().unwrap());
        assert_eq!(read("19 %", &tax).unwrap().percent, Percent::parse("19").ok());
        assert_eq!(read("7,5%", &tax).unwrap().percent, Percent::parse("7.5").ok());
        assert_eq!(read("3.30 EUR", &tax).unwrap().price, "3.30 EUR".parse().ok());
        for text in ["", "19", "101 %", "-1 %", "-2.00 EUR", "3.30"] {
            assert_eq!(read(text, &tax), None, "{text}");
        }
    }
}
