//! Required against available on one scale: what is to spare hatched, what is short solid, the words at the ends.

use egui::{Color32, Painter, Rect, Response, Role, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};
use propwright_engine::finding::Status;

use super::{Scale, Span, mark};
use crate::theme::{self, CAPTION, GRID, Tokens};

/// Height of the bar alone, in points.
const BAR: f32 = 2.5 * GRID;
/// Distance of the hatch lines, in points.
const HATCH: f32 = 1.5 * GRID;

/// One comparison: as much as is required must be available.
#[derive(Clone, Debug, PartialEq)]
pub struct Margin {
    /// What is asked, in the unit of both.
    pub required: Span,
    /// What is there, in the unit of both.
    pub available: Span,
    /// How it came out; its tone fills the shortfall, or the whole bar when tight.
    pub status: Status,
    /// Words for what is asked: "41 A (38–45) pulled".
    pub required_words: String,
    /// Words for what is there: "35 A it stands".
    pub available_words: String,
}

/// The bar over the full width, with the words below: the smaller value's at the left, the larger one's at the right.
pub fn margin_bar(ui: &mut Ui, margin: &Margin) -> Response {
    let tokens = theme::tokens(ui);
    let laid_out = |text: &str, tone| {
        let font = theme::regular(CAPTION);
        ui.painter().layout_no_wrap(text.to_owned(), font, tone)
    };
    let mut left = laid_out(&margin.available_words, tokens.soft);
    let mut right = laid_out(&margin.required_words, tokens.ink);
    if margin.required.nominal < margin.available.nominal {
        std::mem::swap(&mut left, &mut right);
    }
    let width = ui.available_width();
    let one_row = left.size().x + right.size().x + 2.0 * GRID <= width;
    let row = left.size().y.max(right.size().y);
    let rows = if one_row { row } else { left.size().y + right.size().y };
    let size = vec2(width, BAR + GRID + rows);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    if ui.is_rect_visible(rect) {
        let bar = Rect::from_min_size(rect.min, vec2(width, BAR));
        paint(ui.painter(), bar, margin, &tokens);
        let top = bar.bottom() + GRID;
        let right_top = if one_row { top } else { top + left.size().y };
        let right_left = rect.right() - right.size().x;
        ui.painter().galley(pos2(rect.left(), top), left, tokens.soft);
        ui.painter().galley(pos2(right_left, right_top), right, tokens.ink);
    }
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, spoken(margin)));
    response
}

/// Paints the bar alone into `rect`.
pub fn paint(painter: &Painter, rect: Rect, margin: &Margin, tokens: &Tokens) {
    let scale = scale(rect, margin);
    let (required, available) = (margin.required.nominal, margin.available.nominal);
    let (asked, there) = (scale.at(required), scale.at(available));
    let part = |from: f32, to: f32| Rect::from_x_y_ranges(from..=to, rect.y_range());
    let tone = mark::tone(margin.status, tokens);

    painter.rect_filled(rect, 0.0, tokens.fill);
    let used = part(scale.at(0.0), asked.min(there));
    let ground = if margin.status == Status::Tight { tone } else { tokens.bar() };
    painter.rect_filled(used, 0.0, ground);
    if required > available {
        painter.rect_filled(part(there, asked), 0.0, tone);
    } else {
        hatch(painter, part(asked, there), tokens.soft);
    }
    if margin.status == Status::Tight {
        let edge = Stroke::new(1.0, tokens.soft);
        painter.rect_stroke(used, 0.0, edge, egui::StrokeKind::Inside);
    }
    let rows = [(margin.required, 0.3), (margin.available, 0.7)];
    for (span, share) in rows {
        let y = rect.top() + share * rect.height();
        whisker(painter, &scale, span, y, tokens.ink);
    }
    let tick = Stroke::new(2.0, tokens.ink);
    let there = painter.round_to_pixel_center(there);
    painter.vline(there, rect.y_range().expand(1.0), tick);
}

/// From nothing, or from below it where a value is negative, to a little beyond the largest.
fn scale(rect: Rect, margin: &Margin) -> Scale {
    let Margin { required, available, .. } = margin;
    let from = required.low.min(available.low).min(0.0);
    let to = required.high.max(available.high).max(0.0);
    Scale { from, to: to + (to - from) * 0.05, left: rect.left(), right: rect.right() }
}

/// Lines from lower left to upper right, cut at the edges of `rect`.
fn hatch(painter: &Painter, rect: Rect, tone: Color32) {
    let cut = painter.with_clip_rect(rect.intersect(painter.clip_rect()));
    let mut x = rect.left() - rect.height();
    while x < rect.right() {
        let line = [pos2(x, rect.bottom()), pos2(x + rect.height(), rect.top())];
        cut.line_segment(line, Stroke::new(1.0, tone));
        x += HATCH;
    }
}

/// The uncertainty of one side as a thin line within the bar; none where the value is known.
fn whisker(painter: &Painter, scale: &Scale, span: Span, y: f32, tone: Color32) {
    let (low, high) = (scale.at(span.low), scale.at(span.high));
    if high - low < 3.0 {
        return;
    }
    let y = painter.round_to_pixel_center(y);
    let thin = Stroke::new(1.0, tone);
    painter.hline(low..=high, y, thin);
    for end in [low, high] {
        let end = painter.round_to_pixel_center(end);
        painter.vline(end, y - 1.5..=y + 1.5, thin);
    }
}

fn spoken(margin: &Margin) -> String {
    format!("{}: {}, {}", margin.status.word(), margin.available_words, margin.required_words)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn margin(required: f64, available: f64) -> Margin {
        Margin {
            required: Span::exact(required),
            available: Span::exact(available),
            status: Status::Mismatch,
            required_words: "asked".to_owned(),
            available_words: "there".to_owned(),
        }
    }

    #[test]
    fn the_scale_starts_at_nothing_and_leaves_room_at_its_end() {
        let rect = Rect::from_min_max(pos2(0.0, 0.0), pos2(100.0, 10.0));
        let scale = scale(rect, &margin(41.0, 35.0));
        assert!(scale.at(0.0).abs() < 1e-6);
        assert!(scale.at(35.0) < scale.at(41.0) && scale.at(41.0) < 100.0);
    }

    #[test]
    fn a_negative_margin_of_decibels_has_its_place() {
        let rect = Rect::from_min_max(pos2(0.0, 0.0), pos2(100.0, 10.0));
        let scale = scale(rect, &margin(10.0, -5.0));
        assert!(scale.at(-5.0) < scale.at(0.0));
    }
}
