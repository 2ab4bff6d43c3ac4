//! The place lies no higher than the air in which the models were checked.
//!
//! Formula: `h ≤ 4000 m` above the sea. Valid for a place whose altitude the list tells; without one it is the sea's level.
//! Source: common practice, no source. When it fails, thrust, times and range are guesses, and packs and lungs suffer.

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::Missing,
    graph::{Property, Reading, Site, build},
    interval::Interval,
    policy::ALTITUDE_CHECKED,
    verdict,
};

const ALTITUDE: Property = build("conditions.altitude_m");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "place-altitude",
    title: "Altitude of the place",
    group: Group::Flight,
    weight: Weight::Advice,
    slots: &[],
    formula: "h ≤ 4000 m",
    source: "common practice, no source",
    law: Law::LessIsBetter(ALTITUDE),
    reads: &[ALTITUDE],
    form: Form::Solved(|site| {
        run(
            site,
            gather,
            |(_, height)| verdict::at_most(*height, &ALTITUDE_CHECKED, site.policy()),
            |(place, _)| -> Facts { vec![("place", place.because.clone()), ("limit", site.threshold(&ALTITUDE_CHECKED))] },
        )
    }),
    says: Says {
        mismatch: "",
        tight: "The place lies at {place}; above {limit} the figures of this program were not checked",
        fits: "The place lies at {place}, where the figures were checked",
        costs: "The air is too thin to trust thrust and times.",
    },
    hints: &["Take half the minutes and try close by first", "Fly lower"],
    fails: Example { parts: "", build: "conditions: (altitude_m: 4500), parts: []" },
    passes: Example { parts: "", build: "conditions: (altitude_m: 400), parts: []" },
};

/// Nothing for a place of which the list does not tell the altitude: that one lies at the sea.
fn gather(site: &Site) -> Vec<Result<(Reading, Interval), Missing>> {
    site.all(ALTITUDE).into_iter().filter_map(|place| place.figure().ok().map(|height| Ok((place, height)))).collect()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn just_passes_just_fails() {
        assert_eq!(verdicts(&RULE, "", "conditions: (altitude_m: 4000), parts: []"), [Status::Fits]);
        assert_eq!(verdicts(&RULE, "", "conditions: (altitude_m: 4001), parts: []"), [Status::Tight]);
    }

    #[test]
    fn unsaid_is_the_sea() {
        assert_eq!(verdicts(&RULE, "", "parts: []"), []);
    }
}
