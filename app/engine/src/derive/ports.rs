//! What the boards' rails and serial ports must give, and what they offer.

use std::{collections::BTreeMap, sync::Arc};

use propwright_schema::{slot::Slot, value::Value};

use super::{
    Derivation,
    feed::{self, Rail, Source},
};
use crate::{
    craft::Subject,
    finding::{Because, Datum, Missing, Unknown},
    graph::{Derived, Property, Reading, Site, line, part},
    interval::{COUNT, Interval},
};

const STEPS: Property = part(Slot::VideoTransmitter, "steps");

/// What is drawn from each rail in use.
pub(crate) const RAIL_ASKED: Derivation = Derivation {
    id: "rail-asked",
    title: "current asked of the rail",
    formula: "I = Σ count · current of all that is fed from it, a video transmitter at its highest step",
    source: "the build list's wiring",
    reads: &feed::reads(STEPS),
    run: |site| rails(site).into_values().map(asked).collect(),
};

/// What each rail in use gives.
pub(crate) const RAIL_OFFERED: Derivation = Derivation {
    id: "rail-offered",
    title: "current of the rail",
    formula: "as printed",
    source: "the board's record",
    reads: &feed::reads(STEPS),
    run: |site| rails(site).into_values().map(offered).collect(),
};

/// A rail with what it feeds.
struct Loaded {
    rail: Rail,
    draws: Vec<(Result<Interval, Missing>, Arc<Because>, u32)>,
}

/// The rails in use by board and name.
fn rails(site: &Site) -> BTreeMap<(Slot, usize, Option<String>), Loaded> {
    let mut rails = BTreeMap::new();
    for fed in feed::fed(site) {
        if let Ok(Source::Rail(rail)) = fed.source {
            let key = (rail.board.slot, rail.board.index, rail.board.detail.clone());
            let loaded = rails.entry(key).or_insert_with(|| Loaded { rail, draws: Vec::new() });
            let (current, because) = draw(site, &fed.device);
            loaded.draws.push((current, because, fed.count));
        }
    }
    rails
}

fn draw(site: &Site, device: &Subject) -> (Result<Interval, Missing>, Arc<Because>) {
    let transmitter = device.slot == Slot::VideoTransmitter;
    let read = site.of(device, if transmitter { STEPS } else { part(device.slot, "current_a") });
    match read {
        Ok(reading) if transmitter => (highest_step(&reading), reading.because),
        Ok(reading) => (reading.figure(), reading.because),
        Err(missing) => (Err(missing.clone()), Because::plain(crate::finding::Claim::Missing(missing))),
    }
}

/// The largest draw of all power steps; not known as long as one step does not tell its own.
fn highest_step(steps: &Reading) -> Result<Interval, Missing> {
    let unknown = || Missing { subject: steps.subject.clone(), what: Unknown::Field("steps.current_a") };
    let each = steps.items()?.iter().map(|step| steps.inner_figure(step, "current_a").ok_or_else(unknown));
    each.collect::<Result<Vec<_>, _>>()?.into_iter().reduce(Interval::more).ok_or_else(unknown)
}

fn asked(loaded: Loaded) -> Derived {
    let from = loaded.draws.iter().map(|(_, because, _)| because.clone()).collect();
    let each = loaded.draws.into_iter().map(|(current, _, count)| current.map(|current| current.repeated(count)));
    let known = each.collect::<Result<Vec<_>, _>>().and_then(|each| {
        let nothing = Missing { subject: None, what: Unknown::Line("feed") };
        each.into_iter().reduce(Interval::plus).map(Datum::Figure).ok_or(nothing)
    });
    Derived { subject: Some(loaded.rail.board), known, from, count: 1 }
}

fn offered(loaded: Loaded) -> Derived {
    let (known, from) = match loaded.rail.figure("current_a") {
        Ok((current, because)) => (Ok(Datum::Figure(current)), vec![because]),
        Err(missing) => (Err(missing), Vec::new()),
    };
    Derived { subject: Some(loaded.rail.board), known, from, count: 1 }
}

/// The parts that can hang on a serial port.
pub(crate) const SERIAL: [Slot; 8] =
    [Slot::Esc, Slot::Receiver, Slot::Camera, Slot::VideoTransmitter, Slot::Gps, Slot::RemoteId, Slot::Finder, Slot::Payload];
const SIGNAL: Property = part(Slot::VideoTransmitter, "signal");
/// The word by which records call video that is not digital.
pub(crate) const ANALOG: &str = "analog";

const fn serial_reads() -> [Property; 2 * SERIAL.len() + 1] {
    let mut reads = [SIGNAL; 2 * SERIAL.len() + 1];
    let mut at = 0;
    while at < SERIAL.len() {
        reads[2 * at] = line(SERIAL[at], "uart");
        reads[2 * at + 1] = line(SERIAL[at], "listed");
        at += 1;
    }
    reads
}

/// Serial ports that the parts ask for.
pub(crate) const UARTS_ASKED: Derivation = Derivation {
    id: "uarts-asked",
    title: "serial ports asked for",
    formula: "parts that name one, and each receiver and GPS that is not on the board; at most one more a digital video transmitter",
    source: "common practice, no source",
    reads: &serial_reads(),
    run: |site| {
        let each: Vec<_> = SERIAL.iter().flat_map(|slot| serial(site, *slot)).collect();
        let from = each.iter().map(|(_, because)| because.clone()).collect();
        let all = each.into_iter().map(|(count, _)| count).reduce(Interval::plus);
        all.map(|all| Derived { subject: None, known: Ok(Datum::Figure(all)), from, count: 1 }).into_iter().collect()
    },
};

/// The serial ports that the parts of a slot ask for, each with the line that says so.
fn serial(site: &Site, slot: Slot) -> Vec<(Interval, Arc<Because>)> {
    let listed = site.all(line(slot, "listed"));
    let each = site.all(line(slot, "uart")).into_iter().zip(listed).filter(|(_, listed)| listed.flag().unwrap_or(true));
    let asks = |(uart, _): (Reading, Reading)| {
        let needs = uart.known.is_ok() || matches!(slot, Slot::Receiver | Slot::Gps);
        let wishes = needs || slot == Slot::VideoTransmitter && is_digital(site, uart.subject.as_ref());
        let count = |asked: bool| if asked { i64::from(uart.count) } else { 0 };
        let asked = Interval { low: count(needs), nominal: count(needs), high: count(wishes), unit: &COUNT };
        wishes.then(|| (asked, uart.because.clone()))
    };
    each.filter_map(asks).collect()
}

fn is_digital(site: &Site, transmitter: Option<&Subject>) -> bool {
    let signal = transmitter.and_then(|transmitter| site.of(transmitter, SIGNAL).ok());
    signal.is_some_and(|signal| signal.word().is_ok_and(|signal| signal != ANALOG))
}

const UARTS: Property = part(Slot::FlightController, "uarts");

/// Serial ports that the flight controller has free.
pub(crate) const UARTS_OFFERED: Derivation = Derivation {
    id: "uarts-offered",
    title: "free serial ports",
    formula: "serial ports that nothing on the board has taken",
    source: "the board's record",
    reads: &[UARTS],
    run: |site| {
        let free = |record: &&Value| record.field("taken").and_then(Value::flag) != Some(true);
        let of = |uarts: &Reading| {
            let count = |items: &[Value]| i64::try_from(items.iter().filter(free).count()).unwrap_or(i64::MAX);
            let known = uarts.items().map(|items| Interval::exact(count(items), &COUNT));
            Derived {
                subject: uarts.subject.clone(),
                known: known.map(Datum::Figure),
                from: vec![uarts.because.clone()],
                count: 1,
            }
        };
        site.all(UARTS).iter().take(1).map(of).collect()
    },
};
