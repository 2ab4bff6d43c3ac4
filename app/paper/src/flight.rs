//! The flight's figures as JSON.

use std::collections::BTreeMap;

use propwright_engine::report::{Deciding, Flight, Mixes, Radius, Times, Told, TurnBack};
use serde::Serialize;

use crate::json::Band;

/// Flight times in minutes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TimesJson {
    /// Hover.
    pub hover: Band,
    /// Calm flight.
    pub calm: Band,
    /// Hard flight.
    pub hard: Band,
    /// Full throttle all the time.
    pub flat_out: Band,
    /// At the speed of the longest flight.
    pub longest: Band,
}

impl From<&Times> for TimesJson {
    fn from(times: &Times) -> Self {
        Self {
            hover: times.hover.into(),
            calm: times.calm.into(),
            hard: times.hard.into(),
            flat_out: times.flat_out.into(),
            longest: times.longest.into(),
        }
    }
}

/// Radii in kilometres.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RadiusJson {
    /// By energy, out and back with reserve and wind.
    pub energy: Band,
    /// By the control link; null when it is not chosen or not published.
    pub control_link: Option<Band>,
    /// By the video link; null when it is not chosen or not published.
    pub video_link: Option<Band>,
    /// To the radio horizon.
    pub horizon: Band,
    /// `energy`, `control link`, `video link` or `horizon`.
    pub limited_by: String,
}

impl From<&Radius> for RadiusJson {
    fn from(radius: &Radius) -> Self {
        Self {
            energy: radius.energy.into(),
            control_link: radius.control_link.map(Band::from),
            video_link: radius.video_link.map(Band::from),
            horizon: radius.horizon.into(),
            limited_by: radius.limited_by.clone(),
        }
    }
}

/// When one turns for home at the latest.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TurnBackJson {
    /// Charge used by then.
    pub used_mah: Band,
    /// Loaded cell by then.
    pub cell_v: Band,
    /// Wind against the way home; 0 when the list says none.
    pub headwind_ms: f64,
    /// Airspeed of the way home.
    pub home_speed_ms: f64,
}

impl From<&TurnBack> for TurnBackJson {
    fn from(line: &TurnBack) -> Self {
        Self {
            used_mah: line.charge.into(),
            cell_v: line.cell.into(),
            headwind_ms: line.headwind.map_or(0.0, |wind| wind.decimals()[1]),
            home_speed_ms: line.speed.decimals()[1],
        }
    }
}

/// An input that decides the spread of the figures.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DecidingJson {
    /// Its name.
    pub input: &'static str,
    /// Its mean share of the variance of the headline figures.
    pub share: f64,
    /// How to know it better.
    pub measure: &'static str,
}

impl From<&Deciding> for DecidingJson {
    fn from(deciding: &Deciding) -> Self {
        Self { input: deciding.name, share: deciding.share, measure: deciding.measure }
    }
}

/// The mixes of the flight times, in per cent.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct MixesJson {
    /// Power of calm flight, of that in hover.
    pub calm_power_percent: f64,
    /// Share of hard flight at full throttle.
    pub hard_full_percent: f64,
    /// Power of the rest of hard flight, of that in hover.
    pub hard_power_percent: f64,
}

impl From<&Mixes> for MixesJson {
    fn from(mixes: &Mixes) -> Self {
        let [calm_power_percent, hard_full_percent, hard_power_percent] =
            [mixes.calm_power, mixes.hard_full, mixes.hard_power].map(|share| share.decimals()[1]);
        Self { calm_power_percent, hard_full_percent, hard_power_percent }
    }
}

/// What is to be told of one figure besides its band.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ToldJson {
    /// The figure without any measurement; null while nothing was measured.
    pub modelled: Option<Band>,
    /// Does it rest on a figure that the user estimated?
    pub estimated: bool,
    /// Up to three inputs that decide most of its band, greatest first.
    pub deciding: Vec<DecidingJson>,
}

impl From<&Told> for ToldJson {
    fn from(told: &Told) -> Self {
        Self {
            modelled: told.modelled.map(Band::from),
            estimated: told.estimated,
            deciding: told.deciding.iter().map(DecidingJson::from).collect(),
        }
    }
}

/// What a craft does in the air.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FlightJson {
    /// Thrust over weight at full throttle, half-charged pack.
    pub thrust_to_weight: Band,
    /// Duty in hover on a fresh pack, 0 to 1.
    pub hover_duty: Band,
    /// Pack current in hover.
    pub hover_current_a: Band,
    /// Pack current at full throttle, fresh pack.
    pub full_throttle_current_a: Band,
    /// Current of each motor at full throttle.
    pub motor_full_throttle_current_a: Band,
    /// Flight times.
    pub time_min: TimesJson,
    /// Top speed in level flight.
    pub top_speed_kmh: Band,
    /// Speed at the usual tilt limit.
    pub tilt_limited_speed_kmh: Band,
    /// Comfortable mean wind.
    pub wind_held_ms: Band,
    /// Path in still air, in all.
    pub path_km: Band,
    /// Speed of that path.
    pub path_speed_kmh: Band,
    /// Speed of the longest flight.
    pub longest_speed_kmh: Band,
    /// Radii.
    pub radius_km: RadiusJson,
    /// When to turn for home.
    pub turn_back: TurnBackJson,
    /// The mixes of the flight times.
    pub mixes: MixesJson,
    /// The inputs that decide most, with what to measure.
    pub deciding: Vec<DecidingJson>,
    /// By the figure's key: what decides its band, and what the models say of it without what was measured.
    pub figures: BTreeMap<&'static str, ToldJson>,
}

impl From<&Flight> for FlightJson {
    fn from(flight: &Flight) -> Self {
        Self {
            thrust_to_weight: flight.thrust_to_weight.into(),
            hover_duty: flight.hover_duty.into(),
            hover_current_a: flight.hover_current.into(),
            full_throttle_current_a: flight.full_throttle_current.into(),
            motor_full_throttle_current_a: flight.motor_full_throttle_current.into(),
            time_min: (&flight.times).into(),
            top_speed_kmh: flight.top_speed.into(),
            tilt_limited_speed_kmh: flight.tilt_limited_speed.into(),
            wind_held_ms: flight.wind_held.into(),
            path_km: flight.path.into(),
            path_speed_kmh: flight.path_speed.into(),
            longest_speed_kmh: flight.longest_speed.into(),
            radius_km: (&flight.radius).into(),
            turn_back: (&flight.turn_back).into(),
            mixes: (&flight.mixes).into(),
            deciding: flight.deciding.iter().map(DecidingJson::from).collect(),
            figures: flight.told.iter().map(|told| (told.key, told.into())).collect(),
        }
    }
}
