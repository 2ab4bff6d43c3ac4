//! The faces: how broad words are, which face has a character, and where lines break.

use std::sync::LazyLock;

use ttf_parser::Face as Metrics;

use super::leaf::Face;
use crate::page::escaped;

/// The files of the faces, with the family's name in each.
pub(crate) const FILES: [(Face, &str, &[u8]); 3] = [
    (Face::Regular, "B612", include_bytes!("../../../../assets/fonts/B612-Regular.otf")),
    (Face::Bold, "B612", include_bytes!("../../../../assets/fonts/B612-Bold.otf")),
    (Face::Last, "DejaVu Sans", include_bytes!("../../../../assets/fonts/DejaVuSans.ttf")),
];

static METRICS: LazyLock<Vec<Option<Metrics<'static>>>> =
    LazyLock::new(|| FILES.iter().map(|(_, _, file)| Metrics::parse(file, 0).ok()).collect());

/// Stands for a character that no face has.
const UNKNOWN: char = '\u{25a1}';

fn metrics(face: Face) -> Option<&'static Metrics<'static>> {
    METRICS.get(face as usize)?.as_ref()
}

fn advance(face: Face, character: char) -> Option<f32> {
    let metrics = metrics(face)?;
    let glyph = metrics.glyph_index(character)?;
    Some(f32::from(metrics.glyph_hor_advance(glyph)?) / f32::from(metrics.units_per_em()))
}

/// The face that has a character, and the character that is drawn: a box where none has it.
fn drawn(face: Face, character: char) -> (Face, char, f32) {
    if let Some(wide) = advance(face, character) {
        return (face, character, wide);
    }
    match advance(Face::Last, character) {
        Some(wide) => (Face::Last, character, wide),
        None => (Face::Last, UNKNOWN, advance(Face::Last, UNKNOWN).unwrap_or(0.6)),
    }
}

/// Width of words in points.
pub(crate) fn width(face: Face, size: f32, text: &str) -> f32 {
    text.chars().map(|character| drawn(face, character).2).sum::<f32>() * size
}

/// Words of one face each, with their widths in points, so that no character is lost for want of a glyph.
pub(crate) fn runs(face: Face, size: f32, text: &str) -> Vec<(Face, String, f32)> {
    let mut runs: Vec<(Face, String, f32)> = Vec::new();
    for character in text.chars() {
        let (face, character, wide) = drawn(face, character);
        match runs.last_mut() {
            Some((last, text, width)) if *last == face => {
                text.push(character);
                *width += wide * size;
            }
            _ => runs.push((face, character.to_string(), wide * size)),
        }
    }
    runs
}

/// The text in lines no broader than `room` points. A word that is broader is cut; whatever could steer stands escaped.
pub(crate) fn lines(face: Face, size: f32, text: &str, room: f32) -> Vec<String> {
    let mut lines = Vec::new();
    for paragraph in text.split('\n') {
        let mut line = String::new();
        for word in escaped(paragraph).split(' ').filter(|word| !word.is_empty()) {
            let with = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
            if width(face, size, &with) <= room {
                line = with;
                continue;
            }
            if !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            line = rest_of(face, size, word, room, &mut lines);
        }
        lines.push(line);
    }
    lines
}

/// Cuts a word to full lines; returns what is left of it.
fn rest_of(face: Face, size: f32, word: &str, room: f32, lines: &mut Vec<String>) -> String {
    let (mut line, mut wide) = (String::new(), 0.0);
    for character in word.chars() {
        let more = drawn(face, character).2 * size;
        if wide + more > room && !line.is_empty() {
            lines.push(std::mem::take(&mut line));
            wide = 0.0;
        }
        line.push(character);
        wide += more;
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_face_is_there() {
        for (face, name, _) in FILES {
            assert!(metrics(face).is_some(), "{name}");
        }
    }

    #[test]
    fn lines_keep_every_word_and_no_line_is_too_broad() {
        let text = format!("a few short words, {} and an end µΩ → □ 漢", "x".repeat(200));
        let lines = lines(Face::Regular, 9.0, &text, 120.0);
        assert!(lines.iter().all(|line| width(Face::Regular, 9.0, line) <= 120.0), "{lines:?}");
        let joined: String = lines.concat().chars().filter(|c| *c != ' ').collect();
        assert_eq!(joined, text.replace(' ', ""));
    }

    #[test]
    fn what_the_text_face_lacks_stands_in_another() {
        let runs = runs(Face::Regular, 10.0, "a漢b");
        let said: Vec<_> = runs.iter().map(|(face, text, _)| (*face, text.as_str())).collect();
        assert_eq!(said, [(Face::Regular, "a"), (Face::Last, "□"), (Face::Regular, "b")]);
        let sum: f32 = runs.iter().map(|run| run.2).sum();
        assert!((sum - width(Face::Regular, 10.0, "a漢b")).abs() < 1e-3);
    }

    #[test]
    fn nothing_steers() {
        assert_eq!(lines(Face::Regular, 9.0, "a\u{1b}[31m\u{202e}b", 500.0), ["a\\u{1b}[31m\\u{202e}b"]);
    }
}
