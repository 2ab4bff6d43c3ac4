//! What nobody stated: what to look up or measure, with what, and which findings wait for it.

use propwright_schema::{estimate, look_up::how_to_find, part::Role, value::Field};

use crate::{
    craft::Subject,
    explain,
    finding::{Because, Claim, Finding, Missing, Status, Unknown},
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
    /// The rules that wait for it, each once.
    pub waiting: Vec<&'static str>,
    /// The findings that wait for it, by their places in the report.
    pub findings: Vec<usize>,
}

impl Question {
    /// What is asked, in a few words: `pattern of the Vellacre 2207`.
    pub fn title(&self) -> String {
        let name = self.field.rsplit('.').next().unwrap_or(self.field);
        let what = explain::field_words(if self.of_list { name } else { self.field });
        match &self.subject {
            Some(subject) => format!("{what} of the {}", explain::part_name(subject)),
            None => what,
        }
    }

    /// The question in a sentence.
    pub fn message(&self) -> String {
        let what = if self.of_list { Unknown::Line(self.field) } else { Unknown::Field(self.field) };
        explain::missing(&Missing { subject: self.subject.clone(), what })
    }

    /// What the field holds, as its record describes it; empty for what the list does not say.
    pub fn about(&self) -> &'static str {
        let subject = self.subject.as_ref().filter(|_| !self.of_list);
        subject.and_then(|subject| explain::about(subject.slot, self.field)).unwrap_or_default().trim()
    }

    /// Where it is found, and how it is measured; empty for what the list does not say.
    pub fn how(&self) -> &'static str {
        let outer = self.field.split('.').next().unwrap_or(self.field);
        let of_role = |subject: &Subject| Role::fields_of(subject.slot).iter().find(|field| field.name == outer);
        let subject = self.subject.as_ref().filter(|_| !self.of_list);
        let field = subject.and_then(|subject| estimate::field(None, outer).or_else(|| of_role(subject)));
        field.map(how_to_find).unwrap_or_default()
    }

    /// Why no estimate of it is taken; empty where one is, and for what the list does not say.
    pub fn no_estimate(&self) -> &'static str {
        let Some(subject) = self.subject.as_ref().filter(|_| !self.of_list) else { return "" };
        match self.field.split_once('.') {
            // A list of the record counts as a whole; its other figures are published.
            Some((outer, _)) if subject.part.role(subject.slot).is_some_and(|role| role.get(outer).is_some()) => {
                "Not estimated here: the rest of that list is published and counts. Complete it in a catalogue of your own."
            }
            _ if self.estimated().is_none() => {
                "Not estimated here: it is a measurement. Write what you measured into a catalogue of your own."
            }
            _ => "",
        }
    }

    /// The field of which an estimate can be taken, with the word of its role; none for the mass.
    pub fn estimated(&self) -> Option<(Option<&'static str>, &'static Field)> {
        let subject = self.subject.as_ref().filter(|_| !self.of_list)?;
        let outer = self.field.split('.').next().unwrap_or(self.field);
        let role = (outer != "mass_g").then(|| subject.part.role(subject.slot).map(Role::word)).flatten();
        let field = estimate::field(role, outer).filter(|field| estimate::can_be_estimated(field))?;
        Some((role, field))
    }

    /// With what it is learned, in a word.
    pub fn tool(&self) -> &'static str {
        if self.of_list { "your own plan: say it in the list" } else { explain::repair::tool(self.field) }
    }
}

/// The questions of a report, the one for which most findings wait first.
pub fn questions(report: &Report) -> Vec<Question> {
    let mut questions: Vec<Question> = Vec::new();
    for (at, finding) in report.findings.iter().enumerate().filter(|(_, finding)| finding.status() == Status::Unstated) {
        for (subject, field, of_list) in asked(finding) {
            let same =
                |known: &&Question| known.field == field && known.of_list == of_list && is_same(known.subject.as_ref(), subject);
            let known = questions.iter().position(|known| same(&known)).unwrap_or(questions.len());
            if known == questions.len() {
                let (waiting, findings) = (Vec::new(), Vec::new());
                questions.push(Question { subject: subject.cloned(), field, of_list, waiting, findings });
            }
            let Some(question) = questions.get_mut(known) else { continue };
            if !question.waiting.contains(&finding.rule) {
                question.waiting.push(finding.rule);
            }
            if !question.findings.contains(&at) {
                question.findings.push(at);
            }
        }
    }
    questions.sort_by_key(|question| std::cmp::Reverse(question.findings.len()));
    questions
}

/// The unstated findings that wait for no figure, by their places in the report: what is to be chosen first, or what no model reaches.
pub fn without_question(report: &Report) -> Vec<usize> {
    let unstated = report.findings.iter().enumerate().filter(|(_, finding)| finding.status() == Status::Unstated);
    unstated.filter(|(_, finding)| asked(finding).is_empty()).map(|(at, _)| at).collect()
}

type Asked<'f> = (Option<&'f Subject>, &'static str, bool);

/// What a finding waits for: every figure that is missing in its reason.
fn asked(finding: &Finding) -> Vec<Asked<'_>> {
    let mut asked = Vec::new();
    finding.outcome.facts.iter().for_each(|(_, because)| collect(because, &mut asked));
    asked
}

fn collect<'f>(because: &'f Because, into: &mut Vec<Asked<'f>>) {
    if let Claim::Missing(missing) = &because.claim {
        match missing.what {
            Unknown::Field(field) => into.push((missing.subject.as_ref(), field, false)),
            Unknown::Line(field) => into.push((missing.subject.as_ref(), field, true)),
            Unknown::Empty(_) | Unknown::Infeasible(_) | Unknown::Outside(_) => {}
        }
    }
    because.from.iter().for_each(|below| collect(below, into));
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
        assert_eq!(pattern.title(), "pattern of the M");
        assert!(pattern.findings.iter().all(|at| report.findings[*at].rule == "motor-pattern"));
        assert!(pattern.message().starts_with("M: pattern is not published."), "{}", pattern.message());
        let asked: Vec<_> =
            found.iter().map(|question| (question.field, question.subject.as_ref().map(|part| part.slot))).collect();
        let once: std::collections::BTreeSet<_> = asked.iter().collect();
        assert_eq!(asked.len(), once.len());
        let told: std::collections::BTreeSet<usize> =
            found.iter().flat_map(|question| question.findings.clone()).chain(without_question(&report)).collect();
        assert_eq!(told.len(), report.count(Status::Unstated), "every unstated finding has its place");
    }
}
