//! The boards on the posts of a frame: which there are, where they stand, how high they stack.

use propwright_schema::{
    quantity::{Mm, Unit},
    slot::Slot,
    value::Value,
};

use super::Derivation;
use crate::{
    craft::Subject,
    finding::{Datum, Missing, Unknown},
    graph::{Derived, Property, Reading, Site, part},
    interval::Interval,
};

/// The frame's places for boards.
pub(crate) const PLACES: Property = part(Slot::Frame, "stacks");
/// Hole patterns for a video transmitter away from the stack.
pub(crate) const VIDEO_PLACES: Property = part(Slot::Frame, "video_patterns");
/// Hole pattern of the video transmitter.
pub(crate) const VIDEO: Property = part(Slot::VideoTransmitter, "pattern");
const VIDEO_HEIGHT: Property = part(Slot::VideoTransmitter, "height_mm");
const CHANNELS: Property = part(Slot::Esc, "channels");

/// The slots whose boards stand on the posts.
const STACKED: [Slot; 3] = [Slot::FlightController, Slot::Esc, Slot::PowerBoard];

/// All that [`boards`] and [`places`] read.
pub(crate) const READS: &[Property] = &[
    part(Slot::FlightController, "pattern"),
    part(Slot::FlightController, "hole_mm"),
    part(Slot::FlightController, "height_mm"),
    part(Slot::Esc, "pattern"),
    part(Slot::Esc, "hole_mm"),
    part(Slot::Esc, "height_mm"),
    part(Slot::PowerBoard, "pattern"),
    part(Slot::PowerBoard, "hole_mm"),
    part(Slot::PowerBoard, "height_mm"),
    CHANNELS,
    PLACES,
];

/// All that the heights of stacks follow from: [`READS`] and the video transmitter.
pub(crate) const HEIGHT_READS: &[Property] = &[
    READS[0],
    READS[1],
    READS[2],
    READS[3],
    READS[4],
    READS[5],
    READS[6],
    READS[7],
    READS[8],
    CHANNELS,
    PLACES,
    VIDEO_PLACES,
    VIDEO,
    VIDEO_HEIGHT,
];

/// Height of the boards in each place that holds some.
pub(crate) const HEIGHT: Derivation = Derivation {
    id: "stack-height",
    title: "height of the boards in one place",
    formula: "sum of the boards' heights with grommets; each board in the place where it leaves least room over",
    source: "algebra",
    reads: HEIGHT_READS,
    run: |site| stacks(site).into_iter().map(Stack::height).collect(),
};

/// Clear height of each place that holds boards, in the order of `stack-height`.
pub(crate) const ROOM: Derivation = Derivation {
    id: "stack-room",
    title: "clear height for boards",
    formula: "as published",
    source: "the frame's record",
    reads: HEIGHT_READS,
    run: |site| stacks(site).into_iter().map(Stack::room).collect(),
};

/// A board that stands on posts.
#[derive(Debug, Clone)]
pub(crate) struct Board {
    /// Its hole pattern.
    pub(crate) pattern: Reading,
    /// Diameter of its holes.
    pub(crate) hole: Reading,
    /// Its height with grommets.
    pub(crate) height: Reading,
}

impl Board {
    /// One board with two roles may print a figure in either.
    fn or(&mut self, other: Self) {
        let take = |mine: &mut Reading, theirs: Reading| {
            if mine.known.is_err() {
                *mine = theirs;
            }
        };
        take(&mut self.pattern, other.pattern);
        take(&mut self.hole, other.hole);
        take(&mut self.height, other.height);
    }

    /// Is it this part, in whatever role?
    pub(crate) fn is(&self, subject: Option<&Subject>) -> bool {
        let ids = (self.pattern.subject.as_ref(), subject);
        matches!(ids, (Some(one), Some(other)) if one.slot != other.slot && one.part.id == other.part.id)
    }
}

/// All boards on posts, each once whatever it is besides. A speed controller with one channel lies on its arm.
pub(crate) fn boards(site: &Site) -> Vec<Board> {
    let channels = site.all(CHANNELS);
    let mut boards: Vec<Board> = Vec::new();
    for slot in STACKED {
        let [patterns, holes, heights] = ["pattern", "hole_mm", "height_mm"].map(|field| site.all(part(slot, field)));
        for (at, ((pattern, hole), height)) in patterns.into_iter().zip(holes).zip(heights).enumerate() {
            let board = Board { pattern, hole, height };
            match boards.iter_mut().find(|known| known.is(board.pattern.subject.as_ref())) {
                Some(known) => known.or(board),
                None if slot != Slot::Esc || stands(&board.pattern, channels.get(at)) => boards.push(board),
                None => {}
            }
        }
    }
    boards
}

/// Does a speed controller stand on posts?
fn stands(pattern: &Reading, channels: Option<&Reading>) -> bool {
    let channels = channels.and_then(|channels| channels.figure().ok());
    pattern.known.is_ok() || channels.map_or(pattern.count == 1, |channels| channels.nominal > 1)
}

/// A place for boards, as far as it is published.
#[derive(Debug, Clone)]
pub(crate) struct Place {
    /// Its hole pattern.
    pub(crate) pattern: Option<Value>,
    /// Diameter of its posts.
    pub(crate) hole: Option<Interval>,
    /// Its clear height.
    pub(crate) height: Option<Interval>,
}

/// The places of a frame.
///
/// # Errors
/// When nobody published them.
pub(crate) fn places(stacks: &Reading) -> Result<Vec<Place>, Missing> {
    let figure = |record: &Value, field| record.field(field).and_then(Interval::of);
    let place = |record: &Value| Place {
        pattern: record.field("pattern").cloned(),
        hole: figure(record, "hole_mm"),
        height: figure(record, "height_mm"),
    };
    Ok(stacks.items()?.iter().map(place).collect())
}

/// A place with the boards that stand in it.
struct Stack {
    frame: Reading,
    place: Place,
    boards: Vec<Reading>,
}

impl Stack {
    /// The frame, with the pattern of the place.
    fn subject(&self) -> Option<Subject> {
        let pattern = self.place.pattern.as_ref().and_then(Value::word);
        self.frame.subject.as_ref().map(|frame| pattern.map_or_else(|| frame.clone(), |pattern| frame.with_detail(pattern)))
    }

    fn sum(&self) -> Result<Interval, Missing> {
        self.boards.iter().try_fold(Interval::exact(0, &Mm::INFO), |sum, height| Ok(sum.plus(height.figure()?)))
    }

    fn spare(&self) -> i64 {
        let height: i64 = self.boards.iter().filter_map(|height| Some(height.figure().ok()?.nominal)).sum();
        self.place.height.map_or(0, |room| room.nominal.saturating_sub(height))
    }

    fn height(self) -> Derived {
        let (subject, known) = (self.subject(), self.sum().map(Datum::Figure));
        Derived { subject, known, from: self.boards.into_iter().map(|height| height.because).collect(), count: 1 }
    }

    fn room(self) -> Derived {
        let unknown = || Missing { subject: self.subject(), what: Unknown::Field("stacks.height_mm") };
        let known = self.place.height.map(Datum::Figure).ok_or_else(unknown);
        Derived { subject: self.subject(), known, from: vec![self.frame.because], count: 1 }
    }
}

/// The places that hold boards. A board without posts of its own stands nowhere; that is another rule's finding.
fn stacks(site: &Site) -> Vec<Stack> {
    let Ok(frame) = site.one(PLACES) else { return Vec::new() };
    let Ok(places) = places(&frame) else { return Vec::new() };
    let mut stacks: Vec<Stack> =
        places.into_iter().map(|place| Stack { frame: frame.clone(), place, boards: Vec::new() }).collect();
    let mut heights = heights(site);
    // The highest first: what is left over then fills the gaps.
    heights.sort_by_key(|(_, height)| std::cmp::Reverse(height.figure().map_or(0, |height| height.nominal)));
    for (pattern, height) in heights {
        let asked = height.figure().map_or(0, |height| height.nominal);
        let matching = stacks.iter_mut().filter(|stack| stack.place.pattern.as_ref() == Some(&pattern));
        // The snuggest place with room; where none has room, the roomiest.
        let best = matching.min_by_key(|stack| match stack.spare() - asked {
            left @ 0.. => (false, left),
            short => (true, -short),
        });
        if let Some(stack) = best {
            stack.boards.push(height);
        }
    }
    stacks.retain(|stack| !stack.boards.is_empty());
    stacks
}

/// Pattern and height of each board on the posts; the video transmitter is one where the frame has no place of its own for it.
fn heights(site: &Site) -> Vec<(Value, Reading)> {
    let boards = boards(site);
    let apart = site.one(VIDEO_PLACES).ok();
    let apart = apart.as_ref().and_then(|patterns| patterns.items().ok()).unwrap_or(&[]);
    let video = site.all(VIDEO).into_iter().zip(site.all(VIDEO_HEIGHT));
    let loose = video.filter(|(pattern, _)| !boards.iter().any(|board| board.is(pattern.subject.as_ref())));
    let standing = loose.filter(|(pattern, _)| pattern.value().is_ok_and(|pattern| !apart.contains(pattern)));
    let all = boards.iter().map(|board| (board.pattern.clone(), board.height.clone())).chain(standing);
    all.filter_map(|(pattern, height)| Some((pattern.value().ok()?.clone(), height))).collect()
}
