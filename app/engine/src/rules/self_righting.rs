//! A craft that shall turn itself over after a crash has motors that run backwards.
//!
//! Formula: `rights itself ⇒ reversing ∧ ¬folding`. Valid for four rotors and more. Source: common practice, no source. When it fails, the pilot
//! walks to every landing on the back.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, build, part},
};

const WISH: Property = build("purpose.rights_itself");
const REVERSING: Property = part(Slot::Esc, "reversing");
const FOLDING: Property = part(Slot::Propeller, "folding");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "self-righting",
    title: "Turning over after a crash",
    group: Group::Firmware,
    weight: Weight::Finding,
    slots: &[Slot::Esc, Slot::Propeller],
    formula: "rights itself ⇒ the controller reverses, and no blade folds",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[WISH, REVERSING, FOLDING],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "The craft shall turn itself over after a crash; the {part.part} cannot: {part.title} {part}",
        tight: "",
        fits: "The motors can turn the craft over",
        costs: "The pilot walks to every landing on the back.",
    },
    hints: &["Choose a speed controller that reverses", "Choose a propeller with fixed blades", "Walk"],
    fails: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(reversing: false)])"#,
        build: r#"purpose: (rights_itself: true), parts: [(slot: Esc, part: "e")]"#,
    },
    passes: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(reversing: true)])"#,
        build: r#"purpose: (rights_itself: true), parts: [(slot: Esc, part: "e")]"#,
    },
};

struct Inputs {
    wish: Reading,
    part: Reading,
    can: bool,
}

/// Who does not ask for it needs nothing.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let Some(wish) = site.one(WISH).ok().filter(|wish| wish.flag() == Ok(true)) else { return Vec::new() };
    let inputs = |part: Reading, able: bool| Ok(Inputs { wish: wish.clone(), can: part.flag()? == able, part });
    let boards = site.all(REVERSING).into_iter().map(|reversing| inputs(reversing, true));
    let hinged = site.all(FOLDING).into_iter().filter(|folding| folding.flag() == Ok(true));
    boards.chain(hinged.map(|folding| inputs(folding, false))).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.can { Status::Fits } else { Status::Mismatch }).softened(inputs.part.is_estimated())
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("part", inputs.part.because.clone()), ("wish", inputs.wish.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn only_for_who_wishes_it() {
        let craft = |esc: &str, blade: &str, wish: &str| judged(&RULE, &[("Esc", esc, ""), ("Propeller", blade, "")], wish);
        let wished = "purpose: (rights_itself: true)";
        assert_eq!(craft("reversing: true", "folding: false", wished), [Status::Fits]);
        assert_eq!(craft("reversing: false", "", wished), [Status::Mismatch]);
        assert_eq!(craft("reversing: true", "folding: true", wished), [Status::Fits, Status::Mismatch]);
        assert_eq!(craft("", "", wished), [Status::Unstated]);
        assert_eq!(craft("reversing: false", "", ""), []);
    }
}
