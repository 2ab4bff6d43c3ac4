//! Ids, names and other free texts.

use super::{Issue, LONGEST_NAME};

/// What is wrong with an id: lower-case letters, digits and dashes, at least one.
pub(super) fn id_issue(id: &str) -> Option<Issue> {
    let allowed = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    if id.is_empty() {
        return Some(Issue::new("the id is empty".to_owned(), "write a short name such as \"vellacre-2207-1950\""));
    }
    if id.len() > LONGEST_NAME {
        let reason = format!("the id has {} characters; at most {LONGEST_NAME} are kept", id.chars().count());
        return Some(Issue::new(reason, "shorten it"));
    }
    let wrong = id.chars().find(|c| !allowed(*c))?;
    let better: String = id.to_lowercase().chars().map(|c| if allowed(c) { c } else { '-' }).collect();
    let reason = format!("the id {id:?} holds {wrong:?}; an id has lower-case letters, digits and dashes");
    Some(Issue::new(reason, format!("write \"{better}\"")))
}

/// What is wrong with a free text: blank, longer than `longest` characters, or with control characters (line ends may stand in
/// notes, which are longer than names).
pub(super) fn text_issue(text: &str, longest: usize) -> Option<Issue> {
    if text.trim().is_empty() {
        return Some(Issue::new("the text is blank".to_owned(), "write something or leave the field out"));
    }
    let length = text.chars().count();
    if length > longest {
        return Some(Issue::new(format!("the text has {length} characters; at most {longest} are kept"), "shorten it"));
    }
    let note = longest > LONGEST_NAME;
    let wrong = text.chars().find(|c| c.is_control() && !(note && matches!(c, '\n' | '\r' | '\t')))?;
    Some(Issue::new(format!("the text holds the control character {wrong:?}"), "take it out; it cannot be shown"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_by_their_letters() {
        for id in ["a", "vellacre-2207-1950", "5", &"x".repeat(200)] {
            assert_eq!(id_issue(id), None, "{id}");
        }
        for id in ["", "A", "a b", "a_b", "é", "a/b", &"x".repeat(201)] {
            assert!(id_issue(id).is_some(), "{id}");
        }
        assert!(id_issue("Motor 5").is_some_and(|issue| issue.hint.contains("\"motor-5\"")));
    }

    #[test]
    fn texts_by_length_and_letters() {
        for text in ["x", "Ö µ \"q\"", &"é".repeat(200)] {
            assert_eq!(text_issue(text, 200), None, "{text}");
        }
        for text in ["", "  ", "a\nb", "a\0b", "a\u{7f}", &"é".repeat(201)] {
            assert!(text_issue(text, 200).is_some(), "{text:?}");
        }
        assert_eq!(text_issue("two\nlines", 4000), None);
        assert!(text_issue("a\0b", 4000).is_some());
    }
}
