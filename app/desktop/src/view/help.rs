//! The help as data: what the words mean, every rule with its formula and source, every threshold with its own, keys, cautions.

use propwright_engine::{
    explain::number,
    policy::{self, Limit, Policy},
    rules::{self, Rule, Weight},
};

use super::{glossary, lower_first};
use crate::{
    command::ACTIONS,
    state::{App, Topic},
};

/// One entry of a chapter.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// What it is known by among the entries of its chapter.
    pub key: &'static str,
    /// Its name.
    pub title: String,
    /// Small words at the right.
    pub aside: String,
    /// What stands below its name at once.
    pub lines: Vec<String>,
    /// What stands there once it is opened: a caption with its text.
    pub more: Vec<(&'static str, String)>,
}

/// The entries of a chapter that hold all of the words.
pub fn help(app: &App, topic: Topic, words: &str) -> Vec<Entry> {
    let words: Vec<String> = words.to_lowercase().split_whitespace().map(str::to_owned).collect();
    let all: Vec<Entry> = match topic {
        Topic::Words => glossary::TERMS.iter().map(|term| of_term(*term)).collect(),
        Topic::Rules => rules::ALL.iter().map(|rule| of_rule(rule)).collect(),
        Topic::Thresholds => policy::ALL.iter().map(|limit| of_limit(limit, &app.policy)).collect(),
        Topic::Keys => keys(),
        Topic::Cautions => cautions(),
    };
    all.into_iter().filter(|entry| entry.holds(&words)).collect()
}

/// The chapter that is shown: words that the open one does not hold lead to the first that does.
pub fn leading(all: &[(Topic, Vec<Entry>)], open: Topic) -> Topic {
    let mut held = all.iter().filter(|(_, entries)| !entries.is_empty()).map(|(topic, _)| *topic);
    if held.clone().any(|topic| topic == open) { open } else { held.next().unwrap_or(open) }
}

impl Entry {
    fn holds(&self, words: &[String]) -> bool {
        if words.is_empty() {
            return true;
        }
        let more = self.more.iter().map(|(_, text)| text);
        let all: Vec<&str> = [&self.title, &self.aside].into_iter().chain(&self.lines).chain(more).map(String::as_str).collect();
        let text = format!("{} {}", self.key, all.join(" ")).to_lowercase();
        words.iter().all(|word| text.contains(word))
    }
}

fn of_term(term: glossary::Term) -> Entry {
    let lines = vec![term.about.to_owned()];
    Entry { key: term.word, title: term.word.to_owned(), aside: String::new(), lines, more: Vec::new() }
}

const fn weight(weight: Weight) -> &'static str {
    match weight {
        Weight::Finding => "finding",
        Weight::Advice => "advice",
        Weight::Caution => "caution",
    }
}

fn of_rule(rule: &'static Rule) -> Entry {
    let joins: Vec<&str> = rule.slots.iter().map(|slot| slot.title()).collect();
    let more = [
        ("Asks", rule.formula.to_owned()),
        ("When it fails", rule.says.costs.to_owned()),
        ("Joins", joins.join(", ")),
        ("Source", rule.source.to_owned()),
        ("Ways out", ways_out(rule.hints)),
    ];
    Entry {
        key: rule.id,
        title: rule.title.to_owned(),
        aside: format!("{} · {} {}", rule.id, rule.group.word(), weight(rule.weight)),
        lines: Vec::new(),
        more: more.into_iter().filter(|(_, text)| !text.is_empty()).collect(),
    }
}

fn ways_out(hints: &[&str]) -> String {
    let later = hints.iter().skip(1).map(|hint| lower_first(hint));
    hints.iter().take(1).map(|hint| (*hint).to_owned()).chain(later).collect::<Vec<_>>().join("; ")
}

/// A threshold as it is in force; what the user's own policy changed says so.
fn of_limit(limit: &'static Limit, policy: &Policy) -> Entry {
    let (now, changed) = policy.limit(limit);
    let mut lines = vec![limit.about.trim().to_owned(), format!("Source: {}", limit.source)];
    if changed {
        lines.push(format!("Your own threshold instead of {}", values(limit)));
    }
    Entry { key: limit.name, title: limit.name.to_owned(), aside: values(&now), lines, more: Vec::new() }
}

fn values(limit: &Limit) -> String {
    let symbol = match limit.unit.symbol {
        "" => String::new(),
        "°" => "°".to_owned(),
        symbol => format!(" {symbol}"),
    };
    let value = |word: &str, value: Option<f64>| value.map(|value| format!("{word} {}{symbol}", number(value)));
    let both = [value("tight", limit.tight), value("mismatch", limit.mismatch)];
    both.into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

fn keys() -> Vec<Entry> {
    let entry = |key, title: &str, aside: &str, about: &str| {
        let (title, aside, lines) = (title.to_owned(), aside.to_owned(), vec![about.to_owned()]);
        Entry { key, title, aside, lines, more: Vec::new() }
    };
    let actions = ACTIONS.iter().map(|action| entry(action.title, action.title, &action.key_words(), action.about));
    let others = [
        ("Go from control to control", "Tab, Shift Tab", "Enter or Space presses the one that is framed."),
        ("Go from part to part", "Arrows", "In the drawing; Enter chooses the part that is named."),
        ("Go from row to row", "Up, Down", "While the filter of a choice is typed; Enter takes the row, Escape ends the choice."),
        ("Close what covers the window", "Escape", "Nothing is done."),
    ];
    actions.chain(others.into_iter().map(|(title, aside, about)| entry(title, title, aside, about))).collect()
}

/// What can hurt, by the rules that caution of it; then how far to trust the figures.
fn cautions() -> Vec<Entry> {
    let of_rule = rules::ALL.iter().filter(|rule| rule.weight == Weight::Caution).map(|rule| {
        let said = [without_names(rule.says.tight), rule.says.costs.to_owned(), format!("Source: {}", rule.source)];
        Entry {
            key: rule.id,
            title: rule.title.to_owned(),
            aside: rule.id.to_owned(),
            lines: said.into_iter().filter(|line| !line.is_empty()).collect(),
            more: Vec::new(),
        }
    });
    let trust = TRUST.iter().map(|(title, text)| Entry {
        key: title,
        title: (*title).to_owned(),
        aside: "how far to trust it".to_owned(),
        lines: vec![(*text).to_owned()],
        more: Vec::new(),
    });
    of_rule.chain(trust).collect()
}

const TRUST: [(&str, &str); 4] = [
    (
        "Bands",
        "A bracket under a figure goes from the 5th to the 95th percentile. A static point measured on a stand is worth more than any model: enter it, and the band shrinks.",
    ),
    (
        "What nobody published",
        "An absent figure is not zero and not a pass: the finding is unstated and says what to look up or measure. An estimate of yours is marked wherever it counts, widens the bands, and can warn, never forbid.",
    ),
    (
        "Thresholds",
        "They are the trade's common practice where no published source is named; a policy file of your own changes them, and every finding that they touch says so.",
    ),
    ("The demo catalogue", "Makers, parts and prices are invented; its figures are no advice to buy."),
];

/// A rule's sentence without the values of a craft: "Take-off mass …: beyond … many places ask".
fn without_names(sentence: &str) -> String {
    let mut out = String::new();
    let mut rest = sentence;
    while let Some((before, after)) = rest.split_once('{') {
        out.push_str(before);
        out.push('…');
        rest = after.split_once('}').map_or("", |(_, after)| after);
    }
    out + rest
}

/// The lines of thresholds by their names, as they are in force.
pub fn threshold_lines(policy: &Policy, names: &[&'static str]) -> Vec<String> {
    let known = policy::ALL.iter().filter(|limit| names.contains(&limit.name));
    known
        .map(|limit| {
            let entry = of_limit(limit, policy);
            let about = entry.lines.join(" ");
            format!("{}: {} – {about}", entry.title, entry.aside)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::Memory;
    use std::{collections::BTreeMap, sync::Arc};

    fn app(policy: Policy) -> App {
        App::new(Arc::default(), Arc::new(policy), Memory::default())
    }

    #[test]
    fn every_rule_threshold_and_key_can_be_found() {
        let app = app(Policy::default());
        assert_eq!(help(&app, Topic::Rules, "").len(), rules::ALL.len());
        assert_eq!(help(&app, Topic::Thresholds, "").len(), policy::ALL.len());
        assert!(help(&app, Topic::Words, "full throttle again").iter().any(|entry| entry.key == "Hard flight"));
        assert!(help(&app, Topic::Keys, "").len() > ACTIONS.len());
        let found = |words: &str| Topic::ALL.map(|topic| (topic, help(&app, topic, words)));
        assert_eq!(leading(&found("tip-mach"), Topic::Words), Topic::Rules);
        assert_eq!(leading(&found("no such words at all"), Topic::Keys), Topic::Keys);
        for rule in rules::ALL {
            assert!(help(&app, Topic::Rules, rule.id).iter().any(|entry| entry.key == rule.id), "{}", rule.id);
        }
        assert!(help(&app, Topic::Keys, "ctrl k").iter().any(|entry| entry.title == "Find anything…"));
        assert!(help(&app, Topic::Rules, "no such words at all").is_empty());
    }

    #[test]
    fn a_changed_threshold_says_so_with_the_programs_own() {
        let limit = &policy::CAPACITOR_SPARE;
        let edit = policy::Edit { tight: Some(1.1), mismatch: None };
        let app = app(Policy::edited(BTreeMap::from([(limit.name.to_owned(), edit)])));
        let entry = &help(&app, Topic::Thresholds, limit.name)[0];
        assert!(entry.aside.contains("tight 1.1"), "{}", entry.aside);
        assert!(entry.lines.iter().any(|line| line == &format!("Your own threshold instead of {}", values(limit))));
    }

    #[test]
    fn a_sentence_without_a_craft_has_gaps() {
        assert_eq!(without_names("Mass {mass}: beyond {line} ask"), "Mass …: beyond … ask");
        assert_eq!(without_names("Charge under watch"), "Charge under watch");
    }
}
