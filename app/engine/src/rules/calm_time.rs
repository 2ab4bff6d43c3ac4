//! The craft flies calmly for as many minutes as its purpose asks for.
//!
//! Formula: 3600·C·∫ds/I(s) at 1.15 × hover power (ducted micro 1.3) ≥ asked minutes. Valid for the stated mix. Source: common
//! practice, no source. When it fails, one lands earlier than planned.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Verdict},
    graph::{Property, Reading, Site, build, derived},
    interval::Interval,
    verdict,
};

const TIME: Property = derived("time-calm");
const ASKED: Property = build("purpose.calm_min");

struct Inputs {
    time: Reading,
    flies: Interval,
    asked: Reading,
    minutes: Interval,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "calm-time",
    title: "Minutes of calm flight",
    group: Group::Flight,
    weight: Weight::Advice,
    slots: &[Slot::Battery, Slot::Motor, Slot::Propeller],
    formula: "time of calm flight ≥ minutes asked",
    source: "stated mix: common practice, no source",
    law: Law::MoreIsBetter(TIME),
    reads: &[TIME, ASKED],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The purpose asks for {asked} of calm flight; do not count on it, this craft flies {time}",
        fits: "Calm flight lasts {time}; {asked} are asked",
        costs: "One lands earlier than planned.",
    },
    hints: &["Choose a pack with more capacity", "Choose a larger propeller", "Plan more packs"],
    fails: Example { parts: five_inch!(), build: five_inch_build!("purpose: (calm_min: 60), ") },
    passes: Example { parts: five_inch!(), build: five_inch_build!("purpose: (calm_min: 2), ") },
};

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let Some((asked, minutes)) = site.one(ASKED).ok().and_then(|asked| asked.figure().ok().map(|minutes| (asked, minutes)))
    else {
        return Vec::new();
    };
    let inputs = |time: Reading| Ok(Inputs { flies: time.figure()?, time, asked: asked.clone(), minutes });
    site.all(TIME).into_iter().map(inputs).collect()
}

/// Advice never forbids.
fn judge(inputs: &Inputs) -> Verdict {
    verdict::enough(inputs.minutes, inputs.flies).softened(true)
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("time", inputs.time.because.clone()), ("asked", inputs.asked.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::finding::Status;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{figure, verdicts};

    #[test]
    fn just_passes_just_fails() {
        let band = figure(five_inch!(), five_inch_build!(), "time-calm");
        let found = |steps: i64| {
            let asked = format!("purpose: (calm_min: {}), {}", steps as f64 / 60_000.0, five_inch_build!());
            verdicts(&RULE, five_inch!(), &asked)
        };
        assert_eq!(found(band.low), [Status::Fits]);
        assert_eq!(found(band.low + 1), [Status::Tight]);
        assert_eq!(found(band.high + 1), [Status::Tight], "advice never forbids");
    }

    #[test]
    fn nothing_asked_nothing_judged() {
        assert_eq!(verdicts(&RULE, five_inch!(), five_inch_build!()), []);
    }

    #[test]
    fn without_a_capacity_it_is_unstated() {
        let unsaid = five_inch!().replace(", capacity_mah: 1300", "");
        assert_eq!(verdicts(&RULE, &unsaid, five_inch_build!("purpose: (calm_min: 2), ")), [Status::Unstated]);
    }
}
