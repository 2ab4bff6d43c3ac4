//! In the air: hover, thrust-to-weight, flight times of the stated mixes, lasting currents, each with its band.

use propwright_schema::quantity::{A, CellV, Min, RevMin, Unit, V, W};

use super::{
    Derivation, Model,
    flyer::{self, Flyer},
    gather::Gather,
    logged, mixes,
    rig::refused,
    solved::{Solved, THRUST_AND_POWER, figures, unsolved},
};
use crate::{
    band::first_order_each,
    finding::{Datum, Missing},
    graph::{Property, Site, derived},
    interval::{DUTY, Interval, NEWTON, RATIO},
    models::{
        cruise::Craft,
        error::ModelError,
        flight::{Inflow, disc_area, hover_ideal_power},
        mix::{Ends, Mix},
    },
    policy::CLIMB,
};

const FLIGHT: Property = derived("in-the-air");

/// All that is predicted of the flight without its speed.
pub(crate) const AIRBORNE: Derivation = Derivation {
    id: "in-the-air",
    title: "hover, thrust and flight times",
    formula: "thrust of a rotor = m·g/(n·η_inst); power of a flight = a·P_full + (1 − a)·b·P_hover, a and b of its mix",
    source: "momentum balance; mixes are common practice, no source; bands to first order (JCGM 100:2008)",
    reads: &[flyer::RIG, flyer::MASS, flyer::USE, flyer::GUARD, mixes::READS[0], mixes::READS[1], mixes::READS[2]],
    run: |site| {
        let mut gather = Gather::new(site);
        let known = airborne(site, &mut gather).map(|found| Datum::Model(Model::Solved(found).into()));
        gather.one(known)
    },
};

/// The mixes in force: calm and hard flying, and the climb as a multiple of hover power.
pub(super) struct Mixes {
    pub(super) calm: Mix,
    hard: Mix,
    climb: f64,
}

pub(super) fn mixes(site: &Site, gather: &mut Gather) -> Mixes {
    let [calm, hard] = mixes::read(gather);
    gather.from.push(site.threshold(&CLIMB));
    Mixes { calm, hard, climb: site.policy().tight(&CLIMB).map_or(0.0, |share| share.si()) }
}

fn airborne(site: &Site, gather: &mut Gather) -> Result<Solved, Missing> {
    let flyer = Flyer::hovering(gather)?;
    let mixes = mixes(site, gather);
    let solve = |factors: &[f64]| states(&flyer, &mixes, &flyer.craft(factors));
    let found = first_order_each(&flyer.inputs, Some(THRUST_AND_POWER), solve).map_err(|error| unsolved(&error))?;
    let ids = [
        THRUST_TO_WEIGHT.id,
        HOVER_DUTY.id,
        LANDING_DUTY.id,
        HOVER_A.id,
        CLIMB_A.id,
        LANDING_CELL.id,
        HOVER_TIME.id,
        CALM_TIME.id,
        HARD_TIME.id,
        FLAT_OUT_TIME.id,
        MOTOR_LASTING.id,
        ESC_LASTING.id,
        BATTERY_LASTING.id,
        logged::HALF_OUTPUT,
        logged::CALM_CURRENT,
    ];
    Ok(Solved::new(ids, found).worked(working(&flyer).map_err(|error| refused(&error))?))
}

/// Hover of the half-charged pack in its figures.
fn working(flyer: &Flyer) -> Result<Vec<(&'static str, Interval)>, ModelError> {
    let craft = flyer.nominal();
    let load = craft.powertrain.load(&flyer.rig.air, craft.hover_thrust()?, &Inflow::STILL)?;
    let hover = craft.powertrain.settle(&load, &flyer.rig.air, HALF)?;
    let disc = disc_area(1, craft.powertrain.propeller.geometry.diameter_m);
    let ideal_w = hover_ideal_power(hover.thrust_n, disc, flyer.rig.air.density)?;
    Ok(vec![
        ("thrust of a rotor in hover", Interval::nearest(hover.thrust_n, &NEWTON)),
        ("rotor speed", Interval::nearest(std::f64::consts::TAU * hover.rev_per_s, &RevMin::INFO)),
        ("shaft power of a rotor", Interval::nearest(hover.shaft_power_w, &W::INFO)),
        ("ideal power of its disc", Interval::nearest(ideal_w, &W::INFO)),
        ("motor current", Interval::nearest(hover.motor_a, &A::INFO)),
        ("power of the pack", Interval::nearest(hover.battery_w, &W::INFO)),
        ("loaded pack", Interval::nearest(hover.pack_v, &V::INFO)),
    ])
}

/// State of charge at which hover and climb currents are taken; thrust-to-weight and lasting currents come with it.
const HALF: f64 = 0.5;

fn states(flyer: &Flyer, mixes: &Mixes, craft: &Craft) -> Result<[f64; 15], ModelError> {
    let (air, train) = (&flyer.rig.air, &craft.powertrain);
    let reserve = 1.0 - train.pack.chemistry.usable_share();
    let ends = craft.ends(air, flyer.rig.limit)?;
    let fresh = train.settle(&ends.hover, air, 1.0)?;
    let landing = train.pack.draw(reserve, ends.hover.battery_w)?;
    let climb_w = (mixes.climb * ends.hover.battery_w).min(ends.full_half.battery_w);
    let lasting = craft.root_mean_square(air, &ends, &mixes.hard)?;
    let time = |mix: &Mix| endurance(craft, &ends, mix).map(|(seconds, _)| seconds);
    let (calm_s, calm_a) = endurance(craft, &ends, &mixes.calm)?;
    Ok([
        ends.full_half.thrust_n / craft.hover_thrust()?,
        fresh.duty,
        ends.hover.needed_v / landing.volts,
        train.pack.draw(HALF, ends.hover.battery_w)?.current_a,
        train.pack.draw(HALF, climb_w)?.current_a,
        train.pack.loaded_cell_voltage(reserve, landing.current_a)?,
        time(&Mix::HOVER)?,
        calm_s,
        time(&mixes.hard)?,
        time(&Mix::FLAT_OUT)?,
        lasting.motor_a,
        lasting.esc_a,
        lasting.battery_a,
        train.settle(&ends.hover, air, HALF)?.duty,
        calm_a,
    ])
}

/// Time of a mix from the full pack to its reserve or loaded cut-off, s, and its mean current, A.
fn endurance(craft: &Craft, ends: &Ends, mix: &Mix) -> Result<(f64, f64), ModelError> {
    match craft.endurance(ends, mix) {
        // A pack that sags below its cut-off at once gives a moment, not nothing: bands need a logarithm.
        Err(ModelError::Infeasible(_)) => Ok((MOMENT_S, craft.powertrain.pack.draw(1.0, ends.hover.battery_w)?.current_a)),
        other => other.map(|flown| (flown.seconds.max(MOMENT_S), flown.mean_current_a)),
    }
}

/// Shortest time that is told, s.
const MOMENT_S: f64 = 1.0;

figures! {
    from FLIGHT;
    /// Thrust-to-weight.
    THRUST_TO_WEIGHT = "thrust-to-weight", "thrust to weight, half-charged pack", "n·T_full·η_inst/(m·g)", &RATIO;
    /// Duty in hover.
    HOVER_DUTY = "hover-duty", "duty in hover, fresh pack", "V_req/V_b", &DUTY;
    /// Duty at landing.
    LANDING_DUTY = "landing-duty", "duty in hover at landing", "V_req/V_b", &DUTY;
    /// Current in hover.
    HOVER_A = "hover-current", "pack current in hover", "P_hover/V_b", &A::INFO;
    /// Current in a climb.
    CLIMB_A = "climb-current", "pack current in a climb at twice the hover power", "2·P_hover/V_b", &A::INFO;
    /// Loaded cell at landing.
    LANDING_CELL = "landing-cell", "loaded cell in hover at landing", "V0(reserve) − I·R_cell", &CellV::INFO;
    /// Hover time.
    HOVER_TIME = "time-hover", "hover time", "3600·C·∫ds/I(s) at P_hover", &Min::INFO;
    /// Calm time.
    CALM_TIME = "time-calm", "calm flight", "3600·C·∫ds/I(s) at b·P_hover of the calm mix", &Min::INFO;
    /// Hard time.
    HARD_TIME = "time-hard", "hard flight", "3600·C·∫ds/I(s) at a·P_full + (1 − a)·b·P_hover of the hard mix", &Min::INFO;
    /// Flat out.
    FLAT_OUT_TIME = "time-flat-out", "flat out", "3600·C·∫ds/I(s) at P_full", &Min::INFO;
    /// Lasting current of a motor.
    MOTOR_LASTING = "motor-lasting", "motor current of hard flying, root mean square", "√(a·I_full² + (1 − a)·I_between²)", &A::INFO;
    /// Lasting current of a channel.
    ESC_LASTING = "esc-lasting", "current of a channel in hard flying, root mean square", "√(a·I_full² + (1 − a)·I_between²)", &A::INFO;
    /// Lasting current of the pack.
    BATTERY_LASTING = "battery-lasting", "pack current of hard flying, root mean square", "√(a·I_full² + (1 − a)·I_between²)", &A::INFO;
}
