//! A first craft turns propellers of three inches at most.
//!
//! Formula: `newcomer ⇒ D ≤ 3 in`. Valid: any craft. Source: common practice, no source. Larger propellers hurt more and
//! forgive less.

use std::sync::Arc;

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Missing, Status, Verdict},
    graph::{Property, Reading, Site, derived, part},
    policy::FIRST_PROPELLER,
    verdict,
};

const NEWCOMER: Property = derived("newcomer");
const DIAMETER: Property = part(Slot::Propeller, "diameter_in");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "first-craft-size",
    title: "Size of a first craft",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[Slot::Propeller],
    formula: "newcomer ⇒ D ≤ 3 in",
    source: "common practice, no source",
    law: Law::LessIsBetter(DIAMETER),
    reads: &[NEWCOMER, DIAMETER],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The {size.part} measures {size}; a first craft stays at {limit} or less",
        fits: "The propellers are small enough for a first craft",
        costs: "Larger propellers hurt more and forgive less.",
    },
    hints: &["Begin with a small ducted craft and carry goggles and radio over"],
    fails: Example {
        parts: r#"(id: "p", name: "Propeller", fills: [Propeller(diameter_in: 3.1)])"#,
        build: r#"pilot: (flown_h: 0, simulator_h: 20), parts: [(slot: Propeller, part: "p", count: 4)]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Propeller", fills: [Propeller(diameter_in: 3)])"#,
        build: r#"pilot: (flown_h: 0, simulator_h: 20), parts: [(slot: Propeller, part: "p", count: 4)]"#,
    },
};

struct Inputs {
    newcomer: bool,
    size: Reading,
    verdict: Verdict,
    limit: Arc<Because>,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    site.all(DIAMETER).into_iter().map(|size| read(site, size)).collect()
}

fn read(site: &Site, size: Reading) -> Result<Inputs, Missing> {
    let newcomer = site.one(NEWCOMER)?.flag()?;
    let verdict = verdict::at_most(size.figure()?, &FIRST_PROPELLER, site.policy());
    Ok(Inputs { newcomer, size, verdict, limit: site.threshold(&FIRST_PROPELLER) })
}

fn judge(inputs: &Inputs) -> Verdict {
    if inputs.newcomer { inputs.verdict.clone() } else { Verdict::plain(Status::Fits) }
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("size", inputs.size.because.clone()), ("limit", inputs.limit.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn unpublished() {
        let (parts, build) = (
            r#"(id: "p", name: "P", fills: [Propeller()])"#,
            r#"pilot: (flown_h: 0, simulator_h: 20), parts: [(slot: Propeller, part: "p", count: 4)]"#,
        );
        assert_eq!(verdicts(&RULE, parts, build), [Status::Unstated]);
    }
}
