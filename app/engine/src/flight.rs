//! The figures of a flight in one place, and what decides them.

use crate::{
    band::Contribution,
    derive::{self, calibrated_figure},
    graph::{Store, derived},
    interval::Interval,
};

/// Flight times of the stated mixes, in minutes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Times {
    /// Hover.
    pub hover: Interval,
    /// Calm flight.
    pub calm: Interval,
    /// Hard flight.
    pub hard: Interval,
    /// Full throttle all the time.
    pub flat_out: Interval,
    /// At the speed of the longest flight.
    pub longest: Interval,
}

/// How far the craft gets from its pilot, in kilometres; a link that is not chosen or not published has no radius.
#[derive(Debug, Clone, PartialEq)]
pub struct Radius {
    /// By energy, out and back in the wind, with the reserve left.
    pub energy: Interval,
    /// By the control link.
    pub control_link: Option<Interval>,
    /// By the video link.
    pub video_link: Option<Interval>,
    /// To the radio horizon.
    pub horizon: Interval,
    /// Which of them comes first: `energy`, `control link`, `video link` or `horizon`.
    pub limited_by: String,
}

/// The line at which one turns for home at the latest, out with the wind and back against it with the reserve left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TurnBack {
    /// Charge used by then, mAh.
    pub charge: Interval,
    /// Loaded cell by then, V.
    pub cell: Interval,
    /// Wind against the way home, m/s; absent: calm.
    pub headwind: Option<Interval>,
    /// Airspeed of the way home, m/s.
    pub speed: Interval,
}

/// An input that decides the spread of the figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Deciding {
    /// Its name.
    pub name: &'static str,
    /// Its mean share of the variance of the headline figures, 0 to 1.
    pub share: f64,
    /// How to know it better.
    pub measure: &'static str,
}

/// A figure of the flight with all that is to be told of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// Its key in files for other programs; the unit is in the name.
    pub key: &'static str,
    /// Its derivation.
    pub id: &'static str,
    /// What it is, in the trade's words.
    pub title: &'static str,
    /// The figure with its band, measurements counted.
    pub figure: Interval,
    /// The same without any measurement; absent while nothing was measured.
    pub modelled: Option<Interval>,
    /// Does it rest on a figure that the user estimated?
    pub estimated: bool,
    /// Up to three inputs that decide most of its band, greatest first.
    pub deciding: Vec<Deciding>,
}

/// The mixes of calm and hard flight in force.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mixes {
    /// Power of calm flight, of that in hover.
    pub calm_power: Interval,
    /// Share of hard flight at full throttle.
    pub hard_full: Interval,
    /// Power of the rest of hard flight, of that in hover.
    pub hard_power: Interval,
}

/// What a craft does in the air.
#[derive(Debug, Clone, PartialEq)]
pub struct Flight {
    /// Thrust over weight at full throttle, half-charged pack.
    pub thrust_to_weight: Interval,
    /// Duty in hover on a fresh pack.
    pub hover_duty: Interval,
    /// Pack current in hover, A.
    pub hover_current: Interval,
    /// Pack current at full throttle, fresh pack, A.
    pub full_throttle_current: Interval,
    /// Current of each motor at full throttle, A.
    pub motor_full_throttle_current: Interval,
    /// Flight times.
    pub times: Times,
    /// Top speed in level flight, km/h.
    pub top_speed: Interval,
    /// Speed at the tilt at which pilots of such craft stop, km/h.
    pub tilt_limited_speed: Interval,
    /// Comfortable mean wind, m/s.
    pub wind_held: Interval,
    /// Path in still air, km.
    pub path: Interval,
    /// Speed of that path, km/h.
    pub path_speed: Interval,
    /// Speed of the longest flight, km/h.
    pub longest_speed: Interval,
    /// Radii.
    pub radius: Radius,
    /// When to turn for home.
    pub turn_back: TurnBack,
    /// The mixes of the flight times.
    pub mixes: Mixes,
    /// The three inputs that decide most, with what to measure.
    pub deciding: Vec<Deciding>,
    /// Each figure with what decides it, and what the models say of it without what was measured.
    pub told: Vec<Told>,
}

/// The figures that are told one by one: key, derivation.
pub(crate) const EACH: [(&str, &str); 21] = [
    ("thrust_to_weight", "thrust-to-weight"),
    ("hover_duty", "hover-duty"),
    ("hover_current_a", "hover-current"),
    ("full_throttle_current_a", "battery-burst"),
    ("motor_full_throttle_current_a", "motor-burst"),
    ("time_hover_min", "time-hover"),
    ("time_calm_min", "time-calm"),
    ("time_hard_min", "time-hard"),
    ("time_flat_out_min", "time-flat-out"),
    ("time_longest_min", "time-longest"),
    ("top_speed_kmh", "top-speed"),
    ("tilt_limited_speed_kmh", "tilt-limited-speed"),
    ("wind_held_ms", "wind-held"),
    ("path_km", "path"),
    ("radius_energy_km", "radius-energy"),
    ("radius_control_link_km", "radius-control"),
    ("radius_video_link_km", "radius-video"),
    ("turn_back_used_mah", "turn-back-charge"),
    ("turn_back_cell_v", "turn-back-cell"),
    ("landing_cell_v", "landing-cell"),
    ("loaded_cell_v", "loaded-cell"),
];

/// Figures by whose spread the deciding inputs are found.
const HEADLINES: [&str; 5] = ["thrust-to-weight", "battery-burst", "time-calm", "top-speed", "path"];
/// How many deciding inputs are told.
const TOLD: usize = 3;

/// How each uncertain input is known better.
const MEASURES: [(&str, &str); 9] = [
    ("KV", "Spin a motor without propeller at known volts and read its speed, or enter full-throttle rows of a thrust stand"),
    ("motor resistance", "Measure a winding between two leads with a four-wire milliohm meter"),
    ("no-load current", "Read the current of one motor without propeller at known volts"),
    (
        "propeller thrust",
        "Enter one static point, rotor speed and thrust on a scale, or rows of a thrust stand; in the air, log the motor output in hover",
    ),
    (
        "propeller power",
        "Enter one static point with its shaft power, or rows of a thrust stand; in the air, log minutes flown and charge put back",
    ),
    ("pack resistance", "Read the pack's resistance with a charger, at room temperature"),
    ("take-off mass", "Weigh the craft ready to fly"),
    ("pack capacity", "Note minutes flown and the charge that goes back after it"),
    ("drag area", "Log the top speed of two level runs in opposite directions"),
];

/// The flight, when it could be solved.
pub(crate) fn flight(store: &Store, headwind: Option<Interval>) -> Option<Flight> {
    let reading = |id| store.get(&derived(id)).and_then(|readings| readings.first());
    let figure = |id| reading(id).and_then(|reading| reading.figure().ok());
    let mixes =
        Mixes { calm_power: figure("mix-calm")?, hard_full: figure("mix-hard-full")?, hard_power: figure("mix-hard-rest")? };
    Some(Flight {
        mixes,
        told: told(store),
        thrust_to_weight: figure("thrust-to-weight")?,
        hover_duty: figure("hover-duty")?,
        hover_current: figure("hover-current")?,
        full_throttle_current: figure("battery-burst")?,
        motor_full_throttle_current: figure("motor-burst")?,
        times: Times {
            hover: figure("time-hover")?,
            calm: figure("time-calm")?,
            hard: figure("time-hard")?,
            flat_out: figure("time-flat-out")?,
            longest: figure("time-longest")?,
        },
        top_speed: figure("top-speed")?,
        tilt_limited_speed: figure("tilt-limited-speed")?,
        wind_held: figure("wind-held")?,
        path: figure("path")?,
        path_speed: figure("path-speed")?,
        longest_speed: figure("longest-speed")?,
        radius: Radius {
            energy: figure("radius-energy")?,
            control_link: figure("radius-control"),
            video_link: figure("radius-video"),
            horizon: figure("radius-horizon")?,
            limited_by: reading("limited-by")?.word().ok()?.to_owned(),
        },
        turn_back: TurnBack {
            charge: figure("turn-back-charge")?,
            cell: figure("turn-back-cell")?,
            headwind,
            speed: figure("home-speed")?,
        },
        deciding: deciding(store),
    })
}

/// What each uncertain input adds to the spread of a figure, greatest first; nothing for a figure of no solve.
pub(crate) fn contributions(store: &Store, id: &str) -> Vec<Contribution> {
    calibrated_figure(store, id).map_or_else(Vec::new, |figure| figure.contributions)
}

/// Marks the figures that rest on what the user estimated.
pub(crate) fn mark_estimated(flight: &mut Flight, store: &Store) {
    for told in &mut flight.told {
        let first = store.get(&derived(told.id)).and_then(|readings| readings.first());
        told.estimated = first.is_some_and(|reading| reading.because.is_own_estimate());
    }
}

fn told(store: &Store) -> Vec<Told> {
    let one = |(key, id): (&'static str, &'static str)| {
        let figure = store.get(&derived(id))?.first()?.figure().ok()?;
        let title = derive::ALL.iter().find(|derivation| derivation.id == id)?.title;
        Some(Told { key, id, title, figure, modelled: None, estimated: false, deciding: deciding_of(store, id) })
    };
    EACH.into_iter().filter_map(one).collect()
}

/// Share of a band below which an input is not worth a measurement.
const WORTH: f64 = 0.02;
/// What decides a link's budget, and how it is known better.
const LINK: Deciding = Deciding {
    name: "link budget",
    share: 1.0,
    measure: "Fly out at low power over open ground and note the distance at which the link warns",
};

fn deciding_of(store: &Store, id: &str) -> Vec<Deciding> {
    if id == "radius-control" || id == "radius-video" {
        return vec![LINK];
    }
    let each = contributions(store, id).into_iter().filter(|one| one.share >= WORTH).take(TOLD);
    let measure = |name| MEASURES.iter().find(|(known, _)| *known == name).map_or("", |(_, measure)| measure);
    each.map(|one| Deciding { name: one.name, share: one.share, measure: measure(one.name) }).collect()
}

/// Sets beside each figure what the models say of it without what was measured.
pub(crate) fn beside(flight: &mut Flight, modelled: &Store) {
    for told in &mut flight.told {
        told.modelled = modelled.get(&derived(told.id)).and_then(|readings| readings.first()?.figure().ok());
    }
}

fn deciding(store: &Store) -> Vec<Deciding> {
    let share = |name: &str| {
        let of = |id: &&str| contributions(store, id).iter().find(|one| one.name == name).map_or(0.0, |one| one.share);
        HEADLINES.iter().map(of).sum::<f64>() / HEADLINES.len() as f64
    };
    let mut all: Vec<Deciding> = MEASURES.iter().map(|(name, measure)| Deciding { name, share: share(name), measure }).collect();
    all.sort_by(|one, other| other.share.total_cmp(&one.share));
    all.truncate(TOLD);
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::policy::Policy;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::craft;

    fn store(parts: &str, build: &str) -> Store {
        crate::graph::graph().derive(&craft(parts, build), &Policy::default())
    }

    #[test]
    fn three_inputs_decide_and_shares_add_up() {
        let store = store(five_inch!(), five_inch_build!());
        let found = flight(&store, None).unwrap();
        assert_eq!(found.deciding.len(), TOLD);
        assert!(found.deciding.is_sorted_by(|one, other| one.share >= other.share));
        for id in HEADLINES {
            let sum: f64 = contributions(&store, id).iter().map(|one| one.share).sum();
            assert!((sum - 1.0).abs() < 1e-9, "{id}: {sum}");
            assert!(contributions(&store, id).iter().all(|one| MEASURES.iter().any(|(name, _)| *name == one.name)));
        }
        assert!(contributions(&store, "dry-mass").is_empty());
    }

    #[test]
    fn a_measured_propeller_decides_no_more() {
        let before = flight(&store(five_inch!(), five_inch_build!()), None).unwrap();
        let measured = five_inch!(propeller ", static_point: (speed_rpm: 24000, thrust_gf: 700, power_w: 180)");
        let after = flight(&store(measured, five_inch_build!()), None).unwrap();
        let width = |flight: &Flight| flight.times.hover.high - flight.times.hover.low;
        assert!(width(&after) < width(&before));
        assert_eq!(before.deciding[0].name, "propeller power");
        assert_ne!(after.deciding[0].name, "propeller power");
    }

    #[test]
    fn no_flight_without_a_mass() {
        assert_eq!(flight(&store(&five_inch!().replace("mass_g: 32, ", ""), five_inch_build!()), None), None);
    }
}
