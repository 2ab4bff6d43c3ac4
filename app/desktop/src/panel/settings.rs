//! How the line of a chosen place is listed: how many, on the shelf, what feeds it, its serial port.

use egui::{ComboBox, DragValue, Margin, Ui};
use propwright_schema::{
    build_list::{Feed, Fitted},
    part::Role,
    slot::Slot,
};

use super::{Commands, word};
use crate::{
    command::Command,
    edit::Edit,
    state::{Document, Place},
    theme::GRID,
};

pub(super) fn show(ui: &mut Ui, document: &Document, place: Place, commands: &mut Commands) {
    let Some((line, fitted)) = place.line.and_then(|line| Some((line, document.build.parts.get(line)?))) else { return };
    egui::Frame::NONE.inner_margin(Margin { left: 8, right: 8, top: 2, bottom: 6 }).show(ui, |ui| {
        ui.horizontal_wrapped(|ui| {
            let mut edit = |edit: Edit| commands.push(Command::Edit(document.id, edit));
            count(ui, line, fitted, &mut edit);
            ui.add_space(GRID);
            let mut owned = fitted.owned;
            if ui.checkbox(&mut owned, "on the shelf").on_hover_text("Owned already: nothing to buy.").changed() {
                edit(Edit::Owned { line, owned });
            }
            ui.add_space(GRID);
            if is_fed(place.slot) {
                feed(ui, document, line, fitted, &mut edit);
            }
            if has_port(place.slot) {
                port(ui, document, line, fitted, &mut edit);
            }
            if word(ui, "Take out").on_hover_text("Takes the part out of the list.").clicked() {
                edit(Edit::Remove { line });
            }
        });
    });
}

fn count(ui: &mut Ui, line: usize, fitted: &Fitted, edit: &mut impl FnMut(Edit)) {
    let label = ui.label("How many");
    let mut count = fitted.count;
    let response = ui.add(DragValue::new(&mut count).range(1..=999).speed(0.05)).labelled_by(label.id);
    if response.changed() && count != fitted.count {
        edit(Edit::Count { line, count });
    }
}

/// Slots whose parts draw from a rail or from the pack.
const fn is_fed(slot: Slot) -> bool {
    matches!(
        slot,
        Slot::FlightController
            | Slot::Receiver
            | Slot::Camera
            | Slot::VideoTransmitter
            | Slot::Gps
            | Slot::RemoteId
            | Slot::Finder
            | Slot::Payload
    )
}

/// Slots whose parts talk over a serial port.
const fn has_port(slot: Slot) -> bool {
    matches!(slot, Slot::Receiver | Slot::VideoTransmitter | Slot::Gps | Slot::RemoteId | Slot::Finder)
}

fn feed_words(feed: Option<&Feed>) -> String {
    match feed {
        None => "not said".to_owned(),
        Some(Feed::Pack) => "the pack".to_owned(),
        Some(Feed::Rail(rail)) => format!("rail {rail}"),
        Some(Feed::Partner) => "its partner".to_owned(),
        Some(Feed::Own) => "a battery of its own".to_owned(),
    }
}

fn feed(ui: &mut Ui, document: &Document, line: usize, fitted: &Fitted, edit: &mut impl FnMut(Edit)) {
    let mut choices = vec![None, Some(Feed::Pack), Some(Feed::Partner), Some(Feed::Own)];
    choices.extend(rails(document).into_iter().map(|rail| Some(Feed::Rail(rail))));
    let now = fitted.feed.as_ref();
    let response = ComboBox::from_label("feeds it").selected_text(feed_words(now)).width(26.0 * GRID).show_ui(ui, |ui| {
        for choice in choices {
            if ui.selectable_label(now == choice.as_ref(), feed_words(choice.as_ref())).clicked() {
                edit(Edit::Feed { line, feed: choice });
            }
        }
    });
    response.response.on_hover_text("What the part is fed from.");
    ui.add_space(GRID);
}

/// The rails that the boards of the list offer, by their printed names.
fn rails(document: &Document) -> Vec<String> {
    let mut names = Vec::new();
    for slot in [Slot::FlightController, Slot::Esc, Slot::Regulator, Slot::PowerBoard] {
        for placed in document.craft.in_slot(slot) {
            let rails = match placed.subject.part.role(slot) {
                Some(Role::FlightController(board)) => board.rails.as_deref(),
                Some(Role::Esc(board)) => board.rails.as_deref(),
                Some(Role::Regulator(board)) => board.rails.as_deref(),
                Some(Role::PowerBoard(board)) => board.rails.as_deref(),
                _ => None,
            };
            names.extend(rails.into_iter().flatten().filter_map(|rail| rail.name.clone()));
        }
    }
    names.sort();
    names.dedup();
    names
}

fn port(ui: &mut Ui, document: &Document, line: usize, fitted: &Fitted, edit: &mut impl FnMut(Edit)) {
    let words = |port: Option<u32>| port.map_or_else(|| "not said".to_owned(), |port| format!("serial {port}"));
    let mut choices = vec![None];
    choices.extend(ports(document).into_iter().map(Some));
    ComboBox::from_label("port").selected_text(words(fitted.uart)).width(20.0 * GRID).show_ui(ui, |ui| {
        for choice in choices {
            if ui.selectable_label(fitted.uart == choice, words(choice)).clicked() {
                edit(Edit::Uart { line, uart: choice });
            }
        }
    });
    ui.add_space(GRID);
}

/// The serial ports of the flight controller, by their printed numbers.
fn ports(document: &Document) -> Vec<u32> {
    let boards = document.craft.in_slot(Slot::FlightController).iter();
    let uarts = boards.filter_map(|placed| match placed.subject.part.role(Slot::FlightController) {
        Some(Role::FlightController(board)) => board.uarts.as_ref(),
        _ => None,
    });
    uarts.flatten().filter_map(|uart| uart.number).collect()
}
