//! Video antennas in the air and at the goggles turn the same way.
//!
//! Formula: handedness of the antenna in the air = that at the goggles; linear with circular fits and loses 3 dB. Valid for video
//! antennas with a published polarisation. Source: common practice, no source; right- with left-handed loses 20 dB and more.
//! When it fails, the picture breaks up at a tenth of the range.

use propwright_schema::{part::Polarisation, slot::Slot};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Datum, Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const IN_THE_AIR: Property = part(Slot::AntennaVideo, "polarisation");
const AT_THE_GOGGLES: Property = part(Slot::AntennaGoggles, "polarisation");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "antenna-handedness",
    title: "Antennas turn the same way",
    group: Group::Radio,
    weight: Weight::Finding,
    slots: &[Slot::AntennaVideo, Slot::AntennaGoggles],
    formula: "handedness in the air = handedness at the goggles; linear with circular fits at 3 dB less",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[IN_THE_AIR, AT_THE_GOGGLES],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {goggles.part} is {goggles}; the {air.part} is {air}",
        tight: "",
        fits: "The {goggles.part} ({goggles}) hears the {air.part} ({air})",
        costs: "The picture breaks up at a tenth of the range: 20 dB and more are lost.",
    },
    hints: &["Choose both right-handed or both left-handed", "A linear antenna at one end costs 3 dB only"],
    fails: Example {
        parts: r#"(id: "a", name: "Right", fills: [Antenna(polarisation: RightHand)]), (id: "g", name: "Left", fills: [Antenna(polarisation: LeftHand)])"#,
        build: r#"parts: [(slot: AntennaVideo, part: "a"), (slot: AntennaGoggles, part: "g")]"#,
    },
    passes: Example {
        parts: r#"(id: "a", name: "Right", fills: [Antenna(polarisation: RightHand)])"#,
        build: r#"parts: [(slot: AntennaVideo, part: "a"), (slot: AntennaGoggles, part: "a")]"#,
    },
};

struct Pair {
    air: Reading,
    goggles: Reading,
    ways: [String; 2],
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, facts)
}

fn gather(site: &Site) -> Vec<Result<Pair, Missing>> {
    let goggles = site.all(AT_THE_GOGGLES);
    let pair = |air: &Reading, goggles: &Reading| {
        let ways = [air.word()?.to_owned(), goggles.word()?.to_owned()];
        Ok(Pair { air: air.clone(), goggles: goggles.clone(), ways })
    };
    site.all(IN_THE_AIR).iter().flat_map(|air| goggles.iter().map(move |goggles| pair(air, goggles))).collect()
}

fn judge(pair: &Pair) -> Verdict {
    let [air, goggles] = &pair.ways;
    let linear = pair.ways.iter().any(|way| way == Polarisation::Linear.word());
    let status = if air == goggles || linear { Status::Fits } else { Status::Mismatch };
    Verdict::of_words(status, Datum::word(air.clone()), Datum::word(goggles.clone()))
}

fn facts(pair: &Pair) -> Facts {
    vec![("goggles", pair.goggles.because.clone()), ("air", pair.air.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    fn antennas(air: &str, goggles: &str) -> Vec<Status> {
        judged(&RULE, &[("AntennaVideo", air, ""), ("AntennaGoggles", goggles, "")], "")
    }

    #[test]
    fn linear_goes_with_all() {
        assert_eq!(antennas("polarisation: LeftHand", "polarisation: LeftHand"), [Status::Fits]);
        assert_eq!(antennas("polarisation: LeftHand", "polarisation: RightHand"), [Status::Mismatch]);
        assert_eq!(antennas("polarisation: Linear", "polarisation: RightHand"), [Status::Fits]);
        assert_eq!(antennas("polarisation: LeftHand", "polarisation: Linear"), [Status::Fits]);
        assert_eq!(antennas("polarisation: LeftHand", ""), [Status::Unstated]);
    }
}
