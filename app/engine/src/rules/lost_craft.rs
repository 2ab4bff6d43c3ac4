//! A craft that flies far away can be found again.
//!
//! Formula: `long range ⇒ finder or GPS fitted`. Valid: any craft. Source: common practice, no source. Who overlooks it looks for days.

use propwright_schema::{build_list::Use, slot::Slot};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, build, part},
};

const USE: Property = build("purpose.usage");
const FINDER: Property = part(Slot::Finder, "id");
const GPS: Property = part(Slot::Gps, "id");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "lost-craft",
    title: "A finder for a lost craft",
    group: Group::Conduct,
    weight: Weight::Advice,
    slots: &[Slot::Finder, Slot::Gps],
    formula: "long range ⇒ finder or GPS fitted",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[USE, FINDER, GPS],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "A craft for {usage} without a finder or GPS: after a crash nothing tells where it lies",
        fits: "A lost craft is found again",
        costs: "The craft stays in the wood.",
    },
    hints: &["Add a finder with its own cell", "Add a GPS, and record its last fix in the goggles"],
    fails: Example { parts: "", build: "purpose: (usage: LongRange), parts: []" },
    passes: Example {
        parts: r#"(id: "b", name: "Finder", fills: [Finder()])"#,
        build: r#"purpose: (usage: LongRange), parts: [(slot: Finder, part: "b")]"#,
    },
};

struct Inputs {
    usage: Reading,
    far: bool,
    found: bool,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let found = [FINDER, GPS].iter().any(|id| !site.all(*id).is_empty());
    let inputs = |usage: Reading| Ok(Inputs { far: usage.word()? == Use::LongRange.word(), usage, found });
    site.all(USE).into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.far && !inputs.found { Status::Tight } else { Status::Fits })
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("usage", inputs.usage.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn only_who_flies_far() {
        assert_eq!(judged(&RULE, &[("Gps", "", "")], "purpose: (usage: LongRange)"), [Status::Fits]);
        assert_eq!(judged(&RULE, &[], "purpose: (usage: Freestyle)"), [Status::Fits]);
        assert_eq!(judged(&RULE, &[], ""), [Status::Unstated]);
    }
}
