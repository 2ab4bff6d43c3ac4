//! What the craft costs: the bill, kits, learning, builds side by side, shelf and rates.

mod bill;
mod charges;
mod compare;
mod entry;
mod kit;
mod learning;
mod shelf;
mod spares;

use egui::{Align, Button, Frame, Layout, Margin, RichText, ScrollArea, Stroke, Ui};

use super::{Commands, field, finding, ring};
use crate::{
    command::Command,
    money::Money,
    run_command::money::is_due,
    state::{App, Document, Section},
    theme::{self, GRID, TEXT},
    view::Costing,
};

/// Width of what names a row of controls, in points.
const NAME: f32 = 34.0 * GRID;

pub(super) fn show(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    Frame::NONE.inner_margin(Margin { left: 20, right: 8, top: 12, bottom: 8 }).show(ui, |ui| {
        tabs(ui, app.purse.section, commands);
        ui.add_space(3.0 * GRID);
        working(ui, document, commands);
        ScrollArea::vertical().auto_shrink([false, false]).id_salt(("cost", app.purse.section)).show(ui, |ui| {
            ui.set_max_width(ui.available_width() - 4.0 * GRID);
            match app.purse.section {
                Section::Bill => bill::show(ui, document, commands),
                Section::Kit => worked(ui, app, document, commands, kit::show),
                Section::Learning => learning::show(ui, app, document, commands),
                Section::Compare => compare::show(ui, app, document, commands),
                Section::Shelf => shelf::show(ui, app, document, commands),
            }
            ui.add_space(4.0 * GRID);
        });
    });
}

/// Share of the page that the working of the sum takes at most; the rest of it is scrolled to.
const WORKING: f32 = 0.5;

/// How what is left to pay comes about, above what is scrolled.
fn working(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let Some(working) = document.bench.working.as_ref().filter(|working| working.is_cost) else { return };
    let most = WORKING * ui.available_height();
    ScrollArea::vertical().id_salt("working").max_height(most).auto_shrink([false, true]).show(ui, |ui| {
        finding::working(ui, document, working, false, commands);
        field::follow_focus(ui);
    });
}

fn tabs(ui: &mut Ui, shown: Section, commands: &mut Commands) {
    ui.horizontal(|ui| {
        for section in Section::ALL {
            let tokens = theme::tokens(ui);
            let here = section == shown;
            let (font, tone) = if here { (theme::bold(TEXT), tokens.ink) } else { (theme::regular(TEXT), tokens.accent) };
            let words = RichText::new(section.words()).font(font).color(tone);
            let response = ui.add(Button::new(words).frame(false));
            response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Tab, true, here, section.words()));
            ring(ui, &response);
            if here {
                let y = response.rect.bottom();
                ui.painter().hline(response.rect.x_range().shrink(2.0 * GRID), y, Stroke::new(2.0, tokens.accent));
            }
            if response.on_hover_cursor(egui::CursorIcon::PointingHand).clicked() {
                commands.push(Command::Money(Money::Section(section)));
            }
        }
    });
}

/// Shows what was worked out for the section, and asks for it where that is out of date.
fn worked(
    ui: &mut Ui,
    app: &App,
    document: &Document,
    commands: &mut Commands,
    show: impl FnOnce(&mut Ui, &Costing, &mut Commands),
) {
    if is_due(app, document.id) {
        commands.push(Command::Money(Money::Ask(document.id)));
    }
    let costed = document.costing.get(&app.purse.section);
    match costed.and_then(|costed| costed.shown.as_ref()) {
        Some(costing) => show(ui, costing, commands),
        None => {
            ui.label(theme::caption("Working it out…"));
        }
    }
}

/// A line: words at the left, an amount at the right.
fn sum(ui: &mut Ui, words: RichText, amount: RichText) {
    ui.horizontal(|ui| {
        ui.label(words);
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| ui.label(amount));
    });
}

/// A caption and what it says, side by side.
fn told(ui: &mut Ui, caption: &str, words: &str) {
    ui.horizontal_top(|ui| {
        let size = egui::vec2(NAME, 4.5 * GRID);
        ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Min), |ui| {
            ui.set_min_width(NAME);
            ui.label(theme::caption(caption));
        });
        ui.add(egui::Label::new(words).wrap());
    });
}

/// A line of ground between parts of a section.
fn apart(ui: &mut Ui) {
    ui.add_space(3.0 * GRID);
    let line = ui.visuals().widgets.noninteractive.bg_stroke;
    let y = ui.cursor().top();
    ui.painter().hline(ui.max_rect().x_range(), y, line);
    ui.add_space(3.0 * GRID);
}
