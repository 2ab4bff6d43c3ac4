//! The propeller on the craft: which model serves it, computed once.

use propwright_schema::{slot::Slot, value::Value};

use super::{Derivation, Model, gather::Gather, rig::read_air, rig::refused};
use crate::{
    estimated::OTHER_SIGMA,
    finding::{Datum, Missing},
    graph::{Property, derived, part},
    models::{
        atmosphere::{Air, GRAVITY},
        duct::{Duct, LIPPED, PLAIN_GUARD},
        error::ModelError,
        installation::{Calibration, Propeller, StaticPoint},
        predict::Knowledge,
        propeller::Geometry,
    },
};

pub(super) const DIAMETER: Property = part(Slot::Propeller, "diameter_in");
const PITCH: Property = part(Slot::Propeller, "pitch_in");
const BLADES: Property = part(Slot::Propeller, "blades");
const CHORD: Property = part(Slot::Propeller, "chord_75_mm");
const STATIC: Property = part(Slot::Propeller, "static_point");
const GUARD: Property = part(Slot::Frame, "guard");
const COAXIAL: Property = part(Slot::Frame, "coaxial");
const AIR: Property = derived("air");

/// The propeller as it turns on this craft.
pub(crate) const PROPELLER: Derivation = Derivation {
    id: "propeller-model",
    title: "propeller as it turns on this craft",
    formula: "closed form by size; blade elements where the chord at 75 % is known; a measured static point wins",
    source: "own fit to public wind-tunnel figures; S.A. Ning 2014, 2021; a duct by momentum theory",
    reads: &[DIAMETER, PITCH, BLADES, CHORD, STATIC, GUARD, COAXIAL, AIR],
    run: |site| {
        let mut gather = Gather::new(site);
        let known =
            propeller(&mut gather).map(|(propeller, sigmas)| Datum::Model(Model::Propeller(Box::new(propeller), sigmas).into()));
        gather.one(known)
    },
};

fn propeller(gather: &mut Gather) -> Result<(Propeller, [f64; 2]), Missing> {
    let air = read_air(gather, AIR)?;
    let geometry = Geometry {
        diameter_m: gather.need(DIAMETER)?,
        pitch_m: gather.need(PITCH)?,
        blades: super::rig::count(gather.need(BLADES)?),
        chord_75_m: gather.maybe(CHORD),
    };
    let measured = gather.reading(STATIC).and_then(|reading| static_point(reading.value().ok()?));
    let ring = match gather.maybe_word(GUARD).as_deref() {
        Some("plain guard") => Some(PLAIN_GUARD),
        Some("lipped duct") => Some(LIPPED),
        _ => None,
    };
    let coaxial = gather.reading(COAXIAL).and_then(|reading| reading.flag().ok()).unwrap_or(false);
    let (bare, knowledge) = chosen(geometry, measured.as_ref(), &air).map_err(|error| refused(&error))?;
    let duct = ring.map(Duct::new).transpose().map_err(|error| refused(&error))?;
    let pair = if coaxial { Calibration::coaxial() } else { Calibration::ISOLATED };
    let sigmas = spread(gather, knowledge.installed_sigmas());
    Ok((Propeller { calibration: bare.calibration.and(pair), duct, ..bare }, sigmas))
}

/// How much thrust and power move with an estimated size: T ~ D⁴, P ~ D⁵ (definitions of CT and CP); with the pitch at most in
/// proportion and by its 1.5th power (slopes of the closed form at P/D 0.8).
const BY_SIZE: [(Property, [f64; 2]); 2] = [(DIAMETER, [4.0, 5.0]), (PITCH, [1.0, 1.5])];

/// Log spreads of CT and CP, wider where the user only estimates a size: a chord that is estimated is as good as none. Both grow by
/// the same factor: they go together, and what of them cancels in a figure would cancel more if one grew alone.
fn spread(gather: &Gather, known: [f64; 2]) -> [f64; 2] {
    let mut factor = 1.0_f64;
    if gather.is_estimated(CHORD) {
        let none = Knowledge::Size.installed_sigmas();
        factor = (none[0] / known[0]).max(none[1] / known[1]).max(1.0);
    }
    for (size, powers) in BY_SIZE {
        if gather.is_estimated(size) {
            let grown = |at: usize| (factor * known[at]).hypot(powers[at] * OTHER_SIGMA) / known[at];
            factor = grown(0).max(grown(1));
        }
    }
    known.map(|sigma| sigma * factor)
}

fn chosen(geometry: Geometry, measured: Option<&StaticPoint>, air: &Air) -> Result<(Propeller, Knowledge), ModelError> {
    let (bare, knowledge) = if geometry.chord_75_m.is_some() {
        (Propeller::blade_element(geometry, air)?, Knowledge::Chord)
    } else {
        (Propeller::closed_form(geometry), Knowledge::Size)
    };
    match measured {
        None => Ok((bare, knowledge)),
        // Points are taken at home, whatever the place where it flies: in the standard air of sea level.
        Some(point) => Ok((bare.with_measured(point, &Air::standard(0.0)?)?, Knowledge::StaticPoint)),
    }
}

fn static_point(value: &Value) -> Option<StaticPoint> {
    let field = |name| value.field(name).and_then(Value::si);
    Some(StaticPoint {
        rev_per_s: field("speed_rpm")? / (2.0 * std::f64::consts::PI),
        thrust_n: field("thrust_gf")? * GRAVITY,
        shaft_power_w: field("power_w"),
    })
}
