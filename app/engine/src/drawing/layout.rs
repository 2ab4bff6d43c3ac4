//! Where things sit, read from the records: the first part of each slot, and the places that the frame gives.

use propwright_schema::{
    part::{Battery, Camera, Frame, Motor, Propeller, Role, StackPlace},
    pattern::Pattern,
    quantity::Millimetres,
    slot::Slot,
};

use crate::craft::{Craft, Placed};

/// A part in its place with its record.
pub(super) type Found<'a, R> = (&'a Placed, &'a R);

/// The parts that are drawn.
pub(super) struct Layout<'a> {
    pub(super) craft: &'a Craft,
    pub(super) frame: Option<Found<'a, Frame>>,
    pub(super) motor: Option<Found<'a, Motor>>,
    pub(super) propeller: Option<Found<'a, Propeller>>,
    pub(super) pack: Option<Found<'a, Battery>>,
    pub(super) camera: Option<Found<'a, Camera>>,
}

/// The places of the motors.
pub(super) struct Motors {
    /// To the right, forward, and up over the others, in mm.
    pub(super) at: Vec<[f64; 3]>,
    /// Does the frame's record give them? Otherwise they are assumed on a square.
    pub(super) stated: bool,
}

impl<'a> Layout<'a> {
    pub(super) fn of(craft: &'a Craft) -> Self {
        Self {
            craft,
            frame: first(craft, Slot::Frame, |role| match role {
                Role::Frame(frame) => Some(&**frame),
                _ => None,
            }),
            motor: first(craft, Slot::Motor, |role| match role {
                Role::Motor(motor) => Some(&**motor),
                _ => None,
            }),
            propeller: first(craft, Slot::Propeller, |role| match role {
                Role::Propeller(propeller) => Some(&**propeller),
                _ => None,
            }),
            pack: first(craft, Slot::Battery, |role| match role {
                Role::Battery(pack) => Some(&**pack),
                _ => None,
            }),
            camera: first(craft, Slot::Camera, |role| match role {
                Role::Camera(camera) => Some(&**camera),
                _ => None,
            }),
        }
    }

    /// The motors' places; `None` when nothing tells them.
    pub(super) fn motors(&self) -> Option<Motors> {
        let (_, frame) = self.frame?;
        if let Some(places) = &frame.motors {
            let place = |x: Option<Millimetres>, y: Option<Millimetres>, z| Some([mm(x)?, mm(y)?, mm(z).unwrap_or(0.0)]);
            let at: Option<Vec<_>> = places.iter().map(|at| place(at.x_mm, at.y_mm, at.z_mm)).collect();
            return at.filter(|at| !at.is_empty()).map(|at| Motors { at, stated: true });
        }
        let four = self.motor.is_none_or(|(placed, _)| placed.fitted.count == 4);
        let half = mm(frame.wheelbase_mm)? / (2.0 * std::f64::consts::SQRT_2);
        let corners = [[-half, half, 0.0], [half, half, 0.0], [half, -half, 0.0], [-half, -half, 0.0]];
        four.then(|| Motors { at: corners.to_vec(), stated: false })
    }

    /// The boards with hole patterns, from the plate upward, each with the place of the frame that has its holes.
    pub(super) fn boards(&self) -> Vec<Board<'a>> {
        let mut boards = Vec::new();
        for slot in [Slot::PowerBoard, Slot::Esc, Slot::FlightController, Slot::VideoTransmitter] {
            let Some(placed) = self.craft.in_slot(slot).first() else { continue };
            let Some(role) = placed.subject.part.role(slot) else { continue };
            let (pattern, height) = match role {
                Role::PowerBoard(board) => (board.pattern, None),
                Role::Esc(board) => (board.pattern, board.height_mm),
                Role::FlightController(board) => (board.pattern, board.height_mm),
                Role::VideoTransmitter(board) => (board.pattern, board.height_mm),
                _ => (None, None),
            };
            if let Some(pattern) = pattern.filter(|_| placed.listed_here) {
                boards.push(Board { placed, pattern, height_mm: mm(height), place: self.stack(pattern) });
            }
        }
        boards
    }

    /// The first place of the frame with the pattern's holes.
    fn stack(&self, pattern: Pattern) -> Option<&'a StackPlace> {
        let places = self.frame?.1.stacks.as_ref()?;
        places.iter().find(|place| place.pattern == Some(pattern))
    }
}

/// A board that is screwed to a place of the frame.
pub(super) struct Board<'a> {
    pub(super) placed: &'a Placed,
    pub(super) pattern: Pattern,
    pub(super) height_mm: Option<f64>,
    /// Absent when the frame has no place with such holes, or states none.
    pub(super) place: Option<&'a StackPlace>,
}

impl Board<'_> {
    /// Middle of its place, right and forward of the frame's middle, and whether the record says so; unstated coordinates
    /// are taken as the middle.
    pub(super) fn middle(&self) -> Option<([f64; 2], bool)> {
        let place = self.place?;
        let (x, y) = (mm(place.x_mm), mm(place.y_mm));
        Some(([x.unwrap_or(0.0), y.unwrap_or(0.0)], x.is_some() && y.is_some()))
    }
}

fn first<'a, R>(craft: &'a Craft, slot: Slot, record: impl Fn(&'a Role) -> Option<&'a R>) -> Option<Found<'a, R>> {
    let placed = craft.in_slot(slot).first()?;
    Some((placed, record(placed.subject.part.role(slot)?)?))
}

/// A length in mm, where it is published.
pub(super) fn mm(length: Option<Millimetres>) -> Option<f64> {
    length.map(Millimetres::decimal)
}
