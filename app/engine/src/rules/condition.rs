//! What holds only under a condition of pilot, purpose, place or part, in one place: while the condition does not hold,
//! nothing more is asked.

use std::sync::Arc;

use super::{Facts, run};
use crate::{
    finding::{Because, Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site},
    policy::Limit,
    verdict,
};

/// What is asked while the condition holds. What is not met warns.
pub(super) enum Demand {
    /// A figure of at most a threshold.
    AtMost(Property, Limit),
    /// A figure of at least a threshold.
    AtLeast(Property, Limit),
    /// Another word than this one.
    Not(Property, &'static str),
    /// A flag that is set.
    Set(Property),
    /// A part in the slot of which this is the id.
    Fitted(Property),
}

struct Inputs {
    when: Reading,
    figure: Option<Reading>,
    limit: Option<Arc<Because>>,
    verdict: Verdict,
}

/// Judges a demand while a condition holds: a flag that is set, or a slot that is filled when `when` is the id of its part.
///
/// The facts are `when`, `figure` and, for figures, `limit`.
pub(super) fn under(site: &Site, when: Property, demand: &Demand) -> Vec<Outcome> {
    run(site, |site| gather(site, when, demand), |inputs| inputs.verdict.clone(), facts)
}

fn gather(site: &Site, when: Property, demand: &Demand) -> Vec<Result<Inputs, Missing>> {
    let condition = site.one(when).and_then(|when| holds(&when).map(|holds| (when, holds)));
    match condition {
        Err(missing) => vec![Err(missing)],
        Ok((when, false)) => vec![Ok(Inputs { when, figure: None, limit: None, verdict: Verdict::plain(Status::Fits) })],
        Ok((when, true)) => asked(site, &when, demand),
    }
}

/// A flag says so itself; the id of a part says that there is one.
fn holds(when: &Reading) -> Result<bool, Missing> {
    when.value()?;
    Ok(when.flag().unwrap_or(true))
}

/// What a figure comes to, with the limit that decided.
type Judged = Result<(Verdict, Option<Limit>), Missing>;

fn asked(site: &Site, when: &Reading, demand: &Demand) -> Vec<Result<Inputs, Missing>> {
    let inputs = |figure: Option<Reading>, limit: Option<&Limit>, verdict: Verdict| Inputs {
        when: when.clone(),
        figure,
        limit: limit.map(|limit| site.threshold(limit)),
        verdict,
    };
    let met = |met: bool| Verdict::plain(if met { Status::Fits } else { Status::Tight });
    let each = |property: Property, judge: &dyn Fn(&Reading) -> Judged| {
        let judged = |figure: Reading| judge(&figure).map(|(verdict, limit)| inputs(Some(figure), limit.as_ref(), verdict));
        site.all(property).into_iter().map(judged).collect()
    };
    match demand {
        Demand::Fitted(id) => vec![Ok(inputs(None, None, met(!site.all(*id).is_empty())))],
        Demand::Set(flag) => each(*flag, &|reading| Ok((met(reading.flag()?), None))),
        Demand::Not(word, unwanted) => each(*word, &|reading| Ok((met(reading.word()? != *unwanted), None))),
        Demand::AtMost(figure, limit) => {
            each(*figure, &|reading| Ok((verdict::at_most(reading.figure()?, limit, site.policy()), Some(*limit))))
        }
        Demand::AtLeast(figure, limit) => {
            each(*figure, &|reading| Ok((verdict::at_least(reading.figure()?, limit, site.policy()), Some(*limit))))
        }
    }
}

fn facts(inputs: &Inputs) -> Facts {
    let mut facts: Facts = inputs.figure.iter().map(|figure| ("figure", figure.because.clone())).collect();
    let slot = |reading: &Reading| reading.subject.as_ref().map(|subject| subject.slot);
    // That there is such a part is no reason beside what the part says itself.
    if inputs.figure.as_ref().is_none_or(|figure| slot(figure).is_none() || slot(figure) != slot(&inputs.when)) {
        facts.push(("when", inputs.when.because.clone()));
    }
    facts.extend(inputs.limit.iter().map(|limit| ("limit", limit.clone())));
    facts
}
