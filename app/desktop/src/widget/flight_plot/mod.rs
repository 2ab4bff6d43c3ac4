//! A small chart with bands: what is varied along the bottom, one or two scales at the sides, operating points with words.
//!
//! The mouse, or with the chart in focus the arrow keys, move a cursor; the figures there stand beside the names of the
//! curves and are the chart's spoken value. Left and right step along the curve, up and down go from one operating point to the
//! next, Home and End to the ends.

mod paint;
mod screen;
mod words;

use egui::{EventFilter, Key, Rect, Response, Role, Sense, Ui, Vec2, WidgetInfo, vec2};

use propwright_paper::plot::{Plot, reading};

use crate::theme::{self, CAPTION, GRID};

/// Height of the line with the name.
const NAME: f32 = 5.5 * GRID;
/// Height of the line of one curve: its swatch, its name, its figure at the cursor.
const ROW: f32 = 4.25 * GRID;
/// Room below the field for figures, and at its sides.
const FOOT: f32 = 4.5 * GRID;
const SIDE: f32 = 11.0 * GRID;
const NO_SIDE: f32 = 2.0 * GRID;
/// How near the mouse must come to an operating point to read it, in points.
const NEAR: f32 = 5.0;

/// Height of a chart of so many curves whose field is `field` points high.
pub fn height(lines: usize, field: f32) -> f32 {
    NAME + ROW * lines as f32 + GRID + field + FOOT
}

/// Where the cursor stands, and how it got there.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Cursor {
    x: Option<f64>,
}

/// Draws a chart into `size`.
pub fn flight_plot(ui: &mut Ui, size: Vec2, plot: &Plot) -> Response {
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let field = field(rect, plot);
    let at = pointed_at(ui, &response, field, plot);
    if ui.is_rect_visible(rect) {
        let tokens = theme::tokens(ui);
        let painter = ui.painter_at(rect);
        paint::head(&painter, rect, plot, at, &tokens);
        paint::chart(&painter, field, plot, at, &tokens);
        if response.has_focus() {
            paint::focus(ui.painter(), rect, &tokens);
        }
    }
    if response.clicked() {
        response.request_focus();
    }
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(Role::Image, true, plot.name);
        info.current_text_value = Some(at.map_or_else(|| reading::summary(plot), |x| reading::spoken(plot, x)));
        info
    });
    response
}

fn field(rect: Rect, plot: &Plot) -> Rect {
    let right = if plot.right.is_some() { SIDE } else { NO_SIDE };
    let head = NAME + ROW * plot.lines.len() as f32 + GRID;
    Rect::from_min_max(rect.min + vec2(SIDE, head), rect.max - vec2(right, FOOT))
}

/// The place under the mouse; else, in focus, the one that the keys stand on.
fn pointed_at(ui: &Ui, response: &Response, field: Rect, plot: &Plot) -> Option<f64> {
    if let Some(at) = response.hover_pos().filter(|at| field.expand(2.0).contains(*at)) {
        let marked =
            plot.marks.iter().map(|mark| mark.x).filter(|x| (screen::at(&plot.x, *x, field.x_range()) - at.x).abs() < NEAR);
        let nearest = marked.min_by(|a, b| {
            let far = |x: f64| (screen::at(&plot.x, x, field.x_range()) - at.x).abs();
            far(*a).total_cmp(&far(*b))
        });
        return Some(nearest.unwrap_or_else(|| screen::figure(&plot.x, at.x, field.x_range())));
    }
    if !response.has_focus() {
        return None;
    }
    let arrows = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
    let known = ui.data(|data| data.get_temp::<Cursor>(response.id)).unwrap_or_default().x;
    let x = moved(ui, plot, known.or_else(|| plot.marks.first().map(|mark| mark.x)));
    ui.data_mut(|data| data.insert_temp(response.id, Cursor { x }));
    x
}

/// Where the keys of this frame lead.
fn moved(ui: &Ui, plot: &Plot, from: Option<f64>) -> Option<f64> {
    let mut stops: Vec<f64> = plot.lines.iter().flat_map(|line| line.points.iter().map(|(x, _)| *x)).collect();
    stops.sort_by(f64::total_cmp);
    stops.dedup();
    let mut marks: Vec<f64> = plot.marks.iter().map(|mark| mark.x).collect();
    marks.sort_by(f64::total_cmp);
    marks.dedup();
    let pressed = |key| ui.input(|input| input.num_presses(key));
    let mut x = from.or_else(|| stops.first().copied())?;
    for _ in 0..pressed(Key::ArrowRight) {
        x = stops.iter().copied().find(|stop| *stop > x).unwrap_or(x);
    }
    for _ in 0..pressed(Key::ArrowLeft) {
        x = stops.iter().copied().rev().find(|stop| *stop < x).unwrap_or(x);
    }
    for _ in 0..pressed(Key::ArrowUp) {
        x = marks.iter().copied().find(|mark| *mark > x).or(marks.first().copied()).unwrap_or(x);
    }
    for _ in 0..pressed(Key::ArrowDown) {
        x = marks.iter().copied().rev().find(|mark| *mark < x).or(marks.last().copied()).unwrap_or(x);
    }
    if pressed(Key::Home) > 0 {
        x = stops.first().copied().unwrap_or(x);
    }
    if pressed(Key::End) > 0 {
        x = stops.last().copied().unwrap_or(x);
    }
    Some(x.clamp(stops.first().copied().unwrap_or(x), stops.last().copied().unwrap_or(x)))
}

/// The font of all small words of a chart.
fn small() -> egui::FontId {
    theme::regular(CAPTION)
}
