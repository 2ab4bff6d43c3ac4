//! The boards that stand on the posts of a frame, and the places for them: what the rules about stacks read.

use propwright_schema::{slot::Slot, value::Value};

use crate::{
    finding::Missing,
    graph::{Property, Reading, Site, part},
};

/// Hole pattern of the flight controller.
pub(crate) const FLIGHT_CONTROLLER: Property = part(Slot::FlightController, "pattern");
/// Hole pattern of the speed controller.
pub(crate) const ESC: Property = part(Slot::Esc, "pattern");
/// Channels of the speed controller: one with a single channel lies on its arm.
pub(crate) const CHANNELS: Property = part(Slot::Esc, "channels");
/// Hole pattern of the power board.
pub(crate) const POWER_BOARD: Property = part(Slot::PowerBoard, "pattern");
/// The frame's places for boards.
pub(crate) const PLACES: Property = part(Slot::Frame, "stacks");

/// All boards with their hole patterns, each board once whatever it is besides.
pub(crate) fn boards(site: &Site) -> Vec<Reading> {
    let mut boards = site.all(FLIGHT_CONTROLLER);
    let speed = site.all(ESC).into_iter().zip(site.all(CHANNELS)).filter(|(esc, channels)| stands(esc, channels));
    let others: Vec<Reading> = speed.map(|(esc, _)| esc).chain(site.all(POWER_BOARD)).collect();
    for other in others {
        match boards.iter_mut().find(|board| same_board(board, &other)) {
            // One board with two roles may print its pattern in either.
            Some(board) if board.known.is_err() => *board = other,
            Some(_) => {}
            None => boards.push(other),
        }
    }
    boards
}

/// Does a speed controller stand on posts?
fn stands(esc: &Reading, channels: &Reading) -> bool {
    let several = channels.figure().map_or(esc.count == 1, |channels| channels.nominal > 1);
    esc.known.is_ok() || several
}

/// Is it one part in two roles?
pub(crate) fn same_board(one: &Reading, other: &Reading) -> bool {
    match (&one.subject, &other.subject) {
        (Some(one), Some(other)) => one.slot != other.slot && one.part.id == other.part.id,
        _ => false,
    }
}

/// A place for boards, as far as it is published.
#[derive(Debug, Clone)]
pub(crate) struct Place {
    /// Its hole pattern.
    pub(crate) pattern: Option<Value>,
}

/// The places of a frame.
///
/// # Errors
/// When nobody published them.
pub(crate) fn places(stacks: &Reading) -> Result<Vec<Place>, Missing> {
    let place = |record: &Value| Place { pattern: record.field("pattern").cloned() };
    Ok(stacks.items()?.iter().map(place).collect())
}
