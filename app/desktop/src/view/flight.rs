//! How the craft flies: times, curves, what limits the way out, and what would narrow each figure.

use propwright_engine::{
    Report, explain,
    finding::{Missing, Unknown},
    flight::{Deciding, Told},
    interval::Interval,
    models::beaufort::beaufort,
    report,
    sweep::{Chart, Curve, Lack, Topic},
};
use propwright_schema::{
    quantity::{Quantity, UnitInfo},
    slot::Slot,
};

use super::findings::{lower_first, span};
use crate::{
    state::Document,
    widget::{
        Span,
        flight_plot::{Axis, Fence, Level, Line, Look, Mark, Plot, Stretch},
    },
};

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
        view.barriers = barriers(flight);
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

const fn name(topic: Topic) -> &'static str {
    match topic {
        Topic::Throttle => "Thrust and current",
        Topic::Speed => "Power and reach",
        Topic::Payload => "Calm time by payload",
        Topic::Capacity => "Calm time by pack",
        Topic::Radio => "Signal to spare",
    }
}

/// SI figures as they are shown in a unit.
fn shown(si: f64, unit: &UnitInfo) -> f64 {
    si / (unit.si_per_step * unit.steps as f64)
}

fn plot(topic: Topic, chart: &Chart) -> Plot {
    let x = |si: f64| shown(si, chart.x.unit);
    let first_unit = chart.curves.first().map_or("", |curve| curve.unit.symbol);
    let lines: Vec<Line> = chart.curves.iter().enumerate().map(|(at, curve)| line(chart, at, curve, first_unit)).collect();
    let y = |line: usize, si: f64| chart.curves.get(line).map_or(si, |curve| shown(si, curve.unit));
    let has_right = lines.iter().any(|line| line.right);
    let ends = |f: fn(f64, f64) -> f64| chart.curves.iter().flat_map(|c| &c.samples).map(|s| x(s.x)).reduce(f).unwrap_or(1.0);
    Plot {
        name: name(topic),
        x: Axis {
            title: chart.x.title.to_owned(),
            unit: chart.x.unit.symbol,
            from: if chart.x.logarithmic { ends(f64::min) } else { ends(f64::min).min(0.0) },
            to: ends(f64::max),
            logarithmic: chart.x.logarithmic,
        },
        left: scale(&lines, false),
        right: has_right.then(|| scale(&lines, true)),
        marks: chart
            .marks
            .iter()
            .map(|mark| Mark { word: mark.point.word(), line: mark.curve, x: x(mark.x), y: y(mark.curve, mark.y) })
            .collect(),
        fences: chart.fences.iter().map(|fence| Fence { word: fence.title, x: x(fence.x) }).collect(),
        levels: chart
            .levels
            .iter()
            .map(|level| Level { word: level.title, line: level.curve, y: y(level.curve, level.y) })
            .collect(),
        stretches: chart
            .stretches
            .iter()
            .map(|stretch| Stretch {
                word: stretch.title,
                closed: stretch.lack == Lack::Infeasible,
                ends: [x(stretch.from), x(stretch.to)],
            })
            .collect(),
        lines,
    }
}

/// A curve in its unit; of several in one unit the later are drawn second and third.
fn line(chart: &Chart, at: usize, curve: &Curve, first_unit: &str) -> Line {
    let y = |si: f64| shown(si, curve.unit);
    let points = curve.samples.iter().map(|sample| {
        let span = sample.y.map(|band| Span { low: y(band.low()), nominal: y(band.nominal()), high: y(band.high()) });
        (shown(sample.x, chart.x.unit), span)
    });
    Line {
        name: curve.title.to_owned(),
        unit: curve.unit.symbol,
        right: curve.unit.symbol != first_unit,
        look: [Look::First, Look::Second, Look::Third][at.min(2)],
        points: points.collect(),
    }
}

/// The scale of all curves at one side: from nothing, or from below it, to a little beyond the largest.
fn scale(lines: &[Line], right: bool) -> Axis {
    let own = || lines.iter().filter(move |line| line.right == right);
    let spans = || own().flat_map(|line| line.points.iter().filter_map(|(_, span)| *span));
    let from = spans().map(|span| span.low).fold(0.0, f64::min);
    let to = spans().map(|span| span.high).fold(from + f64::MIN_POSITIVE, f64::max);
    let of = |line: Option<&Line>| line.map_or((String::new(), ""), |line| (line.name.clone(), line.unit));
    let (title, unit) = of(own().next());
    Axis { title, unit, from, to: to + 0.06 * (to - from), logarithmic: false }
}

/// What a chart rests on besides the report, and what it says of the calm time that the purpose asks for.
fn stated(topic: Topic, chart: &Chart) -> String {
    let each = chart.stated.iter().map(|(title, figure)| format!("{title} {}", explain::rounded(figure)));
    asked(topic, chart).into_iter().chain(each).collect::<Vec<_>>().join(" · ")
}

/// Up to which payload, or from which pack on, the time asked is flown; else how far the best comes.
fn asked(topic: Topic, chart: &Chart) -> Option<String> {
    let level = chart.levels.first()?;
    let curve = chart.curves.get(level.curve)?;
    let unit = |si: f64, unit: &UnitInfo| format!("{} {}", explain::number(shown(si, unit)), unit.symbol);
    let known = || curve.samples.iter().filter_map(|sample| Some((sample.x, sample.y?.nominal())));
    let long: Vec<f64> = known().filter(|(_, y)| *y >= level.y).map(|(x, _)| x).collect();
    let at = |x: f64| unit(x, chart.x.unit);
    let wanted = unit(level.y, curve.unit);
    let most = || unit(known().map(|(_, y)| y).fold(0.0, f64::max), curve.unit);
    match (topic, long.first().zip(long.last())) {
        (Topic::Capacity, Some((from, _))) => Some(format!("{wanted} as asked from about {} on", at(*from))),
        (Topic::Capacity, None) => Some(format!("no pack of this kind flies the {wanted} asked: {} at most", most())),
        (Topic::Payload, Some((_, to))) => Some(format!("{wanted} as asked up to about {}", at(*to))),
        (Topic::Payload, None) => Some(format!("the {wanted} asked are not flown without payload either: {} at most", most())),
        _ => None,
    }
}

fn unmeasured(report: &Report, chart: &Chart) -> String {
    let Some(stretch) = chart.stretches.iter().find(|stretch| stretch.lack == Lack::Unmeasured) else { return String::new() };
    let duty = explain::number(shown(stretch.from, chart.x.unit));
    let full =
        report.figure("rotor-speed").map_or_else(String::new, |speed| format!(", {} at full throttle", explain::figure(&speed)));
    format!(
        "From {duty} % duty on these propellers turn faster than 10 500 rpm{full}: no propeller of the model was measured there. \
         One static point of your own is worth more."
    )
}

fn wind(held: &Interval, document: &Document) -> String {
    let step = |metres_a_second: f64| beaufort(metres_a_second).map(|step| format!("{}, Beaufort {}", step.word, step.force));
    let comfortable = step(held.si()).map_or_else(|_| String::new(), |words| format!(": {words}"));
    let today = document.build.conditions.wind_ms.map(Quantity::decimal).filter(|wind| *wind > 0.0);
    let today = today.and_then(|wind| Some(format!(" Today {} m/s: {}.", explain::number(wind), step(wind).ok()?)));
    format!("Comfortable up to {}{comfortable}.{}", explain::figure(held), today.unwrap_or_default())
}

fn barriers(flight: &report::Flight) -> Vec<Barrier> {
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
