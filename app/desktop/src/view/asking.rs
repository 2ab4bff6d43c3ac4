//! What nobody stated: each figure once, how it is learned, and what waits for it.

use propwright_engine::{
    Report,
    craft::Craft,
    estimated::{Estimated, estimates},
    explain,
    unknown::{Question, questions},
};

use super::findings::{Card, card};
use crate::{edit::Edit, input::Input, state::Place};

/// A figure that nobody stated.
#[derive(Debug, Clone)]
pub struct Asking {
    /// The part and the field: one of a kind in a report.
    pub key: String,
    /// What is asked, in a few words: "Pattern of the Vellacre 2207".
    pub title: String,
    /// What the field holds; for what the list does not say, the question.
    pub about: String,
    /// Where it is found, and how it is measured; or where it is said.
    pub how: String,
    /// Where an estimate of it is typed, where one can be given.
    pub estimate: Option<Input>,
    /// Why none can be given; empty where one can.
    pub no_estimate: &'static str,
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
        how: if question.how().is_empty() { format!("With: {}.", question.tool()) } else { question.how().to_owned() },
        estimate: estimate_of(question),
        no_estimate: question.no_estimate(),
        said: question.of_list.then(|| said(&report.craft, question)),
        waiting: question.findings.iter().filter_map(wait).collect(),
    }
}

fn estimate_of(question: &Question) -> Option<Input> {
    let subject = question.subject.as_ref().filter(|_| question.no_estimate().is_empty())?;
    let (role, field) = question.estimated()?;
    Some(Input::Estimate { part: subject.part.id.clone(), role, field: field.name })
}

/// A figure that the user estimated.
#[derive(Debug, Clone)]
pub struct Guess {
    /// What is estimated: "Thread depth of the Vellacre 2207".
    pub title: String,
    /// Where it is typed.
    pub input: Input,
    /// Why it does not count; empty while it does.
    pub unused: String,
    /// What taking it back does.
    pub back: Edit,
}

/// What the user estimated, in the order of the list.
pub(super) fn guesses(report: &Report) -> Vec<Guess> {
    let one = |estimated: &Estimated| {
        let (part, role, field) = (estimated.subject.part.id.clone(), estimated.role, estimated.field.name);
        Guess {
            title: upper_first(&explain::estimated::title(estimated)),
            unused: explain::estimated::unused(estimated).map_or_else(String::new, |unused| upper_first(&unused)),
            input: Input::Estimate { part: part.clone(), role, field },
            back: Edit::Estimate { part, role, field, value: None },
        }
    };
    estimates(&report.craft).iter().map(one).collect()
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
