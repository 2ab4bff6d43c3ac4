//! What nobody stated: what to look up or measure, with what, and which findings wait for it.

use crate::{
    craft::Subject,
    explain,
    finding::{Finding, Missing, Status, Unknown},
    report::Report,
};

/// Something to look up or measure.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// The part; absent for the list as a whole.
    pub subject: Option<Subject>,
    /// The field of its record or of its line.
    pub field: &'static str,
    /// Is it the list that does not say it?
    pub of_list: bool,
    /// The rules that wait for it.
    pub waiting: Vec<&'static str>,
}

impl Question {
    /// The question in a sentence.
    pub fn message(&self) -> String {
        let what = if self.of_list { Unknown::Line(self.field) } else { Unknown::Field(self.field) };
        explain::missing(&Missing { subject: self.subject.clone(), what })
    }

    /// With what it is learned.
    pub fn tool(&self) -> &'static str {
        if self.of_list { "your own plan: say it in the list" } else { explain::repair::tool(self.field) }
    }
}

/// The questions of a report, the one for which most findings wait first.
pub fn questions(report: &Report) -> Vec<Question> {
    let mut questions: Vec<Question> = Vec::new();
    for finding in report.findings.iter().filter(|finding| finding.status() == Status::Unstated) {
        let Some((subject, field, of_list)) = asked(finding) else { continue };
        let same =
            |known: &&mut Question| known.field == field && known.of_list == of_list && is_same(known.subject.as_ref(), subject);
        match questions.iter_mut().find(same) {
            Some(known) if known.waiting.contains(&finding.rule) => {}
            Some(known) => known.waiting.push(finding.rule),
            None => {
                questions.push(Question { subject: subject.cloned(), field, of_list, waiting: vec![finding.rule] });
            }
        }
    }
    questions.sort_by_key(|question| std::cmp::Reverse(question.waiting.len()));
    questions
}

fn asked(finding: &Finding) -> Option<(Option<&Subject>, &'static str, bool)> {
    let missing = finding.missing()?;
    match missing.what {
        Unknown::Field(field) => Some((missing.subject.as_ref(), field, false)),
        Unknown::Line(field) => Some((missing.subject.as_ref(), field, true)),
        Unknown::Empty(_) | Unknown::Infeasible(_) | Unknown::Outside(_) => None,
    }
}

/// The same part in the same slot; where a part fills a slot twice, one look-up answers both.
fn is_same(one: Option<&Subject>, other: Option<&Subject>) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => one.slot == other.slot && one.part.id == other.part.id,
        (one, other) => one.is_none() && other.is_none(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{policy::Policy, report::evaluate, rules::trial};
    use propwright_schema::catalogue::{Catalogue, CatalogueFile};
    use std::sync::Arc;

    #[test]
    fn one_question_for_all_that_wait_for_it() {
        let parts = r#"(id: "f", name: "F", fills: [Frame(motor_patterns: ["16x16"])]), (id: "m", name: "M", fills: [Motor()])"#;
        let build = r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4)]"#;
        let file: CatalogueFile = propwright_schema::ron_options().from_str(&format!("(version: 1, parts: [{parts}])")).unwrap();
        let mut catalogue = Catalogue::default();
        catalogue.lay_over(&file);
        let report = evaluate(&catalogue, &Arc::clone(&trial::craft(parts, build).build), &Policy::default());
        let found = questions(&report);
        let pattern = found.iter().find(|question| question.field == "pattern").unwrap();
        assert_eq!(pattern.waiting, ["motor-pattern"]);
        assert!(pattern.message().starts_with("M: pattern is not published."), "{}", pattern.message());
        let asked: Vec<_> =
            found.iter().map(|question| (question.field, question.subject.as_ref().map(|part| part.slot))).collect();
        let mut once = asked.clone();
        once.dedup();
        assert_eq!(asked, once);
    }
}
