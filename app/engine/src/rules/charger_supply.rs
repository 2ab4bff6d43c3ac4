//! A charger without a supply inside wants one.
//!
//! Formula: `needs a supply ⇒ have one`. Valid: any charger. Source: common practice, no source. Who overlooks it waits for a second parcel.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const NEEDS: Property = part(Slot::Charger, "needs_supply");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "charger-supply",
    title: "A supply for the charger",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[Slot::Charger],
    formula: "needs a supply ⇒ have one",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[NEEDS],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The {needs.part} needs a supply of its own: a mains supply at home, a large battery in the field",
        fits: "The charger runs from the mains",
        costs: "The charger stays dark on the first evening.",
    },
    hints: &["Plan a supply with a fifth more watts than the charger", "Choose a charger with a supply inside"],
    fails: Example {
        parts: r#"(id: "c", name: "Charger", fills: [Charger(needs_supply: true)])"#,
        build: r#"parts: [(slot: Charger, part: "c")]"#,
    },
    passes: Example {
        parts: r#"(id: "c", name: "Charger", fills: [Charger(needs_supply: false)])"#,
        build: r#"parts: [(slot: Charger, part: "c")]"#,
    },
};

fn gather(site: &Site) -> Vec<Result<(Reading, bool), Missing>> {
    let read = |needs: Reading| needs.flag().map(|alone| (needs, alone));
    site.all(NEEDS).into_iter().map(read).collect()
}

fn judge((_, needs): &(Reading, bool)) -> Verdict {
    Verdict::plain(if *needs { Status::Tight } else { Status::Fits })
}

fn facts((needs, _): &(Reading, bool)) -> Facts {
    vec![("needs", needs.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(judged(&RULE, &[("Charger", "", "")], ""), [Status::Unstated]);
    }
}
