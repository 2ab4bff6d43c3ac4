//! How the part of a chosen place is listed and wired, edited in place.

use egui::{Id, Label, Margin, Ui};
use propwright_schema::{
    build_list::{Arrangement, Fitted},
    slot::Slot,
};

use super::{
    Commands,
    field::{self, FIGURE, Shape},
    finding, word,
};
use crate::{
    command::Command,
    edit::Edit,
    input::Input,
    run_command::entering::Enter,
    state::{Document, Place},
    theme::{self, GRID},
    view::{self, Offer, lower_first},
};

/// Width of a choice, in points.
const CHOICE: f32 = 38.0 * GRID;

/// A line of the list with what edits of it are pushed to.
struct Line<'a> {
    document: &'a Document,
    at: usize,
    fitted: &'a Fitted,
    commands: &'a mut Commands,
}

impl Line<'_> {
    fn edit(&mut self, edit: Edit) {
        self.commands.push(Command::Edit(self.document.id, edit));
    }
}

pub(super) fn show(ui: &mut Ui, document: &Document, place: Place, commands: &mut Commands) {
    let Some((at, fitted)) = place.line.and_then(|at| Some((at, document.build.parts.get(at)?))) else { return };
    let mut line = Line { document, at, fitted, commands };
    egui::Frame::NONE.inner_margin(Margin { left: 8, right: 8, top: 0, bottom: 8 }).show(ui, |ui| {
        ui.push_id(("details", at), |ui| {
            let name = document.craft.of_line(at).next().map_or(fitted.part.as_str(), |placed| &placed.subject.part.name);
            ui.add(Label::new(theme::strong(name)).wrap());
            if finding::toggle_from(ui, Id::unique("details"), "How it is listed and wired", true) {
                ui.spacing_mut().item_spacing.y = 3.0;
                counts(ui, &mut line);
                wiring(ui, &mut line);
                of_the_craft(ui, &mut line);
                field::words(ui, document, "Note", &Input::LineNote(at), note_rows(fitted), line.commands);
                ui.add_space(GRID);
                ui.horizontal_wrapped(|ui| moves(ui, &mut line));
            }
        });
    });
}

/// A note of several lines has them in sight.
fn note_rows(fitted: &Fitted) -> usize {
    fitted.note.as_ref().map_or(2, |note| note.lines().count().clamp(2, 6))
}

fn counts(ui: &mut Ui, line: &mut Line<'_>) {
    let count = Input::Count(line.at);
    field::row(ui, "How many", "How many of them the craft has.", |ui, label| {
        number(ui, line, &count, label);
        let mut owned = line.fitted.owned;
        if ui.checkbox(&mut owned, "on the shelf").on_hover_text("Owned already: nothing to buy.").changed() {
            line.edit(Edit::Owned { line: line.at, owned });
        }
    });
    field::problem(ui, line.document, &count);
    let spare = |arm: bool| Input::Spare { part: line.fitted.part.clone(), arm };
    let (whole, arms) = (spare(false), spare(true));
    field::row(ui, "Spares", "Bought with it, flown after the first crash.", |ui, label| {
        number(ui, line, &whole, label);
        if line.fitted.slot == Slot::Frame {
            let label = ui.label("and arms").id;
            number(ui, line, &arms, label);
        }
    });
    field::problem(ui, line.document, &whole);
    field::problem(ui, line.document, &arms);
}

fn number(ui: &mut Ui, line: &mut Line<'_>, input: &Input, label: Id) {
    let shape = Shape { width: FIGURE * 0.7, rows: 1, hint: "0" };
    field::text(ui, line.document, input, shape, line.commands).labelled_by(label);
}

/// Slots whose parts draw from a rail or from the pack.
const fn is_fed(slot: Slot) -> bool {
    matches!(
        slot,
        Slot::Esc
            | Slot::FlightController
            | Slot::Receiver
            | Slot::Camera
            | Slot::VideoTransmitter
            | Slot::Gps
            | Slot::RemoteId
            | Slot::Finder
            | Slot::Payload
            | Slot::Goggles
    )
}

/// Slots whose parts can talk over a serial port.
const fn has_port(slot: Slot) -> bool {
    matches!(
        slot,
        Slot::Esc
            | Slot::Receiver
            | Slot::Camera
            | Slot::VideoTransmitter
            | Slot::Gps
            | Slot::RemoteId
            | Slot::Finder
            | Slot::Payload
    )
}

fn wiring(ui: &mut Ui, line: &mut Line<'_>) {
    let (at, slot) = (line.at, line.fitted.slot);
    if is_fed(slot) || line.fitted.feed.is_some() {
        let offers = view::feeds(line.document, at);
        if let Some(feed) = offered(ui, "Fed from", "What the part draws its current from.", &offers, line.fitted.feed.as_ref()) {
            line.edit(Edit::Feed { line: at, feed });
        }
    }
    if has_port(slot) || line.fitted.uart.is_some() {
        let offers = view::ports(line.document, at);
        let about = "Serial port of the flight controller.";
        if let Some(uart) = offered(ui, "Serial port", about, &offers, line.fitted.uart.as_ref()) {
            line.edit(Edit::Uart { line: at, uart });
        }
    }
    if slot == Slot::Motor || line.fitted.outputs.is_some() {
        outputs(ui, line);
    }
    if slot == Slot::MotorScrew || line.fitted.between_mm.is_some() {
        field::figure(ui, line.document, "Washers, pads", &Input::Between(at), line.commands);
    }
}

/// A choice of what the craft really has. Says what was chosen.
#[expect(clippy::option_option, reason = "nothing was chosen, nothing is wanted, one is wanted")]
fn offered<T: Clone + PartialEq>(
    ui: &mut Ui,
    name: &str,
    about: &str,
    offers: &[Offer<T>],
    now: Option<&T>,
) -> Option<Option<T>> {
    let held = offers.iter().find(|offer| offer.value.as_ref() == now).map_or("", |offer| &offer.words);
    let chosen = field::row(ui, name, about, |ui, label| {
        let each = offers.iter().map(|offer| (offer.words.as_str(), offer.aside.as_str()));
        let chosen = field::choice(ui, name, label, CHOICE, held, each);
        if let Some(offer) = offers.iter().find(|offer| offer.value.as_ref() == now && !offer.aside.is_empty()) {
            ui.add(Label::new(theme::caption(&offer.aside)).truncate()).on_hover_text(&offer.aside);
        }
        chosen
    });
    offers.get(chosen?).map(|offer| offer.value.clone())
}

fn outputs(ui: &mut Ui, line: &mut Line<'_>) {
    let input = Input::Outputs(line.at);
    let about = "Motor outputs of the flight controller, in the order of the motors.";
    field::row(ui, "Outputs", about, |ui, label| {
        let shape = Shape { width: FIGURE * 1.6, rows: 1, hint: "1, 2, 3, 4" };
        field::text(ui, line.document, &input, shape, line.commands).labelled_by(label);
        let free = view::free_outputs(line.document, line.at).filter(|free| Some(free) != line.fitted.outputs.as_ref());
        if let Some(free) = free
            && word(ui, "The free ones").on_hover_text("Takes the lowest outputs that nobody has.").clicked()
        {
            line.edit(Edit::Outputs { line: line.at, outputs: Some(free) });
        }
    });
    field::problem(ui, line.document, &input);
    if let Some(said) = view::outputs(line.document, line.at) {
        field::below(ui, theme::caption(said));
    }
}

/// What is set once for all parts of a slot.
fn of_the_craft(ui: &mut Ui, line: &mut Line<'_>) {
    match line.fitted.slot {
        Slot::Motor => field::figure(ui, line.document, "Output limit", &Input::OutputLimit, line.commands),
        Slot::Battery => packs(ui, line.document, line.commands),
        _ => {}
    }
}

/// How several packs are connected.
pub(super) fn packs(ui: &mut Ui, document: &Document, commands: &mut Commands) {
    let offers: Vec<Option<Arrangement>> = std::iter::once(None).chain(Arrangement::ALL.iter().copied().map(Some)).collect();
    let words = |packs: Option<Arrangement>| packs.map_or("not said", Arrangement::word);
    let about = "How several packs are connected: parallel, in series, or one after the other through a selector.";
    let chosen = field::row(ui, "Packs connected", about, |ui, label| {
        field::choice(ui, "packs", label, CHOICE, words(document.build.packs), offers.iter().map(|packs| (words(*packs), "")))
    });
    if let Some(packs) = chosen.and_then(|at| offers.get(at)) {
        commands.push(Command::Edit(document.id, Edit::Packs { packs: *packs }));
    }
}

/// The line as a whole: once more, elsewhere, away.
fn moves(ui: &mut Ui, line: &mut Line<'_>) {
    let (at, slot) = (line.at, line.fitted.slot);
    ui.spacing_mut().item_spacing.x = 4.0 * GRID;
    if word(ui, "Add another").on_hover_text("Chooses a second part for this slot.").clicked() {
        line.commands.push(Command::Pick(line.document.id, Some(Place { slot, line: None })));
    }
    if word(ui, "Duplicate").on_hover_text("Lists the part once more, on a line of its own.").clicked() {
        line.edit(Edit::Duplicate { line: at });
    }
    let [before, behind] = view::neighbours(line.document, at);
    for (name, about, with) in [
        ("Move up", "Changes places with the line before.", before),
        ("Move down", "Changes places with the line behind.", behind),
    ] {
        if let Some(with) = with
            && word(ui, name).on_hover_text(about).clicked()
        {
            line.edit(Edit::Swap { line: at, with });
        }
    }
    for other in view::other_slots(line.document, at) {
        let name = format!("List as {}", lower_first(other.title()));
        if word(ui, &name).on_hover_text("The part fills that slot too.").clicked() {
            line.edit(Edit::Relist { line: at, slot: other });
        }
    }
    if word(ui, "Change its record…").on_hover_text("Opens the form of the part in your own catalogue.").clicked() {
        line.commands.push(Command::Enter(Enter::Part(line.fitted.part.clone())));
    }
    if word(ui, "Enter one like it…").on_hover_text("Opens the form of a new part that begins as a copy of this one.").clicked()
    {
        line.commands.push(Command::Enter(Enter::Copy(line.fitted.part.clone())));
    }
    if word(ui, "Take out").on_hover_text("Takes the part out of the list (Ctrl Delete).").clicked() {
        line.edit(Edit::Remove { line: at });
    }
}
