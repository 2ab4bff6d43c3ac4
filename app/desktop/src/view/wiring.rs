//! What a line of the list can be wired to: what the boards of the craft offer, and who has it already.

use std::collections::BTreeSet;

use propwright_engine::explain;
use propwright_schema::{
    build_list::Feed,
    part::{Rail, Role},
    slot::Slot,
};

use super::findings::lower_first;
use crate::state::Document;

/// One thing that can be chosen.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer<T> {
    /// What is chosen; absent for "not said".
    pub value: Option<T>,
    /// Its words.
    pub words: String,
    /// What there is to know about it: volts and current, or who has it already; empty for nothing.
    pub aside: String,
}

fn offer<T>(value: Option<T>, words: impl Into<String>, aside: impl Into<String>) -> Offer<T> {
    Offer { value, words: words.into(), aside: aside.into() }
}

/// What a line can be fed from.
pub fn feeds(document: &Document, line: usize) -> Vec<Offer<Feed>> {
    let mut offers = vec![offer(None, "not said", ""), offer(Some(Feed::Pack), "the pack", "")];
    for (slot, board, rail) in rails(document) {
        let Some(name) = &rail.name else { continue };
        let feed = Feed::Rail(name.clone());
        if offers.iter().any(|offer| offer.value.as_ref() == Some(&feed)) {
            continue;
        }
        let volts = rail.volts_v.map(|volts| volts.to_string());
        let amps = rail.current_a.map(|amps| amps.to_string());
        let whose = Some(format!("{}, {board}", lower_first(slot.title())));
        let others = users(document, line, |fitted| fitted.feed.as_ref() == Some(&feed));
        let load = (!others.is_empty()).then(|| format!("feeds {}", others.join(", ")));
        let aside = [volts, amps, whose, load].into_iter().flatten().collect::<Vec<_>>().join(" · ");
        offers.push(offer(Some(feed), format!("rail {name}"), aside));
    }
    offers.push(offer(Some(Feed::Partner), "its partner", "such as a camera by its transmitter"));
    offers.push(offer(Some(Feed::Own), "a battery of its own", ""));
    if let Some(Feed::Rail(name)) = document.build.parts.get(line).and_then(|fitted| fitted.feed.as_ref()) {
        let feed = Feed::Rail(name.clone());
        if !offers.iter().any(|offer| offer.value.as_ref() == Some(&feed)) {
            offers.push(offer(Some(feed), format!("rail {name}"), "no board offers it"));
        }
    }
    offers
}

/// The rails of the boards, in the order in which a rail is looked up by its name.
fn rails(document: &Document) -> Vec<(Slot, String, Rail)> {
    let mut found = Vec::new();
    for slot in [Slot::FlightController, Slot::Regulator, Slot::PowerBoard, Slot::Esc] {
        for placed in document.craft.in_slot(slot) {
            let rails = match placed.subject.part.role(slot) {
                Some(Role::FlightController(board)) => board.rails.as_deref(),
                Some(Role::Esc(board)) => board.rails.as_deref(),
                Some(Role::Regulator(board)) => board.rails.as_deref(),
                Some(Role::PowerBoard(board)) => board.rails.as_deref(),
                _ => None,
            };
            let board = &placed.subject.part.name;
            found.extend(rails.into_iter().flatten().map(|rail| (slot, board.clone(), rail.clone())));
        }
    }
    found
}

/// The serial ports of the flight controller.
pub fn ports(document: &Document, line: usize) -> Vec<Offer<u32>> {
    let mut offers = vec![offer(None, "not said", "")];
    for placed in document.craft.in_slot(Slot::FlightController) {
        let Some(Role::FlightController(board)) = placed.subject.part.role(Slot::FlightController) else { continue };
        for uart in board.uarts.iter().flatten() {
            let Some(number) = uart.number.filter(|number| offers.iter().all(|offer| offer.value != Some(*number))) else {
                continue;
            };
            let others = users(document, line, |fitted| fitted.uart == Some(number));
            let aside = if uart.taken == Some(true) {
                "taken on the board".to_owned()
            } else if others.is_empty() {
                match (uart.rx, uart.tx) {
                    (Some(false), _) => "sends only".to_owned(),
                    (_, Some(false)) => "receives only".to_owned(),
                    _ => String::new(),
                }
            } else {
                format!("taken by {}", others.join(", "))
            };
            offers.push(offer(Some(number), format!("serial {number}"), aside));
        }
    }
    if let Some(number) = document.build.parts.get(line).and_then(|fitted| fitted.uart)
        && offers.iter().all(|offer| offer.value != Some(number))
    {
        offers.push(offer(Some(number), format!("serial {number}"), "the board has none of this number"));
    }
    offers
}

/// What the flight controller has for motors, and who has which: "The board has outputs 1 to 8; 5 is taken by …".
pub fn outputs(document: &Document, line: usize) -> Option<String> {
    let placed = document.craft.in_slot(Slot::FlightController).first()?;
    let Some(Role::FlightController(board)) = placed.subject.part.role(Slot::FlightController) else { return None };
    let has = board.outputs.map_or_else(
        || "how many outputs the board has is not published".to_owned(),
        |outputs| format!("the board has 1 to {outputs}"),
    );
    let others: Vec<String> = document
        .build
        .parts
        .iter()
        .enumerate()
        .filter(|(at, _)| *at != line)
        .filter_map(|(_, fitted)| {
            let taken = explain::value(&propwright_schema::value::Describe::value(fitted.outputs.as_ref()?));
            Some(format!("{taken} taken by {}", lower_first(fitted.slot.title())))
        })
        .collect();
    Some(std::iter::once(has).chain(others).collect::<Vec<_>>().join("; "))
}

/// The free outputs of the board, as many as the line lists, lowest first; `None` when they do not suffice.
pub fn free_outputs(document: &Document, line: usize) -> Option<Vec<u32>> {
    let placed = document.craft.in_slot(Slot::FlightController).first()?;
    let Some(Role::FlightController(board)) = placed.subject.part.role(Slot::FlightController) else { return None };
    let others = document.build.parts.iter().enumerate().filter(|(at, _)| *at != line);
    let taken: BTreeSet<u32> = others.filter_map(|(_, fitted)| fitted.outputs.clone()).flatten().collect();
    let count = usize::try_from(document.build.parts.get(line)?.count).ok()?;
    let free: Vec<u32> = (1..=board.outputs?).filter(|output| !taken.contains(output)).take(count).collect();
    (free.len() == count).then_some(free)
}

/// The slots of other lines of which something holds.
fn users(document: &Document, line: usize, holds: impl Fn(&propwright_schema::build_list::Fitted) -> bool) -> Vec<String> {
    let others = document.build.parts.iter().enumerate().filter(|(at, fitted)| *at != line && holds(fitted));
    others.map(|(_, fitted)| lower_first(fitted.slot.title())).collect()
}

/// The other slots under which the part of a line can be listed.
pub fn other_slots(document: &Document, line: usize) -> Vec<Slot> {
    let placed = document.craft.of_line(line).find(|placed| placed.listed_here);
    let slots = placed.map(|placed| (placed.subject.slot, &placed.subject.part));
    let each = slots
        .into_iter()
        .flat_map(|(here, part)| part.fills.iter().flat_map(Role::slots).copied().filter(move |slot| *slot != here));
    each.collect()
}

/// The next line of the same slot in each direction: before and behind.
pub fn neighbours(document: &Document, line: usize) -> [Option<usize>; 2] {
    let Some(slot) = document.build.parts.get(line).map(|fitted| fitted.slot) else { return [None, None] };
    let lines: Vec<usize> = document.build.fitted(slot).map(|(at, _)| at).collect();
    let before = lines.iter().copied().rfind(|at| *at < line);
    [before, lines.into_iter().find(|at| *at > line)]
}
