//! The propeller's bore is that of the motor's shaft.
//!
//! Formula: |bore − shaft| within the play of a turned fit. Valid where a nut or the press fit holds the propeller; under two
//! screws the bore does not centre it. Source of the threshold: common practice, no source. When it fails, the propeller does
//! not go on, slips off, or runs out of true and shakes the gyro.

use propwright_schema::{part::PropellerFixing, slot::Slot};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Verdict},
    graph::{Property, Reading, Site, part},
    interval::Interval,
    policy, verdict,
};

const BORE: Property = part(Slot::Propeller, "bore_mm");
const SHAFT: Property = part(Slot::Motor, "shaft_mm");
const FIXING: Property = part(Slot::Motor, "fixing");

struct Inputs {
    bore: Reading,
    shaft: Reading,
    play: Interval,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "propeller-bore",
    title: "Propeller bore on the shaft",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Propeller, Slot::Motor],
    formula: "|bore of the propeller − shaft of the motor| ≤ play, for nut and press fit",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[BORE, SHAFT, FIXING],
    form: Form::Solved(|site| run(site, gather, |inputs| judge(inputs, site), |inputs| facts(inputs, site))),
    says: Says {
        mismatch: "The {bore.part} has a bore of {bore}; the shaft of the {shaft.part} measures {shaft}",
        tight: "The bore of the {bore.part}, {bore}, sits loosely or hard on the shaft of the {shaft.part}, {shaft}",
        fits: "Bore {bore} on shaft {shaft}",
        costs: "The propeller does not go on, slips off, or runs out of true and shakes the gyro.",
    },
    hints: &["Choose a propeller with that bore", "Use the adapter ring from the propeller's pack"],
    fails: Example {
        parts: r#"(id: "p", name: "Propeller", fills: [Propeller(bore_mm: 1)]), (id: "m", name: "Motor", fills: [Motor(fixing: Press, shaft_mm: 1.5)])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Propeller", fills: [Propeller(bore_mm: 5)]), (id: "m", name: "Motor", fills: [Motor(fixing: Nut, shaft_mm: 5)])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: Propeller, part: "p", count: 4), (slot: Motor, part: "m", count: 4)]"#;

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let motors: Vec<(Reading, Reading)> = site.all(SHAFT).into_iter().zip(site.all(FIXING)).collect();
    let centred = |fixing: &Reading| fixing.word() != Ok(PropellerFixing::TwoScrews.word());
    let on = |bore: &Reading, shaft: &Reading, fixing: &Reading| {
        fixing.word()?;
        let (hole, pin) = (bore.figure()?, shaft.figure()?);
        let (loose, hard) = (hole.minus(pin), pin.minus(hole));
        let play = if loose.nominal < 0 { hard } else { loose };
        Ok(Inputs { bore: bore.clone(), shaft: shaft.clone(), play })
    };
    let fitted = motors.iter().filter(|(_, fixing)| centred(fixing));
    fitted.flat_map(|(shaft, fixing)| site.all(BORE).into_iter().map(move |bore| on(&bore, shaft, fixing))).collect()
}

fn judge(inputs: &Inputs, site: &Site) -> Verdict {
    let estimated = inputs.bore.is_estimated() || inputs.shaft.is_estimated();
    verdict::at_most(inputs.play, &policy::BORE_PLAY, site.policy()).softened(estimated)
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    let limit = site.threshold(&policy::BORE_PLAY);
    vec![("bore", inputs.bore.because.clone()), ("shaft", inputs.shaft.because.clone()), ("play", limit)]
}

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(bore: &str, motor: &str) -> Vec<Status> {
        let parts = format!(r#"(id: "p", name: "P", fills: [Propeller({bore})]), (id: "m", name: "M", fills: [Motor({motor})])"#);
        verdicts(&RULE, &parts, BUILD)
    }

    #[test]
    fn just_passes_just_fails() {
        assert_eq!(found("bore_mm: 5.05", "fixing: Nut, shaft_mm: 5"), [Status::Fits]);
        assert_eq!(found("bore_mm: 5.06", "fixing: Nut, shaft_mm: 5"), [Status::Tight]);
        assert_eq!(found("bore_mm: 4.75", "fixing: Nut, shaft_mm: 5"), [Status::Tight]);
        assert_eq!(found("bore_mm: 4.74", "fixing: Nut, shaft_mm: 5"), [Status::Mismatch]);
    }

    #[test]
    fn two_screws_centre_the_propeller_themselves() {
        assert_eq!(found("bore_mm: 2", "fixing: TwoScrews, shaft_mm: 1.5"), []);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(found("", "fixing: Nut, shaft_mm: 5"), [Status::Unstated]);
        assert_eq!(found("bore_mm: 5", "shaft_mm: 5"), [Status::Unstated]);
        assert_eq!(found("bore_mm: 5", "fixing: Press"), [Status::Unstated]);
    }
}
