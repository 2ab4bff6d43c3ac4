//! The flights' mixes in force: those of the build's conditions, else those of the policy.

use propwright_schema::quantity::{Pct, Unit};

use super::{
    Derivation,
    flyer::{self, is_micro},
    gather::Gather,
};
use crate::{
    finding::Datum,
    graph::{Derived, Property, Site, build, derived},
    interval::Interval,
    models::mix::Mix,
    policy::{Limit, MIX_BETWEEN, MIX_CALM, MIX_CALM_MICRO, MIX_HARD, MIX_HARD_MICRO},
};

const CALM_SAID: Property = build("conditions.calm_power_percent");
const FULL_SAID: Property = build("conditions.hard_full_percent");
const REST_SAID: Property = build("conditions.hard_power_percent");

/// Power of calm flight.
pub(crate) const CALM: Derivation = Derivation {
    id: "mix-calm",
    title: "power of calm flight, of that in hover",
    formula: "as the conditions say, else the usual mix",
    source: "common practice, no source",
    reads: &[CALM_SAID, flyer::USE],
    run: |site| share(site, CALM_SAID, [MIX_CALM, MIX_CALM_MICRO]),
};

/// Share of hard flight at full throttle.
pub(crate) const HARD_FULL: Derivation = Derivation {
    id: "mix-hard-full",
    title: "share of hard flight at full throttle",
    formula: "as the conditions say, else the usual mix",
    source: "common practice, no source",
    reads: &[FULL_SAID, flyer::USE],
    run: |site| share(site, FULL_SAID, [MIX_HARD, MIX_HARD_MICRO]),
};

/// Power of the rest of hard flight.
pub(crate) const HARD_REST: Derivation = Derivation {
    id: "mix-hard-rest",
    title: "power of the rest of hard flight, of that in hover",
    formula: "as the conditions say, else the usual mix",
    source: "common practice, no source",
    reads: &[REST_SAID, flyer::USE],
    run: |site| share(site, REST_SAID, [MIX_BETWEEN, MIX_BETWEEN]),
};

fn share(site: &Site, said: Property, [usual, usual_micro]: [Limit; 2]) -> Vec<Derived> {
    let mut gather = Gather::new(site);
    let share = gather.maybe(said).unwrap_or_else(|| {
        let limit = if is_micro(&mut gather) { usual_micro } else { usual };
        gather.from.push(site.threshold(&limit));
        site.policy().tight(&limit).map_or(0.0, |share| share.si())
    });
    gather.one(Ok(Datum::Figure(Interval::nearest(share, &Pct::INFO))))
}

/// Where the mixes are read.
pub(super) const READS: [Property; 3] = [derived(CALM.id), derived(HARD_FULL.id), derived(HARD_REST.id)];

/// The mixes of calm and hard flight.
pub(super) fn read(gather: &mut Gather) -> [Mix; 2] {
    let [calm, full_share, rest_factor] = READS.map(|property| gather.maybe(property).unwrap_or(1.0));
    [Mix { full_share: 0.0, rest_factor: calm }, Mix { full_share, rest_factor }]
}

#[cfg(test)]
mod tests {
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::figure;

    #[test]
    fn conditions_stand_before_the_usual_mix() {
        let share = |build, id| figure(five_inch!(), build, id).decimals()[1];
        assert!((share(five_inch_build!(), "mix-calm") - 115.0).abs() < 1e-9);
        assert!((share(five_inch_build!("purpose: (usage: DuctedMicro), "), "mix-calm") - 130.0).abs() < 1e-9);
        let said =
            five_inch_build!("purpose: (usage: DuctedMicro), conditions: (calm_power_percent: 120, hard_full_percent: 40), ");
        assert!((share(said, "mix-calm") - 120.0).abs() < 1e-9);
        assert!((share(said, "mix-hard-full") - 40.0).abs() < 1e-9);
        assert!((share(said, "mix-hard-rest") - 130.0).abs() < 1e-9);
    }

    #[test]
    fn a_harder_mix_is_shorter_and_a_calm_one_of_hover_lasts_as_hover() {
        let minutes = |build, id| figure(five_inch!(), build, id).decimals()[1];
        let harder = five_inch_build!("conditions: (hard_full_percent: 60), ");
        assert!(minutes(harder, "time-hard") < minutes(five_inch_build!(), "time-hard"));
        let hovering = five_inch_build!("conditions: (calm_power_percent: 100), ");
        assert!((minutes(hovering, "time-calm") - minutes(five_inch_build!(), "time-hover")).abs() < 1e-3);
    }
}
