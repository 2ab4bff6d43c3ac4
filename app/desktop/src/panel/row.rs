//! A row that can be chosen: a mark, a caption over a name, figures at the right.

use std::sync::Arc;

use egui::{
    Galley, Rect, Response, Role, Sense, Stroke, StrokeKind, TextFormat, Ui, WidgetInfo, pos2,
    text::{LayoutJob, TextWrapping},
    vec2,
};
use propwright_engine::finding::Status;

use crate::{
    theme::{self, CAPTION, GRID, TEXT, TITLE, Tokens},
    widget::mark,
};

/// What a row shows.
#[expect(clippy::struct_excessive_bools, reason = "each says one thing about the look of a row")]
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
    /// Width that the small line leaves free at the right, in points.
    pub(super) spare: f32,
    /// Is it set apart?
    pub(super) chosen: bool,
    /// Does it hold something, or does it offer to?
    pub(super) filled: bool,
    /// What is read out.
    pub(super) spoken: String,
    /// Does a long name go on in a second line? The figures then stand beside the small line above it.
    pub(super) wraps: bool,
}

/// Space left and right inside a row.
const PAD: f32 = 3.0 * GRID;

/// Where the words of a row begin, from its left edge, in points.
const WORDS: f32 = PAD + mark::SIDE + 2.5 * GRID;

pub(super) fn row(ui: &mut Ui, height: f32, look: &Look) -> Response {
    let width = ui.available_width();
    let words = Words::of(ui, width, look);
    let height = height.max(words.name.size().y + words.caption.size().y + 2.0 * GRID);
    let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::click());
    if ui.is_rect_visible(rect) {
        paint(ui, rect, look, words, &response);
    }
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, look.chosen, &look.spoken));
    response.on_hover_cursor(egui::CursorIcon::PointingHand)
}

/// What is written in a row, laid out for its width.
struct Words {
    name: Arc<Galley>,
    caption: Arc<Galley>,
    figures: Vec<(Arc<Galley>, f32)>,
}

impl Words {
    fn of(ui: &Ui, width: f32, look: &Look) -> Self {
        let tokens = theme::tokens(ui);
        let figure = |text: &str| line(ui, text, TextFormat::simple(theme::regular(TEXT), tokens.soft), f32::INFINITY, 1);
        let figures: Vec<_> = look.figures.iter().map(|(text, column)| (figure(text), *column)).collect();
        let taken: f32 = figures.iter().map(|(galley, column)| column.max(galley.size().x + 2.0 * GRID)).sum();
        let whole = width - PAD - WORDS;
        let beside = whole - taken;
        let tone = if look.filled { tokens.ink } else { tokens.accent };
        let font = if look.chosen { theme::bold(TITLE) } else { theme::regular(TITLE) };
        let (room, rows) = if look.wraps { (whole, 2) } else { (beside, 1) };
        let name = line(ui, look.name, TextFormat::simple(font, tone), room, rows);
        let room = if look.caption_below { whole - look.spare } else { beside };
        let caption = line(ui, look.caption, TextFormat::simple(theme::regular(CAPTION), tokens.soft), room, 1);
        Self { name, caption, figures }
    }
}

fn paint(ui: &Ui, rect: Rect, look: &Look, words: Words, response: &Response) {
    let tokens = theme::tokens(ui);
    let painter = ui.painter_at(rect.expand(1.0));
    ground(&painter, rect, look.chosen, response.hovered(), response.has_focus(), &tokens);
    let middle = rect.center().y;
    if let Some(status) = look.status {
        let place = Rect::from_center_size(pos2(rect.left() + PAD + mark::SIDE / 2.0, middle), vec2(mark::SIDE, mark::SIDE));
        mark::paint(&painter, place, status, &tokens);
    }
    let left = rect.left() + WORDS;
    let Words { name, caption, figures } = words;
    let (above, below) = if look.caption_below { (name, caption) } else { (caption, name) };
    let (first, both) = (above.size().y, above.size().y + below.size().y);
    let top = middle - both / 2.0;
    painter.galley(pos2(left, top), above, tokens.ink);
    painter.galley(pos2(left, top + first), below, tokens.ink);
    // Figures stand on the first line: the second is the long one.
    let row = top + first / 2.0;
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
    let edge = if focused { Stroke::new(2.0, tokens.accent) } else { Stroke::new(1.0, tokens.line) };
    let fill = if chosen { tokens.panel } else { tokens.hovered() };
    painter.rect(rect, 4.0, fill, edge, StrokeKind::Inside);
}

fn line(ui: &Ui, text: &str, format: TextFormat, width: f32, rows: usize) -> Arc<Galley> {
    let mut job = LayoutJob::single_section(text.to_owned(), format);
    job.wrap = TextWrapping { max_rows: rows, break_anywhere: rows == 1, ..TextWrapping::wrap_at_width(width.max(0.0)) };
    ui.painter().layout_job(job)
}
