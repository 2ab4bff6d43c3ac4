//! A heavy lifter is no first craft.
//!
//! Formula: `newcomer ⇒ use ≠ lifter`. Valid: any craft. Source: common practice, no source. Kilograms and large propellers
//! leave no room for a slip.

use propwright_schema::build_list::Use;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, build, derived},
};

const NEWCOMER: Property = derived("newcomer");
const USE: Property = build("purpose.usage");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "first-craft-lifter",
    title: "No lifter to begin with",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[],
    formula: "newcomer ⇒ use ≠ lifter",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[NEWCOMER, USE],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "A heavy lifter is no first craft: its mass and propellers leave no room for a slip",
        fits: "The use suits the pilot",
        costs: "A slip with kilograms and large propellers injures people.",
    },
    hints: &["Learn on a ducted craft, then fly a lifter beside somebody who does"],
    fails: Example { parts: "", build: "purpose: (usage: Lifter), pilot: (flown_h: 0, simulator_h: 20), parts: []" },
    passes: Example { parts: "", build: "purpose: (usage: DuctedMicro), pilot: (flown_h: 0, simulator_h: 20), parts: []" },
};

struct Inputs {
    newcomer: bool,
    usage: Reading,
    lifter: bool,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    vec![read(site)]
}

fn read(site: &Site) -> Result<Inputs, Missing> {
    let usage = site.one(USE)?;
    let newcomer = site.one(NEWCOMER)?.flag()?;
    let lifter = usage.word()? == Use::Lifter.word();
    Ok(Inputs { newcomer, usage, lifter })
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.newcomer && inputs.lifter { Status::Tight } else { Status::Fits })
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("use", inputs.usage.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn nobody_said() {
        let (parts, build) = ("", "pilot: (flown_h: 0, simulator_h: 20), parts: []");
        assert_eq!(verdicts(&RULE, parts, build), [Status::Unstated]);
    }
}
