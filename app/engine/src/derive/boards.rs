//! What boards, radio, video and payload draw besides the motors.

use propwright_schema::{
    quantity::{Unit, W},
    slot::Slot,
    value::Value,
};

use super::{Derivation, Model, gather::Gather};
use crate::{
    finding::Datum,
    graph::{OWN, PACK, PARTNER, Property, Reading, Site, derived, line, part},
    interval::Interval,
};

/// Draw and feed of each slot that counts; of a transmitter's powers the largest.
const DRAWS: [(Property, Property); 6] = [
    (part(Slot::FlightController, "current_a"), line(Slot::FlightController, "feed")),
    (part(Slot::Receiver, "current_a"), line(Slot::Receiver, "feed")),
    (part(Slot::Camera, "current_a"), line(Slot::Camera, "feed")),
    (part(Slot::VideoTransmitter, "steps.current_a"), line(Slot::VideoTransmitter, "feed")),
    (part(Slot::Gps, "current_a"), line(Slot::Gps, "feed")),
    (part(Slot::Payload, "current_a"), line(Slot::Payload, "feed")),
];
const FED: Property = derived("fed-volts-max");
const SOURCE: Property = derived("pack-model");

/// Volts of a board's own logic, and of a role on another part's board.
const LOGIC_V: f64 = 5.0;
/// Watts of a device whose draw nobody published.
const UNKNOWN_W: f64 = 1.0;

/// Draw of all that is no motor.
pub(crate) const DRAW: Derivation = Derivation {
    id: "board-draw",
    title: "draw of the boards, radio, video and payload",
    formula: "Σ count · I · V of the rail or the pack; controllers at 5 V; 1 W where no draw is published",
    source: "algebra; common practice, no source, for what is not published",
    reads: &[
        DRAWS[0].0, DRAWS[0].1, DRAWS[1].0, DRAWS[1].1, DRAWS[2].0, DRAWS[2].1, DRAWS[3].0, DRAWS[3].1, DRAWS[4].0, DRAWS[4].1,
        DRAWS[5].0, DRAWS[5].1, FED, SOURCE,
    ],
    run: |site| {
        let mut gather = Gather::new(site);
        let pack_v = pack_volts(&mut gather);
        let mut watts = 0.0;
        for (draw, feed) in DRAWS {
            for reading in site.all(draw) {
                watts += one(site, &mut gather, &reading, feed, pack_v) * f64::from(reading.count);
            }
        }
        gather.one(Ok(Datum::Figure(Interval::outward(watts, watts, watts, &W::INFO))))
    },
};

/// Volts of the half-charged pack at rest.
fn pack_volts(gather: &mut Gather) -> f64 {
    let source = gather.reading(SOURCE);
    match source.as_ref().and_then(|reading| reading.model().ok()).map(|model| &**model) {
        Some(Model::Pack(pack, _)) => pack.rest_voltage(0.5).unwrap_or(LOGIC_V),
        _ => LOGIC_V,
    }
}

fn one(site: &Site, gather: &mut Gather, draw: &Reading, feed: Property, pack_v: f64) -> f64 {
    let Some(subject) = &draw.subject else { return 0.0 };
    let word = site.of(subject, feed).ok().and_then(|feed| feed.word().map(str::to_owned).ok());
    let amps = draw.items().ok().and_then(|items| items.iter().filter_map(Value::si).reduce(f64::max));
    match (word.as_deref(), amps) {
        (Some(OWN), _) | (Some(PARTNER), None) => 0.0,
        (_, None) => {
            gather.assume("1 W for a device whose draw is not published", None);
            UNKNOWN_W
        }
        (word, Some(amps)) => {
            gather.from.push(draw.because.clone());
            let rail = || site.of(subject, FED).ok().and_then(|fed| Some((fed.si().ok()?, fed.because)));
            match word {
                _ if subject.slot == Slot::FlightController => LOGIC_V * amps,
                Some(PACK) => pack_v * amps,
                _ => {
                    rail().map_or(LOGIC_V, |(volts, because)| {
                        gather.from.push(because);
                        volts
                    }) * amps
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::rules::trial::figure;

    const PARTS: &str = r#"(id: "c", name: "Controller", fills: [FlightController(current_a: 0.2,
            rails: [(name: "5V", volts_v: 5), (name: "9V", volts_v: 9)])]),
        (id: "b", name: "Pack", fills: [Battery(chemistry: LiPo, cells: 6, capacity_mah: 1300)]),
        (id: "v", name: "Video", fills: [VideoTransmitter(steps: [(power_mw: 25, current_a: 0.3), (power_mw: 400, current_a: 0.8)])]),
        (id: "g", name: "Gps", fills: [Gps()])"#;

    fn watts(feed: &str, more: &str) -> f64 {
        let build = format!(
            r#"parts: [(slot: FlightController, part: "c", feed: Pack), (slot: Battery, part: "b"),
            (slot: VideoTransmitter, part: "v", feed: {feed}){more}]"#
        );
        figure(PARTS, &build, "board-draw").decimals()[1]
    }

    #[test]
    fn each_is_taken_at_its_own_volts() {
        // By hand: 0.2 A at 5 V, and 0.8 A at 9 V, at 5 V, at 6 · 3.84 V or from its own battery.
        for (feed, expected) in [("Rail(\"9V\")", 8.2), ("Rail(\"5V\")", 5.0), ("Pack", 19.432), ("Own", 1.0)] {
            assert!((watts(feed, "") - expected).abs() < 1e-9, "{feed}: {}", watts(feed, ""));
        }
    }

    #[test]
    fn an_unpublished_draw_is_a_watt() {
        let with = watts("Own", r#", (slot: Gps, part: "g", feed: Rail("5V"))"#);
        assert!((with - 2.0).abs() < 1e-9, "{with}");
    }
}
