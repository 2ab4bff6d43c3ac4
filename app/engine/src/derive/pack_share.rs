//! What one pack gives and stands: currents of each of several packs, ratings, and how hot its leads get.

use propwright_schema::{
    build_list::Arrangement,
    quantity::{A, DegC, MPerS, Pct, Unit, UnitInfo},
    slot::Slot,
};

use super::{
    Derivation,
    gather::Gather,
    rig::{Rig, read_rig, refused},
    solved::{THRUST_AND_POWER, unsolved},
};
use crate::{
    band::{PropagationError, first_order},
    finding::{Datum, Missing, Unknown},
    graph::{Derived, Property, Site, build, derived, line, part},
    interval::{Interval, KELVIN},
    models::{error::ModelError, wiring::Gauge},
};

const CHEMISTRY: Property = part(Slot::Battery, "chemistry");
const C_RATE: Property = part(Slot::Battery, "discharge_c_rate");
const CAPACITY: Property = part(Slot::Battery, "capacity_mah");
const PACKS: Property = line(Slot::Battery, "count");
const ARRANGEMENT: Property = build("packs");
const FULL: Property = derived("battery-burst");
const HARD: Property = derived("battery-lasting");
const CLIMBING: Property = derived("climb-current");

/// One of the currents of the craft as each pack gives it.
const fn of_one(id: &'static str, title: &'static str, reads: &'static [Property], run: fn(&Site) -> Vec<Derived>) -> Derivation {
    Derivation {
        id,
        title,
        formula: "pack current / packs side by side",
        source: "Kirchhoff's current law, equal packs",
        reads,
        run,
    }
}

/// Full throttle.
pub(crate) const BURST: Derivation =
    of_one("pack-burst", "current of each pack at full throttle, fresh pack", &[FULL, CHEMISTRY, PACKS, ARRANGEMENT], |site| {
        share(site, FULL)
    });
/// Hard flight.
pub(crate) const LASTING: Derivation = of_one(
    "pack-lasting",
    "current of each pack in hard flying, root mean square",
    &[HARD, CHEMISTRY, PACKS, ARRANGEMENT],
    |site| share(site, HARD),
);
/// Climb.
pub(crate) const CLIMB: Derivation = of_one(
    "pack-climb",
    "current of each pack in a climb at twice the hover power",
    &[CLIMBING, CHEMISTRY, PACKS, ARRANGEMENT],
    |site| share(site, CLIMBING),
);

fn share(site: &Site, current: Property) -> Vec<Derived> {
    of_pack(site, |gather| {
        let empty = || Missing { subject: None, what: Unknown::Empty(Slot::Motor) };
        let whole = gather.reading(current).ok_or_else(empty)?.figure()?;
        Ok(whole.times(1.0 / side_by_side(site, gather)))
    })
}

/// How many packs share the current.
fn side_by_side(site: &Site, gather: &mut Gather) -> f64 {
    let parallel = gather.maybe_word(ARRANGEMENT).as_deref() == Some(Arrangement::Parallel.word());
    let packs: u32 = site.all(PACKS).iter().map(|reading| reading.count).sum();
    if parallel { f64::from(packs.max(1)) } else { 1.0 }
}

/// A value of the first pack, as one of that part.
fn of_pack(site: &Site, value: impl Fn(&mut Gather) -> Result<Interval, Missing>) -> Vec<Derived> {
    let Ok(reading) = site.one(CHEMISTRY) else { return Vec::new() };
    let mut gather = Gather::new(site);
    let known = value(&mut gather).map(Datum::Figure);
    gather.one(known).into_iter().map(|derived| Derived { subject: reading.subject.clone(), ..derived }).collect()
}

/// What a LiPo or LiHV pack is sold for.
pub(crate) const CLAIM: Derivation = Derivation {
    id: "pack-claim",
    title: "current that the pack is sold for",
    formula: "C · capacity",
    source: "the seller",
    reads: &[CHEMISTRY, C_RATE, CAPACITY],
    run: |site| rated(site, false),
};

/// What a Li-ion pack stands.
pub(crate) const LIMIT: Derivation = Derivation {
    id: "pack-limit",
    title: "current that the pack stands",
    formula: "C · capacity",
    source: "the maker of the cells",
    reads: &[CHEMISTRY, C_RATE, CAPACITY],
    run: |site| rated(site, true),
};

fn rated(site: &Site, li_ion: bool) -> Vec<Derived> {
    let wanted = site.one(CHEMISTRY).is_ok_and(|reading| (reading.word() == Ok("Li-ion")) == li_ion);
    if !wanted {
        return Vec::new();
    }
    of_pack(site, |gather| Ok(Interval::nearest(gather.need(C_RATE)? * gather.need(CAPACITY)?, &A::INFO)))
}

const RIG: Property = derived("rig");
const OWN_LIMIT: Property = derived(LIMIT.id);

/// The output limit at which full throttle keeps to a Li-ion pack's rating.
pub(crate) const OUTPUT: Derivation = Derivation {
    id: "output-limit",
    title: "motor output at which full throttle keeps to the pack's rating",
    formula: "I_b(D_limit) = rating at the upper end of the band",
    source: "the powertrain's model",
    reads: &[RIG, OWN_LIMIT, OWN_BURST, CHEMISTRY, PACKS, ARRANGEMENT],
    run: |site| if site.all(OWN_LIMIT).is_empty() { Vec::new() } else { of_pack(site, |gather| output(site, gather)) },
};

/// Least output that is advised.
const LEAST_OUTPUT: f64 = 0.2;

fn output(site: &Site, gather: &mut Gather) -> Result<Interval, Missing> {
    let rig = read_rig(gather)?;
    let empty = || Missing { subject: None, what: Unknown::Empty(Slot::Motor) };
    let rating = gather.need(OWN_LIMIT)?;
    let full = gather.reading(OWN_BURST).ok_or_else(empty)?.figure()?;
    let limit = if full.high as f64 * full.unit.si_per_step <= rating {
        rig.limit
    } else {
        output_within(&rig, rating * side_by_side(site, gather)).map_err(|error| unsolved(&error))?
    };
    Ok(Interval::nearest((limit * 100.0).floor() / 100.0, &Pct::INFO))
}

/// The output at which the upper end of the pack's current meets a rating.
fn output_within(rig: &Rig, rating: f64) -> Result<f64, PropagationError<ModelError>> {
    let over = |limit: f64| {
        let current = |factors: &[f64]| Ok(rig.scaled(factors).operating_point(&rig.air, 1.0, limit)?.battery_a);
        Ok(first_order(&rig.spreads, Some(THRUST_AND_POWER), current)?.band.high() - rating)
    };
    if over(LEAST_OUTPUT)? >= 0.0 {
        return Ok(LEAST_OUTPUT);
    }
    let (mut within, mut beyond) = (LEAST_OUTPUT, rig.limit);
    while beyond - within > 0.005 {
        let middle = f64::midpoint(within, beyond);
        if over(middle)? > 0.0 {
            beyond = middle;
        } else {
            within = middle;
        }
    }
    Ok(within)
}

const GAUGE: Property = part(Slot::Battery, "lead_awg");
const TEMPERATURE: Property = build("conditions.temperature_c");
const BURST_TIME: Property = derived("burst-time");
const OWN_BURST: Property = derived(BURST.id);
const OWN_LASTING: Property = derived(LASTING.id);

/// Rise of the leads in one burst.
pub(crate) const LEAD_RISE: Derivation = Derivation {
    id: "lead-rise",
    title: "rise of the pack's leads in one burst",
    formula: "I²t = K²S²·ln((θf + 234.5)/(θi + 234.5))",
    source: "IEC 60949",
    reads: &[GAUGE, TEMPERATURE, BURST_TIME, OWN_BURST, OWN_LASTING, CHEMISTRY],
    run: |site| of_pack(site, |gather| heated(gather, |heat| heat.rise, &KELVIN)),
};

/// Temperature of the leads at the end of a burst in hard flight.
pub(crate) const LEAD_TEMPERATURE: Derivation = Derivation {
    id: "lead-temperature",
    title: "temperature of the pack's leads after a burst in hard flight",
    formula: "air + steady rise at I_rms in moving air + rise of the burst",
    source: "IEC 60949; S.W. Churchill and M. Bernstein, J. Heat Transfer 99 (1977)",
    reads: &[GAUGE, TEMPERATURE, BURST_TIME, OWN_BURST, OWN_LASTING, CHEMISTRY],
    run: |site| of_pack(site, |gather| heated(gather, |heat| heat.end_c, &DegC::INFO)),
};

struct Heat {
    rise: f64,
    end_c: f64,
}

/// Air past the leads, m/s, and its temperature where nobody says it, °C (assumptions).
const STREAM_M_S: f64 = 5.0;
const AIR_C: f64 = 25.0;
/// Rise above which a lead is gone; nothing more is told, K.
const GONE_K: f64 = 1000.0;

fn heated(gather: &mut Gather, pick: fn(&Heat) -> f64, unit: &'static UnitInfo) -> Result<Interval, Missing> {
    let gauge = Gauge::awg(gather.need(GAUGE)?).map_err(|error| refused(&error))?;
    let air_c = gather.maybe(TEMPERATURE).unwrap_or(AIR_C);
    let seconds = gather.need(BURST_TIME)?;
    let empty = || Missing { subject: None, what: Unknown::Empty(Slot::Motor) };
    let burst = gather.reading(OWN_BURST).ok_or_else(empty)?.figure()?;
    let lasting = gather.reading(OWN_LASTING).ok_or_else(empty)?.figure()?;
    gather.assume("air that moves past the leads", Some(Interval::nearest(STREAM_M_S, &MPerS::INFO)));
    let end = |burst: i64, lasting: i64| {
        let amps = |steps: i64| steps as f64 * A::INFO.si_per_step;
        let steady = gauge.steady_rise(amps(lasting), STREAM_M_S, air_c).unwrap_or(GONE_K);
        let rise = gauge.burst_rise(amps(burst), seconds, air_c + steady).unwrap_or(GONE_K);
        pick(&Heat { rise, end_c: air_c + steady + rise })
    };
    Ok(Interval::outward(end(burst.low, lasting.low), end(burst.nominal, lasting.nominal), end(burst.high, lasting.high), unit))
}
