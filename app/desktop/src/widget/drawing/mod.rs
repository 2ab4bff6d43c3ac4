//! The craft to scale: fitted into the space there is, with a scale line, naming what is pointed at.
//!
//! The mouse or, with the drawing in focus, the arrow keys go from shape to shape; the name of the shape stands at the
//! upper right and is the drawing's spoken value. A click or Enter chooses the part.

mod paint;

use std::collections::{BTreeMap, BTreeSet};

use egui::{EventFilter, Key, Pos2, Rect, Response, Role as Spoken, Sense, Ui, WidgetInfo, vec2};
use propwright_engine::drawing::{Drawing, Point};
use propwright_engine::finding::Status;
use propwright_schema::slot::Slot;

use crate::theme::{self, CAPTION, GRID};

/// Height of the line of words above the drawing, in points.
const HEAD: f32 = 6.0 * GRID;
/// Free space around the shapes, in points.
const EDGE: f32 = 5.0 * GRID;
/// Said at the upper right while nothing is pointed at.
const HINT: &str = "hover or arrow keys: what is this";
/// How far beside a shape still points at it, in points.
const SLACK: f32 = 3.0;
/// Millimetres to a point where the screen has 96 of them to an inch, as it is commonly taken.
const MM_PER_POINT: f64 = 25.4 / 96.0;

/// What is set apart in a drawing.
#[derive(Clone, Debug, Default)]
pub struct Emphasis {
    /// The slot that is chosen.
    pub chosen: Option<Slot>,
    /// The slots of the parts that a step of a reason speaks of.
    pub lit: BTreeSet<Slot>,
    /// Status of parts, by slot; those that fit are not marked.
    pub status: BTreeMap<Slot, Status>,
    /// Is it the second view of one craft? Then hint and scale stand beside the first.
    pub second: bool,
}

/// What happened to a drawing.
pub struct Pointed {
    /// The response of the whole drawing.
    pub response: Response,
    /// Index of the shape that is pointed at or that the arrow keys stand on.
    pub shape: Option<usize>,
    /// The slot of the part that was clicked, or chosen with Enter.
    pub chosen: Option<Slot>,
    /// Points to a millimetre.
    pub scale: Option<f64>,
}

/// Paints `drawing` as large as `size` allows, but with `at_most` points to a millimetre where another view beside it
/// should have the same scale.
pub fn drawing(ui: &mut Ui, size: egui::Vec2, at_most: Option<f64>, drawing: &Drawing, emphasis: &Emphasis) -> Pointed {
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let field = Rect::from_min_max(rect.min + vec2(0.0, HEAD), rect.max);
    let view = fitted(ui, field.shrink(EDGE), at_most, drawing);
    let shape = pointed_at(ui, &response, drawing, view.as_ref());
    let named = shape.and_then(|index| drawing.shapes.get(index));

    if ui.is_rect_visible(rect) {
        let tokens = theme::tokens(ui);
        let painter = ui.painter_at(rect);
        if let Some(view) = &view {
            paint::shapes(&painter, view, drawing, emphasis, named, &tokens);
        }
        // A second view of the same scale needs no second line.
        let shown = view.as_ref().filter(|view| !emphasis.second || Some(view.scale) != at_most);
        if let Some(view) = shown {
            paint::scale_line(&painter, view, field, &tokens);
        }
        let ratio = shown.map(View::ratio);
        let name = named.map(|shape| shape.name.as_str());
        let said = name.unwrap_or(if emphasis.second { "" } else { HINT });
        paint::head(&painter, rect, &heading(drawing, ratio), said, name.is_some(), &tokens);
        if response.has_focus() {
            paint::focus(&painter, rect, &tokens);
        }
    }

    let taken = response.clicked();
    let chosen = named.filter(|_| taken).and_then(|shape| shape.slot);
    if taken {
        response.request_focus();
    }
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(Spoken::Image, true, &drawing.title);
        info.current_text_value = named.map(|shape| shape.name.clone());
        info
    });
    Pointed { response, shape, chosen, scale: view.map(|view| view.scale) }
}

/// The view in which also the words, whose size does not follow the scale, lie within `field`.
fn fitted(ui: &Ui, field: Rect, at_most: Option<f64>, drawing: &Drawing) -> Option<View> {
    let mut room = field;
    let mut view = View::fit(drawing, room, at_most)?;
    // The words move with the scale, hence a second look at what still sticks out.
    for _ in 0..2 {
        let words = paint::words_extent(ui.painter(), &view, drawing);
        room.min += (field.min - words.min).max(egui::Vec2::ZERO);
        room.max -= (words.max - field.max).max(egui::Vec2::ZERO);
        view = View::fit(drawing, room, at_most)?;
    }
    Some(view)
}

/// The shape under the mouse; else the one that the arrow keys stand on.
fn pointed_at(ui: &Ui, response: &Response, drawing: &Drawing, view: Option<&View>) -> Option<usize> {
    if let (Some(at), Some(view)) = (response.hover_pos(), view) {
        let slack = f64::from(SLACK) / view.scale;
        let hit = drawing.named_at(view.mm(at), slack);
        if hit.is_some() {
            return hit;
        }
    }
    if !response.has_focus() {
        return None;
    }
    let arrows = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
    let stops = drawing.stops();
    if stops.is_empty() {
        return None;
    }
    let known = ui.data(|data| data.get_temp::<usize>(response.id));
    let (ahead, back) = ui.input(|input| {
        let pressed = |key| input.num_presses(key);
        (pressed(Key::ArrowRight) + pressed(Key::ArrowDown), pressed(Key::ArrowLeft) + pressed(Key::ArrowUp))
    });
    let back = back % stops.len();
    let stop = (known.unwrap_or(0) + ahead + stops.len() - back) % stops.len();
    ui.data_mut(|data| data.insert_temp(response.id, stop));
    stops.get(stop).copied()
}

fn heading(drawing: &Drawing, ratio: Option<f64>) -> String {
    match ratio {
        Some(ratio) if ratio >= 1.0 => format!("{}, 1 : {ratio:.1}", drawing.title),
        Some(ratio) => format!("{}, {:.1} : 1", drawing.title, 1.0 / ratio),
        None => drawing.title.clone(),
    }
}

/// From millimetres to points.
#[derive(Clone, Copy, Debug)]
struct View {
    /// Points to a millimetre.
    scale: f64,
    /// The millimetres in the middle of the field.
    middle: Point,
    /// The middle of the field.
    center: Pos2,
}

impl View {
    /// The largest view of all shapes within `field`, of `at_most` points to a millimetre; `None` while there is
    /// nothing to see or no room to see it.
    fn fit(drawing: &Drawing, field: Rect, at_most: Option<f64>) -> Option<Self> {
        let (min, max) = drawing.bounds()?;
        let extent = [max[0] - min[0], max[1] - min[1]];
        let wide = f64::from(field.width()) / extent[0];
        let high = f64::from(field.height()) / extent[1];
        let scale = wide.min(high).min(at_most.unwrap_or(f64::INFINITY));
        (scale.is_finite() && scale > 0.0).then_some(Self {
            scale,
            middle: [f64::midpoint(min[0], max[0]), f64::midpoint(min[1], max[1])],
            center: field.center(),
        })
    }

    /// Real size to the size on a screen of 96 points an inch.
    fn ratio(&self) -> f64 {
        1.0 / (self.scale * MM_PER_POINT)
    }

    #[expect(clippy::cast_possible_truncation, reason = "points on a screen")]
    fn length(&self, mm: f64) -> f32 {
        (mm * self.scale) as f32
    }

    fn screen(&self, point: Point) -> Pos2 {
        let (x, y) = (point[0] - self.middle[0], point[1] - self.middle[1]);
        self.center + vec2(self.length(x), -self.length(y))
    }

    fn mm(&self, at: Pos2) -> Point {
        let offset = at - self.center;
        [self.middle[0] + f64::from(offset.x) / self.scale, self.middle[1] - f64::from(offset.y) / self.scale]
    }
}

/// The longest of 1, 2, 5, 10 … millimetres that takes no more than `room` points.
fn scale_length(scale: f64, room: f32) -> f64 {
    let room = f64::from(room) / scale;
    let decade = 10_f64.powf(room.log10().floor());
    let steps = [5.0, 2.0, 1.0].map(|step| step * decade);
    steps.into_iter().find(|length| *length <= room).unwrap_or(decade)
}

#[cfg(test)]
mod tests {
    use egui::pos2;
    use propwright_engine::drawing::{Geometry, Role, Shape};

    use super::*;

    fn frame() -> Drawing {
        let corner = |x, y| Shape {
            geometry: Geometry::Circle { center: [x, y], radius: 10.0 },
            role: Role::Sweep,
            slot: None,
            name: String::new(),
            stated: true,
        };
        let shapes = vec![corner(-90.0, -40.0), corner(90.0, 40.0)];
        Drawing { title: "From above".to_owned(), shapes, notes: Vec::new() }
    }

    fn field() -> Rect {
        Rect::from_min_max(pos2(100.0, 50.0), pos2(500.0, 450.0))
    }

    #[test]
    fn the_view_fits_the_wider_side_and_centres_the_other() {
        let view = View::fit(&frame(), field(), None).unwrap();
        assert!((view.scale - 2.0).abs() < 1e-9, "400 points for 200 mm");
        let smaller = View::fit(&frame(), field(), Some(1.5)).unwrap();
        assert!((smaller.scale - 1.5).abs() < 1e-9);
        assert_eq!(view.screen([-100.0, 0.0]), pos2(100.0, 250.0));
        assert_eq!(view.screen([0.0, 50.0]), pos2(300.0, 150.0));
    }

    #[test]
    fn screen_and_millimetres_go_both_ways() {
        let view = View::fit(&frame(), field(), None).unwrap();
        let back = view.mm(view.screen([12.5, -7.0]));
        assert!((back[0] - 12.5).abs() < 1e-4 && (back[1] + 7.0).abs() < 1e-4);
    }

    #[test]
    fn nothing_or_a_point_has_no_view() {
        assert!(View::fit(&Drawing::default(), field(), None).is_none());
        let mut dot = frame();
        dot.shapes.truncate(1);
        dot.shapes[0].geometry = Geometry::Circle { center: [0.0, 0.0], radius: 0.0 };
        assert!(View::fit(&dot, field(), None).is_none());
    }

    #[test]
    fn the_scale_line_is_a_round_length() {
        // 1 point a millimetre: 100 mm are 100 points.
        assert!((scale_length(1.0, 130.0) - 100.0).abs() < 1e-9);
        assert!((scale_length(1.0, 99.0) - 50.0).abs() < 1e-9);
        assert!((scale_length(10.0, 130.0) - 10.0).abs() < 1e-9);
        assert!((scale_length(5.0, 130.0) - 20.0).abs() < 1e-9);
    }
}
