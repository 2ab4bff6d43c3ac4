//! The one way in which solved rules go: gather what is needed, judge it, tell the facts.

use std::sync::Arc;

use crate::{
    craft::Subject,
    finding::{Because, Claim, Missing, Outcome, Status, Unknown, Verdict},
    graph::Site,
};

/// The facts of an outcome, by the names that the rule's sentences use; the part in the way comes first.
pub(crate) type Facts = Vec<(&'static str, Arc<Because>)>;

/// Runs a rule: `gather` has one entry a subject (none: it does not apply), `judge` is pure, `facts` is the only source of the
/// reason. What is missing makes the finding unstated; an empty slot makes it not apply.
pub(crate) fn run<I>(
    site: &Site,
    gather: impl Fn(&Site) -> Vec<Result<I, Missing>>,
    judge: impl Fn(&I) -> Verdict,
    facts: impl Fn(&I) -> Facts,
) -> Vec<Outcome> {
    let applies = |entry: &Result<I, Missing>| !matches!(entry, Err(Missing { what: Unknown::Empty(_), .. }));
    let outcomes = gather(site).into_iter().filter(applies).map(|entry| match entry {
        Ok(inputs) => {
            let facts = facts(&inputs);
            Outcome { subjects: subjects(&facts), verdict: judge(&inputs), facts }
        }
        Err(missing) => {
            let facts = vec![("missing", Because::plain(Claim::Missing(missing)))];
            Outcome { subjects: subjects(&facts), verdict: Verdict::plain(Status::Unstated), facts }
        }
    });
    outcomes.collect()
}

fn subjects(facts: &Facts) -> Vec<Subject> {
    let mut subjects: Vec<Subject> = Vec::new();
    for subject in facts.iter().filter_map(|(_, because)| because.subject()) {
        let known = subjects.iter().any(|other| other.slot == subject.slot && other.index == subject.index);
        if !known {
            subjects.push(subject.clone());
        }
    }
    subjects
}
