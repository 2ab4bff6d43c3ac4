//! What a rule found, and why: data only. Sentences are made in [`crate::explain`].

use std::{collections::BTreeSet, sync::Arc};

use propwright_schema::{part::Basis, slot::Slot, value::Value};

use crate::{craft::Subject, graph::Model, interval::Interval};

/// How a finding weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Status {
    /// Goes together.
    Fits,
    /// A figure that is needed was not published.
    Unstated,
    /// Goes together with little to spare.
    Tight,
    /// Does not go together.
    Mismatch,
}

impl Status {
    /// The word shown and written.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fits => "fits",
            Self::Unstated => "unstated",
            Self::Tight => "tight",
            Self::Mismatch => "mismatch",
        }
    }

    /// From the gravest to the lightest, for lists.
    pub const GRAVEST_FIRST: [Self; 4] = [Self::Mismatch, Self::Tight, Self::Unstated, Self::Fits];
}

/// A value in a reason or a comparison.
#[derive(Debug, Clone, PartialEq)]
pub enum Datum {
    /// A word, flag or list from a record or a list.
    Value(Value),
    /// A figure with its band.
    Figure(Interval),
    /// What a model returned; read by other derivations, never shown as it is.
    Model(Arc<Model>),
}

impl Datum {
    /// A word.
    pub fn word(text: impl Into<String>) -> Self {
        Self::Value(Value::Word(text.into()))
    }

    /// The figure, if it is one.
    pub const fn figure(&self) -> Option<Interval> {
        match self {
            Self::Figure(interval) => Some(*interval),
            Self::Value(value) => Interval::of(value),
            Self::Model(_) => None,
        }
    }
}

/// Who says so.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// The part's record.
    Part,
    /// The line of the build list.
    Line,
    /// The build list as a whole.
    Build,
}

/// A value of a threshold that the user set instead of the program's own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Changed {
    /// Name of the threshold in the policy file.
    pub name: &'static str,
    /// `tight` or `mismatch`: which of its two values.
    pub which: &'static str,
    /// The value in force.
    pub now: Interval,
    /// The program's own.
    pub usual: Interval,
}

/// What one step of a reason claims.
#[derive(Debug, Clone, PartialEq)]
pub enum Claim {
    /// A figure or word of a record or of the list.
    Fact {
        /// The part; absent for the list as a whole.
        subject: Option<Subject>,
        /// The field.
        field: &'static str,
        /// Its value.
        datum: Datum,
        /// Who vouches for it when it is not the maker.
        basis: Option<Basis>,
        /// Who says so.
        origin: Origin,
    },
    /// A value computed from others.
    Derived {
        /// The part it belongs to, if to one.
        subject: Option<Subject>,
        /// What it is.
        title: &'static str,
        /// Its value.
        datum: Datum,
        /// Formula with symbols.
        formula: &'static str,
        /// Where the formula comes from.
        source: &'static str,
    },
    /// A threshold of the policy.
    Threshold {
        /// Its name in the policy file.
        name: &'static str,
        /// Its value.
        datum: Datum,
        /// Source of the threshold.
        source: &'static str,
        /// What the user's own policy file changed of it.
        changed: Vec<Changed>,
    },
    /// Something taken as usual because nobody said otherwise.
    Assumption {
        /// What is assumed.
        text: &'static str,
        /// With which value.
        datum: Option<Datum>,
    },
    /// Something that is not known.
    Missing(Missing),
}

/// One step of a reason with the steps that it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Because {
    /// The claim.
    pub claim: Claim,
    /// What it follows from.
    pub from: Vec<Arc<Because>>,
}

impl Because {
    /// A claim that rests on nothing else.
    pub fn plain(claim: Claim) -> Arc<Self> {
        Arc::new(Self { claim, from: Vec::new() })
    }

    /// An assumption.
    pub fn assumption(text: &'static str, datum: Option<Datum>) -> Arc<Self> {
        Self::plain(Claim::Assumption { text, datum })
    }

    /// The value that the claim states.
    pub const fn datum(&self) -> Option<&Datum> {
        match &self.claim {
            Claim::Fact { datum, .. } | Claim::Derived { datum, .. } | Claim::Threshold { datum, .. } => Some(datum),
            Claim::Assumption { datum, .. } => datum.as_ref(),
            Claim::Missing(_) => None,
        }
    }

    /// The part that the claim speaks of.
    pub const fn subject(&self) -> Option<&Subject> {
        match &self.claim {
            Claim::Fact { subject, .. } | Claim::Derived { subject, .. } | Claim::Missing(Missing { subject, .. }) => {
                subject.as_ref()
            }
            Claim::Threshold { .. } | Claim::Assumption { .. } => None,
        }
    }

    /// Collects, without repeats, the thresholds anywhere below that the user changed.
    pub fn own_thresholds(&self, into: &mut Vec<Changed>) {
        if let Claim::Threshold { changed, .. } = &self.claim {
            let known = into.clone();
            into.extend(changed.iter().filter(|one| !known.contains(one)));
        }
        self.from.iter().for_each(|below| below.own_thresholds(into));
    }

    /// Collects, without repeats, the facts anywhere below that the user estimated; `seen` holds the steps that were looked at.
    pub fn own_estimates<'b>(&'b self, seen: &mut BTreeSet<*const Self>, into: &mut Vec<&'b Self>) {
        if !seen.insert(std::ptr::from_ref(self)) {
            return;
        }
        let is_own = matches!(&self.claim, Claim::Fact { basis: Some(Basis::Estimate), origin: Origin::Build, .. });
        if is_own && !into.contains(&self) {
            into.push(self);
        }
        self.from.iter().for_each(|below| below.own_estimates(seen, into));
    }

    /// Does it rest on a figure that the user estimated?
    pub fn is_own_estimate(&self) -> bool {
        let mut own = Vec::new();
        self.own_estimates(&mut BTreeSet::new(), &mut own);
        !own.is_empty()
    }

    /// Does it rest, anywhere below, on an estimate or an assumption about a part?
    pub fn is_estimated(&self) -> bool {
        let here = matches!(&self.claim, Claim::Fact { basis: Some(Basis::Estimate), .. } | Claim::Assumption { .. });
        here || self.from.iter().any(|below| below.is_estimated())
    }
}

/// What is not known.
#[derive(Debug, Clone, PartialEq)]
pub struct Missing {
    /// The part concerned.
    pub subject: Option<Subject>,
    /// What of it.
    pub what: Unknown,
}

/// Why it is not known.
#[derive(Debug, Clone, PartialEq)]
pub enum Unknown {
    /// Nobody published the field.
    Field(&'static str),
    /// The build list does not say.
    Line(&'static str),
    /// The slot is empty; rules about it do not apply.
    Empty(Slot),
    /// A model found that the parts cannot reach the state; the reason in a few words.
    Infeasible(String),
    /// No model reaches there, or a value has no meaning there; the reason in a few words.
    Outside(String),
}

/// A judgement without words.
#[derive(Debug, Clone, PartialEq)]
pub struct Verdict {
    /// How it weighs.
    pub status: Status,
    /// What is asked.
    pub required: Option<Datum>,
    /// What is there.
    pub available: Option<Datum>,
    /// What is to spare, as a share of what is asked; negative when it falls short.
    pub margin: Option<f64>,
}

impl Verdict {
    /// A verdict on words.
    pub const fn of_words(status: Status, required: Datum, available: Datum) -> Self {
        Self { status, required: Some(required), available: Some(available), margin: None }
    }

    /// A verdict without figures.
    pub const fn plain(status: Status) -> Self {
        Self { status, required: None, available: None, margin: None }
    }

    /// The graver of two verdicts; of two that weigh the same, this one.
    #[must_use]
    pub fn graver(self, other: Self) -> Self {
        if other.status > self.status { other } else { self }
    }

    /// A limit that is only estimated can warn, never forbid.
    #[must_use]
    pub fn softened(self, estimated: bool) -> Self {
        if estimated && self.status == Status::Mismatch { Self { status: Status::Tight, ..self } } else { self }
    }
}

/// One judgement of one rule about one subject or group of subjects.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// The parts concerned, the one in the way first.
    pub subjects: Vec<Subject>,
    /// The judgement.
    pub verdict: Verdict,
    /// What it rests on, by the names that the rule's sentences use.
    pub facts: Vec<(&'static str, Arc<Because>)>,
}

/// A finding of the report.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The rule's id.
    pub rule: &'static str,
    /// What it found.
    pub outcome: Outcome,
}

impl Finding {
    /// How it weighs.
    pub const fn status(&self) -> Status {
        self.outcome.verdict.status
    }

    /// Does it forbid?
    pub fn forbids(&self) -> bool {
        self.status() == Status::Mismatch
    }

    /// The user's own thresholds that it rests on; empty when all are the program's.
    pub fn own_thresholds(&self) -> Vec<Changed> {
        let mut own = Vec::new();
        self.outcome.facts.iter().for_each(|(_, because)| because.own_thresholds(&mut own));
        own
    }

    /// The user's own estimates that it rests on, each once.
    pub fn own_estimates(&self) -> Vec<&Because> {
        let (mut seen, mut own) = (BTreeSet::new(), Vec::new());
        self.outcome.facts.iter().for_each(|(_, because)| because.own_estimates(&mut seen, &mut own));
        own
    }

    /// What is not known, when that is why it is unstated.
    pub fn missing(&self) -> Option<&Missing> {
        self.outcome.facts.iter().find_map(|(_, because)| match &because.claim {
            Claim::Missing(missing) => Some(missing),
            _ => None,
        })
    }

    /// The slot that it wants filled: nothing is in the way there yet.
    pub fn vacant(&self) -> Option<Slot> {
        match self.missing()?.what {
            Unknown::Empty(slot) => Some(slot),
            _ => None,
        }
    }
}
