//! Shapes in millimetres, each with a role and, where it stands for one, the slot of its part.

use propwright_schema::slot::Slot;

/// A point in millimetres: x to the right, y upwards (from above: to the front).
pub type Point = [f64; 2];

/// One view of a craft.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawing {
    /// What is seen: "From above".
    pub title: String,
    /// In the order in which they are painted.
    pub shapes: Vec<Shape>,
    /// What is not drawn, or drawn on an assumption, and why; one sentence each.
    pub notes: Vec<String>,
}

/// One thing in a drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Form and place.
    pub geometry: Geometry,
    /// What it is, which decides how it is painted.
    pub role: Role,
    /// The slot of the part it stands for; shapes of one slot are marked together.
    pub slot: Option<Slot>,
    /// What is said when it is pointed at: "Propellers, Harrowmint 5.1 × 4.3 × 3". Empty: nothing is said.
    pub name: String,
    /// Are its form and place published? If not they are assumed, and the shape is drawn dashed.
    pub stated: bool,
}

/// Form and place of a shape, in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub enum Geometry {
    /// A circle.
    Circle {
        /// Its centre.
        center: Point,
        /// Its radius.
        radius: f64,
    },
    /// A closed outline; filled only where it is convex.
    Polygon {
        /// Its corners in order, three or more.
        points: Vec<Point>,
    },
    /// An open line of one or more pieces.
    Line {
        /// Its corners in order, two or more.
        points: Vec<Point>,
        /// Its breadth; 0 for a hairline.
        width: f64,
    },
    /// An upright rectangle.
    Rect {
        /// The lower left corner.
        min: Point,
        /// The upper right corner.
        max: Point,
        /// Radius of its corners.
        corner: f64,
    },
    /// Words at a place, of one size whatever the scale.
    Text {
        /// The middle of the words.
        at: Point,
        /// The words.
        text: String,
        /// They are left out where they would be broader than this; 0 for no limit.
        room: f64,
    },
    /// A distance with its figure.
    Dimension {
        /// One end.
        from: Point,
        /// The other end.
        to: Point,
        /// The figure with its unit: "28 mm".
        text: String,
        /// What is measured: "between tips".
        note: String,
    },
}

/// What a shape is, which decides how it is painted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// The circle that a propeller sweeps.
    Sweep,
    /// A blade.
    Blade,
    /// A duct or guard around a propeller, seen from above.
    Duct,
    /// An arm of the frame.
    Arm,
    /// A plate or the outline of the body.
    Body,
    /// A standoff, a plate seen from its edge: solid.
    Structure,
    /// A part that lies in or on the frame.
    Part,
    /// The centre of gravity.
    Balance,
    /// Measures and words.
    Note,
}

impl Geometry {
    /// Lower left and upper right corner of what it covers; `None` where it has no finite point.
    pub fn bounds(&self) -> Option<(Point, Point)> {
        let around = |points: &[Point], by: f64| {
            let mut finite = points.iter().filter(|p| p.iter().all(|v| v.is_finite()));
            let first = *finite.next()?;
            let (min, max) = finite.fold((first, first), |(min, max), p| {
                ([min[0].min(p[0]), min[1].min(p[1])], [max[0].max(p[0]), max[1].max(p[1])])
            });
            Some(([min[0] - by, min[1] - by], [max[0] + by, max[1] + by]))
        };
        match self {
            Self::Circle { center, radius } => around(&[*center], *radius),
            Self::Polygon { points } => around(points, 0.0),
            Self::Line { points, width } => around(points, width / 2.0),
            Self::Rect { min, max, .. } => around(&[*min, *max], 0.0),
            Self::Text { at, .. } => around(&[*at], 0.0),
            Self::Dimension { from, to, .. } => around(&[*from, *to], 0.0),
        }
    }

    /// Whether `point` lies on it or within `slack` of its edge. Words and measures are never hit.
    pub fn hit(&self, point: Point, slack: f64) -> bool {
        match self {
            Self::Circle { center, radius } => distance(point, *center) <= radius + slack,
            Self::Polygon { points } => inside(points, point) || on_line(points, point, slack),
            Self::Line { points, width } => on_line(points, point, width / 2.0 + slack),
            Self::Rect { min, max, .. } => (0..2).all(|i| point[i] >= min[i] - slack && point[i] <= max[i] + slack),
            Self::Text { .. } | Self::Dimension { .. } => false,
        }
    }
}

impl Drawing {
    /// Lower left and upper right corner of all shapes; `None` while nothing is drawn.
    pub fn bounds(&self) -> Option<(Point, Point)> {
        let all = self.shapes.iter().filter_map(|s| s.geometry.bounds());
        all.reduce(|(a, b), (c, d)| ([a[0].min(c[0]), a[1].min(c[1])], [b[0].max(d[0]), b[1].max(d[1])]))
    }

    /// The smallest named shape at `point`, so that what lies under a propeller's sweep can be pointed at.
    pub fn named_at(&self, point: Point, slack: f64) -> Option<usize> {
        let area = |shape: &Shape| {
            let (min, max) = shape.geometry.bounds().unwrap_or_default();
            (max[0] - min[0]) * (max[1] - min[1])
        };
        let hit = |shape: &&Shape| !shape.name.is_empty() && shape.geometry.hit(point, slack);
        // From the last painted, so that of two equal ones the upper is taken.
        let shapes = self.shapes.iter().enumerate().rev();
        shapes.filter(|(_, shape)| hit(shape)).min_by(|(_, a), (_, b)| area(a).total_cmp(&area(b))).map(|(index, _)| index)
    }

    /// The shapes that arrow keys go through: the first of each name, in the order of the drawing.
    pub fn stops(&self) -> Vec<usize> {
        let mut stops: Vec<usize> = Vec::new();
        for (index, shape) in self.shapes.iter().enumerate() {
            let known = stops.iter().any(|&stop| self.shapes[stop].name == shape.name);
            if !shape.name.is_empty() && !known {
                stops.push(index);
            }
        }
        stops
    }
}

fn distance(a: Point, b: Point) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// Even-odd rule: a ray to the right crosses the outline an odd number of times.
fn inside(points: &[Point], point: Point) -> bool {
    let mut inside = false;
    for (i, a) in points.iter().enumerate() {
        let b = points[(i + 1) % points.len()];
        let crosses = (a[1] > point[1]) != (b[1] > point[1]);
        if crosses && point[0] < (b[0] - a[0]) * (point[1] - a[1]) / (b[1] - a[1]) + a[0] {
            inside = !inside;
        }
    }
    inside
}

fn on_line(points: &[Point], point: Point, within: f64) -> bool {
    points.windows(2).any(|piece| {
        let (a, b) = (piece[0], piece[1]);
        let (x, y) = (b[0] - a[0], b[1] - a[1]);
        let length = x * x + y * y;
        let along = ((point[0] - a[0]) * x + (point[1] - a[1]) * y) / length;
        let along = if length > 0.0 { along.clamp(0.0, 1.0) } else { 0.0 };
        distance(point, [a[0] + along * x, a[1] + along * y]) <= within
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shape(name: &str, geometry: Geometry) -> Shape {
        Shape { geometry, role: Role::Part, slot: None, name: name.to_owned(), stated: true }
    }

    fn circle(center: Point, radius: f64) -> Geometry {
        Geometry::Circle { center, radius }
    }

    #[test]
    fn the_smaller_of_two_nested_shapes_is_named_whatever_the_order() {
        let sweep = shape("propeller", circle([0.0, 0.0], 65.0));
        let motor = shape("motor", circle([0.0, 0.0], 14.0));
        for shapes in [[sweep.clone(), motor.clone()], [motor.clone(), sweep.clone()]] {
            let drawing = Drawing { shapes: shapes.to_vec(), ..Drawing::default() };
            let name = |point| drawing.named_at(point, 0.0).map(|i| drawing.shapes[i].name.as_str());
            assert_eq!(name([10.0, 0.0]), Some("motor"));
            assert_eq!(name([40.0, 0.0]), Some("propeller"));
            assert_eq!(name([66.0, 0.0]), None);
        }
    }

    #[test]
    fn bounds_hold_every_shape() {
        let drawing = Drawing {
            shapes: vec![
                shape("a", circle([-80.0, 80.0], 65.0)),
                shape("b", Geometry::Line { points: vec![[0.0, 0.0], [100.0, -40.0]], width: 10.0 }),
            ],
            ..Drawing::default()
        };
        assert_eq!(drawing.bounds(), Some(([-145.0, -45.0], [105.0, 145.0])));
        assert_eq!(Drawing::default().bounds(), None);
        assert_eq!(Geometry::Polygon { points: vec![[f64::NAN, 0.0]] }.bounds(), None);
    }

    #[test]
    fn a_concave_outline_is_hit_only_inside() {
        let hook = vec![[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [5.0, 2.0], [0.0, 10.0]];
        let hook = Geometry::Polygon { points: hook };
        assert!(hook.hit([1.0, 5.0], 0.0));
        assert!(!hook.hit([5.0, 5.0], 0.0));
    }

    #[test]
    fn a_line_of_no_length_is_a_point() {
        let dot = Geometry::Line { points: vec![[1.0, 1.0], [1.0, 1.0]], width: 2.0 };
        assert!(dot.hit([1.5, 1.0], 0.0));
        assert!(!dot.hit([2.5, 1.0], 0.0));
    }

    #[test]
    fn arrow_keys_stop_once_at_each_name() {
        let drawing = Drawing {
            shapes: vec![
                shape("motor", circle([0.0, 0.0], 1.0)),
                shape("motor", circle([9.0, 0.0], 1.0)),
                shape("", circle([5.0, 0.0], 1.0)),
                shape("pack", circle([5.0, 5.0], 1.0)),
            ],
            ..Drawing::default()
        };
        assert_eq!(drawing.stops(), [0, 3]);
    }
}
