//! Lengths that follow from several parts: gaps between tips, and how far the motor screws reach.

use propwright_schema::{
    part::{Guard, PackPlace, Thread},
    quantity::{Mm, Unit},
    slot::Slot,
    value::Value,
};

use super::Derivation;
use crate::{
    finding::{Datum, Missing, Unknown},
    graph::{Derived, Property, Reading, Site, derived, line, part},
    interval::{COUNT, Interval, RATIO},
};

const MOTORS: Property = part(Slot::Frame, "motors");
const DIAMETER: Property = part(Slot::Propeller, "diameter_in");
const SCREW: Property = part(Slot::MotorScrew, "length_mm");
const SCREW_THREAD: Property = part(Slot::MotorScrew, "thread");
const BETWEEN: Property = line(Slot::MotorScrew, "between_mm");
const ARM: Property = part(Slot::Frame, "arm_thickness_mm");
const COAXIAL: Property = part(Slot::Frame, "coaxial");
const GUARD: Property = part(Slot::Frame, "guard");
const DUCT: Property = part(Slot::Frame, "duct_inner_mm");
const STRAP: Property = part(Slot::Strap, "length_mm");
const PACK_WIDTH: Property = part(Slot::Battery, "width_mm");
const PACK_HEIGHT: Property = part(Slot::Battery, "height_mm");
const PACK_PLACE: Property = part(Slot::Frame, "pack_place");
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

/// How many motors the frame takes.
pub(crate) const MOTOR_PLACES: Derivation = Derivation {
    id: "motor-places",
    title: "motors that the frame takes",
    formula: "places, twice where two motors share an arm and the frame lists arms",
    source: "geometry",
    reads: &[MOTORS, COAXIAL],
    run: motor_places,
};

/// Gap between the tips and the duct.
pub(crate) const DUCT_GAP: Derivation = Derivation {
    id: "duct-gap",
    title: "gap between tips and duct",
    formula: "(inner diameter of the duct − diameter of the propeller) / 2",
    source: "geometry",
    reads: &[GUARD, DUCT, DIAMETER],
    run: duct_gap,
};

/// How far a strap grips itself.
pub(crate) const STRAP_GRIP: Derivation = Derivation {
    id: "strap-grip",
    title: "length by which the strap grips itself",
    formula: "length of the strap − 2 (width + height of the pack); the plate takes a few millimetres more",
    source: "geometry",
    reads: &[STRAP, PACK_WIDTH, PACK_HEIGHT, PACK_PLACE],
    run: strap_grip,
};

/// The middle of a rotor, in metres.
#[derive(Debug, Clone, Copy)]
pub(super) struct Hub {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) z: f64,
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
pub(super) fn hubs(motors: &Reading) -> Result<Vec<Hub>, Missing> {
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

fn motor_places(site: &Site) -> Vec<Derived> {
    let Ok(motors) = site.one(MOTORS) else { return Vec::new() };
    let coaxial = site.one(COAXIAL).ok().filter(|coaxial| coaxial.flag().is_ok());
    let count = || {
        let hubs = hubs(&motors)?;
        let shared = |(at, one): (usize, &Hub)| hubs[at + 1..].iter().any(|other| gap(*one, *other, 0.0).is_none());
        let lists_arms = !hubs.iter().enumerate().any(shared);
        let doubled = lists_arms && coaxial.as_ref().is_some_and(|coaxial| coaxial.flag() == Ok(true));
        let places = i64::try_from(hubs.len()).unwrap_or(i64::MAX);
        Ok(Interval::exact(if doubled { places.saturating_mul(2) } else { places }, &COUNT))
    };
    let known = count().map(Datum::Figure);
    let mut from = vec![motors.because.clone()];
    from.extend(coaxial.map(|coaxial| coaxial.because));
    vec![Derived { subject: motors.subject, known, from, count: 1 }]
}

fn duct_gap(site: &Site) -> Vec<Derived> {
    let (Ok(guard), Ok(duct)) = (site.one(GUARD), site.one(DUCT)) else { return Vec::new() };
    if guard.word() == Ok(Guard::Open.word()) {
        return Vec::new();
    }
    let to_tip = |propeller: Reading| {
        let gap = || {
            guard.word()?;
            let both = duct.figure()?.minus(propeller.figure()?);
            Ok(Datum::Figure(both.shown_in(&Mm::INFO).times(0.5)))
        };
        let known = gap();
        let from = vec![propeller.because, duct.because.clone(), guard.because.clone()];
        Derived { subject: propeller.subject, known, from, count: propeller.count }
    };
    site.all(DIAMETER).into_iter().map(to_tip).collect()
}

fn strap_grip(site: &Site) -> Vec<Derived> {
    // The walls of a bay hold the pack; a band only closes it.
    if site.one(PACK_PLACE).is_ok_and(|place| place.word() == Ok(PackPlace::Bay.word())) {
        return Vec::new();
    }
    let packs: Vec<(Reading, Reading)> = site.all(PACK_WIDTH).into_iter().zip(site.all(PACK_HEIGHT)).collect();
    let grip = |strap: &Reading, width: &Reading, height: &Reading| {
        let round = width.figure()?.plus(height.figure()?);
        Ok(Datum::Figure(strap.figure()?.minus(round).minus(round)))
    };
    let each = |strap: Reading| {
        let around = |(width, height): &(Reading, Reading)| Derived {
            subject: strap.subject.clone(),
            known: grip(&strap, width, height),
            from: vec![strap.because.clone(), width.because.clone(), height.because.clone()],
            count: strap.count,
        };
        packs.iter().map(around).collect::<Vec<_>>()
    };
    site.all(STRAP).into_iter().flat_map(each).collect()
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
