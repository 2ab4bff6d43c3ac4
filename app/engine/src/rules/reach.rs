//! The craft flies the path that its purpose asks for, and control and picture hold to its far end.
//!
//! Formula: path asked ≤ 2 × radius by energy (out and back in the wind, reserve left), by the control link and by the video link.
//! Valid for a path whose far end is half of it away. Source: momentum theory; ITU-R P.525. When it fails, the craft lands on the way
//! or the picture breaks up.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Verdict},
    graph::{Property, Reading, Site, build, derived},
    interval::Interval,
    verdict,
};

const ASKED: Property = build("purpose.path_km");
const RADII: [Property; 3] = [derived("radius-energy"), derived("radius-control"), derived("radius-video")];

struct Inputs {
    asked: Reading,
    path: Interval,
    radius: Reading,
    reaches: Interval,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "reach",
    title: "Path and reach",
    group: Group::Flight,
    weight: Weight::Advice,
    slots: &[Slot::Battery, Slot::Receiver, Slot::VideoTransmitter],
    formula: "path asked ≤ 2 × radius by energy, control and video",
    source: "momentum theory; ITU-R P.525; margins: common practice, no source",
    law: Law::MoreIsBetter(RADII[0]),
    reads: &[ASKED, RADII[0], RADII[1], RADII[2]],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The purpose asks for a path of {asked}; half of it is beyond the {radius.title}, {radius}",
        fits: "The path of {asked} keeps within the {radius.title}, {radius}",
        costs: "The craft lands on the way, or control or picture break up.",
    },
    hints: &["Plan a shorter path", "Choose a pack with more capacity", "Choose more radio power or a better antenna"],
    fails: Example { parts: five_inch!(), build: five_inch_build!("purpose: (path_km: 60), ") },
    passes: Example { parts: LINKED, build: LINKED_BUILD },
};

/// With both ends of the control link.
const LINKED: &str = concat!(
    five_inch!(),
    r#", (id: "r", name: "Receiver", mass_g: 1, fills: [Receiver(band_mhz: 2440, sensitivities: [(rate_hz: 250, level_dbm: -108)])]),
    (id: "t", name: "Radio", fills: [Radio(power_mw: 100)])"#
);

const LINKED_BUILD: &str = r#"purpose: (path_km: 1), parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m", count: 4),
    (slot: Propeller, part: "p", count: 4), (slot: Esc, part: "e"), (slot: Battery, part: "b"), (slot: Receiver, part: "r"),
    (slot: Radio, part: "t")]"#;

/// Radii in a path that goes out and back.
const OUT_AND_BACK: f64 = 2.0;

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let Some((asked, path)) = site.one(ASKED).ok().and_then(|asked| asked.figure().ok().map(|path| (asked, path))) else {
        return Vec::new();
    };
    let inputs = |radius: Reading| {
        let reaches = radius.figure()?.times(OUT_AND_BACK);
        Ok(Inputs { asked: asked.clone(), path, radius, reaches })
    };
    RADII.into_iter().flat_map(|radius| site.all(radius)).map(inputs).collect()
}

/// Advice never forbids.
fn judge(inputs: &Inputs) -> Verdict {
    verdict::enough(inputs.path, inputs.reaches).softened(true)
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("radius", inputs.radius.because.clone()), ("asked", inputs.asked.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::finding::Status;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{figure, verdicts};

    #[test]
    fn just_passes_just_fails() {
        let band = figure(five_inch!(), five_inch_build!(), "radius-energy").decimals();
        let found = |km: f64| {
            let asked = format!("purpose: (path_km: {km:.4}), {}", five_inch_build!());
            verdicts(&RULE, five_inch!(), &asked)
        };
        assert_eq!(found(2.0 * band[0] - 1e-3), [Status::Fits]);
        assert_eq!(found(2.0 * band[0] + 1e-3), [Status::Tight]);
        assert_eq!(found(2.0 * band[2] + 1e-3), [Status::Tight], "advice never forbids");
    }

    #[test]
    fn wind_shortens_the_way() {
        let km = |build| figure(five_inch!(), build, "radius-energy").decimals()[1];
        assert!(km(five_inch_build!("conditions: (wind_ms: 10), ")) < km(five_inch_build!()));
    }

    #[test]
    fn nothing_asked_nothing_judged() {
        assert_eq!(verdicts(&RULE, five_inch!(), five_inch_build!()), []);
    }

    #[test]
    fn without_a_pitch_it_is_unstated() {
        let unsaid = five_inch!().replace("pitch_in: 4.3, ", "");
        assert_eq!(verdicts(&RULE, &unsaid, five_inch_build!("purpose: (path_km: 1), ")), [Status::Unstated]);
    }
}
