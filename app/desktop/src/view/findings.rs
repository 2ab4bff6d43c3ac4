//! What stands in the way, the gravest first.

use std::sync::Arc;

use propwright_engine::{
    Report,
    explain::{self, Pins},
    finding::{Because, Claim, Datum, Finding, Status},
    fit::repair::Fault,
    interval::Interval,
    rules,
};
use propwright_schema::slot::Slot;

use super::asking::{Asking, Guess, asking, guesses};
use crate::widget::{Span, margin_bar::Margin};

/// One finding.
#[derive(Debug, Clone)]
pub struct Card {
    /// The rule and the parts: one of a kind in a report.
    pub key: String,
    /// The rule's id.
    pub rule: &'static str,
    /// By which its ways out are found.
    pub fault: Fault,
    /// How it weighs.
    pub status: Status,
    /// What it is about: "motor holes in the arms".
    pub about: String,
    /// The sentence.
    pub sentence: String,
    /// What the pilot notices; empty where there is nothing to notice.
    pub costs: &'static str,
    /// The comparison, where it is one of figures.
    pub margin: Option<Margin>,
    /// What it rests on.
    pub because: Vec<Arc<Because>>,
    /// Thresholds and estimates of the user's own that it rests on, one line each.
    pub own: Vec<String>,
    /// Ways out, from the usual to the last resort.
    pub hints: Vec<String>,
    /// Two plugs pin by pin, where they do not meet.
    pub pins: Option<Pins>,
    /// Where the rule comes from.
    pub source: &'static str,
    /// The slots of the parts, the one in the way first; or the slots that are empty.
    pub slots: Vec<Slot>,
    /// Is it about slots that are empty?
    pub vacant: bool,
}

/// All findings.
#[derive(Debug, Clone, Default)]
pub struct Findings {
    /// Those that do not plainly fit, the gravest first; what waits for a figure stands in the questions.
    pub open: Vec<Card>,
    /// What nobody stated, each figure once, the one for which most wait first.
    pub questions: Vec<Asking>,
    /// What the user estimated of it.
    pub guesses: Vec<Guess>,
    /// Those that fit.
    pub fitting: Vec<Card>,
    /// Advice on purpose, pilot and place.
    pub advice: Vec<Card>,
    /// Cautions about law, transport and hazards.
    pub cautions: Vec<Card>,
    /// How many mismatch, are still to be chosen, are tight, are unstated.
    pub counts: [usize; 4],
}

/// The findings of a report.
pub fn findings(report: &Report) -> Findings {
    let cards = |findings: &[Finding]| findings.iter().map(card).collect::<Vec<_>>();
    let questions = asking(report);
    let asks = |at: &usize| questions.iter().any(|question| question.waiting.iter().any(|waits| waits.at == *at));
    let told = report.findings.iter().enumerate().filter(|(at, _)| !asks(at)).map(|(_, finding)| card(finding));
    let mut open = together(told.collect());
    open.sort_by_key(|card| Status::GRAVEST_FIRST.iter().position(|status| *status == card.status));
    let fits = open.iter().position(|card| card.status == Status::Fits).unwrap_or(open.len());
    let fitting = open.split_off(fits);
    let counts = open_counts(report);
    let guesses = guesses(report);
    Findings { open, questions, guesses, fitting, advice: cards(&report.advice), cautions: cards(&report.cautions), counts }
}

/// What [`open_counts`] counts, of one and of several.
pub(super) const OPEN_WORDS: [[&str; 2]; 4] =
    [["mismatch", "mismatches"], ["to choose", "to choose"], ["tight", "tight"], ["unstated", "unstated"]];

/// How many findings mismatch, want a slot filled, are tight, are unstated.
pub(super) fn open_counts(report: &Report) -> [usize; 4] {
    let [mismatch, tight, unstated] =
        [Status::Mismatch, Status::Tight, Status::Unstated].map(|status| report.count_chosen(status));
    [mismatch, report.to_choose(), tight, unstated]
}

/// Cards about empty slots become one, which weighs as the gravest of them.
fn together(cards: Vec<Card>) -> Vec<Card> {
    let mut merged: Vec<Card> = Vec::new();
    for card in cards {
        match merged.iter_mut().find(|known| card.vacant && known.vacant) {
            None => merged.push(card),
            Some(known) => {
                known.slots.extend(card.slots);
                known.status = known.status.max(card.status);
                known.sentence = format!("{} parts are still to be chosen.", known.slots.len());
                known.because.clear();
            }
        }
    }
    merged
}

pub(super) fn card(finding: &Finding) -> Card {
    let rule = rules::by_id(finding.rule);
    let outcome = &finding.outcome;
    let subjects = outcome.subjects.iter().map(propwright_engine::craft::Subject::slot_text);
    Card {
        key: std::iter::once(finding.rule.to_owned()).chain(subjects).collect::<Vec<_>>().join(" "),
        rule: finding.rule,
        fault: Fault::of(finding),
        status: finding.status(),
        about: rule.map_or_else(String::new, |rule| lower_first(rule.title)),
        sentence: explain::message(finding),
        costs: explain::cost(finding).unwrap_or_default(),
        margin: margin(finding),
        // What is missing is what the sentence says already.
        because: outcome.facts.iter().map(|(_, step)| step).filter(|step| !is_missing(step)).cloned().collect(),
        own: explain::own_thresholds(finding).into_iter().chain(explain::estimated::own(finding)).collect(),
        hints: explain::hints(finding),
        pins: explain::pins(finding).filter(|_| finding.status() != Status::Fits),
        source: rule.map_or("", |rule| rule.source),
        slots: finding.vacant().map_or_else(|| slots(finding), |slot| vec![slot]),
        vacant: finding.vacant().is_some(),
    }
}

fn is_missing(step: &Because) -> bool {
    matches!(step.claim, Claim::Missing(_))
}

/// The slots of the parts, each once, the one in the way first.
fn slots(finding: &Finding) -> Vec<Slot> {
    let mut slots: Vec<Slot> = Vec::new();
    for subject in &finding.outcome.subjects {
        if !slots.contains(&subject.slot) {
            slots.push(subject.slot);
        }
    }
    slots
}

/// A title within a sentence: "tight · motor holes", "change GPS"; abbreviations keep their capitals.
pub fn lower_first(title: &str) -> String {
    let mut letters = title.chars();
    match (letters.next(), letters.clone().next()) {
        (Some(first), Some(second)) if second.is_lowercase() => first.to_lowercase().chain(letters).collect(),
        _ => title.to_owned(),
    }
}

/// Only figures of one dimension lie on one scale; counts need no bar.
fn margin(finding: &Finding) -> Option<Margin> {
    let verdict = &finding.outcome.verdict;
    let figure = |datum: &Option<Datum>| datum.as_ref().and_then(Datum::figure);
    let (required, available) = (figure(&verdict.required)?, figure(&verdict.available)?);
    let dimension = required.unit.dimension;
    (dimension == available.unit.dimension && dimension != "count").then(|| Margin {
        required: span(&required),
        available: span(&available),
        status: verdict.status,
        required_words: format!("{} asked", explain::figure(&required)),
        available_words: format!("{} there", explain::figure(&available)),
    })
}

/// A figure in SI units, so that both sides of a comparison are in the same.
pub(super) fn span(interval: &Interval) -> Span {
    let si = |steps: i64| steps as f64 * interval.unit.si_per_step;
    Span { low: si(interval.low), nominal: si(interval.nominal), high: si(interval.high) }
}

/// One step of a reason, as a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reason {
    /// What it claims.
    pub text: String,
    /// How it was computed and where that comes from, for those who open it; empty where nothing was computed.
    pub working: String,
}

/// The line of a step; those below it are asked for when it is opened.
pub fn reason(step: &Because) -> Reason {
    let text = explain::headline(step);
    let source = explain::source(step).filter(|source| !source.is_empty() && !text.contains(source));
    let said = [explain::formula_with_numbers(step), source.map(str::to_owned)];
    Reason { text, working: said.into_iter().flatten().collect::<Vec<_>>().join(" · ") }
}
