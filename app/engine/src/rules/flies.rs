//! Full throttle and hover exist for these parts, and their figures are known.
//!
//! Where only an estimated resistance of the pack stands in the way - without it the craft flies - it is tight.
//!
//! Formula: the balance of motors, propellers, speed controller and pack has a state at full throttle and in hover. Valid within the
//! models' ranges. Source: M. Drela 2007; constant-power draw of a sagging pack; momentum theory. When it fails, the craft does
//! not leave the ground.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Claim, Datum, Missing, Status, Unknown, Verdict},
    graph::{Property, Site, derived, part},
};

const FULL: Property = derived("full-throttle");
const AIRBORNE: Property = derived("in-the-air");
const LEVEL: Property = derived("level-flight");
const CRUISE: Property = derived("cruise");
/// The states in the order in which they build on one another.
const STATES: [(Property, &str); 4] =
    [(FULL, "full throttle"), (AIRBORNE, "hover"), (LEVEL, "level flight"), (CRUISE, "level flight")];

const STIFF: Property = derived("flies-on-a-stiff-pack");
const PACK_OHM: Property = part(Slot::Battery, "resistance_mohm");

/// The first state that the parts cannot reach and why, or none.
struct Inputs {
    grounded: Option<(&'static str, String)>,
    /// Is it but for a resistance that is only estimated?
    estimated: bool,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "flies",
    title: "The craft flies",
    group: Group::Flight,
    weight: Weight::Finding,
    slots: &[Slot::Motor, Slot::Propeller, Slot::Esc, Slot::Battery],
    formula: "the balance of motors, propellers, controller and pack has a state at full throttle and in hover",
    source: "M. Drela 2007; constant-power draw of a sagging pack; momentum theory",
    law: Law::Match,
    reads: &[FULL, AIRBORNE, LEVEL, CRUISE, STIFF, PACK_OHM],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "There is no {why.title} with these parts: {why}",
        tight: "There may be no {why.title} with these parts: {why}; but the resistance of the pack is only estimated",
        fits: "Full throttle, hover and level flight are solved",
        costs: "The craft does not leave the ground.",
    },
    hints: &[
        "Measure the resistance of the pack",
        "Choose a pack with less resistance",
        "Choose a lighter craft or larger propellers",
        "Choose a motor with more KV",
    ],
    fails: Example { parts: five_inch!(battery ", resistance_mohm: 400"), build: five_inch_build!() },
    passes: Example { parts: five_inch!(), build: five_inch_build!() },
};

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let mut solved = false;
    for (state, title) in STATES {
        let Ok(reading) = site.one(state) else { continue };
        solved = true;
        match reading.known {
            Ok(_) => {}
            Err(Missing { what: Unknown::Infeasible(reason), .. }) => {
                return vec![Ok(Inputs { grounded: Some((title, reason)), estimated: only_estimated(site) })];
            }
            Err(missing) => return vec![Err(missing)],
        }
    }
    if solved { vec![Ok(Inputs { grounded: None, estimated: false })] } else { Vec::new() }
}

/// Does the craft fly but for the pack's resistance, and is that an estimate?
fn only_estimated(site: &Site) -> bool {
    let stiff = site.one(STIFF).is_ok_and(|reading| reading.flag().unwrap_or(false));
    let published = site.one(PACK_OHM).is_ok_and(|reading| reading.known.is_ok() && !reading.is_estimated());
    stiff && !published
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.grounded.is_some() { Status::Mismatch } else { Status::Fits }).softened(inputs.estimated)
}

fn facts(inputs: &Inputs) -> Facts {
    let why = |(title, reason): &(&'static str, String)| {
        let (formula, source) = (RULE.formula, RULE.source);
        let claim = Claim::Derived { subject: None, title, datum: Datum::word(reason.clone()), formula, source };
        ("why", Because::plain(claim))
    };
    inputs.grounded.iter().map(why).collect()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::finding::Status;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::verdicts;

    #[test]
    fn too_heavy_to_hover_is_a_mismatch() {
        let heavy = five_inch_build!("purpose: (payload_g: 9000), ");
        assert_eq!(verdicts(&RULE, five_inch!(), heavy), [Status::Mismatch]);
    }

    #[test]
    fn an_estimated_resistance_of_the_pack_never_forbids() {
        // 60 mAh of LiPo: 0.66 Ω a cell by estimate.
        let small = five_inch!().replace("capacity_mah: 1300", "capacity_mah: 60");
        assert_eq!(verdicts(&RULE, &small, five_inch_build!()), [Status::Tight]);
        let published = small.replace("capacity_mah: 60", "capacity_mah: 60, resistance_mohm: 1900");
        assert_eq!(verdicts(&RULE, &published, five_inch_build!()), [Status::Mismatch]);
    }

    #[test]
    fn outside_of_the_models_is_unstated() {
        let fast = five_inch!().replace("kv_rpm_per_v: 1950", "kv_rpm_per_v: 6000");
        assert_eq!(verdicts(&RULE, &fast, five_inch_build!()), [Status::Unstated], "tips beyond the propeller model");
        let flat = five_inch!().replace("pitch_in: 4.3", "pitch_in: 0.5");
        assert_eq!(verdicts(&RULE, &flat, five_inch_build!()), [Status::Unstated], "pitch beyond the propeller model");
    }

    #[test]
    fn unpublished_is_unstated_and_nothing_is_no_finding() {
        let unsaid = five_inch!().replace("mass_g: 118, ", "");
        assert_eq!(verdicts(&RULE, &unsaid, five_inch_build!()), [Status::Unstated]);
        assert_eq!(verdicts(&RULE, five_inch!(), r#"parts: [(slot: Frame, part: "f")]"#), []);
    }
}
