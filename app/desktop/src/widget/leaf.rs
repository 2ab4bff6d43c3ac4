//! A leaf of paper on the screen: the same marks that are printed.

use egui::{Color32, Mesh, Pos2, Rect, Sense, Shape, Stroke, StrokeKind, Ui, Vec2, vec2};
use propwright_paper::sheet::{DASHES, Face, Leaf, Mark, Pen, Spot, Tone};

use crate::theme;

/// A leaf at `wide` points; `name` is read out before its words.
pub fn leaf(ui: &mut Ui, leaf: &Leaf, wide: f32, name: &str) {
    let scale = wide / leaf.size[0];
    let (rect, response) = ui.allocate_exact_size(vec2(wide, leaf.size[1] * scale), Sense::hover());
    let spoken = format!("{name}: {}", words(leaf));
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &spoken));
    if ui.is_rect_visible(rect) {
        paint(ui, rect, leaf, scale);
    }
}

fn paint(ui: &Ui, rect: Rect, leaf: &Leaf, scale: f32) {
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    painter.rect(rect, 0.0, tone(Tone::Paper), Stroke::new(1.0, theme::tokens(ui).line), StrokeKind::Inside);
    for mark in &leaf.marks {
        lay(&painter, rect.min, mark, scale);
    }
}

fn lay(painter: &egui::Painter, corner: Pos2, mark: &Mark, scale: f32) {
    let place = |[x, y]: Spot| corner + Vec2::new(x, y) * scale;
    let all = |spots: &[Spot]| spots.iter().map(|spot| place(*spot)).collect::<Vec<Pos2>>();
    match mark {
        Mark::Words { at, size, face, tone: dark, text } => {
            let font = if *face == Face::Bold { theme::bold(size * scale) } else { theme::regular(size * scale) };
            let galley = painter.layout_no_wrap(text.clone(), font, tone(*dark));
            // A galley hangs from its upper edge; paper stands on the base line.
            let ascent = galley.rows.first().and_then(|row| row.glyphs.first()).map_or(0.0, |glyph| glyph.font_ascent);
            painter.galley(place(*at) - vec2(0.0, ascent), galley, Color32::BLACK);
        }
        Mark::Line { through, pen } => line(painter, &all(through), *pen, scale),
        Mark::Form { corners, fill, pen } => {
            let points = all(corners);
            if let Some(fill) = fill {
                painter.add(Shape::convex_polygon(points.clone(), tone(*fill), Stroke::NONE));
            }
            if let Some(pen) = pen {
                let mut closed = points;
                closed.extend(closed.first().copied());
                line(painter, &closed, *pen, scale);
            }
        }
        Mark::Ribbon { low, high, fill } => ribbon(painter, &all(low), &all(high), tone(*fill)),
        Mark::Circle { center, radius, fill, pen } => {
            if let Some(fill) = fill {
                painter.circle_filled(place(*center), radius * scale, tone(*fill));
            }
            if let Some(pen) = pen {
                painter.circle_stroke(place(*center), radius * scale, stroke(*pen, scale));
            }
        }
    }
}

/// The ground between two lines, two triangles a piece.
fn ribbon(painter: &egui::Painter, low: &[Pos2], high: &[Pos2], tone: Color32) {
    let mut mesh = Mesh::default();
    for (low, high) in low.iter().zip(high) {
        mesh.colored_vertex(*low, tone);
        mesh.colored_vertex(*high, tone);
    }
    let pairs = u32::try_from(mesh.vertices.len() / 2).unwrap_or(0);
    for first in (1..pairs).map(|pair| 2 * pair - 2) {
        mesh.add_triangle(first, first + 1, first + 2);
        mesh.add_triangle(first + 1, first + 2, first + 3);
    }
    painter.add(mesh);
}

fn line(painter: &egui::Painter, points: &[Pos2], pen: Pen, scale: f32) {
    if pen.dashed {
        painter.extend(Shape::dashed_line(points, stroke(pen, scale), DASHES[0] * scale, DASHES[1] * scale));
    } else {
        painter.line(points.to_vec(), stroke(pen, scale));
    }
}

fn stroke(pen: Pen, scale: f32) -> Stroke {
    Stroke::new((pen.width * scale).max(0.5), tone(pen.tone))
}

const fn tone(tone: Tone) -> Color32 {
    let [red, green, blue] = tone.rgb();
    Color32::from_rgb(red, green, blue)
}
/// The words of a leaf for whoever cannot see it.
fn words(leaf: &Leaf) -> String {
    let said = leaf.marks.iter().filter_map(|mark| if let Mark::Words { text, .. } = mark { Some(text.as_str()) } else { None });
    said.collect::<Vec<_>>().join(" ")
}
