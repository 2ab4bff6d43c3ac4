//! One chart on paper: scales, bands, curves told apart by their pens, operating points by their signs.

use super::{
    face::width,
    flow::{line, words},
    leaf::{Face, Mark, Pen, Spot, Tone, rectangle},
};
use crate::plot::{self, Axis, Look, Plot, tick_words};

/// Height of type in a chart, in points.
pub(super) const SIZE: f32 = 7.2;
/// Room for figures at a side with a scale, and at one without.
const SIDE: f32 = 34.0;
const NO_SIDE: f32 = 8.0;
/// Room above the field for the names of the scales, and below it for figures and what is varied.
const HEAD: f32 = 14.0;
const FOOT: f32 = 25.0;
/// Least distance of the figures beside a scale, across and along.
const APART: [f32; 2] = [46.0, 26.0];
/// Distance of hatch lines.
const HATCH: f32 = 5.0;
/// Half the size of a sign.
const SIGN: f32 = 3.0;

/// The pen of a curve.
pub(super) const fn pen(look: Look) -> Pen {
    match look {
        Look::First => Pen { width: 1.7, tone: Tone::Ink, dashed: false },
        Look::Second => Pen { width: 1.3, tone: Tone::Ink, dashed: true },
        Look::Third => Pen { width: 0.7, tone: Tone::Ink, dashed: false },
    }
}

/// The pen at the edge of a band.
const fn edge(look: Look) -> Pen {
    Pen { width: 0.4, tone: Tone::Soft, dashed: matches!(look, Look::Second) }
}

/// The pen of a line along at one figure.
pub(super) const LEVEL: Pen = Pen { width: 0.7, tone: Tone::Soft, dashed: true };
/// The pen of a line across at one place.
pub(super) const FENCE: Pen = Pen { width: 0.9, tone: Tone::Soft, dashed: false };
/// The pen below a stretch in which nothing was measured.
pub(super) const UNMEASURED: Pen = Pen { width: 2.6, tone: Tone::Soft, dashed: false };

/// An upright rectangle: left, top, right, bottom.
type Area = [f32; 4];

/// The field of a chart.
struct Field<'a> {
    plot: &'a Plot,
    area: Area,
}

impl Field<'_> {
    fn x(&self, figure: f64) -> f32 {
        between(self.area[0], self.area[2], self.plot.x.share(figure))
    }

    fn y(&self, line: usize, figure: f64) -> f32 {
        between(self.area[3], self.area[1], self.plot.scale_of(line).share(figure))
    }

    fn across(&self, x: f32) -> Vec<Spot> {
        vec![[x, self.area[1]], [x, self.area[3]]]
    }

    fn along(&self, y: f32) -> Vec<Spot> {
        vec![[self.area[0], y], [self.area[2], y]]
    }
}

#[expect(clippy::cast_possible_truncation, reason = "a share between 0 and 1")]
fn between(from: f32, to: f32, share: f64) -> f32 {
    from + (to - from) * share as f32
}

/// The marks of a chart in a field of `wide` by `high` points, its upper left corner at nought.
pub(super) fn chart(plot: &Plot, wide: f32, high: f32) -> Vec<Mark> {
    let right = if plot.right.is_some() { SIDE } else { NO_SIDE };
    let field = Field { plot, area: [SIDE, HEAD, wide - right, high - FOOT] };
    let mut marks = Vec::new();
    closed(&field, &mut marks);
    bands(&field, &mut marks);
    scales(&field, &mut marks);
    for level in plot.levels.iter().filter(|level| within(plot.scale_of(level.line), level.y)) {
        marks.push(Mark::Line { through: field.along(field.y(level.line, level.y)), pen: LEVEL });
    }
    for fence in plot.fences.iter().filter(|fence| within(&plot.x, fence.x)) {
        marks.push(Mark::Line { through: field.across(field.x(fence.x)), pen: FENCE });
    }
    for stretch in plot.stretches.iter().filter(|stretch| !stretch.closed) {
        let y = field.area[3] - 1.6;
        let [from, to] = stretch.ends.map(|x| field.x(x));
        marks.push(Mark::Line { through: vec![[from, y], [to, y]], pen: UNMEASURED });
    }
    for (at, one) in plot.lines.iter().enumerate() {
        for run in one.runs() {
            let through = run.iter().map(|(x, span)| [field.x(*x), field.y(at, span.nominal)]).collect();
            stroke(&mut marks, through, pen(one.look));
        }
    }
    for (nth, mark) in plot.marks.iter().enumerate() {
        marks.push(sign(nth, [field.x(mark.x), field.y(mark.line, mark.y)]));
    }
    named(&field, &mut marks);
    marks
}

/// Does a figure lie on a scale?
pub(super) fn within(axis: &Axis, figure: f64) -> bool {
    (axis.from..=axis.to).contains(&figure)
}

/// A single place is no line.
fn stroke(marks: &mut Vec<Mark>, through: Vec<Spot>, pen: Pen) {
    if through.len() > 1 {
        marks.push(Mark::Line { through, pen });
    }
}

/// The stretches in which the craft cannot be.
fn closed(field: &Field, marks: &mut Vec<Mark>) {
    for stretch in field.plot.stretches.iter().filter(|stretch| stretch.closed) {
        let [from, to] = stretch.ends.map(|x| field.x(x));
        hatch(marks, [from, field.area[1], to, field.area[3]]);
    }
}

/// Lines from lower left to upper right within an area, which stands on a ground of its own.
pub(super) fn hatch(marks: &mut Vec<Mark>, [left, top, right, bottom]: Area) {
    let corners = rectangle([left, top], [right, bottom]);
    marks.push(Mark::Form { corners, fill: Some(Tone::Paper), pen: Some(Pen { width: 0.4, tone: Tone::Soft, dashed: false }) });
    let high = bottom - top;
    let mut from = left - high + HATCH / 2.0;
    while from < right {
        let (start, end) = (from.max(left), (from + high).min(right));
        if end > start {
            marks.push(line([start, bottom - (start - from)], [end, bottom - (end - from)], 0.35, Tone::Soft));
        }
        from += HATCH;
    }
}

/// Grounds of all bands first, then their edges, so that one band does not hide another.
fn bands(field: &Field, marks: &mut Vec<Mark>) {
    let mut edges = Vec::new();
    for (at, one) in field.plot.lines.iter().enumerate() {
        for run in one.runs() {
            let side = |of: fn(&plot::Span) -> f64| {
                run.iter().map(|(x, span)| [field.x(*x), field.y(at, of(span))]).collect::<Vec<Spot>>()
            };
            let (low, high) = (side(|span| span.low), side(|span| span.high));
            if low == high || low.len() < 2 {
                continue;
            }
            marks.push(Mark::Ribbon { low: low.clone(), high: high.clone(), fill: Tone::Fill });
            for through in [low, high] {
                edges.push(Mark::Line { through, pen: edge(one.look) });
            }
        }
    }
    marks.extend(edges);
}

/// Lines and figures of the scales, and what they measure.
fn scales(field: &Field, marks: &mut Vec<Mark>) {
    let [left, top, right, bottom] = field.area;
    let write = |marks: &mut Vec<Mark>, at: Spot, tone, text: &str| marks.extend(words(at, SIZE, Face::Regular, tone, text));
    for tick in field.plot.x.ticks(most(right - left, APART[0])) {
        let (x, text) = (field.x(tick), tick_words(tick));
        marks.push(line([x, bottom], [x, bottom + 2.5], 0.6, Tone::Soft));
        write(marks, [x - width(Face::Regular, SIZE, &text) / 2.0, bottom + SIZE + 3.0], Tone::Soft, &text);
    }
    let over = titled(&field.plot.x.title, field.plot.x.unit);
    write(marks, [(left + right - width(Face::Regular, SIZE, &over)) / 2.0, bottom + 2.0 * SIZE + 7.0], Tone::Ink, &over);
    for (axis, at_right) in [(Some(&field.plot.left), false), (field.plot.right.as_ref(), true)] {
        let Some(axis) = axis else { continue };
        for tick in axis.ticks(most(bottom - top, APART[1])) {
            let (y, text) = (between(bottom, top, axis.share(tick)), tick_words(tick));
            let broad = width(Face::Regular, SIZE, &text);
            if at_right {
                marks.push(line([right, y], [right + 2.5, y], 0.6, Tone::Soft));
            } else {
                marks.push(Mark::Line { through: field.along(y), pen: Pen { width: 0.35, tone: Tone::Line, dashed: false } });
            }
            let x = if at_right { right + 5.0 } else { left - 4.0 - broad };
            write(marks, [x, y + SIZE * 0.35], Tone::Soft, &text);
        }
        let names: Vec<&str> =
            field.plot.lines.iter().filter(|line| line.right == at_right).map(|line| line.name.as_str()).collect();
        let title = titled(&names.join(" · "), axis.unit);
        let x = if at_right { right + SIDE - width(Face::Regular, SIZE, &title) } else { 0.0 };
        write(marks, [x, top - 5.5], Tone::Ink, &title);
    }
    let frame = Pen { width: 0.6, tone: Tone::Soft, dashed: false };
    marks.push(Mark::Form { corners: rectangle([left, top], [right, bottom]), fill: None, pen: Some(frame) });
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a handful of figures")]
fn most(length: f32, apart: f32) -> usize {
    (length / apart).max(2.0) as usize
}

/// A name with its unit.
pub(super) fn titled(name: &str, unit: &str) -> String {
    if unit.is_empty() { name.to_owned() } else { format!("{name}, {unit}") }
}

/// The sign of an operating point: its shape tells it from the others of the chart.
pub(super) fn sign(nth: usize, [x, y]: Spot) -> Mark {
    let corner = |across: f32, down: f32| [x + across * SIGN, y + down * SIGN];
    let corners = match nth % 4 {
        0 => vec![corner(-0.9, -0.9), corner(0.9, -0.9), corner(0.9, 0.9), corner(-0.9, 0.9)],
        1 => vec![corner(0.0, -1.2), corner(1.1, 0.9), corner(-1.1, 0.9)],
        2 => vec![corner(0.0, -1.3), corner(1.3, 0.0), corner(0.0, 1.3), corner(-1.3, 0.0)],
        _ => vec![corner(-1.1, -0.9), corner(1.1, -0.9), corner(0.0, 1.2)],
    };
    Mark::Form { corners, fill: Some(Tone::Paper), pen: Some(Pen { width: 1.1, tone: Tone::Ink, dashed: false }) }
}

/// Words beside points and lines where they cover neither one another nor, if it can be, a curve. What finds no room is told
/// beside the chart all the same.
fn named(field: &Field, marks: &mut Vec<Mark>) {
    let plot = field.plot;
    let spot = |mark: &plot::Mark| [field.x(mark.x), field.y(mark.line, mark.y)];
    let mut taken: Vec<Area> = plot.marks.iter().map(|mark| about(spot(mark), 1.5 * SIGN)).collect();
    let curves: Vec<Spot> = plot
        .lines
        .iter()
        .enumerate()
        .flat_map(|(at, line)| line.runs().concat().into_iter().map(move |(x, span)| (at, x, span)))
        .map(|(at, x, span)| [field.x(x), field.y(at, span.nominal)])
        .collect();
    let mut write = |word: &str, tone: Tone, places: &[Spot]| {
        let broad = width(Face::Regular, SIZE, word);
        let areas = places.iter().map(|[x, y]| [*x, y - SIZE, x + broad, y + 0.25 * SIZE]);
        // A place is said by the left end of the base line; one at the right of which there is no room is no place.
        let free: Vec<Area> =
            areas.filter(|area| inside(*area, field.area) && !taken.iter().any(|other| meet(*area, *other))).collect();
        let clear = |area: &&Area| !curves.iter().any(|[x, y]| meet(**area, [*x, *y, *x, *y]));
        let Some(area) = free.iter().find(clear).or(free.first()).copied() else { return };
        let ground = rectangle([area[0] - 1.0, area[1] + 0.5], [area[2] + 1.0, area[3]]);
        marks.push(Mark::Form { corners: ground, fill: Some(Tone::Paper), pen: None });
        marks.extend(words([area[0], area[3] - 0.25 * SIZE], SIZE, Face::Regular, tone, word));
        taken.push(area);
    };
    for mark in &plot.marks {
        let ([x, y], broad) = (spot(mark), width(Face::Regular, SIZE, mark.word));
        let (right, left, middle) = (x + 2.0 * SIGN, x - 2.0 * SIGN - broad, x - broad / 2.0);
        let rows = [-SIGN, 2.5 * SIGN, -4.0 * SIGN, 6.0 * SIGN, -7.0 * SIGN, 9.0 * SIGN];
        let places: Vec<Spot> = rows.iter().flat_map(|by| [[right, y + by], [left, y + by], [middle, y + by]]).collect();
        write(mark.word, Tone::Ink, &places);
    }
    for level in plot.levels.iter().filter(|level| within(plot.scale_of(level.line), level.y)) {
        let (y, broad) = (field.y(level.line, level.y), width(Face::Regular, SIZE, level.word));
        let (left, right) = (field.area[0] + 4.0, field.area[2] - 4.0 - broad);
        write(level.word, Tone::Soft, &[[right, y - 2.5], [left, y - 2.5], [right, y + SIZE + 1.5], [left, y + SIZE + 1.5]]);
    }
    let beside = |x: f32, broad: f32| -> Vec<Spot> {
        let row = |row: u8| field.area[1] + 3.0 + SIZE + f32::from(row) * 1.4 * SIZE;
        (0..8).flat_map(|at| [[x + 3.0, row(at)], [x - 3.0 - broad, row(at)]]).collect()
    };
    for fence in plot.fences.iter().filter(|fence| within(&plot.x, fence.x)) {
        write(fence.word, Tone::Soft, &beside(field.x(fence.x), width(Face::Regular, SIZE, fence.word)));
    }
    for stretch in &plot.stretches {
        let ([from, to], broad) = (stretch.ends.map(|x| field.x(x)), width(Face::Regular, SIZE, stretch.word));
        let (middle, low) = (f32::midpoint(from, to) - broad / 2.0, field.area[3] - 5.0);
        let height = |share: f64| between(field.area[1], field.area[3], share);
        if stretch.closed {
            let inner = [0.5, 0.3, 0.7].map(|share| [middle, height(share)]);
            write(stretch.word, Tone::Soft, &[inner.to_vec(), beside(from, broad)].concat());
        } else {
            write(stretch.word, Tone::Soft, &[[to - broad - 3.0, low], [from + 3.0, low]]);
        }
    }
}

const fn about([x, y]: Spot, half: f32) -> Area {
    [x - half, y - half, x + half, y + half]
}

fn inside(inner: Area, outer: Area) -> bool {
    inner[0] >= outer[0] + 1.0 && inner[1] >= outer[1] + 1.0 && inner[2] <= outer[2] - 1.0 && inner[3] <= outer[3] - 1.0
}

fn meet(one: Area, other: Area) -> bool {
    one[0] <= other[2] && other[0] <= one[2] && one[1] <= other[3] && other[1] <= one[3]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plot::tests::plot;

    #[test]
    fn a_curve_ends_where_the_craft_ends_and_its_points_lie_by_the_scales() {
        let marks = chart(&plot(), 234.0, 139.0);
        let through = |look: Look| {
            let found = marks.iter().find_map(|mark| match mark {
                Mark::Line { through, pen: found } if *found == pen(look) => Some(through.clone()),
                _ => None,
            });
            found.unwrap()
        };
        // The field is 234 − 2·34 = 166 points broad and 139 − 14 − 25 = 100 high. At 8 of 10 the thrust is 80 of 100 gf.
        let thrust = through(Look::First);
        let [x, y] = thrust[thrust.len() - 1];
        assert!((x - (34.0 + 0.8 * 166.0)).abs() < 1e-3 && (y - (114.0 - 80.0)).abs() < 1e-3, "{x} {y}");
        let current = through(Look::Second);
        assert!((current[current.len() - 1][1] - 14.0).abs() < 1e-3, "20 of 20 A lie at the top");
    }

    #[test]
    fn hatching_stays_within_its_area() {
        let mut marks = Vec::new();
        hatch(&mut marks, [10.0, 20.0, 31.0, 90.0]);
        let lines: Vec<&Vec<Spot>> =
            marks.iter().filter_map(|mark| if let Mark::Line { through, .. } = mark { Some(through) } else { None }).collect();
        assert!(lines.len() > 15);
        for [x, y] in lines.into_iter().flatten() {
            assert!((10.0..=31.0).contains(x) && (20.0 - 1e-3..=90.0 + 1e-3).contains(y), "{x} {y}");
        }
    }

    #[test]
    fn words_cover_neither_one_another_nor_the_edge() {
        let marks = chart(&plot(), 234.0, 139.0);
        let inner: Vec<Area> = marks
            .iter()
            .filter_map(|mark| match mark {
                Mark::Words { at: [x, y], size, face, text, .. } if (15.0..=113.0).contains(y) && *x > 35.0 && *x < 200.0 => {
                    Some([*x, y - size, x + width(*face, *size, text), *y])
                }
                _ => None,
            })
            .collect();
        assert!(inner.len() >= 4, "{inner:?}");
        for (at, one) in inner.iter().enumerate() {
            assert!(inner[at + 1..].iter().all(|other| !meet(*one, *other)), "{one:?} {inner:?}");
        }
    }
}
