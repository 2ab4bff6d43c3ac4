//! Pack and payload do not want the same place.
//!
//! Formula: a payload on top ⇒ the pack is not on top; one below ⇒ the pack is not below. Valid for one payload; in front there is room beside
//! any pack. Source: common practice, no source. When it fails, one of both has nowhere to go.

use propwright_schema::{part::PackPlace, slot::Slot};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const PLACE: Property = part(Slot::Payload, "place");
const PACK: Property = part(Slot::Frame, "pack_place");
/// Places of a payload and the place of a pack that is the same.
const SAME: [(&str, PackPlace); 2] = [("top", PackPlace::Top), ("below", PackPlace::Bottom)];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "payload-mount",
    title: "Pack and payload apart",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Payload, Slot::Frame],
    formula: "place of the payload ≠ place of the pack",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[PLACE, PACK],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The {payload.part} goes {payload}, where the {pack.part} carries the pack: see that both find room",
        fits: "Pack and payload keep to their own places",
        costs: "One of both has nowhere to go.",
    },
    hints: &["Mount the payload elsewhere", "Choose a frame that carries the pack elsewhere"],
    fails: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(pack_place: Bottom)]), (id: "p", name: "Rig", fills: [Payload(place: "below")])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Payload, part: "p")]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Part", fills: [Frame(pack_place: Top)]), (id: "p", name: "Rig", fills: [Payload(place: "below")])"#,
        build: r#"parts: [(slot: Frame, part: "f"), (slot: Payload, part: "p")]"#,
    },
};

struct Inputs {
    payload: Reading,
    pack: Reading,
    same: bool,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let inputs = |payload: Reading| {
        let pack = site.one(PACK)?;
        let pair = (payload.word()?, pack.word()?);
        let same = SAME.iter().any(|(place, taken)| pair == (*place, taken.word()));
        Ok(Inputs { payload, pack, same })
    };
    site.all(PLACE).into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.same { Status::Tight } else { Status::Fits })
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("payload", inputs.payload.because.clone()), ("pack", inputs.pack.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn only_the_same_place() {
        let both = |payload: &str, pack: &str| judged(&RULE, &[("Payload", payload, ""), ("Frame", pack, "")], "");
        assert_eq!(both(r#"place: "top""#, "pack_place: Top"), [Status::Tight]);
        assert_eq!(both(r#"place: "front""#, "pack_place: Top"), [Status::Fits]);
        assert_eq!(both(r#"place: "top""#, "pack_place: Bay"), [Status::Fits]);
        assert_eq!(both("", "pack_place: Top"), [Status::Unstated]);
    }
}
