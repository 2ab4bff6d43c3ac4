//! Which item of a list was which before it was edited.

use std::{collections::BTreeMap, ops::Range};

use crate::outline;

/// For each item of the list at `after_span` the item of the list before that it was, each of them at most once: the same text
/// first, then the same id (or slot and part), then the same slot, then the same place in lists of one length.
pub(super) fn matches(
    before: &str,
    before_items: &[Range<usize>],
    after: &str,
    after_items: &[Range<usize>],
) -> Vec<Option<usize>> {
    let text_before = |at: usize| &before[before_items[at].clone()];
    let text_after = |at: usize| &after[after_items[at].clone()];
    let mut found: Vec<Option<usize>> = vec![None; after_items.len()];
    let shorter = before_items.len().min(after_items.len());
    let head = (0..shorter).take_while(|at| text_before(*at) == text_after(*at)).count();
    let from_end = |count: usize, at: usize| count - 1 - at;
    let (from, to) = (before_items.len(), after_items.len());
    let tail = (0..shorter - head).take_while(|at| text_before(from_end(from, *at)) == text_after(from_end(to, *at))).count();
    for (at, place) in found.iter_mut().enumerate().take(head) {
        *place = Some(at);
    }
    for at in 0..tail {
        found[from_end(to, at)] = Some(from_end(from, at));
    }
    let mut left: Vec<usize> = (head..before_items.len() - tail).collect();
    let keys: [fn(&str, Range<usize>) -> String; 3] = [|text, item| text[item].to_owned(), identity, first_field];
    for key in keys {
        pair(&mut found, &mut left, |at| key(before, before_items[at].clone()), |at| key(after, after_items[at].clone()));
    }
    if before_items.len() == after_items.len() {
        let open: Vec<usize> = (0..found.len()).filter(|at| found[*at].is_none() && left.binary_search(at).is_ok()).collect();
        for at in open {
            found[at] = Some(at);
        }
    }
    found
}

/// Pairs items that are still alone by a key, the earliest with the earliest.
fn pair(found: &mut [Option<usize>], left: &mut Vec<usize>, before: impl Fn(usize) -> String, after: impl Fn(usize) -> String) {
    let mut waiting: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for at in left.iter().rev() {
        waiting.entry(before(*at)).or_default().push(*at);
    }
    for (at, place) in found.iter_mut().enumerate().filter(|(_, place)| place.is_none()) {
        *place = waiting.get_mut(&after(at)).and_then(Vec::pop);
    }
    *left = waiting.into_values().flatten().collect();
    left.sort_unstable();
}

/// What names an item: the word before its bracket, its slot and part, or its first field.
fn identity(text: &str, item: Range<usize>) -> String {
    let Some(children) = outline::children(text, item.clone()) else { return text[item].to_owned() };
    if !children.head.is_empty() {
        return text[children.head.clone()].to_owned();
    }
    let children: Vec<_> = children.take(2).collect();
    let named = if children.first().and_then(|child| child.key_text(text)) == Some("slot") { 2 } else { 1 };
    children.into_iter().take(named).map(|child| &text[child.start()..child.value.end]).collect()
}

fn first_field(text: &str, item: Range<usize>) -> String {
    let mut children = outline::children(text, item.clone()).into_iter().flatten();
    children.next().map_or(text[item].to_owned(), |child| text[child.start()..child.value.end].to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(before: &str, after: &str) -> Vec<Option<usize>> {
        let items = |text: &str| outline::items(text, 0..text.len()).into_iter().map(|item| item.value).collect::<Vec<_>>();
        matches(before, &items(before), after, &items(after))
    }

    #[test]
    fn by_text_id_slot_and_place() {
        assert_eq!(found("[1,2,3]", "[1,3]"), [Some(0), Some(2)]);
        assert_eq!(found("[1,2]", "[]"), []);
        assert_eq!(found("[]", "[1]"), [None]);
        assert_eq!(found(r#"[(id:"a",x:1),(id:"b",x:1)]"#, r#"[(id:"b",x:2),(id:"a",x:1)]"#), [Some(1), Some(0)]);
        assert_eq!(found("[(slot:M,part:a),(slot:M,part:b)]", "[(slot:M,part:c),(slot:M,part:b,n:1)]"), [Some(0), Some(1)]);
        assert_eq!(found(r#"[(id:"a"),(id:"b")]"#, r#"[(id:"a"),(id:"c")]"#), [Some(0), Some(1)]);
        assert_eq!(found("[1,1,1]", "[1,1]"), [Some(0), Some(1)]);
    }
}
