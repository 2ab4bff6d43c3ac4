//! Full throttle on the bench, fresh pack: what the parts must stand, with bands.

use std::f64::consts::PI;

use propwright_schema::quantity::{A, BurstA, CellV, RevMin, Unit, V, W};

use super::{
    Derivation, Model,
    gather::Gather,
    rig::{Rig, read_rig, refused},
    solved::{Solved, THRUST_AND_POWER, figures, unsolved},
};
use crate::{
    band::first_order_each,
    finding::{Datum, Missing},
    graph::{Property, derived},
    interval::{Interval, NEWTON, RATIO},
};

const RIG: Property = derived("rig");
const BENCH: Property = derived("full-throttle");

/// Full throttle at the build's output limit.
pub(crate) const FULL: Derivation = Derivation {
    id: "full-throttle",
    title: "full throttle on a fresh pack",
    formula: "E + 1.15·R·I + droop + I·R_esc = D_limit·V_b, V_b = (V0 + √(V0² − 4·R·P))/2",
    source: "M. Drela 2007; constant-power draw of a sagging pack; bands to first order (JCGM 100:2008)",
    reads: &[RIG],
    run: |site| {
        let mut gather = Gather::new(site);
        let known = read_rig(&mut gather).and_then(|rig| bench(&rig)).map(|bench| Datum::Model(Model::Solved(bench).into()));
        gather.one(known)
    },
};

fn bench(rig: &Rig) -> Result<Solved, Missing> {
    let solve = |factors: &[f64]| {
        let full = rig.scaled(factors).operating_point(&rig.air, 1.0, rig.limit)?;
        let radians = 2.0 * PI * full.rev_per_s;
        Ok([full.motor_a, full.esc_a, full.battery_a, full.battery_a, full.cell_v, full.pack_v, radians, full.tip_mach])
    };
    let each = first_order_each(&rig.spreads, Some(THRUST_AND_POWER), solve).map_err(|error| unsolved(&error))?;
    let ids = [MOTOR_A.id, ESC_A.id, BATTERY_A.id, PATH_A.id, CELL_V.id, PACK_V.id, SPEED.id, TIP_MACH.id];
    let full = rig.train.operating_point(&rig.air, 1.0, rig.limit).map_err(|error| refused(&error))?;
    Ok(Solved::new(ids, each).worked(vec![
        ("thrust of a rotor", Interval::nearest(full.thrust_n, &NEWTON)),
        ("shaft power of a rotor", Interval::nearest(full.shaft_power_w, &W::INFO)),
        ("power of the pack", Interval::nearest(full.battery_w, &W::INFO)),
    ]))
}

figures! {
    from BENCH;
    /// Current in each motor.
    MOTOR_A = "motor-burst", "motor current at full throttle, fresh pack", "I = Q·Kv + I0 at the speed solved", &BurstA::INFO;
    /// Current into each channel.
    ESC_A = "esc-burst", "current of a channel at full throttle, fresh pack", "power into a rotor / V_b", &BurstA::INFO;
    /// Current out of the pack.
    BATTERY_A = "battery-burst", "pack current at full throttle, fresh pack", "P/V_b", &A::INFO;
    /// The same as what a part between pack and motors stands for its burst.
    PATH_A = "path-burst", "current between pack and motors at full throttle, fresh pack", "P/V_b", &BurstA::INFO;
    /// Loaded cell.
    CELL_V = "loaded-cell", "loaded cell at full throttle, fresh pack", "V0 − I·R_cell", &CellV::INFO;
    /// Loaded pack.
    PACK_V = "loaded-pack", "loaded pack at full throttle, fresh pack", "V_b = V0 − I·R", &V::INFO;
    /// Rotor speed.
    SPEED = "rotor-speed", "rotor speed at full throttle, fresh pack", "n at which motor and propeller have the same torque", &RevMin::INFO;
    /// Tip Mach number.
    TIP_MACH = "tip-mach", "Mach number of the blade tips at full throttle", "π·D·n/a", &RATIO;
}
