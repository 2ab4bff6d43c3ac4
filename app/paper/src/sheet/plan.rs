//! A drawing of the craft on paper, to a scale that is said.

use propwright_engine::drawing::{Drawing, Geometry, Point, Role, Shape};

use super::{
    face::width,
    flow::{line, words},
    leaf::{Face, Mark, PER_MM, Pen, Spot, Tone, rectangle},
};
use crate::page::escaped;

/// Scales that a ruler reads easily: millimetres of the craft on one of the paper.
const SCALES: [f64; 12] = [0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 8.0, 10.0, 20.0, 50.0];
/// Height of type in a drawing, in points.
const SIZE: f32 = 6.6;
/// Free border around a drawing for measures and words, in points.
const BORDER: f32 = 12.0;

/// The smallest scale at which both views go into fields of these sizes in points.
pub(crate) fn scale(fields: &[(&Drawing, Spot)]) -> f64 {
    let fits = |scale: &&f64| {
        fields.iter().all(|(drawing, field)| {
            drawing.bounds().is_none_or(|(min, max)| {
                (0..2).all(|i| {
                    let free = f64::from(field[i] - 2.0 * BORDER);
                    (max[i] - min[i]) / **scale * f64::from(PER_MM) <= free
                })
            })
        })
    };
    SCALES.iter().find(fits).copied().unwrap_or(SCALES[SCALES.len() - 1])
}

/// Height that a drawing takes at a scale, in points.
pub(crate) fn height(drawing: &Drawing, scale: f64) -> f32 {
    drawing.bounds().map_or(0.0, |(min, max)| to_points(max[1] - min[1], scale) + 2.0 * BORDER)
}

/// The marks of a drawing in a field `room` points broad, its upper left corner at nought.
pub(crate) fn marks(drawing: &Drawing, scale: f64, room: f32) -> Vec<Mark> {
    let Some((min, max)) = drawing.bounds() else { return Vec::new() };
    let left = (room - to_points(max[0] - min[0], scale)) / 2.0;
    let place = Place { min, max, scale, left };
    drawing.shapes.iter().flat_map(|shape| place.shape(shape)).collect()
}

/// A bar of 50 mm of the craft, and the scale in words.
pub(crate) fn bar(scale: f64) -> Vec<Mark> {
    let long = to_points(50.0, scale);
    let pen = |from, to| line(from, to, 0.9, Tone::Ink);
    let mut marks = vec![pen([0.0, 8.0], [long, 8.0]), pen([0.0, 5.0], [0.0, 11.0]), pen([long, 5.0], [long, 11.0])];
    let said = format!("50 mm · scale 1 : {scale}");
    marks.extend(words([long + 6.0, 10.5], SIZE + 1.0, Face::Regular, Tone::Soft, &said));
    marks
}

#[expect(clippy::cast_possible_truncation, reason = "places on paper are far inside the range of f32")]
fn to_points(mm: f64, scale: f64) -> f32 {
    (mm / scale) as f32 * PER_MM
}

/// Where a drawing lies in its field.
struct Place {
    min: Point,
    max: Point,
    scale: f64,
    left: f32,
}

impl Place {
    fn at(&self, point: Point) -> Spot {
        [self.left + to_points(point[0] - self.min[0], self.scale), BORDER + to_points(self.max[1] - point[1], self.scale)]
    }

    fn all(&self, points: &[Point]) -> Vec<Spot> {
        points.iter().map(|point| self.at(*point)).collect()
    }

    fn shape(&self, shape: &Shape) -> Vec<Mark> {
        let (fill, mut pen) = look(shape.role);
        pen.dashed = !shape.stated;
        match &shape.geometry {
            Geometry::Circle { center, radius } if shape.role == Role::Balance => {
                self.balance(*center, to_points(*radius, self.scale).max(3.0))
            }
            Geometry::Circle { center, radius } => {
                vec![Mark::Circle { center: self.at(*center), radius: to_points(*radius, self.scale), fill, pen: Some(pen) }]
            }
            Geometry::Polygon { points } => vec![Mark::Form { corners: self.all(points), fill, pen: Some(pen) }],
            Geometry::Line { points, width } => {
                let tone = if shape.role == Role::Arm { Tone::Line } else { pen.tone };
                let pen = Pen { width: to_points(*width, self.scale).max(pen.width), tone, ..pen };
                vec![Mark::Line { through: self.all(points), pen }]
            }
            Geometry::Rect { min, max, .. } => {
                let corners = rectangle(self.at([min[0], max[1]]), self.at([max[0], min[1]]));
                vec![Mark::Form { corners, fill, pen: Some(pen) }]
            }
            Geometry::Text { at, text, room } => self.text(*at, text, *room),
            Geometry::Dimension { from, to, text, note } => self.dimension(*from, *to, &format!("{text} {note}")),
        }
    }

    /// A cross in a ring: where the craft balances.
    fn balance(&self, center: Point, radius: f32) -> Vec<Mark> {
        let [x, y] = self.at(center);
        let (_, pen) = look(Role::Balance);
        vec![
            Mark::Circle { center: [x, y], radius, fill: Some(Tone::Paper), pen: Some(pen) },
            line([x - radius, y], [x + radius, y], pen.width, pen.tone),
            line([x, y - radius], [x, y + radius], pen.width, pen.tone),
        ]
    }

    fn text(&self, at: Point, text: &str, room: f64) -> Vec<Mark> {
        let text = escaped(text);
        let wide = width(Face::Regular, SIZE, &text);
        if room > 0.0 && wide > to_points(room, self.scale) {
            return Vec::new();
        }
        let [x, y] = self.at(at);
        words([x - wide / 2.0, y + SIZE * 0.35], SIZE, Face::Regular, Tone::Ink, &text)
    }

    fn dimension(&self, from: Point, to: Point, text: &str) -> Vec<Mark> {
        let (from, to) = (self.at(from), self.at(to));
        let mut marks = vec![line(from, to, 0.5, Tone::Ink)];
        for [x, y] in [from, to] {
            marks.push(line([x - 1.6, y + 1.6], [x + 1.6, y - 1.6], 0.7, Tone::Ink));
        }
        let text = escaped(text);
        let wide = width(Face::Regular, SIZE, &text);
        let (x, y) = (f32::midpoint(from[0], to[0]), f32::midpoint(from[1], to[1]));
        let upright = (to[0] - from[0]).abs() < (to[1] - from[1]).abs();
        let at = if upright { [x + 3.0, y + SIZE * 0.35] } else { [x - wide / 2.0, y - 2.5] };
        // The words lie over parts of the craft: on a ground of their own.
        let corners = rectangle([at[0] - 1.0, at[1] - SIZE * 0.85], [at[0] + wide + 1.0, at[1] + SIZE * 0.3]);
        marks.push(Mark::Form { corners, fill: Some(Tone::Paper), pen: None });
        marks.extend(words(at, SIZE, Face::Regular, Tone::Ink, text.trim()));
        marks
    }
}

/// Ground and outline of a role.
const fn look(role: Role) -> (Option<Tone>, Pen) {
    let (fill, width, tone) = match role {
        Role::Sweep | Role::Note => (None, 0.5, Tone::Soft),
        Role::Blade | Role::Structure => (Some(Tone::Soft), 0.4, Tone::Soft),
        Role::Duct => (None, 1.1, Tone::Ink),
        Role::Arm => (Some(Tone::Fill), 0.5, Tone::Soft),
        Role::Body => (Some(Tone::Fill), 0.8, Tone::Ink),
        Role::Part => (Some(Tone::Paper), 0.7, Tone::Ink),
        Role::Balance => (Some(Tone::Paper), 1.0, Tone::Ink),
    };
    (fill, Pen { width, tone, dashed: false })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_known_length_is_that_long_on_paper() {
        let rect = Geometry::Rect { min: [-100.0, -50.0], max: [100.0, 50.0], corner: 0.0 };
        let shape = Shape { geometry: rect, role: Role::Body, slot: None, name: String::new(), stated: true };
        let drawing = Drawing { shapes: vec![shape], ..Drawing::default() };
        // 200 mm go into 150 mm of paper at 1 : 1.5, 4 mm of border on either side left out.
        let scale = scale(&[(&drawing, [150.0 * PER_MM, 200.0 * PER_MM])]);
        assert!((scale - 1.5).abs() < 1e-9, "{scale}");
        let marks = marks(&drawing, scale, 150.0 * PER_MM);
        let Mark::Form { corners, .. } = &marks[0] else { panic!("{marks:?}") };
        assert!(((corners[1][0] - corners[0][0]) - 200.0 / 1.5 * PER_MM).abs() < 1e-3);
        assert!((height(&drawing, scale) - (100.0 / 1.5 * PER_MM + 2.0 * BORDER)).abs() < 1e-3);
    }
}
