//! A leaf as SVG with its faces inside, so that it looks the same everywhere.

use std::fmt::Write as _;

use base64::{Engine as _, engine::general_purpose::STANDARD};

use super::{
    face::FILES,
    flow::DASHES,
    leaf::{Face, Leaf, Mark, Pen, Spot, Tone, around},
};

/// One leaf as SVG 1.1.
pub fn svg(leaf: &Leaf) -> String {
    let used = |face: Face| leaf.marks.iter().any(|mark| matches!(mark, Mark::Words { face: used, .. } if *used == face));
    let faces: String =
        FILES.iter().filter(|(face, ..)| used(*face)).map(|(face, name, file)| embedded(*face, name, file)).collect();
    write(leaf, &faces)
}

/// The same without the faces inside, for a renderer that has them.
pub(crate) fn bare(leaf: &Leaf) -> String {
    write(leaf, "")
}

fn write(leaf: &Leaf, faces: &str) -> String {
    let [wide, high] = leaf.size;
    let mut text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide}pt\" height=\"{high}pt\" viewBox=\"0 0 {wide} {high}\">\n\
         <style>{faces}text{{white-space:pre}}</style>\n<rect width=\"{wide}\" height=\"{high}\" fill=\"#fff\"/>\n"
    );
    for mark in &leaf.marks {
        // Writing to a string cannot fail.
        let _ = match mark {
            Mark::Words { at, size, face, tone, text: said } => {
                let (family, weight) = family(*face);
                writeln!(
                    text,
                    "<text x=\"{}\" y=\"{}\" font-family=\"{family}\" font-weight=\"{weight}\" font-size=\"{size}\" fill=\"{}\" xml:space=\"preserve\">{}</text>",
                    at[0],
                    at[1],
                    hex(*tone),
                    told(said)
                )
            }
            Mark::Line { through, pen } => {
                writeln!(text, "<polyline points=\"{}\" fill=\"none\"{}/>", points(through), stroke(Some(*pen)))
            }
            Mark::Form { corners, fill, pen } => {
                writeln!(text, "<polygon points=\"{}\" fill=\"{}\"{}/>", points(corners), ground(*fill), stroke(*pen))
            }
            Mark::Ribbon { low, high, fill } => {
                writeln!(text, "<polygon points=\"{}\" fill=\"{}\"/>", points(&around(low, high)), hex(*fill))
            }
            Mark::Circle { center, radius, fill, pen } => writeln!(
                text,
                "<circle cx=\"{}\" cy=\"{}\" r=\"{radius}\" fill=\"{}\"{}/>",
                center[0],
                center[1],
                ground(*fill),
                stroke(*pen)
            ),
        };
    }
    text.push_str("</svg>\n");
    text
}

fn family(face: Face) -> (&'static str, u16) {
    let name = FILES.iter().find(|(known, ..)| *known == face).map_or("sans-serif", |(_, name, _)| name);
    (name, if face == Face::Bold { 700 } else { 400 })
}

fn embedded(face: Face, name: &str, file: &[u8]) -> String {
    let (_, weight) = family(face);
    let data = STANDARD.encode(file);
    format!("@font-face{{font-family:\"{name}\";font-weight:{weight};src:url(data:font/opentype;base64,{data})}}")
}

/// Words as XML text.
fn told(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

fn hex(tone: Tone) -> String {
    let [red, green, blue] = tone.rgb();
    format!("#{red:02x}{green:02x}{blue:02x}")
}

fn ground(tone: Option<Tone>) -> String {
    tone.map_or_else(|| "none".to_owned(), hex)
}

fn stroke(pen: Option<Pen>) -> String {
    let Some(pen) = pen else { return String::new() };
    let dashes = if pen.dashed { format!(" stroke-dasharray=\"{} {}\"", DASHES[0], DASHES[1]) } else { String::new() };
    format!(" stroke=\"{}\" stroke-width=\"{}\"{dashes}", hex(pen.tone), pen.width)
}

fn points(spots: &[Spot]) -> String {
    spots.iter().map(|[x, y]| format!("{x},{y}")).collect::<Vec<_>>().join(" ")
}
