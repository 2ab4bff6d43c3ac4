//! Lengths of what joins parts: shafts through hubs, motor leads to the speed controller, a capacitor between the plates.

use propwright_schema::{
    part::PropellerFixing,
    quantity::{Mm, Unit},
    slot::Slot,
    value::Value,
};

use super::{
    Derivation,
    geometry::{Hub, hubs},
};
use crate::{
    finding::{Datum, Missing, Unknown},
    graph::{Derived, Property, Reading, Site, part},
    interval::Interval,
};

const SHAFT: Property = part(Slot::Motor, "shaft_length_mm");
const FIXING: Property = part(Slot::Motor, "fixing");
const HUB: Property = part(Slot::Propeller, "hub_mm");

/// What of the shaft holds the propeller.
pub(crate) const SHAFT_HOLD: Derivation = Derivation {
    id: "shaft-hold",
    title: "length of the shaft that holds the propeller",
    formula: "under a nut: shaft − hub, the thread left; pressed on: the lesser of shaft and hub",
    source: "geometry",
    reads: &[SHAFT, FIXING, HUB],
    run: shaft_hold,
};

/// Two screws hold beside the shaft, whatever its length.
fn shaft_hold(site: &Site) -> Vec<Derived> {
    let motors: Vec<(Reading, Reading)> = site.all(SHAFT).into_iter().zip(site.all(FIXING)).collect();
    let hold = |shaft: &Reading, fixing: &Reading, hub: &Reading| {
        let nut = fixing.word()? == PropellerFixing::Nut.word();
        let (shaft, hub) = (shaft.figure()?, hub.figure()?);
        Ok(Datum::Figure(if nut { shaft.minus(hub) } else { shaft.less(hub) }))
    };
    let by_shaft = |(_, fixing): &&(Reading, Reading)| fixing.word() != Ok(PropellerFixing::TwoScrews.word());
    let each = |hub: Reading| {
        let on = |(shaft, fixing): &(Reading, Reading)| Derived {
            subject: hub.subject.clone(),
            known: hold(shaft, fixing, &hub),
            from: vec![shaft.because.clone(), fixing.because.clone(), hub.because.clone()],
            count: hub.count,
        };
        motors.iter().filter(by_shaft).map(on).collect::<Vec<_>>()
    };
    site.all(HUB).into_iter().flat_map(each).collect()
}

const PLACES: Property = part(Slot::Frame, "motors");
const STACKS: Property = part(Slot::Frame, "stacks");
const LEADS: Property = part(Slot::Motor, "lead_length_mm");
const CHANNELS: Property = part(Slot::Esc, "channels");

/// What of the motor leads is left at the board.
pub(crate) const LEADS_LEFT: Derivation = Derivation {
    id: "leads-left",
    title: "motor lead left at the speed controller",
    formula: "length of the leads − distance from the farthest motor to the nearest place for boards",
    source: "geometry",
    reads: &[PLACES, STACKS, LEADS, CHANNELS],
    run: leads_left,
};

/// A controller with one channel lies on its arm: there the leads always reach.
fn leads_left(site: &Site) -> Vec<Derived> {
    let (Ok(motors), Ok(stacks)) = (site.one(PLACES), site.one(STACKS)) else { return Vec::new() };
    let one_board = site.one(CHANNELS).and_then(|channels| channels.figure()).is_ok_and(|channels| channels.nominal > 1);
    if !one_board {
        return Vec::new();
    }
    let left = |leads: &Reading| {
        let (hubs, places) = (hubs(&motors)?, middles(&stacks)?);
        let unknown = || Missing { subject: stacks.subject.clone(), what: Unknown::Field("stacks") };
        let to_nearest = |hub: &Hub| places.iter().map(|(x, y)| (hub.x - x).hypot(hub.y - y)).min_by(f64::total_cmp);
        let farthest = hubs.iter().filter_map(to_nearest).max_by(f64::total_cmp).ok_or_else(unknown)?;
        let left = leads.si()? - farthest;
        Ok(Datum::Figure(Interval::outward(left, left, left, &Mm::INFO)))
    };
    let of = |leads: Reading| {
        let known = left(&leads);
        let from = vec![leads.because.clone(), motors.because.clone(), stacks.because.clone()];
        Derived { subject: leads.subject, known, from, count: leads.count }
    };
    site.all(LEADS).into_iter().map(of).collect()
}

/// Middles of the places for boards; one that says none stands in the middle of the frame.
fn middles(stacks: &Reading) -> Result<Vec<(f64, f64)>, Missing> {
    let at = |record: &Value, field| record.field(field).and_then(Value::si).unwrap_or(0.0);
    Ok(stacks.items()?.iter().map(|record| (at(record, "x_mm"), at(record, "y_mm"))).collect())
}

const CAPACITOR: Property = part(Slot::Capacitor, "diameter_mm");
const STANDOFF: Property = part(Slot::Frame, "standoff_mm");

/// Room over a capacitor that lies between the plates.
pub(crate) const CAPACITOR_ROOM: Derivation = Derivation {
    id: "capacitor-room",
    title: "room over a capacitor between the plates",
    formula: "standoffs − diameter of the capacitor",
    source: "geometry",
    reads: &[CAPACITOR, STANDOFF],
    run: |site| {
        let Ok(plates) = site.one(STANDOFF) else { return Vec::new() };
        let of = |capacitor: Reading| {
            let room = || Ok(Datum::Figure(plates.figure()?.minus(capacitor.figure()?)));
            let (known, from) = (room(), vec![capacitor.because.clone(), plates.because.clone()]);
            Derived { subject: capacitor.subject, known, from, count: capacitor.count }
        };
        site.all(CAPACITOR).into_iter().map(of).collect()
    },
};

#[cfg(test)]
mod tests {
    use crate::rules::trial::{figure, readings};

    #[test]
    fn leads_by_hand() {
        // From (90, 80) to the place at (0, −40): √(90² + 120²) = 150 mm; 160 mm of lead leave 10 mm.
        let parts = |channels: u32| {
            [
                r#"(id: "f", name: "F", fills: [Frame(motors: [(x_mm: 90, y_mm: 80), (x_mm: 10, y_mm: 0)], stacks: [(y_mm: -40)])]),
                (id: "m", name: "M", fills: [Motor(lead_length_mm: 160)]), (id: "e", name: "E", fills: [Esc(channels: "#,
                &channels.to_string(),
                ")])",
            ]
            .concat()
        };
        let build = r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m"), (slot: Esc, part: "e")]"#;
        assert!((figure(&parts(4), build, "leads-left").decimals()[1] - 10.0).abs() < 1e-9);
        assert!(readings(&parts(1), build, "leads-left").is_empty(), "a controller on the arm");
    }

    #[test]
    fn shafts_by_hand() {
        let parts = |fixing: &str| {
            [
                r#"(id: "m", name: "M", fills: [Motor(shaft_length_mm: 13.5, fixing: "#,
                fixing,
                r#")]), (id: "p", name: "P", fills: [Propeller(hub_mm: 6.4)])"#,
            ]
            .concat()
        };
        let build = r#"parts: [(slot: Motor, part: "m"), (slot: Propeller, part: "p")]"#;
        assert!((figure(&parts("Nut"), build, "shaft-hold").decimals()[1] - 7.1).abs() < 1e-9);
        assert!((figure(&parts("Press"), build, "shaft-hold").decimals()[1] - 6.4).abs() < 1e-9);
        assert!(readings(&parts("TwoScrews"), build, "shaft-hold").is_empty());
    }
}
