//! A newcomer has fifteen hours in a simulator before the first flight.
//!
//! Formula: `newcomer ⇒ simulator hours ≥ 15`. Valid: any craft. Source: common practice, no source. Who skips it breaks the
//! first craft in its first minutes.

use std::sync::Arc;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Missing, Status, Verdict},
    graph::{Property, Reading, Site, build, derived},
    policy::SIMULATOR,
    verdict,
};

const NEWCOMER: Property = derived("newcomer");
const HOURS: Property = build("pilot.simulator_h");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "simulator-first",
    title: "Simulator first",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[],
    formula: "newcomer ⇒ simulator hours ≥ 15",
    source: "common practice, no source",
    law: Law::MoreIsBetter(HOURS),
    reads: &[NEWCOMER, HOURS],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "A newcomer with {hours} in a simulator: {limit} are usual before the first flight",
        fits: "Hours in a simulator are enough for a first flight",
        costs: "The first craft breaks in its first minutes.",
    },
    hints: &["Fly a simulator with the radio that you will use; it costs no parts"],
    fails: Example { parts: "", build: "pilot: (flown_h: 0, simulator_h: 14.9), parts: []" },
    passes: Example { parts: "", build: "pilot: (flown_h: 0, simulator_h: 15), parts: []" },
};

struct Inputs {
    newcomer: bool,
    hours: Reading,
    verdict: Verdict,
    limit: Arc<Because>,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    vec![read(site)]
}

fn read(site: &Site) -> Result<Inputs, Missing> {
    let hours = site.one(HOURS)?;
    let newcomer = site.one(NEWCOMER)?.flag()?;
    let verdict = verdict::at_least(hours.figure()?, &SIMULATOR, site.policy());
    Ok(Inputs { newcomer, hours, verdict, limit: site.threshold(&SIMULATOR) })
}

fn judge(inputs: &Inputs) -> Verdict {
    if inputs.newcomer { inputs.verdict.clone() } else { Verdict::plain(Status::Fits) }
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("hours", inputs.hours.because.clone()), ("limit", inputs.limit.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn nobody_said() {
        let (parts, build) = ("", "parts: []");
        assert_eq!(verdicts(&RULE, parts, build), [Status::Unstated]);
    }

    #[test]
    fn an_old_hand_needs_none() {
        let (parts, build) = ("", "pilot: (flown_h: 10, simulator_h: 0), parts: []");
        assert_eq!(verdicts(&RULE, parts, build), [Status::Fits]);
    }
}
