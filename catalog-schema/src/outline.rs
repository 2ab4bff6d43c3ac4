//! Outline of a RON text: where its brackets, fields and values stand.
//!
//! It judges nothing and never fails: the `ron` crate says whether a text is right. It only finds places, also in a text
//! that is broken somewhere, so that each record can be read and reported alone and so that a saved file keeps its bytes.

use std::ops::Range;

/// What a token is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Token {
    Open(u8),
    Close(u8),
    Comma,
    Colon,
    Atom,
}

/// One item of a bracket: a field with its key, or a value alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Child {
    /// The key before the colon.
    pub(crate) key: Option<Range<usize>>,
    /// The value; empty, behind the colon, when none is there.
    pub(crate) value: Range<usize>,
    /// Place of the comma behind it.
    pub(crate) comma: Option<usize>,
}

impl Child {
    /// Where it starts: the key, or the value.
    pub(crate) fn start(&self) -> usize {
        self.key.as_ref().map_or(self.value.start, |key| key.start)
    }

    /// The key's text; quotes of a map's key are left out.
    pub(crate) fn key_text<'t>(&self, text: &'t str) -> Option<&'t str> {
        self.key.clone().map(|key| text[key].trim_matches('"'))
    }
}

/// The items of one bracket, found one by one.
#[derive(Debug, Clone)]
pub(crate) struct Children<'t> {
    text: &'t str,
    at: usize,
    end: usize,
    closer: u8,
    /// Word before the bracket, such as `Motor`.
    pub(crate) head: Range<usize>,
    /// Place behind the opening bracket.
    pub(crate) open: usize,
    /// Place of the closing bracket once all items were found; the end of the text when it is missing.
    pub(crate) close: Option<usize>,
}

/// The items of the bracket that is the value at `span`, `None` when the value is no bracket.
pub(crate) fn children(text: &str, span: Range<usize>) -> Option<Children<'_>> {
    let (first, place) = next_token(text, span.start, span.end)?;
    let (head, (token, open)) = match first {
        Token::Atom => (place.clone(), next_token(text, place.end, span.end)?),
        _ => (place.start..place.start, (first, place)),
    };
    let Token::Open(bracket) = token else { return None };
    Some(Children { text, at: open.end, end: span.end, closer: closer_of(bracket), head, open: open.end, close: None })
}

/// The place of the value of a text: behind its attributes and comments, up to its last token.
pub(crate) fn root(text: &str) -> Range<usize> {
    let mut start = skip_trivia(text, 0, text.len());
    while text[start..].starts_with('#') {
        let Some(length) = text[start..].find(']') else { break };
        start = skip_trivia(text, start + length + 1, text.len());
    }
    start..text.len()
}

/// All items of the bracket at `span`; none when the value is no bracket.
pub(crate) fn items(text: &str, span: Range<usize>) -> Vec<Child> {
    children(text, span).map(Iterator::collect).unwrap_or_default()
}

/// The value of the field `key` of the bracket at `span`.
pub(crate) fn field(text: &str, span: Range<usize>, key: &str) -> Option<Child> {
    children(text, span)?.find(|child| child.key_text(text) == Some(key))
}

impl Children<'_> {
    /// Reads on to the closing bracket and gives its place.
    pub(crate) fn finish(&mut self) -> usize {
        while self.next().is_some() {}
        self.close.unwrap_or(self.end)
    }
}

impl Iterator for Children<'_> {
    type Item = Child;

    fn next(&mut self) -> Option<Child> {
        if self.close.is_some() {
            return None;
        }
        let mut depth = Depth::default();
        let (mut key, mut value): (Option<Range<usize>>, Option<Range<usize>>) = (None, None);
        let mut tokens = 0;
        while let Some((token, place)) = next_token(self.text, self.at, self.end) {
            let outer = depth.open.is_empty();
            let ends = match token {
                Token::Close(closer) => closer == self.closer && depth.count(closer) == 0,
                Token::Comma => outer,
                _ => false,
            };
            if ends {
                let comma = (token == Token::Comma).then_some(place.start);
                self.at = if comma.is_some() { place.end } else { place.start };
                self.close = if comma.is_some() { None } else { Some(place.start) };
                if comma.is_none() && tokens == 0 {
                    return None;
                }
                let value = value.unwrap_or_else(|| behind(key.as_ref(), place.start));
                return Some(Child { key, value, comma });
            }
            self.at = place.end;
            match token {
                Token::Open(bracket) => depth.push(closer_of(bracket)),
                Token::Close(closer) => depth.close(closer),
                _ => {}
            }
            if token == Token::Colon && outer && tokens == 1 {
                key = value.take();
            } else {
                value = Some(value.map_or(place.start, |value| value.start)..place.end);
            }
            tokens += 1;
        }
        self.close = Some(self.end);
        let found = tokens > 0;
        found.then(|| Child { value: value.unwrap_or_else(|| behind(key.as_ref(), self.end)), key, comma: None })
    }
}

/// The empty place of a value that is missing: right behind the colon's key, or at the comma.
fn behind(key: Option<&Range<usize>>, at: usize) -> Range<usize> {
    let at = key.map_or(at, |key| key.end);
    at..at
}

/// The brackets that are open, by the closing one that each waits for.
#[derive(Debug, Default)]
struct Depth {
    open: Vec<u8>,
    counts: [usize; 3],
}

impl Depth {
    fn count(&self, closer: u8) -> usize {
        self.counts[kind_of(closer)]
    }

    fn push(&mut self, closer: u8) {
        self.open.push(closer);
        self.counts[kind_of(closer)] += 1;
    }

    /// Closes the innermost bracket of the kind, and what was left open within it; a stray one closes nothing.
    fn close(&mut self, closer: u8) {
        let mut closed = self.count(closer) == 0;
        while !closed {
            let Some(inner) = self.open.pop() else { return };
            self.counts[kind_of(inner)] -= 1;
            closed = inner == closer;
        }
    }
}

const fn kind_of(closer: u8) -> usize {
    match closer {
        b')' => 0,
        b']' => 1,
        _ => 2,
    }
}

const fn closer_of(bracket: u8) -> u8 {
    match bracket {
        b'(' => b')',
        b'[' => b']',
        _ => b'}',
    }
}

/// The next token between `at` and `end`, behind white space and comments.
fn next_token(text: &str, at: usize, end: usize) -> Option<(Token, Range<usize>)> {
    let start = skip_trivia(text, at, end);
    let first = *text.as_bytes()[..end].get(start)?;
    let (token, length) = match first {
        b'(' | b'[' | b'{' => (Token::Open(first), 1),
        b')' | b']' | b'}' => (Token::Close(first), 1),
        b',' => (Token::Comma, 1),
        b':' => (Token::Colon, 1),
        _ => (Token::Atom, atom_length(&text[start..end])),
    };
    Some((token, start..start + length))
}

/// Length of the string, character, number or word at the start of a text, at least one character.
fn atom_length(text: &str) -> usize {
    let word = text.find(|c: char| ends_word(c)).unwrap_or(text.len());
    let prefix = &text[..word];
    if matches!(prefix, "" | "b") && text[word..].starts_with('"') {
        return quoted_length(text, word, b'"');
    }
    if matches!(prefix, "" | "b") && text[word..].starts_with('\'') {
        return character_length(text, word);
    }
    let hashes = prefix.trim_start_matches('b').strip_prefix('r').filter(|hashes| hashes.bytes().all(|byte| byte == b'#'));
    if let (Some(hashes), true) = (hashes, text[word..].starts_with('"')) {
        let closing = format!("\"{hashes}");
        return text[word + 1..].find(&closing).map_or(text.len(), |length| word + 1 + length + closing.len());
    }
    if word == 0 { text.chars().next().map_or(0, char::len_utf8) } else { word }
}

fn ends_word(c: char) -> bool {
    matches!(c, '(' | ')' | '[' | ']' | '{' | '}' | ',' | ':' | '"' | '\'' | '/') || is_space(c)
}

/// Length up to the closing quote that no backslash escapes; the rest of the text when there is none.
fn quoted_length(text: &str, start: usize, quote: u8) -> usize {
    let mut escaped = false;
    for (at, byte) in text.bytes().enumerate().skip(start + 1) {
        if byte == quote && !escaped {
            return at + 1;
        }
        escaped = byte == b'\\' && !escaped;
    }
    text.len()
}

/// Length of a character in single quotes; a lone quote counts for itself, so that an apostrophe swallows nothing.
fn character_length(text: &str, start: usize) -> usize {
    let longest =
        text[start..].char_indices().take_while(|(_, c)| *c != '\n').take(14).last().map_or(0, |(at, c)| at + c.len_utf8());
    let within = &text[..start + longest];
    let escaped = within[start + 1..].starts_with('\\');
    let closing = within[start + 1..].char_indices().skip(if escaped { 2 } else { 1 }).find(|(_, c)| *c == '\'');
    match closing {
        Some((at, _)) if escaped || within[start + 1..start + 1 + at].chars().count() == 1 => start + 1 + at + 1,
        _ => start + 1,
    }
}

/// The place behind white space and comments from `at` on, at most `end`.
pub(crate) fn skip_trivia(text: &str, at: usize, end: usize) -> usize {
    let mut at = at;
    loop {
        let rest = &text[at..end];
        let bare = rest.trim_start_matches(is_space);
        at = end - bare.len();
        let length = if bare.starts_with("//") {
            bare.find('\n').unwrap_or(bare.len())
        } else if bare.starts_with("/*") {
            block_comment_length(bare)
        } else {
            return at;
        };
        at += length;
    }
}

/// Length of a block comment; they nest.
fn block_comment_length(text: &str) -> usize {
    let mut depth = 0_usize;
    let mut at = 0;
    let bytes = text.as_bytes();
    while at + 1 < bytes.len() {
        match &bytes[at..at + 2] {
            b"/*" => depth += 1,
            b"*/" => depth -= 1,
            _ => {
                at += 1;
                continue;
            }
        }
        at += 2;
        if depth == 0 {
            return at;
        }
    }
    text.len()
}

/// White space of RON.
pub(crate) const fn is_space(c: char) -> bool {
    matches!(c, ' ' | '\t' | '\n' | '\r' | '\x0B' | '\x0C' | '\u{85}' | '\u{200E}' | '\u{200F}' | '\u{2028}' | '\u{2029}')
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(text: &str) -> Vec<(Option<&str>, &str)> {
        items(text, root(text)).into_iter().map(|child| (child.key_text(text), &text[child.value])).collect()
    }

    #[test]
    fn finds_fields_behind_comments_and_strings() {
        let text =
            "#![enable(implicit_some)]\n// (a: 0)\n(a: 1, /* , */ b: \"x, (y\\\")\", c: r#\"]\"\"#, d: [1, 2], 'e', f: N(1),)";
        let expected = [
            (Some("a"), "1"),
            (Some("b"), "\"x, (y\\\")\""),
            (Some("c"), "r#\"]\"\"#"),
            (Some("d"), "[1, 2]"),
            (None, "'e'"),
            (Some("f"), "N(1)"),
        ];
        assert_eq!(parts(text), expected);
    }

    #[test]
    fn a_head_and_its_bracket() {
        let text = "Motor(poles: 14)";
        let mut found = children(text, root(text)).unwrap();
        assert_eq!((&text[found.head.clone()], found.finish()), ("Motor", text.len() - 1));
    }

    #[test]
    fn goes_on_behind_a_record_left_open() {
        assert_eq!(parts("[(a: 1, [2), (b: 2)]"), [(None, "(a: 1, [2)"), (None, "(b: 2)")]);
        assert_eq!(parts("[(a: 1], (b: 2)]"), [(None, "(a: 1")]);
        assert_eq!(parts("[(a: 1"), [(None, "(a: 1")]);
        assert_eq!(parts("(a: , b: 2)"), [(Some("a"), ""), (Some("b"), "2")]);
        assert_eq!(parts("(it's, b: 2)"), [(None, "it's"), (Some("b"), "2")]);
    }

    #[test]
    fn what_is_no_bracket_has_no_items() {
        for text in ["", "5", "\"(a: 1)\"", "// (a)", "/* (a", "Nut"] {
            assert_eq!(parts(text), [], "{text}");
        }
    }
}
