//! The figures of a flight in one place, and what decides them.

use crate::{
    band::Contribution,
    derive::solved_figure,
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
    /// The three inputs that decide most, with what to measure.
    pub deciding: Vec<Deciding>,
}

/// Figures by whose spread the deciding inputs are found.
const HEADLINES: [&str; 5] = ["thrust-to-weight", "battery-burst", "time-calm", "top-speed", "path"];
/// How many deciding inputs are told.
const TOLD: usize = 3;

/// How each uncertain input is known better.
const MEASURES: [(&str, &str); 9] = [
    ("KV", "Spin a motor without propeller at known volts and read its speed"),
    ("motor resistance", "Measure a winding between two leads with a four-wire milliohm meter"),
    ("no-load current", "Read the current of one motor without propeller at known volts"),
    ("propeller thrust", "Enter one static point: rotor speed and thrust on a scale"),
    ("propeller power", "Enter one static point with its shaft power"),
    ("pack resistance", "Read the pack's resistance with a charger, at room temperature"),
    ("take-off mass", "Weigh the craft ready to fly"),
    ("pack capacity", "Note the charge that goes back after a flight"),
    ("drag area", "Log one level speed with its tilt and enter the drag area"),
];

/// The flight, when it could be solved.
pub(crate) fn flight(store: &Store) -> Option<Flight> {
    let reading = |id| store.get(&derived(id)).and_then(|readings| readings.first());
    let figure = |id| reading(id).and_then(|reading| reading.figure().ok());
    Some(Flight {
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
        deciding: deciding(store),
    })
}

/// What each uncertain input adds to the spread of a figure, greatest first; nothing for a figure of no solve.
pub(crate) fn contributions<'a>(store: &'a Store, id: &str) -> &'a [Contribution] {
    solved_figure(store, id).map_or(&[], |figure| figure.contributions.as_slice())
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
        let found = flight(&store).unwrap();
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
        let before = flight(&store(five_inch!(), five_inch_build!())).unwrap();
        let measured = five_inch!(propeller ", static_point: (speed_rpm: 24000, thrust_gf: 700, power_w: 180)");
        let after = flight(&store(measured, five_inch_build!())).unwrap();
        let width = |flight: &Flight| flight.times.hover.high - flight.times.hover.low;
        assert!(width(&after) < width(&before));
        assert_eq!(before.deciding[0].name, "propeller power");
        assert_ne!(after.deciding[0].name, "propeller power");
    }

    #[test]
    fn no_flight_without_a_mass() {
        assert_eq!(flight(&store(&five_inch!().replace("mass_g: 32, ", ""), five_inch_build!())), None);
    }
}
