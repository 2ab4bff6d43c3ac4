//! No harmonic of what the receiver sends back falls into the video.
//!
//! Formula: `|k·f_control − f_video| ≥ 30 MHz` for k = 2 and 3 and every channel. Valid for receivers that answer (telemetry). Source: common practice,
//! no source. When it fails, the picture shows stripes whenever the receiver answers.

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, part},
    policy::HARMONIC_ROOM,
};

const CONTROL: Property = part(Slot::Receiver, "band_mhz");
const CHANNELS: Property = part(Slot::VideoTransmitter, "channels_mhz");
/// Harmonics that are strong enough to matter.
const HARMONICS: [i64; 2] = [2, 3];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "control-harmonic",
    title: "Harmonics of the control link",
    group: Group::Radio,
    weight: Weight::Finding,
    slots: &[Slot::Receiver, Slot::VideoTransmitter],
    formula: "|k·f_control − f_video| ≥ 30 MHz, k = 2, 3",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[CONTROL, CHANNELS],
    form: Form::Solved(|site| run(site, gather, judge, |inputs| facts(inputs, site))),
    says: Says {
        mismatch: "",
        tight: "A harmonic of the {control.part} at {control} falls beside a channel of the {video.part}",
        fits: "The harmonics of the control link miss the video",
        costs: "Stripes in the picture whenever the receiver answers.",
    },
    hints: &["Choose control or video on another band", "Choose the channel farthest from the harmonic"],
    fails: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(band_mhz: 433)]), (id: "v", name: "Sender", fills: [VideoTransmitter(channels_mhz: [1258, 1280])])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: VideoTransmitter, part: "v")]"#,
    },
    passes: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(band_mhz: 868)]), (id: "v", name: "Sender", fills: [VideoTransmitter(channels_mhz: [1258, 1280])])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: VideoTransmitter, part: "v")]"#,
    },
};

struct Inputs {
    control: Reading,
    video: Reading,
    near: bool,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let room = site.policy().tight(&HARMONIC_ROOM).map_or(0, |room| room.nominal);
    let pairs = site.all(CONTROL).into_iter().flat_map(|control| {
        let with = move |video: Reading| (control.clone(), video);
        site.all(CHANNELS).into_iter().map(with).collect::<Vec<_>>()
    });
    let inputs = |(control, video): (Reading, Reading)| {
        let hertz = control.figure()?.nominal;
        let beside = |channel: i64| HARMONICS.iter().any(|k| (k.saturating_mul(hertz) - channel).abs() < room);
        let near = video.items()?.iter().filter_map(Value::steps).any(beside);
        Ok(Inputs { control, video, near })
    };
    pairs.map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.near { Status::Tight } else { Status::Fits })
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    let limit = site.threshold(&HARMONIC_ROOM);
    vec![("control", inputs.control.because.clone()), ("video", inputs.video.because.clone()), ("limit", limit)]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn just_passes_just_fails() {
        let beside =
            |control: &str, channel: &str| judged(&RULE, &[("Receiver", control, ""), ("VideoTransmitter", channel, "")], "");
        // 3 × 433 MHz = 1299 MHz.
        assert_eq!(beside("band_mhz: 433", "channels_mhz: [1269]"), [Status::Fits]);
        assert_eq!(beside("band_mhz: 433", "channels_mhz: [1240, 1270]"), [Status::Tight]);
        assert_eq!(beside("band_mhz: 640", "channels_mhz: [1300]"), [Status::Tight]);
        assert_eq!(beside("", "channels_mhz: [1270]"), [Status::Unstated]);
    }
}
