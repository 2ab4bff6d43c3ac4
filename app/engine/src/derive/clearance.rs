//! Room around the propellers: to the body, to the pack on top, and how far from the middle of the picture they turn.

use propwright_schema::{
    part::{Guard, PackPlace},
    quantity::{Deg, Mm, Unit},
    slot::Slot,
};

use super::{
    Derivation,
    geometry::{Hub, hubs},
};
use crate::{
    finding::{Because, Datum, Missing, Unknown},
    graph::{Derived, Property, Reading, Site, part},
    interval::Interval,
};

const MOTORS: Property = part(Slot::Frame, "motors");
const GUARD: Property = part(Slot::Frame, "guard");
const DIAMETER: Property = part(Slot::Propeller, "diameter_in");
const LARGEST: Property = part(Slot::Frame, "propeller_max_in");
const HUB: Property = part(Slot::Propeller, "hub_mm");
const MOTOR_HEIGHT: Property = part(Slot::Motor, "height_mm");
const BODY_LENGTH: Property = part(Slot::Frame, "body_length_mm");
const BODY_WIDTH: Property = part(Slot::Frame, "body_width_mm");
const ARM: Property = part(Slot::Frame, "arm_thickness_mm");
const BOTTOM: Property = part(Slot::Frame, "bottom_plate_mm");
const STANDOFF: Property = part(Slot::Frame, "standoff_mm");
const TOP: Property = part(Slot::Frame, "top_plate_mm");
const PACK_PLACE: Property = part(Slot::Frame, "pack_place");
const PACK_LENGTH: Property = part(Slot::Battery, "length_mm");
const PACK_WIDTH: Property = part(Slot::Battery, "width_mm");

/// Gap between propellers and body.
pub(crate) const BODY_GAP: Derivation = Derivation {
    id: "body-gap",
    title: "gap between propeller and body",
    formula: "least over all motors of d − (W + D)/2, and not less than (D_max − D)/2; d distance from the hub to a line of length L − W along the middle of the body, D_max the largest propeller of the frame",
    source: "geometry; a body of rounded ends, an assumption; the frame's maker vouches for D_max",
    reads: &[MOTORS, GUARD, DIAMETER, BODY_LENGTH, BODY_WIDTH, LARGEST],
    run: |site| each_open_propeller(site, body_gap),
};

/// Gap between propellers and the pack on top.
pub(crate) const PACK_GAP: Derivation = Derivation {
    id: "pack-gap",
    title: "gap between propeller and pack",
    formula: "least over all motors of d − D/2, d distance from the hub to the pack in the middle of the top; where the disc passes below the pack, its distance in height",
    source: "geometry; a pack in the middle, an assumption",
    reads: &[MOTORS, GUARD, DIAMETER, HUB, MOTOR_HEIGHT, ARM, BOTTOM, STANDOFF, TOP, PACK_PLACE, PACK_LENGTH, PACK_WIDTH],
    run: |site| {
        let top = site.one(PACK_PLACE).is_ok_and(|place| place.word() == Ok(PackPlace::Top.word()));
        if top && !site.all(PACK_LENGTH).is_empty() { each_open_propeller(site, pack_gap) } else { Vec::new() }
    },
};

/// Where the propellers begin in the picture.
pub(crate) const VIEW: Derivation = Derivation {
    id: "view-angle",
    title: "angle from the middle of the picture to the nearest propeller",
    formula: "atan(x/(y − L/2)) − asin((D/2)/√(x² + (y − L/2)²)), the lens at the front of the body",
    source: "geometry; the lens at the front edge, an assumption",
    reads: &[MOTORS, GUARD, DIAMETER, BODY_LENGTH],
    run: |site| each_open_propeller(site, view_angle),
};

/// What one propeller is measured against.
struct Around<'a, 'b> {
    site: &'a Site<'b>,
    hubs: Vec<Hub>,
    diameter: f64,
    from: Vec<std::sync::Arc<Because>>,
}

impl Around<'_, '_> {
    /// A length in metres that the result cannot do without.
    fn need(&mut self, property: Property) -> Result<f64, Missing> {
        let reading = self.site.one(property)?;
        let length = reading.si()?;
        self.from.push(reading.because);
        Ok(length)
    }

    /// The least of a length over all motors.
    fn least(&self, of: impl Fn(&Hub) -> f64) -> Result<f64, Missing> {
        let nowhere = || Missing { subject: None, what: Unknown::Field("motors") };
        self.hubs.iter().map(of).min_by(f64::total_cmp).ok_or_else(nowhere)
    }
}

/// One figure for each kind of propeller; none where ducts hold everything off.
fn each_open_propeller(site: &Site, measure: fn(&mut Around) -> Result<Interval, Missing>) -> Vec<Derived> {
    let (Ok(motors), Ok(guard)) = (site.one(MOTORS), site.one(GUARD)) else { return Vec::new() };
    if guard.word().is_ok_and(|guard| guard != Guard::Open.word()) {
        return Vec::new();
    }
    let of = |propeller: Reading| {
        let mut from = vec![propeller.because.clone(), motors.because.clone()];
        let known = || {
            guard.word()?;
            let (hubs, diameter) = (hubs(&motors)?, propeller.si()?);
            let mut around = Around { site, hubs, diameter, from: Vec::new() };
            let measured = measure(&mut around);
            Ok((measured?, around.from))
        };
        let known = known().map(|(figure, rests_on): (Interval, Vec<_>)| {
            from.extend(rests_on);
            Datum::Figure(figure)
        });
        Derived { subject: propeller.subject, known, from, count: propeller.count }
    };
    let empty = |derived: &Derived| !matches!(derived.known, Err(Missing { what: Unknown::Empty(_), .. }));
    site.all(DIAMETER).into_iter().map(of).filter(empty).collect()
}

/// Distance of a hub from a rectangle about the middle, half its width and length given; 0 within.
fn from_rectangle(hub: &Hub, half_width: f64, half_length: f64) -> f64 {
    (hub.x.abs() - half_width).max(0.0).hypot((hub.y.abs() - half_length).max(0.0))
}

fn millimetres(length: f64) -> Interval {
    Interval::outward(length, length, length, &Mm::INFO)
}

fn body_gap(around: &mut Around) -> Result<Interval, Missing> {
    let (length, width) = (around.need(BODY_LENGTH)?, around.need(BODY_WIDTH)?);
    let (end, reach) = ((length - width).max(0.0) / 2.0, f64::midpoint(width, around.diameter));
    let drawn = around.least(|hub| from_rectangle(hub, 0.0, end) - reach)?;
    // What the maker lets turn there turns clear, whatever shape of body was taken for the drawing.
    let vouched = around.need(LARGEST).map(|largest| (largest - around.diameter) / 2.0);
    Ok(millimetres(vouched.map_or(drawn, |vouched| drawn.max(vouched))))
}

fn pack_gap(around: &mut Around) -> Result<Interval, Missing> {
    let (length, width) = (around.need(PACK_LENGTH)?, around.need(PACK_WIDTH)?);
    let radius = around.diameter / 2.0;
    let beside = around.least(|hub| from_rectangle(hub, width / 2.0, length / 2.0) - radius)?;
    if beside >= 0.0 {
        return Ok(millimetres(beside));
    }
    let disc = around.need(ARM)? + around.need(MOTOR_HEIGHT)? + around.need(HUB)?;
    let under_pack = around.need(BOTTOM)? + around.need(STANDOFF)? + around.need(TOP)?;
    let above = |hub: &Hub| under_pack - disc - hub.z;
    Ok(millimetres(beside.max(around.least(above)?)))
}

fn view_angle(around: &mut Around) -> Result<Interval, Missing> {
    let lens = around.need(BODY_LENGTH)? / 2.0;
    let radius = around.diameter / 2.0;
    let angle = |hub: &Hub| {
        let (aside, ahead) = (hub.x.abs(), hub.y - lens);
        (aside.atan2(ahead) - (radius / aside.hypot(ahead)).min(1.0).asin()).max(0.0)
    };
    let least = around.least(angle)?;
    Ok(Interval::outward(least, least, least, &Deg::INFO))
}

#[cfg(test)]
mod tests {
    use crate::rules::trial::{figure, readings};

    const PARTS: &str = r#"(id: "f", name: "Frame", fills: [Frame(guard: Open, pack_place: Top, body_length_mm: 140, body_width_mm: 40,
            arm_thickness_mm: 5, bottom_plate_mm: 2, standoff_mm: 30, top_plate_mm: 2,
            motors: [(x_mm: 80, y_mm: 60), (x_mm: -80, y_mm: 60), (x_mm: 80, y_mm: -60), (x_mm: -80, y_mm: -60)])]),
        (id: "m", name: "Motor", fills: [Motor(height_mm: 18)]),
        (id: "p", name: "Propeller", fills: [Propeller(diameter_in: 5, hub_mm: 6)]),
        (id: "b", name: "Pack", fills: [Battery(length_mm: 80, width_mm: 30)])"#;
    const BUILD: &str = r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m"), (slot: Propeller, part: "p"), (slot: Battery, part: "b")]"#;

    #[test]
    fn gaps_by_hand() {
        // The line along the body ends at y = 50: √(80² + 10²) = 80.62 mm, less 63.5 mm of propeller and 20 mm of body.
        assert!((figure(PARTS, BUILD, "body-gap").decimals()[1] + 2.877).abs() < 0.001);
        // Half the pack is 15 by 40 mm: √(65² + 20²) = 68.01 mm, less 63.5 mm.
        assert!((figure(PARTS, BUILD, "pack-gap").decimals()[1] - 4.507).abs() < 0.001);
    }

    #[test]
    fn the_frames_maker_vouches_for_the_largest_propeller() {
        // A frame for 5.2 in leaves (132.08 − 127)/2 = 2.54 mm to 5 in, where the drawing alone overlaps.
        let vouched = PARTS.replace("guard: Open", "guard: Open, propeller_max_in: 5.2");
        assert!((figure(&vouched, BUILD, "body-gap").decimals()[1] - 2.54).abs() < 0.001);
        let small = PARTS.replace("guard: Open", "guard: Open, propeller_max_in: 4");
        assert!((figure(&small, BUILD, "body-gap").decimals()[1] + 2.877).abs() < 0.001, "the drawing decides");
    }

    #[test]
    fn a_wide_pack_above_the_discs_is_clear_by_its_height() {
        // Under the pack 34 mm; the disc stands at 5 + 18 + 6 = 29 mm.
        let wide = PARTS.replace("width_mm: 30", "width_mm: 60");
        assert!((figure(&wide, BUILD, "pack-gap").decimals()[1] - 5.0).abs() < 1e-9);
    }

    #[test]
    fn the_picture_by_hand() {
        // Ten millimetres behind the lens and 80 aside: 97.13° from the middle, less 51.96° for the disc.
        assert!((figure(PARTS, BUILD, "view-angle").decimals()[1] - 45.17).abs() < 0.05);
    }

    #[test]
    fn ducts_hold_everything_off() {
        let ducted = PARTS.replace("guard: Open", "guard: PlainGuard");
        assert!(readings(&ducted, BUILD, "body-gap").is_empty());
    }
}
