//! The craft as a drawing: shapes in millimetres with a role and a slot, seen from above and from the side.
//!
//! Only what a record states is drawn as stated. What can be placed by an assumption alone (four motors on a square of the
//! frame's wheelbase) is drawn as not stated, with a note; what cannot is left out, with a note.

mod balance;
pub mod layers;
mod layout;
mod shape;
mod side;
#[cfg(test)]
mod tests;
mod top;

pub use shape::{Drawing, Geometry, Point, Role, Shape};
pub use side::side_view;
pub use top::top_view;

use crate::craft::Placed;

/// A drawing in the making.
struct Sheet(Drawing);

impl Sheet {
    fn new(title: &str) -> Self {
        Self(Drawing { title: title.to_owned(), ..Drawing::default() })
    }

    /// Adds a shape of a part; `more` says what its name alone does not.
    fn part(&mut self, placed: &Placed, more: &str, role: Role, stated: bool, geometry: Geometry) {
        let subject = &placed.subject;
        let more = if more.is_empty() { String::new() } else { format!(", {more}") };
        let name = format!("{}: {}{more}", subject.slot.title(), subject.part.name);
        self.0.shapes.push(Shape { geometry, role, slot: Some(subject.slot), name, stated });
    }

    /// Adds words or measures that belong to no part.
    fn note_at(&mut self, geometry: Geometry) {
        self.0.shapes.push(Shape { geometry, role: Role::Note, slot: None, name: String::new(), stated: true });
    }

    /// Says what is not drawn, or drawn on an assumption; the same once.
    fn note(&mut self, text: String) {
        if !self.0.notes.contains(&text) {
            self.0.notes.push(text);
        }
    }
}
