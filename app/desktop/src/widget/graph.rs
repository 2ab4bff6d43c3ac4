//! The graph: slots at the left, rules at the right; moved and enlarged with mouse or keys, one path lit.
//!
//! The wheel or + and − enlarge, dragging or the arrow keys move, 0 shows all of it. What the mouse is over is named.

use std::collections::BTreeSet;

use egui::{
    Align2, EventFilter, Key, Pos2, Rect, Response, Role, Sense, Shape, Stroke, StrokeKind, Ui, Vec2, WidgetInfo,
    epaint::CubicBezierShape, pos2, vec2,
};
use propwright_engine::{
    drawing::layers::{Layered, ROW},
    graph::{Kind, Picture},
};

use crate::theme::{self, CAPTION, GRID, Tokens};

/// Names are drawn from this many points a row on.
const LEGIBLE: f32 = 11.0;
/// Points a unit of the layout at which a row is as high as a line of text.
const NATURAL: f32 = 10.0;
/// The least and the greatest enlargement.
const RANGE: (f32, f32) = (0.5, 30.0);
/// Share of a layer's distance that a name takes.
const NAME: f32 = 13.5;

/// The most that a graph is drawn wider than high, so that its layers take the whole width.
const WIDEST: f32 = 4.0;

/// How the graph is looked at: points a unit of height, how much wider a unit of width is, and where its upper left corner lies.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Look {
    scale: f32,
    stretch: f32,
    corner: Vec2,
}

impl Look {
    /// Room for a name beside its mark.
    const fn room(self) -> f32 {
        NAME * self.scale * self.stretch
    }
}

/// Paints the graph over all the room there is; the name of a rule that was clicked is returned.
pub fn graph(ui: &mut Ui, picture: &Picture, layered: &Layered, lit: &BTreeSet<usize>) -> Option<String> {
    let (rect, response) = ui.allocate_exact_size(ui.available_size(), Sense::click_and_drag());
    let id = response.id.with(picture.dots.len());
    let start = whole(rect, layered);
    let look = ui.data(|data| data.get_temp::<Look>(id)).unwrap_or(start);
    let look = moved(ui, &response, look, start);
    ui.data_mut(|data| data.insert_temp(id, look));
    let hovered = response.hover_pos().and_then(|at| nearest(rect, look, layered, at));
    let named = hovered.and_then(|at| picture.dots.get(at));
    if ui.is_rect_visible(rect) {
        paint(ui, rect, look, picture, layered, lit, hovered);
        if response.has_focus() {
            let edge = Stroke::new(2.0, theme::tokens(ui).accent);
            ui.painter().rect_stroke(rect, 4.0, edge, StrokeKind::Inside);
        }
    }
    let words =
        named.map_or_else(|| format!("Graph of {} nodes", picture.dots.len()), |dot| format!("{}: {}", dot.key, dot.title));
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, words.clone()));
    let picked = named.filter(|dot| response.clicked() && dot.kind == Kind::Rule).map(|dot| dot.key.clone());
    if let Some(dot) = named {
        response.on_hover_text(format!("{}\n{}", dot.title, dot.key));
    }
    picked
}

/// All of it, or as much as can be read of it, from the upper left.
fn whole(rect: Rect, layered: &Layered) -> Look {
    let (width, height) = (layered.size.0, layered.size.1 + 2.0);
    let scale = (rect.width() / width.max(1.0)).min(rect.height() / height.max(1.0)).min(NATURAL);
    let spare = rect.size() - vec2(width, height) * scale;
    let stretch = ((rect.width() - 4.0 * GRID) / (width.max(1.0) * scale)).clamp(1.0, WIDEST);
    Look { scale, stretch, corner: vec2(2.0 * GRID, spare.y.max(0.0) / 2.0 + GRID) }
}

fn moved(ui: &Ui, response: &Response, look: Look, start: Look) -> Look {
    let mut look = look;
    // A graph that has just come takes the keys.
    let fresh = response.id.with("came");
    if response.clicked() || !ui.data(|data| data.get_temp::<bool>(fresh).unwrap_or(false)) {
        ui.data_mut(|data| data.insert_temp(fresh, true));
        response.request_focus();
    }
    if response.dragged() {
        look.corner += response.drag_delta();
    }
    if let Some(at) = response.hover_pos() {
        let (wheel, pinch) = ui.input(|input| (input.smooth_scroll_delta.y, input.zoom_delta()));
        let factor = (wheel / 240.0).exp() * pinch;
        look = enlarged(look, factor, at - response.rect.min);
    }
    if response.has_focus() {
        let filter = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
        let pressed = |key| ui.input(|input| input.key_pressed(key));
        let step = 12.0 * GRID;
        let keys = [
            (Key::ArrowLeft, vec2(step, 0.0)),
            (Key::ArrowRight, vec2(-step, 0.0)),
            (Key::ArrowUp, vec2(0.0, step)),
            (Key::ArrowDown, vec2(0.0, -step)),
        ];
        for (_, by) in keys.iter().filter(|(key, _)| pressed(*key)) {
            look.corner += *by;
        }
        let middle = response.rect.size() / 2.0;
        if pressed(Key::Plus) || pressed(Key::Equals) {
            look = enlarged(look, 1.25, middle);
        }
        if pressed(Key::Minus) {
            look = enlarged(look, 0.8, middle);
        }
        if pressed(Key::Num0) {
            look = start;
        }
    }
    look
}

/// Enlarged about a point, which stays where it is.
fn enlarged(look: Look, factor: f32, about: Vec2) -> Look {
    let scale = (look.scale * factor).clamp(RANGE.0, RANGE.1);
    Look { scale, corner: about - (about - look.corner) * (scale / look.scale), ..look }
}

fn point(rect: Rect, look: Look, at: (f32, f32)) -> Pos2 {
    rect.min + look.corner + vec2(at.0 * look.stretch, at.1 + ROW / 2.0) * look.scale
}

/// The node whose mark or name is under the mouse.
fn nearest(rect: Rect, look: Look, layered: &Layered, mouse: Pos2) -> Option<usize> {
    layered.at.iter().position(|at| {
        let from = point(rect, look, *at);
        let half = ROW * look.scale / 2.0;
        Rect::from_x_y_ranges(from.x - half..=from.x + look.room(), from.y - half..=from.y + half).contains(mouse)
    })
}

fn paint(ui: &Ui, rect: Rect, look: Look, picture: &Picture, layered: &Layered, lit: &BTreeSet<usize>, hovered: Option<usize>) {
    let tokens = theme::tokens(ui);
    let painter = ui.painter_at(rect);
    painter.rect_filled(rect, 4.0, tokens.panel);
    let place = |at: usize| layered.at.get(at).map(|at| point(rect, look, *at));
    let room = look.room();
    for pass in [false, true] {
        for (from, to) in &picture.edges {
            let on = lit.contains(from) && lit.contains(to) || hovered.is_some_and(|at| at == *from || at == *to);
            if on != pass {
                continue;
            }
            let (Some(from), Some(to)) = (place(*from), place(*to)) else { continue };
            let from = pos2((from.x + room).min(to.x - GRID), from.y);
            let stroke = if on { Stroke::new(1.5, tokens.accent) } else { Stroke::new(0.75, tokens.line) };
            let middle = f32::midpoint(from.x, to.x);
            let points = [from, pos2(middle, from.y), pos2(middle, to.y), pos2(to.x - GRID, to.y)];
            painter.add(CubicBezierShape::from_points_stroke(points, false, egui::Color32::TRANSPARENT, stroke));
        }
    }
    let legible = ROW * look.scale >= LEGIBLE;
    // What is told first stays legible: what the mouse is over, rules, slots, then the rest.
    let mut order: Vec<usize> = (0..picture.dots.len()).collect();
    order.sort_by_key(|at| {
        (hovered != Some(*at), !matches!(picture.dots[*at].kind, Kind::Rule), !matches!(picture.dots[*at].kind, Kind::Slot))
    });
    let mut taken: Vec<Rect> = Vec::new();
    for at in order {
        let dot = &picture.dots[at];
        let Some(from) = place(at).filter(|from| rect.expand(room).contains(*from)) else { continue };
        let on = lit.contains(&at) || hovered == Some(at);
        let tone = match (on, lit.is_empty()) {
            (true, _) => tokens.accent,
            (false, true) => tokens.ink,
            (false, false) => tokens.soft,
        };
        painter.add(mark(dot.kind, from, tone, &tokens));
        if legible || on {
            let size = (ROW * look.scale * 0.8).clamp(LEGIBLE, CAPTION);
            let font = if on { theme::bold(size) } else { theme::regular(size) };
            let mut job = egui::text::LayoutJob::simple_singleline(dot.title.clone(), font, tone);
            job.wrap = egui::text::TextWrapping::truncate_at_width((room - 2.0 * GRID).max(30.0 * GRID));
            let galley = painter.layout_job(job);
            let behind = Align2::LEFT_CENTER.anchor_size(pos2(from.x + 2.0 * GRID, from.y), galley.size());
            let before = Align2::RIGHT_CENTER.anchor_size(pos2(from.x - 2.0 * GRID, from.y), galley.size());
            let is_free =
                |rect: &Rect| painter.clip_rect().contains_rect(*rect) && !taken.iter().any(|other| other.intersects(*rect));
            // A name goes before its mark where another lies behind it; where both are taken it is left to the mouse, or to a
            // greater enlargement.
            let free = if legible { Some(behind) } else { [behind, before].into_iter().find(is_free) };
            if let Some(rect) = free {
                taken.push(rect);
                // Lines run behind names.
                painter.rect_filled(rect.intersect(painter.clip_rect()), 2.0, tokens.panel);
                painter.galley(rect.min, galley, tone);
            }
        }
    }
}

/// The mark of a kind: a solid square for a slot, a dash for a property, a wedge for a derivation, an open square for a rule.
fn mark(kind: Kind, at: Pos2, tone: egui::Color32, tokens: &Tokens) -> Shape {
    let square = Rect::from_center_size(at, Vec2::splat(1.5 * GRID));
    match kind {
        Kind::Slot => Shape::rect_filled(square, 0.0, tone),
        Kind::Property => Shape::line_segment([square.left_center(), square.right_center()], Stroke::new(1.5, tone)),
        Kind::Derivation => {
            Shape::convex_polygon(vec![square.center_top(), square.right_bottom(), square.left_bottom()], tone, Stroke::NONE)
        }
        Kind::Rule => {
            Shape::Rect(egui::epaint::RectShape::new(square, 0.0, tokens.panel, Stroke::new(1.5, tone), StrokeKind::Inside))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn enlarging_keeps_the_point_under_the_mouse() {
        let look = Look { scale: 4.0, stretch: 1.5, corner: vec2(10.0, 20.0) };
        let about = vec2(50.0, 60.0);
        let next = enlarged(look, 2.0, about);
        let under = |look: Look| (about - look.corner) / look.scale;
        assert!((under(look) - under(next)).length() < 1e-4);
        assert!(enlarged(look, 1000.0, about).scale <= RANGE.1);
    }
}
