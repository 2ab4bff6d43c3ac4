//! Leaves as PDF: text that can be selected, faces embedded.

use krilla::{
    Document,
    color::rgb,
    geom::{Path, PathBuilder, Point},
    metadata::Metadata,
    num::NormalizedF32,
    page::PageSettings,
    paint::{Fill, FillRule, Stroke, StrokeDash},
    surface::Surface,
    text::{Font, TextDirection},
};

use super::{
    face::FILES,
    flow::DASHES,
    leaf::{Face, Leaf, Mark, Pen, Sheet, Spot, Tone, around},
};

/// Why a document could not be written.
#[derive(Debug, thiserror::Error)]
pub enum PaperError {
    /// A face of the type could not be read: the program is damaged.
    #[error("the face {0} cannot be read")]
    Face(&'static str),
    /// The writer of the format refused.
    #[error("the document cannot be written: {0}")]
    Writer(String),
}

/// The document as PDF.
///
/// # Errors
/// [`PaperError`] when the writer refuses.
pub fn pdf(sheet: &Sheet) -> Result<Vec<u8>, PaperError> {
    let mut fonts = Vec::new();
    for (face, name, file) in FILES {
        fonts.push((face, Font::new(file.to_vec().into(), 0).ok_or(PaperError::Face(name))?));
    }
    let mut document = Document::new();
    document.set_metadata(Metadata::new().title(sheet.title.clone()).creator("Propwright".to_owned()));
    for leaf in &sheet.leaves {
        let settings = PageSettings::from_wh(leaf.size[0], leaf.size[1])
            .ok_or_else(|| PaperError::Writer("a leaf without size".to_owned()))?;
        let mut page = document.start_page_with(settings);
        let mut surface = page.surface();
        draw(&mut surface, leaf, &fonts);
        surface.finish();
        page.finish();
    }
    document.finish().map_err(|error| PaperError::Writer(format!("{error:?}")))
}

fn draw(surface: &mut Surface<'_>, leaf: &Leaf, fonts: &[(Face, Font)]) {
    for mark in &leaf.marks {
        match mark {
            Mark::Words { at, size, face, tone, text } => {
                let Some((_, font)) = fonts.iter().find(|(known, _)| known == face) else { continue };
                surface.set_stroke(None);
                surface.set_fill(Some(fill(*tone)));
                surface.draw_text(Point::from_xy(at[0], at[1]), font.clone(), *size, text, false, TextDirection::LeftToRight);
            }
            Mark::Line { through, pen } => path(surface, outline(through, false), None, Some(*pen)),
            Mark::Form { corners, fill, pen } => path(surface, outline(corners, true), *fill, *pen),
            Mark::Ribbon { low, high, fill } => path(surface, outline(&around(low, high), true), Some(*fill), None),
            Mark::Circle { center, radius, fill, pen } => path(surface, circle(*center, *radius), *fill, *pen),
        }
    }
}

fn path(surface: &mut Surface<'_>, path: Option<Path>, ground: Option<Tone>, pen: Option<Pen>) {
    let Some(path) = path else { return };
    surface.set_fill(ground.map(fill));
    surface.set_stroke(pen.map(|pen| Stroke {
        paint: color(pen.tone).into(),
        width: pen.width,
        dash: pen.dashed.then(|| StrokeDash { array: DASHES.to_vec(), offset: 0.0 }),
        ..Stroke::default()
    }));
    surface.draw_path(&path);
}

fn color(tone: Tone) -> rgb::Color {
    let [red, green, blue] = tone.rgb();
    rgb::Color::new(red, green, blue)
}

fn fill(tone: Tone) -> Fill {
    Fill { paint: color(tone).into(), opacity: NormalizedF32::ONE, rule: FillRule::NonZero }
}

fn outline(corners: &[Spot], closed: bool) -> Option<Path> {
    let mut path = PathBuilder::new();
    let (first, others) = corners.split_first()?;
    path.move_to(first[0], first[1]);
    for corner in others {
        path.line_to(corner[0], corner[1]);
    }
    if closed {
        path.close();
    }
    path.finish()
}

/// Share of the radius at which the handles of a quarter circle lie: 4/3·(√2 − 1).
const HANDLE: f32 = 0.552_285;

fn circle([x, y]: Spot, radius: f32) -> Option<Path> {
    let (r, h) = (radius, radius * HANDLE);
    let mut path = PathBuilder::new();
    path.move_to(x + r, y);
    path.cubic_to(x + r, y + h, x + h, y + r, x, y + r);
    path.cubic_to(x - h, y + r, x - r, y + h, x - r, y);
    path.cubic_to(x - r, y - h, x - h, y - r, x, y - r);
    path.cubic_to(x + h, y - r, x + r, y - h, x + r, y);
    path.close();
    path.finish()
}
