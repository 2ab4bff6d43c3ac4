//! How the craft flies: times, curves, what limits the way out, and what would narrow each figure.

use propwright_engine::{
    Report, explain,
    finding::{Missing, Unknown},
    flight::{Deciding, Told},
    interval::Interval,
    models::beaufort::beaufort,
    report,
    sweep::Topic,
};
use propwright_paper::plot::{Plot, Span, name, plot, stated, unmeasured};
use propwright_schema::{quantity::Quantity, slot::Slot};

use super::findings::{lower_first, span};
use crate::state::Document;

/// What a flight time is made of.
#[derive(Debug, Clone, PartialEq)]
pub enum Made {
    /// As these words say.
    Words(String),
    /// At a speed that has its own working: its words.
    Speed(String),
    /// Calm: power in per cent of that of hover.
    Calm(f64),
    /// Hard: per cent of the time at full throttle, power of the rest in per cent of that of hover.
    Hard(f64, f64),
}

/// A flight time.
#[derive(Debug, Clone, PartialEq)]
pub struct Time {
    /// Which flight: "Calm".
    pub name: &'static str,
    /// Its derivation.
    pub id: &'static str,
    /// What it is made of.
    pub made: Made,
    /// The time and its band in words.
    pub words: String,
    /// The same in minutes.
    pub span: Span,
}

/// What can end the way out.
#[derive(Debug, Clone, PartialEq)]
pub struct Barrier {
    /// What it is: "video link".
    pub name: &'static str,
    /// Its derivation.
    pub id: &'static str,
    /// The radius in words.
    pub words: String,
    /// The same in km; nothing when it is not known.
    pub span: Option<Span>,
    /// Does it come first?
    pub first: bool,
    /// Has it a working, be it only what is missing?
    pub worked: bool,
}

/// A figure, how sure it is, and what would narrow it.
#[derive(Debug, Clone, PartialEq)]
pub struct Sure {
    /// What it is.
    pub title: String,
    /// Its derivation.
    pub id: &'static str,
    /// The figure with its band, and whether it rests on an estimate of the user's.
    pub words: String,
    /// What the models say without what was measured, in words; empty where nothing was.
    pub modelled: String,
    /// Inputs with their share of the spread in words, greatest first, and how each is known better.
    pub inputs: Vec<(String, &'static str)>,
}

/// All that page shows.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Flight {
    /// Why nothing is known of the flight; absent while something is.
    pub grounded: Option<String>,
    /// Flight times of the stated mixes, the longest scale in minutes.
    pub times: Vec<Time>,
    /// The curves that can be drawn, each with what it rests on.
    pub plots: Vec<(Plot, String)>,
    /// Why others cannot.
    pub lacking: Vec<String>,
    /// What can end the way out, the wind included.
    pub barriers: Vec<Barrier>,
    /// The wind in words.
    pub wind: String,
    /// The comfortable wind with its band.
    pub wind_held: String,
    /// Where the models were not measured, in words; empty where they were.
    pub unmeasured: String,
    /// What would narrow the figures as a whole, with how it is known better.
    pub deciding: Vec<(String, &'static str)>,
    /// Figures with what would narrow each.
    pub sure: Vec<Sure>,
    /// What was measured and what the models alone say, in words; empty where nothing was.
    pub calibrated: String,
}

/// The view of a document.
pub fn flight(document: &Document) -> Flight {
    let Some(report) = document.report() else { return Flight::default() };
    let mut view = Flight { grounded: grounded(report), ..Flight::default() };
    if let Some(sweep) = &document.curves.sweep {
        for (topic, chart) in &sweep.charts {
            match chart {
                Ok(chart) => view.plots.push((plot(*topic, chart), stated(*topic, chart))),
                // What is still to be chosen is said once.
                Err(Missing { what: Unknown::Empty(_), .. }) => {}
                Err(missing) => view.lacking.push(format!("{}: {}", name(*topic), explain::missing(missing))),
            }
        }
        view.unmeasured = sweep.chart(Topic::Throttle).map_or_else(String::new, |chart| unmeasured(report, chart));
    }
    if let Some(flight) = &report.flight {
        view.times = times(flight);
        view.wind_held = explain::figure(&flight.wind_held);
        view.wind = wind(&flight.wind_held, document);
        view.barriers = barriers(report, flight);
        view.deciding = inputs(&flight.deciding);
        view.sure = flight.told.iter().map(sure).collect();
        view.calibrated = calibrated(flight);
    }
    view
}

/// Slots without which nothing flies.
const TURNING: [Slot; 5] = [Slot::Frame, Slot::Motor, Slot::Propeller, Slot::Esc, Slot::Battery];

/// What is still to be chosen; else the rule about flying says why nothing is known.
fn grounded(report: &Report) -> Option<String> {
    if report.flight.is_some() {
        return None;
    }
    let empty = TURNING.iter().filter(|slot| report.craft.in_slot(**slot).is_empty());
    let empty: Vec<String> = empty.map(|slot| lower_first(slot.title())).collect();
    if !empty.is_empty() {
        return Some(format!("Nothing flies before these are chosen: {}.", empty.join(", ")));
    }
    let said = report.findings.iter().find(|finding| finding.rule == "flies").map(explain::message);
    Some(said.unwrap_or_else(|| "The flight cannot be computed: a figure is missing, see page Together.".to_owned()))
}

fn wind(held: &Interval, document: &Document) -> String {
    let step = |metres_a_second: f64| beaufort(metres_a_second).map(|step| format!("{}, Beaufort {}", step.word, step.force));
    let comfortable = step(held.si()).map_or_else(|_| String::new(), |words| format!(": {words}"));
    let today = document.build.conditions.wind_ms.map(Quantity::decimal).filter(|wind| *wind > 0.0);
    let today = today.and_then(|wind| Some(format!(" Today {} m/s: {}.", explain::number(wind), step(wind).ok()?)));
    format!("Comfortable up to {}{comfortable}.{}", explain::figure(held), today.unwrap_or_default())
}

fn barriers(report: &Report, flight: &report::Flight) -> Vec<Barrier> {
    let radius = &flight.radius;
    let all = [
        ("energy", "radius-energy", Some(radius.energy)),
        ("control link", "radius-control", radius.control_link),
        ("video link", "radius-video", radius.video_link),
        ("horizon", "radius-horizon", Some(radius.horizon)),
    ];
    let one = |(name, id, figure): (&'static str, &'static str, Option<Interval>)| Barrier {
        name,
        id,
        words: figure.map_or_else(|| "not known".to_owned(), |figure| explain::figure(&figure)),
        span: figure.map(|figure| {
            let metres = span(&figure);
            Span { low: metres.low / 1e3, nominal: metres.nominal / 1e3, high: metres.high / 1e3 }
        }),
        first: radius.limited_by == name,
        worked: !report.working(id).is_empty(),
    };
    all.map(one).to_vec()
}

fn times(flight: &report::Flight) -> Vec<Time> {
    let percent = |share: &Interval| share.si() * 100.0;
    let (times, mixes) = (&flight.times, &flight.mixes);
    let longest = format!("at {}", explain::rounded(&flight.longest_speed));
    let each = [
        ("Hover", "time-hover", Made::Words("on one spot".to_owned()), times.hover),
        ("Calm", "time-calm", Made::Calm(percent(&mixes.calm_power)), times.calm),
        ("Hard", "time-hard", Made::Hard(percent(&mixes.hard_full), percent(&mixes.hard_power)), times.hard),
        ("Flat out", "time-flat-out", Made::Words("full throttle all the time".to_owned()), times.flat_out),
        ("Longest", "time-longest", Made::Speed(longest), times.longest),
    ];
    let minutes = |figure: &Interval| {
        let [low, nominal, high] = figure.decimals();
        Span { low, nominal, high }
    };
    each.map(|(name, id, made, time)| Time { name, id, made, words: explain::figure(&time), span: minutes(&time) }).to_vec()
}

fn inputs(deciding: &[Deciding]) -> Vec<(String, &'static str)> {
    deciding.iter().map(|one| (format!("{} {:.0} %", one.name, one.share * 100.0), one.measure)).collect()
}

fn sure(told: &Told) -> Sure {
    Sure {
        title: upper_first(told.title),
        id: told.id,
        words: format!("{}{}", explain::figure(&told.figure), if told.estimated { ", by your estimate" } else { "" }),
        modelled: told.modelled.as_ref().map(explain::figure).unwrap_or_default(),
        inputs: inputs(&told.deciding),
    }
}

/// A title at the beginning of a line.
fn upper_first(title: &str) -> String {
    let mut letters = title.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The flight times as the models alone have them, beside those that were calibrated.
fn calibrated(flight: &report::Flight) -> String {
    let times = flight.told.iter().filter(|told| told.key.starts_with("time_"));
    let each: Vec<String> =
        times.filter_map(|told| Some(format!("{} {}", told.title, explain::figure(told.modelled.as_ref()?)))).collect();
    if each.is_empty() {
        String::new()
    } else {
        format!("Calibrated by what was measured. The models alone say: {}.", each.join(", "))
    }
}
