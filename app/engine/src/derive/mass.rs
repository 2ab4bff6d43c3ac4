//! Masses: dry, and at take-off.

use std::sync::Arc;

use propwright_schema::{
    quantity::{G, Unit},
    slot::Slot,
};

use super::Derivation;
use crate::{
    estimated::OTHER_SIGMA,
    finding::{Because, Claim, Datum, Missing},
    graph::{Derived, Property, Reading, Site, build, derived, line, part},
    interval::Interval,
};

/// One standard deviation of a maker's mass (from memory), and of one that was weighed.
pub(crate) const LISTED_SIGMA: f64 = 0.03;
/// Half the width of a band from P5 to P95 in standard deviations.
const BAND: f64 = 1.645;
/// Wire, solder, screws, printed parts as a share of the dry mass: usual, low, high. Common practice, no source.
const WIRING: [f64; 3] = [0.05, 0.02, 0.09];

const DRY_SLOTS: [Slot; 20] = [
    Slot::Frame,
    Slot::Motor,
    Slot::MotorScrew,
    Slot::Propeller,
    Slot::Esc,
    Slot::Capacitor,
    Slot::FlightController,
    Slot::Regulator,
    Slot::PowerBoard,
    Slot::AntiSpark,
    Slot::PackSelector,
    Slot::Strap,
    Slot::Receiver,
    Slot::AntennaControl,
    Slot::Camera,
    Slot::VideoTransmitter,
    Slot::AntennaVideo,
    Slot::Gps,
    Slot::RemoteId,
    Slot::Finder,
];

/// Two properties for each dry slot, made at compile time.
const fn dry_reads() -> [Property; 2 * DRY_SLOTS.len()] {
    let mut reads = [part(Slot::Frame, "mass_g"); 2 * DRY_SLOTS.len()];
    let mut at = 0;
    while at < DRY_SLOTS.len() {
        reads[2 * at] = part(DRY_SLOTS[at], "mass_g");
        reads[2 * at + 1] = line(DRY_SLOTS[at], "listed");
        at += 1;
    }
    reads
}

/// Mass without packs and payload.
pub(crate) const DRY: Derivation = Derivation {
    id: "dry-mass",
    title: "dry mass",
    formula: "sum of the parts' masses, each with 3 % (1σ)",
    source: "algebra; 3 % from memory",
    reads: &dry_reads(),
    run: |site| sum(site, &DRY_SLOTS),
};

/// Mass of the packs.
pub(crate) const PACKS: Derivation = Derivation {
    id: "pack-mass",
    title: "mass of the packs",
    formula: "sum of the packs' masses",
    source: "algebra; 3 % from memory",
    reads: &[part(Slot::Battery, "mass_g"), line(Slot::Battery, "listed")],
    run: |site| sum(site, &[Slot::Battery]),
};

const DRY_MASS: Property = derived("dry-mass");
const PACK_MASS: Property = derived("pack-mass");
const CARRIED_MASS: Property = derived("payload-mass");
const CARRIED: Property = part(Slot::Payload, "mass_g");
const CARRIED_LISTED: Property = line(Slot::Payload, "listed");
const WISHED: Property = build("purpose.payload_g");
const WEIGHED: Property = build("weighed_g");

/// Mass of the payload.
pub(crate) const PAYLOAD: Derivation = Derivation {
    id: "payload-mass",
    title: "payload",
    formula: "payload parts + payload of the purpose",
    source: "algebra; 3 % from memory",
    reads: &[CARRIED, CARRIED_LISTED, WISHED],
    run: payload,
};

fn payload(site: &Site) -> Vec<Derived> {
    let wished = site.one(WISHED).ok().and_then(|reading| Some((reading.figure().ok()?, reading.because)));
    match (sum(site, &[Slot::Payload]).pop(), wished) {
        (Some(carried), None) => vec![carried],
        (None, Some((mass, because))) => {
            vec![Derived { subject: None, known: Ok(Datum::Figure(mass)), from: vec![because], count: 1 }]
        }
        (Some(mut carried), Some((mass, because))) => {
            carried.known = carried.known.map(|datum| datum.figure().map_or(datum, |sum| Datum::Figure(add(&[sum, mass]))));
            carried.from.push(because);
            vec![carried]
        }
        (None, None) => Vec::new(),
    }
}

/// Mass at take-off.
pub(crate) const TAKEOFF: Derivation = Derivation {
    id: "takeoff-mass",
    title: "take-off mass",
    formula: "m = dry + packs + payload + 5 % (2–9 %) of dry for wire, solder, screws, until weighed",
    source: "common practice, no source",
    reads: &[DRY_MASS, PACK_MASS, CARRIED_MASS, WEIGHED],
    run: takeoff,
};

fn takeoff(site: &Site) -> Vec<Derived> {
    let Ok(dry) = site.one(DRY_MASS) else { return Vec::new() };
    let weighed = site.one(WEIGHED).ok().filter(|reading| reading.known.is_ok());
    if let Some(weighed) = weighed {
        let known = weighed.figure().map(Datum::Figure);
        let mut from = vec![weighed.because];
        if let Ok(carried) = site.one(CARRIED_MASS).and_then(|carried| carried.figure()) {
            from.push(Because::assumption("the payload was aboard when it was weighed", Some(Datum::Figure(carried))));
        }
        return vec![Derived { subject: None, known, from, count: 1 }];
    }
    let others: Vec<Reading> = [PACK_MASS, CARRIED_MASS].into_iter().filter_map(|mass| site.one(mass).ok()).collect();
    let mut from: Vec<Arc<Because>> = vec![dry.because.clone()];
    from.extend(others.iter().map(|reading| reading.because.clone()));
    let known = total(&dry, &others);
    if let Ok((_, wiring)) = &known {
        from.push(Because::assumption("wire, solder, screws and printed parts as usual", Some(Datum::Figure(*wiring))));
    }
    vec![Derived { subject: None, known: known.map(|(mass, _)| Datum::Figure(mass)), from, count: 1 }]
}

fn total(dry: &Reading, others: &[Reading]) -> Result<(Interval, Interval), Missing> {
    let dry = dry.figure()?;
    let [usual, low, high] = WIRING.map(|share| dry.si() * share);
    let wiring = Interval::outward(low, usual, high, &G::INFO);
    let mut parts = vec![dry, wiring];
    for other in others {
        parts.push(other.figure()?);
    }
    Ok((add(&parts), wiring))
}

/// The sum of independent figures: nominals add, half-widths add in squares.
fn add(parts: &[Interval]) -> Interval {
    let si = |steps: i64| steps as f64 * G::INFO.si_per_step;
    let nominal: f64 = parts.iter().map(|part| si(part.nominal)).sum();
    let half = |end: fn(&Interval) -> i64| parts.iter().map(|part| si(end(part)).powi(2)).sum::<f64>().sqrt();
    let (below, above) = (half(|part| part.nominal - part.low), half(|part| part.high - part.nominal));
    Interval::outward(nominal - below, nominal, nominal + above, &G::INFO)
}

fn sum(site: &Site, slots: &[Slot]) -> Vec<Derived> {
    let mut from = Vec::new();
    let mut masses = Vec::new();
    let mut unknown = None;
    for slot in slots {
        let listed = site.all(line(*slot, "listed"));
        for (reading, listed) in site.all(part(*slot, "mass_g")).iter().zip(&listed) {
            // A part with several roles weighs once, where it is listed.
            if !listed.flag().unwrap_or(true) {
                continue;
            }
            match reading.figure() {
                Ok(mass) => masses.push(spread(mass, reading)),
                Err(missing) => unknown = unknown.or(Some(missing)),
            }
            from.push(of_all(reading));
        }
    }
    if from.is_empty() {
        return Vec::new();
    }
    let known = unknown.map_or_else(|| Ok(Datum::Figure(add(&masses))), Err);
    vec![Derived { subject: None, known, from, count: 1 }]
}

/// The reason of a line's mass: of several pieces, the sum over them.
fn of_all(reading: &Reading) -> Arc<Because> {
    let Some(one) = reading.figure().ok().filter(|_| reading.count > 1) else { return reading.because.clone() };
    let claim = Claim::Derived {
        subject: reading.subject.clone(),
        title: "mass of all",
        datum: Datum::Figure(one.repeated(reading.count)),
        formula: "count · mass of one",
        source: "arithmetic",
    };
    Arc::new(Because { claim, from: vec![reading.because.clone()] })
}

/// All pieces of a line with the spread of a listed mass, or of an estimated one.
fn spread(mass: Interval, reading: &Reading) -> Interval {
    let nominal = mass.si() * f64::from(reading.count);
    let sigma = if reading.is_estimated() { OTHER_SIGMA } else { LISTED_SIGMA };
    let half = nominal * sigma * BAND;
    Interval::outward(nominal - half, nominal, nominal + half, &G::INFO)
}
