//! Capacitors across the pack leads are rated well above the pack at full charge.
//!
//! Formula: `V_rated ≥ V_full`, tight below `1.2 · V_full`, both in V. Valid for electrolytic capacitors; hard braking lifts the
//! volts above full charge. Source: common practice, no source. When it fails, the capacitor bursts, or ages within weeks and
//! then lets the spikes through to the boards.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Outcome},
    graph::{Property, Reading, Site, derived, part},
    interval::Interval,
    policy, verdict,
};

const FULL: Property = derived("pack-full-volts");
const RATED: Property = part(Slot::Capacitor, "rated_v");
const WITH_ESC: Property = part(Slot::Esc, "capacitor_v");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "capacitor-voltage",
    title: "Capacitor above the pack",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Capacitor, Slot::Esc, Slot::Battery],
    formula: "V_rated ≥ V_full, tight below 1.2 · V_full",
    source: "common practice, no source",
    law: Law::MoreIsBetter(RATED),
    reads: &[FULL, RATED, WITH_ESC],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The capacitor {rated.part} stands {rated}; the pack gives {full} at full charge",
        tight: "The capacitor {rated.part} stands {rated}, little above the {full} of a full pack",
        fits: "The capacitor {rated.part} stands {rated}; the pack gives {full} at full charge",
        costs: "It bursts, or ages within weeks and lets the spikes of braking through to the boards.",
    },
    hints: &["Choose a capacitor of more volts", "Choose a pack with fewer cells"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 12)]), (id: "c", name: "1000 uF 50 V", fills: [Capacitor(rated_v: 50)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: Capacitor, part: "c")]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 12)]), (id: "c", name: "1000 uF 63 V", fills: [Capacitor(rated_v: 63)])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: Capacitor, part: "c")]"#,
    },
};

struct Stress {
    rated: Reading,
    full: Reading,
    required: Interval,
    available: Interval,
    tight_from: Interval,
}

fn check(site: &Site) -> Vec<Outcome> {
    let judge = |stress: &Stress| {
        let found = verdict::judge(stress.required, stress.available, stress.tight_from);
        found.softened(stress.rated.is_estimated() || stress.full.is_estimated())
    };
    run(site, gather, judge, |stress| facts(stress, site))
}

/// A speed controller that does not tell of a capacitor has none to judge.
fn gather(site: &Site) -> Vec<Result<Stress, Missing>> {
    let spare = site.policy().tight(&policy::CAPACITOR_SPARE).map_or(1.0, |spare| spare.si());
    let told = site.all(WITH_ESC).into_iter().filter(|rated| rated.known.is_ok());
    let all = site.all(RATED).into_iter().chain(told);
    let packs = site.all(FULL);
    let of = |rated: Reading| {
        let full = packs.first()?.clone();
        let stress = || {
            let (required, available) = (full.figure()?, rated.figure()?);
            Ok(Stress { required, available, tight_from: available.times(1.0 / spare), rated: rated.clone(), full: full.clone() })
        };
        Some(stress())
    };
    all.filter_map(of).collect()
}

/// The fifth to spare is no reason for a capacitor below full charge.
fn facts(stress: &Stress, site: &Site) -> Facts {
    let mut facts = vec![("rated", stress.rated.because.clone()), ("full", stress.full.because.clone())];
    if stress.required.low <= stress.available.high {
        facts.push(("limit", site.threshold(&policy::CAPACITOR_SPARE)));
    }
    facts
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn a_fifth_to_spare() {
        let capacitor =
            |rated: &str| judged(&RULE, &[("Battery", "chemistry: LiPo, cells: 5", ""), ("Capacitor", rated, "")], "");
        // 5 cells of 4.20 V are 21 V; 1.2 × 21 V = 25.2 V.
        assert_eq!(capacitor("rated_v: 25.2"), [Status::Fits]);
        assert_eq!(capacitor("rated_v: 25.19"), [Status::Tight]);
        assert_eq!(capacitor("rated_v: 21"), [Status::Tight]);
        assert_eq!(capacitor("rated_v: 20.999"), [Status::Mismatch]);
        assert_eq!(capacitor(""), [Status::Unstated]);
    }

    #[test]
    fn the_one_that_comes_with_the_controller_counts() {
        let pack = ("Battery", "chemistry: LiPo, cells: 6", "");
        assert_eq!(judged(&RULE, &[pack, ("Esc", "capacitor_v: 25", "")], ""), [Status::Mismatch]);
        assert_eq!(judged(&RULE, &[pack, ("Esc", "", "")], ""), []);
    }
}
