//! How a chart looks.

use egui::{Align2, Color32, Mesh, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, pos2, vec2};

use propwright_paper::plot::{Line, Look, Mark, Plot, Span, reading, tick_words};

use super::{NAME, ROW, screen, small, words::Words};
use crate::theme::{self, GRID, TEXT, Tokens};

/// Distance of the figures beside a scale, in points.
const APART: [f32; 2] = [44.0, 30.0];
/// Distance of hatch lines, in points.
const HATCH: f32 = 1.5 * GRID;
/// Half the size of a mark, in points.
const MARK: f32 = 3.75;
/// How much of a curve's tone its band has.
const SHADE: f32 = 0.16;

fn tone(look: Look, tokens: &Tokens) -> Color32 {
    match look {
        Look::First => tokens.accent,
        Look::Second => tokens.ink,
        Look::Third => tokens.soft,
    }
}

/// Name, place of the cursor, and a line for each curve.
pub(super) fn head(painter: &Painter, rect: Rect, plot: &Plot, at: Option<f64>, tokens: &Tokens) {
    let write = |at: Pos2, align: Align2, text: String, font, tone| painter.text(at, align, text, font, tone);
    let name = write(rect.min, Align2::LEFT_TOP, plot.name.to_owned(), theme::bold(TEXT), tokens.ink);
    let (words, short, tone) = match at {
        Some(x) => (reading::title(plot, x), reading::place(plot, x), tokens.ink),
        None => (format!("over {}, {}", plot.x.title, plot.x.unit), format!("over {}", plot.x.title), tokens.soft),
    };
    let galley = painter.layout_no_wrap(words, small(), tone);
    let fits = name.right() + 2.0 * GRID + galley.size().x <= rect.right();
    let galley = if fits { galley } else { painter.layout_no_wrap(short, small(), tone) };
    painter.galley(pos2(rect.right() - galley.size().x, rect.top() + 1.0), galley, tone);
    for (row, line) in plot.lines.iter().enumerate() {
        let y = rect.top() + NAME + ROW * (row as f32 + 0.5);
        swatch(painter, pos2(rect.left(), y), line.look, tokens);
        write(pos2(rect.left() + 6.0 * GRID, y), Align2::LEFT_CENTER, line.name.clone(), small(), tokens.soft);
        let (figure, tone) = match at {
            None => (line.unit.to_owned(), tokens.soft),
            Some(x) => match reading::at(line, x) {
                Some(span) => (reading::words(&span, line.unit), tokens.ink),
                None => ("none".to_owned(), tokens.soft),
            },
        };
        write(pos2(rect.right(), y), Align2::RIGHT_CENTER, figure, small(), tone);
    }
}

/// A piece of a curve beside its name.
fn swatch(painter: &Painter, at: Pos2, look: Look, tokens: &Tokens) {
    let ends = [at, at + vec2(4.5 * GRID, 0.0)];
    painter.extend(stroked(ends.to_vec(), look, tokens));
}

fn stroked(points: Vec<Pos2>, look: Look, tokens: &Tokens) -> Vec<Shape> {
    let tone = tone(look, tokens);
    match look {
        Look::First => vec![Shape::line(points, Stroke::new(2.0, tone))],
        Look::Second => Shape::dashed_line(&points, Stroke::new(1.5, tone), 5.0, 3.0),
        Look::Third => vec![Shape::line(points, Stroke::new(1.0, tone))],
    }
}

/// The field with all that is in it.
pub(super) fn chart(painter: &Painter, field: Rect, plot: &Plot, at: Option<f64>, tokens: &Tokens) {
    painter.rect_filled(field, 0.0, tokens.panel);
    let inner = painter.with_clip_rect(field.expand(1.0).intersect(painter.clip_rect()));
    for stretch in &plot.stretches {
        let ends = stretch.ends.map(|x| screen::at(&plot.x, x, field.x_range()));
        let rect = Rect::from_x_y_ranges(ends[0]..=ends[1], field.y_range());
        if stretch.closed {
            inner.rect_filled(rect, 0.0, tokens.fill);
            hatch(&inner, rect, tokens.line);
        } else {
            let edge = Stroke::new(3.0, tokens.unstated);
            inner.hline(rect.x_range(), rect.bottom() - 1.5, edge);
        }
    }
    scales(painter, field, plot, tokens);
    for (at, line) in plot.lines.iter().enumerate() {
        band(&inner, field, plot, at, line, tokens);
    }
    for level in &plot.levels {
        let y = height(plot, field, level.line, level.y);
        inner.extend(Shape::dotted_line(&[pos2(field.left(), y), pos2(field.right(), y)], tokens.soft, 4.0, 0.75));
    }
    for fence in &plot.fences {
        let x = screen::at(&plot.x, fence.x, field.x_range());
        inner.vline(x, field.y_range(), Stroke::new(1.0, tokens.soft));
    }
    for (at, line) in plot.lines.iter().enumerate() {
        curve(&inner, field, plot, at, line, tokens);
    }
    named(painter, field, plot, tokens);
    if let Some(x) = at {
        cursor(&inner, field, plot, x, tokens);
    }
}

fn height(plot: &Plot, field: Rect, line: usize, figure: f64) -> f32 {
    screen::at(plot.scale_of(line), figure, egui::Rangef::new(field.bottom(), field.top()))
}

/// Lines and figures of the scales.
fn scales(painter: &Painter, field: Rect, plot: &Plot, tokens: &Tokens) {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a handful of figures")]
    let most = |length: f32, apart: f32| (length / apart).max(2.0) as usize;
    let thin = Stroke::new(1.0, tokens.line.gamma_multiply(0.6));
    let below = field.bottom() + 0.75 * GRID;
    for tick in plot.x.ticks(most(field.width(), APART[0])) {
        let x = painter.round_to_pixel_center(screen::at(&plot.x, tick, field.x_range()));
        painter.vline(x, field.bottom()..=field.bottom() + 3.0, Stroke::new(1.0, tokens.soft));
        let words = painter.layout_no_wrap(tick_words(tick), small(), tokens.soft);
        painter.galley(pos2(x - words.size().x / 2.0, below), words, tokens.soft);
    }
    let looks = |right: bool| plot.lines.iter().find(|line| line.right == right).map_or(Look::Third, |line| line.look);
    for (axis, right) in [(Some(&plot.left), false), (plot.right.as_ref(), true)] {
        let Some(axis) = axis else { continue };
        for tick in axis.ticks(most(field.height(), APART[1])) {
            let y = painter.round_to_pixel_center(screen::at(axis, tick, egui::Rangef::new(field.bottom(), field.top())));
            if !right {
                painter.hline(field.x_range(), y, thin);
            }
            let (x, align) =
                if right { (field.right() + GRID, Align2::LEFT_CENTER) } else { (field.left() - GRID, Align2::RIGHT_CENTER) };
            painter.text(pos2(x, y), align, tick_words(tick), small(), tone(looks(right), tokens));
        }
    }
    painter.hline(field.x_range(), field.bottom(), Stroke::new(1.0, tokens.soft));
}

fn band(painter: &Painter, field: Rect, plot: &Plot, at: usize, line: &Line, tokens: &Tokens) {
    let shade = tone(line.look, tokens).gamma_multiply(SHADE);
    for run in line.runs() {
        let mut mesh = Mesh::default();
        for (x, span) in run {
            let x = screen::at(&plot.x, x, field.x_range());
            mesh.colored_vertex(pos2(x, height(plot, field, at, span.low)), shade);
            mesh.colored_vertex(pos2(x, height(plot, field, at, span.high)), shade);
        }
        let pairs = u32::try_from(mesh.vertices.len() / 2).unwrap_or(0);
        for pair in 1..pairs {
            let first = 2 * pair - 2;
            mesh.add_triangle(first, first + 1, first + 2);
            mesh.add_triangle(first + 1, first + 2, first + 3);
        }
        painter.add(mesh);
    }
}

fn curve(painter: &Painter, field: Rect, plot: &Plot, at: usize, line: &Line, tokens: &Tokens) {
    for run in line.runs() {
        painter.extend(stroked(drawn(plot, field, at, &run), line.look, tokens));
    }
}

/// Where points of a curve lie in the field.
fn drawn(plot: &Plot, field: Rect, at: usize, points: &[(f64, Span)]) -> Vec<Pos2> {
    let place = |(x, span): &(f64, Span)| pos2(screen::at(&plot.x, *x, field.x_range()), height(plot, field, at, span.nominal));
    points.iter().map(place).collect()
}

/// Operating points, lines and stretches with their words.
fn named(painter: &Painter, field: Rect, plot: &Plot, tokens: &Tokens) {
    let place = |mark: &Mark| pos2(screen::at(&plot.x, mark.x, field.x_range()), height(plot, field, mark.line, mark.y));
    let taken = plot.marks.iter().map(|mark| Rect::from_center_size(place(mark), vec2(3.0 * MARK, 3.0 * MARK))).collect();
    let ground = tokens.panel.gamma_multiply(0.8);
    let lines = plot.lines.iter().enumerate();
    let curves = lines.flat_map(|(at, line)| drawn(plot, field, at, &line.runs().concat())).collect();
    let mut words = Words::new(painter, field.shrink(1.0), taken, curves);
    for (at, mark) in plot.marks.iter().enumerate() {
        sign(painter, place(mark), at, tokens);
        let (here, off) = (place(mark), 2.0 * MARK);
        let sides = [
            (vec2(off, -0.5 * off), Align2::LEFT_BOTTOM),
            (vec2(-off, -0.5 * off), Align2::RIGHT_BOTTOM),
            (vec2(off, 0.5 * off), Align2::LEFT_TOP),
            (vec2(-off, 0.5 * off), Align2::RIGHT_TOP),
            (vec2(0.0, -off), Align2::CENTER_BOTTOM),
            (vec2(0.0, off), Align2::CENTER_TOP),
            (vec2(-off, -3.0 * off), Align2::RIGHT_BOTTOM),
            (vec2(off, -3.0 * off), Align2::LEFT_BOTTOM),
            (vec2(off, 3.0 * off), Align2::LEFT_TOP),
            (vec2(-off, 3.0 * off), Align2::RIGHT_TOP),
        ];
        words.write(mark.word, tokens.ink, ground, &sides.map(|(by, align)| (here + by, align)));
    }
    for level in &plot.levels {
        let y = height(plot, field, level.line, level.y);
        let at = |x: f32, align| (pos2(x, y), align);
        let ends = [at(field.right() - GRID, Align2::RIGHT_BOTTOM), at(field.left() + GRID, Align2::LEFT_BOTTOM)];
        let below = [at(field.right() - GRID, Align2::RIGHT_TOP), at(field.left() + GRID, Align2::LEFT_TOP)];
        words.write(level.word, tokens.soft, ground, &[ends, below].concat());
    }
    for fence in &plot.fences {
        let x = screen::at(&plot.x, fence.x, field.x_range());
        words.write(fence.word, tokens.soft, ground, &down(field, x));
    }
    for stretch in plot.stretches.iter().filter(|stretch| !stretch.closed) {
        let end = |at: usize| screen::at(&plot.x, stretch.ends[at], field.x_range());
        let y = field.bottom() - 3.0;
        let places = [(pos2(end(1), y), Align2::RIGHT_BOTTOM), (pos2(end(0), y), Align2::LEFT_BOTTOM)];
        words.write(stretch.word, tokens.soft, ground, &places);
    }
    for stretch in plot.stretches.iter().filter(|stretch| stretch.closed) {
        let x = screen::at(&plot.x, f64::midpoint(stretch.ends[0], stretch.ends[1]), field.x_range());
        let left = screen::at(&plot.x, stretch.ends[0], field.x_range());
        let middle = [0.5, 0.3, 0.7]
            .map(|share| (pos2(x, egui::lerp(field.y_range().min..=field.y_range().max, share)), Align2::CENTER_CENTER));
        words.write(stretch.word, tokens.soft, ground, &[middle.to_vec(), down(field, left)].concat());
    }
}

/// Places beside a line across, from the top down.
fn down(field: Rect, x: f32) -> Vec<(Pos2, Align2)> {
    let rows = [0.0_f32, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0];
    let beside = |row: f32| {
        let y = field.top() + 2.0 + row * ROW;
        [(pos2(x + 3.0, y), Align2::LEFT_TOP), (pos2(x - 3.0, y), Align2::RIGHT_TOP)]
    };
    rows.into_iter().flat_map(beside).collect()
}

/// The sign of an operating point: its shape tells it from the others of the chart.
fn sign(painter: &Painter, at: Pos2, nth: usize, tokens: &Tokens) {
    let edge = Stroke::new(1.5, tokens.ink);
    let corner = |x: f32, y: f32| at + vec2(x, y) * MARK;
    let corners = match nth % 4 {
        0 => vec![corner(-0.9, -0.9), corner(0.9, -0.9), corner(0.9, 0.9), corner(-0.9, 0.9)],
        1 => vec![corner(0.0, -1.2), corner(1.1, 0.9), corner(-1.1, 0.9)],
        2 => vec![corner(0.0, -1.3), corner(1.3, 0.0), corner(0.0, 1.3), corner(-1.3, 0.0)],
        _ => vec![corner(-1.1, -0.9), corner(1.1, -0.9), corner(0.0, 1.2)],
    };
    painter.add(Shape::convex_polygon(corners, tokens.panel, edge));
}

/// Lines from lower left to upper right within `rect`.
fn hatch(painter: &Painter, rect: Rect, tone: Color32) {
    let cut = painter.with_clip_rect(rect.intersect(painter.clip_rect()));
    let mut x = rect.left() - rect.height();
    while x < rect.right() {
        cut.line_segment([pos2(x, rect.bottom()), pos2(x + rect.height(), rect.top())], Stroke::new(1.0, tone));
        x += HATCH;
    }
}

/// The cursor with a dash where it crosses each curve.
fn cursor(painter: &Painter, field: Rect, plot: &Plot, x: f64, tokens: &Tokens) {
    let across = painter.round_to_pixel_center(screen::at(&plot.x, x, field.x_range()));
    painter.vline(across, field.y_range(), Stroke::new(1.0, tokens.accent));
    for (at, line) in plot.lines.iter().enumerate() {
        if let Some(span) = reading::at(line, x) {
            let y = height(plot, field, at, span.nominal);
            painter.hline(across - GRID..=across + GRID, y, Stroke::new(2.0, tone(line.look, tokens)));
        }
    }
}

/// Shows where the keys are.
pub(super) fn focus(painter: &Painter, rect: Rect, tokens: &Tokens) {
    painter.rect_stroke(rect.expand(3.0), 4.0, Stroke::new(2.0, tokens.accent), StrokeKind::Outside);
}
