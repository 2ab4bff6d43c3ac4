//! Every part of the list is in a catalogue and can fill the slot in which it is listed.
//!
//! Formula: part of each line ∈ catalogue, slot of the line ∈ slots of the part. Valid for any list. Source: the catalogue. When
//! it fails, the part counts for nothing: mass, price and all that depends on it are not known.

use std::sync::Arc;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Missing, Status, Verdict},
    graph::{Property, Site, build},
};

const UNPLACED: Property = build("unplaced");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "part-known",
    title: "Parts in the catalogue",
    group: Group::Complete,
    weight: Weight::Finding,
    slots: &[],
    formula: "part of each line ∈ catalogue; slot of the line ∈ slots of the part",
    source: "the catalogue",
    law: Law::Match,
    reads: &[UNPLACED],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "No catalogue holds a part for {unplaced}",
        tight: "",
        fits: "Every part of the list is in the catalogue",
        costs: "It counts for nothing: mass, price and all that depends on it are not known.",
    },
    hints: &["Open the catalogue that holds it", "Choose another part for the slot"],
    fails: Example { parts: "", build: r#"parts: [(slot: Frame, part: "nowhere")]"# },
    passes: Example { parts: "", build: "parts: []" },
};

struct Inputs {
    unplaced: Arc<Because>,
    none: bool,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    vec![read(site)]
}

fn read(site: &Site) -> Result<Inputs, Missing> {
    let reading = site.one(UNPLACED)?;
    let none = reading.items()?.is_empty();
    Ok(Inputs { unplaced: reading.because, none })
}

const fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.none { Status::Fits } else { Status::Mismatch })
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("unplaced", inputs.unplaced.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn a_part_in_the_wrong_slot_is_one_too() {
        let (parts, build) = (r#"(id: "f", name: "F", fills: [Frame()])"#, r#"parts: [(slot: Motor, part: "f")]"#);
        assert_eq!(verdicts(&RULE, parts, build), [Status::Mismatch]);
        assert_eq!(verdicts(&RULE, parts, r#"parts: [(slot: Frame, part: "f")]"#), [Status::Fits]);
    }
}
