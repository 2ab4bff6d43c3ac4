//! The way home against the wind leaves most of the flight to be flown out.
//!
//! Formula: w ≤ 0.5·V of the way home; at half, home takes three times as long as out, `(V + w)/(V − w)`. One turns when
//! `(V − w)/(2V)` of the flight is over. Valid for a steady wind along the way, out with it and back against it. Source: kinematics;
//! the share is common practice, no source. When it fails, a pilot who turns at half the charge lands on the way.

use std::sync::Arc;

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Missing, Verdict},
    graph::{Property, Reading, Site, build, derived},
    policy::TURN_BACK_WIND,
    verdict,
};

const WIND: Property = build("conditions.wind_ms");
const SPEED: Property = derived("home-speed");
const CHARGE: Property = derived("turn-back-charge");
const CELL: Property = derived("turn-back-cell");

struct Inputs {
    wind: Reading,
    speed: Reading,
    charge: Reading,
    cell: Reading,
    verdict: Verdict,
    share: Arc<Because>,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "turn-back",
    title: "Turn-back line",
    group: Group::Flight,
    weight: Weight::Advice,
    slots: &[Slot::Propeller, Slot::Motor, Slot::Battery],
    formula: "w ≤ 0.5·V of the way home; turn when (V − w)/(2V) of the flight is over",
    source: "kinematics; share: common practice, no source",
    law: Law::LessIsBetter(WIND),
    reads: &[WIND, SPEED, CHARGE, CELL],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "Against {wind} the way home takes far longer than the way out: turn at {charge} used or {cell} a cell, at the latest",
        fits: "Against {wind} turn for home at {charge} used or {cell} a cell, at the latest",
        costs: "A pilot who turns at half the charge lands on the way.",
    },
    hints: &["Fly out against the wind and home with it", "Set a warning at the turn-back line", "Wait for a calmer hour"],
    fails: Example { parts: five_inch!(), build: five_inch_build!("conditions: (wind_ms: 29), ") },
    passes: Example { parts: five_inch!(), build: five_inch_build!("conditions: (wind_ms: 3), ") },
};

/// Nothing on a day of which the list tells no wind.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let Some(wind) = site.one(WIND).ok().filter(|wind| wind.figure().is_ok()) else { return Vec::new() };
    let inputs = |speed: Reading| {
        let verdict = verdict::within_share(wind.figure()?, speed.figure()?, &TURN_BACK_WIND, site.policy());
        let (charge, cell) = (site.one(CHARGE)?, site.one(CELL)?);
        Ok(Inputs { wind: wind.clone(), speed, charge, cell, verdict, share: site.threshold(&TURN_BACK_WIND) })
    };
    site.all(SPEED).into_iter().map(inputs).collect()
}

/// Advice never forbids.
fn judge(inputs: &Inputs) -> Verdict {
    inputs.verdict.clone()
}

fn facts(inputs: &Inputs) -> Facts {
    let because = |reading: &Reading| reading.because.clone();
    vec![
        ("wind", because(&inputs.wind)),
        ("speed", because(&inputs.speed)),
        ("charge", because(&inputs.charge)),
        ("cell", because(&inputs.cell)),
        ("share", inputs.share.clone()),
    ]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::finding::Status;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{figure, verdicts};

    #[test]
    fn just_passes_just_fails() {
        let day = |wind: f64| format!("conditions: (wind_ms: {wind:.3}), {}", five_inch_build!());
        let speed = |wind: f64| figure(five_inch!(), &day(wind), "home-speed").decimals()[1];
        // The best speed home grows with the wind: the wind at which it is twice the wind is found by halving.
        let (mut calm, mut storm) = (1.0, 40.0);
        for _ in 0..30 {
            let wind = f64::midpoint(calm, storm);
            if speed(wind) > 2.0 * wind { calm = wind } else { storm = wind }
        }
        assert_eq!(verdicts(&RULE, five_inch!(), &day(calm * 0.99)), [Status::Fits], "{calm}");
        assert_eq!(verdicts(&RULE, five_inch!(), &day(calm * 1.01)), [Status::Tight], "{calm}");
    }

    #[test]
    fn unsaid_is_not_judged() {
        assert_eq!(verdicts(&RULE, five_inch!(), five_inch_build!()), []);
    }

    #[test]
    fn without_a_pitch_it_is_unstated() {
        let unsaid = five_inch!().replace("pitch_in: 4.3, ", "");
        assert_eq!(verdicts(&RULE, &unsaid, five_inch_build!("conditions: (wind_ms: 3), ")), [Status::Unstated]);
    }
}
