//! A page of plain text: wrapped at a fixed width, with nothing in it that could steer a terminal.

use std::fmt::Write as _;

/// Columns of a page.
pub const WIDTH: usize = 100;

/// A line's text without characters that steer a terminal or turn the direction of writing: each stands as its escape, so
/// that a name from a file can neither move the cursor nor break a line.
///
/// ```
/// use propwright_paper::page::escaped;
/// assert_eq!(escaped("plain µ text"), "plain µ text");
/// assert_eq!(escaped("red\u{1b}[31m\n"), "red\\u{1b}[31m\\n");
/// ```
pub fn escaped(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for character in text.chars() {
        if steers(character) {
            plain.extend(character.escape_default());
        } else {
            plain.push(character);
        }
    }
    plain
}

/// Control characters (Unicode category Cc), line and paragraph separators, and the marks of bidirectional text (UAX #9).
fn steers(character: char) -> bool {
    character.is_control()
        || matches!(character, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Text that grows line by line.
#[derive(Debug, Default)]
pub struct Page {
    text: String,
}

impl Page {
    /// An empty line, unless the page begins here or the last line is empty already.
    pub fn gap(&mut self) {
        if !self.text.is_empty() && !self.text.ends_with("\n\n") {
            self.text.push('\n');
        }
    }

    /// A heading under a gap.
    pub fn heading(&mut self, title: &str) {
        self.gap();
        self.paragraph("", title);
        self.paragraph("", &"-".repeat(title.chars().count().min(WIDTH)));
    }

    /// A paragraph: its first line behind `lead`, the others behind as many spaces.
    pub fn paragraph(&mut self, lead: &str, text: &str) {
        let indent = lead.chars().count();
        let mut line = escaped(lead);
        let mut length = indent;
        for word in escaped(text).split(' ').flat_map(|word| pieces(word, WIDTH.saturating_sub(indent).max(1))) {
            let wide = word.chars().count();
            if length > indent && length + 1 + wide > WIDTH {
                self.push(&line);
                line = " ".repeat(indent);
                length = indent;
            }
            if length > indent {
                line.push(' ');
                length += 1;
            }
            line.push_str(&word);
            length += wide;
        }
        self.push(&line);
    }

    /// A row of cells, each in a column that begins where `starts` says; a cell that is too wide for its column pushes the
    /// following ones to a row of their own, and one that is too wide for the page is wrapped in its column.
    pub fn row(&mut self, starts: &[usize], cells: &[&str]) {
        let mut line = String::new();
        for (start, cell) in starts.iter().zip(cells) {
            let length = line.chars().count();
            if length > 0 && length + 1 > *start {
                self.push(&line);
                line.clear();
            }
            let length = line.chars().count();
            line.push_str(&" ".repeat(start - length.min(*start)));
            let cell = escaped(cell);
            if start + cell.chars().count() > WIDTH {
                self.paragraph(&line, &cell);
                line.clear();
            } else {
                line.push_str(&cell);
            }
        }
        if !line.is_empty() {
            self.push(&line);
        }
    }

    fn push(&mut self, line: &str) {
        // Writing to a string cannot fail.
        let _ = writeln!(self.text, "{}", line.trim_end());
    }

    /// The whole text.
    pub fn finish(self) -> String {
        self.text
    }
}

/// A word that is longer than a line, cut to lines.
fn pieces(word: &str, most: usize) -> Vec<String> {
    let characters: Vec<char> = word.chars().collect();
    if characters.is_empty() {
        return Vec::new();
    }
    characters.chunks(most).map(|chunk| chunk.iter().collect()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(write: impl Fn(&mut Page)) -> String {
        let mut page = Page::default();
        write(&mut page);
        page.finish()
    }

    #[test]
    fn wraps_behind_the_lead() {
        let text = page(|page| page.paragraph("  - ", &"word ".repeat(40)));
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
        assert!(text.starts_with("  - word word"));
        assert!(text.lines().skip(1).all(|line| line.starts_with("    word")), "{text}");
        assert_eq!(text.matches("word").count(), 40);
    }

    #[test]
    fn cuts_a_word_longer_than_a_line() {
        let text = page(|page| page.paragraph("    ", &"x".repeat(250)));
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
        assert_eq!(text.matches('x').count(), 250);
    }

    #[test]
    fn a_cell_too_wide_starts_a_new_row() {
        let text = page(|page| page.row(&[0, 6, 12], &["a", "too wide", "c"]));
        assert_eq!(text, "a     too wide\n            c\n");
        let text = page(|page| page.row(&[0, 6, 12], &["a", &"wide ".repeat(50), "c"]));
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
        assert!(text.starts_with("a     wide wide") && text.ends_with("\n            c\n"), "{text}");
    }

    #[test]
    fn nothing_steers_the_terminal() {
        let text = page(|page| {
            page.heading("\u{1b}]0;title\u{7}");
            page.paragraph("\u{1b}", "a\u{9b}31m\u{202e}b\r\u{7f}");
            page.row(&[0], &["\u{8}"]);
        });
        assert!(text.chars().all(|character| character == '\n' || !steers(character)), "{text:?}");
    }
}
