//! The threaded shafts have one hand, or one hand for each direction of rotation.
//!
//! Formula: motors with a left-hand shaft = 0, all, or half of those with a nut. Valid for propellers held by a nut; lock nuts hold in either
//! direction. Source: common practice, no source. When it fails, one nut works loose and its spare is of the wrong hand.

use propwright_schema::{
    part::{PropellerFixing, ThreadHand},
    slot::Slot,
};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const HAND: Property = part(Slot::Motor, "shaft_hand");
const FIXING: Property = part(Slot::Motor, "fixing");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "shaft-hand",
    title: "Thread hand of the shafts",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Motor],
    formula: "left-hand shafts = 0, all, or half of the motors",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[HAND, FIXING],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "The {hand.part} has a {hand} thread and the others have not: its nut fits none of theirs, and it works loose",
        tight: "",
        fits: "The threads of the shafts go together",
        costs: "A nut works loose in the air, and a spare nut fits only some motors.",
    },
    hints: &["Choose motors whose shafts have one hand", "Take left-hand shafts in pairs, for the motors that turn clockwise"],
    fails: Example {
        parts: r#"(id: "r", name: "Part", fills: [Motor(fixing: Nut, shaft_hand: Right)]), (id: "l", name: "Part", fills: [Motor(fixing: Nut, shaft_hand: Left)])"#,
        build: r#"parts: [(slot: Motor, part: "r", count: 3), (slot: Motor, part: "l")]"#,
    },
    passes: Example {
        parts: r#"(id: "r", name: "Part", fills: [Motor(fixing: Nut, shaft_hand: Right)]), (id: "l", name: "Part", fills: [Motor(fixing: Nut, shaft_hand: Left)])"#,
        build: r#"parts: [(slot: Motor, part: "r", count: 2), (slot: Motor, part: "l", count: 2)]"#,
    },
};

struct Inputs {
    hand: Reading,
    even: bool,
}

/// One judgement for the whole set: about the first left-hand shaft, if there is one.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let fixings = site.all(FIXING);
    let nut = |fixing: &Reading| fixing.word() == Ok(PropellerFixing::Nut.word());
    let hands: Vec<Reading> =
        site.all(HAND).into_iter().zip(&fixings).filter(|(_, fixing)| nut(fixing)).map(|(hand, _)| hand).collect();
    let Some(first) = hands.first() else { return Vec::new() };
    let left = |hand: &&Reading| hand.word() == Ok(ThreadHand::Left.word());
    let count = |hands: &mut dyn Iterator<Item = &Reading>| hands.map(|hand| hand.count).sum::<u32>();
    let all = count(&mut hands.iter());
    let lefts = count(&mut hands.iter().filter(left));
    let inputs = || {
        hands.iter().try_for_each(|hand| hand.word().map(drop))?;
        let hand = hands.iter().find(left).unwrap_or(first).clone();
        Ok(Inputs { hand, even: lefts == 0 || lefts == all || 2 * lefts == all })
    };
    vec![inputs()]
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.even { Status::Fits } else { Status::Mismatch })
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("hand", inputs.hand.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn one_among_others_is_the_odd_one() {
        let (right, left) = ("fixing: Nut, shaft_hand: Right", "fixing: Nut, shaft_hand: Left");
        let set = |motors: &[(&str, &str)]| {
            let lines: Vec<(&str, &str, &str)> = motors.iter().map(|(record, count)| ("Motor", *record, *count)).collect();
            judged(&RULE, &lines, "")
        };
        assert_eq!(set(&[(right, ", count: 4")]), [Status::Fits]);
        assert_eq!(set(&[(right, ", count: 2"), (left, ", count: 2")]), [Status::Fits]);
        assert_eq!(set(&[(right, ", count: 3"), (left, "")]), [Status::Mismatch]);
        assert_eq!(set(&[("fixing: Nut", "")]), [Status::Unstated]);
        assert_eq!(set(&[("fixing: TwoScrews", "")]), []);
    }
}
