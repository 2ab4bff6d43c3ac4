//! The four status marks, told apart by shape alone.
//!
//! Fits: a solid square. Tight: a square half filled. Mismatch: a square broken by a diagonal gap. Unstated: an open
//! square with one side missing. The word stands beside the mark or is its accessible name.

use egui::{Color32, Painter, Pos2, Rect, Response, Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};
use propwright_engine::finding::Status;

use crate::theme::{self, GRID, Tokens};

/// Side of a mark, in points.
pub const SIDE: f32 = 3.0 * GRID;

/// The mark alone; its word is the accessible name and the hover text.
pub fn mark(ui: &mut Ui, status: Status) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(SIDE, SIDE), Sense::hover());
    if ui.is_rect_visible(rect) {
        paint(ui.painter(), rect, status, &theme::tokens(ui));
    }
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, status.word()));
    response.on_hover_text(status.word())
}

/// The mark, its word, and what it is about: "tight · loaded cell, fresh pack at full throttle".
pub fn mark_with_word(ui: &mut Ui, status: Status, about: &str) -> Response {
    let line = if about.is_empty() { status.word().to_owned() } else { format!("{} · {about}", status.word()) };
    ui.horizontal(|ui| {
        let (rect, _) = ui.allocate_exact_size(vec2(SIDE, SIDE), Sense::hover());
        paint(ui.painter(), rect, status, &theme::tokens(ui));
        ui.add(egui::Label::new(theme::caption(line)).wrap())
    })
    .inner
}

/// The tone of `status`.
pub fn tone(status: Status, tokens: &Tokens) -> Color32 {
    match status {
        Status::Fits => tokens.fits,
        Status::Tight => tokens.tight,
        Status::Mismatch => tokens.mismatch,
        Status::Unstated => tokens.unstated,
    }
}

/// Paints the mark into the square `rect`.
pub fn paint(painter: &Painter, rect: Rect, status: Status, tokens: &Tokens) {
    let tone = tone(status, tokens);
    match status {
        Status::Fits => {
            painter.rect_filled(rect, 0.0, tone);
        }
        Status::Tight => {
            let half = Rect::from_min_max(rect.min, pos2(rect.center().x, rect.max.y));
            painter.rect_filled(half, 0.0, tone);
            // On paper the tone alone is too light to show the square's edge.
            outline(painter, rect, tokens.soft);
        }
        Status::Mismatch => {
            for corner in broken(rect) {
                painter.add(Shape::convex_polygon(corner.to_vec(), tone, Stroke::NONE));
            }
        }
        Status::Unstated => {
            painter.line(open(rect.shrink(0.75)).to_vec(), Stroke::new(1.5, tone));
        }
    }
}

fn outline(painter: &Painter, rect: Rect, tone: Color32) {
    let stroke = Stroke::new(1.0, tone);
    painter.rect_stroke(rect, 0.0, stroke, egui::StrokeKind::Inside);
}

/// The two corners that a diagonal gap of a third of the side leaves.
fn broken(rect: Rect) -> [[Pos2; 3]; 2] {
    let leg = rect.width() * 2.0 / 3.0;
    let (a, b) = (rect.min, rect.max);
    [[a, pos2(a.x + leg, a.y), pos2(a.x, a.y + leg)], [b, pos2(b.x - leg, b.y), pos2(b.x, b.y - leg)]]
}

/// Three sides, the right one missing.
fn open(rect: Rect) -> [Pos2; 4] {
    [rect.right_top(), rect.left_top(), rect.left_bottom(), rect.right_bottom()]
}
