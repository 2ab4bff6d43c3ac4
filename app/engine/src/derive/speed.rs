//! Level flight: how fast, how far, how long, and against which wind.

use propwright_schema::{
    quantity::{CellV, Cm2, Deg, Km, MAh, MPerS, Min, Unit, W},
    slot::Slot,
};

use super::{
    Derivation, Model,
    flown::Logged,
    flyer::{self, Class, Flyer},
    gather::Gather,
    rig,
    solved::{self, Solved, THRUST_AND_POWER, figures, unsolved},
};
use crate::{
    band::first_order_each,
    estimated::OTHER_SIGMA,
    finding::{Datum, Missing, Unknown},
    graph::{Property, Site, build, derived, part},
    interval::{Interval, KMH, NEWTON},
    models::{
        atmosphere::Air,
        cruise::{Craft, TopSpeed, radius},
        discharge::Discharge,
        error::ModelError,
        flight::speed_at_tilt,
    },
    policy::{self, Limit},
};

const MEASURED_DRAG: Property = part(Slot::Frame, "drag_area_cm2");
const DIAMETER: Property = part(Slot::Propeller, "diameter_in");
const DRAG: Property = derived("drag-area");
const WIND: Property = build("conditions.wind_ms");
const LEVEL: Property = derived("level-flight");
const CRUISED: Property = derived("cruise");

/// Spread of a drag area that was measured, and of one that is judged by its class.
const DRAG_SIGMA: [f64; 2] = [0.08, 0.25];
/// Half the width of a band from P5 to P95 in standard deviations.
const BAND: f64 = 1.645;

/// Drag area of the craft.
pub(crate) const DRAG_AREA: Derivation = Derivation {
    id: "drag-area",
    title: "drag area",
    formula: "as measured in flight, or a share of the discs' squares by class: c·D²·n/4",
    source: "common practice, no source; one logged speed calibrates it",
    reads: &[MEASURED_DRAG, DIAMETER, rig::MOTORS, flyer::GUARD, flyer::USE],
    run: |site| {
        let mut gather = Gather::new(site);
        let known = drag_area(site, &mut gather).map(Datum::Figure);
        gather.one(known)
    },
};

fn drag_area(site: &Site, gather: &mut Gather) -> Result<Interval, Missing> {
    if let Some(measured) = gather.maybe(MEASURED_DRAG) {
        return Ok(spread(measured, DRAG_SIGMA[usize::from(gather.is_estimated(MEASURED_DRAG))]));
    }
    let (diameter, motors) = (gather.need(DIAMETER)?, f64::from(rig::rotors(site)));
    let limit = match flyer::class(gather) {
        Class::Micro => policy::DRAG_MICRO,
        Class::Ducted => policy::DRAG_DUCTED,
        Class::Open => policy::DRAG_OPEN,
    };
    // The discs' squares by an estimated diameter are as far off twice over.
    let by_class = if gather.is_estimated(DIAMETER) { DRAG_SIGMA[1].hypot(2.0 * OTHER_SIGMA) } else { DRAG_SIGMA[1] };
    let judged = spread(taken(site, gather, &limit) * diameter * diameter * motors / 4.0, by_class);
    gather.assume("drag area by the class of the frame", Some(judged));
    Ok(judged)
}

fn spread(square_metres: f64, sigma: f64) -> Interval {
    let factor = (BAND * sigma).exp();
    Interval::outward(square_metres / factor, square_metres, square_metres * factor, &Cm2::INFO)
}

/// A figure of the policy in SI units, with its step of the reason.
fn taken(site: &Site, gather: &mut Gather, limit: &Limit) -> f64 {
    gather.from.push(site.threshold(limit));
    site.policy().tight(limit).map_or(0.0, |figure| figure.si())
}

/// How fast level flight goes.
pub(crate) const LEVEL_FLIGHT: Derivation = Derivation {
    id: "level-flight",
    title: "level flight",
    formula: "T = √(W² + D²), D = ½ρV²·CdA; top speed where no volts are left",
    source: "statics; H. Glauert; blade elements or their closed form; bands to first order (JCGM 100:2008)",
    reads: &[flyer::RIG, flyer::MASS, flyer::USE, flyer::GUARD, DRAG],
    run: |site| {
        let mut gather = Gather::new(site);
        let known = level(site, &mut gather).map(|found| Datum::Model(Model::Solved(found).into()));
        gather.one(known)
    },
};

/// State of charge at which top speed is told.
const FAST_CHARGE: f64 = 0.8;
/// Least radius that is told where the wind is faster than the craft, m: bands need a logarithm.
const NOWHERE_M: f64 = 1.0;

/// How far and how long level flight goes.
pub(crate) const CRUISE: Derivation = Derivation {
    id: "cruise",
    title: "level flight at its best speeds",
    formula: "T = √(W² + D²), D = ½ρV²·CdA; farthest at the largest (V² − w²)/(V·P), the speeds those of the craft as it was logged",
    source: "statics; H. Glauert; blade elements or their closed form; bands to first order (JCGM 100:2008)",
    reads: &[flyer::RIG, flyer::MASS, flyer::USE, flyer::GUARD, DRAG, WIND, LEVEL, solved::CALIBRATION],
    run: |site| {
        let mut gather = Gather::new(site);
        let known = cruise(&mut gather).map(|found| Datum::Model(Model::Solved(found).into()));
        gather.one(known)
    },
};

/// The edge of the craft, and the tilt that ends it earlier.
struct Edge {
    top: TopSpeed,
    /// Tilt at which the pilot stops, rad, where that comes before the top speed.
    tilt: Option<f64>,
    /// Share of the tilt-limited speed that is a comfortable wind.
    wind_share: f64,
}

/// The best speeds below it.
struct Pace {
    /// Mean wind, m/s.
    wind: f64,
    /// Best airspeed of a path in still air, of a way out and back in the wind, and of the longest flight, m/s.
    path: f64,
    home: f64,
    longest: f64,
}

fn flyer(gather: &mut Gather) -> Result<Flyer, Missing> {
    let nowhere = || Missing { subject: None, what: Unknown::Empty(Slot::Propeller) };
    let drag = gather.reading(DRAG).ok_or_else(nowhere)?.figure()?;
    Ok(Flyer::hovering(gather)?.with_drag(&drag))
}

fn level(site: &Site, gather: &mut Gather) -> Result<Solved, Missing> {
    let flyer = flyer(gather)?;
    let edge = edge(site, gather, &flyer)?;
    let solve = |factors: &[f64]| fastest(&flyer, &edge, &flyer.craft(factors));
    let found = first_order_each(&flyer.inputs, Some(THRUST_AND_POWER), solve).map_err(|error| unsolved(&error))?;
    Ok(Solved::new([TOP_SPEED.id, TILT_LIMITED.id, WIND_HELD.id], found))
}

fn edge(site: &Site, gather: &mut Gather, flyer: &Flyer) -> Result<Edge, Missing> {
    let (tilt, share) = match flyer::class(gather) {
        Class::Micro => (Some(policy::TILT_MICRO), policy::WIND_DUCTED),
        Class::Ducted => (Some(policy::TILT_DUCTED), policy::WIND_DUCTED),
        Class::Open => (None, policy::WIND_OPEN),
    };
    let tilt = tilt.map(|limit| taken(site, gather, &limit));
    let wind_share = taken(site, gather, &share);
    let (craft, air) = (flyer.nominal(), &flyer.rig.air);
    let found = || {
        let top = craft.top_speed(air, FAST_CHARGE, flyer.rig.limit)?;
        let tilted = tilt.map(|tilt| speed_at_tilt(craft.mass_kg, craft.cda_m2, tilt, air.density)).transpose()?;
        let earlier = tilted.is_some_and(|speed| speed < top.speed_m_s);
        Ok(Edge { top, tilt: tilt.filter(|_| earlier), wind_share })
    };
    found().map_err(|error: ModelError| rig::refused(&error))
}

fn fastest(flyer: &Flyer, edge: &Edge, craft: &Craft) -> Result<[f64; 3], ModelError> {
    let air = &flyer.rig.air;
    let top = craft.top_speed_near(&edge.top, air, FAST_CHARGE, flyer.rig.limit)?;
    let limited = match edge.tilt {
        None => top,
        Some(tilt) => speed_at_tilt(craft.mass_kg, craft.cda_m2, tilt, air.density)?,
    };
    Ok([top, limited, limited * edge.wind_share])
}

fn cruise(gather: &mut Gather) -> Result<Solved, Missing> {
    let flyer = flyer(gather)?;
    let logged = Logged::of(gather, &flyer);
    let pace = pace(gather, &flyer, &logged)?;
    let solve = |factors: &[f64]| states(&flyer, &pace, &logged.craft(&flyer, factors));
    let found = first_order_each(&flyer.inputs, Some(THRUST_AND_POWER), solve).map_err(|error| unsolved(&error))?;
    let ids =
        [PATH.id, PATH_SPEED.id, LONGEST.id, LONGEST_SPEED.id, ENERGY_RADIUS.id, HOME_SPEED.id, TURN_CHARGE.id, TURN_CELL.id];
    let working = working(&flyer, &pace, &logged.craft(&flyer, &[])).map_err(|error| rig::refused(&error))?;
    Ok(Solved::new(ids, found).worked(working).of_the_log())
}

/// Level flight at the best speed of a path in its figures.
fn working(flyer: &Flyer, pace: &Pace, craft: &Craft) -> Result<Vec<(&'static str, Interval)>, ModelError> {
    let level = craft.level(&flyer.rig.air, pace.path)?;
    Ok(vec![
        ("airspeed of the longest path", Interval::nearest(pace.path, &MPerS::INFO)),
        ("drag", Interval::nearest(level.trim.drag_n, &NEWTON)),
        ("tilt", Interval::nearest(level.trim.tilt_rad, &Deg::INFO)),
        ("thrust of all rotors", Interval::nearest(level.trim.thrust_n, &NEWTON)),
        ("power of the pack", Interval::nearest(level.load.battery_w, &W::INFO)),
    ])
}

/// The best speeds of the craft as it was logged; without a log, as listed.
fn pace(gather: &mut Gather, flyer: &Flyer, logged: &Logged) -> Result<Pace, Missing> {
    let nowhere = || Missing { subject: None, what: Unknown::Outside("no top speed".to_owned()) };
    let level = gather.reading(LEVEL).ok_or_else(nowhere)?;
    let modelled = match &**level.model()? {
        Model::Solved(solved) => solved.figure(TILT_LIMITED.id).cloned().ok_or_else(nowhere)?,
        _ => return Err(nowhere()),
    };
    let belief = logged.belief.as_ref();
    let limited = belief.and_then(|belief| belief.figure(&modelled).ok()).unwrap_or(modelled).band.nominal();
    let craft = logged.craft(flyer, &[]);
    let wind = gather.maybe(WIND).unwrap_or(0.0);
    let air = &flyer.rig.air;
    let found = || {
        let path = craft.range_speed(air, 0.0, limited)?;
        let home = if wind > 0.0 { craft.range_speed(air, wind, limited)? } else { path };
        Ok(Pace { wind, path, home, longest: craft.endurance_speed(air, limited)? })
    };
    found().map_err(|error: ModelError| rig::refused(&error))
}

/// The figures at the best speeds of the craft: what a changed craft gains by another speed is of second order.
fn states(flyer: &Flyer, pace: &Pace, craft: &Craft) -> Result<[f64; 8], ModelError> {
    let air = &flyer.rig.air;
    let path_s = craft.flown(air, pace.path)?.seconds;
    let home = craft.flown(air, pace.home)?;
    let (charge, cell) = turn_back(craft, air, pace, &home)?;
    Ok([
        path_s * pace.path,
        pace.path,
        craft.flown(air, pace.longest)?.seconds,
        pace.longest,
        radius(home.seconds, pace.home, pace.wind).max(NOWHERE_M),
        pace.home,
        charge,
        cell,
    ])
}

/// Least share of the charge that is told before turning.
const AT_ONCE: f64 = 1e-3;

/// Charge used, C, and volts of a loaded cell at which one turns for home at the latest, out with the wind and back against it:
/// out takes `(V − w)/(2V)` of the time, and as the current grows with falling volts, a little less of the charge.
fn turn_back(craft: &Craft, air: &Air, pace: &Pace, home: &Discharge) -> Result<(f64, f64), ModelError> {
    let pack = &craft.powertrain.pack;
    let load = craft.level(air, pace.home)?.load;
    let out = ((pace.home - pace.wind) / (2.0 * pace.home)).max(AT_ONCE);
    let even = out * (1.0 - home.end_state_of_charge);
    let taken_s = |share: f64| -> Result<f64, ModelError> {
        let rate = |charge: f64| Ok::<_, ModelError>(1.0 / pack.draw(charge, load.battery_w)?.current_a);
        let (full, half, turned) = (rate(1.0)?, rate(1.0 - share / 2.0)?, rate(1.0 - share)?);
        Ok(3600.0 * pack.capacity_ah() * share * (full + 4.0 * half + turned) / 6.0)
    };
    let share = even * out * home.seconds / taken_s(even)?;
    let current = pack.draw(1.0 - share, load.battery_w)?.current_a;
    Ok((3600.0 * pack.capacity_ah() * share, pack.loaded_cell_voltage(1.0 - share, current)?))
}

figures! {
    from LEVEL;
    /// Top speed.
    TOP_SPEED = "top-speed", "top speed in level flight", "volts left = 0 at 80 % of the charge", &KMH;
    /// Speed at the tilt at which a pilot of such craft stops.
    TILT_LIMITED = "tilt-limited-speed", "speed at the usual tilt limit", "√(2·W·tanθ/(ρ·CdA))", &KMH;
    /// Wind in which it flies with comfort.
    WIND_HELD = "wind-held", "comfortable mean wind", "0.3 (ducted) or 0.45 (open) of the tilt-limited speed", &MPerS::INFO;
}

figures! {
    from CRUISED;
    /// Path in still air.
    PATH = "path", "path in still air", "V·3600·C·∫ds/I(s) at the best speed", &Km::INFO;
    /// Speed of that path.
    PATH_SPEED = "path-speed", "speed of the longest path", "largest V/P(V)", &KMH;
    /// Longest flight.
    LONGEST = "time-longest", "longest flight", "3600·C·∫ds/I(s) at the least P(V)", &Min::INFO;
    /// Speed of the longest flight.
    LONGEST_SPEED = "longest-speed", "speed of the longest flight", "least P(V)", &KMH;
    /// Airspeed of the way home.
    HOME_SPEED = "home-speed", "airspeed of the way home", "largest (V² − w²)/(V·P)", &MPerS::INFO;
    /// Charge used at which one turns for home.
    TURN_CHARGE = "turn-back-charge", "charge used at which one turns for home at the latest", "out takes (V − w)/(2V) of the flight, back against the wind the rest", &MAh::INFO;
    /// Loaded cell at that moment.
    TURN_CELL = "turn-back-cell", "loaded cell at which one turns for home at the latest", "V0(s) − I·R_cell at that charge", &CellV::INFO;
    /// Radius by energy.
    ENERGY_RADIUS = "radius-energy", "radius by energy, out and back in the wind with the reserve left", "t·(V² − w²)/(2·V)", &Km::INFO;
}

#[cfg(test)]
mod tests {
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::figure;

    #[test]
    fn one_turns_at_a_little_less_than_half_in_still_air_and_sooner_in_wind() {
        let of = |build, id| figure(five_inch!(), build, id).decimals()[1];
        let still = of(five_inch_build!(), "turn-back-charge");
        // 80 % of 1300 mAh, half of it on the way out: 520 mAh; the current grows by a few per cent on the way.
        assert!((490.0..520.0).contains(&still), "{still}");
        let windy = five_inch_build!("conditions: (wind_ms: 8), ");
        let (speed, used) = (of(windy, "home-speed"), of(windy, "turn-back-charge"));
        let by_hand = 1040.0 * (speed - 8.0) / (2.0 * speed);
        assert!((by_hand * 0.93..by_hand).contains(&used), "{used} {by_hand}");
        assert!(of(windy, "turn-back-cell") > of(five_inch_build!(), "turn-back-cell"), "sooner means fuller");
    }
}
