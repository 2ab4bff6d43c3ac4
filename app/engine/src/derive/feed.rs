//! Who is fed from what: the pack, or a rail that a board offers.

use std::sync::Arc;

use propwright_schema::{slot::Slot, value::Value};

use crate::{
    craft::Subject,
    finding::{Because, Datum, Missing, Unknown},
    graph::{ON_BOARD, OWN, PACK, PARTNER, Property, Reading, Site, line, part},
    interval::Interval,
};

/// The slots whose parts are fed from the craft: first those that hang on the pack whatever the list says.
pub(crate) const FED: [Slot; 13] = [
    Slot::Esc,
    Slot::Regulator,
    Slot::PowerBoard,
    Slot::AntiSpark,
    Slot::PackSelector,
    Slot::FlightController,
    Slot::Receiver,
    Slot::Camera,
    Slot::VideoTransmitter,
    Slot::Gps,
    Slot::RemoteId,
    Slot::Finder,
    Slot::Payload,
];
/// How many of them hang on the pack whatever the list says.
pub(crate) const ALWAYS_ON_PACK: usize = 5;

/// The boards that offer rails, in the order in which a rail's name is looked up.
pub(crate) const BOARDS: [Slot; 4] = [Slot::FlightController, Slot::Regulator, Slot::PowerBoard, Slot::Esc];

/// The slots whose records tell one draw.
const DRAWS: [Slot; 7] =
    [Slot::FlightController, Slot::Receiver, Slot::Camera, Slot::Gps, Slot::RemoteId, Slot::Finder, Slot::Payload];

const STANDS_ALONE: Property = part(Slot::RemoteId, "stands_alone");

/// How many properties [`reads`] holds.
pub(crate) const READS: usize = 2 * FED.len() + DRAWS.len() + BOARDS.len() + 2;

/// All that finding out who is fed from what reads, and one property more.
pub(crate) const fn reads(more: Property) -> [Property; READS] {
    let mut reads = [more; READS];
    let mut at = 0;
    while at < FED.len() {
        reads[2 * at] = part(FED[at], "id");
        reads[2 * at + 1] = line(FED[at], "feed");
        at += 1;
    }
    let mut draw = 0;
    while draw < DRAWS.len() {
        reads[2 * FED.len() + draw] = part(DRAWS[draw], "current_a");
        draw += 1;
    }
    let mut board = 0;
    while board < BOARDS.len() {
        reads[2 * FED.len() + DRAWS.len() + board] = part(BOARDS[board], "rails");
        board += 1;
    }
    reads[READS - 2] = STANDS_ALONE;
    reads
}

/// A rail that a board offers.
#[derive(Debug, Clone)]
pub(crate) struct Rail {
    /// The board, with the rail as its detail.
    pub(crate) board: Subject,
    rails: Box<Reading>,
    record: Value,
}

impl Rail {
    /// A figure of the rail with its reason.
    pub(crate) fn figure(&self, field: &'static str) -> Result<(Interval, Arc<Because>), Missing> {
        let missing = || Missing { subject: Some(self.board.clone()), what: Unknown::Field(field) };
        let figure = self.rails.inner_figure(&self.record, field).ok_or_else(missing)?;
        Ok((figure, self.rails.inner(&self.board, field, Datum::Figure(figure))))
    }

    /// A flag of the rail with its reason.
    pub(crate) fn flag(&self, field: &'static str) -> Result<(bool, Arc<Because>), Missing> {
        let missing = || Missing { subject: Some(self.board.clone()), what: Unknown::Field(field) };
        let flag = self.record.field(field).and_then(Value::flag).ok_or_else(missing)?;
        Ok((flag, self.rails.inner(&self.board, field, Datum::Value(Value::Flag(flag)))))
    }
}

/// Where volts come from.
#[derive(Debug, Clone)]
pub(crate) enum Source {
    /// The packs.
    Pack,
    /// A rail.
    Rail(Rail),
}

/// A part that is fed from the craft.
#[derive(Debug, Clone)]
pub(crate) struct Fed {
    /// The part.
    pub(crate) device: Subject,
    /// From where, or what is not known.
    pub(crate) source: Result<Source, Missing>,
    /// The line's word, when it says one.
    pub(crate) because: Option<Arc<Because>>,
    /// How many of it.
    pub(crate) count: u32,
}

/// Every part that is fed from pack or rail; a part on another's board, with its own battery or fed by its partner has no entry.
pub(crate) fn fed(site: &Site) -> Vec<Fed> {
    FED.iter().enumerate().flat_map(|(at, slot)| in_slot(site, *slot, at < ALWAYS_ON_PACK)).collect()
}

fn in_slot(site: &Site, slot: Slot, always_pack: bool) -> Vec<Fed> {
    let feeds = site.all(line(slot, "feed"));
    let each = site.all(part(slot, "id")).into_iter().zip(feeds);
    let of = |(id, feed): (Reading, Reading)| {
        let device = id.subject?;
        let word = feed.word().map(str::to_owned);
        let because = word.is_ok().then(|| feed.because.clone());
        let source = match word {
            Ok(word) if word == ON_BOARD || word == OWN || word == PARTNER => return None,
            _ if always_pack => Ok(Source::Pack),
            Ok(word) if word == PACK => Ok(Source::Pack),
            Ok(rail) => find(site, &device, &rail).map(Source::Rail),
            Err(_) if needs_nothing(site, &device) => return None,
            Err(missing) => Err(missing),
        };
        Some(Fed { device, source, because, count: id.count })
    };
    each.filter_map(of).collect()
}

/// Does its record say that it draws nothing from the craft?
fn needs_nothing(site: &Site, device: &Subject) -> bool {
    let draw = |device: &Subject| site.of(device, part(device.slot, "current_a")).and_then(|draw| draw.figure());
    let draws_nothing = DRAWS.contains(&device.slot) && draw(device).is_ok_and(|draw| draw.high == 0);
    let alone = device.slot == Slot::RemoteId && site.of(device, STANDS_ALONE).and_then(|alone| alone.flag()).unwrap_or(false);
    draws_nothing || alone
}

/// The first rail of that name.
fn find(site: &Site, device: &Subject, name: &str) -> Result<Rail, Missing> {
    let mut unpublished = None;
    for slot in BOARDS {
        for rails in site.all(part(slot, "rails")) {
            match (rails.items(), &rails.subject) {
                (Ok(items), Some(board)) => {
                    let named = |record: &&Value| record.field("name").and_then(Value::word) == Some(name);
                    if let Some(record) = items.iter().find(named) {
                        return Ok(Rail {
                            board: board.with_detail(name),
                            record: record.clone(),
                            rails: Box::new(rails.clone()),
                        });
                    }
                }
                (Err(missing), _) => unpublished = unpublished.or(Some(missing)),
                _ => {}
            }
        }
    }
    let nowhere = Unknown::Infeasible("no board offers the rail that it is fed from".to_owned());
    Err(unpublished.unwrap_or(Missing { subject: Some(device.clone()), what: nowhere }))
}
