//! The video transmitter does not deafen the control receiver or the GPS beside it.
//!
//! Formula: analog video on 2400–2500 MHz with control on 2400–2500 MHz is a mismatch; video on 1200–1300 MHz beside 2400 MHz
//! control (its second harmonic) or GPS at 1575.42 MHz is tight. Valid for antennas on one craft. Source: common practice, no
//! source; GPS L1 by its interface specification. When it fails, control is lost as the picture is switched on.

use std::ops::RangeInclusive;

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, antenna_band::span, run};
use crate::{
    derive::ports::ANALOG,
    finding::{Datum, Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const CHANNELS: Property = part(Slot::VideoTransmitter, "channels_mhz");
const SIGNAL: Property = part(Slot::VideoTransmitter, "signal");
const CONTROL: Property = part(Slot::Receiver, "band_mhz");
const GPS: Property = part(Slot::Gps, "id");

/// Bands in Hz.
const LOW_VIDEO: RangeInclusive<i64> = 1_200_000_000..=1_300_000_000;
const SHARED: RangeInclusive<i64> = 2_400_000_000..=2_500_000_000;
const GPS_L1: i64 = 1_575_420_000;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "video-control-bands",
    title: "Video beside control and GPS",
    group: Group::Radio,
    weight: Weight::Finding,
    slots: &[Slot::VideoTransmitter, Slot::Receiver, Slot::Gps],
    formula: "analog video and control not both on 2400–2500 MHz; 1200–1300 MHz video beside 2400 MHz control or GPS is tight",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[CHANNELS, SIGNAL, CONTROL, GPS],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {other.part} and the {sender.part} share one band: {available} beside {required}",
        tight: "The {other.part} at {available} hears what the {sender.part} spills at {required}",
        fits: "The {other.part} at {available} and the {sender.part} at {required} keep out of each other's way",
        costs: "Control or position is lost as the picture is switched on, or the range shrinks.",
    },
    hints: &["Choose control or video on another band", "Set the antennas far apart, and put a low-pass filter on the video"],
    fails: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(band_mhz: 2440)]), (id: "v", name: "Sender", fills: [VideoTransmitter(signal: "analog", channels_mhz: [2410, 2430, 2450])])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: VideoTransmitter, part: "v")]"#,
    },
    passes: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(band_mhz: 2440)]), (id: "v", name: "Sender", fills: [VideoTransmitter(signal: "analog", channels_mhz: [5740, 5800])])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: VideoTransmitter, part: "v")]"#,
    },
};

struct Neighbours {
    sender: Reading,
    other: Reading,
    channels: Vec<i64>,
    heard: i64,
    analog: bool,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, facts)
}

fn gather(site: &Site) -> Vec<Result<Neighbours, Missing>> {
    let mut all = Vec::new();
    for (sender, signal) in site.all(CHANNELS).into_iter().zip(site.all(SIGNAL)) {
        let control = site.all(CONTROL).into_iter().map(|receiver| {
            let heard = receiver.figure()?.nominal;
            neighbours(&sender, &signal, receiver, heard)
        });
        all.extend(control);
        let beside_gps = site.all(GPS).into_iter().map(|gps| neighbours(&sender, &signal, gps, GPS_L1));
        all.extend(beside_gps.filter(|found| found.as_ref().is_ok_and(|found| some_in(found, &LOW_VIDEO))));
    }
    all
}

fn neighbours(sender: &Reading, signal: &Reading, other: Reading, heard: i64) -> Result<Neighbours, Missing> {
    let channels = sender.items()?.iter().filter_map(Value::steps).collect();
    let analog = signal.word()? == ANALOG;
    Ok(Neighbours { sender: sender.clone(), other, channels, heard, analog })
}

fn some_in(neighbours: &Neighbours, band: &RangeInclusive<i64>) -> bool {
    neighbours.channels.iter().any(|channel| band.contains(channel))
}

fn judge(neighbours: &Neighbours) -> Verdict {
    let control = SHARED.contains(&neighbours.heard);
    let all_shared = neighbours.channels.iter().all(|channel| SHARED.contains(channel));
    let shares = neighbours.analog && control && some_in(neighbours, &SHARED);
    let spills = (control || neighbours.heard == GPS_L1) && some_in(neighbours, &LOW_VIDEO);
    let status = match (shares, spills) {
        (true, _) if all_shared => Status::Mismatch,
        (false, false) => Status::Fits,
        _ => Status::Tight,
    };
    let heard = span(std::iter::once(neighbours.heard));
    Verdict::of_words(status, Datum::Figure(span(neighbours.channels.iter().copied())), Datum::Figure(heard))
}

fn facts(neighbours: &Neighbours) -> Facts {
    vec![("other", neighbours.other.because.clone()), ("sender", neighbours.sender.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    fn beside(video: &str, other: (&str, &str)) -> Vec<Status> {
        judged(&RULE, &[("VideoTransmitter", video, ""), (other.0, other.1, "")], "")
    }

    const CONTROL: (&str, &str) = ("Receiver", "band_mhz: 2440");

    #[test]
    fn one_band_for_both_is_a_mismatch() {
        assert_eq!(beside(r#"signal: "analog", channels_mhz: [2400, 2500]"#, CONTROL), [Status::Mismatch]);
        assert_eq!(beside(r#"signal: "analog", channels_mhz: [2400, 2501]"#, CONTROL), [Status::Tight]);
        assert_eq!(beside(r#"signal: "analog", channels_mhz: [2399, 2501]"#, CONTROL), [Status::Fits]);
        assert_eq!(beside(r#"signal: "analog", channels_mhz: [2400]"#, ("Receiver", "band_mhz: 868")), [Status::Fits]);
    }

    #[test]
    fn low_video_is_tight_beside_control_and_gps() {
        assert_eq!(beside(r#"signal: "analog", channels_mhz: [1240]"#, CONTROL), [Status::Tight]);
        assert_eq!(beside(r#"signal: "analog", channels_mhz: [1240]"#, ("Gps", "")), [Status::Tight]);
        assert_eq!(beside(r#"signal: "analog", channels_mhz: [1240]"#, ("Receiver", "band_mhz: 868")), [Status::Fits]);
        assert_eq!(beside(r#"signal: "analog", channels_mhz: [5800]"#, ("Gps", "")), []);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(beside(r#"signal: "analog""#, CONTROL), [Status::Unstated]);
        assert_eq!(beside("channels_mhz: [5800]", CONTROL), [Status::Unstated]);
        assert_eq!(beside(r#"signal: "analog", channels_mhz: [5800]"#, ("Receiver", "")), [Status::Unstated]);
    }
}
