//! Neighbouring propellers keep a gap between their tips.
//!
//! Formula: gap = d − D for rotors in one plane, √(max(d − D, 0)² + Δz²) for rotors in two; d distance of the hubs, D diameter,
//! Δz height between the planes; the least over all pairs. Valid for rigid arms: a long, soft arm needs more. Source of the
//! threshold: common practice, no source. When it fails, the tips hit one another and the craft falls.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    graph::{Property, Reading, derived, part},
    policy, verdict,
};

const GAP: Property = derived("tip-gap");
const FRAME: Property = part(Slot::Frame, "motors");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "tip-gap",
    title: "Gap between propeller tips",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Propeller, Slot::Frame],
    formula: "hub distance − diameter ≥ least gap; rotors in two planes may overlap",
    source: "geometry; threshold: common practice, no source",
    law: Law::LessIsBetter(part(Slot::Propeller, "diameter_in")),
    reads: &[GAP, FRAME],
    form: Form::Solved(|site| {
        run(
            site,
            |site| {
                let frame = site.one(FRAME);
                let pair = |gap: Reading| Ok((gap.figure()?, gap, frame.clone()?));
                site.all(GAP).into_iter().map(pair).collect()
            },
            |(figure, gap, _)| verdict::at_least(*figure, &policy::TIP_GAP, site.policy()).softened(gap.is_estimated()),
            |(_, gap, frame)| -> Facts {
                let limit = site.threshold(&policy::TIP_GAP);
                vec![("gap", gap.because.clone()), ("frame", frame.because.clone()), ("limit", limit)]
            },
        )
    }),
    says: Says {
        mismatch: "The tips of the {gap.part} overlap on the {frame.part}: hub distance less diameter is {gap}",
        tight: "The tips of the {gap.part} pass {gap} from one another on the {frame.part}",
        fits: "The tips pass {gap} from one another",
        costs: "Arms bend in a hard turn; tips that touch break, and the craft falls.",
    },
    hints: &["Choose a smaller propeller", "Choose a frame with a longer wheelbase"],
    fails: Example { parts: FRAME_AND_SIX_INCH, build: BUILD },
    passes: Example { parts: FRAME_AND_FIVE_INCH, build: BUILD },
};

const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Propeller, part: "p", count: 4)]"#;
const FRAME_AND_SIX_INCH: &str = r#"(id: "f", name: "Frame", fills: [Frame(motors: [
    (x_mm: 75, y_mm: 75), (x_mm: -75, y_mm: 75), (x_mm: -75, y_mm: -75), (x_mm: 75, y_mm: -75)])]),
    (id: "p", name: "Six", fills: [Propeller(diameter_in: 6)])"#;
const FRAME_AND_FIVE_INCH: &str = r#"(id: "f", name: "Frame", fills: [Frame(motors: [
    (x_mm: 75, y_mm: 75), (x_mm: -75, y_mm: 75), (x_mm: -75, y_mm: -75), (x_mm: 75, y_mm: -75)])]),
    (id: "p", name: "Five", fills: [Propeller(diameter_in: 5)])"#;

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(apart: &str, frame: &str, propeller: &str) -> Vec<Status> {
        let parts = format!(
            r#"(id: "f", name: "F", fills: [Frame(motors: [(x_mm: 0, y_mm: 0), (x_mm: {apart}, y_mm: 0{frame})])]),
            (id: "p", name: "P", fills: [Propeller(diameter_in: 5)]{propeller})"#
        );
        verdicts(&RULE, &parts, BUILD)
    }

    #[test]
    fn just_passes_just_fails() {
        assert_eq!(found("130", "", ""), [Status::Fits], "5 in are 127 mm: 3 mm are left");
        assert_eq!(found("129.9", "", ""), [Status::Tight]);
        assert_eq!(found("127", "", ""), [Status::Tight]);
        assert_eq!(found("126.9", "", ""), [Status::Mismatch]);
    }

    #[test]
    fn rotors_in_two_planes_may_overlap() {
        assert_eq!(found("100", ", z_mm: 30", ""), [Status::Fits]);
        assert_eq!(found("100", ", z_mm: 2", ""), [Status::Tight]);
    }

    #[test]
    fn an_estimated_diameter_never_forbids() {
        assert_eq!(found("100", "", r#", basis: {"diameter_in": Estimate}"#), [Status::Tight]);
    }

    #[test]
    fn unpublished_is_unstated() {
        let parts = r#"(id: "f", name: "F", fills: [Frame()]), (id: "p", name: "P", fills: [Propeller(diameter_in: 5)])"#;
        assert_eq!(verdicts(&RULE, parts, BUILD), [Status::Unstated]);
        assert_eq!(verdicts(&RULE, &super::FRAME_AND_FIVE_INCH.replace("diameter_in: 5", ""), BUILD), [Status::Unstated]);
    }
}
