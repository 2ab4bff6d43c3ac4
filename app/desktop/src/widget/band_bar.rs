//! A band as a short bar with a tick at the nominal: never a dial.

use egui::{Painter, Rect, Response, Role, Sense, Stroke, Ui, WidgetInfo, vec2};

use super::{Scale, Span};
use crate::theme::{self, GRID, Tokens};

/// Height of the bracket, in points.
pub const HEIGHT: f32 = 3.0 * GRID;

/// A bracket from the 5th to the 95th percentile, `width` points wide at most.
///
/// Its left end is the low and its right end the high, unless `scale` names the values at the ends of `width`: give one
/// where several bands stand above each other. `name` is read out: "calm flight, 6.6 to 10.1 min, likely 8.2".
pub fn band_bar(ui: &mut Ui, span: Span, scale: Option<(f64, f64)>, width: f32, name: &str) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(width, HEIGHT), Sense::hover());
    if ui.is_rect_visible(rect) {
        paint(ui.painter(), rect, span, scale, &theme::tokens(ui));
    }
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, name));
    response
}

/// Paints the bracket into `rect`.
pub fn paint(painter: &Painter, rect: Rect, span: Span, scale: Option<(f64, f64)>, tokens: &Tokens) {
    let (from, to) = scale.unwrap_or((span.low, span.high));
    let scale = Scale { from, to, left: rect.left() + 0.5, right: rect.right() - 0.5 };
    let middle = painter.round_to_pixel_center(rect.center().y);
    let thin = Stroke::new(1.25, tokens.soft);
    let (low, high) = (scale.at(span.low), scale.at(span.high));
    painter.hline(low..=high, middle, thin);
    for end in [low, high] {
        let end = painter.round_to_pixel_center(end);
        painter.vline(end, middle - GRID..=middle + GRID, thin);
    }
    let nominal = painter.round_to_pixel_center(scale.at(span.nominal));
    let tick = Stroke::new(2.0, tokens.ink);
    painter.vline(nominal, rect.y_range(), tick);
}
