//! What a rule is: data, and one of two forms.

use propwright_schema::slot::Slot;

use super::table;
use crate::{
    finding::Outcome,
    graph::{Property, Site},
    policy::Limit,
};

/// How the findings of a rule weigh.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// It can forbid.
    Finding,
    /// It advises on purpose, pilot and place.
    Advice,
    /// It cautions about law, transport and hazards.
    Caution,
}

/// The family of a rule, for lists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// Nothing needed is left out.
    Complete,
    /// Shapes, holes, screws, gaps.
    Mechanical,
    /// Volts, amperes, plugs.
    Electrical,
    /// Control and video.
    Radio,
    /// Ports, protocols, functions of the firmware.
    Firmware,
    /// What it does in the air.
    Flight,
    /// Purpose, pilot, place, law and hazards.
    Conduct,
}

impl Group {
    /// The word shown.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Complete => "complete",
            Self::Mechanical => "mechanical",
            Self::Electrical => "electrical",
            Self::Radio => "radio",
            Self::Firmware => "firmware",
            Self::Flight => "flight",
            Self::Conduct => "conduct",
        }
    }
}

/// In which direction of a property the rule can only get better.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Law {
    /// A larger figure never worsens the status.
    MoreIsBetter(Property),
    /// A smaller figure never worsens the status.
    LessIsBetter(Property),
    /// There is no better and worse: it matches or not.
    Match,
}

/// How two properties are compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Operator {
    /// The same word, count or figure.
    Equals,
    /// The left word is among the right ones.
    OneOf,
    /// Some left word is among the right ones.
    Shares,
    /// The left figure is at most the right one.
    AtMost,
    /// The left figure is at least the right one.
    AtLeast,
    /// The left figures, each taken as often as listed, are in sum at most the right ones.
    SumAtMost,
}

/// The right side of a comparison.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Operand {
    /// Another property.
    Property(Property),
    /// A threshold: the left figure keeps above or below it.
    Limit(Limit),
}

/// One comparison of a table rule: data, from which checker, filter and search are derived.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Comparison {
    /// What is compared, for each part that has it.
    pub left: Property,
    /// How.
    pub is: Operator,
    /// With what.
    pub right: Operand,
    /// Share of the available figure from which a fit counts as tight, such as 0.9; absent: never.
    pub tight: Option<Limit>,
}

/// The form of a rule.
#[derive(Debug, Clone, Copy)]
pub enum Form {
    /// Comparisons.
    Table(&'static [Comparison]),
    /// A function whose body is one call of `run`.
    Solved(fn(&Site) -> Vec<Outcome>),
}

/// The rule's sentences; `{name}` stands for a fact's value, `{name.part}` for its part's name.
#[derive(Debug, Clone, Copy)]
pub struct Says {
    /// When it does not go together: the part in the way first.
    pub mismatch: &'static str,
    /// When it goes together with little to spare.
    pub tight: &'static str,
    /// When it fits.
    pub fits: &'static str,
    /// What the pilot notices when it fails.
    pub costs: &'static str,
}

/// A small craft as text, for tests and help.
#[derive(Debug, Clone, Copy)]
pub struct Example {
    /// Part records of a catalogue file, without the brackets around them.
    pub parts: &'static str,
    /// The rest of a build list: `parts: […]` and what else matters.
    pub build: &'static str,
}

/// A rule.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Id in kebab case, equal to the file's name.
    pub id: &'static str,
    /// Title in the trade's words.
    pub title: &'static str,
    /// Family.
    pub group: Group,
    /// How its findings weigh.
    pub weight: Weight,
    /// The slots that it joins.
    pub slots: &'static [Slot],
    /// The formula, in symbols or words.
    pub formula: &'static str,
    /// Where it comes from.
    pub source: &'static str,
    /// Direction in which it can only get better.
    pub law: Law,
    /// All that it may read.
    pub reads: &'static [Property],
    /// Its form.
    pub form: Form,
    /// Its sentences.
    pub says: Says,
    /// Ways out, from the usual to the last resort.
    pub hints: &'static [&'static str],
    /// A craft that breaks it.
    pub fails: Example,
    /// A craft that keeps it.
    pub passes: Example,
}

impl Rule {
    /// Judges all that it applies to; nothing when it does not apply.
    pub fn check(&self, site: &Site) -> Vec<Outcome> {
        match self.form {
            Form::Table(comparisons) => table::check(comparisons, site),
            Form::Solved(check) => check(site),
        }
    }
}
