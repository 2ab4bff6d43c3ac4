//! A hot video transmitter gets moving air.
//!
//! Formula: `needs moving air ⇒ not indoors, and no lifter that hovers`. Valid for transmitters that say so. Source: common practice, no source. When
//! it fails, the transmitter throttles its power or shuts down.

use propwright_schema::{build_list::Use, slot::Slot};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, build, part},
};

const NEEDS: Property = part(Slot::VideoTransmitter, "needs_airflow");
const INDOORS: Property = build("purpose.indoors");
const USE: Property = build("purpose.usage");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "video-airflow",
    title: "Moving air for the video transmitter",
    group: Group::Radio,
    weight: Weight::Advice,
    slots: &[Slot::VideoTransmitter],
    formula: "needs moving air ⇒ neither indoors nor hovering",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[NEEDS, INDOORS, USE],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The {needs.part} needs moving air; under a roof or in long hover it gets little",
        fits: "The video transmitter has air enough",
        costs: "It throttles its power or shuts down, first at the bench.",
    },
    hints: &["Set its lowest power", "Give it an opening and a heat sink", "Choose a transmitter that needs no moving air"],
    fails: Example {
        parts: r#"(id: "v", name: "Sender", fills: [VideoTransmitter(needs_airflow: true)])"#,
        build: r#"purpose: (indoors: true), parts: [(slot: VideoTransmitter, part: "v")]"#,
    },
    passes: Example {
        parts: r#"(id: "v", name: "Sender", fills: [VideoTransmitter(needs_airflow: false)])"#,
        build: r#"purpose: (indoors: true), parts: [(slot: VideoTransmitter, part: "v")]"#,
    },
};

struct Inputs {
    needs: Reading,
    still: Option<Reading>,
}

/// The place and the use are asked only where air is needed.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let inputs = |needs: Reading| {
        if !needs.flag()? {
            return Ok(Inputs { needs, still: None });
        }
        let (indoors, usage) = (site.one(INDOORS)?, site.one(USE)?);
        let hovers = usage.word() == Ok(Use::Lifter.word());
        let still = if hovers { Some(usage) } else { Some(indoors.clone()).filter(|_| indoors.flag() == Ok(true)) };
        if !hovers {
            indoors.flag()?;
        }
        Ok(Inputs { needs, still })
    };
    site.all(NEEDS).into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.still.is_some() { Status::Tight } else { Status::Fits })
}

fn facts(inputs: &Inputs) -> Facts {
    let mut facts = vec![("needs", inputs.needs.because.clone())];
    facts.extend(inputs.still.iter().map(|still| ("still", still.because.clone())));
    facts
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn under_a_roof_and_in_hover() {
        let sender = |record: &str, purpose: &str| judged(&RULE, &[("VideoTransmitter", record, "")], purpose);
        let hot = "needs_airflow: true";
        assert_eq!(sender(hot, "purpose: (indoors: true)"), [Status::Tight]);
        assert_eq!(sender(hot, "purpose: (usage: Lifter, indoors: false)"), [Status::Tight]);
        assert_eq!(sender(hot, "purpose: (usage: Speed, indoors: false)"), [Status::Fits]);
        assert_eq!(sender(hot, ""), [Status::Unstated]);
        assert_eq!(sender("needs_airflow: false", ""), [Status::Fits]);
    }
}
