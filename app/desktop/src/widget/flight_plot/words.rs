//! Words within a chart, put where they cover neither one another nor the edge.

use std::sync::Arc;

use egui::{Align2, Color32, Galley, Painter, Pos2, Rect};

use super::small;

/// The words so far.
pub(super) struct Words<'a> {
    painter: &'a Painter,
    field: Rect,
    taken: Vec<Rect>,
    curves: Vec<Pos2>,
}

impl<'a> Words<'a> {
    /// No words yet; `taken` are the places of the marks, `curves` points of the curves.
    pub(super) const fn new(painter: &'a Painter, field: Rect, taken: Vec<Rect>, curves: Vec<Pos2>) -> Self {
        Self { painter, field, taken, curves }
    }

    /// Writes `text` at the first of the places that is free; not at all where none is: the cursor tells it.
    pub(super) fn write(&mut self, text: &str, tone: Color32, ground: Color32, places: &[(Pos2, Align2)]) {
        let galley: Arc<Galley> = self.painter.layout_no_wrap(text.to_owned(), small(), tone);
        let rects = places.iter().map(|(at, align)| align.anchor_size(*at, galley.size()));
        let free = |rect: &Rect| self.field.contains_rect(*rect) && self.taken.iter().all(|other| !other.intersects(*rect));
        let rects: Vec<Rect> = rects.filter(free).collect();
        // Better beside the curves than on them.
        let clear = |rect: &&Rect| !self.curves.iter().any(|point| rect.contains(*point));
        let Some(rect) = rects.iter().find(clear).or(rects.first()).copied() else { return };
        self.painter.rect_filled(rect.expand2(egui::vec2(1.0, -1.0)), 2.0, ground);
        self.painter.galley(rect.min, galley, tone);
        self.taken.push(rect.expand(1.0));
    }
}
