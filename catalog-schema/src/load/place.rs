//! Places of a text: bytes to line and column, and back from a parser's line and column.

/// Characters are counted once a stretch of so many bytes.
const STRETCH: usize = 4096;

/// Line starts and character counts of a text, found once.
#[derive(Debug)]
pub(crate) struct Places<'t> {
    text: &'t str,
    lines: Vec<usize>,
    /// Characters before each stretch.
    characters: Vec<usize>,
}

impl<'t> Places<'t> {
    /// Reads the text once.
    pub(crate) fn new(text: &'t str) -> Self {
        let ends = text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at + 1);
        let lines = std::iter::once(0).chain(ends).collect();
        let mut before = 0;
        let stretches = text.as_bytes().chunks(STRETCH).map(|stretch| {
            let start = before;
            before += characters(stretch);
            start
        });
        let mut characters: Vec<usize> = stretches.collect();
        characters.push(before);
        Self { text, lines, characters }
    }

    /// Line and column of a place, both from 1, the column in characters.
    pub(crate) fn line_and_column(&self, at: usize) -> (u32, u32) {
        let line = self.lines.partition_point(|start| *start <= at);
        let start = self.lines.get(line.saturating_sub(1)).copied().unwrap_or(0);
        let column = self.characters_before(at) - self.characters_before(start) + 1;
        (u32::try_from(line).unwrap_or(u32::MAX), u32::try_from(column).unwrap_or(u32::MAX))
    }

    fn characters_before(&self, at: usize) -> usize {
        let at = at.min(self.text.len());
        let stretch = at / STRETCH;
        self.characters.get(stretch).copied().unwrap_or(0) + characters(&self.text.as_bytes()[stretch * STRETCH..at])
    }
}

/// Characters that start in a stretch of UTF-8.
fn characters(stretch: &[u8]) -> usize {
    stretch.iter().filter(|byte| (**byte & 0xC0) != 0x80).count()
}

/// The place in bytes of a parser's line and column within a text, at most its end.
pub(crate) fn offset(text: &str, position: ron::error::Position) -> usize {
    let before = position.line.saturating_sub(1);
    let start = if before == 0 { 0 } else { text.match_indices('\n').nth(before - 1).map_or(text.len(), |(at, _)| at + 1) };
    text[start..].char_indices().nth(position.col.saturating_sub(1)).map_or(text.len(), |(at, _)| start + at)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_characters_not_bytes() {
        let text = format!("{}\n  é µ x", "ü".repeat(5000));
        let places = Places::new(&text);
        assert_eq!(places.line_and_column(0), (1, 1));
        assert_eq!(places.line_and_column(text.find('\n').unwrap()), (1, 5001));
        assert_eq!(places.line_and_column(text.find('x').unwrap()), (2, 7));
        assert_eq!(places.line_and_column(text.len()), (2, 8));
        assert_eq!(Places::new("").line_and_column(0), (1, 1));
    }

    #[test]
    fn a_parsers_place_and_back() {
        let text = "a\n\u{b5} b\n";
        for at in [0, 1, 2, 4, 5, 6, 7] {
            let (line, col) = Places::new(text).line_and_column(at);
            assert_eq!(offset(text, ron::error::Position { line: line as usize, col: col as usize }), at);
        }
    }
}
