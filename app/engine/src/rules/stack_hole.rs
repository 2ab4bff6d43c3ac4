//! The posts of the frame go through the holes of the board.
//!
//! Formula: hole of the board without grommets ≥ diameter of the posts, in a place with the board's pattern. Valid for round
//! posts; grommets need more. Source: common practice, no source. When it fails, the holes must be drilled up, and the drill
//! often cuts a trace.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    derive::stack::{self, Board},
    finding::{Missing, Unknown, Verdict},
    graph::{Reading, Site},
    interval::Interval,
    verdict,
};

struct Inputs {
    board: Reading,
    hole: Interval,
    frame: Reading,
    post: Interval,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "stack-hole",
    title: "Posts through the board's holes",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::FlightController, Slot::Esc, Slot::PowerBoard, Slot::Frame],
    formula: "hole of the board ≥ diameter of the posts",
    source: "common practice, no source",
    law: Law::Match,
    reads: stack::READS,
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "The {board.part} has holes of {available}; the posts of the {frame.part} are {required} thick",
        tight: "The {board.part} has holes of {available}; the posts of the {frame.part} are about {required} thick",
        fits: "Posts of {required} go through holes of {available}",
        costs: "Holes must be drilled up, and the drill often cuts a trace.",
    },
    hints: &["Use thinner posts and screws", "Choose a board with wider holes"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(stacks: [(pattern: "20x20", hole_mm: 3)])]),
            (id: "b", name: "Board", fills: [FlightController(pattern: "20x20", hole_mm: 2)])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(stacks: [(pattern: "20x20", hole_mm: 2)])]),
            (id: "b", name: "Board", fills: [FlightController(pattern: "20x20", hole_mm: 3)])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: FlightController, part: "b")]"#;

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let Ok(frame) = site.one(stack::PLACES) else { return Vec::new() };
    let Ok(places) = stack::places(&frame) else { return Vec::new() };
    let each = |board: Board| {
        // Boards whose pattern finds no posts are the finding of another rule.
        let pattern = board.pattern.value().ok()?;
        let matching: Vec<_> = places.iter().filter(|place| place.pattern.as_ref() == Some(pattern)).collect();
        let thinnest = matching.iter().filter_map(|place| place.hole).min_by_key(|post| post.nominal);
        let unknown = || Missing { subject: frame.subject.clone(), what: Unknown::Field("stacks.hole_mm") };
        let inputs = || {
            let (hole, post) = (board.hole.figure()?, thinnest.ok_or_else(unknown)?);
            Ok(Inputs { board: board.hole.clone(), hole, frame: frame.clone(), post })
        };
        (!matching.is_empty()).then(inputs)
    };
    stack::boards(site).into_iter().filter_map(each).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    verdict::enough(inputs.post, inputs.hole).softened(inputs.board.is_estimated() || inputs.frame.is_estimated())
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("board", inputs.board.because.clone()), ("frame", inputs.frame.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(stacks: &str, board: &str) -> Vec<Status> {
        let parts = format!(
            r#"(id: "f", name: "F", fills: [Frame(stacks: [{stacks}])]), (id: "b", name: "B", fills: [FlightController({board})])"#
        );
        verdicts(&RULE, &parts, BUILD)
    }

    #[test]
    fn just_passes_just_fails() {
        let board = r#"pattern: "20x20", hole_mm: 2.2"#;
        assert_eq!(found(r#"(pattern: "20x20", hole_mm: 2.2)"#, board), [Status::Fits]);
        assert_eq!(found(r#"(pattern: "20x20", hole_mm: 2.3)"#, board), [Status::Mismatch]);
        assert_eq!(found(r#"(pattern: "20x20", hole_mm: 3), (pattern: "20x20", hole_mm: 2)"#, board), [Status::Fits]);
        assert_eq!(found(r#"(pattern: "30.5x30.5", hole_mm: 3)"#, board), [], "no posts with its pattern: another finding");
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(found(r#"(pattern: "20x20")"#, r#"pattern: "20x20", hole_mm: 2.2"#), [Status::Unstated]);
        assert_eq!(found(r#"(pattern: "20x20", hole_mm: 2)"#, r#"pattern: "20x20""#), [Status::Unstated]);
    }
}
