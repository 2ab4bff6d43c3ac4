//! The look of new text: a record on one line, or filled lines when it is too long for one.

use std::ops::Range;

use crate::outline::{self, Child};

/// Longest line, in characters.
pub(super) const WIDTH: usize = 130;
/// Spaces a level.
pub(super) const STEP: usize = 4;

/// A whole new file from the shortest text of its content: one field a line, one record a line.
pub(super) fn file(text: &str) -> String {
    let mut out = "(\n".to_owned();
    for child in outline::items(text, outline::root(text)) {
        let value = child.value.clone();
        if text[value.clone()].starts_with("[]") && child.key_text(text) != Some("parts") {
            continue;
        }
        let key = key_of(text, &child);
        let indent = " ".repeat(STEP);
        let inner = if text[value.clone()].starts_with('[') {
            lines(text, value, STEP)
        } else {
            render(text, value, STEP, STEP + key.len())
        };
        out.extend([indent.as_str(), &key, &inner, ",\n"]);
    }
    out + ")\n"
}

/// A value at a column; its further lines are indented by at least `indent`.
pub(super) fn render(text: &str, span: Range<usize>, indent: usize, column: usize) -> String {
    let line = inline(text, span.clone());
    let Some(children) = outline::children(text, span.clone()).filter(|_| column + line.chars().count() > WIDTH) else {
        return line;
    };
    let (open, headed, close) = (children.open, !children.head.is_empty(), &text[span.end - 1..span.end]);
    let items: Vec<Child> = children.collect();
    let start = &text[span.start..open];
    match items.as_slice() {
        [only] if only.key.is_none() => {
            let inner = render(text, only.value.clone(), indent, column + start.len());
            format!("{start}{inner}{close}")
        }
        [first, ..] if first.key.is_none() && outline::children(text, first.value.clone()).is_some() => lines(text, span, indent),
        _ => filled(text, start, &items, (indent + if headed { STEP } else { 1 }, column)) + close,
    }
}

/// A list with one item a line.
fn lines(text: &str, span: Range<usize>, indent: usize) -> String {
    let items = outline::items(text, span);
    if items.is_empty() {
        return "[]".to_owned();
    }
    let inner = indent + STEP;
    let each = items.into_iter().map(|item| format!("{}{},\n", " ".repeat(inner), render(text, item.value, inner, inner)));
    format!("[\n{}{}]", each.collect::<String>(), " ".repeat(indent))
}

/// Fields and items one behind the other, as many as a line holds.
fn filled(text: &str, start: &str, items: &[Child], (indent, column): (usize, usize)) -> String {
    let mut out = start.to_owned();
    let mut column = column + start.chars().count();
    for (at, item) in items.iter().enumerate() {
        let key = key_of(text, item);
        let line = format!("{key}{}", inline(text, item.value.clone()));
        let room = WIDTH.saturating_sub(column + 2);
        if at > 0 && line.chars().count() > room {
            out.push('\n');
            out.push_str(&" ".repeat(indent));
            column = indent;
        } else if at > 0 {
            out.push(' ');
            column += 1;
        }
        let value = render(text, item.value.clone(), indent, column + key.chars().count());
        let comma = if at + 1 < items.len() { "," } else { "" };
        out.extend([key.as_str(), &value, comma]);
        let last = value.rsplit('\n').next().unwrap_or_default().chars().count();
        column = if value.contains('\n') { last + 1 } else { column + key.chars().count() + last + 1 };
    }
    out
}

/// A value on one line, numbers as short as they can be.
pub(super) fn inline(text: &str, span: Range<usize>) -> String {
    let Some(children) = outline::children(text, span.clone()) else { return short(&text[span]) };
    let start = &text[span.start..children.open];
    let items: Vec<String> = children.map(|item| key_of(text, &item) + &inline(text, item.value)).collect();
    format!("{start}{}{}", items.join(", "), &text[span.end - 1..span.end])
}

/// The key with its colon, as it stands before a value.
pub(super) fn key_of(text: &str, child: &Child) -> String {
    child.key.clone().map_or_else(String::new, |key| format!("{}: ", &text[key]))
}

/// A number without a fraction of nothing, a text without needless backslashes.
fn short(atom: &str) -> String {
    if atom.starts_with('"') {
        return without_escaped_apostrophes(atom);
    }
    let number = atom.starts_with(|c: char| c.is_ascii_digit() || c == '-');
    atom.strip_suffix(".0").filter(|_| number).unwrap_or(atom).to_owned()
}

fn without_escaped_apostrophes(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut letters = text.chars();
    while let Some(letter) = letters.next() {
        match (letter, letters.clone().next()) {
            ('\\', Some('\'')) => {}
            ('\\', Some(next)) => {
                out.extend([letter, next]);
                letters.next();
            }
            _ => out.push(letter),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rendered(text: &str) -> String {
        render(text, outline::root(text), 8, 8)
    }

    #[test]
    fn short_records_stand_on_one_line() {
        let text = r#"(id:"m",mass_g:4.0,tilt:-12.5,note:"5.0",fills:[Motor(poles:14,pattern:"16x16")],basis:{"mass_g":Measured},feed:Rail("5V"))"#;
        let line = r#"(id: "m", mass_g: 4, tilt: -12.5, note: "5.0", fills: [Motor(poles: 14, pattern: "16x16")], basis: {"mass_g": Measured}, feed: Rail("5V"))"#;
        assert_eq!(inline(text, outline::root(text)), line);
    }

    #[test]
    fn apostrophes_need_no_backslash() {
        assert_eq!(short(r#""a\'s \\\'b\\ \"q\"""#), r#""a's \\'b\\ \"q\"""#);
        assert_eq!(short("-4.0"), "-4");
    }

    #[test]
    fn long_records_are_filled() {
        let fields: Vec<String> = (0..20).map(|at| format!("field_{at}:{at}.0")).collect();
        let text = format!("(id:\"m\",fills:[Motor({})],note:\"x\")", fields.join(","));
        let look = rendered(&text);
        assert!(look.lines().skip(1).all(|line| line.chars().count() <= WIDTH && line.starts_with("         ")), "{look}");
        assert_eq!(look.lines().count(), 4, "{look}");
        assert!(
            look.ends_with("field_19: 19)],\n         note: \"x\")") || look.ends_with("field_19: 19)], note: \"x\")"),
            "{look}"
        );
    }

    #[test]
    fn a_file_has_a_record_a_line() {
        let text = r#"(version:1,parts:[(id:"a"),(id:"b")],kits:[])"#;
        assert_eq!(file(text), "(\n    version: 1,\n    parts: [\n        (id: \"a\"),\n        (id: \"b\"),\n    ],\n)\n");
    }
}
