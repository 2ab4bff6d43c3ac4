//! Under a roof one flies propellers of two inches at most; open five inches belong outdoors.
//!
//! Formula: `indoors ⇒ D ≤ 2 in`. Valid: any craft. Source: common practice, no source. A larger craft has no room to stop, and
//! wounds.

use std::sync::Arc;

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Missing, Status, Verdict},
    graph::{Property, Reading, Site, build, part},
    policy::INDOOR_PROPELLER,
    verdict,
};

const INDOORS: Property = build("purpose.indoors");
const DIAMETER: Property = part(Slot::Propeller, "diameter_in");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "indoor-size",
    title: "Size under a roof",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[Slot::Propeller],
    formula: "indoors ⇒ D ≤ 2 in",
    source: "common practice, no source",
    law: Law::LessIsBetter(DIAMETER),
    reads: &[INDOORS, DIAMETER],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The {size.part} measures {size}; under a roof {limit} is the most, a larger craft belongs outdoors",
        fits: "The propellers are small enough to fly under a roof",
        costs: "A larger craft has no room to stop, and wounds.",
    },
    hints: &["Choose a smaller ducted craft", "Fly this one outdoors"],
    fails: Example {
        parts: r#"(id: "p", name: "Propeller", fills: [Propeller(diameter_in: 2.1)])"#,
        build: r#"purpose: (indoors: true), parts: [(slot: Propeller, part: "p", count: 4)]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Propeller", fills: [Propeller(diameter_in: 2)])"#,
        build: r#"purpose: (indoors: true), parts: [(slot: Propeller, part: "p", count: 4)]"#,
    },
};

struct Inputs {
    indoors: bool,
    size: Reading,
    verdict: Verdict,
    limit: Arc<Because>,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    site.all(DIAMETER).into_iter().map(|size| read(site, size)).collect()
}

fn read(site: &Site, size: Reading) -> Result<Inputs, Missing> {
    let indoors = site.one(INDOORS)?.flag()?;
    let verdict = verdict::at_most(size.figure()?, &INDOOR_PROPELLER, site.policy());
    Ok(Inputs { indoors, size, verdict, limit: site.threshold(&INDOOR_PROPELLER) })
}

fn judge(inputs: &Inputs) -> Verdict {
    if inputs.indoors { inputs.verdict.clone() } else { Verdict::plain(Status::Fits) }
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("size", inputs.size.because.clone()), ("limit", inputs.limit.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn outdoors_any_size() {
        let (parts, build) = (
            r#"(id: "p", name: "Propeller", fills: [Propeller(diameter_in: 7)])"#,
            r#"purpose: (indoors: false), parts: [(slot: Propeller, part: "p", count: 4)]"#,
        );
        assert_eq!(verdicts(&RULE, parts, build), [Status::Fits]);
    }

    #[test]
    fn nobody_said() {
        let (parts, build) = (
            r#"(id: "p", name: "Propeller", fills: [Propeller(diameter_in: 7)])"#,
            r#"parts: [(slot: Propeller, part: "p", count: 4)]"#,
        );
        assert_eq!(verdicts(&RULE, parts, build), [Status::Unstated]);
    }
}
