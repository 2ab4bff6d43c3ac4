//! The craft makes headway in the gusts of the day.
//!
//! Formula: `1.5 · v_mean ≤ v_tilt`, `v_tilt` in m/s at the usual tilt limit. Valid near the ground. Source: common practice, no
//! source. When it fails, a gust carries the craft off.

use propwright_schema::{
    quantity::{MPerS, Unit},
    slot::Slot,
};

use super::five_inch::{five_inch, five_inch_build};
use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::Missing,
    graph::{Property, Reading, Site, build, derived},
    interval::Interval,
    policy::GUSTS,
    verdict,
};

const WIND: Property = build("conditions.wind_ms");
const SPEED: Property = derived("tilt-limited-speed");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "wind-gusts",
    title: "Gusts of the day",
    group: Group::Flight,
    weight: Weight::Advice,
    slots: &[Slot::Propeller, Slot::Motor, Slot::Battery],
    formula: "1.5 × mean wind ≤ tilt-limited speed",
    source: "common practice, no source",
    law: Law::LessIsBetter(WIND),
    reads: &[WIND, SPEED],
    form: Form::Solved(|site| {
        run(site, gather, |inputs| verdict::enough(inputs.gust, inputs.held).softened(true), |inputs| facts(inputs, site))
    }),
    says: Says {
        mismatch: "",
        tight: "With a mean wind of {wind} gusts reach {required}; at the usual tilt the craft makes {speed}",
        fits: "Gusts of {required} stay below what the craft makes at the usual tilt",
        costs: "A gust carries it off, and it does not come back against it.",
    },
    hints: &["Wait for a calmer hour", "Stay low and upwind"],
    fails: Example { parts: five_inch!(), build: five_inch_build!("output_limit_percent: 40, conditions: (wind_ms: 30), ") },
    passes: Example { parts: five_inch!(), build: five_inch_build!("conditions: (wind_ms: 4), ") },
};

struct Inputs {
    wind: Reading,
    speed: Reading,
    gust: Interval,
    held: Interval,
}

/// Nothing on a day of which the list tells no wind.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let Some((wind, mean)) = site.one(WIND).ok().and_then(|wind| wind.figure().ok().map(|mean| (wind, mean))) else {
        return Vec::new();
    };
    let share = site.policy().tight(&GUSTS).map_or(1.0, |share| share.si());
    let inputs = |speed: Reading| {
        let made = speed.figure()?;
        let [low, nominal, high] = [made.low, made.nominal, made.high].map(|steps| steps as f64 * made.unit.si_per_step);
        let held = Interval::outward(low, nominal, high, &MPerS::INFO);
        Ok(Inputs { wind: wind.clone(), speed, gust: mean.times(share), held })
    };
    site.all(SPEED).into_iter().map(inputs).collect()
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    vec![("wind", inputs.wind.because.clone()), ("speed", inputs.speed.because.clone()), ("limit", site.threshold(&GUSTS))]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{
        finding::Status,
        rules::five_inch::{five_inch, five_inch_build},
        rules::trial::{figure, verdicts},
    };

    #[test]
    fn just_passes_just_fails() {
        let least = figure(five_inch!(), five_inch_build!(), "tilt-limited-speed").decimals()[0] / 3.6 / 1.5;
        let found =
            |wind: f64| verdicts(&RULE, five_inch!(), &format!("conditions: (wind_ms: {wind:.3}), {}", five_inch_build!()));
        assert_eq!(found(least - 0.02), [Status::Fits]);
        assert_eq!(found(least + 0.02), [Status::Tight]);
        assert_eq!(verdicts(&RULE, five_inch!(), five_inch_build!()), []);
    }

    #[test]
    fn unpublished_is_unstated() {
        let unsaid = five_inch!().replace("pitch_in: 4.3, ", "");
        assert_eq!(verdicts(&RULE, &unsaid, five_inch_build!("conditions: (wind_ms: 3), ")), [Status::Unstated]);
    }
}
