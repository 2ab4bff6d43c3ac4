//! A chart of the engine in the units in which it is shown, and what it says in words.

use propwright_engine::{
    Report, explain,
    sweep::{Chart, Curve, Lack, Topic},
};
use propwright_schema::quantity::UnitInfo;

use super::{Axis, Fence, Level, Line, Look, Mark, Plot, Span, Stretch};

/// The name of a chart.
pub const fn name(topic: Topic) -> &'static str {
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

/// The chart in the units in which it is shown.
pub fn plot(topic: Topic, chart: &Chart) -> Plot {
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

/// What a chart rests on besides the report, and what it says of the calm time that the purpose asks for; empty where neither.
pub fn stated(topic: Topic, chart: &Chart) -> String {
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

/// From which duty on no propeller of the model was measured, in words; empty where all were.
pub fn unmeasured(report: &Report, chart: &Chart) -> String {
    let Some(stretch) = chart.stretches.iter().find(|stretch| stretch.lack == Lack::Unmeasured) else { return String::new() };
    let duty = explain::number(shown(stretch.from, chart.x.unit));
    let full =
        report.figure("rotor-speed").map_or_else(String::new, |speed| format!(", {} at full throttle", explain::figure(&speed)));
    format!(
        "From {duty} % duty on these propellers turn faster than 10 500 rpm{full}: no propeller of the model was measured there. \
         One static point of your own is worth more."
    )
}
