//! What stands in for the part that is fitted: the closest first, one of several or all, with what must follow.

use egui::{Frame, Margin, ScrollArea, Ui};
use propwright_engine::{
    explain,
    fit::{Following, Replacement, Way},
};
use propwright_paper::replace;

use super::{Commands, picker, small_word, strong_word, word};
use crate::{
    command::{Choosing, Command},
    edit::Edit,
    state::{Document, Picker, Work},
    theme::{self, GRID},
    view::{all_change_words, way_name},
    widget::mark::mark_with_word,
};

pub(super) fn show(ui: &mut Ui, document: &Document, picker: &Picker, commands: &mut Commands) {
    let gone = picker.place.line.and_then(|line| document.craft.of_line(line).find(|placed| placed.listed_here));
    let name = gone.map_or("part", |placed| placed.subject.part.name.as_str());
    ui.horizontal_wrapped(|ui| {
        ui.add_space(2.0 * GRID);
        ui.label(format!("What can take the place of the {name}, and what changes?"));
    });
    picker::progress(ui, document, picker.stand_in_work, commands);
    if picker.stand_in_work == Work::Idle {
        ui.horizontal(|ui| {
            ui.add_space(2.0 * GRID);
            if document.is_current() && word(ui, "Look again").clicked() {
                commands.push(Command::Choosing(document.id, Choosing::Look(picker.look)));
            }
        });
    }
    ScrollArea::vertical().auto_shrink([false, false]).id_salt("stand-ins").show(ui, |ui| {
        for (at, found) in picker.stand_ins.iter().enumerate() {
            block(ui, document, picker, at, found, commands);
        }
    });
}

fn block(ui: &mut Ui, document: &Document, picker: &Picker, at: usize, found: &Replacement, commands: &mut Commands) {
    let tokens = theme::tokens(ui);
    let edge = egui::Stroke::new(1.0, tokens.line);
    let margin = Margin { left: 12, right: 12, top: 8, bottom: 8 };
    let fill = if picker.row == at { tokens.panel } else { tokens.paper };
    Frame::NONE.fill(fill).stroke(edge).corner_radius(4.0).inner_margin(margin).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.horizontal_wrapped(|ui| {
            ui.label(theme::title(&found.part.name));
            let same = if found.same { "the same part".to_owned() } else { format!("{} alike", replace::alike(found.distance)) };
            let sold = if found.part.retired { " · no longer sold" } else { "" };
            ui.label(theme::caption(format!("{same}{sold}")));
            let beside = picker.beside.iter().any(|beside| beside.part.id == found.part.id);
            let text = if beside { "put away" } else { "beside" };
            if small_word(ui, text, &format!("Side by side: {}", found.part.name)).clicked() {
                commands.push(Command::Choosing(document.id, Choosing::Beside(found.part.id.clone())));
            }
        });
        for way in found.ways() {
            one_way(ui, document, found, way, commands);
        }
    });
    ui.add_space(2.0 * GRID);
}

fn one_way(ui: &mut Ui, document: &Document, found: &Replacement, way: &Way, commands: &mut Commands) {
    ui.add_space(GRID);
    mark_with_word(ui, way.left(), &how(found, way));
    match &way.following {
        Following::Set(set) => {
            ui.label(theme::caption("What must follow:"));
            for swap in &set.swaps {
                ui.label(format!("    {}", replace::swap_words(swap)));
            }
        }
        Following::Open => drop(ui.label(theme::caption("Does not go alone; what must follow is still looked for."))),
        Following::Hopeless => {
            drop(ui.label(theme::caption("Does not go, and no exchange of up to three other parts mends it.")));
        }
        Following::Nothing => {}
    }
    if way.goes() {
        ui.label(theme::caption(all_change_words(way.whole_change())));
    } else if let Some(finding) = way.findings.first() {
        ui.label(theme::caption(explain::message(finding)));
    }
    if !way.goes() {
        return;
    }
    let name = way_name(found, way);
    ui.horizontal(|ui| {
        if strong_word(ui, &format!("Put in {name}"))
            .on_hover_text("Changes the list in one step, with what must follow.")
            .clicked()
        {
            commands.push(Command::Edit(document.id, Edit::Replace { name: name.clone(), with: way.list().clone() }));
        }
        ui.add_space(2.0 * GRID);
        let on = document.tried.as_ref().is_some_and(|tried| tried.name == name);
        let (text, done) =
            if on { ("take off", Choosing::TakeOff) } else { ("try on", Choosing::TryList(name.clone(), way.list().clone())) };
        if small_word(ui, text, &format!("{text}: {name}")).clicked() {
            commands.push(Command::Choosing(document.id, done));
        }
    });
}

/// How many, and what is to pay: "one beside the others, 18.90 EUR".
fn how(found: &Replacement, way: &Way) -> String {
    let price = way.price().map_or_else(|| "price not known".to_owned(), |sums| replace::money(&sums));
    let is_one = found.one.as_ref().is_some_and(|one| std::ptr::eq(one, way));
    match way.buy.count {
        _ if is_one => format!("one beside the others, {price}"),
        1 => price,
        count => format!("all {count}, {price}"),
    }
}
