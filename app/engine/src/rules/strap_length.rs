//! The strap goes round the pack and grips itself.
//!
//! Formula: grip = length − 2 (width + height of the pack), at least what holds in a crash; the plate under the pack takes a
//! few millimetres of it. Valid for one pack under each strap, outside of a bay, whose walls hold it. Source of the threshold:
//! common practice, no source. When it fails, the strap opens and the pack leaves the craft.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    graph::{Property, Reading, derived, part},
    policy, verdict,
};

const GRIP: Property = derived("strap-grip");
const LENGTH: Property = part(Slot::Strap, "length_mm");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "strap-length",
    title: "Strap round the pack",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Strap, Slot::Battery],
    formula: "length of the strap − 2 (width + height of the pack) ≥ grip",
    source: "geometry; threshold: common practice, no source",
    law: Law::MoreIsBetter(LENGTH),
    reads: &[GRIP],
    form: Form::Solved(|site| {
        run(
            site,
            |site| {
                let pair = |grip: Reading| Ok((grip.figure()?, grip));
                site.all(GRIP).into_iter().map(pair).collect()
            },
            |(figure, grip)| verdict::at_least(*figure, &policy::STRAP_GRIP, site.policy()).softened(grip.is_estimated()),
            |(_, grip)| -> Facts { vec![("grip", grip.because.clone()), ("least", site.threshold(&policy::STRAP_GRIP))] },
        )
    }),
    says: Says {
        mismatch: "The {grip.part} is too short for this pack: {grip} are left to grip itself, it needs {least}",
        tight: "The {grip.part} grips itself by {grip} round this pack",
        fits: "The strap grips itself by {grip}",
        costs: "The strap opens in a hard turn or a crash, and the pack leaves the craft.",
    },
    hints: &["Choose a longer strap"],
    fails: Example {
        parts: r#"(id: "s", name: "Strap", fills: [Strap(length_mm: 150)]), (id: "b", name: "Pack", fills: [Battery(width_mm: 36, height_mm: 36)])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "s", name: "Strap", fills: [Strap(length_mm: 220)]), (id: "b", name: "Pack", fills: [Battery(width_mm: 36, height_mm: 36)])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: Strap, part: "s", count: 2), (slot: Battery, part: "b")]"#;

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(strap: &str, pack: &str) -> Vec<Status> {
        let parts = format!(r#"(id: "s", name: "S", fills: [Strap({strap})]), (id: "b", name: "B", fills: [Battery({pack})])"#);
        verdicts(&RULE, &parts, BUILD)
    }

    #[test]
    fn just_passes_just_fails() {
        // Round 30 × 20 mm: 100 mm.
        assert_eq!(found("length_mm: 150", "width_mm: 30, height_mm: 20"), [Status::Fits]);
        assert_eq!(found("length_mm: 149", "width_mm: 30, height_mm: 20"), [Status::Tight]);
        assert_eq!(found("length_mm: 120", "width_mm: 30, height_mm: 20"), [Status::Tight]);
        assert_eq!(found("length_mm: 119", "width_mm: 30, height_mm: 20"), [Status::Mismatch]);
    }

    #[test]
    fn a_bay_holds_its_pack() {
        let parts = [RULE.fails.parts, r#", (id: "f", name: "F", fills: [Frame(pack_place: Bay)])"#].concat();
        assert_eq!(verdicts(&RULE, &parts, &BUILD.replace("parts: [", r#"parts: [(slot: Frame, part: "f"), "#)), []);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(found("", "width_mm: 30, height_mm: 20"), [Status::Unstated]);
        assert_eq!(found("length_mm: 150", "width_mm: 30"), [Status::Unstated]);
    }
}
