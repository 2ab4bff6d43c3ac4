//! A leaf as a picture.

use resvg::{
    tiny_skia::{Pixmap, Transform},
    usvg::{Options, Tree},
};

use super::{face::FILES, leaf::Leaf, pdf::PaperError, svg::bare};

/// One leaf as PNG at `dots` to the inch.
///
/// # Errors
/// [`PaperError`] when the renderer refuses, as for a picture too large.
pub fn png(leaf: &Leaf, dots: f32) -> Result<Vec<u8>, PaperError> {
    let refused = |why: String| PaperError::Writer(why);
    let mut options = Options::default();
    for (_, _, file) in FILES {
        options.fontdb_mut().load_font_data(file.to_vec());
    }
    let tree = Tree::from_str(&bare(leaf), &options).map_err(|error| refused(error.to_string()))?;
    let size = tree.size();
    let scale = dots * leaf.size[0] / 72.0 / size.width();
    let [wide, high] = [size.width() * scale, size.height() * scale].map(pixels);
    let mut pixmap = Pixmap::new(wide, high).ok_or_else(|| refused(format!("{wide} × {high} pixels are too many")))?;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixmap.as_mut());
    pixmap.encode_png().map_err(|error| refused(error.to_string()))
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a picture's side is a small positive number")]
fn pixels(side: f32) -> u32 {
    side.ceil() as u32
}
