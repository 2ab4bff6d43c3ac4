//! The graph as a vector drawing (SVG 1.1): slots at the left, rules at the right, the path of a finding in the accent.

use std::{collections::BTreeSet, fmt::Write as _};

use propwright_engine::{
    drawing::layers::{Layered, ROW},
    graph::{Kind, Picture},
};

/// Points to a unit of the layout, and the free edge around it.
const UNIT: f64 = 12.0;
const EDGE: f64 = 24.0;
/// Width that a name may take, in units of the layout.
const NAME: f64 = 14.0;

const PAPER: &str = "#FBFAF6";
const INK: &str = "#22252A";
const SOFT: &str = "#5D6470";
const LINE: &str = "#D8D3C6";
const ACCENT: &str = "#1F4E79";

/// The drawing; what is not lit stands back when anything is.
pub fn svg(picture: &Picture, layered: &Layered, lit: &BTreeSet<usize>) -> String {
    let (width, height) = (f64::from(layered.size.0) * UNIT + 2.0 * EDGE, f64::from(layered.size.1) * UNIT + 2.0 * EDGE);
    let mut out = String::new();
    // Writing to a string cannot fail.
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.0}\" height=\"{height:.0}\" viewBox=\"0 0 {width:.0} {height:.0}\" font-family=\"B612, sans-serif\" font-size=\"10\">\n<rect width=\"100%\" height=\"100%\" fill=\"{PAPER}\"/>\n"
    );
    for pass in [false, true] {
        for edge in &picture.edges {
            let on = lit.contains(&edge.0) && lit.contains(&edge.1);
            if on == pass {
                line(&mut out, layered, *edge, on);
            }
        }
    }
    for (at, dot) in picture.dots.iter().enumerate() {
        let Some((x, y)) = point(layered, at) else { continue };
        let on = lit.contains(&at);
        let tone = match (on, lit.is_empty()) {
            (true, _) => ACCENT,
            (false, true) => INK,
            (false, false) => SOFT,
        };
        let mark = match dot.kind {
            Kind::Slot => format!("<rect x=\"{:.1}\" y=\"{:.1}\" width=\"6\" height=\"6\" fill=\"{tone}\"/>", x - 3.0, y - 3.0),
            Kind::Property => format!("<path d=\"M{:.1} {y:.1}h6\" stroke=\"{tone}\"/>", x - 3.0),
            Kind::Derivation => format!("<path d=\"M{:.1} {:.1}l3 5h-6z\" fill=\"{tone}\"/>", x, y - 3.0),
            Kind::Rule => format!(
                "<rect x=\"{:.1}\" y=\"{:.1}\" width=\"6\" height=\"6\" fill=\"none\" stroke=\"{tone}\"/>",
                x - 3.0,
                y - 3.0
            ),
        };
        let weight = if on { " font-weight=\"bold\"" } else { "" };
        let name = escaped(&shortened(&dot.title));
        let _ = writeln!(
            out,
            "<g><title>{}</title>{mark}<text x=\"{:.1}\" y=\"{:.1}\" fill=\"{tone}\"{weight}>{name}</text></g>",
            escaped(&dot.key),
            x + 6.0,
            y + 3.5
        );
    }
    out.push_str("</svg>\n");
    out
}

fn point(layered: &Layered, at: usize) -> Option<(f64, f64)> {
    let (x, y) = layered.at.get(at)?;
    Some((f64::from(*x) * UNIT + EDGE, f64::from(y + ROW / 2.0) * UNIT + EDGE))
}

fn line(out: &mut String, layered: &Layered, (from, to): (usize, usize), on: bool) {
    let (Some((x, y)), Some((to_x, to_y))) = (point(layered, from), point(layered, to)) else { return };
    let (start, end) = (x + NAME * UNIT, to_x - 5.0);
    let (tone, width) = if on { (ACCENT, 1.5) } else { (LINE, 0.75) };
    let middle = f64::midpoint(start, end);
    let _ = writeln!(
        out,
        "<path d=\"M{start:.1} {y:.1}C{middle:.1} {y:.1} {middle:.1} {to_y:.1} {end:.1} {to_y:.1}\" fill=\"none\" stroke=\"{tone}\" stroke-width=\"{width}\"/>"
    );
}

/// A name that fits between two layers.
fn shortened(name: &str) -> String {
    const MOST: usize = 30;
    if name.chars().count() <= MOST { name.to_owned() } else { name.chars().take(MOST - 1).chain(['…']).collect() }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
