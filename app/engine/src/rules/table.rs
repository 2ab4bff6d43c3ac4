//! The checker of rules that are tables of comparisons.

use super::rule::{Comparison, Operand, Operator};
use crate::{
    craft::Subject,
    finding::{Because, Claim, Datum, Missing, Outcome, Status, Unknown, Verdict},
    graph::{Property, Reading, Site},
    interval::Interval,
    verdict,
};
use propwright_schema::value::Value;

/// Judges each comparison for each part that has its left property.
pub(crate) fn check(comparisons: &[Comparison], site: &Site) -> Vec<Outcome> {
    comparisons.iter().flat_map(|comparison| check_one(comparison, site)).collect()
}

fn check_one(comparison: &Comparison, site: &Site) -> Vec<Outcome> {
    let left = site.all(comparison.left);
    match comparison.right {
        Operand::Limit(limit) => left.iter().map(|reading| against_limit(comparison, reading, &limit, site)).collect(),
        Operand::Property(right) if comparison.is == Operator::SumAtMost => sums(&left, &site.all(right)),
        Operand::Property(right) => {
            let all = site.all(right);
            left.iter()
                .flat_map(|reading| {
                    partners(comparison.left, right, reading, &all).map(|other| pair(comparison, reading, other, site))
                })
                .collect()
        }
    }
}

/// Readings of one slot are compared part by part, readings of two slots each with each.
fn partners<'a>(left: Property, right: Property, reading: &'a Reading, all: &'a [Reading]) -> impl Iterator<Item = &'a Reading> {
    let same_slot = left.slot().is_some() && left.slot() == right.slot();
    let index = reading.subject.as_ref().map(|subject| subject.index);
    all.iter().filter(move |other| !same_slot || other.subject.as_ref().map(|subject| subject.index) == index)
}

fn outcome(left: &Reading, right: Option<&Reading>, judged: Result<Verdict, Missing>) -> Outcome {
    let mut subjects = left.subjects();
    // Two figures of one part are about that part once.
    let same = |one: &Subject, other: &Subject| one.slot == other.slot && one.index == other.index;
    let others = right.into_iter().flat_map(Reading::subjects).filter(|other| !left.subject.iter().any(|one| same(one, other)));
    subjects.extend(others.collect::<Vec<_>>());
    let mut facts = vec![("left", left.because.clone())];
    facts.extend(right.map(|reading| ("right", reading.because.clone())));
    match judged {
        Ok(verdict) => Outcome { subjects, verdict, facts },
        Err(missing) => {
            facts.insert(0, ("missing", Because::plain(Claim::Missing(missing))));
            Outcome { subjects, verdict: Verdict::plain(Status::Unstated), facts }
        }
    }
}

fn against_limit(comparison: &Comparison, reading: &Reading, limit: &crate::policy::Limit, site: &Site) -> Outcome {
    let judged = reading.figure().map(|figure| match comparison.is {
        Operator::AtLeast => verdict::at_least(figure, limit, site.policy()),
        _ => verdict::at_most(figure, limit, site.policy()),
    });
    let mut outcome = outcome(reading, None, judged);
    outcome.facts.push(("right", site.threshold(limit)));
    outcome
}

fn pair(comparison: &Comparison, left: &Reading, right: &Reading, site: &Site) -> Outcome {
    let (judged, limit) = match comparison.is {
        Operator::Equals | Operator::OneOf | Operator::Shares => (words(comparison.is, left, right), right),
        Operator::AtLeast => (figures(comparison, right, left, site), left),
        Operator::AtMost | Operator::SumAtMost => (figures(comparison, left, right, site), right),
    };
    let mut outcome = outcome(left, Some(right), judged.map(|verdict| verdict.softened(limit.is_estimated())));
    outcome.facts.extend(comparison.tight.iter().map(|share| ("limit", site.threshold(share))));
    outcome
}

fn figures(comparison: &Comparison, required: &Reading, available: &Reading, site: &Site) -> Result<Verdict, Missing> {
    let (required, available) = (required.figure()?, available.figure()?);
    Ok(match &comparison.tight {
        Some(limit) => verdict::within_share(required, available, limit, site.policy()),
        None => verdict::enough(required, available),
    })
}

fn words(is: Operator, left: &Reading, right: &Reading) -> Result<Verdict, Missing> {
    let (one, other) = (left.value()?, right.value()?);
    let holds = match is {
        Operator::Equals => one == other,
        Operator::OneOf => other.items().contains(one),
        _ => one.items().iter().any(|item| other.items().contains(item)),
    };
    // A list that names nothing is no list of what fits.
    if other.items().is_empty() && !matches!(is, Operator::Equals) {
        return Ok(Verdict::of_words(Status::Mismatch, Datum::Value(one.clone()), Datum::Value(Value::List(Vec::new()))));
    }
    let status = if holds { Status::Fits } else { Status::Mismatch };
    Ok(Verdict::of_words(status, Datum::Value(one.clone()), Datum::Value(other.clone())))
}

/// Sum of all left figures against the sum of all right ones; nothing when either slot is empty.
fn sums(left: &[Reading], right: &[Reading]) -> Vec<Outcome> {
    let (Some(first), Some(offers)) = (left.first(), right.first()) else { return Vec::new() };
    let judged = total(left).and_then(|asked| Ok(verdict::enough(asked, total(right)?)));
    vec![outcome(first, Some(offers), judged)]
}

fn total(readings: &[Reading]) -> Result<Interval, Missing> {
    let mut sum: Option<Interval> = None;
    for reading in readings {
        let figure = reading.figure()?;
        let count = i64::from(reading.count);
        let before = sum.unwrap_or(Interval::exact(0, figure.unit));
        let add = |one: i64, other: i64| one.saturating_add(other.saturating_mul(count));
        sum = Some(Interval {
            low: add(before.low, figure.low),
            nominal: add(before.nominal, figure.nominal),
            high: add(before.high, figure.high),
            unit: figure.unit,
        });
    }
    sum.ok_or(Missing { subject: None, what: Unknown::Outside("nothing to add".to_owned()) })
}
