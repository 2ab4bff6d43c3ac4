//! Under a roof one flies propellers of two inches at most; open five inches belong outdoors.
//!
//! Formula: `indoors ⇒ D ≤ 2 in`. Valid: any craft. Source: common practice, no source. A larger craft has no room to stop, and
//! wounds.

use propwright_schema::slot::Slot;

use super::{
    Example, Form, Group, Law, Rule, Says, Weight,
    condition::{Demand, under},
};
use crate::{
    graph::{Property, build, part},
    policy::INDOOR_PROPELLER,
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
    form: Form::Solved(|site| under(site, INDOORS, &Demand::AtMost(DIAMETER, INDOOR_PROPELLER))),
    says: Says {
        mismatch: "",
        tight: "The {figure.part} measures {figure}; under a roof {limit} is the most, a larger craft belongs outdoors",
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
