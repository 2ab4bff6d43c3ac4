//! An antenna is made for the frequencies that it shall send or hear.
//!
//! Formula: `f_low ≤ f ≤ f_high` for every channel f in MHz; some channels outside are tight, all of them a mismatch. Valid for
//! antennas with a published range; the video transmitter's channels count for the goggles, too. Source: common practice, no
//! source. When it fails, most of the power is thrown back into the transmitter, and the range shrinks to metres.

use propwright_schema::{
    quantity::{MHz, Unit},
    slot::Slot,
    value::Value,
};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Datum, Missing, Outcome, Status, Unknown, Verdict},
    graph::{Property, Reading, Site, part},
    interval::Interval,
};

const VIDEO: Property = part(Slot::VideoTransmitter, "channels_mhz");
const CONTROL: Property = part(Slot::Receiver, "band_mhz");
const PAIRS: [(Property, Slot); 3] =
    [(VIDEO, Slot::AntennaVideo), (VIDEO, Slot::AntennaGoggles), (CONTROL, Slot::AntennaControl)];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "antenna-band",
    title: "Antennas for the band",
    group: Group::Radio,
    weight: Weight::Finding,
    slots: &[Slot::VideoTransmitter, Slot::AntennaVideo, Slot::AntennaGoggles, Slot::Receiver, Slot::AntennaControl],
    formula: "lowest ≤ channel ≤ highest for every channel",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[
        VIDEO,
        CONTROL,
        part(Slot::AntennaVideo, "lowest_mhz"),
        part(Slot::AntennaVideo, "highest_mhz"),
        part(Slot::AntennaGoggles, "lowest_mhz"),
        part(Slot::AntennaGoggles, "highest_mhz"),
        part(Slot::AntennaControl, "lowest_mhz"),
        part(Slot::AntennaControl, "highest_mhz"),
    ],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {lowest.part} is made for {lowest} to {highest}; the {device.part} works around {required}",
        tight: "The {lowest.part} is made for {lowest} to {highest}; some channels of the {device.part}, {required}, lie outside",
        fits: "The {lowest.part} covers the {required} of the {device.part}",
        costs: "Most of the power is thrown back into the transmitter, and the range shrinks to metres.",
    },
    hints: &["Choose an antenna for the band", "Fly on the channels that the antenna covers"],
    fails: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(band_mhz: 868)]), (id: "a", name: "Antenna", fills: [Antenna(lowest_mhz: 2400, highest_mhz: 2500)])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: AntennaControl, part: "a")]"#,
    },
    passes: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(band_mhz: 2440)]), (id: "a", name: "Antenna", fills: [Antenna(lowest_mhz: 2400, highest_mhz: 2500)])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: AntennaControl, part: "a")]"#,
    },
};

struct Tuned {
    device: Reading,
    lowest: Reading,
    highest: Reading,
    channels: Vec<i64>,
    range: [i64; 2],
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, facts)
}

fn gather(site: &Site) -> Vec<Result<Tuned, Missing>> {
    let mut all = Vec::new();
    for (device, antenna) in PAIRS {
        for device in site.all(device) {
            let ends = site.all(part(antenna, "lowest_mhz")).into_iter().zip(site.all(part(antenna, "highest_mhz")));
            all.extend(ends.map(|(lowest, highest)| tuned(device.clone(), lowest, highest)));
        }
    }
    all
}

fn tuned(device: Reading, lowest: Reading, highest: Reading) -> Result<Tuned, Missing> {
    let channels: Vec<i64> = device.items()?.iter().filter_map(Value::steps).collect();
    if channels.is_empty() {
        return Err(Missing { subject: device.subject, what: Unknown::Field("channels_mhz") });
    }
    Ok(Tuned { range: [lowest.figure()?.nominal, highest.figure()?.nominal], channels, device, lowest, highest })
}

fn judge(tuned: &Tuned) -> Verdict {
    let [low, high] = tuned.range;
    let inside = tuned.channels.iter().filter(|channel| (low..=high).contains(*channel)).count();
    let status = match inside {
        0 => Status::Mismatch,
        _ if inside < tuned.channels.len() => Status::Tight,
        _ => Status::Fits,
    };
    let channels = span(tuned.channels.iter().copied());
    Verdict::of_words(status, Datum::Figure(channels), Datum::Figure(span(tuned.range.into_iter())))
}

/// Frequencies from the lowest to the highest as one figure with a band.
pub(super) fn span(steps: impl Iterator<Item = i64> + Clone) -> Interval {
    let (low, high) = (steps.clone().min().unwrap_or_default(), steps.max().unwrap_or_default());
    Interval { low, nominal: i64::midpoint(low, high), high, unit: &MHz::INFO }
}

fn facts(tuned: &Tuned) -> Facts {
    vec![
        ("lowest", tuned.lowest.because.clone()),
        ("highest", tuned.highest.because.clone()),
        ("device", tuned.device.because.clone()),
    ]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    fn antenna(channels: &str, range: &str) -> Vec<Status> {
        judged(&RULE, &[("VideoTransmitter", channels, ""), ("AntennaVideo", range, "")], "")
    }

    #[test]
    fn edges_count_as_inside() {
        let channels = "channels_mhz: [5660, 5800, 5914]";
        assert_eq!(antenna(channels, "lowest_mhz: 5660, highest_mhz: 5914"), [Status::Fits]);
        assert_eq!(antenna(channels, "lowest_mhz: 5661, highest_mhz: 5914"), [Status::Tight]);
        assert_eq!(antenna(channels, "lowest_mhz: 2400, highest_mhz: 2500"), [Status::Mismatch]);
    }

    #[test]
    fn goggles_hear_the_transmitters_channels() {
        let goggles = ("AntennaGoggles", "lowest_mhz: 1230, highest_mhz: 1320", "");
        assert_eq!(judged(&RULE, &[("VideoTransmitter", "channels_mhz: [5800]", ""), goggles], ""), [Status::Mismatch]);
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(antenna("", "lowest_mhz: 5600, highest_mhz: 5900"), [Status::Unstated]);
        assert_eq!(antenna("channels_mhz: []", "lowest_mhz: 5600, highest_mhz: 5900"), [Status::Unstated]);
        assert_eq!(antenna("channels_mhz: [5800]", "lowest_mhz: 5600"), [Status::Unstated]);
    }
}
