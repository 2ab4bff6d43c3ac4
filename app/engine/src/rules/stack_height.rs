//! The boards of a stack stand below the plate above them.
//!
//! Formula: sum of the boards' heights in one place ≤ clear height of the place; little room over is tight, for plugs and leads
//! need some. Valid for heights with grommets; a video transmitter counts where the frame has no place of its own for it.
//! Source of the threshold: common practice, no source. When it fails, the top plate presses on the boards and shakes them.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Verdict},
    graph::{Property, Reading, Site, derived, part},
    interval::Interval,
    policy, verdict,
};

const HEIGHT: Property = derived("stack-height");
const ROOM: Property = derived("stack-room");

struct Inputs {
    height: Reading,
    asked: Interval,
    room: Reading,
    clear: Interval,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "stack-height",
    title: "Height of the stack",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::FlightController, Slot::Esc, Slot::PowerBoard, Slot::VideoTransmitter, Slot::Frame],
    formula: "sum of the heights of the boards in a place ≤ clear height of the place",
    source: "common practice, no source",
    law: Law::LessIsBetter(part(Slot::FlightController, "height_mm")),
    reads: &[HEIGHT, ROOM],
    form: Form::Solved(|site| run(site, gather, |inputs| judge(inputs, site), |inputs| facts(inputs, site))),
    says: Says {
        mismatch: "The boards in the {height.part} stand {height} high; the place clears {room}",
        tight: "The boards in the {height.part} stand {height} high under {room}: little is left for plugs and leads",
        fits: "The boards stand {height} high; the place clears {room}",
        costs: "The plate presses on the boards: plugs bend, and the gyro reads the frame's shaking.",
    },
    hints: &["Use longer standoffs", "Choose lower boards, or one board with several roles", "Move the video transmitter"],
    fails: Example { parts: LOW_FRAME, build: BUILD },
    passes: Example { parts: HIGH_FRAME, build: BUILD },
};

const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: FlightController, part: "b"), (slot: Esc, part: "e")]"#;
const LOW_FRAME: &str = r#"(id: "f", name: "Frame", fills: [Frame(stacks: [(pattern: "20x20", height_mm: 14)])]),
    (id: "b", name: "Board", fills: [FlightController(pattern: "20x20", height_mm: 8)]),
    (id: "e", name: "Four in one", fills: [Esc(channels: 4, pattern: "20x20", height_mm: 7)])"#;
const HIGH_FRAME: &str = r#"(id: "f", name: "Frame", fills: [Frame(stacks: [(pattern: "20x20", height_mm: 20)])]),
    (id: "b", name: "Board", fills: [FlightController(pattern: "20x20", height_mm: 8)]),
    (id: "e", name: "Four in one", fills: [Esc(channels: 4, pattern: "20x20", height_mm: 7)])"#;

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let inputs = |(height, room): (Reading, Reading)| {
        let (asked, clear) = (height.figure()?, room.figure()?);
        Ok(Inputs { height, asked, room, clear })
    };
    site.all(HEIGHT).into_iter().zip(site.all(ROOM)).map(inputs).collect()
}

fn judge(inputs: &Inputs, site: &Site) -> Verdict {
    let spare = site.policy().tight(&policy::STACK_SPARE);
    let comfortable = spare.map_or(inputs.clear, |spare| inputs.clear.minus(spare));
    let estimated = inputs.height.is_estimated() || inputs.room.is_estimated();
    verdict::judge(inputs.asked, inputs.clear, comfortable).softened(estimated)
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    let spare = site.threshold(&policy::STACK_SPARE);
    vec![("height", inputs.height.because.clone()), ("room", inputs.room.because.clone()), ("spare", spare)]
}

#[cfg(test)]
mod tests {
    use super::{BUILD, HIGH_FRAME, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn in_places(places: &str) -> Vec<Status> {
        verdicts(&RULE, &HIGH_FRAME.replace(r#"(pattern: "20x20", height_mm: 20)"#, places), BUILD)
    }

    #[test]
    fn just_passes_just_fails() {
        // 8 mm and 7 mm in one place; 1 mm is to be left.
        assert_eq!(in_places(r#"(pattern: "20x20", height_mm: 16)"#), [Status::Fits]);
        assert_eq!(in_places(r#"(pattern: "20x20", height_mm: 15.9)"#), [Status::Tight]);
        assert_eq!(in_places(r#"(pattern: "20x20", height_mm: 15)"#), [Status::Tight]);
        assert_eq!(in_places(r#"(pattern: "20x20", height_mm: 14.9)"#), [Status::Mismatch]);
    }

    #[test]
    fn boards_spread_over_two_places() {
        let two = r#"(pattern: "20x20", height_mm: 9), (pattern: "20x20", height_mm: 9)"#;
        assert_eq!(in_places(two), [Status::Fits, Status::Fits]);
    }

    #[test]
    fn a_video_transmitter_stands_where_there_is_a_place() {
        let with = |frame: &str| {
            let video = r#", (id: "v", name: "V", fills: [VideoTransmitter(pattern: "20x20", height_mm: 5)])"#;
            let parts = [&HIGH_FRAME.replace("stacks:", &[frame, "stacks:"].concat()).replace("20)]", "16)]"), video].concat();
            verdicts(&RULE, &parts, &BUILD.replace("parts: [", r#"parts: [(slot: VideoTransmitter, part: "v"), "#))
        };
        assert_eq!(with(""), [Status::Mismatch], "20 mm in 16 mm");
        assert_eq!(with(r#"video_patterns: ["20x20"], "#), [Status::Fits], "15 mm in 16 mm");
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(in_places(r#"(pattern: "20x20")"#), [Status::Unstated]);
        assert_eq!(verdicts(&RULE, &HIGH_FRAME.replace(", height_mm: 7", ""), BUILD), [Status::Unstated]);
    }
}
