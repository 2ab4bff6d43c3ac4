//! Full throttle lifts as many times the weight as the use of the craft asks for.
//!
//! Formula: `n·T_full·η_inst/(m·g)` on the half-charged, sagging pack, in the air of the place, payload on. Valid for level air;
//! the thresholds go by use. Source of the thresholds: common practice, no source. When it fails, the craft does not catch
//! itself out of a dive.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Verdict},
    graph::{Property, Reading, Site, build, derived},
    interval::Interval,
    policy::{self, Limit, Policy},
    verdict,
};

const RATIO: Property = derived("thrust-to-weight");
const USE: Property = build("purpose.usage");

struct Inputs {
    ratio: Reading,
    figure: Interval,
    usage: Reading,
    limit: Limit,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "thrust-to-weight",
    title: "Thrust to weight",
    group: Group::Flight,
    weight: Weight::Finding,
    slots: &[Slot::Motor, Slot::Propeller, Slot::Battery],
    formula: "n·T_full·η_inst/(m·g), half-charged pack",
    source: "common practice, no source",
    law: Law::MoreIsBetter(RATIO),
    reads: &[RATIO, USE],
    form: Form::Solved(|site| run(site, gather, |inputs| judge(inputs, site.policy()), |inputs| facts(inputs, site))),
    says: Says {
        mismatch: "These motors lift {ratio} times the weight at full throttle; {usage} asks for {limit}",
        tight: "These motors lift {ratio} times the weight at full throttle; that is little for {usage}",
        fits: "Full throttle lifts {ratio} times the weight",
        costs: "The craft does not catch itself out of a dive or hold against wind.",
    },
    hints: &["Choose a lighter pack", "Choose a propeller with more pitch", "Choose a motor with more KV", "Leave payload off"],
    fails: Example { parts: five_inch!(), build: five_inch_build!("purpose: (usage: Freestyle, payload_g: 2000), ") },
    passes: Example { parts: five_inch!(), build: five_inch_build!("purpose: (usage: Freestyle), ") },
};

/// The threshold of a use.
pub(crate) fn limit_of(usage: &str) -> Limit {
    match usage {
        "ducted micro" => policy::THRUST_DUCTED_MICRO,
        "ducted camera craft" => policy::THRUST_DUCTED_CAMERA,
        "speed" => policy::THRUST_SPEED,
        "lifter" => policy::THRUST_LIFTER,
        "long range" => policy::THRUST_LONG_RANGE,
        _ => policy::THRUST_FREESTYLE,
    }
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let usage = site.one(USE);
    let inputs = |ratio: Reading| {
        let (figure, usage) = (ratio.figure()?, usage.clone()?);
        let limit = limit_of(usage.word()?);
        Ok(Inputs { ratio, figure, usage, limit })
    };
    site.all(RATIO).into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs, policy: &Policy) -> Verdict {
    verdict::at_least(inputs.figure, &inputs.limit, policy)
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    let limit = site.threshold(&inputs.limit);
    vec![("ratio", inputs.ratio.because.clone()), ("usage", inputs.usage.because.clone()), ("limit", limit)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Status;
    use crate::interval::RATIO as THOUSANDTHS;
    use crate::rules::trial::{readings, verdicts};

    #[test]
    fn just_passes_just_fails() {
        // The trade's thresholds, common practice, no source: tight below the one, a mismatch below the other.
        let uses = [
            ("ducted micro", 2300, 1800),
            ("ducted camera craft", 3000, 2200),
            ("freestyle", 5000, 4000),
            ("speed", 8000, 6000),
            ("lifter", 2200, 1800),
            ("long range", 2500, 1800),
        ];
        let reading = readings(five_inch!(), five_inch_build!(), RATIO.field).remove(0);
        for (usage, tight, mismatch) in uses {
            let found = |ratio: i64| {
                let figure = Interval::exact(ratio, &THOUSANDTHS);
                let (ratio, usage) = ((reading.clone(), reading.clone()), limit_of(usage));
                judge(&Inputs { ratio: ratio.0, figure, usage: ratio.1, limit: usage }, &Policy::default()).status
            };
            assert_eq!(found(tight), Status::Fits, "{usage}");
            assert_eq!(found(tight - 1), Status::Tight, "{usage}");
            assert_eq!(found(mismatch), Status::Tight, "{usage}");
            assert_eq!(found(mismatch - 1), Status::Mismatch, "{usage}");
        }
    }

    #[test]
    fn without_a_use_it_is_unstated() {
        assert_eq!(verdicts(&RULE, five_inch!(), five_inch_build!()), [Status::Unstated]);
    }
}
