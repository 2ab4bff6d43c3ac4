//! The shelf and exchange rates: their files, what lies there, what comes and goes.

use std::path::PathBuf;

use egui::{Id, Label, Popup, ScrollArea, Ui};
use propwright_schema::{
    quantity::Currency,
    rates::{Factor, Rate},
    stock::StockItem,
};

use super::{
    apart,
    entry::{Shape, entry},
    sum,
};
use crate::{
    browse::Wish,
    command::Command,
    files,
    money::Money,
    panel::{Commands, word},
    run_command::deeds::Was,
    state::{App, Document, Own},
    theme::{self, GRID},
};

pub(super) fn show(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    for problem in &app.purse.problems {
        ui.add(Label::new(problem).wrap());
    }
    ui.label(theme::strong("Shelf"));
    ui.label(theme::caption("Drawn from before anything is bought; what was measured there stands for the maker's figures."));
    let own = app.purse.stock.as_ref();
    file(ui, "Shelf", own.map(path), [Money::OpenStock, Money::SaveStock], [Wish::Stock, Wish::SaveStock], commands);
    ui.horizontal(|ui| {
        if own.is_none() && word(ui, "Take the demo's shelf and rates").clicked() {
            commands.push(Command::Money(Money::Demo));
        }
        let more = word(ui, "I own a part…")
            .on_hover_text("Puts a used piece of a part of this build on the shelf; Ctrl Z takes it back.");
        Popup::menu(&more).accessible_name("Parts of this build").show(|ui| {
            ScrollArea::vertical().max_height(80.0 * GRID).show(ui, |ui| {
                for placed in document.craft.listed() {
                    if ui.button(format!("{}: {}", placed.subject.slot.title(), placed.subject.part.name)).clicked() {
                        commands.push(Command::Money(Money::Own(placed.subject.part.id.clone())));
                        ui.close();
                    }
                }
            });
        });
        if own.is_some() && word(ui, "Do without a shelf").clicked() {
            commands.push(Command::Money(Money::CloseStock));
        }
    });
    deeds(ui, app, document, commands);
    if let Some(own) = own {
        ui.add_space(2.0 * GRID);
        for item in &own.content.items {
            line(ui, app, item);
        }
    }
    apart(ui);
    rates(ui, app, commands);
}

fn path<T>(own: &Own<T>) -> Option<PathBuf> {
    own.path.clone()
}

/// Where it is kept, and a field for the path of another file.
#[expect(clippy::option_option, clippy::needless_pass_by_value, reason = "nothing open, open without a file, open from a file")]
fn file(
    ui: &mut Ui,
    what: &str,
    own: Option<Option<PathBuf>>,
    [open, save]: [fn(PathBuf) -> Money; 2],
    [to_open, to_save]: [Wish; 2],
    commands: &mut Commands,
) {
    let said = match &own {
        None => "none open".to_owned(),
        Some(None) => "in no file: what changes here is gone when the window closes".to_owned(),
        Some(Some(path)) => files::name(path),
    };
    ui.add(Label::new(said).wrap());
    let name = format!("Path of the {} file", what.to_lowercase());
    let shape = Shape { name: &name, hint: "/home/me/shelf.ron", width: 70.0 * GRID };
    ui.horizontal(|ui| {
        if let Some(typed) = entry(ui, Id::unique(("path", what)), &shape, "", |_| true) {
            commands.push(Command::Money(open(PathBuf::from(typed))));
        }
        if word(ui, "Open…").on_hover_text(format!("Reads the {} from a file.", what.to_lowercase())).clicked() {
            commands.push(Command::Money(Money::Browse(to_open)));
        }
        if own == Some(None) {
            let beside = PathBuf::from(format!("{}.ron", what.to_lowercase()));
            if word(ui, "Keep here").on_hover_text(format!("Writes {} in the folder of the program.", beside.display())).clicked()
            {
                commands.push(Command::Money(save(beside)));
            }
            if word(ui, "Save as…").clicked() {
                commands.push(Command::Money(Money::Browse(to_save)));
            }
        }
    });
}

/// Building a craft, taking it apart, and taking that back.
fn deeds(ui: &mut Ui, app: &App, document: &Document, commands: &mut Commands) {
    let name = &document.build.name;
    let is_in = |item: &StockItem| item.fitted_in.as_deref() == Some(name.as_str());
    let built = app.purse.given.stock.items.iter().any(is_in);
    ui.horizontal_wrapped(|ui| {
        if document.is_current() && document.report().is_some() && !built {
            let about = "What is drawn and bought for it is then in the craft; what packs leave over lies on the shelf.";
            if word(ui, &format!("{name} is built")).on_hover_text(about).clicked() {
                commands.push(Command::Money(Money::Build(document.id)));
            }
        }
        if built {
            let about = "Its parts come back to the shelf as used ones, with what was measured of them.";
            if word(ui, &format!("{name} is taken apart")).on_hover_text(about).clicked() {
                commands.push(Command::Money(Money::TakeApart(document.id)));
            }
        }
        if let Some(deed) = app.deeds_past.last().filter(|deed| matches!(deed.was, Was::Shelf(_))) {
            ui.label(theme::caption(&deed.label));
            if word(ui, "Take it back").on_hover_text("The shelf becomes as it was before (Ctrl Z).").clicked() {
                commands.push(Command::TakeBack);
            }
        }
    });
}

fn line(ui: &mut Ui, app: &App, item: &StockItem) {
    let known = app.catalogue.part(&item.part);
    let name = known.map_or_else(|| format!("{} (in no catalogue)", item.part), |part| part.name.clone());
    let condition = item.condition.map_or_else(String::new, |condition| condition.to_string());
    sum(ui, egui::RichText::new(format!("{} × {name}", item.count)), egui::RichText::new(condition).weak());
    let told = [
        item.mass_g.map(|mass| format!("{mass} weighed")),
        item.resistance_mohm.map(|ohm| format!("{ohm} measured")),
        item.cycles.map(|cycles| format!("{cycles} cycles")),
        item.fitted_in.as_ref().map(|craft| format!("in {craft}")),
        item.note.clone(),
    ];
    let told: Vec<String> = told.into_iter().flatten().collect();
    if !told.is_empty() {
        ui.add(Label::new(theme::caption(told.join(" · "))).wrap());
    }
}

fn rates(ui: &mut Ui, app: &App, commands: &mut Commands) {
    ui.label(theme::strong("Exchange rates"));
    ui.label(theme::caption(
        "Amounts of two currencies are added by a rate of yours alone; sums are told in the first one's currency.",
    ));
    let own = app.purse.rates.as_ref();
    file(ui, "Rates", own.map(path), [Money::OpenRates, Money::SaveRates], [Wish::Rates, Wish::SaveRates], commands);
    for (at, rate) in own.into_iter().flat_map(|own| own.content.rates.iter().enumerate()) {
        ui.horizontal(|ui| {
            ui.label(format!("1 {} is {} {} on {}", rate.from, rate.rate, rate.to, rate.on));
            let about = format!("Leaves the rate from {} to {} of {} out.", rate.from, rate.to, rate.on);
            if word(ui, "Leave out").on_hover_text(about).clicked() {
                commands.push(Command::Money(Money::RemoveRate(at)));
            }
        });
    }
    let shape = Shape { name: "A rate", hint: "GBP EUR 1.17 2026-11-20", width: 60.0 * GRID };
    ui.horizontal(|ui| {
        ui.label(theme::caption("From, to, rate, day"));
        if let Some(text) = entry(ui, Id::unique("rate"), &shape, "", |text| text.is_empty() || read(text).is_some()) {
            commands.extend(read(&text).map(|rate| Command::Money(Money::Rate(rate))));
        }
    });
}

/// A rate as it is typed: two currencies, what one unit of the first costs in the second, and the day.
fn read(text: &str) -> Option<Rate> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let [from, to, rate, on] = words.as_slice() else { return None };
    let rate = Rate {
        from: from.parse::<Currency>().ok()?,
        to: to.parse::<Currency>().ok()?,
        rate: rate.parse::<Factor>().ok()?,
        on: on.parse().ok()?,
    };
    (rate.from != rate.to).then_some(rate)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rate_is_read_with_its_day_or_not_at_all() {
        let rate = read("GBP EUR 1.17 2026-11-20").unwrap();
        assert_eq!(
            (rate.from.to_string(), rate.rate.to_string(), rate.on.to_string()),
            ("GBP".into(), "1.17".into(), "2026-11-20".into())
        );
        for text in [
            "",
            "GBP EUR 1.17",
            "GBP GBP 1.17 2026-11-20",
            "GBP EUR 0 2026-11-20",
            "GBP EUR 1,17 2026-11-20",
            "gbp EUR 1.17 2026-11-20",
        ] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
