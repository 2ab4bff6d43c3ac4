//! The ledger along the bottom: what the parts add up to.
//!
//! A cell has a caption, a large figure, its change since the last choice, and its band in words and as a bracket.

use egui::text::LayoutJob;
use egui::{Color32, Galley, Painter, Rect, Response, Role, Sense, TextFormat, Ui, WidgetInfo, pos2, vec2};
use std::sync::Arc;

use super::{Span, band_bar};
use crate::theme::{self, CAPTION, FIGURE, GRID, TEXT, TITLE, Tokens};

/// Sizes of the cells, in points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Form {
    /// Height of one row of cells.
    pub row: f32,
    /// A cell is not made narrower than this; then the cells go on in a second row.
    narrowest: f32,
    /// Space left and right inside a cell, above and below.
    pad: [f32; 2],
    /// Base line of the figure below the upper edge of what is written.
    base: f32,
    /// Size of the figure's letters.
    figure: f32,
}

/// Where there is room.
pub const WIDE: Form =
    Form { row: 25.0 * GRID, narrowest: 45.0 * GRID, pad: [5.0 * GRID, 3.0 * GRID], base: 11.5 * GRID, figure: FIGURE };
/// In a low window, where the page needs the height.
pub const LOW: Form =
    Form { row: 16.0 * GRID, narrowest: 30.0 * GRID, pad: [3.0 * GRID, 1.5 * GRID], base: 7.5 * GRID, figure: TITLE };
/// A change stays marked this long, in seconds.
const FADE: f32 = 0.6;

/// One figure of the ledger.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    /// What it is: "Take-off mass".
    pub caption: String,
    /// The figure with its unit: "702 g"; "unknown" where it is not known.
    pub value: String,
    /// Against the choice before: "+3 g"; none while nothing was changed.
    pub change: Option<String>,
    /// The band or a remark in words: "688–731", "2 parts unpriced".
    pub band_words: String,
    /// The band, drawn as a bracket.
    pub band: Option<Span>,
    /// What the figure is, for those who point at it.
    pub about: &'static str,
}

/// All cells side by side over the full width, in as many rows as that takes.
///
/// Returns the response of each cell, in order: a click may lead to the page that explains the figure.
pub fn ledger(ui: &mut Ui, cells: &[Cell], form: &Form) -> Vec<Response> {
    let width = ui.available_width();
    let columns = columns(width, cells.len(), form);
    let tokens = theme::tokens(ui);
    let size = vec2(width, height(width, cells.len(), form));
    let (whole, _) = ui.allocate_exact_size(size, Sense::hover());
    let cell_size = vec2(width / columns as f32, form.row);
    let mut responses = Vec::new();
    for (index, cell) in cells.iter().enumerate() {
        let offset = vec2((index % columns) as f32 * cell_size.x, (index / columns) as f32 * cell_size.y);
        let rect = Rect::from_min_size(whole.min + offset, cell_size);
        if index % columns > 0 {
            let line = ui.visuals().widgets.noninteractive.bg_stroke;
            let x = ui.painter().round_to_pixel_center(rect.left());
            ui.painter().vline(x, rect.y_range().shrink(3.0 * GRID), line);
        }
        responses.push(cell_at(ui, rect, cell, form, &tokens));
    }
    responses
}

/// Height that [`ledger`] takes at `width` points.
pub fn height(width: f32, cells: usize, form: &Form) -> f32 {
    let rows = cells.div_ceil(columns(width, cells, form)) as f32;
    rows * form.row
}

fn columns(width: f32, cells: usize, form: &Form) -> usize {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole columns of a screen's width")]
    let room = (width / form.narrowest).max(1.0) as usize;
    // Five cells at a width for four: three and two read better than four and one.
    let rows = cells.max(1).div_ceil(room);
    cells.max(1).div_ceil(rows)
}

fn cell_at(ui: &mut Ui, rect: Rect, cell: &Cell, form: &Form, tokens: &Tokens) -> Response {
    let id = ui.scope_id().with(("ledger", &cell.caption));
    let response = ui.interact(rect, id, Sense::click());
    if ui.is_rect_visible(rect) {
        let glow = freshness(ui, id, &cell.value);
        paint(ui.painter(), rect, cell, form, (tokens, glow));
        if response.hovered() || response.has_focus() {
            let edge = egui::Stroke::new(1.0, tokens.accent);
            let inner = rect.shrink(GRID);
            ui.painter().rect_stroke(inner, 4.0, edge, egui::StrokeKind::Inside);
        }
    }
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, spoken(cell)));
    if cell.about.is_empty() { response } else { response.on_hover_text(cell.about) }
}

fn paint(painter: &Painter, rect: Rect, cell: &Cell, form: &Form, (tokens, glow): (&Tokens, f32)) {
    let inner = rect.shrink2(form.pad.into());
    let (left, right) = (inner.left(), inner.right());
    let width = inner.width();
    let caption = line(painter, &cell.caption, CAPTION, tokens.soft, width);
    painter.galley(inner.min, caption, tokens.soft);

    let base = inner.top() + form.base;
    let value = figure(painter, &cell.value, tokens.ink, width, form.figure);
    let value_width = value.size().x;
    painter.galley(pos2(left, base - 0.8 * value.size().y), value, tokens.ink);

    let third = inner.bottom() - 4.0 * GRID;
    let words = line(painter, &cell.band_words, CAPTION, tokens.soft, width);
    let words_width = words.size().x;
    painter.galley(pos2(left, third), words, tokens.soft);

    let change_tone =
        if cell.change.as_deref().is_some_and(|text| text.starts_with(['+', '−'])) { tokens.accent } else { tokens.soft };
    let change = cell.change.as_deref().unwrap_or_default();
    let change = line(painter, change, TEXT, change_tone, width);
    let beside = value_width + change.size().x + 3.0 * GRID <= width;
    let change_width = change.size().x;
    let row = if beside { base - 0.8 * change.size().y } else { third };
    let at = pos2(right - change_width, row);
    if glow > 0.0 {
        let ground = Rect::from_min_size(at, change.size()).expand2(vec2(GRID, 1.0));
        painter.rect_filled(ground, 2.0, tokens.accent.gamma_multiply(0.25 * glow));
    }
    painter.galley(at, change, change_tone);

    let taken = if beside { 0.0 } else { change_width + 2.0 * GRID };
    let from = left + (words_width + 3.0 * GRID).max(0.45 * width);
    let band_rect = Rect::from_x_y_ranges(from..=right - taken, third + 0.5 * GRID..=third + 0.5 * GRID + band_bar::HEIGHT);
    if let Some(span) = cell.band
        && band_rect.width() >= 6.0 * GRID
    {
        band_bar::paint(painter, band_rect, span, None, tokens);
    }
}

/// One line of text, cut with an ellipsis where it is longer than `width`.
fn line(painter: &Painter, text: &str, size: f32, tone: Color32, width: f32) -> Arc<Galley> {
    let format = TextFormat::simple(theme::regular(size), tone);
    truncated(painter, text, format, width)
}

/// The figure at `size`, or smaller where it would not find room: half a figure misleads.
fn figure(painter: &Painter, text: &str, tone: Color32, width: f32, size: f32) -> Arc<Galley> {
    let whole = painter.layout_no_wrap(text.to_owned(), theme::bold(size), tone);
    if whole.size().x <= width { whole } else { truncated(painter, text, TextFormat::simple(theme::bold(TEXT), tone), width) }
}

fn truncated(painter: &Painter, text: &str, format: TextFormat, width: f32) -> Arc<Galley> {
    let mut job = LayoutJob::single_section(text.to_owned(), format);
    job.wrap = egui::text::TextWrapping::truncate_at_width(width);
    painter.layout_job(job)
}

/// 1 when the figure has just changed, falling to 0 within [`FADE`] seconds; 0 at once where animations are off.
fn freshness(ui: &Ui, id: egui::Id, value: &str) -> f32 {
    let still = ui.style().animation_time <= 0.0;
    let known = ui.data(|data| data.get_temp::<String>(id));
    let changed = known.as_deref().is_some_and(|known| known != value);
    if known.as_deref() != Some(value) {
        ui.data_mut(|data| data.insert_temp(id, value.to_owned()));
    }
    if still {
        return 0.0;
    }
    if changed { ui.ctx().animate_value_with_time(id, 1.0, 0.0) } else { ui.ctx().animate_value_with_time(id, 0.0, FADE) }
}

fn spoken(cell: &Cell) -> String {
    let mut text = format!("{}: {}", cell.caption, cell.value);
    for more in [Some(&cell.band_words), cell.change.as_ref()].into_iter().flatten() {
        if !more.is_empty() {
            text.push_str(", ");
            text.push_str(more);
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_keep_a_readable_width() {
        assert_eq!(columns(1280.0, 5, &WIDE), 5);
        assert_eq!(columns(800.0, 5, &WIDE), 3);
        assert_eq!(columns(400.0, 5, &WIDE), 2);
        assert_eq!(columns(50.0, 5, &WIDE), 1);
        assert_eq!(columns(1280.0, 0, &WIDE), 1);
        assert_eq!(columns(640.0, 5, &LOW), 5);
    }

    #[test]
    fn a_cell_is_read_out_in_full() {
        let cell = Cell {
            caption: "Calm flight".to_owned(),
            value: "8.2 min".to_owned(),
            change: Some("no change".to_owned()),
            band_words: "6.6–10.1".to_owned(),
            ..Cell::default()
        };
        assert_eq!(spoken(&cell), "Calm flight: 8.2 min, 6.6–10.1, no change");
    }
}
