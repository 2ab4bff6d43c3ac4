//! Ways to pay on one scale: a bar a way, the first share solid, what it costs besides hatched, the words beside it.

use egui::{Painter, Rect, Response, Role, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};

use super::Scale;
use crate::theme::{self, CAPTION, GRID, TEXT, Tokens};

/// Height of a bar, in points.
const BAR: f32 = 4.5 * GRID;
/// Height of a bar with the words above it, in points.
const HEIGHT: f32 = 10.5 * GRID;
/// Distance of the hatch lines, in points.
const HATCH: f32 = 1.5 * GRID;

/// One share of a bar.
#[derive(Debug, Clone, PartialEq)]
pub struct Share {
    /// What it is.
    pub words: String,
    /// Its length on the scale.
    pub length: f64,
    /// Solid, or else hatched.
    pub solid: bool,
}

/// A bar over the full width of a scale that ends at `whole`: its title at the left, its sum at the right, both above it.
pub fn stacked_bar(ui: &mut Ui, title: &str, sum: &str, shares: &[Share], whole: f64) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), HEIGHT), Sense::hover());
    if ui.is_rect_visible(rect) {
        paint(ui, rect, title, sum, shares, whole);
    }
    let spoken: Vec<&str> = shares.iter().map(|share| share.words.as_str()).collect();
    let spoken = format!("{title}: {sum}; {}", spoken.join(", "));
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &spoken));
    response
}

fn paint(ui: &Ui, rect: Rect, title: &str, sum: &str, shares: &[Share], whole: f64) {
    let tokens = theme::tokens(ui);
    let painter = ui.painter_at(rect);
    let words = |text: &str, font, tone| painter.layout_no_wrap(text.to_owned(), font, tone);
    let title = words(title, theme::regular(TEXT), tokens.ink);
    let sum = words(sum, theme::bold(TEXT), tokens.ink);
    painter.galley(rect.min, title, tokens.ink);
    painter.galley(pos2(rect.right() - sum.size().x, rect.top()), sum, tokens.ink);
    let bar = Rect::from_min_max(pos2(rect.left(), rect.bottom() - BAR - GRID), pos2(rect.right(), rect.bottom() - GRID));
    let scale = Scale { from: 0.0, to: whole.max(1.0), left: bar.left(), right: bar.right() };
    let mut from = 0.0;
    for share in shares {
        let part = Rect::from_x_y_ranges(scale.at(from)..=scale.at(from + share.length), bar.y_range());
        fill(&painter, part, share, &tokens);
        from += share.length;
    }
}

fn fill(painter: &Painter, part: Rect, share: &Share, tokens: &Tokens) {
    let tone = if share.solid { tokens.accent } else { tokens.fill };
    painter.rect_filled(part, 0.0, tone);
    if !share.solid {
        let cut = painter.with_clip_rect(part.intersect(painter.clip_rect()));
        let mut x = part.left() - part.height();
        while x < part.right() {
            cut.line_segment([pos2(x, part.bottom()), pos2(x + part.height(), part.top())], Stroke::new(1.0, tokens.line));
            x += HATCH;
        }
        painter.rect_stroke(part, 0.0, Stroke::new(1.0, tokens.outline()), egui::StrokeKind::Inside);
    }
    let ink = if share.solid { tokens.paper } else { tokens.ink };
    let words = painter.layout_no_wrap(share.words.clone(), theme::regular(CAPTION), ink);
    if words.size().x + 2.0 * GRID <= part.width() {
        painter.galley(pos2(part.left() + GRID, part.center().y - words.size().y / 2.0), words, ink);
    }
}
