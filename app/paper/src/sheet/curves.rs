//! The curves of a flight on paper: each chart with what its pens and signs mean beside it, the conditions, and what ends the way out.

use propwright_engine::{
    Report, explain,
    finding::{Missing, Unknown},
    flight::Flight,
    interval::Interval,
    sweep::{Sweep, Topic},
};

use super::{
    Setting, Sheet,
    chart::{self, FENCE, LEVEL, SIZE, UNMEASURED, chart, hatch, sign, titled},
    face::lines,
    flow::{Cell, Flow, words},
    leaf::{Face, Mark, Tone},
};
use crate::{
    air,
    plot::{self, Plot, reading},
};

/// Share of the breadth that a chart takes; the rest is for its words.
const CHART: f32 = 0.66;
/// Height of a chart as a share of a leaf's: three go on the first leaf with its head, on A4 and Letter.
const HIGH: f32 = 0.285;
/// Height of a chart's name.
const NAME: f32 = 15.0;
/// Space below a chart.
const BELOW: f32 = 9.0;
/// Height of a line of words beside a chart, and the breadth of the signs before them.
const ROW: f32 = 10.2;
const SIGNS: f32 = 24.0;

/// The flight curves of a report.
pub fn flight_curves(report: &Report, sweep: &Sweep, setting: Setting) -> Sheet {
    let build = &report.craft.build;
    let mut flow = Flow::new(setting.format, &build.name, &setting.foot("Flight curves", &build.name));
    flow.title(&format!("Flight curves · {} · bands are P5 to P95", setting.date()));
    flow.paragraph(&conditions(report), 0.0);
    flow.space(5.0);
    let mut lacking = Vec::new();
    for (topic, drawn) in &sweep.charts {
        match drawn {
            Ok(drawn) => one(&mut flow, &plot::plot(*topic, drawn), &plot::stated(*topic, drawn)),
            // What is still to be chosen is said once.
            Err(Missing { what: Unknown::Empty(_), .. }) => {}
            Err(missing) => lacking.push(format!("{}: {}", plot::name(*topic), explain::missing(missing))),
        }
    }
    match &report.flight {
        Some(flight) => ends(&mut flow, flight),
        None => {
            for reason in air::grounded(report) {
                flow.paragraph(&reason, 0.0);
            }
        }
    }
    if !lacking.is_empty() {
        flow.heading("Not drawn");
        for why in &lacking {
            flow.paragraph(why, 0.0);
        }
    }
    remarks(&mut flow, report, sweep);
    flow.finish()
}

/// The day and the load for which the curves hold.
fn conditions(report: &Report) -> String {
    let build = &report.craft.build;
    let day = &build.conditions;
    let altitude =
        day.altitude_m.map_or_else(|| "sea level".to_owned(), |height| format!("{} m above the sea", number(height.decimal())));
    let air = day.temperature_c.map_or_else(|| "standard air".to_owned(), |warm| format!("{} °C", number(warm.decimal())));
    let wind = day.wind_ms.filter(|wind| wind.decimal() > 0.0);
    let wind = wind.map_or_else(|| "no wind".to_owned(), |wind| format!("wind {} m/s", number(wind.decimal())));
    let payload = build.purpose.payload_g.filter(|load| load.decimal() > 0.0);
    let payload = payload.map_or_else(|| "no payload".to_owned(), |load| format!("payload {} g", number(load.decimal())));
    let mass = report.totals.takeoff_mass.as_ref();
    let mass = mass.map_or_else(String::new, |mass| format!("; take-off mass {}", explain::figure(mass)));
    format!("Conditions: {altitude}, {air}, {wind}, {payload}{mass}.")
}

fn number(figure: f64) -> String {
    explain::number(figure).replace('-', "−")
}

/// A chart with its name above and its words beside.
fn one(flow: &mut Flow, plot: &Plot, stated: &str) {
    let (room, high) = (flow.room(), flow.height() * HIGH - NAME - BELOW);
    let wide = room * CHART;
    let mut beside = Beside { marks: Vec::new(), down: 0.0, room: room - wide - 14.0 };
    beside.curves(plot);
    beside.points(plot);
    beside.lines(plot);
    beside.stretches(plot);
    if !stated.is_empty() {
        beside.down += 3.0;
        beside.write(&sentence(stated), Face::Regular, Tone::Soft, 0.0);
    }
    let mut marks = words([0.0, 10.5], 10.0, Face::Bold, Tone::Ink, plot.name);
    let down = |marks: Vec<Mark>, by: [f32; 2]| marks.into_iter().map(move |mark| super::flow::moved(mark, by));
    marks.extend(down(chart(plot, wide, high), [0.0, NAME]));
    let tall = beside.down;
    marks.extend(down(beside.marks, [wide + 14.0, NAME]));
    flow.field(NAME + high.max(tall) + BELOW, marks);
}

/// Words with the first letter large and a stop at the end.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first: String = letters.next().map(|first| first.to_uppercase().collect()).unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}

/// What stands beside a chart: a sign in front, then its words.
struct Beside {
    marks: Vec<Mark>,
    down: f32,
    room: f32,
}

impl Beside {
    fn write(&mut self, text: &str, face: Face, tone: Tone, inward: f32) {
        for line in lines(face, SIZE, text, self.room - inward) {
            self.marks.extend(words([inward, self.down + SIZE], SIZE, face, tone, &line));
            self.down += ROW;
        }
    }

    /// The middle of the next line of words.
    fn middle(&self) -> f32 {
        self.down + 0.65 * SIZE
    }

    fn curves(&mut self, plot: &Plot) {
        for one in &plot.lines {
            let y = self.middle();
            self.marks.push(Mark::Line { through: vec![[0.0, y], [SIGNS - 6.0, y]], pen: chart::pen(one.look) });
            let side = if one.right { ", scale at the right" } else { "" };
            self.write(&format!("{}{side}", titled(&one.name, one.unit)), Face::Regular, Tone::Ink, SIGNS);
        }
        self.down += 2.0;
    }

    /// Each operating point with its place and its figure, and the band of that.
    fn points(&mut self, plot: &Plot) {
        for (nth, mark) in plot.marks.iter().enumerate() {
            self.marks.push(sign(nth, [(SIGNS - 6.0) / 2.0, self.middle()]));
            self.write(mark.word, Face::Bold, Tone::Ink, SIGNS);
            let line = plot.lines.get(mark.line);
            let figure =
                line.and_then(|line| Some(format!("{} {}", line.name, reading::words(&reading::at(line, mark.x)?, line.unit))));
            let place = reading::place(plot, mark.x);
            self.write(
                &figure.map_or_else(|| place.clone(), |figure| format!("{place}: {figure}")),
                Face::Regular,
                Tone::Ink,
                SIGNS,
            );
        }
        self.down += 2.0;
    }

    fn lines(&mut self, plot: &Plot) {
        for level in &plot.levels {
            let y = self.middle();
            self.marks.push(Mark::Line { through: vec![[0.0, y], [SIGNS - 6.0, y]], pen: LEVEL });
            let unit = plot.lines.get(level.line).map_or("", |line| line.unit);
            let off = if chart::within(plot.scale_of(level.line), level.y) { "" } else { ", beyond the scale" };
            let said = reading::words(&plot::Span::exact(level.y), unit);
            self.write(&format!("{}: {said}{off}", level.word), Face::Regular, Tone::Soft, SIGNS);
        }
        for fence in &plot.fences {
            let x = (SIGNS - 6.0) / 2.0;
            let y = self.down + 0.5;
            self.marks.push(Mark::Line { through: vec![[x, y], [x, y + ROW - 2.0]], pen: FENCE });
            let off = if chart::within(&plot.x, fence.x) { "" } else { ", beyond the scale" };
            self.write(&format!("{}: {}{off}", fence.word, reading::place(plot, fence.x)), Face::Regular, Tone::Soft, SIGNS);
        }
    }

    fn stretches(&mut self, plot: &Plot) {
        for stretch in &plot.stretches {
            let y = self.middle();
            if stretch.closed {
                hatch(&mut self.marks, [0.0, y - 3.5, SIGNS - 6.0, y + 3.5]);
            } else {
                self.marks.push(Mark::Line { through: vec![[0.0, y], [SIGNS - 6.0, y]], pen: UNMEASURED });
            }
            let from = reading::place(plot, stretch.ends[0]);
            self.write(&format!("from {from}: {}", stretch.word), Face::Regular, Tone::Soft, SIGNS);
        }
    }
}

/// Shares of the columns: what, the figure in words, the band as a bar.
const ENDS: [f32; 3] = [26.0, 40.0, 34.0];

/// What ends the way out, on one scale, and the wind.
fn ends(flow: &mut Flow, flight: &Flight) {
    flow.heading("What ends the way out");
    let radius = &flight.radius;
    let all: [(&str, Option<Interval>); 4] = [
        ("energy", Some(radius.energy)),
        ("control link", radius.control_link),
        ("video link", radius.video_link),
        ("horizon", Some(radius.horizon)),
    ];
    let farthest = all.iter().filter_map(|(_, figure)| Some(figure.as_ref()?.high)).max().unwrap_or(1);
    for (name, figure) in &all {
        let first = radius.limited_by == *name;
        let bar = figure.as_ref().map_or_else(|| Cell::of(""), |figure| Cell::band_of(figure, farthest));
        let title = if first { Cell::of(format!("{name}, comes first")).bold() } else { Cell::of(*name) };
        flow.row(&ENDS, &[title, Cell::of(super::said(figure.as_ref())).bold(), bar]);
    }
    flow.paragraph(&air::comfortable(&flight.wind_held), 0.0);
    flow.paragraph(&air::turn_back(flight), 0.0);
}

/// Where the models were not measured, and what the curves are not.
fn remarks(flow: &mut Flow, report: &Report, sweep: &Sweep) {
    let Some(throttle) = sweep.chart(Topic::Throttle) else { return };
    flow.space(4.0);
    let unmeasured = plot::unmeasured(report, throttle);
    if !unmeasured.is_empty() {
        flow.small(&unmeasured, 0.0);
    }
    flow.small(
        "The duty is what the controllers give, not the place of the stick: curve, idle and limit lie between. Times are those of \
         the mixes that the build list states, not a forecast of a pilot.",
        0.0,
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_become_a_sentence() {
        assert_eq!(sentence("8 min as asked"), "8 min as asked.");
        assert_eq!(sentence("height of the craft 60 m"), "Height of the craft 60 m.");
    }
}
