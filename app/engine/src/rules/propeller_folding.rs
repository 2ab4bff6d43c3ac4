//! Folding blades belong on lifters and long-range craft.
//!
//! Formula: `folding ⇒ use ∈ {lifter, long range}`. Valid for hinged blades, which only the turning keeps out. Source: common practice,
//! no source. When it fails, a blade folds back as the throttle is cut and comes out late.

use propwright_schema::{build_list::Use, slot::Slot};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, build, part},
};

const FOLDING: Property = part(Slot::Propeller, "folding");
const USE: Property = build("purpose.usage");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "propeller-folding",
    title: "Folding blades for calm flight",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Propeller],
    formula: "folding ⇒ use ∈ {lifter, long range}",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[FOLDING, USE],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The {folding.part} folds; in {usage} its blades fold back under hard throttle cuts",
        fits: "The blades suit the use",
        costs: "A blade folds at full speed, and the craft tumbles.",
    },
    hints: &["Choose a propeller with fixed blades"],
    fails: Example {
        parts: r#"(id: "p", name: "Part", fills: [Propeller(folding: true)])"#,
        build: r#"purpose: (usage: Freestyle), parts: [(slot: Propeller, part: "p")]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Part", fills: [Propeller(folding: true)])"#,
        build: r#"purpose: (usage: Lifter), parts: [(slot: Propeller, part: "p")]"#,
    },
};

struct Inputs {
    folding: Reading,
    usage: Option<Reading>,
    calm: bool,
}

/// Fixed blades suit every use: nothing more is asked.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let inputs = |folding: Reading| {
        if !folding.flag()? {
            return Ok(Inputs { folding, usage: None, calm: true });
        }
        let usage = site.one(USE)?;
        let calm = [Use::Lifter, Use::LongRange].map(Use::word).contains(&usage.word()?);
        Ok(Inputs { folding, usage: Some(usage), calm })
    };
    site.all(FOLDING).into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.calm { Status::Fits } else { Status::Tight })
}

fn facts(inputs: &Inputs) -> Facts {
    let mut facts = vec![("folding", inputs.folding.because.clone())];
    facts.extend(inputs.usage.iter().map(|usage| ("usage", usage.because.clone())));
    facts
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn only_hinges_ask_for_the_use() {
        let propeller = |record: &str, more: &str| judged(&RULE, &[("Propeller", record, "")], more);
        assert_eq!(propeller("folding: false", ""), [Status::Fits]);
        assert_eq!(propeller("folding: true", ""), [Status::Unstated]);
        assert_eq!(propeller("folding: true", "purpose: (usage: LongRange)"), [Status::Fits]);
        assert_eq!(propeller("folding: true", "purpose: (usage: Speed)"), [Status::Tight]);
        assert_eq!(propeller("", ""), [Status::Unstated]);
    }
}
