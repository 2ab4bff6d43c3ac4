//! What nobody stated: each figure once, how it is learned, and what waits for it.

use propwright_engine::{
    Report,
    craft::Craft,
    unknown::{Question, questions},
};

use super::findings::{Card, card};
use crate::state::Place;

/// A figure that nobody stated.
#[derive(Debug, Clone)]
pub struct Asking {
    /// The part and the field: one of a kind in a report.
    pub key: String,
    /// What is asked, in a few words: "Pattern of the Vellacre 2207".
    pub title: String,
    /// What the field holds; for what the list does not say, the question.
    pub about: String,
    /// With which tool it is measured, or where it is said.
    pub tool: &'static str,
    /// Where it is said in the list, where that answers it.
    pub said: Option<Said>,
    /// The findings that wait for it.
    pub waiting: Vec<Waiting>,
}

/// Where the list says something.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Said {
    /// At a line.
    Line(Place),
    /// On the page of the purpose.
    Purpose,
    /// At the list as a whole.
    Whole,
}

/// A finding that waits for a figure.
#[derive(Debug, Clone)]
pub struct Waiting {
    /// Its place in the report.
    pub at: usize,
    /// The finding.
    pub card: Card,
}

/// The questions of a report.
pub(super) fn asking(report: &Report) -> Vec<Asking> {
    questions(report).iter().map(|question| one(report, question)).collect()
}

fn one(report: &Report, question: &Question) -> Asking {
    let whose = question.subject.as_ref().map_or_else(|| "list".to_owned(), |part| format!("{} {}", part.slot, part.part.id));
    let wait = |at: &usize| report.findings.get(*at).map(|finding| Waiting { at: *at, card: card(finding) });
    Asking {
        key: format!("{whose} {}", question.field),
        title: upper_first(&question.title()),
        about: if question.of_list { question.message() } else { question.about().to_owned() },
        tool: question.tool(),
        said: question.of_list.then(|| said(&report.craft, question)),
        waiting: question.findings.iter().filter_map(wait).collect(),
    }
}

fn said(craft: &Craft, question: &Question) -> Said {
    let placed = question.subject.as_ref().and_then(|subject| craft.in_slot(subject.slot).get(subject.index));
    match placed {
        Some(placed) => Said::Line(Place { slot: placed.fitted.slot, line: Some(placed.line) }),
        None if question.field.contains('.') => Said::Purpose,
        None => Said::Whole,
    }
}

/// The beginning of a sentence.
fn upper_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
