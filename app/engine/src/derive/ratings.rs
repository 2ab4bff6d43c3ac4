//! What a part stands where its record does not say it in the form that rules compare.

use propwright_schema::{
    quantity::{A, BurstA, S, Unit},
    slot::Slot,
};

use super::{Derivation, gather::Gather, rig};
use crate::{
    finding::{Datum, Missing},
    graph::{Derived, Property, Reading, Site, build, derived, part},
    interval::Interval,
    models::stator::{CONTINUOUS_SHARE, estimated_burst_current},
    policy::{BURST_DUCTED, BURST_FREESTYLE, BURST_SPEED, BURST_UNSAID, Limit},
};

const USE: Property = build("purpose.usage");
const SAID: Property = build("purpose.burst_s");
const TIME: Property = derived("burst-time");

/// Seconds of full throttle in one go.
pub(crate) const BURST_TIME: Derivation = Derivation {
    id: "burst-time",
    title: "full throttle in one go",
    formula: "as the purpose says, or as usual for the use",
    source: "common practice, no source",
    reads: &[USE, SAID],
    run: |site| {
        let mut gather = Gather::new(site);
        let usual = || burst_of(site.one(USE).as_ref().ok().and_then(|usage| usage.word().ok()).unwrap_or_default());
        let seconds = gather.maybe(SAID).map(|said| Interval::nearest(said, &S::INFO)).or_else(|| {
            let limit = usual();
            gather.from.push(site.threshold(&limit));
            site.policy().tight(&limit)
        });
        seconds.map_or_else(Vec::new, |seconds| gather.one(Ok(Datum::Figure(seconds))))
    },
};

/// Seconds of full throttle in one go that are usual for a use.
pub(crate) fn burst_of(usage: &str) -> Limit {
    match usage {
        "ducted micro" | "ducted camera craft" => BURST_DUCTED,
        "speed" => BURST_SPEED,
        _ => BURST_FREESTYLE,
    }
}

const MOTOR_BURST_A: Property = part(Slot::Motor, "current_burst_a");
const MOTOR_BURST_S: Property = part(Slot::Motor, "burst_s");
const MOTOR_A: Property = part(Slot::Motor, "current_a");
const MOTOR_MASS: Property = part(Slot::Motor, "mass_g");

/// What a motor stands for one burst.
pub(crate) const MOTOR_BURST: Derivation = Derivation {
    id: "motor-stands-burst",
    title: "burst rating",
    formula: "as published (without a duration for 10 s) · √(t_rated/t) where t is longer; else √(1.9·m/R), 1.9 W of copper loss a gram",
    source: "the maker; estimate from memory, 30 %",
    reads: &[MOTOR_BURST_A, MOTOR_BURST_S, MOTOR_A, MOTOR_MASS, TIME, rig::KV, rig::STATOR_D, rig::STATOR_H, rig::MOTOR_OHM],
    run: |site| {
        of_parts(site, MOTOR_BURST_A, |gather| {
            let rated = match gather.maybe(MOTOR_BURST_A) {
                Some(published) => published,
                None => estimated_burst(gather)?,
            };
            Ok(Interval::nearest(for_burst(site, gather, rated, MOTOR_BURST_S, MOTOR_A), &BurstA::INFO))
        })
    },
};

/// What a motor stands for good.
pub(crate) const MOTOR_LASTING: Derivation = Derivation {
    id: "motor-stands",
    title: "continuous rating",
    formula: "as published, or 0.55 of the burst rating",
    source: "the maker; the share is an assumption",
    reads: &[MOTOR_BURST_A, MOTOR_A, MOTOR_MASS, rig::KV, rig::STATOR_D, rig::STATOR_H, rig::MOTOR_OHM],
    run: |site| {
        of_parts(site, MOTOR_A, |gather| {
            if let Some(published) = gather.maybe(MOTOR_A) {
                return Ok(Interval::nearest(published, &A::INFO));
            }
            let burst = match gather.maybe(MOTOR_BURST_A) {
                Some(published) => published,
                None => estimated_burst(gather)?,
            };
            gather.assume("share of the burst current that a motor stands for good", None);
            Ok(Interval::nearest(CONTINUOUS_SHARE * burst, &A::INFO))
        })
    },
};

const ESC_BURST_A: Property = part(Slot::Esc, "current_burst_a");
const ESC_BURST_S: Property = part(Slot::Esc, "burst_s");
const ESC_A: Property = part(Slot::Esc, "current_a");

/// What a channel of the speed controller stands for one burst.
pub(crate) const ESC_BURST: Derivation = Derivation {
    id: "esc-stands-burst",
    title: "burst rating of a channel",
    formula: "as published (without a duration for 10 s) · √(t_rated/t) where t is longer",
    source: "the maker",
    reads: &[ESC_BURST_A, ESC_BURST_S, ESC_A, TIME],
    run: |site| {
        of_parts(site, ESC_BURST_A, |gather| {
            let rated = gather.need(ESC_BURST_A)?;
            Ok(Interval::nearest(for_burst(site, gather, rated, ESC_BURST_S, ESC_A), &BurstA::INFO))
        })
    },
};

/// A burst rating for the burst of this use: with `I²·t` kept where it is longer than rated, but not below the lasting rating.
fn for_burst(site: &Site, gather: &mut Gather, rated: f64, rated_s: Property, lasting: Property) -> f64 {
    let stands_s = gather.maybe(rated_s).unwrap_or_else(|| {
        gather.from.push(site.threshold(&BURST_UNSAID));
        site.policy().tight(&BURST_UNSAID).map_or(0.0, |seconds| seconds.si())
    });
    let asked_s = gather.maybe(TIME).unwrap_or(stands_s);
    if asked_s <= stands_s {
        return rated;
    }
    (rated * (stands_s / asked_s).sqrt()).max(gather.maybe(lasting).unwrap_or(0.0).min(rated))
}

fn estimated_burst(gather: &mut Gather) -> Result<f64, Missing> {
    let grams = gather.need(MOTOR_MASS)? * 1e3;
    let (ohm, _) = rig::winding(gather)?;
    gather.assume("burst current of a motor by its mass and winding", None);
    Ok(estimated_burst_current(grams, ohm))
}

/// A rating as one value of each part that has `field`.
fn of_parts(site: &Site, field: Property, rating: impl Fn(&mut Gather) -> Result<Interval, Missing>) -> Vec<Derived> {
    let of = |reading: Reading| {
        let mut gather = Gather::of(site, reading.subject.clone());
        let known = rating(&mut gather).map(Datum::Figure);
        let rated = gather.one(known).into_iter();
        rated
            .map(move |derived| Derived { subject: reading.subject.clone(), count: reading.count, ..derived })
            .collect::<Vec<_>>()
    };
    site.all(field).into_iter().flat_map(of).collect()
}

#[cfg(test)]
mod tests {
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::figure;

    #[test]
    fn a_burst_longer_than_rated_lowers_the_rating() {
        // Heat of a burst grows with I²·t: 60 A for 5 s are 34.6 A for 15 s; the lasting rating is the least.
        let stands = |lasting: &str| {
            let parts =
                five_inch!(motor ", current_burst_a: 60, burst_s: 5").replace("burst_s: 5", &format!("burst_s: 5{lasting}"));
            figure(&parts, five_inch_build!("purpose: (usage: Speed), "), "motor-stands-burst").nominal
        };
        assert_eq!(stands(""), 34_641);
        assert_eq!(stands(", current_a: 40"), 40_000);
    }
}
