//! Take-off mass beyond a legal line brings duties; the line is the place's.
//!
//! Formula: `m_takeoff < 250 g`. Valid: any craft. Source: Regulation (EU) 2019/945, from memory; local rules decide. A craft a
//! few grams over the line needs registration or more.

use std::sync::Arc;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Missing, Verdict},
    graph::{Property, Reading, Site, derived},
    interval::Interval,
    policy::MASS_LINE,
    verdict,
};

const MASS: Property = derived("takeoff-mass");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "mass-line",
    title: "Legal line of mass",
    group: Group::Conduct,
    weight: Weight::Caution,
    slots: &[],
    formula: "m_takeoff < 250 g",
    source: "Regulation (EU) 2019/945, from memory; local rules decide",
    law: Law::LessIsBetter(MASS),
    reads: &[MASS],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "Take-off mass {mass}: beyond {line} many places ask for registration and proof of skill; check the local rules, and weigh the craft ready to fly",
        fits: "Lighter than the first legal line of many places",
        costs: "",
    },
    hints: &["Weigh the craft ready to fly", "Ask the local authority"],
    fails: Example {
        parts: r#"(id: "f", name: "F", mass_g: 245, fills: [Frame()])"#,
        build: r#"parts: [(slot: Frame, part: "f")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "F", mass_g: 200, fills: [Frame()])"#,
        build: r#"parts: [(slot: Frame, part: "f")]"#,
    },
};

struct Inputs {
    mass: Reading,
    verdict: Verdict,
    line: Arc<Because>,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    vec![read(site)]
}

fn read(site: &Site) -> Result<Inputs, Missing> {
    let mass = site.one(MASS)?;
    // A craft whose band reaches the line may be over it on the scales.
    let figure = mass.figure()?;
    let heaviest = Interval { nominal: figure.high, ..figure };
    let verdict = verdict::at_most(heaviest, &MASS_LINE, site.policy());
    Ok(Inputs { mass, verdict, line: site.threshold(&MASS_LINE) })
}

fn judge(inputs: &Inputs) -> Verdict {
    inputs.verdict.clone()
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("mass", inputs.mass.because.clone()), ("line", inputs.line.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn unweighed() {
        let (parts, build) = (r#"(id: "f", name: "F", fills: [Frame()])"#, r#"parts: [(slot: Frame, part: "f")]"#);
        assert_eq!(verdicts(&RULE, parts, build), [Status::Unstated]);
    }
}
