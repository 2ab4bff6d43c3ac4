//! A video transmitter with screw holes finds a place for them.
//!
//! Formula: pattern of the transmitter ∈ patterns of the frame's places for boards or for video. Valid for transmitters with
//! holes; one without is taped, and one on another board stands with that. Source: common practice, no source. When it fails,
//! the transmitter hangs on its leads, overheats in a corner, or pulls its antenna off.

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    derive::stack,
    finding::{Datum, Missing, Status, Unknown, Verdict},
    graph::{Reading, Site},
};

struct Inputs {
    video: Reading,
    pattern: Value,
    stacks: Reading,
    offered: Vec<Value>,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "video-pattern",
    title: "Place for the video transmitter",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::VideoTransmitter, Slot::Frame],
    formula: "pattern of the transmitter ∈ patterns for boards or for video",
    source: "common practice, no source",
    law: Law::Match,
    reads: stack::HEIGHT_READS,
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "The {video.part} has its holes at {required} mm; the {frame.part} has places at {available} mm",
        tight: "The {video.part}, drilled {required} mm, may find no place in the {frame.part}: {available} mm are listed",
        fits: "The video transmitter is screwed down at {required} mm",
        costs: "The transmitter hangs on its leads, overheats in a corner, or pulls its antenna off.",
    },
    hints: &["Use an adapter plate", "Choose a transmitter with one of the frame's patterns"],
    fails: Example { parts: ELSEWHERE, build: BUILD },
    passes: Example { parts: AT_THE_BACK, build: BUILD },
};

const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: VideoTransmitter, part: "v")]"#;
const ELSEWHERE: &str = r#"(id: "f", name: "Frame", fills: [Frame(stacks: [(pattern: "30.5x30.5")], video_patterns: ["20x20"])]),
    (id: "v", name: "Transmitter", fills: [VideoTransmitter(pattern: "25.5x25.5")])"#;
const AT_THE_BACK: &str = r#"(id: "f", name: "Frame", fills: [Frame(stacks: [(pattern: "30.5x30.5")], video_patterns: ["20x20"])]),
    (id: "v", name: "Transmitter", fills: [VideoTransmitter(pattern: "20x20")])"#;

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let boards = stack::boards(site);
    let loose = |video: &Reading| video.known.is_ok() && !boards.iter().any(|board| board.is(video.subject.as_ref()));
    site.all(stack::VIDEO).into_iter().filter(loose).map(|video| inputs(site, video)).collect()
}

fn inputs(site: &Site, video: Reading) -> Result<Inputs, Missing> {
    let (stacks, apart) = (site.one(stack::PLACES)?, site.one(stack::VIDEO_PLACES)?);
    let pattern = video.value()?.clone();
    let places = stack::places(&stacks);
    let of_places = places.iter().flatten().filter_map(|place| place.pattern.clone());
    let of_video = apart.items().into_iter().flatten().cloned();
    let offered: Vec<Value> = of_places.chain(of_video).collect();
    if !offered.contains(&pattern) {
        // What nobody published may be the place.
        apart.items()?;
        if places?.iter().any(|place| place.pattern.is_none()) {
            return Err(Missing { subject: stacks.subject.clone(), what: Unknown::Field("stacks.pattern") });
        }
    }
    Ok(Inputs { video, pattern, stacks, offered })
}

fn judge(inputs: &Inputs) -> Verdict {
    let status = if inputs.offered.contains(&inputs.pattern) { Status::Fits } else { Status::Mismatch };
    let (asked, there) = (Datum::Value(inputs.pattern.clone()), Datum::Value(Value::List(inputs.offered.clone())));
    Verdict::of_words(status, asked, there).softened(inputs.video.is_estimated() || inputs.stacks.is_estimated())
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("video", inputs.video.because.clone()), ("frame", inputs.stacks.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::{AT_THE_BACK, BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    fn found(from: &str, to: &str) -> Vec<Status> {
        assert!(AT_THE_BACK.contains(from), "{from}");
        verdicts(&RULE, &AT_THE_BACK.replace(from, to), BUILD)
    }

    #[test]
    fn a_place_in_the_stack_will_do() {
        assert_eq!(found(r#"(pattern: "20x20")"#, r#"(pattern: "30.5x30.5")"#), [Status::Fits]);
        assert_eq!(found(r#", video_patterns: ["20x20"]"#, ", video_patterns: []"), [Status::Mismatch]);
    }

    #[test]
    fn one_without_holes_is_taped() {
        assert_eq!(found(r#"VideoTransmitter(pattern: "20x20")"#, "VideoTransmitter()"), []);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(found(r#", video_patterns: ["20x20"]"#, ""), [Status::Unstated]);
        assert_eq!(found(r#"stacks: [(pattern: "30.5x30.5")], "#, ""), [Status::Fits], "its own place is known");
        let neither = r#"stacks: [(pattern: "30.5x30.5")], video_patterns: ["20x20"]"#;
        assert_eq!(found(neither, ""), [Status::Unstated]);
    }
}
