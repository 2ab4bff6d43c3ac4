//! The figures at a place, in words.

use propwright_engine::explain;

use super::{Line, Plot, Span};

/// A figure with its band: "12.3 (10.1–14.9)"; only the figure where it has none.
pub fn words(span: &Span, unit: &str) -> String {
    let figure = |figure: f64| explain::number(figure).replace('-', "−");
    let nominal = with_unit(&figure(span.nominal), unit);
    if (span.high - span.low).abs() <= 1e-9 * span.nominal.abs() {
        return nominal;
    }
    // Negative figures read better with a word between than with two dashes.
    let between = if span.low < 0.0 { " to " } else { "–" };
    format!("{nominal} ({}{between}{})", figure(span.low), figure(span.high))
}

fn with_unit(figure: &str, unit: &str) -> String {
    if unit.is_empty() { figure.to_owned() } else { format!("{figure} {unit}") }
}

/// The figure of a line at a place, straight between its points; nothing in a gap.
pub fn at(line: &Line, x: f64) -> Option<Span> {
    let right = line.points.partition_point(|(point, _)| *point < x);
    let (to, here) = *line.points.get(right)?;
    if to <= x {
        return here;
    }
    let (from, before) = *line.points.get(right.checked_sub(1)?)?;
    let (before, here) = (before?, here?);
    let share = (x - from) / (to - from);
    let between = |a: f64, b: f64| a + share * (b - a);
    Some(Span {
        low: between(before.low, here.low),
        nominal: between(before.nominal, here.nominal),
        high: between(before.high, here.high),
    })
}

/// The place in words: "duty 40 %".
pub fn place(plot: &Plot, x: f64) -> String {
    format!("{} {}", plot.x.title, with_unit(&explain::number(x), plot.x.unit))
}

/// The operating points at a place.
pub fn marked(plot: &Plot, x: f64) -> impl Iterator<Item = &'static str> + '_ {
    plot.marks.iter().filter(move |mark| mark.x.to_bits() == x.to_bits()).map(|mark| mark.word)
}

/// What stands at the end of the name's line: operating points, else the place.
pub fn title(plot: &Plot, x: f64) -> String {
    let words: Vec<&str> = marked(plot, x).collect();
    if words.is_empty() { place(plot, x) } else { format!("{}: {}", words.join(", "), place(plot, x)) }
}

/// All that is told of a place.
pub fn spoken(plot: &Plot, x: f64) -> String {
    let mut told = vec![title(plot, x)];
    for line in &plot.lines {
        let figure = at(line, x).map_or_else(|| "none".to_owned(), |span| words(&span, line.unit));
        told.push(format!("{} {figure}", line.name));
    }
    let inside = plot.stretches.iter().filter(|stretch| (stretch.ends[0]..=stretch.ends[1]).contains(&x));
    told.extend(inside.map(|stretch| stretch.word.to_owned()));
    told.join("; ")
}

/// The operating points and lines of a chart, for those who do not see it.
pub fn summary(plot: &Plot) -> String {
    let point = |mark: &super::Mark| {
        let line = plot.lines.get(mark.line);
        let figure = with_unit(&explain::number(mark.y).replace('-', "−"), line.map_or("", |line| line.unit));
        format!("{}: {}, {} {figure}", mark.word, place(plot, mark.x), line.map_or("", |line| line.name.as_str()))
    };
    let mut told: Vec<String> = plot.marks.iter().map(point).collect();
    told.extend(plot.fences.iter().map(|fence| format!("{}: {}", fence.word, place(plot, fence.x))));
    told.extend(plot.stretches.iter().map(|stretch| format!("from {}: {}", place(plot, stretch.ends[0]), stretch.word)));
    told.join("; ")
}

#[cfg(test)]
mod tests {
    use super::super::tests::plot;
    use super::*;

    #[test]
    fn a_figure_lies_straight_between_its_points() {
        let plot = plot();
        let span = at(&plot.lines[0], 2.5).unwrap();
        assert!((span.nominal - 25.0).abs() < 1e-9 && (span.low - 20.0).abs() < 1e-9 && (span.high - 31.25).abs() < 1e-9);
        assert_eq!(at(&plot.lines[0], 8.5), None, "there is no figure in a gap");
        assert!((at(&plot.lines[0], 8.0).unwrap().nominal - 80.0).abs() < 1e-9);
        assert_eq!(at(&plot.lines[0], 10.5), None);
    }

    #[test]
    fn a_place_is_told_in_full() {
        let plot = plot();
        assert_eq!(spoken(&plot, 3.0), "hover: duty 3 %; thrust 30 gf (24–37.5); current 6 A (4.8–7.5)");
        assert_eq!(spoken(&plot, 9.0), "duty 9 %; thrust none; current 18 A (14.4–22.5); not held");
        assert_eq!(
            summary(&plot),
            "hover: duty 3 %, thrust 30 gf; full: duty 10 %, current 20 A; limit: duty 9 %; from duty 8 %: not held"
        );
    }

    #[test]
    fn decibels_below_nothing_keep_their_sign() {
        assert_eq!(words(&Span { low: -7.0, nominal: -2.0, high: 3.0 }, "dB"), "−2 dB (−7 to 3)");
        assert_eq!(words(&Span::exact(40.0), "gf"), "40 gf");
    }
}
