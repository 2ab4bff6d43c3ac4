//! A row that can be chosen: a mark, a caption over a name, figures at the right.

use egui::{Rect, Response, Role, Sense, Stroke, StrokeKind, TextFormat, Ui, WidgetInfo, pos2, text::LayoutJob, vec2};
use propwright_engine::finding::Status;

use crate::{
    theme::{self, CAPTION, GRID, TEXT, TITLE, Tokens},
    widget::mark,
};

/// What a row shows.
pub(super) struct Look<'a> {
    /// The mark; absent where there is nothing to judge.
    pub(super) status: Option<Status>,
    /// The small line.
    pub(super) caption: &'a str,
    /// The name.
    pub(super) name: &'a str,
    /// Is the small line below the name? Else it is above.
    pub(super) caption_below: bool,
    /// Figures at the right, each with the width of its column; 0 for as much as it needs.
    pub(super) figures: &'a [(&'a str, f32)],
    /// Is it set apart?
    pub(super) chosen: bool,
    /// Does it hold something, or does it offer to?
    pub(super) filled: bool,
    /// What is read out.
    pub(super) spoken: String,
}

/// Space left and right inside a row.
const PAD: f32 = 3.0 * GRID;

pub(super) fn row(ui: &mut Ui, height: f32, look: &Look) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::click());
    if ui.is_rect_visible(rect) {
        paint(ui, rect, look, response.hovered(), response.has_focus());
    }
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, look.chosen, &look.spoken));
    response.on_hover_cursor(egui::CursorIcon::PointingHand)
}

fn paint(ui: &Ui, rect: Rect, look: &Look, hovered: bool, focused: bool) {
    let tokens = theme::tokens(ui);
    let painter = ui.painter_at(rect.expand(1.0));
    ground(&painter, rect, look.chosen, hovered, focused, &tokens);
    let middle = rect.center().y;
    if let Some(status) = look.status {
        let place = Rect::from_center_size(pos2(rect.left() + PAD + mark::SIDE / 2.0, middle), vec2(mark::SIDE, mark::SIDE));
        mark::paint(&painter, place, status, &tokens);
    }
    let left = rect.left() + PAD + mark::SIDE + 2.5 * GRID;
    let figures = look
        .figures
        .iter()
        .map(|(text, column)| (line(ui, text, TextFormat::simple(theme::regular(TEXT), tokens.soft), f32::INFINITY), *column));
    let figures: Vec<_> = figures.collect();
    let taken: f32 = figures.iter().map(|(galley, column)| column.max(galley.size().x + 2.0 * GRID)).sum();
    let (whole, beside) = (rect.right() - PAD - left, rect.right() - PAD - taken - left);
    let tone = if look.filled { tokens.ink } else { tokens.accent };
    let font = if look.chosen { theme::bold(TITLE) } else { theme::regular(TITLE) };
    let name = line(ui, look.name, TextFormat::simple(font, tone), beside);
    let caption = line(
        ui,
        look.caption,
        TextFormat::simple(theme::regular(CAPTION), tokens.soft),
        if look.caption_below { whole } else { beside },
    );
    let name_height = name.size().y;
    let (above, below) = if look.caption_below { (name, caption) } else { (caption, name) };
    let top = middle - f32::midpoint(above.size().y, below.size().y);
    let second = top + above.size().y;
    painter.galley(pos2(left, top), above, tokens.ink);
    painter.galley(pos2(left, second), below, tokens.ink);
    // Figures stand on the name's line where the small line runs below them.
    let row = if look.caption_below { top + name_height / 2.0 } else { middle };
    let mut right = rect.right() - PAD;
    for (galley, column) in figures.into_iter().rev() {
        let size = galley.size();
        painter.galley(pos2(right - size.x, row - size.y / 2.0), galley, tokens.soft);
        right -= column.max(size.x + 2.0 * GRID);
    }
}

fn ground(painter: &egui::Painter, rect: Rect, chosen: bool, hovered: bool, focused: bool, tokens: &Tokens) {
    if !(chosen || hovered || focused) {
        return;
    }
    let edge = match (focused, chosen) {
        (true, _) => Stroke::new(2.0, tokens.accent),
        (false, true) => Stroke::new(1.0, tokens.line),
        (false, false) => Stroke::NONE,
    };
    let fill = if chosen { tokens.panel } else { tokens.fill.gamma_multiply(0.6) };
    painter.rect(rect, 4.0, fill, edge, StrokeKind::Inside);
}

fn line(ui: &Ui, text: &str, format: TextFormat, width: f32) -> std::sync::Arc<egui::Galley> {
    let mut job = LayoutJob::single_section(text.to_owned(), format);
    job.wrap = egui::text::TextWrapping::truncate_at_width(width.max(0.0));
    ui.painter().layout_job(job)
}
