//! What nobody stated, as JSON and as plain text: each figure once; and what the user estimates of it.

use propwright_engine::{
    Report,
    craft::Subject,
    estimated::{Estimated, estimates},
    explain,
    finding::Datum,
    rules,
    unknown::{Question, questions},
};
use propwright_schema::value::Value;
use serde::Serialize;

use crate::{
    json::{Amount, place},
    page::Page,
};

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
    /// With what it is learned, in a word.
    pub tool: &'static str,
    /// Where it is found, and how it is measured; empty for what the list does not say.
    pub how: &'static str,
    /// The rules that wait for it.
    pub waiting: Vec<&'static str>,
}

/// A figure that the user estimates because nobody published it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct EstimateJson {
    /// Slot of the part.
    pub slot: Option<String>,
    /// Id of the part.
    pub part: Option<String>,
    /// The field.
    pub field: &'static str,
    /// Does it count? A figure of the record counts before it.
    pub counts: bool,
    /// The figure that counts in its place.
    pub instead: Option<Amount>,
    /// The estimate as a line.
    pub message: String,
    /// What was estimated.
    #[serde(flatten)]
    pub amount: Amount,
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
        how: question.how(),
        waiting: question.waiting,
    }
}

/// The questions, each with its tool and what waits for it.
pub(crate) fn text(page: &mut Page, questions: &[Question]) {
    for question in questions {
        page.paragraph("  - ", &question.message());
        if question.how().is_empty() {
            page.paragraph("    With: ", question.tool());
        } else {
            page.paragraph("    Find it: ", question.how());
        }
        let waiting: Vec<&str> = question.waiting.iter().map(|rule| title(rule)).collect();
        page.paragraph("    Waiting for it: ", &waiting.join(", "));
    }
}

fn title(rule: &str) -> &str {
    rules::by_id(rule).map_or(rule, |rule| rule.title)
}

/// What the user estimates of a report's craft.
pub(crate) fn estimated(report: &Report) -> Vec<EstimateJson> {
    estimates(&report.craft).iter().map(estimate).collect()
}

fn estimate(estimated: &Estimated) -> EstimateJson {
    let (slot, part) = place(Some(&estimated.subject));
    let amount = |value: &Value| Amount::from(&Datum::Value(value.clone()));
    EstimateJson {
        slot,
        part,
        field: estimated.field.name,
        counts: estimated.instead.is_none(),
        instead: estimated.instead.as_ref().map(|(value, _)| amount(value)),
        message: explain::estimated::line(estimated),
        amount: amount(&estimated.value),
    }
}
