//! The motor screws hold by enough turns.
//!
//! Formula: (length under the head − arm − washers and pads) / pitch ≥ 3; pitch of the coarse series of ISO 261. Valid for
//! threads in aluminium bases. Source of the three turns: common practice, no source. When it fails, the threads tear out in a
//! crash or work loose in flight.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    graph::{Property, Reading, derived, part},
    policy, verdict,
};

const TURNS: Property = derived("screw-turns");
const REACH: Property = derived("screw-engagement");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "motor-screw-grip",
    title: "Grip of the motor screws",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::MotorScrew, Slot::Frame],
    formula: "(screw length − arm − washers and pads) / pitch ≥ 3 turns",
    source: "ISO 261 for the pitch; turns: common practice, no source",
    law: Law::MoreIsBetter(part(Slot::MotorScrew, "length_mm")),
    reads: &[TURNS, REACH],
    form: Form::Solved(|site| {
        run(
            site,
            |site| {
                let pair = |(turns, reach): (Reading, Reading)| Ok((turns.figure()?, turns, reach));
                site.all(TURNS).into_iter().zip(site.all(REACH)).map(pair).collect()
            },
            |(figure, turns, _)| verdict::at_least(*figure, &policy::SCREW_TURNS, site.policy()).softened(turns.is_estimated()),
            |(_, turns, reach)| -> Facts {
                let least = site.threshold(&policy::SCREW_TURNS);
                vec![("turns", turns.because.clone()), ("reach", reach.because.clone()), ("least", least)]
            },
        )
    }),
    says: Says {
        mismatch: "Of the {turns.part}, {reach} go into the motor and hold by {turns} turns; they need {least}",
        tight: "Of the {turns.part}, about {reach} go into the motor and hold by {turns} turns; they need {least}",
        fits: "The motor screws hold by {turns} turns",
        costs: "The threads tear out in a crash, or the motor works loose in flight.",
    },
    hints: &["Choose a longer screw, short of the winding", "Leave out washers"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(arm_thickness_mm: 5)]),
        (id: "s", name: "M3x6", fills: [Screw(thread: M3, length_mm: 6)])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(arm_thickness_mm: 5)]),
        (id: "s", name: "M3x8", fills: [Screw(thread: M3, length_mm: 8)])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: MotorScrew, part: "s", count: 16)]"#;

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(screw: &str, frame: &str) -> Vec<Status> {
        let parts = format!(r#"(id: "f", name: "F", fills: [Frame({frame})]), (id: "s", name: "S", fills: [Screw({screw})])"#);
        verdicts(&RULE, &parts, BUILD)
    }

    #[test]
    fn three_turns_of_each_thread() {
        // Pitches of ISO 261: three turns are 1.5 mm of M3, 1.2 mm of M2, 0.9 mm of M1.4.
        assert_eq!(found("thread: M3, length_mm: 6.5", "arm_thickness_mm: 5"), [Status::Fits]);
        assert_eq!(found("thread: M3, length_mm: 6.4", "arm_thickness_mm: 5"), [Status::Mismatch]);
        assert_eq!(found("thread: M2, length_mm: 6.2", "arm_thickness_mm: 5"), [Status::Fits]);
        assert_eq!(found("thread: M2, length_mm: 6.1", "arm_thickness_mm: 5"), [Status::Mismatch]);
        assert_eq!(found("thread: M1_4, length_mm: 2.9", "arm_thickness_mm: 2"), [Status::Fits]);
        assert_eq!(found("thread: M1_4, length_mm: 2.8", "arm_thickness_mm: 2"), [Status::Mismatch]);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(found("thread: M3, length_mm: 8", ""), [Status::Unstated]);
        assert_eq!(found("length_mm: 8", "arm_thickness_mm: 5"), [Status::Unstated]);
        assert_eq!(found("thread: M3", "arm_thickness_mm: 5"), [Status::Unstated]);
    }
}
