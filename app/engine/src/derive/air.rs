//! In the air: hover, thrust-to-weight, flight times of the stated mixes, lasting currents, each with its band.

use propwright_schema::quantity::{A, CellV, Min, Unit, UnitInfo};

use super::{
    Derivation, Model,
    bench::{THRUST_AND_POWER, figure, read_rig, unsolved},
    gather::Gather,
    rig::Rig,
};
use crate::{
    band::{Propagated, Uncertain, first_order_each},
    finding::{Datum, Missing, Unknown},
    graph::{Derived, Property, Site, build, derived, part},
    interval::RATIO,
    models::{
        atmosphere::GRAVITY,
        battery::Pack,
        error::ModelError,
        flight::{THRUST_LEFT_DUCTED, THRUST_LEFT_DUCTED_MICRO, THRUST_LEFT_OPEN},
    },
};

const RIG: Property = derived("rig");
const MASS: Property = derived("takeoff-mass");
const USE: Property = build("purpose.usage");
const GUARD: Property = part(propwright_schema::slot::Slot::Frame, "guard");
const FLIGHT: Property = derived("in-the-air");

/// The stated mixes of flying: shares of power, shown beside each time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mixes {
    /// Calm flight takes so much of the hover power.
    pub calm: f64,
    /// Share of full throttle in hard flying; the rest is flown at [`Mixes::between`].
    pub hard_full: f64,
    /// Power between bursts of hard flying, as a share of the hover power.
    pub between: f64,
}

/// The usual mixes (common practice, no source), and those of a ducted micro.
pub const MIXES: [Mixes; 2] =
    [Mixes { calm: 1.15, hard_full: 0.25, between: 1.3 }, Mixes { calm: 1.3, hard_full: 0.5, between: 1.3 }];

/// What the craft does in the air, with bands.
#[derive(Debug, Clone, PartialEq)]
pub struct Airborne {
    /// Thrust over weight at full throttle on the half-charged pack.
    pub thrust_to_weight: Propagated,
    /// Duty of the controllers in hover on a fresh pack.
    pub hover_duty: Propagated,
    /// The same at landing.
    pub landing_duty: Propagated,
    /// Pack current in hover, half charged, A.
    pub hover_a: Propagated,
    /// Volts of a loaded cell at landing in hover.
    pub landing_cell_v: Propagated,
    /// Times of hover, calm, hard and flat out, s.
    pub times_s: [Propagated; 4],
    /// Root-mean-square currents of hard flying: motor, channel, pack, A.
    pub lasting_a: [Propagated; 3],
    /// The mixes that were taken.
    pub mixes: Mixes,
}

/// All that is predicted of the flight without its speed.
pub(crate) const AIRBORNE: Derivation = Derivation {
    id: "in-the-air",
    title: "hover, thrust and flight times",
    formula: "thrust of a rotor = m·g/(n·η_inst); calm = 1.15·P_hover; hard = 0.25·P_full + 0.75·1.3·P_hover (ducted micro 1.3 and 0.5)",
    source: "momentum balance; mixes are common practice, no source; bands to first order (JCGM 100:2008)",
    reads: &[RIG, MASS, USE, GUARD],
    run: |site| {
        let mut gather = Gather::new(site);
        let known = airborne(&mut gather).map(|found| Datum::Model(Model::Airborne(Box::new(found)).into()));
        gather.one(known)
    },
};

/// What one solve needs besides the rig.
struct Task {
    thrust_left: f64,
    mixes: Mixes,
}

fn airborne(gather: &mut Gather) -> Result<Airborne, Missing> {
    let rig = read_rig(gather)?;
    let nowhere = Missing { subject: None, what: Unknown::Empty(propwright_schema::slot::Slot::Frame) };
    let mass = gather.reading(MASS).ok_or(nowhere)?.figure()?;
    let micro = gather.maybe_word(USE).as_deref() == Some("ducted micro");
    let guarded = gather.maybe_word(GUARD).is_some_and(|guard| guard != "open");
    let thrust_left = match (guarded, micro) {
        (true, true) => THRUST_LEFT_DUCTED_MICRO,
        (true, false) => THRUST_LEFT_DUCTED,
        (false, _) => THRUST_LEFT_OPEN,
    };
    let task = Task { thrust_left, mixes: MIXES[usize::from(micro)] };
    let [low, nominal, high] = [mass.low, mass.nominal, mass.high].map(|steps| steps as f64 * mass.unit.si_per_step);
    let mass_sigma = if low > 0.0 { (high / low).ln() / (2.0 * 1.645) } else { 0.0 };
    let mut inputs = rig.spreads.to_vec();
    inputs.push(Uncertain { name: "take-off mass", nominal: 1.0, sigma: mass_sigma });
    inputs.push(Uncertain { name: "pack capacity", nominal: 1.0, sigma: CAPACITY_SIGMA });
    let solve = |factors: &[f64]| states(&rig, &task, nominal * factors[6], factors);
    let found = first_order_each(&inputs, Some(THRUST_AND_POWER), solve).map_err(|error| unsolved(&error))?;
    let [thrust_to_weight, hover_duty, landing_duty, hover_a, landing_cell_v, t0, t1, t2, t3, i0, i1, i2] = found;
    Ok(Airborne {
        thrust_to_weight,
        hover_duty,
        landing_duty,
        hover_a,
        landing_cell_v,
        times_s: [t0, t1, t2, t3],
        lasting_a: [i0, i1, i2],
        mixes: task.mixes,
    })
}

/// Spread of a pack's capacity.
const CAPACITY_SIGMA: f64 = 0.03;
/// State of charge at which thrust-to-weight and lasting currents are taken.
const HALF: f64 = 0.5;

fn states(rig: &Rig, task: &Task, mass_kg: f64, factors: &[f64]) -> Result<[f64; 12], ModelError> {
    let mut train = rig.scaled(factors);
    train.pack.cell_capacity_ah *= factors[7];
    let rotors = f64::from(train.motors);
    let weight = mass_kg * GRAVITY;
    let needed = weight / (rotors * task.thrust_left);
    let end = 1.0 - train.pack.chemistry.usable_share();
    let full = train.operating_point(&rig.air, HALF, rig.limit)?;
    let fresh = train.hover_point(&rig.air, 1.0, needed)?;
    let half = train.hover_point(&rig.air, HALF, needed)?;
    // P ∝ T^1.5: the point of the power between bursts.
    let between = train.hover_point(&rig.air, HALF, needed * task.mixes.between.powf(2.0 / 3.0)).unwrap_or(full);
    let landing = train.pack.draw(end, fresh.battery_w)?;
    let hover_w = fresh.battery_w;
    let hard = task.mixes.hard_full;
    let hard_w = hard * full.battery_w + (1.0 - hard) * task.mixes.between * hover_w;
    let time = |watts: f64| endurance(&train.pack, watts);
    let lasting = |at_full: f64, at_rest: f64| (hard * at_full * at_full + (1.0 - hard) * at_rest * at_rest).sqrt();
    Ok([
        full.thrust_n * rotors * task.thrust_left / weight,
        fresh.duty,
        fresh.duty * fresh.pack_v / landing.volts,
        half.battery_a,
        train.pack.loaded_cell_voltage(end, landing.current_a)?,
        time(hover_w)?,
        time(task.mixes.calm * hover_w)?,
        time(hard_w)?,
        time(full.battery_w)?,
        lasting(full.motor_a, between.motor_a),
        lasting(full.esc_a, between.esc_a),
        lasting(full.battery_a, between.battery_a),
    ])
}

/// Time at a constant power from the full pack to its reserve or loaded cut-off, s.
fn endurance(pack: &Pack, watts: f64) -> Result<f64, ModelError> {
    let chemistry = pack.chemistry;
    let flown = pack.discharge(chemistry.usable_share(), chemistry.loaded_cut_off(), |soc| Ok(pack.draw(soc, watts)?.current_a));
    match flown {
        // A pack that sags below its cut-off at once gives a moment, not nothing: bands need a logarithm.
        Err(ModelError::Infeasible(_)) => Ok(MOMENT_S),
        other => Ok(other?.seconds.max(MOMENT_S)),
    }
}

/// Shortest time that is told, s.
const MOMENT_S: f64 = 1.0;

fn shown(site: &Site, unit: &'static UnitInfo, pick: fn(&Airborne) -> &Propagated) -> Vec<Derived> {
    let mut gather = Gather::new(site);
    let Some(reading) = gather.reading(FLIGHT) else { return Vec::new() };
    let known = reading.model().and_then(|model| match &**model {
        Model::Airborne(found) => Ok(figure(&pick(found).band, unit)),
        _ => Err(Missing { subject: None, what: Unknown::Infeasible("no flight".to_owned()) }),
    });
    gather.one(known)
}

const fn line(id: &'static str, title: &'static str, formula: &'static str, run: fn(&Site) -> Vec<Derived>) -> Derivation {
    Derivation { id, title, formula, source: "", reads: &[FLIGHT], run }
}

/// Thrust-to-weight.
pub(crate) const THRUST_TO_WEIGHT: Derivation =
    line("thrust-to-weight", "thrust to weight, half-charged pack", "n·T_full·η_inst/(m·g)", |site| {
        shown(site, &RATIO, |found| &found.thrust_to_weight)
    });
/// Duty in hover.
pub(crate) const HOVER_DUTY: Derivation =
    line("hover-duty", "duty in hover, fresh pack", "V_req/V_b", |site| shown(site, &RATIO, |found| &found.hover_duty));
/// Duty at landing.
pub(crate) const LANDING_DUTY: Derivation =
    line("landing-duty", "duty in hover at landing", "V_req/V_b", |site| shown(site, &RATIO, |found| &found.landing_duty));
/// Current in hover.
pub(crate) const HOVER_A: Derivation =
    line("hover-current", "pack current in hover", "P_hover/V_b", |site| shown(site, &A::INFO, |found| &found.hover_a));
/// Loaded cell at landing.
pub(crate) const LANDING_CELL: Derivation =
    line("landing-cell", "loaded cell in hover at landing", "V0(reserve) − I·R_cell", |site| {
        shown(site, &CellV::INFO, |found| &found.landing_cell_v)
    });
/// Hover time.
pub(crate) const HOVER_TIME: Derivation =
    line("time-hover", "hover time", "3600·C·∫ds/I(s) at P_hover", |site| shown(site, &Min::INFO, |found| &found.times_s[0]));
/// Calm time.
pub(crate) const CALM_TIME: Derivation =
    line("time-calm", "calm flight", "3600·C·∫ds/I(s) at 1.15·P_hover (ducted micro 1.3)", |site| {
        shown(site, &Min::INFO, |found| &found.times_s[1])
    });
/// Hard time.
pub(crate) const HARD_TIME: Derivation =
    line("time-hard", "hard flight", "3600·C·∫ds/I(s) at 0.25·P_full + 0.75·1.3·P_hover (ducted micro 0.5)", |site| {
        shown(site, &Min::INFO, |found| &found.times_s[2])
    });
/// Flat out.
pub(crate) const FLAT_OUT_TIME: Derivation =
    line("time-flat-out", "flat out", "3600·C·∫ds/I(s) at P_full", |site| shown(site, &Min::INFO, |found| &found.times_s[3]));
/// Lasting current of a motor.
pub(crate) const MOTOR_LASTING: Derivation =
    line("motor-lasting", "motor current of hard flying, root mean square", "√(a·I_full² + (1 − a)·I_between²)", |site| {
        shown(site, &A::INFO, |found| &found.lasting_a[0])
    });
/// Lasting current of a channel.
pub(crate) const ESC_LASTING: Derivation = line(
    "esc-lasting",
    "current of a channel in hard flying, root mean square",
    "√(a·I_full² + (1 − a)·I_between²)",
    |site| shown(site, &A::INFO, |found| &found.lasting_a[1]),
);
/// Lasting current of the pack.
pub(crate) const BATTERY_LASTING: Derivation = line(
    "battery-lasting",
    "pack current of hard flying, root mean square",
    "√(a·I_full² + (1 − a)·I_between²)",
    |site| shown(site, &A::INFO, |found| &found.lasting_a[2]),
);
