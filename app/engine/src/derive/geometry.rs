//! Lengths that follow from several parts: gaps between tips, and how far the motor screws reach.

use propwright_schema::{
    part::Thread,
    quantity::{Mm, Unit},
    slot::Slot,
    value::Value,
};

use super::Derivation;
use crate::{
    finding::{Datum, Missing, Unknown},
    graph::{Derived, Property, Reading, Site, derived, line, part},
    interval::{Interval, RATIO},
};

const MOTORS: Property = part(Slot::Frame, "motors");
const DIAMETER: Property = part(Slot::Propeller, "diameter_in");
const SCREW: Property = part(Slot::MotorScrew, "length_mm");
const SCREW_THREAD: Property = part(Slot::MotorScrew, "thread");
const BETWEEN: Property = line(Slot::MotorScrew, "between_mm");
const ARM: Property = part(Slot::Frame, "arm_thickness_mm");
const ENGAGEMENT: Property = derived("screw-engagement");

/// Gap between the tips of the two propellers that come closest.
pub(crate) const TIP_GAP: Derivation = Derivation {
    id: "tip-gap",
    title: "gap between the tips of neighbouring propellers",
    formula: "least over all pairs of d − D in one plane, of √(max(d − D, 0)² + Δz²) in two; d hub distance, D diameter",
    source: "distance of two parallel discs, geometry",
    reads: &[MOTORS, DIAMETER],
    run: tip_gap,
};

/// How far the motor screws reach into the motor.
pub(crate) const SCREW_ENGAGEMENT: Derivation = Derivation {
    id: "screw-engagement",
    title: "reach of the screw into the motor",
    formula: "length under the head − arm − washers and pads as listed",
    source: "geometry",
    reads: &[SCREW, ARM, BETWEEN],
    run: screw_engagement,
};

/// By how many turns the motor screws hold.
pub(crate) const SCREW_TURNS: Derivation = Derivation {
    id: "screw-turns",
    title: "turns of the screw in the motor",
    formula: "reach of the screw into the motor / pitch of its thread",
    source: "pitch: ISO 261, coarse series",
    reads: &[ENGAGEMENT, SCREW_THREAD],
    run: screw_turns,
};

/// The middle of a rotor, in metres.
#[derive(Debug, Clone, Copy)]
struct Hub {
    x: f64,
    y: f64,
    z: f64,
}

/// Hubs closer than this, in metres, stand one above the other on one arm.
const SAME_ARM: f64 = 1e-3;

/// The gap between two rotors of the diameter `d`; `None` for the two of one arm.
fn gap(one: Hub, other: Hub, d: f64) -> Option<f64> {
    let apart = (one.x - other.x).hypot(one.y - other.y);
    let height = (one.z - other.z).abs();
    let beside = apart - d;
    (apart > SAME_ARM).then(|| if height == 0.0 { beside } else { beside.max(0.0).hypot(height) })
}

/// The motor places of a frame.
fn hubs(motors: &Reading) -> Result<Vec<Hub>, Missing> {
    let unknown = || Missing { subject: motors.subject.clone(), what: Unknown::Field("motors") };
    let hub = |place: &Value| {
        let at = |field| place.field(field).and_then(Value::si);
        Ok(Hub { x: at("x_mm").ok_or_else(unknown)?, y: at("y_mm").ok_or_else(unknown)?, z: at("z_mm").unwrap_or(0.0) })
    };
    motors.items()?.iter().map(hub).collect()
}

fn tip_gap(site: &Site) -> Vec<Derived> {
    let (Ok(motors), propellers) = (site.one(MOTORS), site.all(DIAMETER)) else { return Vec::new() };
    // Of several kinds of propellers the largest decides; one that nobody published comes first.
    let size = |reading: &Reading| reading.figure().map_or(i64::MAX, |diameter| diameter.nominal);
    let Some(largest) = propellers.iter().max_by_key(|reading| size(reading)) else { return Vec::new() };
    let least = || {
        let (hubs, diameter) = (hubs(&motors)?, largest.si()?);
        let pairs = hubs.iter().enumerate().flat_map(|(at, one)| hubs[at + 1..].iter().map(move |other| (*one, *other)));
        let least = pairs.filter_map(|(one, other)| gap(one, other, diameter)).min_by(f64::total_cmp);
        least.ok_or_else(|| Missing { subject: motors.subject.clone(), what: Unknown::Field("motors") })
    };
    let known = least().map(|gap| Datum::Figure(Interval::outward(gap, gap, gap, &Mm::INFO)));
    vec![Derived { subject: largest.subject.clone(), known, from: vec![largest.because.clone(), motors.because], count: 1 }]
}

fn screw_engagement(site: &Site) -> Vec<Derived> {
    let Ok(arm) = site.one(ARM) else { return Vec::new() };
    let screws = site.all(SCREW).into_iter().zip(site.all(BETWEEN));
    let reach = |(screw, between): (Reading, Reading)| {
        let reach = || {
            let through_arm = screw.figure()?.minus(arm.figure()?);
            // A washer that the list does not name is not there.
            Ok(between.figure().map_or(through_arm, |between| through_arm.minus(between)))
        };
        let known = reach().map(Datum::Figure);
        let mut from = vec![screw.because, arm.because.clone()];
        from.extend(between.known.is_ok().then_some(between.because));
        Derived { subject: screw.subject, known, from, count: screw.count }
    };
    screws.map(reach).collect()
}

fn screw_turns(site: &Site) -> Vec<Derived> {
    let screws = site.all(ENGAGEMENT).into_iter().zip(site.all(SCREW_THREAD));
    let turns = |(reach, thread): (Reading, Reading)| {
        let turns = || {
            let (reach, word) = (reach.figure()?, thread.word()?);
            let thread_of = Thread::ALL.iter().find(|thread| thread.word() == word);
            let unknown = || Missing { subject: thread.subject.clone(), what: Unknown::Field("thread") };
            let pitch = thread_of.map(|thread| thread.pitch().si().value).ok_or_else(unknown)?;
            let [low, nominal, high] =
                [reach.low, reach.nominal, reach.high].map(|end| end as f64 * reach.unit.si_per_step / pitch);
            Ok(Interval::outward(low, nominal, high, &RATIO))
        };
        let known = turns().map(Datum::Figure);
        Derived { subject: reach.subject, known, from: vec![reach.because, thread.because], count: reach.count }
    };
    screws.map(turns).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn hub(x: f64, y: f64, z: f64) -> Hub {
        Hub { x, y, z }
    }

    #[test]
    fn discs_keep_their_distance() {
        // Hubs on a 3-4-5 triangle, 250 mm apart, under 127 mm propellers.
        let beside = gap(hub(0.0, 0.0, 0.0), hub(0.15, 0.2, 0.0), 0.127).unwrap();
        assert!((beside - 0.123).abs() < 1e-12, "{beside}");
        // Overlapping rotors in one plane hit one another; 30 mm above, they pass.
        assert!(gap(hub(0.0, 0.0, 0.0), hub(0.1, 0.0, 0.0), 0.127).unwrap() < 0.0);
        assert!((gap(hub(0.0, 0.0, 0.0), hub(0.1, 0.0, 0.03), 0.127).unwrap() - 0.03).abs() < 1e-12);
        // Discs 3 mm beside and 4 mm above one another are 5 mm apart.
        assert!((gap(hub(0.0, 0.0, 0.0), hub(0.13, 0.0, 0.004), 0.127).unwrap() - 0.005).abs() < 1e-12);
    }

    #[test]
    fn two_of_one_arm_are_no_neighbours() {
        assert_eq!(gap(hub(0.1, 0.1, 0.0), hub(0.1, 0.1, 0.05), 0.4), None);
    }
}
