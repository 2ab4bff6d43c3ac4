//! How each role is painted, and the words around a drawing.

use std::sync::Arc;

use egui::text::{LayoutJob, TextWrapping};
use egui::{
    Align2, Color32, CornerRadius, Galley, Painter, Pos2, Rect, Shape as Painted, Stroke, StrokeKind, TextFormat, Vec2, pos2,
    vec2,
};
use propwright_engine::drawing::{Drawing, Geometry, Role, Shape};
use propwright_engine::finding::Status;

use super::{CAPTION, Emphasis, GRID, View, scale_length};
use crate::theme::{self, TEXT, Tokens};
use crate::widget::mark;

/// Ground and edge of a shape.
#[derive(Clone, Copy)]
struct Look {
    fill: Color32,
    edge: Stroke,
}

pub(super) fn shapes(
    painter: &Painter,
    view: &View,
    drawing: &Drawing,
    emphasis: &Emphasis,
    named: Option<&Shape>,
    tokens: &Tokens,
) {
    for shape in &drawing.shapes {
        let mut look = look(shape.role, tokens);
        let chosen = shape.slot.is_some() && shape.slot == emphasis.chosen;
        let pointed = named.is_some_and(|named| named.name == shape.name && !shape.name.is_empty());
        let lit = shape.slot.is_some_and(|slot| emphasis.lit.contains(&slot));
        if chosen || pointed || lit {
            look.edge = Stroke::new(look.edge.width.max(1.0) + 1.0, tokens.accent);
        }
        let status = shape.slot.and_then(|slot| emphasis.status.get(&slot)).copied();
        let status = status.filter(|status| *status != Status::Fits && shape.role == Role::Part);
        let place = status.and_then(|_| screen_rect(view, &shape.geometry));
        let narrow = place.is_some_and(|rect| rect.size().min_elem() < 2.0 * mark::SIDE);
        if let (Some(Status::Tight | Status::Mismatch), true) = (status, narrow) {
            look.fill = status.map_or(look.fill, |status| mark::tone(status, tokens));
        }
        if shape.stated {
            one(painter, view, &shape.geometry, look, tokens);
        } else {
            dashed(painter, view, &shape.geometry, look);
        }
        if let (Some(status), Some(rect), false) = (status, place, narrow) {
            let corner = rect.shrink(0.5 * GRID).min;
            let rect = Rect::from_min_size(corner, Vec2::splat(mark::SIDE));
            mark::paint(painter, rect, status, tokens);
        }
    }
}

fn screen_rect(view: &View, geometry: &Geometry) -> Option<Rect> {
    let (min, max) = geometry.bounds()?;
    Some(Rect::from_two_pos(view.screen(min), view.screen(max)))
}

fn look(role: Role, tokens: &Tokens) -> Look {
    let none = Color32::TRANSPARENT;
    let (fill, width, tone) = match role {
        Role::Sweep => (tokens.accent.gamma_multiply(0.07), 1.25, tokens.accent),
        Role::Blade => (none, 2.0, tokens.soft.gamma_multiply(0.5)),
        Role::Duct => (none, 1.25, tokens.soft),
        Role::Arm => (tokens.panel, 1.25, tokens.line),
        Role::Body => (tokens.panel, 1.0, tokens.soft),
        Role::Structure => (tokens.soft, 0.0, tokens.soft),
        Role::Part => (tokens.fill, 1.0, tokens.soft),
        Role::Balance => (none, 1.5, tokens.ink),
        Role::Note => (none, 1.25, tokens.ink),
    };
    Look { fill, edge: Stroke::new(width, tone) }
}

fn one(painter: &Painter, view: &View, geometry: &Geometry, look: Look, tokens: &Tokens) {
    let at = |point: &[f64; 2]| view.screen(*point);
    match geometry {
        Geometry::Circle { center, radius } => {
            painter.circle(at(center), view.length(*radius), look.fill, look.edge);
        }
        Geometry::Polygon { points } => {
            let points: Vec<Pos2> = points.iter().map(at).collect();
            let fill = if convex(&points) { look.fill } else { Color32::TRANSPARENT };
            painter.add(Painted::convex_polygon(points, fill, look.edge));
        }
        Geometry::Line { points, width } => {
            let points: Vec<Pos2> = points.iter().map(at).collect();
            let width = view.length(*width).max(look.edge.width);
            painter.line(points.clone(), Stroke::new(width, look.edge.color));
            let within = width - 2.0 * look.edge.width;
            if within > 0.0 && look.fill != Color32::TRANSPARENT {
                painter.line(points, Stroke::new(within, look.fill));
            }
        }
        Geometry::Rect { min, max, corner } => {
            let rect = Rect::from_two_pos(at(min), at(max));
            let corner = CornerRadius::from(view.length(*corner));
            painter.rect(rect, corner, look.fill, look.edge, StrokeKind::Middle);
        }
        Geometry::Text { at: place, text, room } => {
            let galley = painter.layout_no_wrap(text.clone(), theme::regular(CAPTION), tokens.soft);
            if *room <= 0.0 || galley.size().x <= view.length(*room) {
                painter.galley(at(place) - galley.size() / 2.0, galley, tokens.soft);
            }
        }
        Geometry::Dimension { from, to, text, note } => {
            dimension(painter, [at(from), at(to)], text, note, tokens);
        }
    }
}

/// The outline in dashes: what is assumed, not published.
fn dashed(painter: &Painter, view: &View, geometry: &Geometry, look: Look) {
    let points: Vec<[f64; 2]> = match geometry {
        Geometry::Circle { center, radius } => around(*center, *radius),
        Geometry::Polygon { points } => points.iter().chain(points.first()).copied().collect(),
        Geometry::Line { points, .. } => points.clone(),
        Geometry::Rect { min, max, .. } => vec![*min, [max[0], min[1]], *max, [min[0], max[1]], *min],
        Geometry::Text { .. } | Geometry::Dimension { .. } => Vec::new(),
    };
    let points: Vec<Pos2> = points.into_iter().map(|point| view.screen(point)).collect();
    let edge = Stroke::new(look.edge.width.max(1.0), look.edge.color);
    painter.extend(Painted::dashed_line(&points, edge, 1.5 * GRID, GRID));
}

/// A circle as a closed line of short pieces.
fn around(center: [f64; 2], radius: f64) -> Vec<[f64; 2]> {
    let point = |step: u32| {
        let (sin, cos) = (std::f64::consts::TAU * f64::from(step) / 64.0).sin_cos();
        [center[0] + radius * cos, center[1] + radius * sin]
    };
    (0..=64).map(point).collect()
}

/// A line with a short stroke across each end, the figure above it or to its right.
fn dimension(painter: &Painter, ends: [Pos2; 2], text: &str, note: &str, tokens: &Tokens) {
    let stroke = Stroke::new(1.25, tokens.ink);
    let across = (ends[1] - ends[0]).normalized().rot90() * 1.5 * GRID;
    painter.line_segment(ends, stroke);
    for end in ends {
        painter.line_segment([end - across, end + across], stroke);
    }
    Words::of(painter, ends, text, note, tokens).paint(painter, tokens);
}

/// The figure of a dimension in bold, with its note below.
struct Words {
    figure: Arc<Galley>,
    note: Arc<Galley>,
    anchor: Align2,
    rect: Rect,
}

impl Words {
    fn of(painter: &Painter, ends: [Pos2; 2], text: &str, note: &str, tokens: &Tokens) -> Self {
        let figure = painter.layout_no_wrap(text.to_owned(), theme::bold(TEXT), tokens.ink);
        let note = painter.layout_no_wrap(note.to_owned(), theme::regular(CAPTION), tokens.soft);
        let note_size = if note.text().is_empty() { Vec2::ZERO } else { note.size() };
        let width = figure.size().x.max(note_size.x);
        let size = vec2(width, figure.size().y + note_size.y);
        let along = ends[1] - ends[0];
        let middle = ends[0] + along / 2.0;
        let (place, anchor) = if along.y.abs() > along.x.abs() {
            (middle + vec2(2.0 * GRID, 0.0), Align2::LEFT_CENTER)
        } else {
            (middle - vec2(0.0, 2.0 * GRID), Align2::CENTER_BOTTOM)
        };
        Self { figure, note, anchor, rect: anchor.anchor_size(place, size) }
    }

    /// On a ground that keeps lines out of the letters.
    fn paint(self, painter: &Painter, tokens: &Tokens) {
        let ground = tokens.paper.gamma_multiply(0.85);
        painter.rect_filled(self.rect.expand2(vec2(2.0, 0.0)), 2.0, ground);
        let mut top = self.rect.top();
        for (galley, tone) in [(self.figure, tokens.ink), (self.note, tokens.soft)] {
            let free = self.rect.width() - galley.size().x;
            let left = self.rect.left() + free * self.anchor.x().to_factor();
            let height = galley.size().y;
            painter.galley(pos2(left, top), galley, tone);
            top += height;
        }
    }
}

/// What the words of all dimensions cover.
pub(super) fn words_extent(painter: &Painter, view: &View, drawing: &Drawing) -> Rect {
    let tokens = Tokens::default();
    let mut extent = Rect::NOTHING;
    for shape in &drawing.shapes {
        if let Geometry::Dimension { from, to, text, note } = &shape.geometry {
            let ends = [view.screen(*from), view.screen(*to)];
            extent |= Words::of(painter, ends, text, note, &tokens).rect;
        }
    }
    extent
}

/// A bracket of a round length at the lower left.
pub(super) fn scale_line(painter: &Painter, view: &View, field: Rect, tokens: &Tokens) {
    let mm = scale_length(view.scale, (field.width() * 0.3).min(40.0 * GRID));
    let length = view.length(mm);
    let stroke = Stroke::new(1.5, tokens.ink);
    let y = painter.round_to_pixel_center(field.bottom() - 1.5 * GRID);
    let left = field.left() + 2.0 * GRID;
    painter.hline(left..=left + length, y, stroke);
    for end in [left, left + length] {
        painter.vline(end, y - GRID..=y + GRID, stroke);
    }
    let middle = pos2(left + length / 2.0, y - GRID);
    let font = theme::regular(CAPTION);
    let text = format!("{mm} mm");
    painter.text(middle, Align2::CENTER_BOTTOM, text, font, tokens.soft);
}

/// The title with its scale at the left, the name of what is pointed at, or how to learn it, at the right.
pub(super) fn head(painter: &Painter, rect: Rect, title: &str, said: &str, pointed: bool, tokens: &Tokens) {
    let font = theme::regular(CAPTION);
    let left = rect.min + vec2(GRID, GRID);
    let used = painter.text(left, Align2::LEFT_TOP, title, font.clone(), tokens.soft);
    let tone = if pointed { tokens.ink } else { tokens.soft };
    let format = TextFormat::simple(font, tone);
    let mut job = LayoutJob::single_section(said.to_owned(), format);
    let room = rect.right() - GRID - used.right() - 4.0 * GRID;
    job.wrap = TextWrapping::truncate_at_width(room.max(0.0));
    let galley = painter.layout_job(job);
    let right = pos2(rect.right() - GRID - galley.size().x, left.y);
    painter.galley(right, galley, tone);
}

pub(super) fn focus(painter: &Painter, rect: Rect, tokens: &Tokens) {
    let edge = Stroke::new(1.0, tokens.accent);
    painter.rect_stroke(rect, 4.0, edge, StrokeKind::Inside);
}

/// Whether all corners turn the same way.
fn convex(points: &[Pos2]) -> bool {
    let count = points.len();
    let turn = |i: usize| {
        let (a, b, c) = (points[i], points[(i + 1) % count], points[(i + 2) % count]);
        let (u, v) = (b - a, c - b);
        u.x * v.y - u.y * v.x
    };
    let turns: Vec<f32> = (0..count).map(turn).collect();
    turns.iter().all(|t| *t >= 0.0) || turns.iter().all(|t| *t <= 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_convex_outlines_are_filled() {
        let square = [pos2(0.0, 0.0), pos2(1.0, 0.0), pos2(1.0, 1.0), pos2(0.0, 1.0)];
        assert!(convex(&square));
        let hook = [pos2(0.0, 0.0), pos2(2.0, 0.0), pos2(0.5, 0.5), pos2(0.0, 2.0)];
        assert!(!convex(&hook));
    }
}
