//! A craft beyond the first legal line broadcasts who it is, where the law asks for it.
//!
//! Formula: `m_takeoff < 250 g`, the upper end of its band, or a module fitted. Valid in many places, not in all. Source: Regulation (EU) 2019/945, from
//! memory; local rules decide. Who flies without it where it is asked for risks a fine.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, derived, part},
    policy::MASS_LINE,
    rules::mass_line::reaches,
};

const MASS: Property = derived("takeoff-mass");
const FITTED: Property = part(Slot::RemoteId, "id");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "remote-id",
    title: "Identification in the air",
    group: Group::Conduct,
    weight: Weight::Caution,
    slots: &[Slot::RemoteId],
    formula: "m_takeoff < 250 g, or remote identification fitted",
    source: "Regulation (EU) 2019/945, from memory; local rules decide",
    law: Law::LessIsBetter(MASS),
    reads: &[MASS, FITTED],
    form: Form::Solved(|site| run(site, gather, judge, |inputs| facts(inputs, site))),
    says: Says {
        mismatch: "",
        tight: "Take-off mass {mass} without remote identification: many places ask for it from {limit} on; ask the local authority",
        fits: "Remote identification is fitted, or the craft is light enough in many places",
        costs: "Who flies without it where it is asked for risks a fine.",
    },
    hints: &["Add a remote-identification module", "Fly where the authority has made an exception"],
    fails: Example {
        parts: r#"(id: "f", name: "F", mass_g: 300, fills: [Frame()])"#,
        build: r#"parts: [(slot: Frame, part: "f")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "F", mass_g: 200, fills: [Frame()])"#,
        build: r#"parts: [(slot: Frame, part: "f")]"#,
    },
};

struct Inputs {
    mass: Reading,
    heavy: bool,
    fitted: bool,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let fitted = !site.all(FITTED).is_empty();
    let inputs = |mass: Reading| Ok(Inputs { heavy: reaches(&mass.figure()?, &MASS_LINE, site), mass, fitted });
    site.all(MASS).into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.heavy && !inputs.fitted { Status::Tight } else { Status::Fits })
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    vec![("mass", inputs.mass.because.clone()), ("limit", site.threshold(&MASS_LINE))]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::verdicts};

    #[test]
    fn a_module_answers_it() {
        let frame =
            r#"(id: "f", name: "F", mass_g: 400, fills: [Frame()]), (id: "r", name: "R", mass_g: 5, fills: [RemoteId()])"#;
        assert_eq!(verdicts(&RULE, frame, r#"parts: [(slot: Frame, part: "f")]"#), [Status::Tight]);
        assert_eq!(verdicts(&RULE, frame, r#"parts: [(slot: Frame, part: "f"), (slot: RemoteId, part: "r")]"#), [Status::Fits]);
        assert_eq!(
            verdicts(&RULE, r#"(id: "f", name: "F", fills: [Frame()])"#, r#"parts: [(slot: Frame, part: "f")]"#),
            [Status::Unstated]
        );
    }
}
