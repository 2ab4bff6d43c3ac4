//! Hover leaves duty to climb and to hold the craft in gusts, on a fresh pack and at landing.
//!
//! Formula: `D = V_req(hover)/V_b`. Valid for steady hover; a duty is not a stick position. Source of the thresholds: common
//! practice, no source; a ducted micro hovers higher. When it fails, the craft sinks in turns, and at the end of the pack it
//! does not climb any more.

use propwright_schema::slot::Slot;

use super::five_inch::{five_inch, five_inch_build};
use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Verdict},
    graph::{Property, Reading, Site, build, derived},
    interval::Interval,
    policy::{HOVER_DUTY, HOVER_DUTY_MICRO, Limit, Policy},
    verdict,
};

const FRESH: Property = derived("hover-duty");
const LANDING: Property = derived("landing-duty");
const USE: Property = build("purpose.usage");

struct Inputs {
    duty: Reading,
    figure: Interval,
    limit: Limit,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "hover-duty",
    title: "Duty in hover",
    group: Group::Flight,
    weight: Weight::Finding,
    slots: &[Slot::Motor, Slot::Propeller, Slot::Battery],
    formula: "V_req(hover)/V_b on a fresh pack and at landing",
    source: "common practice, no source",
    law: Law::LessIsBetter(FRESH),
    reads: &[FRESH, LANDING, USE],
    form: Form::Solved(|site| run(site, gather, |inputs| judge(inputs, site.policy()), |inputs| facts(inputs, site))),
    says: Says {
        mismatch: "These motors need {duty} of full output to hover ({duty.title}); more than {limit} leaves nothing to steer with",
        tight: "These motors need {duty} of full output to hover ({duty.title}); that leaves little to climb and steer with",
        fits: "Hover takes {duty} of full output ({duty.title})",
        costs: "The craft sinks in turns and does not climb at the end of the pack.",
    },
    hints: &["Choose a lighter pack", "Choose a larger propeller", "Choose a motor with more KV", "Add a cell"],
    fails: Example { parts: MEASURED, build: five_inch_build!("purpose: (usage: Lifter, payload_g: 4100), ") },
    passes: Example { parts: five_inch!(), build: five_inch_build!() },
};

const MEASURED: &str = five_inch!(
    motor ", resistance_mohm: 55"
    propeller ", static_point: (speed_rpm: 24000, thrust_gf: 700, power_w: 180)"
    battery ", resistance_mohm: 24"
);

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let micro = site.one(USE).is_ok_and(|usage| usage.word() == Ok("ducted micro"));
    let limit = if micro { HOVER_DUTY_MICRO } else { HOVER_DUTY };
    let states = [FRESH, LANDING].into_iter().flat_map(|state| site.all(state));
    states.map(|duty| Ok(Inputs { figure: duty.figure()?, duty, limit })).collect()
}

fn judge(inputs: &Inputs, policy: &Policy) -> Verdict {
    verdict::at_most(inputs.figure, &inputs.limit, policy)
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    vec![("duty", inputs.duty.because.clone()), ("limit", site.threshold(&inputs.limit))]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Status;
    use crate::interval::DUTY;
    use crate::rules::trial::{readings, verdicts};

    fn found(duty: i64, limit: Limit) -> Status {
        let reading = readings(five_inch!(), five_inch_build!(), FRESH.field).remove(0);
        judge(&Inputs { duty: reading, figure: Interval::exact(duty, &DUTY), limit }, &Policy::default()).status
    }

    #[test]
    fn just_passes_just_fails() {
        for (duty, status) in [(650, Status::Fits), (651, Status::Tight), (800, Status::Fits), (801, Status::Mismatch)] {
            let status = if duty == 800 { Status::Tight } else { status };
            assert_eq!(found(duty, HOVER_DUTY), status, "{duty}");
        }
        assert_eq!(found(750, HOVER_DUTY_MICRO), Status::Fits);
        assert_eq!(found(751, HOVER_DUTY_MICRO), Status::Tight);
    }

    #[test]
    fn both_ends_of_the_pack_are_judged() {
        assert_eq!(verdicts(&RULE, five_inch!(), five_inch_build!()), [Status::Fits, Status::Fits]);
    }

    #[test]
    fn without_a_mass_it_is_unstated() {
        let unsaid = five_inch!().replace("mass_g: 218, ", "");
        assert_eq!(verdicts(&RULE, &unsaid, five_inch_build!()), [Status::Unstated, Status::Unstated]);
    }
}
