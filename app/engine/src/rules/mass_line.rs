//! Take-off mass beyond a legal line brings duties; the line is the place's.
//!
//! Formula: `m_takeoff < 250 g`, then 900 g and 4 kg: the highest line that the upper end of the band reaches. Valid: any craft. Source: Regulation (EU) 2019/945, from memory; local rules decide. A craft a
//! few grams over the line needs registration or more.

use std::sync::Arc;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Datum, Missing, Status, Verdict},
    graph::{Property, Reading, Site, derived},
    interval::Interval,
    policy::{Limit, MASS_LINE, MASS_LINE_SECOND, MASS_LINE_THIRD},
};

const MASS: Property = derived("takeoff-mass");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "mass-line",
    title: "Legal line of mass",
    group: Group::Conduct,
    weight: Weight::Caution,
    slots: &[],
    formula: "m_takeoff < 250 g, 900 g, 4 kg: the highest line that the band reaches",
    source: "Regulation (EU) 2019/945, from memory; local rules decide",
    law: Law::LessIsBetter(MASS),
    reads: &[MASS],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "Take-off mass {mass}: from {line} on many places ask for registration, proof of skill or distance to people; check the local rules, and weigh the craft ready to fly",
        fits: "Lighter than the legal line of {line}",
        costs: "A craft a few grams over a line without its papers is flown against the law, and the insurer may not pay.",
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

/// The highest line that is reached, and those above it.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let known = site.one(MASS).and_then(|mass| mass.figure().map(|figure| (mass, figure)));
    let (mass, figure) = match known {
        Ok(known) => known,
        Err(missing) => return vec![Err(missing)],
    };
    let highest = LINES.iter().rposition(|line| reaches(&figure, line, site));
    let judged = |(at, line): (usize, &Limit)| {
        let status = if highest == Some(at) { Status::Tight } else { Status::Fits };
        let available = site.policy().tight(line).unwrap_or(figure);
        let verdict = Verdict::of_words(status, Datum::Figure(figure), Datum::Figure(available));
        Ok(Inputs { mass: mass.clone(), verdict, line: site.threshold(line) })
    };
    LINES.iter().enumerate().skip(highest.unwrap_or(0)).map(judged).collect()
}

/// The lines from the lightest up.
const LINES: [Limit; 3] = [MASS_LINE, MASS_LINE_SECOND, MASS_LINE_THIRD];

/// Does the upper end of a mass reach a line? A craft of exactly that mass is no lighter one.
pub(super) fn reaches(mass: &Interval, line: &Limit, site: &Site) -> bool {
    site.policy().tight(line).is_some_and(|line| mass.high >= line.nominal)
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
