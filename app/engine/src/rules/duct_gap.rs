//! The tips run close to the duct, and do not scrape it.
//!
//! Formula: gap = (inner diameter of the duct − D) / 2, at least the least gap; beyond 4 % of D the duct lifts no more than a
//! plain guard. Valid for frames with a guard or duct around each propeller. Source: common practice, no source. When it fails,
//! the tips scrape the duct as it flexes; too far away, the duct is dead mass.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Verdict},
    graph::{Property, Reading, Site, derived, part},
    interval::{Interval, RATIO},
    policy, verdict,
};

const GAP: Property = derived("duct-gap");
const DIAMETER: Property = part(Slot::Propeller, "diameter_in");
const DUCT: Property = part(Slot::Frame, "duct_inner_mm");

struct Inputs {
    gap: Reading,
    width: Interval,
    share: Interval,
    duct: Reading,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "duct-gap",
    title: "Gap between tips and duct",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Propeller, Slot::Frame],
    formula: "(duct inner diameter − diameter) / 2 ≥ least gap, and ≤ 4 % of the diameter",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[GAP, DIAMETER, DUCT],
    form: Form::Solved(|site| run(site, gather, |inputs| judge(inputs, site), |inputs| facts(inputs, site))),
    says: Says {
        mismatch: "The tips of the {gap.part} scrape the duct of the {duct.part}: {gap} are left of the {least} they need",
        tight: "The tips of the {gap.part} run {gap} from the duct of the {duct.part}: so close that they touch when it flexes, or too far for it to lift",
        fits: "The tips run {gap} from the duct",
        costs: "Tips scrape as the duct flexes; with a wide gap the duct adds mass and no lift.",
    },
    hints: &["Choose a propeller of the size that the frame's maker names", "Trim the tips evenly and balance them"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(guard: LippedDuct, duct_inner_mm: 90)]),
            (id: "p", name: "Three and a half", fills: [Propeller(diameter_in: 3.53)])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(guard: LippedDuct, duct_inner_mm: 92)]),
            (id: "p", name: "Three and a half", fills: [Propeller(diameter_in: 3.5)])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Propeller, part: "p", count: 4)]"#;

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let inputs = |(gap, diameter): (Reading, Reading)| {
        let (width, duct) = (gap.figure()?, site.one(DUCT)?);
        let share = width.si() / diameter.si()?;
        Ok(Inputs { gap, width, share: Interval::outward(share, share, share, &RATIO), duct })
    };
    site.all(GAP).into_iter().zip(site.all(DIAMETER)).map(inputs).collect()
}

fn judge(inputs: &Inputs, site: &Site) -> Verdict {
    let close = verdict::at_least(inputs.width, &policy::DUCT_GAP, site.policy());
    let wide = verdict::at_most(inputs.share, &policy::DUCT_GAP_SHARE, site.policy());
    close.graver(wide).softened(inputs.gap.is_estimated())
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    vec![
        ("gap", inputs.gap.because.clone()),
        ("duct", inputs.duct.because.clone()),
        ("least", site.threshold(&policy::DUCT_GAP)),
        ("widest", site.threshold(&policy::DUCT_GAP_SHARE)),
    ]
}

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(frame: &str) -> Vec<Status> {
        let parts =
            format!(r#"(id: "f", name: "F", fills: [Frame({frame})]), (id: "p", name: "P", fills: [Propeller(diameter_in: 5)])"#);
        verdicts(&RULE, &parts, BUILD)
    }

    #[test]
    fn just_passes_just_fails() {
        let duct = |inner: &str| found(&["guard: LippedDuct, duct_inner_mm: ", inner].concat());
        assert_eq!(duct("127.7"), [Status::Mismatch], "0.35 mm");
        assert_eq!(duct("127.8"), [Status::Tight], "0.4 mm");
        assert_eq!(duct("128.6"), [Status::Fits], "0.8 mm");
        assert_eq!(duct("137.1"), [Status::Fits], "5.05 mm are under 4 % of 127 mm");
        assert_eq!(duct("137.6"), [Status::Tight], "5.3 mm are over 4 % of 127 mm");
    }

    #[test]
    fn open_frames_have_no_duct() {
        assert_eq!(found("guard: Open"), []);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(found("guard: PlainGuard"), [Status::Unstated]);
        assert_eq!(found(""), [Status::Unstated]);
    }
}
