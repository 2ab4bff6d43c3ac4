//! How far the pack slides to bring the centre of mass under the middle of the motors.

use std::sync::Arc;

use propwright_schema::{
    quantity::{Mm, Unit},
    slot::Slot,
};

use super::{Derivation, geometry::hubs};
use crate::{
    finding::{Because, Datum, Missing},
    graph::{Derived, Property, Reading, Site, derived, line, part},
    interval::{Interval, RATIO},
};

const MOTORS: Property = part(Slot::Frame, "motors");
const BODY: Property = part(Slot::Frame, "body_length_mm");
const PACK: Property = part(Slot::Battery, "mass_g");
const CAMERA: [Property; 2] = [part(Slot::Camera, "mass_g"), line(Slot::Camera, "listed")];
const GPS: [Property; 2] = [part(Slot::Gps, "mass_g"), line(Slot::Gps, "listed")];
const PAYLOAD: [Property; 2] = [part(Slot::Payload, "mass_g"), part(Slot::Payload, "place")];
const SLIDE: Property = derived(PACK_SLIDE.id);

/// How far the pack slides.
pub(crate) const PACK_SLIDE: Derivation = Derivation {
    id: "pack-slide",
    title: "way that the pack slides to balance the craft",
    formula: "s = |Σ m·(y − ȳ)|/m_pack; ȳ middle of the motors; camera and a payload in front at the front of the body, GPS at its rear",
    source: "statics; places as usual, an assumption",
    reads: &[MOTORS, BODY, PACK, CAMERA[0], CAMERA[1], GPS[0], GPS[1], PAYLOAD[0], PAYLOAD[1]],
    run: pack_slide,
};

/// The same as a share of the body.
pub(crate) const SLIDE_SHARE: Derivation = Derivation {
    id: "pack-slide-share",
    title: "way that the pack slides to balance the craft, as a share of the body's length",
    formula: "s/L",
    source: "algebra",
    reads: &[SLIDE, BODY],
    run: |site| {
        let (Ok(slide), Ok(body)) = (site.one(SLIDE), site.one(BODY)) else { return Vec::new() };
        let share = || {
            let [way, length] = [slide.si()?, body.si()?];
            Ok(Datum::Figure(Interval::outward(way / length, way / length, way / length, &RATIO)))
        };
        let known = share();
        vec![Derived { subject: slide.subject.clone(), known, from: vec![slide.because, body.because], count: 1 }]
    },
};

/// Moment about the middle of the frame, kg·m, with what it rests on.
#[derive(Default)]
struct Moment {
    sum: f64,
    from: Vec<Arc<Because>>,
}

impl Moment {
    fn add(&mut self, mass: Reading, at: f64) -> Result<(), Missing> {
        self.sum += mass.si()? * f64::from(mass.count) * at;
        self.from.push(mass.because);
        Ok(())
    }

    /// All parts of a slot at one place; a role on another part's board weighs there.
    fn add_all(&mut self, site: &Site, [mass, listed]: [Property; 2], at: f64) -> Result<(), Missing> {
        let each = site.all(mass).into_iter().zip(site.all(listed));
        each.filter(|(_, listed)| listed.flag().unwrap_or(true)).try_for_each(|(mass, _)| self.add(mass, at))
    }
}

fn pack_slide(site: &Site) -> Vec<Derived> {
    let (Ok(motors), Ok(body), Ok(pack)) = (site.one(MOTORS), site.one(BODY), site.one(PACK)) else { return Vec::new() };
    let mut from = vec![pack.because.clone(), body.because.clone(), motors.because.clone()];
    let known = slide(site, &motors, &body, &pack).map(|(way, rests_on)| {
        from.extend(rests_on);
        Datum::Figure(Interval::outward(way, way, way, &Mm::INFO))
    });
    from.push(Because::assumption("boards, pack and video in the middle, the camera in front", None));
    vec![Derived { subject: pack.subject, known, from, count: 1 }]
}

fn slide(site: &Site, motors: &Reading, body: &Reading, pack: &Reading) -> Result<(f64, Vec<Arc<Because>>), Missing> {
    let hubs = hubs(motors)?;
    let middle = hubs.iter().map(|hub| hub.y).sum::<f64>() / f64::from(u32::try_from(hubs.len()).unwrap_or(1).max(1));
    let front = body.si()? / 2.0;
    let mut moment = Moment::default();
    moment.add_all(site, CAMERA, front - middle)?;
    moment.add_all(site, GPS, -front - middle)?;
    for (mass, place) in site.all(PAYLOAD[0]).into_iter().zip(site.all(PAYLOAD[1])) {
        if place.word()? == "front" {
            moment.add(mass, front - middle)?;
        }
    }
    let packs: f64 = site.all(PACK).iter().map(|pack| Ok(pack.si()? * f64::from(pack.count))).sum::<Result<f64, Missing>>()?;
    let own = pack.si()?.max(packs);
    Ok((((moment.sum - own * middle) / own).abs(), moment.from))
}

#[cfg(test)]
mod tests {
    use crate::rules::trial::figure;

    #[test]
    fn by_hand() {
        // 30 g of camera and 60 g of payload at 70 mm, 10 g of GPS at −70 mm: 5600 g·mm over 200 g of pack are 28 mm.
        let parts = r#"(id: "f", name: "F", fills: [Frame(body_length_mm: 140, motors: [(x_mm: 80, y_mm: 60), (x_mm: 80, y_mm: -60)])]),
            (id: "b", name: "B", mass_g: 200, fills: [Battery()]), (id: "c", name: "C", mass_g: 30, fills: [Camera()]),
            (id: "g", name: "G", mass_g: 10, fills: [Gps()]), (id: "p", name: "P", mass_g: 60, fills: [Payload(place: "front")])"#;
        let build = r#"parts: [(slot: Frame, part: "f"), (slot: Battery, part: "b"), (slot: Camera, part: "c"),
            (slot: Gps, part: "g"), (slot: Payload, part: "p")]"#;
        assert!((figure(parts, build, "pack-slide").decimals()[1] - 28.0).abs() < 1e-9);
        assert!((figure(parts, build, "pack-slide-share").decimals()[1] - 0.2).abs() < 1e-9);
    }
}
