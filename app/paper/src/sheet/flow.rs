//! The flow of a document down its leaves: headings, paragraphs, rows with wrapped cells, drawings; page breaks between them.

use propwright_engine::interval::Interval;

use super::{
    face::{lines, runs, width},
    leaf::{Face, Format, Leaf, Mark, Pen, Sheet, Spot, Tone, rectangle},
};
use crate::page::escaped;

/// Sizes of type in points.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Type {
    /// Of the title.
    pub(crate) title: f32,
    /// Of headings.
    pub(crate) heading: f32,
    /// Of text.
    pub(crate) text: f32,
    /// Of what is read second.
    pub(crate) small: f32,
}

/// For A4 and Letter.
const LARGE: Type = Type { title: 19.0, heading: 11.5, text: 9.0, small: 7.8 };
/// For A6.
const SMALL: Type = Type { title: 13.0, heading: 9.0, text: 8.0, small: 7.0 };
/// Height of a line as a multiple of the type's.
const LEADING: f32 = 1.36;
/// A paragraph of so many lines stays on one leaf.
const WHOLE: usize = 8;
/// Space between columns, in points.
const GUTTER: f32 = 8.0;
/// Height of the foot, in points.
const FOOT: f32 = 18.0;
/// Length and gap of dashes, in points.
pub const DASHES: [f32; 2] = [2.4, 1.8];

/// A cell of a row.
#[derive(Debug, Clone)]
pub(crate) struct Cell {
    text: String,
    face: Face,
    tone: Tone,
    right: bool,
    struck: bool,
    tick: bool,
    /// Low, nominal and high as shares of the column's width.
    band: Option<[f32; 3]>,
}

impl Cell {
    /// Words.
    pub(crate) fn of(text: impl Into<String>) -> Self {
        let text = text.into();
        Self { text, face: Face::Regular, tone: Tone::Ink, right: false, struck: false, tick: false, band: None }
    }

    /// A box to tick.
    pub(crate) fn to_tick() -> Self {
        Self { tick: true, ..Self::of("") }
    }

    /// A band as a bar with a tick at the nominal; the column's left edge stands for nought.
    pub(crate) fn band(figure: &Interval) -> Self {
        Self::band_of(figure, figure.high)
    }

    /// The same; the right edge stands for `far`, in the figure's steps.
    #[expect(clippy::cast_possible_truncation, reason = "shares of a width")]
    pub(crate) fn band_of(figure: &Interval, far: i64) -> Self {
        let far = far.max(1) as f64;
        let share = |steps: i64| (steps.max(0) as f64 / far) as f32;
        Self { band: Some([share(figure.low), share(figure.nominal), share(figure.high)]), ..Self::of("") }
    }

    pub(crate) const fn bold(mut self) -> Self {
        self.face = Face::Bold;
        self
    }

    pub(crate) const fn soft(mut self) -> Self {
        self.tone = Tone::Soft;
        self
    }

    /// Set against the right edge of its column.
    pub(crate) const fn right(mut self) -> Self {
        self.right = true;
        self
    }

    /// With a line through it.
    pub(crate) const fn struck(mut self, struck: bool) -> Self {
        self.struck = struck;
        self
    }
}

/// A document in the making.
pub(crate) struct Flow {
    format: Format,
    title: String,
    foot: String,
    kind: Type,
    leaves: Vec<Leaf>,
    down: f32,
}

impl Flow {
    /// An empty document; `foot` stands below every leaf beside the page number.
    pub(crate) fn new(format: Format, title: &str, foot: &str) -> Self {
        let kind = if format == Format::A6 { SMALL } else { LARGE };
        let mut flow = Self { format, title: title.to_owned(), foot: foot.to_owned(), kind, leaves: Vec::new(), down: 0.0 };
        flow.turn();
        flow
    }

    /// Begins a new leaf.
    pub(crate) fn turn(&mut self) {
        self.leaves.push(Leaf { size: self.format.size(), marks: Vec::new() });
        self.down = self.format.border();
    }

    /// Width between the borders, in points.
    pub(crate) fn room(&self) -> f32 {
        self.format.size()[0] - 2.0 * self.format.border()
    }

    /// Height between the borders of an empty leaf, in points.
    pub(crate) fn height(&self) -> f32 {
        self.bottom() - self.format.border()
    }

    fn left(&self) -> f32 {
        self.format.border()
    }

    fn bottom(&self) -> f32 {
        self.format.size()[1] - self.format.border() - FOOT
    }

    /// Turns the leaf unless `height` is left on it. What is higher than a leaf begins where it is.
    pub(crate) fn keep(&mut self, height: f32) {
        if self.down + height > self.bottom() && self.down > self.format.border() && height <= self.height() {
            self.turn();
        }
    }

    /// Leaves space.
    pub(crate) fn space(&mut self, points: f32) {
        self.down += points;
    }

    /// Lays down marks whose places count from the upper left corner of a field as broad as the leaf and `height` high.
    pub(crate) fn field(&mut self, height: f32, marks: Vec<Mark>) {
        self.keep(height);
        let by = [self.left(), self.down];
        let moved = marks.into_iter().map(|mark| moved(mark, by));
        if let Some(leaf) = self.leaves.last_mut() {
            leaf.marks.extend(moved);
        }
        self.down += height;
    }

    fn lay(&mut self, mark: Mark) {
        if let Some(leaf) = self.leaves.last_mut() {
            leaf.marks.push(mark);
        }
    }

    /// The title with a line of smaller type below.
    pub(crate) fn title(&mut self, below: &str) {
        let title = self.title.clone();
        self.words(&title, self.kind.title, Face::Bold, Tone::Ink, 0.0);
        self.words(below, self.kind.text, Face::Regular, Tone::Soft, 0.0);
        self.space(4.0);
    }

    /// A heading; it stays with what follows.
    pub(crate) fn heading(&mut self, text: &str) {
        self.space(self.kind.heading * 0.7);
        self.keep(self.kind.heading * LEADING + 4.0 * self.kind.text * LEADING);
        self.words(text, self.kind.heading, Face::Bold, Tone::Ink, 0.0);
        let (left, y) = (self.left(), self.down + 1.0);
        self.lay(line([left, y], [left + self.room(), y], 0.8, Tone::Ink));
        self.space(4.0);
    }

    /// A paragraph of text, moved in by `inward` points.
    pub(crate) fn paragraph(&mut self, text: &str, inward: f32) {
        self.words(text, self.kind.text, Face::Regular, Tone::Ink, inward);
        self.space(1.5);
    }

    /// The same in bold.
    pub(crate) fn strong(&mut self, text: &str) {
        self.words(text, self.kind.text, Face::Bold, Tone::Ink, 0.0);
    }

    /// A paragraph of small, soft type.
    pub(crate) fn small(&mut self, text: &str, inward: f32) {
        self.words(text, self.kind.small, Face::Regular, Tone::Soft, inward);
        self.space(1.0);
    }

    fn words(&mut self, text: &str, size: f32, face: Face, tone: Tone, inward: f32) {
        let lines = lines(face, size, text, self.room() - inward);
        // A short paragraph is not torn over two leaves.
        self.keep(lines.len().min(WHOLE) as f32 * size * LEADING);
        for text in lines {
            self.keep(size * LEADING);
            let at = [self.left() + inward, self.down + size];
            self.set(at, size, face, tone, &text);
            self.down += size * LEADING;
        }
    }

    fn set(&mut self, at: Spot, size: f32, face: Face, tone: Tone, text: &str) {
        for mark in words(at, size, face, tone, text) {
            self.lay(mark);
        }
    }

    /// A row of cells in columns that take `shares` of the width. A row is not broken; one that is higher than a leaf is
    /// laid down line by line.
    pub(crate) fn row(&mut self, shares: &[f32], cells: &[Cell]) {
        let size = self.kind.text;
        let all: f32 = shares.iter().sum();
        let (mut columns, mut x) = (Vec::new(), 0.0);
        for share in shares {
            let broad = self.room() * share / all;
            columns.push((x, broad - GUTTER));
            x += broad;
        }
        let wrapped: Vec<Vec<String>> =
            cells.iter().zip(&columns).map(|(cell, (_, room))| lines(cell.face, size, &cell.text, *room)).collect();
        let most = wrapped.iter().map(Vec::len).max().unwrap_or(0).max(1);
        let high = most as f32 * size * LEADING;
        self.keep(high + 3.0);
        if self.down + high <= self.bottom() {
            // Cell by cell, so that whoever selects the text reads one after the other.
            for ((cell, (x, room)), texts) in cells.iter().zip(&columns).zip(&wrapped) {
                for at in 0..most {
                    let base = self.down + at as f32 * size * LEADING + size;
                    self.cell(cell, at, texts, self.left() + x, *room, base);
                }
            }
            self.down += high;
        } else {
            for at in 0..most {
                self.keep(size * LEADING);
                let base = self.down + size;
                for ((cell, (x, room)), texts) in cells.iter().zip(&columns).zip(&wrapped) {
                    self.cell(cell, at, texts, self.left() + x, *room, base);
                }
                self.down += size * LEADING;
            }
        }
        self.down += 3.0;
    }

    fn band(&mut self, [low, nominal, high]: [f32; 3], from: f32, room: f32, y: f32) {
        let at = |share: f32| from + room * share;
        self.lay(line([from, y], [from + room, y], 0.4, Tone::Line));
        self.lay(line([at(low), y], [at(high), y], 2.6, Tone::Soft));
        self.lay(line([at(nominal), y - 3.4], [at(nominal), y + 3.4], 1.2, Tone::Ink));
    }

    /// Line `at` of a cell.
    fn cell(&mut self, cell: &Cell, at: usize, texts: &[String], from: f32, room: f32, base: f32) {
        let size = self.kind.text;
        if cell.tick && at == 0 {
            self.lay(tick([from, base - size * 0.82], size * 0.9));
        }
        if let Some(band) = cell.band.filter(|_| at == 0) {
            self.band(band, from, room, base - size * 0.35);
        }
        let Some(text) = texts.get(at).filter(|text| !text.is_empty()) else { return };
        let wide = width(cell.face, size, text);
        let x = if cell.right { from + room - wide } else { from };
        self.set([x, base], size, cell.face, cell.tone, text);
        if cell.struck {
            let y = base - size * 0.32;
            self.lay(line([x, y], [x + wide, y], 0.9, Tone::Ink));
        }
    }

    /// A thin rule across the leaf.
    pub(crate) fn rule(&mut self) {
        let (left, y) = (self.left(), self.down - 1.5);
        self.lay(line([left, y], [left + self.room(), y], 0.5, Tone::Line));
        self.space(1.0);
    }

    /// The names of columns above their rows.
    pub(crate) fn columns(&mut self, shares: &[f32], names: &[&str], right: &[usize]) {
        let cells: Vec<Cell> = names
            .iter()
            .enumerate()
            .map(|(at, name)| {
                let cell = Cell::of(*name).soft();
                if right.contains(&at) { cell.right() } else { cell }
            })
            .collect();
        self.row(shares, &cells);
        self.rule();
    }

    /// A line behind a box to tick.
    pub(crate) fn tick(&mut self, text: &str) {
        let all = self.room();
        self.row(&[16.0, all - 16.0], &[Cell::to_tick(), Cell::of(text)]);
    }

    /// The finished document, each leaf with its foot and number.
    pub(crate) fn finish(mut self) -> Sheet {
        let [wide, high] = self.format.size();
        let (size, border, all) = (self.kind.small, self.format.border(), self.leaves.len());
        let base = high - border;
        for (at, leaf) in self.leaves.iter_mut().enumerate() {
            leaf.marks.push(line([border, base - size - 4.0], [wide - border, base - size - 4.0], 0.5, Tone::Line));
            let number = format!("{} / {all}", at + 1);
            let right = wide - border - width(Face::Regular, size, &number);
            let room = right - border - GUTTER;
            let foot = lines(Face::Regular, size, &self.foot, room).into_iter().next().unwrap_or_default();
            leaf.marks.extend(words([border, base], size, Face::Regular, Tone::Soft, &foot));
            leaf.marks.extend(words([right, base], size, Face::Regular, Tone::Soft, &number));
        }
        Sheet { title: escaped(&self.title), leaves: self.leaves }
    }
}

/// Words as marks, one for each face that they need.
pub(crate) fn words(at: Spot, size: f32, face: Face, tone: Tone, text: &str) -> Vec<Mark> {
    let mut x = at[0];
    let mut marks = Vec::new();
    for (face, text, wide) in runs(face, size, text) {
        marks.push(Mark::Words { at: [x, at[1]], size, face, tone, text });
        x += wide;
    }
    marks
}

pub(crate) fn line(from: Spot, to: Spot, width: f32, tone: Tone) -> Mark {
    Mark::Line { through: vec![from, to], pen: Pen { width, tone, dashed: false } }
}

fn tick(at: Spot, side: f32) -> Mark {
    let pen = Pen { width: 0.9, tone: Tone::Ink, dashed: false };
    Mark::Form { corners: rectangle(at, [at[0] + side, at[1] + side]), fill: None, pen: Some(pen) }
}

/// A mark at another place.
pub(crate) fn moved(mut mark: Mark, by: Spot) -> Mark {
    let shift = |spot: &mut Spot| {
        spot[0] += by[0];
        spot[1] += by[1];
    };
    match &mut mark {
        Mark::Words { at, .. } => shift(at),
        Mark::Line { through, .. } => through.iter_mut().for_each(shift),
        Mark::Form { corners, .. } => corners.iter_mut().for_each(shift),
        Mark::Ribbon { low, high, .. } => low.iter_mut().chain(high).for_each(shift),
        Mark::Circle { center, .. } => shift(center),
    }
    mark
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(sheet: &Sheet) -> Vec<&str> {
        let marks = sheet.leaves.iter().flat_map(|leaf| &leaf.marks);
        marks.filter_map(|mark| if let Mark::Words { text, .. } = mark { Some(text.as_str()) } else { None }).collect()
    }

    #[test]
    fn long_text_turns_the_leaf_and_nothing_runs_off() {
        let mut flow = Flow::new(Format::A6, &"name ".repeat(40), "foot");
        flow.title("below");
        for at in 0..60 {
            flow.row(&[1.0, 3.0], &[Cell::of(format!("row {at}")), Cell::of("word ".repeat(30)).right()]);
        }
        flow.paragraph(&"x".repeat(5000), 4.0);
        let sheet = flow.finish();
        assert!(sheet.leaves.len() > 5);
        let [wide, high] = Format::A6.size();
        for mark in sheet.leaves.iter().flat_map(|leaf| &leaf.marks) {
            if let Mark::Words { at, size, face, text, .. } = mark {
                let end = at[0] + width(*face, *size, text);
                assert!(at[0] >= 19.9 && end <= wide - 19.9 && at[1] <= high - 19.9, "{text} {at:?} to {end}");
            }
        }
        let said = texts(&sheet);
        assert_eq!(said.iter().filter(|text| text.starts_with("row ")).count(), 60);
        assert!(said.contains(&format!("{0} / {0}", sheet.leaves.len()).as_str()));
    }
}
