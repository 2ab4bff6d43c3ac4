//! The wind of the day is one in which the craft is flown with comfort.
//!
//! Formula: mean wind ≤ 0.3 (ducted) or 0.45 (open) of the tilt-limited speed. Valid for a steady wind with gusts of 1.5 times its
//! mean. Source: common practice, no source. When it fails, the craft is carried off, and comes home late or not at all.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Verdict},
    graph::{Property, Reading, Site, build, derived},
    interval::Interval,
    verdict,
};

const WIND: Property = build("conditions.wind_ms");
const HELD: Property = derived("wind-held");

struct Inputs {
    wind: Reading,
    blows: Interval,
    held: Reading,
    comfortable: Interval,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "wind-comfort",
    title: "Wind of the day",
    group: Group::Flight,
    weight: Weight::Advice,
    slots: &[Slot::Propeller, Slot::Motor, Slot::Battery],
    formula: "mean wind ≤ 0.3 (ducted) or 0.45 (open) of the tilt-limited speed",
    source: "common practice, no source",
    law: Law::LessIsBetter(WIND),
    reads: &[WIND, HELD],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The wind blows with {wind}; this craft is flown with comfort up to {held}",
        fits: "The wind blows with {wind}; this craft is flown with comfort up to {held}",
        costs: "The craft is carried off, and comes home late or not at all.",
    },
    hints: &["Wait for a calmer hour", "Fly upwind first and close by", "Choose a faster craft"],
    fails: Example { parts: five_inch!(), build: five_inch_build!("conditions: (wind_ms: 30), ") },
    passes: Example { parts: five_inch!(), build: five_inch_build!("conditions: (wind_ms: 2), ") },
};

/// Nothing on a day of which the list tells no wind.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let Some((wind, blows)) = site.one(WIND).ok().and_then(|wind| wind.figure().ok().map(|blows| (wind, blows))) else {
        return Vec::new();
    };
    let inputs = |held: Reading| Ok(Inputs { wind: wind.clone(), blows, comfortable: held.figure()?, held });
    site.all(HELD).into_iter().map(inputs).collect()
}

/// Advice never forbids.
fn judge(inputs: &Inputs) -> Verdict {
    verdict::enough(inputs.blows, inputs.comfortable).softened(true)
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("wind", inputs.wind.because.clone()), ("held", inputs.held.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::finding::Status;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{figure, verdicts};

    #[test]
    fn just_passes_just_fails() {
        let least = figure(five_inch!(), five_inch_build!(), "wind-held").decimals()[0];
        let found = |wind: f64| {
            let day = format!("conditions: (wind_ms: {wind:.3}), {}", five_inch_build!());
            verdicts(&RULE, five_inch!(), &day)
        };
        assert_eq!(found(least - 0.01), [Status::Fits]);
        assert_eq!(found(least + 0.01), [Status::Tight]);
    }

    #[test]
    fn calm_or_unsaid() {
        assert_eq!(verdicts(&RULE, five_inch!(), five_inch_build!("conditions: (wind_ms: 0), ")), [Status::Fits]);
        assert_eq!(verdicts(&RULE, five_inch!(), five_inch_build!()), []);
    }

    #[test]
    fn unpublished_is_unstated() {
        let unsaid = five_inch!().replace("pitch_in: 4.3, ", "");
        assert_eq!(verdicts(&RULE, &unsaid, five_inch_build!("conditions: (wind_ms: 3), ")), [Status::Unstated]);
    }
}
