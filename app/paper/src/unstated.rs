//! What nobody stated, as JSON and as plain text: each figure once.

use propwright_engine::{
    Report,
    craft::Subject,
    rules,
    unknown::{Question, questions},
};
use serde::Serialize;

use crate::page::Page;

/// Something to look up or measure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct QuestionJson {
    /// Slot of the part; null for the list as a whole.
    pub slot: Option<String>,
    /// Id of the part.
    pub part: Option<String>,
    /// The field.
    pub field: &'static str,
    /// The question in a sentence.
    pub message: String,
    /// With what it is learned.
    pub tool: &'static str,
    /// The rules that wait for it.
    pub waiting: Vec<&'static str>,
}

/// The questions of a report, the one for which most findings wait first.
pub(crate) fn json(report: &Report) -> Vec<QuestionJson> {
    questions(report).into_iter().map(question).collect()
}

fn question(question: Question) -> QuestionJson {
    QuestionJson {
        slot: question.subject.as_ref().map(Subject::slot_text),
        part: question.subject.as_ref().map(|subject| subject.part.id.clone()),
        field: question.field,
        message: question.message(),
        tool: question.tool(),
        waiting: question.waiting,
    }
}

/// The questions, each with its tool and what waits for it.
pub(crate) fn text(page: &mut Page, questions: &[Question]) {
    for question in questions {
        page.paragraph("  - ", &question.message());
        page.paragraph("    With: ", question.tool());
        let waiting: Vec<&str> = question.waiting.iter().map(|rule| title(rule)).collect();
        page.paragraph("    Waiting for it: ", &waiting.join(", "));
    }
}

fn title(rule: &str) -> &str {
    rules::by_id(rule).map_or(rule, |rule| rule.title)
}
