//! Under a roof one learns with propellers of two inches at most.
//!
//! Formula: `indoors ∧ ¬(hours in the air known to be enough) ⇒ D ≤ 2 in`. Valid: any craft; a pilot who is no newcomer flies ducted
//! camera craft of three inches through houses, and open propellers are the matter of `indoor-guard`. Source: common practice, no
//! source. A larger craft has no room to stop, and wounds.

use propwright_schema::slot::Slot;

use super::{
    Example, Form, Group, Law, Rule, Says, Weight,
    condition::{Demand, under},
};
use crate::{
    finding::Outcome,
    graph::{Property, Site, build, derived, part},
    policy::INDOOR_PROPELLER,
};

const INDOORS: Property = build("purpose.indoors");
const NEWCOMER: Property = derived("newcomer");
const DIAMETER: Property = part(Slot::Propeller, "diameter_in");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "indoor-size",
    title: "Size under a roof",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[Slot::Propeller],
    formula: "indoors, and not known to be experienced ⇒ D ≤ 2 in",
    source: "common practice, no source",
    law: Law::LessIsBetter(DIAMETER),
    reads: &[INDOORS, NEWCOMER, DIAMETER],
    form: Form::Solved(check),
    says: Says {
        mismatch: "",
        tight: "The {figure.part} measures {figure}; to learn under a roof {limit} is the most, a larger craft belongs outdoors",
        fits: "The propellers are small enough to fly under a roof",
        costs: "A larger craft has no room to stop, and wounds.",
    },
    hints: &["Choose a smaller ducted craft", "Fly this one outdoors"],
    fails: Example {
        parts: r#"(id: "p", name: "Propeller", fills: [Propeller(diameter_in: 2.1)])"#,
        build: r#"pilot: (flown_h: 2), purpose: (indoors: true), parts: [(slot: Propeller, part: "p", count: 4)]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Propeller", fills: [Propeller(diameter_in: 3.5)])"#,
        build: r#"pilot: (flown_h: 60), purpose: (indoors: true), parts: [(slot: Propeller, part: "p", count: 4)]"#,
    },
};

/// Who is known to be no newcomer is asked nothing more.
fn check(site: &Site) -> Vec<Outcome> {
    let experienced = site.one(NEWCOMER).is_ok_and(|newcomer| newcomer.flag() == Ok(false));
    let when = if experienced { NEWCOMER } else { INDOORS };
    under(site, when, &Demand::AtMost(DIAMETER, INDOOR_PROPELLER))
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

    #[test]
    fn who_flies_well_may_fly_larger_ones() {
        let parts = r#"(id: "p", name: "Propeller", fills: [Propeller(diameter_in: 3.5)])"#;
        let flown = |hours: &str| {
            let pilot =
                ["pilot: (", hours, "), purpose: (indoors: true), parts: [(slot: Propeller, part: \"p\", count: 4)]"].concat();
            verdicts(&RULE, parts, &pilot)
        };
        assert_eq!(flown("flown_h: 10"), [Status::Fits]);
        assert_eq!(flown("flown_h: 9"), [Status::Tight]);
        assert_eq!(flown(""), [Status::Tight]);
    }
}
