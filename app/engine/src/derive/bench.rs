//! Full throttle on the bench, fresh pack: what the parts must stand, with bands.

use propwright_schema::quantity::{A, BurstA, CellV, RevMin, Unit, UnitInfo, V};

use super::{Derivation, Model, gather::Gather, rig::Rig, rig::refused};
use crate::{
    band::{Band, Pair, Propagated, PropagationError, first_order_each},
    finding::{Datum, Missing, Unknown},
    graph::{Derived, Property, Site, derived},
    interval::{Interval, RATIO},
    models::error::ModelError,
};

const RIG: Property = derived("rig");
const BENCH: Property = derived("full-throttle");

/// Full throttle on a fresh pack: bands of what each part sees.
#[derive(Debug, Clone, PartialEq)]
pub struct Bench {
    /// Current in each motor, A.
    pub motor_a: Propagated,
    /// Current into each controller channel, A.
    pub esc_a: Propagated,
    /// Current out of the pack, A.
    pub battery_a: Propagated,
    /// Volts of a loaded cell.
    pub cell_v: Propagated,
    /// Volts of the loaded pack.
    pub pack_v: Propagated,
    /// Rotor speed, rev/s.
    pub rev_per_s: Propagated,
    /// Mach number of the tips.
    pub tip_mach: Propagated,
}

/// Full throttle at the build's output limit.
pub(crate) const FULL: Derivation = Derivation {
    id: "full-throttle",
    title: "full throttle on a fresh pack",
    formula: "E + 1.15·R·I + droop + I·R_esc = D_limit·V_b, V_b = (V0 + √(V0² − 4·R·P))/2",
    source: "M. Drela 2007; constant-power draw of a sagging pack; bands to first order (JCGM 100:2008)",
    reads: &[RIG],
    run: |site| {
        let mut gather = Gather::new(site);
        let known =
            read_rig(&mut gather).and_then(|rig| bench(&rig)).map(|bench| Datum::Model(Model::Bench(Box::new(bench)).into()));
        gather.one(known)
    },
};

/// The rig that was derived.
pub(super) fn read_rig(gather: &mut Gather) -> Result<Rig, Missing> {
    let empty = Missing { subject: None, what: Unknown::Empty(propwright_schema::slot::Slot::Motor) };
    let reading = gather.reading(RIG).ok_or_else(|| empty.clone())?;
    match &**reading.model()? {
        Model::Rig(rig) => Ok((**rig).clone()),
        _ => Err(empty),
    }
}

/// CT and CP stand at these places among the spreads and go together.
pub(super) const THRUST_AND_POWER: Pair = Pair { first: 3, second: 4 };

/// What a failed propagation means for a finding.
pub(super) fn unsolved(error: &PropagationError<ModelError>) -> Missing {
    match error {
        PropagationError::Model(model) => refused(model),
        other => Missing { subject: None, what: Unknown::Infeasible(other.to_string()) },
    }
}

fn bench(rig: &Rig) -> Result<Bench, Missing> {
    let solve = |factors: &[f64]| {
        let full = rig.scaled(factors).operating_point(&rig.air, 1.0, rig.limit)?;
        Ok([full.motor_a, full.esc_a, full.battery_a, full.cell_v, full.pack_v, full.rev_per_s, full.tip_mach])
    };
    let each = first_order_each(&rig.spreads, Some(THRUST_AND_POWER), solve).map_err(|error| unsolved(&error))?;
    let [motor_a, esc_a, battery_a, cell_v, pack_v, rev_per_s, tip_mach] = each;
    Ok(Bench { motor_a, esc_a, battery_a, cell_v, pack_v, rev_per_s, tip_mach })
}

/// A band in SI units as figures in a unit.
pub(super) fn figure(band: &Band, unit: &'static UnitInfo) -> Datum {
    Datum::Figure(Interval::outward(band.low(), band.nominal(), band.high(), unit))
}

fn shown(site: &Site, unit: &'static UnitInfo, pick: fn(&Bench) -> &Propagated) -> Vec<Derived> {
    let mut gather = Gather::new(site);
    let Some(reading) = gather.reading(BENCH) else { return Vec::new() };
    let known = reading.model().and_then(|model| match &**model {
        Model::Bench(bench) => Ok(figure(&pick(bench).band, unit)),
        _ => Err(Missing { subject: None, what: Unknown::Infeasible("no full throttle".to_owned()) }),
    });
    gather.one(known)
}

/// One line of the bench as a derivation of its own.
const fn line(id: &'static str, title: &'static str, run: fn(&Site) -> Vec<Derived>) -> Derivation {
    Derivation { id, title, formula: "", source: "", reads: &[BENCH], run }
}

/// Current in each motor.
pub(crate) const MOTOR_A: Derivation =
    line("motor-burst", "motor current at full throttle, fresh pack", |site| shown(site, &BurstA::INFO, |bench| &bench.motor_a));
/// Current into each channel.
pub(crate) const ESC_A: Derivation = line("esc-burst", "current of a channel at full throttle, fresh pack", |site| {
    shown(site, &BurstA::INFO, |bench| &bench.esc_a)
});
/// Current out of the pack.
pub(crate) const BATTERY_A: Derivation =
    line("battery-burst", "pack current at full throttle, fresh pack", |site| shown(site, &A::INFO, |bench| &bench.battery_a));
/// Loaded cell.
pub(crate) const CELL_V: Derivation =
    line("loaded-cell", "loaded cell at full throttle, fresh pack", |site| shown(site, &CellV::INFO, |bench| &bench.cell_v));
/// Loaded pack.
pub(crate) const PACK_V: Derivation =
    line("loaded-pack", "loaded pack at full throttle, fresh pack", |site| shown(site, &V::INFO, |bench| &bench.pack_v));
/// Rotor speed.
pub(crate) const SPEED: Derivation = line("rotor-speed", "rotor speed at full throttle, fresh pack", |site| {
    let mut found = shown(site, &RATIO, |bench| &bench.rev_per_s);
    for one in &mut found {
        one.known = one.known.clone().map(|datum| datum.figure().map_or(datum, per_minute));
    }
    found
});
/// Tip Mach number.
pub(crate) const TIP_MACH: Derivation =
    line("tip-mach", "Mach number of the blade tips at full throttle", |site| shown(site, &RATIO, |bench| &bench.tip_mach));

/// Revolutions a second as radians a second in the unit rpm.
fn per_minute(revolutions: Interval) -> Datum {
    let [low, nominal, high] = revolutions.decimals().map(|turns| turns * 2.0 * std::f64::consts::PI);
    Datum::Figure(Interval::outward(low, nominal, high, &RevMin::INFO))
}
