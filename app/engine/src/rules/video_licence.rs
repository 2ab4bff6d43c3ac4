//! Video power beyond what is free of a licence needs one.
//!
//! Formula: `P_video ≤ 25 mW`. Valid: any craft. Source: ERC Recommendation 70-03, from memory; local rules decide. The
//! authority can take the transmitter, and others lose their picture.

use std::sync::Arc;

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Missing, Unknown, Verdict},
    graph::{Property, Reading, Site, part},
    interval::Interval,
    policy::VIDEO_POWER,
    verdict,
};

const STEPS: Property = part(Slot::VideoTransmitter, "steps.power_mw");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "video-licence",
    title: "Licence for video power",
    group: Group::Conduct,
    weight: Weight::Caution,
    slots: &[Slot::VideoTransmitter],
    formula: "P_video ≤ 25 mW",
    source: "ERC Recommendation 70-03, from memory; local rules decide",
    law: Law::Match,
    reads: &[STEPS],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The {steps.part} sends with {steps}; beyond {limit} much of Europe asks for a licence, other places differ",
        fits: "The power needs no licence in much of Europe",
        costs: "The authority can take the transmitter, and others lose their picture.",
    },
    hints: &["Set the power step that your licence allows", "Ask the local authority"],
    fails: Example {
        parts: r#"(id: "x", name: "X", fills: [VideoTransmitter(steps: [(power_mw: 25), (power_mw: 26)])])"#,
        build: r#"parts: [(slot: VideoTransmitter, part: "x")]"#,
    },
    passes: Example {
        parts: r#"(id: "x", name: "X", fills: [VideoTransmitter(steps: [(power_mw: 25)])])"#,
        build: r#"parts: [(slot: VideoTransmitter, part: "x")]"#,
    },
};

struct Inputs {
    steps: Reading,
    verdict: Verdict,
    limit: Arc<Because>,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    site.all(STEPS).into_iter().map(|steps| read(site, steps)).collect()
}

fn read(site: &Site, steps: Reading) -> Result<Inputs, Missing> {
    let most = steps.items()?.iter().filter_map(Interval::of).max_by_key(|step| step.nominal);
    let unknown = Missing { subject: steps.subject.clone(), what: Unknown::Field(STEPS.field) };
    let verdict = verdict::at_most(most.ok_or(unknown)?, &VIDEO_POWER, site.policy());
    Ok(Inputs { steps, verdict, limit: site.threshold(&VIDEO_POWER) })
}

fn judge(inputs: &Inputs) -> Verdict {
    inputs.verdict.clone()
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("steps", inputs.steps.because.clone()), ("limit", inputs.limit.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn unpublished() {
        let (parts, build) =
            (r#"(id: "x", name: "X", fills: [VideoTransmitter()])"#, r#"parts: [(slot: VideoTransmitter, part: "x")]"#);
        assert_eq!(verdicts(&RULE, parts, build), [Status::Unstated]);
    }
}
