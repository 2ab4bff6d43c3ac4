//! The parts that turn together - motors, propellers, speed controller, packs - as inputs of the models.

use propwright_schema::{
    quantity::{MOhm, Unit},
    slot::Slot,
};

use super::{Derivation, Model, gather::Gather, stand};
use crate::{
    band::Uncertain,
    estimated::OTHER_SIGMA,
    finding::{Datum, Missing, Unknown},
    graph::{Derived, Property, Site, build, derived, line, part},
    interval::Interval,
    models::{
        atmosphere::Air,
        battery::{Chemistry, Pack},
        error::{Infeasible, ModelError},
        esc::Esc,
        motor::{Motor, NoLoad, rad_per_volt_second},
        powertrain::Powertrain,
        predict::INSTALLATION_SIGMA,
        stator::Stator,
        wiring::Gauge,
    },
};

/// A powertrain in its air, and how well its inputs are known.
#[derive(Debug, Clone, PartialEq)]
pub struct Rig {
    /// Nominal powertrain.
    pub train: Powertrain,
    /// The air of the place.
    pub air: Air,
    /// Largest duty that the build sets.
    pub limit: f64,
    /// Log spread of the pack's capacity.
    pub capacity_sigma: f64,
    /// Spreads of KV, resistance, no-load current, CT, CP and pack resistance, in this order.
    pub spreads: [Uncertain; 6],
}

impl Rig {
    /// The powertrain with each uncertain input multiplied by its factor.
    pub fn scaled(&self, factors: &[f64]) -> Powertrain {
        let factor = |at: usize| factors.get(at).copied().unwrap_or(1.0);
        let mut train = self.train;
        train.motor.kv *= factor(0);
        train.motor.resistance *= factor(1);
        train.motor.no_load.current_a *= factor(2);
        train.propeller.calibration.thrust *= factor(3);
        train.propeller.calibration.power *= factor(4);
        train.pack.cell_resistance *= factor(5);
        train
    }
}

/// What a model's refusal means for a finding: a state that cannot be, or one that the models do not reach.
pub(super) fn refused(error: &ModelError) -> Missing {
    let outside = matches!(
        error,
        ModelError::OutOfRange { .. }
            | ModelError::NoBracket { .. }
            | ModelError::Infeasible(Infeasible::TipSpeed { .. } | Infeasible::FigureOfMerit { .. })
    );
    let what = if outside { Unknown::Outside } else { Unknown::Infeasible };
    Missing { subject: None, what: what(error.to_string()) }
}

/// The rig that was derived.
pub(super) fn read_rig(gather: &mut Gather) -> Result<Rig, Missing> {
    let empty = || Missing { subject: None, what: Unknown::Empty(Slot::Motor) };
    let reading = gather.reading(derived(RIG.id)).ok_or_else(empty)?;
    match &**reading.model()? {
        Model::Rig(rig) => Ok((**rig).clone()),
        _ => Err(empty()),
    }
}

/// The air that was derived.
pub(super) fn read_air(gather: &mut Gather, air: Property) -> Result<Air, Missing> {
    let nowhere = || Missing { subject: None, what: Unknown::Outside("no air".to_owned()) };
    let reading = gather.reading(air).ok_or_else(nowhere)?;
    match &**reading.model()? {
        Model::Air(air) => Ok(*air),
        _ => Err(nowhere()),
    }
}

const ALTITUDE: Property = build("conditions.altitude_m");
const TEMPERATURE: Property = build("conditions.temperature_c");

/// The air of the place.
pub(crate) const AIR: Derivation = Derivation {
    id: "air",
    title: "air of the place",
    formula: "pressure of the standard atmosphere at the altitude, ρ = p/(R·T)",
    source: "ISO 2533",
    reads: &[ALTITUDE, TEMPERATURE],
    run: |site| {
        let mut gather = Gather::new(site);
        let altitude = gather.maybe(ALTITUDE);
        if altitude.is_none() {
            gather.assume("a place at sea level", None);
        }
        let altitude = altitude.unwrap_or(0.0);
        let air = if let Some(celsius) = gather.maybe(TEMPERATURE) {
            Air::at(altitude, celsius)
        } else {
            gather.assume("the temperature of the standard atmosphere there", None);
            Air::standard(altitude)
        };
        let known = air.map(|air| Datum::Model(Model::Air(air).into())).map_err(|error| refused(&error));
        gather.one(known)
    },
};

const CHEMISTRY: Property = part(Slot::Battery, "chemistry");
const CELLS: Property = part(Slot::Battery, "cells");
const PARALLEL: Property = part(Slot::Battery, "parallel");
const CAPACITY: Property = part(Slot::Battery, "capacity_mah");
const PACK_OHM: Property = part(Slot::Battery, "resistance_mohm");
const PLUG_OHM: Property = part(Slot::Battery, "plug_mohm");
const LEAD_AWG: Property = part(Slot::Battery, "lead_awg");
const LEAD_LENGTH: Property = part(Slot::Battery, "lead_length_mm");
const PACKS: Property = line(Slot::Battery, "count");
const ARRANGEMENT: Property = build("packs");

/// The packs as one source.
pub(crate) const PACK_MODEL: Derivation = Derivation {
    id: "pack-model",
    title: "packs as connected",
    formula: "cells in series and parallel; R = cells in series · R_cell / parallel + leads + plug",
    source: "algebra; R·Ah of a cell from memory where no resistance is published; AWG by ASTM B258",
    reads: &[CHEMISTRY, CELLS, PARALLEL, CAPACITY, PACK_OHM, PLUG_OHM, LEAD_AWG, LEAD_LENGTH, PACKS, ARRANGEMENT],
    run: |site| {
        let mut gather = Gather::new(site);
        let known = pack(site, &mut gather).map(|(pack, spreads)| Datum::Model(Model::Pack(pack, spreads).into()));
        gather.one(known)
    },
};

/// Spread of a published or measured pack resistance, and of an estimated one.
const PACK_OHM_SIGMA: [f64; 2] = [0.10, 0.30];
/// Spread of a pack's capacity as printed (from memory).
const CAPACITY_SIGMA: f64 = 0.03;
/// Plug pairs of single cells (8 to 25 mΩ) and of larger packs, in ohm, from memory.
const PLUG: [f64; 2] = [0.015, 0.0006];
/// Usual temperature of leads in flight, in °C.
const LEAD_C: f64 = 60.0;

fn pack(site: &Site, gather: &mut Gather) -> Result<(Pack, [f64; 2]), Missing> {
    let chemistry = match gather.word(CHEMISTRY)?.as_str() {
        "LiHV" => Chemistry::LiHv,
        "Li-ion" => Chemistry::LiIon,
        _ => Chemistry::LiPo,
    };
    let cells = count(gather.need(CELLS)?);
    let parallel = count(gather.maybe(PARALLEL).unwrap_or(1.0));
    let capacity_ah = gather.need(CAPACITY)? / 3600.0;
    let packs = site.all(PACKS).iter().map(|reading| reading.count).sum();
    let arrangement = if packs > 1 { gather.word(ARRANGEMENT)? } else { String::new() };
    let extra = leads(gather) + plug(gather, cells);
    let cell_capacity_ah = capacity_ah / f64::from(parallel);
    let estimated = Pack::estimated(chemistry, cells, parallel, cell_capacity_ah).map_err(|error| refused(&error))?;
    let (cell_resistance, spread) = if let Some(whole) = gather.maybe(PACK_OHM) {
        // The published figure holds leads and plug; never less than half of it is the cells' own.
        let own = (whole - extra).max(whole / 2.0);
        let listed = ![PACK_OHM, PLUG_OHM, LEAD_AWG, LEAD_LENGTH].iter().any(|property| gather.is_estimated(*property));
        (own * f64::from(parallel) / f64::from(cells), PACK_OHM_SIGMA[usize::from(!listed)])
    } else {
        let steps = Interval::outward(estimated.resistance(), estimated.resistance(), estimated.resistance(), &MOhm::INFO);
        gather.assume("resistance of the cells by their chemistry and capacity", Some(steps));
        (estimated.cell_resistance, PACK_OHM_SIGMA[1])
    };
    let one = Pack { cell_resistance, extra_resistance: extra, ..estimated };
    let capacity_sigma = if gather.is_estimated(CAPACITY) { OTHER_SIGMA } else { CAPACITY_SIGMA };
    Ok((together(one, packs, &arrangement), [spread, capacity_sigma]))
}

/// Several equal packs as one: volts add in series, currents in parallel; in turn each flies alone with the charge of all.
fn together(one: Pack, packs: u32, arrangement: &str) -> Pack {
    let many = f64::from(packs);
    match arrangement {
        "series" => Pack { series: one.series * packs, extra_resistance: one.extra_resistance * many, ..one },
        "parallel" => Pack { parallel: one.parallel * packs, extra_resistance: one.extra_resistance / many, ..one },
        "in turn" => {
            Pack { cell_capacity_ah: one.cell_capacity_ah * many, ..one } // resistance of the one in use
        }
        _ => one,
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "counts are checked to be small and positive")]
pub(super) const fn count(figure: f64) -> u32 {
    figure as u32
}

fn leads(gather: &mut Gather) -> f64 {
    let (Some(gauge), Some(length)) = (gather.maybe(LEAD_AWG), gather.maybe(LEAD_LENGTH)) else { return 0.0 };
    Gauge::awg(gauge).map_or(0.0, |gauge| 2.0 * length * gauge.resistance_per_m(LEAD_C))
}

fn plug(gather: &mut Gather, cells: u32) -> f64 {
    if let Some(published) = gather.maybe(PLUG_OHM) {
        return published;
    }
    let usual = if cells == 1 { PLUG[0] } else { PLUG[1] };
    gather.assume("resistance of the plug pair as usual", Some(Interval::outward(usual, usual, usual, &MOhm::INFO)));
    usual
}

pub(super) const MOTORS: Property = line(Slot::Motor, "count");
pub(super) const KV: Property = part(Slot::Motor, "kv_rpm_per_v");
pub(super) const STATOR_D: Property = part(Slot::Motor, "stator_diameter_mm");
pub(super) const STATOR_H: Property = part(Slot::Motor, "stator_height_mm");
pub(super) const MOTOR_OHM: Property = part(Slot::Motor, "resistance_mohm");
const NO_LOAD: Property = part(Slot::Motor, "no_load_current_a");
const NO_LOAD_V: Property = part(Slot::Motor, "no_load_v");
const POLES: Property = part(Slot::Motor, "poles");
const ESC_OHM: Property = part(Slot::Esc, "resistance_mohm");
const ESC_RATING: Property = part(Slot::Esc, "current_a");
const LIMIT: Property = build("output_limit_percent");
const AIR_OF_PLACE: Property = derived("air");
const SOURCE: Property = derived("pack-model");
const PROPELLER: Property = derived("propeller-model");
const BOARD_DRAW: Property = derived("board-draw");

/// Motors of the craft.
pub(super) fn rotors(site: &Site) -> u32 {
    site.all(MOTORS).iter().map(|reading| reading.count).sum()
}

/// Motors, propellers, speed controller and packs together.
pub(crate) const RIG: Derivation = Derivation {
    id: "rig",
    title: "motors, propellers, speed controller and packs together",
    formula: "Q = CP·ρ·n²·D⁵/2π; I = Q·Kv + I0; E + 1.15·R·I + droop = D·V_b",
    source: "M. Drela, First-Order DC Electric Motor Model, 2007; see the models' documentation",
    reads: &[
        MOTORS,
        KV,
        STATOR_D,
        STATOR_H,
        MOTOR_OHM,
        NO_LOAD,
        NO_LOAD_V,
        POLES,
        PROPELLER,
        ESC_OHM,
        ESC_RATING,
        LIMIT,
        AIR_OF_PLACE,
        SOURCE,
        BOARD_DRAW,
        stand::READS[0],
        stand::READS[1],
        stand::READS[2],
        stand::READS[3],
        stand::READS[4],
    ],
    run,
};

fn run(site: &Site) -> Vec<Derived> {
    let mut gather = Gather::new(site);
    let known = rig(site, &mut gather).map(|rig| Datum::Model(Model::Rig(Box::new(rig)).into()));
    gather.one(known)
}

fn rig(site: &Site, gather: &mut Gather) -> Result<Rig, Missing> {
    let air = read_air(gather, AIR_OF_PLACE)?;
    let source = gather.reading(SOURCE).ok_or(Missing { subject: None, what: Unknown::Empty(Slot::Battery) })?;
    let (pack, [pack_spread, capacity_sigma]) = match &**source.model()? {
        Model::Pack(pack, spreads) => (*pack, *spreads),
        _ => return Err(Missing { subject: None, what: Unknown::Empty(Slot::Battery) }),
    };
    let (mut motor, mut resistance_sigma, no_load_sigma) = motor(gather)?;
    let unturned = gather.reading(PROPELLER).ok_or(Missing { subject: None, what: Unknown::Empty(Slot::Propeller) })?;
    let (mut propeller, [mut ct_sigma, mut cp_sigma]) = match &**unturned.model()? {
        Model::Propeller(propeller, sigmas) => (**propeller, *sigmas),
        _ => return Err(Missing { subject: None, what: Unknown::Empty(Slot::Propeller) }),
    };
    let esc = Esc { resistance: channel(gather)? };
    let mut kv_sigma = if gather.is_estimated(KV) { OTHER_SIGMA } else { KV_SIGMA };
    if let Some(fit) = stand::calibration(gather, &motor, &propeller, esc)? {
        // A stand drives the propeller as the craft does: only the thrust that arms and body leave is still to be guessed.
        ct_sigma = fit.thrust.map_or(ct_sigma, |_| stand::SIGMA.hypot(INSTALLATION_SIGMA).min(ct_sigma));
        cp_sigma = fit.power.map_or(cp_sigma, |_| stand::SIGMA.min(cp_sigma));
        if fit.kv.is_some() {
            (kv_sigma, resistance_sigma) = (stand::KV_SIGMA, stand::OHM_SIGMA.min(resistance_sigma));
        }
        motor.kv *= fit.kv.unwrap_or(1.0);
        propeller.calibration = propeller.calibration.and(fit.calibration());
    }
    let auxiliary_w = gather.maybe(BOARD_DRAW).unwrap_or(0.0);
    let limit = gather.maybe(LIMIT).unwrap_or(1.0);
    let spread = |name, sigma| Uncertain { name, nominal: 1.0, sigma };
    Ok(Rig {
        train: Powertrain { motor, propeller, esc, motors: rotors(site), pack, auxiliary_w },
        air,
        limit,
        capacity_sigma,
        spreads: [
            spread("KV", kv_sigma),
            spread("motor resistance", resistance_sigma),
            spread("no-load current", no_load_sigma),
            spread("propeller thrust", ct_sigma),
            spread("propeller power", cp_sigma),
            spread("pack resistance", pack_spread),
        ],
    })
}

/// Spread of KV as listed.
const KV_SIGMA: f64 = 0.05;
/// Spread of a motor resistance that was published, and of an estimated one.
const OHM_SIGMA: [f64; 2] = [0.10, 0.20];
/// Spread of a no-load current that was published, and of an estimated one.
const NO_LOAD_SIGMA: [f64; 2] = [0.15, 0.25];

/// What 10 % of an estimated stator make of its resistance and its no-load current: √5 · 1.614 and 1.085.
const STATOR_SPREAD: [f64; 2] = [0.36, 0.24];

/// Stator and KV (in rpm/V) of the motors.
fn stator(gather: &mut Gather) -> Result<(Stator, f64), Missing> {
    let kv = gather.need(KV)? * 30.0 / std::f64::consts::PI;
    let (diameter, height) = (gather.need(STATOR_D)? * 1e3, gather.need(STATOR_H)? * 1e3);
    Ok((Stator::new(diameter, height).map_err(|error| refused(&error))?, kv))
}

/// Resistance of a winding in Ω, and whether somebody published it.
pub(super) fn winding(gather: &mut Gather) -> Result<(f64, bool), Missing> {
    if let Some(published) = gather.maybe(MOTOR_OHM) {
        return Ok((published, true));
    }
    let (stator, kv) = stator(gather)?;
    let ohm = stator.estimated_resistance(kv);
    gather.assume("winding resistance by stator and KV", Some(Interval::outward(ohm, ohm, ohm, &MOhm::INFO)));
    Ok((ohm, false))
}

fn motor(gather: &mut Gather) -> Result<(Motor, f64, f64), Missing> {
    let (stator, kv) = stator(gather)?;
    let estimated = stator.estimated_motor(kv).map_err(|error| refused(&error))?;
    let (resistance, published) = winding(gather)?;
    let no_load = match (gather.maybe(NO_LOAD), gather.maybe(NO_LOAD_V)) {
        (Some(current), Some(volts)) => Some(NoLoad::listed(current, volts, kv)),
        _ => None,
    };
    if no_load.is_none() {
        gather.assume("no-load current by stator and KV", None);
    }
    let spread = |known: bool, sigmas: [f64; 2]| if known { sigmas[0] } else { sigmas[1] };
    let listed = no_load.is_some() && ![NO_LOAD, NO_LOAD_V].iter().any(|property| gather.is_estimated(*property));
    let mut sigmas = (spread(published && !gather.is_estimated(MOTOR_OHM), OHM_SIGMA), spread(listed, NO_LOAD_SIGMA));
    if [STATOR_D, STATOR_H].iter().any(|property| gather.is_estimated(*property)) {
        // What the laws of the stator say is as far off as its size: R ~ V^1.614, Q0 ~ V^1.085, V = d²·h.
        sigmas.0 = if published { sigmas.0 } else { sigmas.0.hypot(STATOR_SPREAD[0]) };
        sigmas.1 = if no_load.is_some() { sigmas.1 } else { sigmas.1.hypot(STATOR_SPREAD[1]) };
    }
    let motor = Motor {
        kv: rad_per_volt_second(kv),
        resistance,
        no_load: no_load.unwrap_or(estimated.no_load),
        pole_pairs: gather.maybe(POLES).map_or(estimated.pole_pairs, |poles| poles / 2.0),
    };
    Ok((motor, sigmas.0, sigmas.1))
}

/// A channel's resistance times its rating, in volts: 45 A and 1.8 mΩ (from memory).
const CHANNEL_DROP_V: f64 = 0.08;

fn channel(gather: &mut Gather) -> Result<f64, Missing> {
    if let Some(published) = gather.maybe(ESC_OHM) {
        return Ok(published);
    }
    let ohm = CHANNEL_DROP_V / gather.need(ESC_RATING)?.max(1.0);
    gather.assume("resistance of a channel by its rating", Some(Interval::outward(ohm, ohm, ohm, &MOhm::INFO)));
    Ok(ohm)
}
