//! Puts edits into a text and leaves every other byte as it is.

use std::{collections::BTreeMap, ops::Range};

use super::{
    layout::{STEP, WIDTH, inline, key_of, render},
    matching::matches,
};
use crate::outline::{self, Child};

/// The text of a file after an edit: `before` and `after` are the shortest texts of its content.
pub(super) fn file(original: &str, before: &str, after: &str) -> String {
    let root = outline::root(original);
    let end = outline::children(original, root.clone()).map_or(root.end, |mut children| children.finish() + 1);
    let span = root.start..end.min(original.len());
    let new_line = if original.contains("\r\n") { "\r\n" } else { "\n" };
    let splice = Splice { original, before, after, new_line };
    let value = splice.value(span.clone(), 0..before.len(), 0..after.len());
    format!("{}{value}{}", &original[..span.start], &original[span.end..])
}

/// The three texts of one edit.
#[derive(Clone, Copy)]
struct Splice<'t> {
    original: &'t str,
    before: &'t str,
    after: &'t str,
    new_line: &'static str,
}

/// A bracket of the original, cut at its items: a chunk holds an item with the comments before it and behind it in its line.
struct Cut<'t> {
    open: &'t str,
    chunks: Vec<Chunk<'t>>,
    /// Comments and space before the closing bracket.
    rest: &'t str,
    close: &'t str,
}

struct Chunk<'t> {
    lead: &'t str,
    child: Child,
    /// Between the value and its comma.
    pad: &'t str,
    /// Behind the comma, to the end of the line.
    tail: &'t str,
}

/// An item of the new text.
enum Entry {
    /// Chunk of the original, with the text of its item.
    Kept(usize, String),
    /// A new item, by its place in `after`.
    New(Child),
}

impl<'t> Splice<'t> {
    /// The text of one value: its own bytes when it was not edited.
    fn value(self, own: Range<usize>, before: Range<usize>, after: Range<usize>) -> String {
        if self.before[before.clone()] == self.after[after.clone()] {
            return self.original[own].to_owned();
        }
        let shape = |text: &'t str, span: &Range<usize>| {
            let children = outline::children(text, span.clone())?;
            Some((&text[children.head.clone()], text.as_bytes()[children.open - 1]))
        };
        let shapes = (shape(self.original, &own), shape(self.before, &before), shape(self.after, &after));
        let spliced = match shapes {
            (Some((head, bracket)), Some(old), Some(new))
                if old == new && old.1 == bracket && (old.0 == head || old.0.is_empty()) =>
            {
                if bracket == b'[' {
                    self.list(own.clone(), before, after.clone())
                } else {
                    self.record(own.clone(), before, after.clone())
                }
            }
            _ => None,
        };
        spliced.unwrap_or_else(|| self.fresh(after, indent_at(self.original, own.start), column_at(self.original, own.start)))
    }

    /// A new value, with the line ends of the file.
    fn fresh(self, after: Range<usize>, indent: usize, column: usize) -> String {
        render(self.after, after, indent, column).replace('\n', self.new_line)
    }

    fn list(self, own: Range<usize>, before: Range<usize>, after: Range<usize>) -> Option<String> {
        let cut = self.cut(&own)?;
        let values = |text: &str, span| outline::items(text, span).into_iter().map(|item| item.value).collect::<Vec<_>>();
        let (old, new) = (values(self.before, before), outline::items(self.after, after));
        if old.len() != cut.chunks.len() {
            return None;
        }
        let places: Vec<Range<usize>> = new.iter().map(|item| item.value.clone()).collect();
        let found = matches(self.before, &old, self.after, &places);
        let entries = new.into_iter().zip(found).map(|(item, found)| match found {
            Some(at) => Entry::Kept(at, self.value(cut.chunks[at].child.value.clone(), old[at].clone(), item.value)),
            None => Entry::New(item),
        });
        Some(self.join(&own, &cut, entries.collect()))
    }

    /// A record or map, field by field; `None` for a bracket without fields.
    fn record(self, own: Range<usize>, before: Range<usize>, after: Range<usize>) -> Option<String> {
        let cut = self.cut(&own)?;
        let old = fields(self.before, before)?;
        let new = outline::items(self.after, after);
        let new_by_key: BTreeMap<&str, &Child> =
            new.iter().map(|item| Some((item.key_text(self.after)?, item))).collect::<Option<_>>()?;
        let mut entries: Vec<Entry> = Vec::new();
        let mut keys: Vec<&str> = Vec::new();
        for (at, chunk) in cut.chunks.iter().enumerate() {
            let key = chunk.child.key_text(self.original)?;
            let own = &chunk.child;
            let value = match (old.get(key), new_by_key.get(key)) {
                (Some(_), None) => continue,
                (None, None) => self.original[own.value.clone()].to_owned(),
                (Some(old), Some(new)) => self.value(own.value.clone(), old.clone(), new.value.clone()),
                (None, Some(new)) => self.fresh(
                    new.value.clone(),
                    indent_at(self.original, own.start()),
                    column_at(self.original, own.value.start),
                ),
            };
            entries.push(Entry::Kept(at, format!("{}{value}", &self.original[own.start()..own.value.start])));
            keys.push(key);
        }
        for (at, item) in new.iter().enumerate() {
            let key = item.key_text(self.after)?;
            let unchanged = old.get(key).is_some_and(|old| self.before[old.clone()] == self.after[item.value.clone()]);
            if keys.contains(&key) || unchanged {
                continue;
            }
            let mut earlier = new[..at].iter().rev().filter_map(|earlier| earlier.key_text(self.after));
            let place = earlier.find_map(|earlier| keys.iter().position(|key| *key == earlier)).map_or(0, |place| place + 1);
            entries.insert(place, Entry::New(item.clone()));
            keys.insert(place, key);
        }
        Some(self.join(&own, &cut, entries))
    }

    /// Cuts the bracket at `own` into its chunks; `None` when it is not closed.
    fn cut(self, own: &Range<usize>) -> Option<Cut<'t>> {
        let text = self.original;
        let mut children = outline::children(text, own.clone())?;
        let open = children.open;
        let items: Vec<Child> = children.by_ref().collect();
        let close = children.close.filter(|close| *close < own.end)?;
        let starts: Vec<usize> = items.iter().skip(1).map(Child::start).chain([close]).collect();
        let mut chunks = Vec::with_capacity(items.len());
        let mut at = open;
        for (child, next) in items.into_iter().zip(starts) {
            let lead = &text[at..child.start()];
            let (pad, behind) = child.comma.map_or(("", child.value.end), |comma| (&text[child.value.end..comma], comma + 1));
            let tail = line_tail(&text[behind..next]);
            at = behind + tail.len();
            chunks.push(Chunk { lead, child, pad, tail });
        }
        Some(Cut { open: &text[own.start..open], chunks, rest: &text[at..close], close: &text[close..own.end] })
    }

    /// The bracket with its new items.
    fn join(self, own: &Range<usize>, cut: &Cut<'_>, entries: Vec<Entry>) -> String {
        let trailing = cut.chunks.last().map_or(cut.open.ends_with('['), |last| last.child.comma.is_some());
        let count = entries.len();
        let mut out = cut.open.to_owned();
        let mut after_comment = false;
        let mut like = cut.chunks.first();
        for (at, entry) in entries.into_iter().enumerate() {
            let comma = if at + 1 < count || trailing { "," } else { "" };
            match entry {
                Entry::Kept(place, body) => {
                    let chunk = &cut.chunks[place];
                    let lead = if at > 0 && chunk.lead.is_empty() { " " } else { chunk.lead };
                    self.break_comment(&mut out, after_comment, lead);
                    let around = if chunk.child.comma.is_some() { [chunk.pad, comma] } else { [comma, chunk.pad] };
                    out.extend([lead, &body, around[0], around[1], chunk.tail]);
                    after_comment = chunk.tail.contains("//");
                    like = Some(chunk);
                }
                Entry::New(item) => {
                    let line = key_of(self.after, &item) + &inline(self.after, item.value.clone());
                    let lead = self.lead(own, cut, like, (at == 0, self.end(own, &out).1 + line.chars().count()));
                    self.break_comment(&mut out, after_comment, &lead);
                    out.push_str(&lead);
                    let key = key_of(self.after, &item);
                    let (indent, column) = self.end(own, &out);
                    let body = self.fresh(item.value, indent, column + key.len());
                    out.extend([&key, &body, comma]);
                    after_comment = false;
                }
            }
        }
        self.break_comment(&mut out, after_comment, cut.rest);
        let opened = cut.chunks.is_empty() && count > 0 && cut.open.ends_with('[') && !cut.rest.contains('\n');
        let closing =
            if opened { format!("{}{}", self.new_line, " ".repeat(indent_at(self.original, own.start))) } else { String::new() };
        out.extend([cut.rest, &closing, cut.close]);
        out
    }

    /// Indent of the line at the end of a bracket's new text, and the column there.
    fn end(self, own: &Range<usize>, out: &str) -> (usize, usize) {
        let column = column_at(out, out.len());
        if out.contains('\n') {
            (indent_at(out, out.len()), column)
        } else {
            (indent_at(self.original, own.start), column_at(self.original, own.start) + column)
        }
    }

    /// Ends the line of a comment before what must not become part of it.
    fn break_comment(self, out: &mut String, after_comment: bool, next: &str) {
        if after_comment && !next.trim_start_matches([' ', '\t', '\r']).starts_with('\n') {
            out.push_str(self.new_line);
        }
    }

    /// The space before a new item, as before its neighbour; `width` is the column that it would reach in the same line.
    fn lead(self, own: &Range<usize>, cut: &Cut<'_>, like: Option<&Chunk<'_>>, (first, width): (bool, usize)) -> String {
        let line = |lead: &str| {
            let last = lead.rsplit_once('\n').map(|(_, last)| last)?;
            let spaces: String = last.chars().take_while(|c| matches!(c, ' ' | '\t')).collect();
            Some(format!("{}{spaces}", self.new_line))
        };
        if let Some(line) = like.and_then(|chunk| line(chunk.lead)) {
            return line;
        }
        let list = cut.open.ends_with('[');
        if like.is_none() && list {
            return format!("{}{}", self.new_line, " ".repeat(indent_at(self.original, own.start) + STEP));
        }
        let other = cut.chunks.iter().find_map(|chunk| line(chunk.lead));
        match other {
            Some(line) if width > WIDTH => line,
            _ if first => String::new(),
            _ => " ".to_owned(),
        }
    }
}

/// The fields of a record by key; `None` when an item has no key.
fn fields(text: &str, span: Range<usize>) -> Option<BTreeMap<&str, Range<usize>>> {
    outline::items(text, span).into_iter().map(|item| Some((item.key_text(text)?, item.value.clone()))).collect()
}

/// What stands behind an item up to the end of its line, when nothing else stands there but comments.
fn line_tail(trivia: &str) -> &str {
    let Some((line, _)) = trivia.split_once('\n') else { return "" };
    let line = line.trim_end_matches('\r');
    let open = line.split("//").next().is_some_and(|code| code.matches("/*").count() > code.matches("*/").count());
    if open { "" } else { line }
}

/// Spaces at the start of the line of a place.
fn indent_at(text: &str, at: usize) -> usize {
    let line = text[..at].rsplit('\n').next().unwrap_or_default();
    line.len() - line.trim_start_matches(' ').len()
}

/// Characters before a place in its line.
fn column_at(text: &str, at: usize) -> usize {
    text[..at].rsplit('\n').next().unwrap_or_default().chars().count()
}
