//! Each board of the stack finds posts with its own hole pattern.
//!
//! Formula: pattern of flight controller, of a speed controller with several channels, and of a power board ∈ patterns of the
//! frame's places. Valid for boards on posts; single speed controllers lie on the arms. Source: common practice, no source.
//! When it fails, the board cannot be screwed down, shakes, and the gyro reads the shaking.

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    derive::stack,
    finding::{Datum, Missing, Status, Unknown, Verdict},
    graph::{Reading, Site},
};

struct Inputs {
    board: Reading,
    pattern: Value,
    stacks: Reading,
    offered: Vec<Value>,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "stack-pattern",
    title: "Board holes on the frame's posts",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::FlightController, Slot::Esc, Slot::PowerBoard, Slot::Frame],
    formula: "pattern of the board ∈ patterns of the frame's places",
    source: "common practice, no source",
    law: Law::Match,
    reads: stack::READS,
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "The {board.part} has its holes at {required} mm; the {frame.part} has posts at {available} mm",
        tight: "The {board.part}, drilled {required} mm, may find no posts in the {frame.part}: {available} mm are listed",
        fits: "The {board.part} stands on posts at {required} mm",
        costs: "The board cannot be screwed down; it shakes, and the gyro reads the shaking.",
    },
    hints: &["Choose a board with one of the frame's patterns", "Choose a frame with such posts", "Use an adapter plate"],
    fails: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(stacks: [(pattern: "20x20"), (pattern: "25.5x25.5")])]),
            (id: "b", name: "Board", fills: [FlightController(pattern: "30.5x30.5")])"#,
        build: BUILD,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Frame", fills: [Frame(stacks: [(pattern: "20x20"), (pattern: "30.5x30.5")])]),
            (id: "b", name: "Board", fills: [FlightController(pattern: "30.5x30.5")])"#,
        build: BUILD,
    },
};

const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: FlightController, part: "b")]"#;

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let stacks = site.one(stack::PLACES);
    stack::boards(site).into_iter().map(|board| inputs(board.pattern, stacks.clone()?)).collect()
}

fn inputs(board: Reading, stacks: Reading) -> Result<Inputs, Missing> {
    let places = stack::places(&stacks)?;
    let pattern = board.value()?.clone();
    let all = places.len();
    let offered: Vec<Value> = places.into_iter().filter_map(|place| place.pattern).collect();
    // A place whose posts nobody published may be the one.
    if !offered.contains(&pattern) && offered.len() < all {
        return Err(Missing { subject: stacks.subject.clone(), what: Unknown::Field("stacks.pattern") });
    }
    Ok(Inputs { board, pattern, stacks, offered })
}

fn judge(inputs: &Inputs) -> Verdict {
    let status = if inputs.offered.contains(&inputs.pattern) { Status::Fits } else { Status::Mismatch };
    let (asked, there) = (Datum::Value(inputs.pattern.clone()), Datum::Value(Value::List(inputs.offered.clone())));
    Verdict::of_words(status, asked, there).softened(inputs.board.is_estimated() || inputs.stacks.is_estimated())
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("board", inputs.board.because.clone()), ("frame", inputs.stacks.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(stacks: &str, board: &str) -> Vec<Status> {
        let parts = format!(r#"(id: "f", name: "F", fills: [Frame({stacks})]), (id: "b", name: "B", fills: [{board}])"#);
        verdicts(&RULE, &parts, BUILD)
    }

    #[test]
    fn one_of_the_places_is_enough() {
        let board = r#"FlightController(pattern: "20x20")"#;
        assert_eq!(found(r#"stacks: [(pattern: "20x20")]"#, board), [Status::Fits]);
        assert_eq!(found(r#"stacks: [(pattern: "20x21")]"#, board), [Status::Mismatch]);
        assert_eq!(found("stacks: []", board), [Status::Mismatch], "a frame that says it has no posts");
    }

    #[test]
    fn unpublished_is_unstated() {
        let board = r#"FlightController(pattern: "20x20")"#;
        assert_eq!(found("", board), [Status::Unstated]);
        assert_eq!(found(r#"stacks: [(pattern: "30.5x30.5"), (height_mm: 20)]"#, board), [Status::Unstated]);
        assert_eq!(found(r#"stacks: [(pattern: "20x20")]"#, "FlightController()"), [Status::Unstated]);
    }

    #[test]
    fn a_board_with_two_roles_is_judged_once() {
        let board = r#"Esc(channels: 4, pattern: "25.5x25.5"), FlightController()"#;
        assert_eq!(found(r#"stacks: [(pattern: "25.5x25.5")]"#, board), [Status::Fits]);
    }

    #[test]
    fn single_speed_controllers_need_no_posts() {
        let parts = r#"(id: "f", name: "F", fills: [Frame(stacks: [])]), (id: "e", name: "E", fills: [Esc(channels: 1)])"#;
        assert_eq!(verdicts(&RULE, parts, r#"parts: [(slot: Frame, part: "f"), (slot: Esc, part: "e", count: 4)]"#), []);
    }
}
