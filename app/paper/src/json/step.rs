//! Steps of reasons as JSON, each derivation told once and then referred to.

use std::sync::Arc;

use propwright_engine::{
    craft::Subject,
    explain::{
        self,
        telling::{Telling, Told},
    },
    finding::{Because, Claim, Missing, Unknown},
};
use propwright_schema::part::Basis;
use serde::Serialize;

use crate::json::Amount;

/// What a fact is about.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fact {
    /// Slot of the part, such as `motor` or `motor[1]`; null for the build list as a whole.
    pub slot: Option<String>,
    /// Id of the part.
    pub part: Option<String>,
    /// The field.
    pub field: &'static str,
    /// `measured` or `estimate`; null for the maker's figure.
    pub basis: Option<&'static str>,
    /// Its value.
    #[serde(flatten)]
    pub amount: Amount,
}

/// A computed value.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Derived {
    /// Slot of the part that it belongs to, if it is one part's.
    pub slot: Option<String>,
    /// What it is.
    pub title: &'static str,
    /// Formula with symbols.
    pub formula: &'static str,
    /// Where the formula comes from; empty where the step below says it.
    pub source: &'static str,
    /// The figures that are put into the formula, each with its name.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub put_in: Vec<PutIn>,
    /// Its value.
    #[serde(flatten)]
    pub amount: Amount,
}

/// A figure that is put into a formula.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PutIn {
    /// What it is.
    pub name: String,
    /// Its value.
    #[serde(flatten)]
    pub amount: Amount,
}

/// A threshold, or something taken as usual because nobody said otherwise.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Assumption {
    /// Name of the threshold in the policy file; null for what was taken as usual.
    pub threshold: Option<&'static str>,
    /// Where a threshold comes from.
    pub source: Option<&'static str>,
    /// With which value.
    #[serde(flatten)]
    pub amount: Amount,
}

/// What is not known.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Gap {
    /// Slot of the part concerned; null for the build list as a whole.
    pub slot: Option<String>,
    /// Id of the part.
    pub part: Option<String>,
    /// The field that was not published or not listed.
    pub field: Option<&'static str>,
}

/// One step of a reason: one of `fact`, `derived`, `assumption` and `missing` is present.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Step {
    /// The step as a line.
    pub text: String,
    /// A figure or word of a record or of the build list.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fact: Option<Fact>,
    /// A computed value.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub derived: Option<Derived>,
    /// A threshold or something taken as usual.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub assumption: Option<Assumption>,
    /// Something not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub missing: Option<Gap>,
    /// Number under which later steps refer to it; absent where none does.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub told: Option<usize>,
    /// Number of the step that tells what this one follows from; then `because` is empty.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub as_told: Option<usize>,
    /// What it follows from.
    pub because: Vec<Step>,
}

/// A step with the steps below it.
pub(crate) fn step(because: &Arc<Because>, telling: &mut Telling) -> Step {
    let (told, as_told) = match telling.tell(because) {
        Told::Full => (None, None),
        Told::Numbered(number) => (Some(number), None),
        Told::Again(number) => (None, Some(number)),
    };
    let from = if as_told.is_some() { &[][..] } else { &because.from };
    let mut told_step = Step {
        text: explain::because(because),
        fact: None,
        derived: None,
        assumption: None,
        missing: None,
        told,
        as_told,
        because: from.iter().map(|below| step(below, telling)).collect(),
    };
    match &because.claim {
        Claim::Fact { .. } => told_step.fact = fact(because),
        Claim::Derived { subject, title, datum, formula, source } => {
            let (slot, _) = place(subject.as_ref());
            let put_in = explain::put_in(because).into_iter().map(|(name, found)| PutIn { name, amount: found.into() });
            told_step.derived = Some(Derived { slot, title, formula, source, put_in: put_in.collect(), amount: datum.into() });
        }
        Claim::Threshold { name, datum, source, .. } => {
            told_step.assumption = Some(Assumption { threshold: Some(name), source: Some(source), amount: datum.into() });
        }
        Claim::Assumption { datum, .. } => {
            let amount = datum.as_ref().map(Amount::from).unwrap_or_default();
            told_step.assumption = Some(Assumption { threshold: None, source: None, amount });
        }
        Claim::Missing(missing) => told_step.missing = Some(gap(missing)),
    }
    told_step
}

/// A claim of a record or the list.
pub(crate) fn fact(because: &Because) -> Option<Fact> {
    let Claim::Fact { subject, field, datum, basis, .. } = &because.claim else { return None };
    let (slot, part) = place(subject.as_ref());
    Some(Fact { slot, part, field, basis: basis.map(Basis::word), amount: datum.into() })
}

/// Slot and id of a part.
pub(crate) fn place(subject: Option<&Subject>) -> (Option<String>, Option<String>) {
    (subject.map(Subject::slot_text), subject.map(|subject| subject.part.id.clone()))
}

fn gap(missing: &Missing) -> Gap {
    let (slot, part) = place(missing.subject.as_ref());
    let (slot, field) = match &missing.what {
        Unknown::Field(field) | Unknown::Line(field) => (slot, Some(*field)),
        Unknown::Empty(empty) => (Some(empty.to_string()), None),
        Unknown::Infeasible(_) | Unknown::Outside(_) => (slot, None),
    };
    Gap { slot, part, field }
}
